package solid

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// top is the height of a falling top, the higher or the lower of several
// planes, above its lowest point on the slab.
type top struct {
	planes []plane.Linear // of the falls, or one of a level top that breaks, then beyond the breaks
	breaks int            // the first of those beyond a break
	ridge  bool
	around plane.Box // the slab with as much again on each side
	live   []int     // the planes that are the top somewhere in it
}

// newTop gives nil for a level top.
func newTop(t plan.Top, r *region) *top {
	out := &top{ridge: t.Lower()}
	for _, f := range t.Falls {
		to, d := r.In(f.To), r.In(f.From).Sub(r.In(f.To))
		g := d.Times(f.Drop.Meters() / d.Dot(d))
		out.planes = append(out.planes, plane.Linear{C: -g.Dot(to), G: g})
	}
	if len(out.planes) == 0 && len(t.Breaks) > 0 {
		out.planes = append(out.planes, plane.Linear{})
	}
	if len(out.planes) == 0 {
		return nil
	}
	out.breaks = len(out.planes)
	for _, b := range t.Breaks {
		out.planes = append(out.planes, past(out.planes[0], b, r))
	}
	b := plane.BoxAround(r.loops[0]...)
	out.around = b.Grown(max(b.MaxX-b.MinX, b.MaxY-b.MinY))
	for i := range out.planes {
		if len(out.counts(corners(out.around), i)) > 2 {
			out.live = append(out.live, i)
		}
	}
	low := out.lowest(r)
	for i := range out.planes {
		out.planes[i].C -= low
	}
	return out
}

// past gives the plane beyond a break of a plane: they meet in the break's line.
func past(of plane.Linear, b plan.Break, r *region) plane.Linear {
	from := r.In(b.From)
	away := r.In(b.To).Sub(from).Unit().Left()
	g := of.G.Sub(away.Times(b.Drop.Meters() / b.Over.Meters()))
	return plane.Linear{C: of.At(from) - g.Dot(from), G: g}
}

// drawn gives the fall that plane i is of, by its number in the plan, or the break that it
// lies beyond; -1 where it is of none.
func (t *top) drawn(i, falls int) (fall, gradeBreak int) {
	switch {
	case i >= t.breaks:
		return -1, i - t.breaks
	case i >= falls:
		return -1, -1
	}
	return i, -1
}

func (t *top) at(v plane.Vec) float64 {
	h := math.Inf(-1)
	if t.ridge {
		h = math.Inf(1)
	}
	add := func(f plane.Linear) {
		if t.ridge {
			h = min(h, f.At(v))
		} else {
			h = max(h, f.At(v))
		}
	}
	if len(t.live) > 0 && t.around.Distance(v) == 0 {
		for _, i := range t.live {
			add(t.planes[i])
		}
		return h
	}
	for _, f := range t.planes {
		add(f)
	}
	return h
}

// lowest gives the least height on the slab. It lies at a corner, or on the border of
// the part where one plane is the top: where that has a corner, or meets a side.
func (t *top) lowest(r *region) float64 {
	low := math.Inf(1)
	for _, s := range r.sides {
		low = min(low, t.at(s[0]))
	}
	frame := r.frame()
	for _, i := range t.live {
		part := t.counts(frame, i)
		for k, v := range part {
			if r.contains(v) {
				low = min(low, t.at(v))
			}
			for _, s := range r.sides {
				if at, ok := meeting(v, part[(k+1)%len(part)], s[0], s[1]); ok {
					low = min(low, t.at(at))
				}
			}
		}
	}
	return low
}

// meeting gives where the line from a to b crosses that from c to d.
func meeting(a, b, c, d plane.Vec) (plane.Vec, bool) {
	ab, cd := b.Sub(a), d.Sub(c)
	fa, fb := cd.Cross(a.Sub(c)), cd.Cross(b.Sub(c))
	fc, fd := ab.Cross(c.Sub(a)), ab.Cross(d.Sub(a))
	if (fa < 0) == (fb < 0) || (fc < 0) == (fd < 0) {
		return plane.Vec{}, false
	}
	return plane.Lerp(a, b, fa/(fa-fb)), true
}

// integrate gives the integral of the height over the slab within a convex
// polygon, or over all of it for nil.
func (t *top) integrate(r *region, within []plane.Vec) float64 {
	if within == nil {
		within = r.frame()
	}
	sum := 0.0
	for _, i := range t.live {
		if part := t.counts(within, i); len(part) > 2 {
			sum += r.integrate(part, t.planes[i])
		}
	}
	return sum
}

// counts gives the part of a convex polygon in which plane i is the top; it is
// convex. Of equal planes the first counts.
func (t *top) counts(within []plane.Vec, i int) []plane.Vec {
	cur := slices.Clone(within)
	for j, g := range t.planes {
		if len(cur) == 0 {
			return nil
		}
		d := t.planes[i].Minus(g)
		if t.ridge {
			d = d.Negated()
		}
		switch {
		case j == i:
		case j < i && d == (plane.Linear{}):
			return nil
		default:
			cur = plane.Clip(nil, cur, d)
		}
	}
	return cur
}

// frame gives the rectangle that holds the slab.
func (r *region) frame() []plane.Vec { return corners(plane.BoxAround(r.loops[0]...)) }

// corners gives the corners of a box, counter-clockwise.
func corners(b plane.Box) []plane.Vec {
	return []plane.Vec{{X: b.MinX, Y: b.MinY}, {X: b.MaxX, Y: b.MinY}, {X: b.MaxX, Y: b.MaxY}, {X: b.MinX, Y: b.MaxY}}
}

// TopAt gives the height of the top at q above its lowest point on the slab.
func (s *Solid) TopAt(q geometry.Point) geometry.Length {
	if s.top == nil {
		return 0
	}
	return geometry.FromMeters(s.top.at(s.region.In(q)))
}
