package layout_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

const foot2 = 0.3048 * 0.3048 // m²

func solidOf(t testing.TB, p plan.Plan) *solid.Solid {
	t.Helper()
	s, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Foam of 4 ft by 8 ft under 24 ft by 20 ft with a 6 in field and a 12 in edge, 12
// in wide with a slope of 6 in by 6 in, worked by hand.
//
// The field is 21 ft by 17 ft: 357 ft². Across, 5 bands of 4 ft take two sheets
// and 12 in each, and one band of 1 ft takes 96, 96 and 12 in: 18 pieces. The
// flats are 12 in wide and 24 + 19 + 23 + 18 ft long: 84 ft². The slopes are
// 6√2 = 8.49 in wide and 22 and 18 ft long at their lower side, 21 and 17 ft at
// the upper: 2·(21.5 + 17.5)·8.49/12 = 55.15 ft².
//
// To cut: 10 whole sheets, and one for the five pieces of 12 in by 4 ft, of which
// 3 ft are left. 12 in wide: 2 + 9 lengths of 96, one of 84, and 36, 24 and 12 in
// from what is left: 12 strips. 8 1/2 in wide: 8 lengths of 96, 2 of 72 and 2 of
// 24 in from what is left: 10 strips. From 48 in: twice 4 of 12, twice 1 of 12
// with 4 of 8 1/2, once 2 with 2: 5 sheets. In all 16; 15 have less area.
func TestFoamByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	c := cover.Foam(p, solidOf(t, p), 4*foot, 8*foot, true)
	if c.Count != 16 || !c.Optimal || c.Flat != 18 {
		t.Errorf("%d sheets, proven %v, %d pieces under the field", c.Count, c.Optimal, c.Flat)
	}
	if flat, cut := c.Area/foot2, c.Cut/foot2; math.Abs(flat-357) > 1e-6 || math.Abs(cut-84-78*math.Sqrt2/2) > 1e-6 {
		t.Errorf("%.3f ft² flat, %.3f cut", flat, cut)
	}
	// Without haunches: 15 whole sheets either way.
	for i := range p.Outline {
		p.Outline[i].Section = ""
	}
	if c := cover.Foam(p, solidOf(t, p), 4*foot, 8*foot, true); c.Count != 15 || !c.Optimal || c.Cut != 0 {
		t.Errorf("flat: %d sheets", c.Count)
	}
}

// Under 12 ft 1 in by 8 ft 1 in no piece is narrower than 2 in: the rests of 1 in are 2 in
// wide, and the pieces beside them 1 in less. A slope of 1 in by 1 in, 1.41 in wide, has
// no pieces and is filled: one gap on each of four sides.
func TestFoamWithoutSlivers(t *testing.T) {
	p := ring(0, 0, 12+1.0/12, 0, 12+1.0/12, 8+1.0/12, 0, 8+1.0/12)
	for i := range p.Outline {
		p.Outline[i].Section = ""
	}
	c := cover.Foam(p, solidOf(t, p), 4*foot, 8*foot, true)
	narrow := 0
	for _, s := range c.Sheets {
		if min(s.Width, s.Length) < 2*inch-2 {
			t.Errorf("a piece of %s by %s", s.Width.Text(0), s.Length.Text(0))
		}
		if (min(s.Width, s.Length) - 2*inch).Abs() < 2 {
			narrow++
		}
	}
	if narrow == 0 || len(c.Filled) != 0 {
		t.Errorf("%d pieces of 2 in, %d gaps filled", narrow, len(c.Filled))
	}
	p = ring(0, 0, 12, 0, 12, 8, 0, 8)
	p.Sections = []plan.Section{{Name: p.Outline[0].Section, Depth: p.Field + inch, Bottom: 12 * inch, Taper: inch}}
	if c := cover.Foam(p, solidOf(t, p), 4*foot, 12*foot, true); len(c.Filled) != 4 {
		t.Errorf("%d gaps filled, not 4: %v", len(c.Filled), c.Filled)
	}
}

// Down 6 in over 6 in a sheet is 6√2 − 6 = 2.485 in longer than in plan.
func TestDrape(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	if d := cover.Drape(p).Inches(); math.Abs(d-6*(math.Sqrt2-1)) > 1e-6 {
		t.Errorf("%.4f in", d)
	}
	p.Outline[1].Doors = []plan.Door{{From: foot, Width: 5 * foot, Section: "Deep"}} // 12 in over 12 in
	if d := cover.Drape(p).Inches(); math.Abs(d-12*(math.Sqrt2-1)) > 1e-6 {
		t.Errorf("under the door %.4f in", d)
	}
}

// Whatever the slab: its underside, as the solid has it, is what is covered, and
// every place of it lies over a piece; no piece is larger than a sheet, and the
// sheets have at least the area.
func TestFoamIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := awkward(t)
		if rapid.Bool().Draw(t, "pad") {
			lo, hi := p.Outline.Corners().Bounds()
			pad := plan.Pad{Center: geometry.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}, Width: 3 * foot, Length: 2 * foot, Depth: 14 * inch, Turn: 20, Taper: 5 * inch}
			p.Pads = append(p.Pads, pad)
			if len(p.Validate(geometry.FeetInches)) > 0 {
				p.Pads = nil
			}
		}
		s, err := solid.Of(p)
		if err != nil {
			t.Fatal(err)
		}
		width, length := 4*foot, 8*foot
		c := cover.Foam(p, s, width, length, true)
		if c.TooMany {
			t.Skip("more than is laid")
		}
		if under := s.Underside(); math.Abs(c.Area+c.Cut-under) > 1e-6*under+1e-5 {
			t.Fatalf("%.6f m² under the field and %.6f cut, the underside has %.6f", c.Area, c.Cut, under)
		}
		filled := 0.0
		for _, g := range c.Filled {
			if filled += g.Area(); min(g.Width, g.Length) >= 2*inch {
				t.Fatalf("%s by %s is filled, which can be cut", g.Width.Text(0), g.Length.Text(0))
			}
		}
		if got := float64(c.Count) * width.Meters() * length.Meters(); got < c.Area+c.Cut-filled-1e-3 {
			t.Fatalf("%d sheets have %.3f m² for %.3f", c.Count, got, c.Area+c.Cut)
		}
		for _, piece := range c.Sheets {
			if piece.Width > width || piece.Length > length || min(piece.Width, piece.Length) < 2*inch-2 {
				t.Fatalf("a piece of %s by %s", piece.Width.Text(0), piece.Length.Text(0))
			}
		}
		lo, hi := p.Outline.Corners().Bounds()
		for range 40 {
			q := geometry.Point{
				X: geometry.Length(rapid.Int64Range(int64(lo.X), int64(hi.X)).Draw(t, "x")),
				Y: geometry.Length(rapid.Int64Range(int64(lo.Y), int64(hi.Y)).Draw(t, "y")),
			}
			if onSlab(p, q) && !under(c.Sheets, q, geometry.Millimeter) && !under(c.Filled, q, geometry.Millimeter) {
				t.Fatalf("%v has no foam under it", q)
			}
		}
	})
}
