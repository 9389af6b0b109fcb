package plan

import (
	"errors"
	"math"

	"haunchbook.example/geometry"
)

// Side says which end of an edge moves when its length is changed.
type Side uint8

const (
	// End moves the edge's end corner, and the edge after it along with it.
	End Side = iota
	// Start moves the edge's start corner, and the edge before it along with it.
	Start
	// Both moves each end by half of the change.
	Both
)

// Resize gives edge i of a loop a new length. The neighbor at the end that
// moves goes along, parallel to itself, so that right angles stay right; what
// lies beyond it grows or shrinks.
func (p Plan) Resize(loop, i int, length geometry.Length, side Side) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	if length <= 0 {
		return p, errors.New("a length must be more than 0")
	}
	if l[i].Middle != 0 {
		return p, errors.New("the length of an arc follows from its radius: give that, its middle ordinate, or move its corners")
	}
	was := l.Length(i)
	if was == 0 {
		return p, errors.New("an edge of no length has no direction; move one of its corners")
	}
	by := length - was
	switch side {
	case Start:
		return p.slideEnd(loop, i, by, true)
	case Both:
		q, err := p.slideEnd(loop, i, by/2, false)
		if err != nil {
			return p, err
		}
		return q.slideEnd(loop, i, by-by/2, true)
	}
	return p.slideEnd(loop, i, by, false)
}

// slideEnd lengthens edge i at one end by the distance by.
func (p Plan) slideEnd(loop, i int, by geometry.Length, start bool) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	n := len(l)
	fixed, moved := i, (i+1)%n
	next, beyond := (i+2)%n, (i+3)%n
	if start {
		fixed, moved = (i+1)%n, i
		next, beyond = (i+n-1)%n, (i+2*n-2)%n
	}
	to := geometry.Along(l[fixed].At, l[moved].At, geometry.Distance(l[fixed].At, l[moved].At)+by)
	corners := map[int]geometry.Point{moved: to}
	if n > 3 && next != fixed {
		// The neighbor keeps its direction: its far corner slides along the
		// line of the edge beyond.
		corners[next] = slide(l[moved].At, l[next].At, l[beyond].At, to)
	}
	return p.moveCorners(loop, corners)
}

// slide gives the point on the line next-beyond from which the direction to the
// moved corner is the same as it was from next to from.
func slide(from, next, beyond, to geometry.Point) geometry.Point {
	d, v, shift := next.Sub(from), beyond.Sub(next), to.Sub(from)
	dx, dy := float64(d.X), float64(d.Y)
	vx, vy := float64(v.X), float64(v.Y)
	det := dx*vy - dy*vx
	if math.Abs(det) < 0.02*math.Hypot(dx, dy)*math.Hypot(vx, vy) || det == 0 {
		return next.Add(shift) // beyond is in line with the neighbor
	}
	// next + f·v must lie on the line through to with direction d.
	f := (dx*float64(shift.Y) - dy*float64(shift.X)) / det
	return next.Add(geometry.Point{X: geometry.Rounded(vx * f), Y: geometry.Rounded(vy * f)})
}
