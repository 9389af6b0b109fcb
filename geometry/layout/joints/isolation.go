package joints

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Isolation is a strip of filler between the slab and what it is not to be bound
// to.
type Isolation struct {
	Loop, Edge int // -1 of a block-out round a column
	Pad        int // that the column stands on, from 1; 0 for none
	A, B       geometry.Point
	Depth      geometry.Length // of the strip: the slab's there, or what it shares with the other slab
}

// Isolate gives the strips: along joints that are not doweled, against other slabs of the job,
// and round what stands in a hole, as a pier, whose edges are joints (ACI 302.1R).
func Isolate(t *slab.Slab, dowels Spec) []Isolation {
	var out []Isolation
	for _, l := range t.Sides {
		for _, s := range l {
			if t.Edge(s).Joint && (s.Loop > 0 || dowels.None()) {
				out = append(out, Isolation{Loop: s.Loop, Edge: s.Edge, A: s.A, B: s.B, Depth: t.DepthAtFace(s)})
			}
			for _, m := range t.Against(s) {
				if doweled(t, m, dowels) {
					continue
				}
				for _, on := range t.Faces(m) {
					if depth := shared(t, s, on); depth > 0 {
						out = append(out, Isolation{Loop: s.Loop, Edge: s.Edge, A: s.At(on.From, 0), B: s.At(on.To, 0), Depth: depth})
					}
				}
			}
		}
	}
	return out
}

// doweled tells whether dowels can hold a slab level with another that it is poured against:
// they are asked for, the job has some, and both slabs lie beside each other.
func doweled(t *slab.Slab, m plan.Meeting, dowels Spec) bool {
	top, bottom := beside(t, m)
	return m.Doweled && m.Loop == 0 && !dowels.None() && bottom > top
}

// shared gives how much of its face a slab has against the other one, where that is most: all of
// it, but for what stands over one that lies lower, or over its curb; 0 or less where it ends
// above that.
func shared(t *slab.Slab, s slab.Side, on slab.Face) geometry.Length {
	return t.DepthAtFace(s) - max(0, on.Least)
}

// beside gives from where to where, below its top, a slab has the other one beside it all along.
func beside(t *slab.Slab, m plan.Meeting) (top, bottom geometry.Length) {
	return max(0, m.Lower), min(t.DepthAtFace(t.Sides[m.Loop][m.Edge]), m.Least+m.Field)
}
