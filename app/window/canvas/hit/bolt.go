package hit

import (
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry/plan"
)

// onBolts gives the builder's bolt mark nearest to s within reach.
func onBolts(p plan.Plan, v view.View, s view.XY) Target {
	best, reach := Target{}, float64(edgeReach)
	for k, l := range p.Loops() {
		for i, e := range l {
			for n, m := range e.Bolts {
				face, inner, ok := l.BoltLine(i, m.Along)
				if !ok {
					continue
				}
				if d := ToSegment(v.Screen(face), v.Screen(inner), s); d < reach {
					best, reach = Target{Kind: Bolt, Loop: k, Index: i, Sub: n}, d
				}
			}
		}
	}
	return best
}
