package plane

import (
	"fmt"
	"math"
	"testing"

	"haunchbook.example/geometry"
)

// comb is a region of about n sides, in feet.
func comb(n int) Region {
	teeth := max(1, n/4)
	ring := geometry.Ring{pt(0, 0), pt(geometry.Length(8*teeth-4)*ft, 0)}
	for i := teeth - 1; i >= 0; i-- {
		x := geometry.Length(8*i) * ft
		ring = append(ring, pt(x+4*ft, 20*ft), pt(x, 20*ft))
		if i > 0 {
			ring = append(ring, pt(x, 6*ft), pt(x-4*ft, 6*ft))
		}
	}
	return Region{ring}
}

func BenchmarkPlane(b *testing.B) {
	for _, n := range []int{12, 200, 1000} {
		g := comb(n)
		_, hi := g.Bounds()
		s := NewSides(g)
		mid := pt(hi.X/2+ft, 3*ft)
		for _, c := range []struct {
			name string
			do   func()
		}{
			{"Left", func() { g.Left(pt(0, 10*ft), pt(hi.X, 11*ft)) }},
			{"Intersect", func() { Intersect(g, Region{rectangle(hi.X/3, 5*ft, hi.X/2, 15*ft)}) }},
			{"Offset", func() { g.Offset(-ft / 2) }},
			{"Locate", func() { s.Locate(mid) }},
			{"Stretches", func() { s.Stretches(mid, pt(mid.X+30*ft, 17*ft), Through, nil) }},
			{"NewSides", func() { NewSides(g) }},
			{"Crossings", func() { Crossings(g, 0) }},
		} {
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					c.do()
				}
			})
		}
	}
}

// With no two sides near each other, a border moved by d has the area
// A + P d + d² Σ tan(turn/2), over the turns of all corners, left ones positive.
func TestOffsetArea(t *testing.T) {
	for n := 3; n < 40; n++ {
		var ring geometry.Ring
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			d := float64(20 * ft)
			if n > 5 && i%2 == 0 {
				d *= 0.8
			}
			ring = append(ring, pt(geometry.Length(d*cos), geometry.Length(d*sin)))
		}
		tans := 0.0
		for i, p := range ring {
			u, v := direction(ring[(i+n-1)%n], p), direction(p, ring[(i+1)%n])
			tans += math.Tan(math.Atan2(u.Cross(v), u.Dot(v)) / 2)
		}
		for _, by := range []geometry.Length{ft / 100, -ft / 100} {
			d := by.Meters()
			want := ring.Area() + ring.Perimeter().Meters()*d + d*d*tans
			if got := (Region{ring}).Offset(by).Area(); math.Abs(got-want) > 2e-9*ring.Perimeter().Meters() {
				t.Errorf("%d corners by %v: %v m², want %v", n, by.Inches(), got, want)
			}
		}
	}
}
