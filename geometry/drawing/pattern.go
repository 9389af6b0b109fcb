package drawing

import (
	"math"
	"slices"
)

// Pattern fills an area with marks that are as large on every drawing.
type Pattern uint8

// The patterns.
const (
	Slanted Pattern = iota // lines at 45 degrees
	Pebbles                // of gravel
)

// Fill of an area by a pattern, at the drawing's own size on paper: distances of
// its marks, mm.
const (
	slantStep   = 1.6
	pebbleStep  = 1.9
	pebbleRows  = 1.3
	pebbleRound = 0.32
)

// drawPattern renders the pattern of an area.
func (p *Placed) drawPattern(c Canvas, k Ink, it *item) {
	pts := append([]Vec(nil), p.path(it)...)
	if len(pts) < 3 {
		return
	}
	lo, hi := pts[0], pts[0]
	for _, q := range pts {
		lo, hi = Vec{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}, Vec{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	const most = 4000 // marks: beyond, an area is too large for its pattern
	if it.pattern == Pebbles {
		if (hi.X-lo.X)*(hi.Y-lo.Y) > most*pebbleStep*pebbleRows*p.unit*p.unit {
			return
		}
		for row, y := 0, lo.Y+0.5*p.unit; y < hi.Y-0.2*p.unit; row, y = row+1, y+pebbleRows*p.unit {
			at := append([]float64(nil), crossings(pts, y)...)
			for i := 0; i+1 < len(at); i += 2 {
				for x := at[i] + (0.5+0.5*float64(row%2))*pebbleStep*p.unit; x < at[i+1]-0.5*p.unit; x += pebbleStep * p.unit {
					b := Box{Vec{X: x, Y: y}, Vec{X: 1}, pebbleRound * p.unit, pebbleRound * p.unit}
					if p.o.Clip.Has(b.Mid) && (p.m.Plates || p.room.free(b, takenText)) {
						c.Circle(k, b.Mid, pebbleRound*p.unit, false)
					}
				}
			}
		}
		return
	}
	// Lines of y = x + t, by way of the area turned so that they are level.
	turn := func(q Vec) Vec { return Vec{X: (q.X + q.Y) * math.Sqrt2 / 2, Y: (q.Y - q.X) * math.Sqrt2 / 2} }
	back := func(q Vec) Vec { return Vec{X: (q.X - q.Y) * math.Sqrt2 / 2, Y: (q.X + q.Y) * math.Sqrt2 / 2} }
	low, high := math.Inf(1), math.Inf(-1)
	for i := range pts {
		pts[i] = turn(pts[i])
		low, high = min(low, pts[i].Y), max(high, pts[i].Y)
	}
	if step := slantStep * p.unit; high-low < most*step {
		for y := low + step/2; y < high; y += step {
			at := crossings(pts, y)
			for i := 0; i+1 < len(at); i += 2 {
				line := [2]Vec{back(Vec{X: at[i], Y: y}), back(Vec{X: at[i+1], Y: y})}
				p.drawParts(c, k, line[:], false, !p.m.Plates)
			}
		}
	}
}

// crossings gives where a level line enters and leaves a closed chain, in order.
func crossings(pts []Vec, y float64) (at []float64) {
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > y) != (b.Y > y) {
			at = append(at, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
		}
	}
	slices.Sort(at)
	return at
}
