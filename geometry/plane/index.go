package plane

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Box is an axis-parallel rectangle in any one unit, its border included.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// BoxOf gives the box of some points, in nanometers; of none, a box that
// overlaps nothing.
func BoxOf(ps ...geometry.Point) Box {
	b := nowhere
	for _, p := range ps {
		x, y := float64(p.X), float64(p.Y)
		b = Box{min(b.MinX, x), min(b.MinY, y), max(b.MaxX, x), max(b.MaxY, y)}
	}
	return b
}

// BoxAround gives the box of some places.
func BoxAround(vs ...Vec) Box {
	b := nowhere
	for _, v := range vs {
		b = Box{min(b.MinX, v.X), min(b.MinY, v.Y), max(b.MaxX, v.X), max(b.MaxY, v.Y)}
	}
	return b
}

var nowhere = Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// Overlaps tells whether b and c share a point.
func (b Box) Overlaps(c Box) bool {
	return b.MinX <= c.MaxX && c.MinX <= b.MaxX && b.MinY <= c.MaxY && c.MinY <= b.MaxY
}

// Union gives the least box that holds both.
func (b Box) Union(c Box) Box {
	return Box{min(b.MinX, c.MinX), min(b.MinY, c.MinY), max(b.MaxX, c.MaxX), max(b.MaxY, c.MaxY)}
}

// Distance gives how far v lies from the box; 0 within.
func (b Box) Distance(v Vec) float64 {
	return math.Hypot(max(b.MinX-v.X, 0, v.X-b.MaxX), max(b.MinY-v.Y, 0, v.Y-b.MaxY))
}

// Grown gives the box with a margin added on every side.
func (b Box) Grown(by float64) Box {
	return Box{b.MinX - by, b.MinY - by, b.MaxX + by, b.MaxY + by}
}

// Index finds, among many boxes, those near a given one: a grid of square cells,
// kept in a hash table, so that boxes may come and go. It answers from several
// goroutines at once while none is added. Adding and asking take time for the
// cells that a box covers; a box over very many is kept apart and always looked
// at. The zero Index is empty, and without a size of cells it is a plain list.
type Index struct {
	boxes []Box
	all   Box
	cell  float64 // 0 for a plain list
	heads []int32 // the first entry of each bucket, counted from 1
	links []link
	large []int32
}

// link is a box in one of the cells that it covers.
type link struct {
	col, row    int32
	box, next   int32
	left, under bool // it is one of the first of them that way
}

const (
	fewBoxes = 32 // where looking at every box beats a grid
	most     = 64 // cells of one box
)

// NewIndex builds the index over boxes, which it keeps. Their numbers are their
// places in the list.
func NewIndex(boxes []Box) *Index {
	x := &Index{boxes: boxes, all: nowhere}
	for _, b := range boxes {
		x.all = x.all.Union(b)
	}
	if len(boxes) <= fewBoxes {
		return x
	}
	w, h := x.all.MaxX-x.all.MinX, x.all.MaxY-x.all.MinY
	n := float64(len(boxes))
	x.cell = max(math.Sqrt(w*h/n), (w+h)/n) // the latter where all lie along a line
	if !(x.cell > 0) || math.IsInf(x.cell, 0) {
		x.cell = 0
		return x
	}
	x.heads = make([]int32, powerOfTwo(len(boxes)))
	x.links = make([]link, 0, 3*len(boxes))
	for i := range boxes {
		x.enter(int32(i))
	}
	return x
}

func powerOfTwo(n int) int {
	p := 64
	for p < n {
		p *= 2
	}
	return p
}

// Reset empties the index and sets the size of its cells: about that of a box. It
// keeps the memory it had.
func (x *Index) Reset(cell float64) {
	x.boxes, x.links, x.large, x.all = x.boxes[:0], x.links[:0], x.large[:0], nowhere
	x.cell = cell
	if x.heads == nil {
		x.heads = make([]int32, 1024)
	}
	clear(x.heads)
}

// Add adds a box and gives its number, counted from 0.
func (x *Index) Add(b Box) int {
	n := len(x.boxes)
	if n == 0 {
		x.all = nowhere
	}
	x.boxes = append(x.boxes, b)
	x.all = x.all.Union(b)
	if x.cell > 0 {
		x.enter(int32(n))
	}
	return n
}

// Len gives how many boxes there are.
func (x *Index) Len() int { return len(x.boxes) }

// Box gives box i.
func (x *Index) Box(i int) Box { return x.boxes[i] }

