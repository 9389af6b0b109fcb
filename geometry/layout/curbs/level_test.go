package curbs_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// levelled is 24 ft by 20 ft and falls from its back to its front, with level curbs.
func levelled(high, drop geometry.Length) *slab.Slab {
	const ft = geometry.Foot
	p := plan.Plan{Field: 5 * geometry.Inch}
	for _, q := range [][2]geometry.Length{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * ft, Y: q[1] * ft}, Curb: high})
	}
	p.Top = plan.Top{Falls: []plan.Fall{{From: geometry.Point{Y: 20 * ft}, Drop: drop}}, Curbs: plan.CurbsLevel}
	sol := solid.OfSound(p)
	s := slab.New("", p, sol, geometry.FeetInches, slab.Concrete{Strength: 3000})
	s.Curbs = sol.Curbs(p.Curbs(nil))
	return s
}

// 6 in over the back, 9 in in front: 2x10 of 9 1/4 in front and on the sides, where they are
// ripped on a taper from 9 to 6 in, and 2x8 at the back.
func TestLevelBoards(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	spec := forms.Spec{Stock: []geometry.Length{16 * ft}, Stakes: 3 * ft}
	n := 0
	for _, f := range forms.Curbs(levelled(6*in, 3*in), spec) {
		if f.Curb != forms.CurbOuter {
			continue
		}
		n++
		want := [4]struct {
			board string
			a, b  geometry.Length
		}{{"2x10", 9 * in, 9 * in}, {"2x10", 9 * in, 6 * in}, {"2x8", 6 * in, 6 * in}, {"2x10", 6 * in, 9 * in}}[f.Edge]
		if a, b := f.Ends(); f.Board.Name != want.board || (a-want.a).Abs() > 2 || (b-want.b).Abs() > 2 {
			t.Errorf("edge %d: %s from %s to %s high", f.Edge+1, f.Board.Name, a.Text(0), b.Text(0))
		}
	}
	if n != 4 {
		t.Errorf("%d outer boards", n)
	}
}

// 6 in over the back, 20 in in front: along a side of 20 ft a 2x12, as wide as 11 1/4 in, from the
// front until the slab has come up to the other, 8 3/4 in under the top: 14 in in 20 ft, so 11 1/4
// in in 16'-0 7/8". The upper one, 2x10, goes all along: 8 3/4 in high in front, 6 in at the back.
func TestLevelBoardsOverEachOther(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	spec := forms.Spec{Stock: []geometry.Length{16 * ft}, Stakes: 3 * ft}
	var side []forms.Form
	hung := 0
	for _, f := range forms.Curbs(levelled(6*in, 14*in), spec) {
		if f.Curb == forms.CurbOuter && f.Edge == 1 {
			side = append(side, f)
		}
		if f.Curb == forms.CurbInner && f.Edge == 1 && len(f.Hangers) > 0 {
			hung++
		}
	}
	if len(side) != 2 || hung != 1 {
		t.Fatalf("%d boards, %d hung: %+v", len(side), hung, side)
	}
	low, up := side[0], side[1]
	if a, b := low.Ends(); low.Board.Name != "2x12" || (a-45*in/4).Abs() > 2 || b.Abs() > 2 || (geometry.Distance(low.A, low.B)-16*ft-7*in/8).Abs() > in/16 {
		t.Errorf("below %s, %s to %s over %s", low.Board.Name, a.Text(0), b.Text(0), geometry.Distance(low.A, low.B).Text(0))
	}
	if a, b := up.Ends(); up.Board.Name != "2x10" || (a-35*in/4).Abs() > 2 || (b-6*in).Abs() > 2 || up.Up != low.Depth {
		t.Errorf("above %s, %s to %s", up.Board.Name, a.Text(0), b.Text(0))
	}
}

// An outer board along a jog as long as boards are thick, before an inside corner where it stops
// short of the next by as much, is still a board: one of no length would be cut from no stock.
func TestBoardsOnShortJogs(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	p := plan.Plan{Field: 5 * in}
	for _, q := range [][2]geometry.Length{{0, 0}, {10 * ft, 0}, {10 * ft, 3 * in / 2}, {20 * ft, 3 * in / 2}, {20 * ft, 20 * ft}, {0, 20 * ft}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0], Y: q[1]}, Curb: 6 * in})
	}
	s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Strength: 3000})
	s.Curbs = p.Curbs(nil)
	for _, f := range forms.Curbs(s, forms.Spec{Stock: []geometry.Length{16 * ft}, Stakes: 3 * ft}) {
		for _, b := range f.Boards {
			if b <= 0 {
				t.Errorf("%s of edge %d: a board %s long", f.Curb, f.Edge+1, b.Text(geometry.FeetInches))
			}
		}
	}
}
