package lines

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// row is a straight of tubing, in the frame of its floor.
type row struct {
	x0, x1, y float64 // meters
	laid      bool
}

// loops lays tubing over its floor, to and fro along the longest side, a spacing apart and
// half of one off the rim. Where the floor parts, so do the loops: each path is laid in one go.
func loops(t *slab.Slab, l plan.Line) [][]geometry.Point {
	floor := l.Floor()
	f := plane.FrameAlong(longest(floor))
	box := f.Bounds(plane.Region{floor})
	high, s := box.MaxY-box.MinY, l.Spacing.Meters()
	if s <= 0 || !t.Fits("Rows of tubing", geometry.FromMeters(high), l.Spacing) {
		return nil
	}
	n := max(1, int(math.Floor(high/s+1e-6)))
	first := box.MinY + (high-float64(n-1)*s)/2
	sides := plane.NewSides(plane.Region{floor})
	rows := make([][]row, n)
	for i := range rows {
		y := first + float64(i)*s
		from, to := f.Out(plane.Vec{X: box.MinX - 1, Y: y}), f.Out(plane.Vec{X: box.MaxX + 1, Y: y})
		for _, on := range sides.Stretches(from, to, plane.Through, nil) {
			x0, x1 := box.MinX-1+on.From.Meters()+s/2, box.MinX-1+on.To.Meters()-s/2
			if x1 > x0 {
				rows[i] = append(rows[i], row{x0: x0, x1: x1, y: y})
			}
		}
	}
	var out [][]geometry.Point
	for i := range rows {
		for k := range rows[i] {
			if !rows[i][k].laid {
				out = append(out, chain(f, rows, i, k))
			}
		}
	}
	return out
}

// longest gives the longest side of a ring.
func longest(r geometry.Ring) (a, b geometry.Point) {
	best := geometry.Length(-1)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if d := geometry.Distance(p, q); d > best {
			a, b, best = p, q, d
		}
	}
	return a, b
}

// chain lays tubing from a row on, each time to the nearer end of a row beside it that is
// not laid yet, as far as that goes.
func chain(f plane.Frame, rows [][]row, i, k int) []geometry.Point {
	r := &rows[i][k]
	r.laid = true
	out := []geometry.Point{f.Out(plane.Vec{X: r.x0, Y: r.y}), f.Out(plane.Vec{X: r.x1, Y: r.y})}
	at, right := r.x1, true
	for i++; i < len(rows); i++ {
		var next *row
		away := math.Inf(1)
		for m := range rows[i] {
			c := &rows[i][m]
			end := c.x0
			if right {
				end = c.x1
			}
			if d := math.Abs(end - at); !c.laid && c.x0 < r.x1 && c.x1 > r.x0 && d < away {
				next, away = c, d
			}
		}
		if next == nil {
			break
		}
		from, to := next.x0, next.x1
		if right {
			from, to = to, from
		}
		out = append(out, f.Out(plane.Vec{X: from, Y: next.y}), f.Out(plane.Vec{X: to, Y: next.y}))
		next.laid = true
		r, at, right = next, to, !right
	}
	return out
}
