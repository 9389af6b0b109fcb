package layout_test

import (
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Mesh in 5 ft by 10 ft sheets on 24 ft by 20 ft, 2 in short of the edges, by
// hand: bands of 5 ft less 8 in lap: 19 ft 8 in takes (236 − 8)/52 = 4.4, 4 whole
// bands and one 28 in wide; 23 ft 8 in takes (284 − 8)/112 = 2.5: two sheets and
// a rest of 60 in, of which a sheet gives two: 4·2 + 2 = 10. A sheet gives two
// strips of 28 in, of which the narrow band takes three: 2 more. 12; 11 have less
// area than the pieces.
func TestMeshByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Field.Kind = field.Mesh }))
	if l.MeshCount != 12 || !l.MeshOptimal {
		t.Errorf("%d sheets", l.MeshCount)
	}
	// Chairs 3 ft apart: 8 by 7.
	if l.Chairs != 56 {
		t.Errorf("%d chairs", l.Chairs)
	}
}

// A retarder of 20 ft by 100 ft with 6 in laps and turn-ups on the same slab:
// 25 ft by 21 ft. Strips of 20 ft along 21 ft: two of 25 ft; half a roll.
func TestRetarderByHand(t *testing.T) {
	y := cover.Ply{Width: 20 * foot, Length: 100 * foot, Lap: 6 * inch, Margin: -6 * inch, Roll: true}
	c := cover.Lay(ring(0, 0, 24, 0, 24, 20, 0, 20), y)
	if c.Count != 1 || len(c.Sheets) != 2 {
		t.Errorf("%d rolls, %d strips", c.Count, len(c.Sheets))
	}
}

// Every point of the slab lies under a sheet, whatever the outline.
func TestCoverIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := awkward(t)
		y := cover.Ply{
			Width:  geometry.Length(rapid.Int64Range(3, 20).Draw(t, "width")) * foot,
			Length: geometry.Length(rapid.Int64Range(6, 100).Draw(t, "length")) * foot,
			Lap:    geometry.Length(rapid.Int64Range(0, 12).Draw(t, "lap")) * inch,
		}
		c := cover.Lay(p, y)
		lo, hi := p.Outline.Corners().Bounds()
		for range 40 {
			q := geometry.Point{
				X: geometry.Length(rapid.Int64Range(int64(lo.X), int64(hi.X)).Draw(t, "x")),
				Y: geometry.Length(rapid.Int64Range(int64(lo.Y), int64(hi.Y)).Draw(t, "y")),
			}
			if onSlab(p, q) && !under(c.Sheets, q, geometry.Micrometer) {
				t.Fatalf("%v is not covered", q)
			}
		}
		if c.Count > len(c.Sheets) {
			t.Fatalf("%d to buy for %d pieces", c.Count, len(c.Sheets))
		}
	})
}

func onSlab(p plan.Plan, q geometry.Point) bool {
	if !plane.In(p.Outline.Corners(), q) {
		return false
	}
	for _, h := range p.Holes {
		if plane.In(h.Loop.Corners(), q) {
			return false
		}
	}
	return true
}

// under tells whether a sheet, wider by slack all round for rounding, holds q.
func under(sheets []cover.Sheet, q geometry.Point, slack geometry.Length) bool {
	for _, s := range sheets {
		in := true
		for i, a := range s.Corners {
			b := s.Corners[(i+1)%4]
			u, v := b.Sub(a), q.Sub(a)
			cross := float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
			if cross < -float64(slack)*float64(geometry.Distance(a, b)) {
				in = false
			}
		}
		if in {
			return true
		}
	}
	return false
}
