package sawcuts_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Of a slab of 24 by 20 ft, whose cut across would lie at 10 ft, that one is moved to a break of
// the top at 9 ft. A break that no cut can be moved to is told, unless a joint lies there.
func TestCutsAlongBreaks(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	lay := func(y, end geometry.Length, joint bool) ([]sawcuts.Cut, []string) {
		p := plan.Plan{Field: 6 * in}.WithOutline(plan.Like(geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}, plan.Edge{}))
		b := plan.Break{From: geometry.Point{X: 24 * ft, Y: y}, To: geometry.Point{X: 4 * ft, Y: end}, Drop: in, Over: 4 * ft}
		p.Top.Breaks = []plan.Break{b}
		if joint {
			p.Construction = []plan.Construction{{From: b.From, To: b.To}}
		}
		s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Slump: 5 * in, Aggregate: in})
		cuts := new(sawcuts.Known).Lay(s, sawcuts.Spec{Ratio: 30, Aspect: 1.5})
		var told []string
		for _, f := range s.Findings {
			if strings.Contains(f.Text, "break of the top") {
				told = append(told, f.Text)
			}
		}
		return cuts, told
	}
	cuts, told := lay(9*ft, 9*ft, false)
	along := 0
	for _, c := range cuts {
		if c.Why == sawcuts.AtBreak && c.A.Y == 9*ft && c.B.Y == 9*ft {
			along++
		}
	}
	if along == 0 || len(told) > 0 {
		t.Errorf("cuts %+v, told %q", cuts, told)
	}
	for name, c := range map[string]struct {
		y, end geometry.Length
		joint  bool
		told   int
	}{"too near the edge": {3 * ft, 3 * ft, false, 1}, "slant": {9 * ft, 7 * ft, false, 1}, "with a joint": {3 * ft, 3 * ft, true, 0}, "beside the slab": {-3 * ft, -3 * ft, false, 0}} {
		if _, told := lay(c.y, c.end, c.joint); len(told) != c.told {
			t.Errorf("%s: told %q", name, told)
		}
	}
}
