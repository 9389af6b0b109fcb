package layout_test

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/plan"
)

// A door that ends 1/2 in before a corner leaves no plate there: the next wall's starts
// at the corner, not a plate's width past it. With 1 in left there is one.
func TestPlateBesideDoorAtCorner(t *testing.T) {
	for left, want := range map[geometry.Length]geometry.Length{inch / 2: 0, inch: 11 * inch / 2} {
		p := ring(0, 0, 24, 0, 24, 20, 0, 20)
		p.Outline[0].Doors = []plan.Door{{From: 16*foot - left, Width: 8 * foot}}
		l := lay(t, p, spec(nil))
		if got := l.Walls[1].Pieces[0].From; got != want {
			t.Errorf("%s left: the next plate starts at %s, not %s", left.Text(0), got.Text(0), want.Text(0))
		}
	}
}

// At a corner of 22° between a joint and a free edge a dowel 8 in long, 6 in from the
// corner, would end off the slab; the first stands where its end has 1 1/2 in of cover
// from that edge: (8 in + (1 1/2 in + 1/4 in)/cos 22°)/tan 22° = 24.5 in, or it is told.
func TestDowelsKeepCoverAtSharpCorners(t *testing.T) {
	p := ring(0, 0, 20, 0, 20, 8)
	p.Outline[0].Joint, p.Outline[0].Wall, p.Outline[0].Section = true, "", ""
	l := lay(t, p, spec(func(s *layout.Spec) {
		s.Dowels.Size, s.Dowels.Length, s.Dowels.Embed, s.Dowels.End = 4, 16*inch, 8*inch, 6*inch
	}))
	if len(l.Dowels) == 0 {
		t.Fatal("no dowels")
	}
	for _, w := range l.Dowels {
		if _, away := geometry.Nearest(w.Inner, p.Outline[2].At, p.Outline[0].At); away < 7*inch/4 {
			t.Errorf("the dowel at %s ends %s from the free edge", w.Along.Text(0), away.Text(0))
		}
	}
	if got, want := l.Dowels[0].Along.Inches(), (8+1.75/math.Cos(math.Atan(0.4)))/0.4; math.Abs(got-want) > 0.5 {
		t.Errorf("the first dowel stands at %.2f in, %.2f is near enough", got, want)
	}
}

// Where the haunch under a door runs out by 8 in over 6 in, a bar 3 in off the bottom
// turns up before the ramp's foot by (3 in + 1/4 in)·tan(53.13°/2) = 1.625 in, and so
// keeps its 3 in from the ramp.
func TestBarsKeepOffRamps(t *testing.T) {
	p := ring(0, 0, 40, 0, 40, 20, 0, 20)
	p.Sections = []plan.Section{{Name: "Edge", Depth: 16 * inch, Bottom: 12 * inch, Taper: 8 * inch}, {Name: "Deep", Depth: 24 * inch, Bottom: 12 * inch, Taper: 8 * inch}}
	for i := range p.Outline {
		p.Outline[i].Section = "Edge"
	}
	p.Outline[0].Doors = []plan.Door{{From: 15 * foot, Width: 10 * foot, Section: "Deep", RunOut: 6 * inch}}
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Size, s.Bars.Rows = 4, []bars.Row{{Face: 3 * inch, Bottom: 3 * inch}} }))
	found := 0
	for _, b := range l.Bars {
		for i, d := range b.Depths {
			if d != 24*inch-3*inch-inch/4 || b.Path[i].Y > foot || i > 0 && b.Depths[i-1] == d && i+1 < len(b.Depths) && b.Depths[i+1] == d {
				continue
			}
			if i > 0 && b.Depths[i-1] != d || i+1 < len(b.Depths) && b.Depths[i+1] != d {
				found++
				if x := b.Path[i].X.Inches(); math.Abs(x-(180+1.625)) > 0.01 && math.Abs(x-(300-1.625)) > 0.01 {
					t.Errorf("a bar turns up at %.3f in", x)
				}
			}
		}
	}
	if found != 2 {
		t.Errorf("%d turns up, not 2", found)
	}
}

// A cover short by less than what is printed is not printed as what is asked.
func TestCoverIsNotPrintedAsAsked(t *testing.T) {
	const mm = geometry.Millimeter
	l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
		s.Units, s.Bars.Rows = geometry.Millimeters, []bars.Row{{Face: 75 * mm, Bottom: 75*mm - mm/4}}
	}))
	if !finds(l, "Cover", "Row 1 has 74 mm to the bottom") {
		t.Errorf("%v", broken(l))
	}
}
