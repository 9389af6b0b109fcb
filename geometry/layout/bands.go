package layout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/layout/cutting"
	"haunchbook/geometry/plan"
)

// Ply is goods that cover the slab side by side: mesh, foam, a vapor retarder.
type Ply struct {
	Width, Length geometry.Length // of one sheet or roll
	Lap           geometry.Length // over the neighbour, at sides and ends
	Margin        geometry.Length // short of the outline; negative to turn up beyond it
	Roll          bool
}

// Cover is a ply laid out on the plan.
type Cover struct {
	Sheets  []Sheet
	Count   int  // sheets or rolls to buy
	Optimal bool // proven the fewest that these sheets can be cut from
	TooMany bool // more than this program lays out: nothing is laid
}

// Lay covers the slab, along whichever of the two directions of its longest edge
// takes fewer sheets or rolls. A ply of no size gives no cover.
func Lay(p plan.Plan, y Ply) Cover {
	if y.Width <= y.Lap || y.Length <= y.Lap {
		return Cover{}
	}
	var best Cover
	for k, f := range frames(p) {
		c := lay(f, y)
		if k == 0 || c.Count < best.Count || c.Count == best.Count && len(c.Sheets) < len(best.Sheets) {
			best = c
		}
	}
	return best
}

// goodsStep is what sheets and rolls are cut to.
const goodsStep = geometry.Inch / 2

// maxSheets bounds how many sheets are laid out one by one.
const maxSheets = 20000

func lay(f frame, y Ply) Cover {
	step, lap, length := float64(y.Width-y.Lap), float64(y.Lap), float64(y.Length)
	margin := float64(y.Margin)
	lo, hi := f.lo.y+margin, f.hi.y-margin
	var c Cover
	if (hi-lo)/step*math.Max(1, (f.hi.x-f.lo.x)/(length-lap)) > maxSheets {
		return Cover{TooMany: true}
	}
	var pieces []int64
	add := func(x0, x1, y0, y1 float64) {
		c.Sheets = append(c.Sheets, Sheet{Roll: y.Roll, Corners: [4]geometry.Point{f.point(x0, y0), f.point(x1, y0), f.point(x1, y1), f.point(x0, y1)}})
		pieces = append(pieces, int64(math.Round(x1-x0)))
	}
	for at := lo; at < hi-1; at += step {
		top := math.Min(at+float64(y.Width), hi)
		for _, s := range f.spans(math.Max(at, f.lo.y), math.Min(top, f.hi.y)) {
			from, to := s[0]+margin, s[1]-margin
			for to-from > 1 {
				end := math.Min(from+length, to)
				add(from, end, at, top)
				if end == to {
					break
				}
				from = end - lap
			}
		}
		if top == hi {
			break
		}
	}
	demands := make([]cutting.Demand, len(pieces))
	for i, l := range pieces {
		demands[i] = cutting.Demand{Length: roundUpTo(l, int64(goodsStep)), Count: 1}
		demands[i].Length = min(demands[i].Length, int64(y.Length))
	}
	r, err := cutting.Solve(demands, []cutting.Stock{{Length: int64(y.Length)}}, 0, searchEffort)
	if err != nil {
		return Cover{}
	}
	c.Count, c.Optimal = len(r.Bars), r.Optimal()
	return c
}

func roundUpTo(l, grain int64) int64 { return (l + grain - 1) / grain * grain }

// frame is the slab turned so that an edge lies along X.
type frame struct {
	ux, uy float64
	sides  [][2]vec
	lo, hi vec
	levels []float64 // the heights of all corners, ascending
}

// frames gives the slab turned to its longest edge, and across it.
func frames(p plan.Plan) [2]frame {
	best := newSide(0, 0, p.Outline[0].At, p.Outline[1].At)
	for i := range p.Outline {
		a, b := p.Outline.Ends(i)
		if s := newSide(0, i, a, b); s.length > best.length {
			best = s
		}
	}
	return [2]frame{newFrame(p, best.ux, best.uy), newFrame(p, -best.uy, best.ux)}
}

func newFrame(p plan.Plan, ux, uy float64) frame {
	f := frame{ux: ux, uy: uy, lo: vec{math.Inf(1), math.Inf(1)}, hi: vec{math.Inf(-1), math.Inf(-1)}}
	for _, l := range p.Loops() {
		for i := range l {
			a, b := l.Ends(i)
			va, vb := f.turn(a), f.turn(b)
			f.sides = append(f.sides, [2]vec{va, vb})
			f.levels = append(f.levels, va.y)
			f.lo = vec{math.Min(f.lo.x, va.x), math.Min(f.lo.y, va.y)}
			f.hi = vec{math.Max(f.hi.x, va.x), math.Max(f.hi.y, va.y)}
		}
	}
	slices.Sort(f.levels)
	return f
}

func (f frame) turn(p geometry.Point) vec {
	x, y := float64(p.X), float64(p.Y)
	return vec{x*f.ux + y*f.uy, y*f.ux - x*f.uy}
}

func (f frame) point(x, y float64) geometry.Point {
	return geometry.Point{X: round(x*f.ux - y*f.uy), Y: round(x*f.uy + y*f.ux)}
}

// spans gives the stretches along X that the slab covers somewhere between the
// heights y0 and y1, in order. Between the heights of corners the slab is made
// of trapezoids, whose extent is that of their ends.
func (f frame) spans(y0, y1 float64) [][2]float64 {
	cuts := []float64{y0}
	i, _ := slices.BinarySearch(f.levels, y0)
	for ; i < len(f.levels) && f.levels[i] < y1; i++ {
		if f.levels[i] > cuts[len(cuts)-1]+1 {
			cuts = append(cuts, f.levels[i])
		}
	}
	cuts = append(cuts, y1)
	band := frame{}
	for _, s := range f.sides {
		if max(s[0].y, s[1].y) >= y0 && min(s[0].y, s[1].y) <= y1 {
			band.sides = append(band.sides, s)
		}
	}
	var out [][2]float64
	for i := 1; i < len(cuts); i++ {
		out = append(out, band.trapezoids(cuts[i-1], cuts[i])...)
	}
	return merge(out)
}

// trapezoids gives the extents of the slab's parts between two heights that no
// corner lies between.
func (f frame) trapezoids(y0, y1 float64) [][2]float64 {
	mid := (y0 + y1) / 2
	type wall struct{ mid, lo, hi float64 }
	var walls []wall
	for _, s := range f.sides {
		a, b := s[0], s[1]
		if (a.y > mid) == (b.y > mid) {
			continue
		}
		at := func(y float64) float64 {
			t := min(max((y-a.y)/(b.y-a.y), 0), 1)
			return a.x + t*(b.x-a.x)
		}
		u, w := at(y0), at(y1)
		walls = append(walls, wall{at(mid), min(u, w), max(u, w)})
	}
	slices.SortFunc(walls, func(a, b wall) int { return cmp.Compare(a.mid, b.mid) })
	var out [][2]float64
	for i := 1; i < len(walls); i += 2 {
		out = append(out, [2]float64{walls[i-1].lo, walls[i].hi})
	}
	return out
}

// merge joins stretches that overlap or touch.
func merge(in [][2]float64) [][2]float64 {
	slices.SortFunc(in, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for _, s := range in {
		if n := len(out); n > 0 && s[0] <= out[n-1][1]+1 {
			out[n-1][1] = math.Max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}