// Forget takes back all boxes but the first n.
func (x *Index) Forget(n int) {
	for len(x.links) > 0 && int(x.links[len(x.links)-1].box) >= n {
		l := x.links[len(x.links)-1]
		x.heads[x.bucket(l.col, l.row)] = l.next
		x.links = x.links[:len(x.links)-1]
	}
	for len(x.large) > 0 && int(x.large[len(x.large)-1]) >= n {
		x.large = x.large[:len(x.large)-1]
	}
	x.boxes = x.boxes[:n]
}

// cells is a block of cells.
type cells struct{ col0, row0, col1, row1 int32 }

// cellsOf gives the cells of a box; false for more than are worth visiting.
func (x *Index) cellsOf(b Box, most float64) (c cells, ok bool) {
	if !((b.MaxX-b.MinX)/x.cell < most) || !((b.MaxY-b.MinY)/x.cell < most) ||
		!(max(math.Abs(b.MinX), math.Abs(b.MinY), math.Abs(b.MaxX), math.Abs(b.MaxY)) < x.cell*1e9) {
		return c, false
	}
	at := func(f float64) int32 { return int32(math.Floor(f / x.cell)) }
	c = cells{at(b.MinX), at(b.MinY), at(b.MaxX), at(b.MaxY)}
	return c, float64(c.col1-c.col0+1)*float64(c.row1-c.row0+1) <= most
}

// bucket keeps cells of one row beside each other, as they are asked for.
func (x *Index) bucket(col, row int32) uint32 {
	return (uint32(col) + uint32(row)*0x9e3779b1) & uint32(len(x.heads)-1)
}

func (x *Index) enter(i int32) {
	c, ok := x.cellsOf(x.boxes[i], most)
	if !ok {
		x.large = append(x.large, i)
		return
	}
	for row := c.row0; row <= c.row1; row++ {
		for col := c.col0; col <= c.col1; col++ {
			h := &x.heads[x.bucket(col, row)]
			x.links = append(x.links, link{col, row, i, *h, col == c.col0, row == c.row0})
			*h = int32(len(x.links))
		}
	}
}

// Near appends to dst the numbers of the boxes that overlap b, in ascending order
// and each once.
func (x *Index) Near(b Box, dst []int32) []int32 {
	if len(x.boxes) == 0 || !b.Overlaps(x.all) {
		return dst
	}
	var c cells
	ok := x.cell > 0
	if ok {
		c, ok = x.cellsOf(Box{max(b.MinX, x.all.MinX), max(b.MinY, x.all.MinY), min(b.MaxX, x.all.MaxX), min(b.MaxY, x.all.MaxY)}, float64(len(x.boxes)))
	}
	if !ok {
		for i, o := range x.boxes {
			if b.Overlaps(o) {
				dst = append(dst, int32(i))
			}
		}
		return dst
	}
	from := len(dst)
	for row := c.row0; row <= c.row1; row++ {
		for col := c.col0; col <= c.col1; col++ {
			for k := x.heads[x.bucket(col, row)]; k > 0; k = x.links[k-1].next {
				l := &x.links[k-1]
				if l.col != col || l.row != row {
					continue
				}
				// Of the cells that both cover, the first one tells.
				if (l.left || col == c.col0) && (l.under || row == c.row0) && b.Overlaps(x.boxes[l.box]) {
					dst = append(dst, l.box)
				}
			}
		}
	}
	for _, i := range x.large {
		if b.Overlaps(x.boxes[i]) {
			dst = append(dst, i)
		}
	}
	slices.Sort(dst[from:])
	return dst
}

// Visit calls visit with the numbers of the boxes that overlap b, in no order and
// some of them more than once, until it says stop: where any will do, it is faster
// than Near.
func (x *Index) Visit(b Box, visit func(i int32) bool) {
	if len(x.boxes) == 0 || !b.Overlaps(x.all) {
		return
	}
	var c cells
	ok := x.cell > 0
	if ok {
		c, ok = x.cellsOf(Box{max(b.MinX, x.all.MinX), max(b.MinY, x.all.MinY), min(b.MaxX, x.all.MaxX), min(b.MaxY, x.all.MaxY)}, float64(len(x.boxes)))
	}
	if !ok {
		for i := range x.boxes {
			if b.Overlaps(x.boxes[i]) && !visit(int32(i)) {
				return
			}
		}
		return
	}
	for row := c.row0; row <= c.row1; row++ {
		for col := c.col0; col <= c.col1; col++ {
			for k := x.heads[x.bucket(col, row)]; k > 0; k = x.links[k-1].next {
				if i := x.links[k-1].box; b.Overlaps(x.boxes[i]) && !visit(i) {
					return
				}
			}
		}
	}
	for _, i := range x.large {
		if b.Overlaps(x.boxes[i]) && !visit(i) {
			return
		}
	}
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
