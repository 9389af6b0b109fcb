package plan

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// faces gives the sides of curbs that do not lie on the faces of edges.
func (c *curbing) faces(of Curbs) (out []CurbFace) {
	sides := plane.NewSides(c.slab)
	for _, ring := range of.Region() {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			if geometry.Distance(p, q) < geometry.Millimeter {
				continue
			}
			mid := geometry.Along(p, q, geometry.Distance(p, q)/2)
			if onFace(sides, mid) {
				continue
			}
			if k, end, ok := nearestRun(of.Runs, p, q, mid); ok {
				out = append(out, CurbFace{k, p, q, end})
			}
		}
	}
	return out
}

// onFace tells whether a place lies on a side.
func onFace(sides *plane.Sides, p geometry.Point) bool {
	for _, i := range sides.Near(plane.BoxOf(p).Grown(float64(geometry.Millimeter)), nil) {
		a, b := sides.Ends(int(i))
		if _, off := geometry.Nearest(p, a, b); off < geometry.Millimeter {
			return true
		}
	}
	return false
}

// nearestRun gives the run that a face p-q with the middle mid is of: the one whose inner face
// lies nearest, or whose end does where the face is across.
func nearestRun(runs []CurbRun, p, q, mid geometry.Point) (run int, end, ok bool) {
	best := math.Inf(1)
	u := plane.Vec{X: (q.X - p.X).Meters(), Y: (q.Y - p.Y).Meters()}.Unit()
	for k, r := range runs {
		at, away := r.Arc.Nearest(mid)
		x, y := r.Arc.Along(at)
		along := math.Abs(u.Dot(plane.Vec{X: x, Y: y}))
		off := math.Abs(float64(away - r.Width))
		across := along < 0.5
		if across { // an end lies within the width of the run's end
			near := min(geometry.Distance(mid, r.Arc.A), geometry.Distance(mid, r.Arc.B))
			off = float64(geometry.Sixteenth) + math.Max(0, float64(max(near, away)-r.Width))
		}
		if off < best {
			best, run, end, ok = off, k, across, true
		}
	}
	return run, end, ok
}
