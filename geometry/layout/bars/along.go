package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Run is a straight of a bar beside an edge that it lies along.
type Run struct {
	Loop, Edge int
	From, To   geometry.Length // along the edge from its start, From the lesser
	Inset      geometry.Length // of the bar's center from the face
	Depth      geometry.Length // of its center below the top, the least of the run
}

// leastStraight is the shortest straight of a bar bent along an arc, of which the others are
// chords.
const leastStraight = 2 * geometry.Foot

// farOff is how far from an edge a bar still counts as along it.
const farOff = 6 * geometry.Foot

// Along gives where a bar of a plan lies, as it is measured on the ground: each of its
// straights by the nearest edge that it is parallel to. Others have none.
func (b Bar) Along(p plan.Plan) []Run {
	var out []Run
	loops := p.Loops()
	for i := 1; i < len(b.Path); i++ {
		u, v := b.Path[i-1], b.Path[i]
		bar := slab.NewSide(0, 0, u, v)
		if bar.Length < geometry.Inch || b.Radius > 0 && bar.Length < leastStraight {
			continue
		}
		depth := b.Depth
		if b.Depths != nil {
			depth = min(b.Depths[i-1], b.Depths[i])
		}
		best, found := Run{Inset: farOff}, false
		for k, l := range loops {
			for e := range l {
				if l[e].Middle != 0 {
					continue
				}
				a, c := l.Ends(e)
				s := slab.NewSide(k, e, a, c)
				from, inset := s.Project(u)
				to, _ := s.Project(v)
				if from, to = min(from, to), max(from, to); math.Abs(s.Ux*bar.Uy-s.Uy*bar.Ux) < 1e-3 && inset >= 0 && inset < best.Inset && to > 0 && from < s.Length {
					best, found = Run{k, e, from, to, inset, depth}, true
				}
			}
		}
		if found {
			out = append(out, best)
		}
	}
	return out
}
