package plane

import (
	"math"
	"math/rand/v2"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func rectangle(x0, y0, x1, y1 geometry.Length) geometry.Ring {
	return geometry.Ring{pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1)}
}

// anyRegion draws a region as plans have it and as they do not: on few places of a
// lattice, so that corners are shared, sides lie on each other and corners on
// sides; or anywhere, turned; or so small that nanometers count.
func anyRegion(r *rand.Rand) Region {
	scale := []float64{float64(ft), float64(ft) / 7, 1, 3, 1e6}[r.IntN(5)]
	sin, cos := math.Sincos(float64(r.IntN(8)) * math.Pi / 4)
	if r.IntN(3) == 0 {
		sin, cos = math.Sincos(r.Float64() * 7)
	}
	at := func(x, y float64) geometry.Point {
		return pt(geometry.Length(math.Round(scale*(x*cos-y*sin))), geometry.Length(math.Round(scale*(x*sin+y*cos))))
	}
	lattice := r.IntN(2) == 0
	place := func() geometry.Point {
		if lattice {
			return at(float64(r.IntN(7)), float64(r.IntN(7)))
		}
		return at(6*r.Float64(), 6*r.Float64())
	}
	switch r.IntN(4) {
	case 0: // squares and triangles that lie on each other
		var g Region
		for range 1 + r.IntN(5) {
			x, y, w, h := float64(r.IntN(6)), float64(r.IntN(6)), float64(1+r.IntN(3)), float64(1+r.IntN(3))
			ring := geometry.Ring{at(x, y), at(x+w, y), at(x+w, y+h), at(x, y+h)}
			if r.IntN(3) == 0 {
				ring = ring[:3]
			}
			g = append(g, ring)
		}
		return Union(g)
	case 1: // a star round a point, with a hole at times
		n := 3 + r.IntN(9)
		var ring geometry.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			d := 1.5 + 2*r.Float64()
			if lattice {
				d = float64(1 + r.IntN(3))
			}
			ring = append(ring, at(3+d*c, 3+d*s))
		}
		g := Union(Region{ring})
		if r.IntN(2) == 0 {
			g = Subtract(g, Region{{at(2.5, 2.5), at(3.5, 2.5), at(3.5, 3.5), at(2.5, 3.5)}})
		}
		return g
	default: // any chain of points: where it winds to the left
		var ring geometry.Ring
		for range 3 + r.IntN(8) {
			ring = append(ring, place())
		}
		if ring.Area() < 0 {
			for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
				ring[i], ring[j] = ring[j], ring[i]
			}
		}
		return Union(Region{ring})
	}
}

func drawn(t *rapid.T) *rand.Rand {
	return rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
}

// perimeter of a region, in meters.
func perimeter(g Region) float64 {
	sum := 0.0
	for _, r := range g {
		sum += r.Perimeter().Meters()
	}
	return sum
}
