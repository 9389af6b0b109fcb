package lines_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/lines"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// slabOf gives a slab of 40 ft by 30 ft with lines on it.
func slabOf(ls ...plan.Line) *slab.Slab {
	p := plan.Plan{Field: 5 * in, Lines: ls}
	for _, q := range []geometry.Point{pt(0, 0), pt(40*ft, 0), pt(40*ft, 30*ft), pt(0, 30*ft)} {
		p.Outline = append(p.Outline, plan.Edge{At: q})
	}
	return slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
}

// A floor of 20 ft by 12 ft with tubing 12 in apart has, by hand, 12 rows of 19 ft and 11
// turns of 1 ft: 239 ft. Of circuits of at most 150 ft with 20 ft of way each two do: 119 ft 6 in
// and 20 ft, 279 ft in all. An L that lacks a corner of 8 ft by 6 ft has 6 rows of 19 ft, 6 of
// 11 ft and 11 turns of 1 ft.
func TestTubingByHand(t *testing.T) {
	for _, c := range []struct {
		name string
		line plan.Line
		runs int
		long geometry.Length
		each geometry.Length
	}{
		{"rectangle by two corners", plan.Line{Path: []geometry.Point{pt(22*ft, 14*ft), pt(2*ft, 2*ft)}, Longest: 300 * ft}, 1, 239 * ft, 239 * ft},
		{"two circuits", plan.Line{Path: []geometry.Point{pt(2*ft, 2*ft), pt(22*ft, 14*ft)}, Longest: 150 * ft, Lead: 20 * ft}, 2, 279 * ft, 139*ft + 6*in},
		{"upright rectangle", plan.Line{Path: []geometry.Point{pt(2*ft, 2*ft), pt(14*ft, 2*ft), pt(14*ft, 22*ft), pt(2*ft, 22*ft)}, Longest: 300 * ft}, 1, 239 * ft, 239 * ft},
		{"corner cut out on the right", plan.Line{Path: []geometry.Point{pt(2*ft, 2*ft), pt(22*ft, 2*ft), pt(22*ft, 8*ft), pt(14*ft, 8*ft), pt(14*ft, 14*ft), pt(2*ft, 14*ft)}, Longest: 300 * ft}, 1, 6*19*ft + 6*11*ft + 11*ft, 191 * ft},
		// A U: its bottom of 6 rows, one leg of 6 rows, and the other leg by itself.
		{"u", plan.Line{Path: []geometry.Point{pt(2*ft, 2*ft), pt(22*ft, 2*ft), pt(22*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 8*ft), pt(8*ft, 8*ft), pt(8*ft, 14*ft), pt(2*ft, 14*ft)}, Longest: 300 * ft}, 2, 6*19*ft + 12*5*ft + 5*ft + 6*ft + 5*ft, 0},
	} {
		c.line.Kind, c.line.Spacing, c.line.Diameter = plan.Tubing, 12*in, 5*in/8
		got := lines.Lay(slabOf(c.line))[0]
		if len(got.Runs) != c.runs || (got.Length-c.long).Abs() > geometry.Micrometer || c.each > 0 && (got.Each-c.each).Abs() > geometry.Micrometer {
			t.Errorf("%s: %d circuits, %s, the longest %s; want %d, %s, %s", c.name, len(got.Runs), got.Length.Text(geometry.FeetInches), got.Each.Text(geometry.FeetInches), c.runs, c.long.Text(geometry.FeetInches), c.each.Text(geometry.FeetInches))
		}
	}
}

// However a rectangular floor is turned, its tubing is as long as the closed form says:
// n rows of w − s and n − 1 turns of s, where n = ⌊h / s⌋; no circuit is longer than the longest,
// and together they are the whole.
func TestTubingOfRectangles(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w := geometry.Length(rapid.IntRange(16, 30).Draw(rt, "w")) * ft
		h := geometry.Length(rapid.IntRange(4, 15).Draw(rt, "h")) * ft
		s := geometry.Length(rapid.IntRange(6, 18).Draw(rt, "s")) * in
		lead := geometry.Length(rapid.IntRange(0, 40).Draw(rt, "lead")) * ft
		l := plan.Line{Kind: plan.Tubing, Path: []geometry.Point{pt(ft, ft), pt(ft+w, ft+h)}, Spacing: s, Diameter: in / 2, Longest: 200 * ft, Lead: lead}
		p := slabOf(l).Plan.Rotate(pt(0, 0), float64(rapid.IntRange(0, 359).Draw(rt, "turn")))
		got := lines.Lay(slab.New("", p, nil, geometry.FeetInches, slab.Concrete{}))[0]
		n := h / s
		circuits := geometry.Length(len(got.Runs))
		want := n*(w-s) + (n-1)*s
		if (got.Length-circuits*lead-want).Abs() > 10*geometry.Micrometer || got.Each > 200*ft+geometry.Micrometer || circuits != (want+200*ft-lead-1)/(200*ft-lead) {
			rt.Errorf("%d circuits of at most %v: %v, not %v and %v each", circuits, got.Each, got.Length, want, lead)
		}
	})
}

func ExampleLay() {
	t := slabOf(
		plan.Line{Kind: plan.DrainLine, Path: []geometry.Point{pt(12*ft, 10*ft), pt(12*ft, -4*ft), pt(20*ft, -4*ft)}, Diameter: 3 * in, Cover: 12 * in},
		plan.Line{Kind: plan.Tubing, Path: []geometry.Point{pt(2*ft, 2*ft), pt(38*ft, 28*ft)}, Diameter: 5 * in / 8, Cover: 2 * in, Spacing: 12 * in, Longest: 300 * ft, Lead: 20 * ft},
	)
	for _, l := range lines.Lay(t) {
		fmt.Printf("%s: %s in %d\n", l.Kind, l.Length.Text(geometry.FeetInches), len(l.Runs))
	}
	// Output:
	// drain line: 22'-0" in 1
	// tubing: 1015'-0" in 4
}
