package sheet

import (
	"iter"
	"math"
)

// box is a rectangle that may be turned.
type box struct {
	center       Point
	along        Point // unit vector of its length
	halfL, halfH float64
}

// boxAlong gives the box that starts at a base line's left end and covers from
// low to high across it.
func boxAlong(at Point, turn, length, low, high float64) box {
	u := Point{math.Cos(turn), math.Sin(turn)}
	mid := at.toward(u, length/2).toward(u.left(), (low+high)/2)
	return box{mid, u, length / 2, (high - low) / 2}
}

// boxOf gives the box of a line with clearance on all sides.
func boxOf(a, b Point, clear float64) box {
	d := b.sub(a)
	return box{a.add(b).times(0.5), d.unit(), d.length()/2 + clear, clear}
}

// grown gives the box with a margin added on every side.
func (b box) grown(by float64) box {
	b.halfL += by
	b.halfH += by
	return b
}

func (b box) corners() [4]Point {
	u, v := b.along.times(b.halfL), b.along.left().times(b.halfH)
	c := b.center
	return [4]Point{c.sub(u).sub(v), c.add(u).sub(v), c.add(u).add(v), c.sub(u).add(v)}
}

func (b box) bounds() (lo, hi Point) {
	x := math.Abs(b.along.X)*b.halfL + math.Abs(b.along.Y)*b.halfH
	y := math.Abs(b.along.Y)*b.halfL + math.Abs(b.along.X)*b.halfH
	return Point{b.center.X - x, b.center.Y - y}, Point{b.center.X + x, b.center.Y + y}
}

// hits tells whether two boxes share more than their rims. Two rectangles are
// apart just when one of their four directions separates them.
func (b box) hits(c box) bool {
	d := c.center.sub(b.center)
	for _, axis := range [4]Point{b.along, b.along.left(), c.along, c.along.left()} {
		if math.Abs(d.dot(axis)) >= b.spread(axis)+c.spread(axis)-1e-9 {
			return false
		}
	}
	return true
}

func (b box) spread(axis Point) float64 {
	return math.Abs(b.along.dot(axis))*b.halfL + math.Abs(b.along.left().dot(axis))*b.halfH
}

// cuts gives the stretch of the segment a-b inside the box, as fractions.
func (b box) cuts(p, q Point) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, s := range [2]struct {
		axis Point
		half float64
	}{{b.along, b.halfL}, {b.along.left(), b.halfH}} {
		x, dx := p.sub(b.center).dot(s.axis), q.sub(p).dot(s.axis)
		if math.Abs(dx) < 1e-12 {
			if math.Abs(x) >= s.half {
				return 0, 0, false
			}
			continue
		}
		t0, t1 := (-s.half-x)/dx, (s.half-x)/dx
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
	}
	return from, to, from < to
}

// obstacles finds what a new line or text would run into. It is a grid of
// cells that fills as the page does.
type obstacles struct {
	boxes []obstacle
	cells map[[2]int][]int
	seen  []int // stamp of the query that last looked at each box
	stamp int
}

type obstacle struct {
	box
	text bool
}

const cellSize = 10 // mm

func newObstacles() *obstacles { return &obstacles{cells: map[[2]int][]int{}} }

func (o *obstacles) add(b box, text bool) {
	k := len(o.boxes)
	o.boxes = append(o.boxes, obstacle{b, text})
	o.seen = append(o.seen, 0)
	o.visit(b, func(c [2]int) bool {
		o.cells[c] = append(o.cells[c], k)
		return true
	})
}

// forget takes back everything added since there were n boxes.
func (o *obstacles) forget(n int) {
	for k := len(o.boxes) - 1; k >= n; k-- {
		o.visit(o.boxes[k].box, func(c [2]int) bool {
			o.cells[c] = o.cells[c][:len(o.cells[c])-1]
			return true
		})
	}
	o.boxes, o.seen = o.boxes[:n], o.seen[:n]
}

// visit calls f with each cell that b may touch, until f says stop.
func (o *obstacles) visit(b box, f func([2]int) bool) {
	lo, hi := b.bounds()
	x0, x1 := int(math.Floor(lo.X/cellSize)), int(math.Floor(hi.X/cellSize))
	y0, y1 := int(math.Floor(lo.Y/cellSize)), int(math.Floor(hi.Y/cellSize))
	upright := b.along.X == 0 || b.along.Y == 0
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			// A long slanted line covers few of the cells of its bounds.
			cell := box{Point{(float64(x) + 0.5) * cellSize, (float64(y) + 0.5) * cellSize}, Point{1, 0}, cellSize / 2, cellSize / 2}
			if (upright || cell.hits(b)) && !f([2]int{x, y}) {
				return
			}
		}
	}
}

// hit tells whether b runs into anything, or with textOnly into any text.
func (o *obstacles) hit(b box, textOnly bool) bool {
	o.stamp++
	found := false
	o.visit(b, func(c [2]int) bool {
		for _, k := range o.cells[c] {
			if o.seen[k] == o.stamp {
				continue
			}
			o.seen[k] = o.stamp
			if (!textOnly || o.boxes[k].text) && o.boxes[k].hits(b) {
				found = true
				return false
			}
		}
		return true
	})
	return found
}

// first gives a box that b runs into, if there is one.
func (o *obstacles) first(b box) (hit box, ok bool) {
	for hit := range o.each(b) {
		return hit, true
	}
	return box{}, false
}

// each gives every box that b runs into.
func (o *obstacles) each(b box) iter.Seq[box] {
	return func(yield func(box) bool) {
		o.stamp++
		o.visit(b, func(c [2]int) bool {
			for _, k := range o.cells[c] {
				if o.seen[k] != o.stamp {
					o.seen[k] = o.stamp
					if o.boxes[k].hits(b) && !yield(o.boxes[k].box) {
						return false
					}
				}
			}
			return true
		})
	}
}
