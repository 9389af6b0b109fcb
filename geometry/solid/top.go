package solid

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// top is the height of a falling top, the higher or the lower of several
// planes, above its lowest point on the slab.
type top struct {
	planes []plane
	ridge  bool
}

// newTop gives nil for a level top.
func newTop(t plan.Top, r *region) *top {
	out := &top{ridge: t.Meet == plan.Ridge}
	for _, f := range t.Falls {
		to, d := r.vec(f.To), r.vec(f.From).sub(r.vec(f.To))
		g := d.times(f.Drop.Metres() / d.dot(d))
		out.planes = append(out.planes, plane{-g.dot(to), g})
	}
	if len(out.planes) == 0 {
		return nil
	}
	low := out.lowest(r)
	for i := range out.planes {
		out.planes[i].c -= low
	}
	return out
}

func (t *top) at(v vec) float64 {
	h := t.planes[0].at(v)
	for _, f := range t.planes[1:] {
		if t.ridge {
			h = min(h, f.at(v))
		} else {
			h = max(h, f.at(v))
		}
	}
	return h
}

// lowest gives the least height on the slab. It lies at a corner, where a line
// of equal heights of two planes meets a side, or where two such lines meet.
func (t *top) lowest(r *region) float64 {
	low := math.Inf(1)
	var lines []plane
	for i, f := range t.planes {
		for _, g := range t.planes[:i] {
			lines = append(lines, f.minus(g))
		}
	}
	for _, s := range r.sides {
		low = min(low, t.at(s[0]))
		for _, l := range lines {
			if fa, fb := l.at(s[0]), l.at(s[1]); (fa < 0) != (fb < 0) {
				low = min(low, t.at(lerp(s[0], s[1], fa/(fa-fb))))
			}
		}
	}
	for i, l := range lines {
		for _, m := range lines[:i] {
			if d := l.g.cross(m.g); d != 0 {
				v := vec{(l.g.y*m.c - m.g.y*l.c) / d, (m.g.x*l.c - l.g.x*m.c) / d}
				if r.contains(v) {
					low = min(low, t.at(v))
				}
			}
		}
	}
	return low
}

// integrate gives the integral of the height over the slab within a convex
// polygon, or over all of it for nil.
func (t *top) integrate(r *region, within []vec) float64 {
	if within == nil {
		within = r.frame()
	}
	sum := 0.0
	for i, f := range t.planes {
		if part := t.counts(within, i); len(part) > 2 {
			sum += r.integrate(part, f)
		}
	}
	return sum
}

// counts gives the part of a convex polygon in which plane i is the top; it is
// convex. Of equal planes the first counts.
func (t *top) counts(within []vec, i int) []vec {
	cur := slices.Clone(within)
	for j, g := range t.planes {
		d := t.planes[i].minus(g)
		if t.ridge {
			d = plane{}.minus(d)
		}
		switch {
		case j == i:
		case j < i && d == (plane{}):
			return nil
		default:
			cur = clip(nil, cur, d)
		}
	}
	return cur
}

// frame gives the rectangle that holds the slab.
func (r *region) frame() []vec {
	b := boxOf(r.loops[0])
	return []vec{{b.MinX, b.MinY}, {b.MaxX, b.MinY}, {b.MaxX, b.MaxY}, {b.MinX, b.MaxY}}
}

// TopAt gives the height of the top at q above its lowest point on the slab.
func (s *Solid) TopAt(q geometry.Point) geometry.Length {
	if s.top == nil {
		return 0
	}
	return length(s.top.at(s.region.vec(q)))
}
