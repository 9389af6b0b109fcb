package takeoff

import (
	"github.com/shopspring/decimal"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/stakeout"
)

// Default gives a usual specification: a garage or shop slab with a haunch round
// its edge. Where no source stands, the value is common practice.
func Default() Spec {
	const inch, foot = geometry.Inch, geometry.Foot
	return Spec{
		Mix: Mix{
			Strength:  3000,         // IRC Table R402.2: garage slabs, moderate weathering
			Slump:     5 * inch,     // common practice, with a water reducer
			Aggregate: 3 * inch / 4, // common practice
			Air:       6,            // IRC Table R402.2 note: 5 to 7 percent
			Reducer:   true,
		},
		Order: Order{
			Waste: decimal.NewFromInt(5),
			Step:  decimal.New(25, -2), // quarter yards
			Truck: decimal.NewFromInt(10),
		},
		Base: Base{
			Above:      6 * inch, // IRC R404.1.6, from memory: concrete stands 6 in above grade
			Gravel:     4 * inch, // IRC R506.2.2
			Compaction: decimal.New(12, -1),
			Density:    decimal.New(14, -1),
			FoamWidth:  4 * foot,
			FoamLength: 8 * foot,
			Retarder:   10,       // IRC R506.2.3, recent editions
			Lap:        6 * inch, // IRC R506.2.3
			TurnUp:     6 * inch,
			RollWidth:  20 * foot,
			RollLength: 100 * foot,
		},
		Place: layout.Spec{
			Bars: bars.Spec{
				Size: 4, // IRC R403.1.3.3
				Rows: []bars.Row{ // a double row near the bottom
					{Face: 3 * inch, Bottom: 3 * inch}, // ACI 318-19 table 20.5.1.3.1: cast against earth
					{Face: 8 * inch, Bottom: 3 * inch},
				},
				Grade:   60, // ASTM A615/A615M
				Lap:     bars.Lap{Rule: bars.LapByACI, Length: 24 * inch},
				Stagger: 12 * inch,
				Corner:  bars.CornerBars,
				Joint:   bars.StopAtJoint,
				Stock:   []geometry.Length{20 * foot},
				Yard:    []geometry.Length{},
			},
			Pads:   bars.PadSpec{Size: 4, Spacing: 12 * inch, Cover: 3 * inch},
			Strips: bars.StripSpec{Size: 4, Count: 2, Cover: 3 * inch},
			Field: field.Spec{
				Kind:    field.None,
				Style:   "6x6-W1.4xW1.4", // ASTM A1064/A1064M
				Width:   5 * foot,
				Length:  10 * foot,
				Size:    4,
				Spacing: 18 * inch,
				Cover:   2 * inch,
				Chairs:  3 * foot,
			},
			Dowels: joints.Spec{
				Size:      4,
				Length:    16 * inch,
				Embed:     8 * inch,
				Spacing:   18 * inch,
				End:       6 * inch,
				OldSlab:   4 * inch,
				Clearance: inch / 8,
				Waste:     20,
			},
			Bolts: bolts.Spec{
				Diameter:   inch / 2, // IRC R403.1.6
				Shape:      bolts.Bent,
				Hook:       2 * inch, // 4 diameters; ACI 318-19 17.6.3.2.2, from memory: 3 to 4.5
				Length:     10 * inch,
				Projection: 5 * inch / 2, // plate, washer and nut
				Embed:      7 * inch,     // IRC R403.1.6
				Spacing:    6 * foot,     // IRC R403.1.6, at most
				End:        8 * inch,
				EndMax:     12 * inch,    // IRC R403.1.6
				EndMin:     7 * inch / 2, // IRC R403.1.6: 7 diameters
				Apart:      4 * inch,
				Washer:     3 * inch, // IRC R602.11.1 in high seismic categories
				Stock:      16 * foot,
				Stud:       16 * inch,
				Shift:      3 * inch,
			},
			Forms: forms.Spec{
				Stock:   []geometry.Length{10 * foot, 12 * foot, 16 * foot},
				Stakes:  3 * foot,
				Kickers: 4 * foot,
			},
			SawCuts: sawcuts.Spec{
				Ratio:  30,  // ACI 302.1R: 24 to 36 times the thickness
				Aspect: 1.5, // ACI 302.1R
			},
			StakeOut: stakeout.Spec{Offset: 3 * foot},
		},
	}
}
