// Package room keeps what of the screen is taken by labels, so that the next one
// finds a place where it can be read.
package room

import "math"

// Box is a part of the screen, pixels.
type Box struct{ X0, Y0, X1, Y1 float64 }

// Around gives the box of a label w by h whose middle is at x, y.
func Around(x, y, w, h float64) Box { return Box{x - w/2, y - h/2, x + w/2, y + h/2} }

// Overlaps tells whether two boxes have an area in common.
func (b Box) Overlaps(c Box) bool {
	return b.X0 < c.X1 && c.X0 < b.X1 && b.Y0 < c.Y1 && c.Y0 < b.Y1
}

// Near tells whether a place lies in the box or at most so far from its sides.
func (b Box) Near(x, y, by float64) bool {
	return x >= b.X0-by && x <= b.X1+by && y >= b.Y0-by && y <= b.Y1+by
}

// Room is the boxes that are taken. The zero Room is empty. It allocates nothing
// once it has held as many boxes before.
type Room struct {
	boxes []Box
	heads [buckets]int32 // of a chain of entries for each bucket, from 1
	links []link
	large []int32 // boxes over more cells than are worth listing
}

type link struct{ box, next int32 }

const (
	cell    = 64 // pixels
	buckets = 1024
	most    = 64 // cells of one box
)

// Reset empties the room.
func (r *Room) Reset() {
	r.boxes, r.links, r.large = r.boxes[:0], r.links[:0], r.large[:0]
	r.heads = [buckets]int32{}
}

// cells gives the first and last cells of a box, false for too many.
func cells(b Box) (x0, y0, x1, y1 int, ok bool) {
	if !((b.X1-b.X0)*(b.Y1-b.Y0) < most/2*cell*cell) || !(math.Abs(b.X0)+math.Abs(b.Y0) < 1e9) || b.X1-b.X0 > 16*cell || b.Y1-b.Y0 > 16*cell {
		return 0, 0, 0, 0, false
	}
	at := func(f float64) int { return int(math.Floor(f / cell)) }
	return at(b.X0), at(b.Y0), at(b.X1), at(b.Y1), true
}

func bucket(x, y int) int { return int(uint(x*73856093^y*19349663) % buckets) }

// Take takes a box.
func (r *Room) Take(b Box) {
	n := int32(len(r.boxes))
	r.boxes = append(r.boxes, b)
	x0, y0, x1, y1, ok := cells(b)
	if !ok {
		r.large = append(r.large, n)
		return
	}
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			h := &r.heads[bucket(x, y)]
			r.links = append(r.links, link{n, *h})
			*h = int32(len(r.links))
		}
	}
}

// Free tells whether nothing that is taken lies in a box.
func (r *Room) Free(b Box) bool {
	x0, y0, x1, y1, ok := cells(b)
	if !ok {
		for _, t := range r.boxes {
			if t.Overlaps(b) {
				return false
			}
		}
		return true
	}
	for _, k := range r.large {
		if r.boxes[k].Overlaps(b) {
			return false
		}
	}
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for k := r.heads[bucket(x, y)]; k > 0; k = r.links[k-1].next {
				if r.boxes[r.links[k-1].box].Overlaps(b) {
					return false
				}
			}
		}
	}
	return true
}
