package sawcuts

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

var ruleSawBreak = rule.Rule{Name: "A saw cut along a break of the top", Source: "common practice", Step: rule.Pour}

// breakLines notes the breaks of the top that lie along a frame: a cut is moved to one where
// it may.
func (t *sawing) breakLines(p *sawPlan) {
	for _, b := range t.Plan.Top.Breaks {
		for d, f := range p.f {
			u, v := f.Turn(b.From), f.Turn(b.To)
			if math.Abs(v.Y-u.Y) <= askew*math.Abs(v.X-u.X) {
				p.goals[d] = append(p.goals[d], cutLine{(u.Y + v.Y) / 2, AtBreak})
			}
		}
	}
}

// checkBreaks reports breaks of the top that neither a saw cut nor a construction joint lies
// along.
func (t *sawing) checkBreaks(all *laid) {
	lo, hi := t.Rings[0].Bounds()
	for _, b := range t.Plan.Top.Breaks {
		beyond := hi.X - lo.X + hi.Y - lo.Y + geometry.Distance(b.From, lo)
		a := geometry.Along(b.From, b.To, -beyond)
		z := geometry.Along(b.From, b.To, geometry.Distance(b.From, b.To)+beyond)
		for _, in := range t.Through(a, z, kerf) {
			open := false
			for _, share := range [...]geometry.Length{3, 5, 8} { // a cut that crosses it passes one of them at most
				at := geometry.Along(a, z, in.From+(in.To-in.From)*share/11)
				open = open || !all.touch(at) && !t.onJoint(at)
			}
			if open && in.To-in.From > foot {
				t.Find(ruleSawBreak, rule.Note, geometry.Along(a, z, (in.From+in.To)/2),
					"No saw cut lies along the break of the top, %s long: saw it there too, or a crack may run beside it.", t.Text(in.To-in.From))
			}
		}
	}
}

// onJoint tells whether a place lies on a construction joint.
func (t *sawing) onJoint(at geometry.Point) bool {
	for _, c := range t.Plan.Construction {
		if c.From == c.To {
			continue
		}
		if plan.Sideways(c.From, c.To, at.Sub(c.From)).Abs() <= inch {
			return true
		}
	}
	return false
}
