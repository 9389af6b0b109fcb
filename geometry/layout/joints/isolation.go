package joints

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// Isolation is a strip of filler between the slab and what it is not to be bound
// to.
type Isolation struct {
	Loop, Edge int
	A, B       geometry.Point
	Depth      geometry.Length // of the strip: the slab's there
}

// Isolate gives the strips: along joints that are not doweled, and round what
// stands in a hole, as a pier, whose edges are joints (ACI 302.1R).
func Isolate(t *slab.Slab, dowels Spec) []Isolation {
	var out []Isolation
	for _, l := range t.Sides {
		for _, s := range l {
			if t.Edge(s).Joint && (s.Loop > 0 || dowels.None()) {
				out = append(out, Isolation{Loop: s.Loop, Edge: s.Edge, A: s.A, B: s.B, Depth: t.DepthAtFace(s)})
			}
		}
	}
	return out
}
