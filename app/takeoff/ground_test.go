package takeoff_test

import (
	"math"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A 24 by 20 ft slab, field 6 in, edge 12 in for 12 in and then a taper of 6 in over
// 12 in, on 4 in of gravel and 2 in of foam. In plan the field is 20 by 16 ft, 320
// ft², the taper 22 by 18 ft less that, 76 ft², and the flat of the edge 84 ft². Down
// the taper, 1 in 2, its area is √1.25 times that.
//
// Wherever the base lies, what is bought, dug and set follow it.
func TestBaseUnder(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Sections = []plan.Section{{Name: "Edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 12 * inch}}
	s := takeoff.Default()
	s.Base.Gravel, s.Base.Foam, s.Base.Above = 4*inch, 2*inch, 0
	slope := math.Sqrt(1.25)
	// Concrete: 320 and 84 ft² at 6 and 12 in; the taper at 6 in and what it has
	// beyond, whose areas are 76, 22 × 18 less 21 × 17, and 0 from top to bottom.
	concrete := 320*0.5 + 84*1 + 76*0.5 + (76+4*(22*18-21*17))/6.0*0.5
	for _, c := range []struct {
		under      takeoff.Under
		area, dig  float64 // ft², ft³
		board      geometry.Length
		sheetsCut  bool
		underThick geometry.Length
	}{
		{takeoff.FieldAndHaunches, 320 + 84 + 76*slope, concrete + 480*0.5, 12*inch + 6*inch - 45*inch/4, true, 6 * inch},
		{takeoff.FieldOnly, 320, concrete + 320*0.5, 12*inch - 45*inch/4, false, 0},
	} {
		t.Run(c.under.String(), func(t *testing.T) {
			s.Base.Under = c.under
			got := take(t, p, s, geometry.FeetInches)
			for k, want := range map[takeoff.Kind]float64{
				takeoff.BaseArea: c.area, takeoff.FoamArea: c.area, takeoff.GravelVolume: c.area / 3 / 27 * 1.2, takeoff.Digging: c.dig / 27,
			} {
				if v := line(t, got, k); math.Abs(v-want) > 1e-6*want {
					t.Errorf("%s is %.6f, want %.6f", k, v, want)
				}
			}
			slab := got.Slabs[0]
			if cut := slab.Foam.Cut > 0; cut != c.sheetsCut || math.Abs((slab.Foam.Area+slab.Foam.Cut)/0.09290304-c.area) > 1e-6 {
				t.Errorf("foam covers %.3f ft² and %.3f cut", slab.Foam.Area/0.09290304, slab.Foam.Cut/0.09290304)
			}
			for _, g := range slab.Layout.Grades {
				if want := g.Bottom - c.underThick; g.Dig != want || g.Top-g.Bottom != 12*inch {
					t.Errorf("corner %d: dig to %s, want %s", g.Corner+1, g.Dig.Text(0), want.Text(0))
				}
			}
			for _, f := range slab.Layout.Forms {
				if f.Below != c.board {
					t.Errorf("edge %d: %s dug below the board, want %s", f.Edge+1, f.Below.Text(0), c.board.Text(0))
				}
			}
		})
	}
	// A side without a haunch stands on the base of the field.
	p.Outline[0].Section = ""
	for _, f := range take(t, p, s, geometry.FeetInches).Slabs[0].Layout.Forms {
		if want := 6*inch + 6*inch - 11*inch/2; f.Edge == 0 && f.Below != want {
			t.Errorf("without a haunch %s is dug below the board, want %s", f.Below.Text(0), want.Text(0))
		}
	}
}
