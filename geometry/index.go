package geometry

import (
	"math"
	"slices"
)

// Box is an axis-parallel rectangle in any one unit, edges included.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// BoxOf gives the box of a segment, in nanometers.
func BoxOf(a, b Point) Box {
	return Box{
		float64(min(a.X, b.X)), float64(min(a.Y, b.Y)),
		float64(max(a.X, b.X)), float64(max(a.Y, b.Y)),
	}
}

// Overlaps tells whether b and c share a point.
func (b Box) Overlaps(c Box) bool {
	return b.MinX <= c.MaxX && c.MinX <= b.MaxX && b.MinY <= c.MaxY && c.MinY <= b.MaxY
}

// Union gives the least box that holds both.
func (b Box) Union(c Box) Box {
	return Box{min(b.MinX, c.MinX), min(b.MinY, c.MinY), max(b.MaxX, c.MaxX), max(b.MaxY, c.MaxY)}
}

// Index finds, among many boxes, those near a given one. It is a uniform grid
// of about as many cells as boxes, stored in two flat slices; with few boxes it
// is a plain list. Build is O(n) plus the cells that large boxes cover.
type Index struct {
	boxes      []Box
	all        Box
	cols, rows int
	cw, ch     float64
	start      []int32 // cell k holds items[start[k]:start[k+1]]
	items      []int32
}

// fewBoxes is where looking at every box beats building a grid.
const fewBoxes = 32

// NewIndex builds the index over boxes, which it keeps.
func NewIndex(boxes []Box) *Index {
	x := &Index{boxes: boxes}
	if len(boxes) <= fewBoxes {
		return x
	}
	x.all = boxes[0]
	for _, b := range boxes[1:] {
		x.all = x.all.Union(b)
	}
	w, h := x.all.MaxX-x.all.MinX, x.all.MaxY-x.all.MinY
	side := math.Sqrt(max(w*h, (w+h)*(w+h)*1e-6) / float64(len(boxes)))
	if !(side > 0) {
		return x
	}
	x.cols, x.rows = int(w/side)+1, int(h/side)+1
	x.cw, x.ch = w/float64(x.cols), h/float64(x.rows)
	x.start = make([]int32, x.cols*x.rows+1)
	for _, b := range boxes {
		x.cells(b, func(k int) { x.start[k+1]++ })
	}
	for k := 1; k < len(x.start); k++ {
		x.start[k] += x.start[k-1]
	}
	x.items = make([]int32, x.start[len(x.start)-1])
	next := slices.Clone(x.start)
	for i, b := range boxes {
		x.cells(b, func(k int) {
			x.items[next[k]] = int32(i)
			next[k]++
		})
	}
	return x
}

func (x *Index) cells(b Box, visit func(k int)) {
	c0, c1 := cell(b.MinX-x.all.MinX, x.cw, x.cols), cell(b.MaxX-x.all.MinX, x.cw, x.cols)
	r0, r1 := cell(b.MinY-x.all.MinY, x.ch, x.rows), cell(b.MaxY-x.all.MinY, x.ch, x.rows)
	for r := r0; r <= r1; r++ {
		for c := c0; c <= c1; c++ {
			visit(r*x.cols + c)
		}
	}
}

func cell(d, size float64, n int) int {
	if !(size > 0) || !(d > 0) {
		return 0
	}
	return int(min(d/size, float64(n-1)))
}

// Near appends to dst the numbers of the boxes that overlap b, in ascending
// order and each once.
func (x *Index) Near(b Box, dst []int32) []int32 {
	if x.start == nil {
		for i, c := range x.boxes {
			if b.Overlaps(c) {
				dst = append(dst, int32(i))
			}
		}
		return dst
	}
	if !b.Overlaps(x.all) {
		return dst
	}
	from := len(dst)
	x.cells(b, func(k int) {
		for _, i := range x.items[x.start[k]:x.start[k+1]] {
			if b.Overlaps(x.boxes[i]) {
				dst = append(dst, i)
			}
		}
	})
	found := dst[from:]
	slices.Sort(found)
	return dst[:from+len(slices.Compact(found))]
}

// Pairs calls visit once for every two boxes i < j that overlap.
func (x *Index) Pairs(visit func(i, j int)) {
	var near []int32
	for i, b := range x.boxes {
		near = x.Near(b, near[:0])
		for _, j := range near {
			if int(j) > i {
				visit(i, int(j))
			}
		}
	}
}
