package joints_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/joints"
)

// Plates of the usual sizes are told nothing of in a slab of 4 in, in feet and inches and
// in millimeters; thinner ones are.
func TestUsualPlates(t *testing.T) {
	const inch, mm = geometry.Inch, geometry.Millimeter
	for u, d := range map[geometry.Units]joints.Spec{
		geometry.FeetInches:  {Thickness: 3 * inch / 8, Width: 2 * inch, PlateLength: 12 * inch, PlateEmbed: 6 * inch, PlateSpacing: 18 * inch, End: 6 * inch},
		geometry.Millimeters: {Thickness: 10 * mm, Width: 50 * mm, PlateLength: 300 * mm, PlateEmbed: 150 * mm, PlateSpacing: 450 * mm, End: 150 * mm},
	} {
		d.Kind, d.Size, d.OldSlab = joints.Plates, 4, 4*inch
		told := func() int {
			s := shed()
			s.Units = u
			if n := len(joints.Dowels(s, d, bars.NewSegments(nil))); n == 0 {
				t.Fatal("no dowels")
			}
			n := 0
			for _, f := range s.Findings {
				if !f.Planning {
					t.Log(f.Said())
					n++
				}
			}
			return n
		}
		if n := told(); n != 0 {
			t.Errorf("%v: told %d", u, n)
		}
		if d.Thickness -= mm; told() != 1 {
			t.Errorf("%v: a thinner plate is not told", u)
		}
	}
}
