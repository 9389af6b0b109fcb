package curbs_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/curbs"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// What is not built is told, once for each edge, and nothing of what is.
func TestCurbsThatAreLeftOut(t *testing.T) {
	s := garage()
	if curbs.Check(s); len(s.Findings) > 0 {
		t.Errorf("found %v", s.Findings)
	}
	p := s.Plan.Clone()
	p.Outline[1].SetJoint(true)
	p.Outline[2].Curb = 40 * geometry.Inch
	met := []plan.Meeting{
		{Loop: 0, Edge: 3, From: 2 * geometry.Foot, To: 6 * geometry.Foot, Other: 1, Later: true},
		{Loop: 0, Edge: 3, From: 8 * geometry.Foot, To: 9 * geometry.Foot, Other: 2}, // poured against the curb
	}
	s = slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
	s.Meetings, s.Curbs = met, p.Curbs(met)
	curbs.Check(s)
	want := []string{"is a joint with the old slab", "from 2'-0\" to 6'-0\"", "it is a wall", "meet here"}
	for _, w := range want {
		n := 0
		for _, f := range s.Findings {
			if strings.Contains(f.Text, w) {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%q is told %d times: %v", w, n, s.Findings)
		}
	}
	if len(s.Curbs.Runs) != 5 {
		t.Errorf("%d stretches", len(s.Curbs.Runs))
	}
}

// Boards by hand. Curbs of 6 in take a 2x8, ripped by 1 1/4 in: on the outer faces of 4, 11, 20,
// 24 and 20 ft, longer by a board at outside corners; on the inner faces, shorter by one at each
// corner between two boards, longer by one where they hold an end of 8 in.
func TestBoardsOfCurbs(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	var outer, inner, ends geometry.Length
	n, hangers := 0, 0
	for _, f := range forms.Curbs(garage(), forms.Spec{Stock: []geometry.Length{16 * ft}, Stakes: 3 * ft}) {
		n, hangers = n+1, hangers+len(f.Hangers)
		if f.Board.Name != "2x8" || f.Ripped != 5*in/4 || f.Depth != 6*in || f.Up != 0 || len(f.Stakes) > 0 {
			t.Errorf("%+v", f)
		}
		switch f.Curb {
		case forms.CurbOuter:
			outer += f.Length
		case forms.CurbInner:
			inner += f.Length
		case forms.CurbEnd:
			ends += f.Length
		}
	}
	// Outer: 79 ft and 4 corners. Inner: 24 - 4/3, 20 - 4/3 twice each, less 9: four corners less, and two ends more: but an
	// end goes before the face that follows it, so that one of them holds each.
	if outer != 79*ft+4*3*in/2 || ends != 16*in || n != 12 {
		t.Errorf("outer %s, ends %s, %d forms", outer.Text(geometry.FeetInches), ends.Text(geometry.FeetInches), n)
	}
	if want := 2*(22*ft+8*in) + 2*(18*ft+8*in) - 9*ft - 4*3*in/2 + 3*in/2; inner != want {
		t.Errorf("inner %s, want %s", inner.Text(geometry.FeetInches), want.Text(geometry.FeetInches))
	}
	if hangers == 0 {
		t.Error("nothing holds the inner boards")
	}
	if c := forms.Curbs(func() *slab.Slab { s := garage(); s.Curbs = plan.Curbs{}; return s }(), forms.Spec{}); c != nil {
		t.Errorf("%d forms without curbs", len(c))
	}
}

// The bar lies 1 1/2 in from the face and the top: its middle 1 3/4 in, and 4 1/4 in over the
// slab in a curb of 6 in. It is bent round all corners and open at the door alone. In curbs of
// 16 in an upright bar stands each 4 ft at most, from 1 1/2 in under the top to 3 in over the
// ground, with a hook of 12 diameters.
func TestBarsOfCurbs(t *testing.T) {
	const in = geometry.Inch
	spec := bars.Spec{Size: 4, Grade: 60, Lap: bars.Lap{Rule: bars.LapByDiameters}, Stock: []geometry.Length{20 * geometry.Foot}}
	steel := bars.CurbSpec{Count: 1, Size: 4, Cover: 3 * in / 2, Upright: 4, Spacing: 48 * in, Above: 12 * in}
	laid, laps := bars.InCurbs(garage(), spec, steel)
	if len(laps) != 1 || laps[0].Length != 20*in {
		t.Errorf("laps %v", laps)
	}
	bent := 0
	for _, b := range laid {
		bent += len(b.Bends)
		if b.Depth != -6*in+7*in/4 || b.Of != (bars.Part{Kind: bars.InCurb, N: 1}) {
			t.Errorf("%+v", b)
		}
	}
	if bent != 4 {
		t.Errorf("%d bends at 4 corners", bent)
	}
	p := garage().Plan.Clone()
	for i := range p.Outline {
		p.Outline[i].Curb = 16 * in
	}
	s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
	s.Curbs = p.Curbs(nil)
	laid, _ = bars.InCurbs(s, spec, steel)
	up := 0
	for _, b := range laid {
		if b.Of.N > 0 {
			continue
		}
		up++
		if b.Depths[0] != -(16*in-3*in/2) || b.Depths[1] != 5*in-3*in-in/4 || len(b.Bends) != 1 || b.Legs[1] < 6*in {
			t.Errorf("%+v", b)
		}
	}
	// 4 ft: 2; 11 ft: 9 ft between, 4; 20: 18 between, 6; 24: 22, 7; 20: 6.
	if up != 3+3+6+7+6 && up != 2+4+6+7+6 {
		t.Errorf("%d upright bars", up)
	}
	thin := garage()
	p = thin.Plan.Clone()
	for i := range p.Outline {
		p.Outline[i].CurbWidth = 3 * in
	}
	thin.Curbs = p.Curbs(nil)
	if laid, _ := bars.InCurbs(thin, spec, steel); len(laid) > 0 || len(thin.Findings) != 1 {
		t.Errorf("%d bars in curbs without room, %v", len(laid), thin.Findings)
	}
}

// A door beside a corner that opens into the curb of the next edge is told, where that ends, also
// if no curb is left.
func TestCurbEndsBeforeADoorIsTold(t *testing.T) {
	for from, want := range map[geometry.Length]int{2 * geometry.Inch: 1, 8 * geometry.Inch: 0} {
		p := garage().Plan.Clone()
		p.Outline[1].Doors = []plan.Door{{From: from, Width: 3 * geometry.Foot}}
		s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
		s.Curbs = p.Curbs(nil)
		curbs.Check(s)
		n := 0
		for _, f := range s.Findings {
			if strings.Contains(f.Text, "The curb on edge 1 ends from 23'-4\" to 24'-0\", before door 1 of edge 2") {
				n++
			}
		}
		if n != want || len(s.Findings) != want {
			t.Errorf("a door %s from the corner: %v", from.Text(0), s.Findings)
		}
	}
	p := garage().Plan.Clone() // all the curb there is: the first 6 in of an edge, which beyond is poured against a slab
	for i := range p.Outline {
		p.Outline[i].Curb, p.Outline[i].Doors = 0, nil
	}
	p.Outline[1].Curb, p.Outline[1].CurbWidth = 6*geometry.Inch, 8*geometry.Inch
	p.Outline[0].Doors = []plan.Door{{From: 20 * geometry.Foot, Width: 4 * geometry.Foot}}
	met := []plan.Meeting{{Loop: 0, Edge: 1, From: 6 * geometry.Inch, To: 20 * geometry.Foot, Other: 1, Later: true}}
	s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
	s.Meetings, s.Curbs = met, p.Curbs(met)
	curbs.Check(s)
	if !s.Curbs.None() || len(s.Findings) != 2 || !strings.Contains(s.Findings[1].Text, "The curb on edge 2 ends from 0\" to 6\", before door 1 of edge 1") {
		t.Errorf("none is left of %d: %v", len(s.Curbs.Runs), s.Findings)
	}
}

// Along a tongue as wide as two faces with their covers no upright bar has room, and it is told.
func TestUprightBarsWithoutRoomAreTold(t *testing.T) {
	const in = geometry.Inch
	spec := bars.Spec{Size: 4, Grade: 60, Lap: bars.Lap{Rule: bars.LapByDiameters}, Stock: []geometry.Length{20 * geometry.Foot}}
	steel := bars.CurbSpec{Count: 1, Size: 4, Cover: 3 * in / 2, Upright: 4, Spacing: 48 * in, Above: 12 * in}
	for wide, want := range map[geometry.Length]int{3 * in: 1, 24 * in: 0} {
		p := plan.Plan{Field: 5 * in} // a tongue so wide, with a curb of 8 in along its side
		for _, q := range [][2]geometry.Length{{0, 0}, {20 * geometry.Foot, 0}, {20 * geometry.Foot, wide}, {10 * geometry.Foot, wide}, {10 * geometry.Foot, 10 * geometry.Foot}, {0, 10 * geometry.Foot}} {
			p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0], Y: q[1]}})
		}
		p.Outline[2].Curb, p.Outline[2].CurbWidth = 16*in, 8*in
		s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
		s.Curbs = p.Curbs(nil)
		laid, _ := bars.InCurbs(s, spec, steel)
		up, told := 0, 0
		for _, b := range laid {
			if b.Of.N == 0 {
				up++
			}
		}
		for _, f := range s.Findings {
			if strings.Contains(f.Text, "Nowhere along the curb on edge 3") {
				told++
			}
		}
		if told != want || (up > 0) != (want == 0) {
			t.Errorf("a tongue of %s: %d upright bars, told %d times: %v", wide.Text(0), up, told, s.Findings)
		}
	}
}
