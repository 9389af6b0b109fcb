package slab

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Vec is a place or a direction in a turned frame, in nanometers.
type Vec = plane.Vec

// Frame is the slab, or a part of its underside, turned so that an edge lies
// along X. Heights across are measured along the slope.
type Frame struct {
	frame  plane.Frame
	slope  float64 // length along the slope over that in plan, across X
	sides  [][2]Vec
	Lo, Hi Vec
	levels []float64 // the heights of all corners, ascending
	look   *look
}

// look finds the sides of a frame by height, and has room for what its looking
// needs.
type look struct {
	sides *plane.Index // by height alone
	near  []int32
	cuts  []float64
	walls []wall
	out   [][2]float64
}

// wall is a side where it crosses a level strip: at its middle, and its extent.
type wall struct{ mid, lo, hi float64 }

// Frames gives the slab turned to its longest edge, and across it.
func Frames(p plan.Plan) [2]Frame {
	u := Longest(p)
	sides := Outlines(p)
	return [2]Frame{NewFrame(sides, u, 1), NewFrame(sides, u.Left(), 1)}
}

// Longest gives the direction of the longest edge of the outline.
func Longest(p plan.Plan) Vec {
	best := Side{Ux: 1} // of a slab that is round
	for i := range p.Outline {
		a, b := p.Outline.Ends(i)
		if s := NewSide(0, i, a, b); s.Length > best.Length && !p.Outline.OfArc(i) {
			best = s
		}
	}
	return Vec{X: best.Ux, Y: best.Uy}
}

// Outlines gives the sides of the slab and its holes.
func Outlines(p plan.Plan) [][2]geometry.Point {
	var out [][2]geometry.Point
	for _, l := range p.Loops() {
		for i := range l {
			a, b := l.Ends(i)
			out = append(out, [2]geometry.Point{a, b})
		}
	}
	return out
}

// NewFrame turns what is bounded by sides so that the unit vector u lies along X:
// within is where a line from outside has crossed an odd number of them.
func NewFrame(sides [][2]geometry.Point, u Vec, slope float64) Frame {
	f := Frame{frame: plane.Frame{Along: u}, slope: slope, Lo: Vec{X: math.Inf(1), Y: math.Inf(1)}, Hi: Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	f.sides = make([][2]Vec, 0, len(sides))
	f.levels = make([]float64, 0, 2*len(sides))
	boxes := make([]plane.Box, 0, len(sides))
	for _, s := range sides {
		a, b := f.Turn(s[0]), f.Turn(s[1])
		f.sides = append(f.sides, [2]Vec{a, b})
		box := plane.BoxAround(a, b)
		f.Lo = Vec{X: min(f.Lo.X, box.MinX), Y: min(f.Lo.Y, box.MinY)}
		f.Hi = Vec{X: max(f.Hi.X, box.MaxX), Y: max(f.Hi.Y, box.MaxY)}
		boxes = append(boxes, plane.Box{MinY: box.MinY, MaxY: box.MaxY})
		f.levels = append(f.levels, a.Y, b.Y)
	}
	slices.Sort(f.levels)
	f.levels = slices.Compact(f.levels)
	if len(sides) > 0 {
		f.look = &look{sides: plane.NewIndex(boxes)}
	}
	return f
}

// Along gives the direction of X on the plan.
func (f Frame) Along() Vec { return f.frame.Along }

// Tight gives a frame from the lowest to the highest place that it holds.
func (f Frame) Tight() Frame {
	empty := func(y0, y1 float64) bool { return len(f.Spans(y0, y1)) == 0 }
	n := len(f.levels)
	for n > 1 && empty(f.levels[n-2], f.levels[n-1]) {
		n--
	}
	first := 0
	for first < n-1 && empty(f.levels[first], f.levels[first+1]) {
		first++
	}
	if n > 0 {
		f.Lo.Y, f.Hi.Y = f.levels[first], f.levels[n-1]
	}
	return f
}

// Turn gives a point in the frame.
func (f Frame) Turn(p geometry.Point) Vec {
	v := f.frame.In(p).Times(float64(geometry.Meter))
	return Vec{X: v.X, Y: v.Y * f.slope}
}

// Point gives a place of the frame on the plan.
func (f Frame) Point(x, y float64) geometry.Point {
	return f.frame.Out(Vec{X: x, Y: y / f.slope}.Times(1 / float64(geometry.Meter)))
}

// Spans gives the stretches along X that the slab covers somewhere between the
// heights y0 and y1, in order. Between the heights of corners the slab is made
// of trapezoids, whose extent is that of their ends.
func (f Frame) Spans(y0, y1 float64) [][2]float64 {
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
	w.near = w.sides.Near(plane.Box{MinY: y0, MaxY: y1}, w.near[:0])
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
func (f Frame) trapezoids(y0, y1 float64) {
	w := f.look
	mid := (y0 + y1) / 2
	walls := w.walls[:0]
	for _, k := range w.near {
		a, b := f.sides[k][0], f.sides[k][1]
		if (a.Y > mid) == (b.Y > mid) {
			continue
		}
		at := func(y float64) float64 {
			t := min(max((y-a.Y)/(b.Y-a.Y), 0), 1)
			return a.X + t*(b.X-a.X)
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
