package layout_test

import (
	"context"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// A house slab lies 6 in over the lowest place of a garage's, against the garage's back edge, 24
// ft long. Where the garage falls 3 1/4 in from there to its door, it lies 2 3/4 in lower all
// along. Where it falls 8 in along that edge, from 6 in lower to 2 in higher. With an apron that
// drops 1/2 in per ft beyond a line that meets the edge 18 ft along, level before it, 3 in at the
// corner: from 3 in to 6 in lower. Two falls that part in a ridge in the middle, each of 4 in:
// from 2 in lower to 6 in at the corners.
func TestStepsOfTopsThatFall(t *testing.T) {
	at := func(x, y float64) geometry.Point {
		return geometry.Point{X: geometry.Length(x * float64(foot)), Y: geometry.Length(y * float64(foot))}
	}
	for name, c := range map[string]struct {
		top          plan.Top
		lower, least geometry.Length
	}{
		"level":     {plan.Top{}, 6 * inch, 6 * inch},
		"to a door": {plan.Top{Falls: []plan.Fall{{From: at(0, 20), To: at(0, 0), Drop: 13 * inch / 4}}}, 11 * inch / 4, 11 * inch / 4},
		"along":     {plan.Top{Falls: []plan.Fall{{From: at(0, 0), To: at(24, 0), Drop: 8 * inch}}}, 6 * inch, -2 * inch},
		"an apron":  {plan.Top{Breaks: []plan.Break{{From: at(18, 20), To: at(18, 0), Drop: inch / 2, Over: foot}}}, 6 * inch, 3 * inch},
		"a ridge": {plan.Top{Meet: plan.Ridge, Falls: []plan.Fall{
			{From: at(12, 0), To: at(0, 0), Drop: 4 * inch}, {From: at(12, 0), To: at(24, 0), Drop: 4 * inch}}}, 6 * inch, 2 * inch},
	} {
		t.Run(name, func(t *testing.T) {
			garage, house := ring(0, 0, 24, 0, 24, 20, 0, 20), ring(0, 20, 24, 20, 24, 40, 0, 40)
			garage.Top, house.Height = c.top, 6*inch
			var slabs []layout.Slab
			for _, p := range []plan.Plan{garage, house} {
				s, err := solid.Of(p)
				if err != nil {
					t.Fatal(err)
				}
				slabs = append(slabs, layout.Slab{Plan: p, Solid: s})
			}
			got, _, err := layout.Of(context.Background(), slabs, spec(nil))
			if err != nil || len(got[0].Meetings) != 1 || len(got[1].Meetings) != 1 {
				t.Fatalf("%+v, %v", got, err)
			}
			near := func(a, b geometry.Length) bool { return (a - b).Abs() < geometry.Micrometer }
			if m := got[1].Meetings[0]; !near(m.Lower, c.lower) || !near(m.Least, c.least) {
				t.Errorf("the garage lies %v to %v in lower", m.Least.Inches(), m.Lower.Inches())
			}
			if m := got[0].Meetings[0]; !near(m.Lower, -c.least) || !near(m.Least, -c.lower) {
				t.Errorf("the house lies %v to %v in lower", m.Least.Inches(), m.Lower.Inches())
			}
		})
	}
}
