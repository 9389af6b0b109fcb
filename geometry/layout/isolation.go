package layout

import "haunchbook.example/geometry"

// Isolation is a strip of filler between the slab and what it is not to be bound
// to.
type Isolation struct {
	Loop, Edge int
	A, B       geometry.Point
	Depth      geometry.Length // of the strip: the slab's there
}

// isolation gives the strips: along joints that are not doweled, and round what
// stands in a hole, as a pier, whose edges are joints (ACI 302.1R).
func (t *site) isolation() []Isolation {
	var out []Isolation
	for _, l := range t.sides {
		for _, s := range l {
			if t.edge(s).Joint && (s.loop > 0 || t.spec.Dowels.Size == 0) {
				out = append(out, Isolation{Loop: s.loop, Edge: s.edge, A: s.a, B: s.b, Depth: t.depthAtFace(s)})
			}
		}
	}
	return out
}
