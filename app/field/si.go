package field

import (
	"reflect"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// A job file holds strengths in psi, sheeting in mil and doses in lb/yd³ whatever the
// job's units; a metric job shows and takes them in the units that such things are sold
// in there.

// inSI is how a kind is shown in metric jobs.
type inSI struct {
	times  decimal.Decimal // what is in the file for one that is shown
	places int32           // digits after the point in the file
	shown  int32           // and at most where it is shown
}

// kindsInSI are the kinds that metric jobs show in another unit: NIST SP 811, appendix B.
var kindsInSI = map[Kind]inSI{
	PSI:     {decimal.RequireFromString("145.0377"), 0, 1},  // MPa
	Mil:     {decimal.RequireFromString("39.37008"), 0, 2},  // mm
	Dose:    {decimal.RequireFromString("1.685555"), 3, 2},  // kg/m³
	Density: {decimal.RequireFromString("0.8427775"), 3, 2}, // metric tons in m³ to short tons in yd³
}

// si gives how the kind is shown in jobs in u; false where that is as in the file.
func (k Kind) si(u geometry.Units) (inSI, bool) {
	s, ok := kindsInSI[k]
	return s, ok && u == geometry.Millimeters
}

// inFile gives what is in the file for a number that is shown.
func (s inSI) inFile(shown decimal.Decimal) decimal.Decimal {
	return shown.Mul(s.times).Round(s.places)
}

// about gives the number to show beside one in the file.
func (s inSI) about(inFile decimal.Decimal) decimal.Decimal {
	return inFile.DivRound(s.times, s.shown)
}

// text prints a number of the file as one types it in a metric job: in the job's unit
// where that says it exactly, "25", else with the file's, "3000 psi".
func (k Kind) text(s inSI, inFile decimal.Decimal) string {
	for places := int32(0); places <= s.shown; places++ {
		if d := inFile.DivRound(s.times, places); s.inFile(d).Equal(inFile) {
			return d.String()
		}
	}
	return withUnit(inFile.String(), kinds[k].us)
}

// asNumber gives a value that is a number; false for what is none or not given.
func asNumber(v reflect.Value) (decimal.Decimal, bool) {
	switch {
	case v.Type() == decimalType:
		return v.Interface().(decimal.Decimal), true
	case v.CanInt():
		return decimal.NewFromInt(v.Int()), true
	case v.CanFloat() && v.Float()-v.Float() == 0: // not endless, and one at all
		return plainly(v.Float()), true
	case v.Type().Implements(textWriter):
		d, err := decimal.NewFromString(written(v))
		return d, err == nil
	}
	return decimal.Zero, false
}

// withUnitOf gives a number with the kind's unit, unless it has one already.
func (k Kind) withUnitOf(text string, u geometry.Units) string {
	if _, other := k.si(u); other && strings.HasSuffix(text, kinds[k].us) {
		return text
	}
	return withUnit(text, k.Unit(u))
}

// readSI reads a number typed in a metric job: in the job's unit, bare or not, or in the
// file's; false for no number.
func (k Kind) readSI(s inSI, typed string) (decimal.Decimal, bool) {
	if number, ok := strings.CutSuffix(typed, kinds[k].us); ok {
		d, err := decimal.NewFromString(strings.TrimSpace(number))
		return d, err == nil
	}
	d, err := decimal.NewFromString(strings.TrimSpace(strings.TrimSuffix(typed, kinds[k].si)))
	if err != nil || !short(d, 40) {
		return d, false
	}
	return s.inFile(d), true
}
