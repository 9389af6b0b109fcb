package hit

import (
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// boltInset is how far in from the face a bolt may stand and still be taken: the
// middle of a 2x12 plate.
const boltInset = 6 * geometry.Inch

// BoltLine gives the stretch square to the edge that a bolt mark stands on, from
// the face inward; false where the edge has no length.
func BoltLine(l plan.Loop, i int, along geometry.Length) (face, inner geometry.Point, ok bool) {
	a, b := l.Ends(i)
	if a == b || along.Abs() > geometry.MaxLength {
		return face, inner, false
	}
	face = geometry.Along(a, b, along)
	return face, face.Add(plan.Turn(geometry.Along(a, b, boltInset).Sub(a), 90)), true
}

// onBolts gives the builder's bolt mark nearest to s within reach.
func onBolts(p plan.Plan, v view.View, s view.XY) Target {
	best, reach := Target{}, float64(edgeReach)
	for k, l := range p.Loops() {
		for i, e := range l {
			for n, m := range e.Bolts {
				face, inner, ok := BoltLine(l, i, m.Along)
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
