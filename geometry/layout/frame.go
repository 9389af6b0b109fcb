package layout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// frame is the slab, or a part of its underside, turned so that an edge lies
// along X. Heights across are measured along the slope.
type frame struct {
	ux, uy float64
	slope  float64 // length along the slope over that in plan, across X
	sides  [][2]vec
	lo, hi vec
	levels []float64 // the heights of all corners, ascending
	look   *look
}

// look finds the sides of a frame by height, and has room for what its looking
// needs.
type look struct {
	sides levels
	near  []int32
	cuts  []float64
	walls []wall
	out   [][2]float64
}

// wall is a side where it crosses a level strip: at its middle, and its extent.
type wall struct{ mid, lo, hi float64 }

// frames gives the slab turned to its longest edge, and across it.
func frames(p plan.Plan) [2]frame {
	ux, uy := longest(p)
	sides := outlines(p)
	return [2]frame{newFrame(sides, ux, uy, 1), newFrame(sides, -uy, ux, 1)}
}

// longest gives the direction of the longest edge of the outline.
func longest(p plan.Plan) (ux, uy float64) {
	best := newSide(0, 0, p.Outline[0].At, p.Outline[1].At)
	for i := range p.Outline {
		a, b := p.Outline.Ends(i)
		if s := newSide(0, i, a, b); s.length > best.length {
			best = s
		}
	}
	return best.ux, best.uy
}

// outlines gives the sides of the slab and its holes.
func outlines(p plan.Plan) [][2]geometry.Point {
	var out [][2]geometry.Point
	for _, l := range p.Loops() {
		for i := range l {
			a, b := l.Ends(i)
			out = append(out, [2]geometry.Point{a, b})
		}
	}
	return out
}

// newFrame turns what is bounded by sides: within is where a line from outside
// has crossed an odd number of them.
func newFrame(sides [][2]geometry.Point, ux, uy, slope float64) frame {
	f := frame{ux: ux, uy: uy, slope: slope, lo: vec{math.Inf(1), math.Inf(1)}, hi: vec{math.Inf(-1), math.Inf(-1)}}
	f.sides = make([][2]vec, 0, len(sides))
	f.levels = make([]float64, 0, 2*len(sides))
	extents := make([][2]float64, 0, len(sides))
	for _, s := range sides {
		a, b := f.turn(s[0]), f.turn(s[1])
		f.sides = append(f.sides, [2]vec{a, b})
		extents = append(extents, [2]float64{min(a.y, b.y), max(a.y, b.y)})
		for _, v := range [...]vec{a, b} {
			f.levels = append(f.levels, v.y)
			f.lo = vec{min(f.lo.x, v.x), min(f.lo.y, v.y)}
			f.hi = vec{max(f.hi.x, v.x), max(f.hi.y, v.y)}
		}
	}
	slices.Sort(f.levels)
	f.levels = slices.Compact(f.levels)
	if len(sides) > 0 {
		f.look = &look{sides: newLevels(extents)}
	}
	return f
}

// tight gives a frame from the lowest to the highest place that it holds.
func (f frame) tight() frame {
	empty := func(y0, y1 float64) bool { return len(f.spans(y0, y1)) == 0 }
	n := len(f.levels)
	for n > 1 && empty(f.levels[n-2], f.levels[n-1]) {
		n--
	}
	first := 0
	for first < n-1 && empty(f.levels[first], f.levels[first+1]) {
		first++
	}
	if n > 0 {
		f.lo.y, f.hi.y = f.levels[first], f.levels[n-1]
	}
	return f
}

func (f frame) turn(p geometry.Point) vec {
	x, y := float64(p.X), float64(p.Y)
	return vec{x*f.ux + y*f.uy, (y*f.ux - x*f.uy) * f.slope}
}

func (f frame) point(x, y float64) geometry.Point {
	y /= f.slope
	return geometry.Point{X: round(x*f.ux - y*f.uy), Y: round(x*f.uy + y*f.ux)}
}

// spans gives the stretches along X that the slab covers somewhere between the
// heights y0 and y1, in order. Between the heights of corners the slab is made
// of trapezoids, whose extent is that of their ends.
func (f frame) spans(y0, y1 float64) [][2]float64 {
	w := f.look
	if w == nil {
		return nil
	}
	cuts := append(w.cuts[:0], y0)
	i, _ := slices.BinarySearch(f.levels, y0)
	for ; i < len(f.levels) && f.levels[i] < y1; i++ {
		if f.levels[i] > cuts[len(cuts)-1]+1 {
			cuts = append(cuts, f.levels[i])
		}
	}
	cuts = append(cuts, y1)
	w.cuts = cuts
	w.near = w.sides.between(y0, y1, w.near[:0])
	w.out = w.out[:0]
	for i := 1; i < len(cuts); i++ {
		f.trapezoids(cuts[i-1], cuts[i])
	}
	return slices.Clone(merge(w.out))
}

// sliver is a width that only rounding makes.
const sliver = float64(10 * geometry.Micrometer)

// trapezoids notes the extents of the slab's parts between two heights that no
// corner lies between, of the sides near.
func (f frame) trapezoids(y0, y1 float64) {
	w := f.look
	mid := (y0 + y1) / 2
	walls := w.walls[:0]
	for _, k := range w.near {
		a, b := f.sides[k][0], f.sides[k][1]
		if (a.y > mid) == (b.y > mid) {
			continue
		}
		at := func(y float64) float64 {
			t := min(max((y-a.y)/(b.y-a.y), 0), 1)
			return a.x + t*(b.x-a.x)
		}
		u, v := at(y0), at(y1)
		walls = append(walls, wall{at(mid), min(u, v), max(u, v)})
	}
	slices.SortFunc(walls, func(a, b wall) int { return cmp.Compare(a.mid, b.mid) })
	for i := 1; i < len(walls); i += 2 {
		if walls[i].mid-walls[i-1].mid < sliver {
			continue
		}
		w.out = append(w.out, [2]float64{walls[i-1].lo, walls[i].hi})
	}
	w.walls = walls
}

// merge joins stretches that overlap or touch, in place.
func merge(in [][2]float64) [][2]float64 {
	slices.SortFunc(in, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	out := in[:0]
	for _, s := range in {
		if n := len(out); n > 0 && s[0] <= out[n-1][1]+1 {
			out[n-1][1] = math.Max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}
