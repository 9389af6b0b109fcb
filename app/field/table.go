package field

import "slices"

// Lengths in nanometers, for the bounds and the usual values of rows.
const (
	inch = 25.4e6
	foot = 12 * inch
	yard = 3 * foot
	far  = 1e13 // 10 km, geometry.MaxLength
	deep = 1e10 // 10 m: nobody pours a slab edge of that depth
)

const (
	practice = "common practice, no source"
	plenty   = 1e18 // no bound
)

// all lists the groups of rows in the order of the work.
func all() [][]Row {
	return [][]Row{
		jobRows, slabRows, lineRows, surveyRows, groundRows,
		specRows, mixRows, orderRows, slices.Concat(baseRows, frostRows),
		placeRows, stakeRows, formRows, barRows, padRows, stripRows, curbRows, fieldRows, dowelRows, boltRows, sawRows,
		holdRows, accountRows, contractRows, changeRows, invoiceRows, paymentRows, paperRows,
		pourRows, weatherRows, forecastRows, crewRows, truckRows, reachRows,
		priceRows, quantityRows, termRows, optionRows, listRows, itemRows, taskRows, feeRows,
		visitRows, sketchRows,
	}
}

// besides lists the groups of what is kept beside a job.
func besides() [][]Row { return [][]Row{loadRows, cylinderRows} }
