package solid

import (
	"math"

	"haunchbook/geometry"
	"haunchbook/geometry/plan"
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
// polygon, or over all of it for nil: each plane over the part where it counts,
// which is convex.
func (t *top) integrate(r *region, within []vec) float64 {
	if within == nil {
		lo, hi := r.loops[0][0], r.loops[0][0]
		for _, v := range r.loops[0] {
			lo = vec{min(lo.x, v.x), min(lo.y, v.y)}
			hi = vec{max(hi.x, v.x), max(hi.y, v.y)}
		}
		within = []vec{lo, {hi.x, lo.y}, hi, {lo.x, hi.y}}
	}
	sum := 0.0
	var cur, next []vec
	for i, f := range t.planes {
		cur = append(cur[:0], within...)
		for j, g := range t.planes {
			d := f.minus(g)
			if t.ridge {
				d = g.minus(f)
			}
			if j == i || j < i && d == (plane{}) {
				if j < i { // the same plane twice counts once
					cur = cur[:0]
				}
				continue
			}
			next = clip(next[:0], cur, d)
			cur, next = next, cur
		}
		if len(cur) > 2 {
			sum += r.integrate(cur, f)
		}
	}
	return sum
}

// TopAt gives the height of the top at q above its lowest point on the slab.
func (s *Solid) TopAt(q geometry.Point) geometry.Length {
	if s.top == nil {
		return 0
	}
	return length(s.top.at(s.region.vec(q)))
}
