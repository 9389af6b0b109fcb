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

// A garage with curbs of 6 in and a door of 4 ft in its back edge, and a slab of 24 ft poured
// against that edge later. 10 in higher it stands 4 in over the curb and 10 in in the door: boards
// of 8 and 12 ft over the curb, of 4 ft in the door. 4 in higher it stands lower than the curb, and
// the filler reaches its top there; in the door 4 in lower. Where the garage falls 2 in to its
// front and its curbs are level, 6 in over the back, one beside it 9 in over the front stands 1
// in over the curb, all along.
func TestStepsOverCurbs(t *testing.T) {
	garage := ring(0, 0, 24, 0, 24, 20, 0, 20)
	for i := range garage.Outline {
		garage.Outline[i].Curb = 6 * inch
	}
	garage.Outline[2].Doors = []plan.Door{{From: 8 * foot, Width: 4 * foot}}
	level := garage.Clone()
	level.Top = plan.Top{Curbs: plan.CurbsLevel, Falls: []plan.Fall{{From: geometry.Point{Y: 20 * foot}, Drop: 2 * inch}}}
	type face struct{ long, high geometry.Length }
	for name, c := range map[string]struct {
		garage, other plan.Plan
		up            geometry.Length
		boards        []face
		filler        []face // less than the depth of the face
	}{
		"over it":    {garage, ring(0, 20, 24, 20, 24, 40, 0, 40), 10 * inch, []face{{12 * foot, 4 * inch}, {4 * foot, 10 * inch}, {8 * foot, 4 * inch}}, []face{{12 * foot, 4 * inch}, {4 * foot, 10 * inch}, {8 * foot, 4 * inch}}},
		"against it": {garage, ring(0, 20, 24, 20, 24, 40, 0, 40), 4 * inch, []face{{4 * foot, 4 * inch}}, []face{{12 * foot, 0}, {4 * foot, 4 * inch}, {8 * foot, 0}}},
		"level":      {level, ring(24, 0, 44, 0, 44, 20, 24, 20), 9 * inch, []face{{20 * foot, inch}}, []face{{20 * foot, inch}}},
	} {
		t.Run(name, func(t *testing.T) {
			c.other.Height = c.up
			for i := range c.other.Outline {
				c.other.Outline[i].Section = "Deep"
			}
			c.other.Sections = []plan.Section{{Name: "Deep", Depth: 24 * inch, Bottom: 12 * inch}}
			plans := []plan.Plan{c.garage, c.other}
			var slabs []layout.Slab
			for k, p := range plans {
				s, err := solid.Of(p)
				if err != nil {
					t.Fatal(err)
				}
				slabs = append(slabs, layout.Slab{Plan: p, Solid: s, Curbs: s.Curbs(p.Curbs(plan.OfSlab(plan.Meetings(plans), k)))})
			}
			got, _, err := layout.Of(context.Background(), slabs, spec(nil))
			if err != nil {
				t.Fatal(err)
			}
			near := func(a, b geometry.Length) bool { return (a - b).Abs() < geometry.Micrometer }
			if m := got[1].Meetings[0]; m.Curb != 0 && m.CurbWide != plan.UsualCurb || m.Curb < 6*inch {
				t.Errorf("the curb is %v in high, %v in wide", m.Curb.Inches(), m.CurbWide.Inches())
			}
			n := 0
			for _, f := range got[1].Forms {
				if !f.Step {
					continue
				}
				if n++; n > len(c.boards) || !near(f.Length, c.boards[n-1].long) || !near(f.Depth, c.boards[n-1].high) {
					t.Errorf("board %d: %v in high, %v ft long", n, f.Depth.Inches(), f.Length.Inches()/12)
				}
			}
			if n != len(c.boards) {
				t.Errorf("%d boards", n)
			}
			if len(got[1].Isolation) != len(c.filler) {
				t.Fatalf("filler %+v", got[1].Isolation)
			}
			for i, f := range got[1].Isolation {
				if !near(geometry.Distance(f.A, f.B), c.filler[i].long) || !near(24*inch-f.Depth, c.filler[i].high) {
					t.Errorf("filler %d: %v in high, %v ft long", i, f.Depth.Inches(), geometry.Distance(f.A, f.B).Inches()/12)
				}
			}
		})
	}
}
