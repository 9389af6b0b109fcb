package plane

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

// Both ways to locate a point agree with each other and, off the border, with the
// angles under which the sides are seen, which add up to a full turn inside.
func TestLocate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		s := NewSides(g)
		for range 30 {
			p, onSide := somewhere(r, g)
			got := g.Locate(p)
			if other := s.Locate(p); other != got {
				t.Fatalf("%v: %v by its rings, %v by its sides\n%v", p, got, other, g)
			}
			turns, near := 0.0, math.Inf(1)
			g.sides(func(a, b geometry.Point) {
				u, v := a.Sub(p), b.Sub(p)
				turns += math.Atan2(cross(u, v), float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y))
				near = min(near, toSegment(a, b, p))
			})
			const sure = 0.01 // nm: farther off, floating point tells too
			switch {
			case onSide && got != Border:
				t.Fatalf("%v is on a side and %v\n%v", p, got, g)
			case near > sure && (got == Border || (got == Inside) != (math.Abs(turns) > math.Pi)):
				t.Fatalf("%v: %v, its turns are %v and the nearest side is %v off\n%v", p, got, turns, near, g)
			}
		}
	})
}

// somewhere gives a corner, the middle of an even side, or any place; and whether
// it lies on a side.
func somewhere(r *rand.Rand, g Region) (geometry.Point, bool) {
	lo, hi := g.Bounds()
	any := pt(lo.X-3+geometry.Length(r.Int64N(int64(hi.X-lo.X+7))), lo.Y-3+geometry.Length(r.Int64N(int64(hi.Y-lo.Y+7))))
	if len(g) == 0 || r.IntN(3) == 0 {
		return any, false
	}
	ring := g[r.IntN(len(g))]
	k := r.IntN(len(ring))
	a, b := ring[k], ring[(k+1)%len(ring)]
	switch d := b.Sub(a); r.IntN(4) {
	case 0:
		return a, true
	case 1:
		if d.X%2 == 0 && d.Y%2 == 0 {
			return pt(a.X+d.X/2, a.Y+d.Y/2), true
		}
	case 2:
		return pt(a.X, any.Y), false // level or plumb with a corner
	}
	return any, false
}

// A segment lies on the region just where the places beside it do, looked at one
// by one; the stretches are in order and apart.
func TestStretches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		s := NewSides(g)
		a, _ := somewhere(r, g)
		b, _ := somewhere(r, g)
		if len(g) > 0 && r.IntN(3) == 0 {
			a, b = g[0][0], g[0][1] // along a side, and perhaps beyond it
			if r.IntN(2) == 0 {
				d := b.Sub(a)
				a, b = a.Sub(d), b.Add(d)
			}
		}
		long := geometry.Distance(a, b)
		d := b.Sub(a)
		for _, on := range [...]On{Touching, Through} {
			got := s.Stretches(a, b, on, nil)
			last := geometry.Length(-1)
			for _, x := range got {
				if x.From <= last || x.To <= x.From || x.To > long {
					t.Fatalf("stretches %v of %d", got, long)
				}
				last = x.To
			}
			for range 20 {
				if long < 100 {
					break
				}
				at := 1 + geometry.Length(r.Int64N(int64(long-1)))
				if slices.ContainsFunc(got, func(x Stretch) bool { return (x.From-at).Abs() < 8 || (x.To-at).Abs() < 8 }) {
					continue
				}
				in := slices.ContainsFunc(got, func(x Stretch) bool { return x.From < at && at < x.To })
				want, sure := onRegion(g, a, d, long, at, on)
				if sure && in != want {
					t.Fatalf("at %d of %d from %v to %v, on it %v: %v\n%v", at, long, a, b, in, got, g)
				}
			}
		}
		if n := testing.AllocsPerRun(1, func() { s.Locate(a) }); n > 0 && s.Len() <= 64 {
			t.Fatalf("a point takes %v allocations", n)
		}
	})
}

// onRegion looks a little to both sides of a place on a line. It is not sure where
// a side is nearer than it looks.
func onRegion(g Region, a, d geometry.Point, long, at geometry.Length, on On) (is, sure bool) {
	const aside = 4
	f := float64(at) / float64(long)
	x, y := float64(a.X)+f*float64(d.X), float64(a.Y)+f*float64(d.Y)
	nx, ny := -float64(d.Y)/float64(long)*aside, float64(d.X)/float64(long)*aside
	place := func(x, y float64) geometry.Point {
		return pt(geometry.Length(math.Round(x)), geometry.Length(math.Round(y)))
	}
	l, r := place(x+nx, y+ny), place(x-nx, y-ny)
	sure = true
	g.sides(func(p, q geometry.Point) {
		along := geometry.Orientation(a, a.Add(d), p) == 0 && geometry.Orientation(a, a.Add(d), q) == 0
		if !along && min(toSegment(p, q, l), toSegment(p, q, r)) < 2*aside {
			sure = false
		}
	})
	if on == Touching {
		return g.Contains(l) || g.Contains(r), sure
	}
	return g.Contains(l) && g.Contains(r), sure
}

// Worked by hand: an L of 20 by 20 ft less 10 by 10 ft at its far corner.
func TestStretchesOfAnL(t *testing.T) {
	s := NewSides(Region{{pt(0, 0), pt(20*ft, 0), pt(20*ft, 10*ft), pt(10*ft, 10*ft), pt(10*ft, 20*ft), pt(0, 20*ft)}})
	for _, c := range []struct {
		a, b geometry.Point
		on   On
		want []Stretch
	}{
		{pt(-5*ft, 5*ft), pt(25*ft, 5*ft), Through, []Stretch{{5 * ft, 25 * ft}}},
		{pt(5*ft, 15*ft), pt(25*ft, 15*ft), Through, []Stretch{{0, 5 * ft}}},
		// Along the inside corner's side and on through the slab.
		{pt(20*ft, 10*ft), pt(0, 10*ft), Touching, []Stretch{{0, 20 * ft}}},
		{pt(20*ft, 10*ft), pt(0, 10*ft), Through, []Stretch{{10 * ft, 20 * ft}}},
		{pt(0, 0), pt(20*ft, 0), Touching, []Stretch{{0, 20 * ft}}},
		{pt(0, 0), pt(20*ft, 0), Through, nil},
		// Slantwise through the inside corner, and past it.
		{pt(0, 20*ft), pt(20*ft, 0), Through, []Stretch{{0, geometry.Distance(pt(0, 20*ft), pt(20*ft, 0))}}},
		{pt(15*ft, 15*ft), pt(5*ft, 15*ft), Touching, []Stretch{{5 * ft, 10 * ft}}},
		{pt(11*ft, 11*ft), pt(12*ft, 12*ft), Touching, nil},
		{pt(3*ft, 3*ft), pt(3*ft, 3*ft), Touching, nil},
	} {
		if got := s.Stretches(c.a, c.b, c.on, nil); !slices.Equal(got, c.want) {
			t.Errorf("from %v to %v: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// The index finds what a look at every box finds, also after boxes have gone.
func TestIndex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		size := []float64{0.1, 5, 60, 2000}[r.IntN(4)]
		any := func() Box {
			x, y := 1000*r.Float64()-300, 1000*r.Float64()-300
			if r.IntN(6) == 0 {
				return Box{x, y, x + 3000*r.Float64(), y + 0.1}
			}
			return Box{x, y, x + size*r.Float64(), y + size*r.Float64()}
		}
		var boxes []Box
		for range r.IntN(200) {
			boxes = append(boxes, any())
		}
		x := NewIndex(slices.Clone(boxes))
		if r.IntN(2) == 0 { // built box by box, with some taken back
			x = new(Index)
			x.Reset([]float64{0, 3, 64, 1e5}[r.IntN(4)])
			half := len(boxes) / 2
			for _, b := range boxes[:half] {
				x.Add(b)
			}
			for range r.IntN(50) {
				x.Add(any())
			}
			x.Forget(half)
			for k, b := range boxes[half:] {
				if n := x.Add(b); n != half+k {
					t.Fatalf("box %d has number %d", half+k, n)
				}
			}
		}
		asked := append([]Box{{-1e18, -1e18, 1e18, 1e18}, {0, 0, math.Inf(1), 0}}, boxes[:len(boxes)/4]...)
		for range 20 {
			asked = append(asked, any())
		}
		for _, b := range asked {
			var want []int32
			for i, o := range boxes {
				if b.Overlaps(o) {
					want = append(want, int32(i))
				}
			}
			if got := x.Near(b, nil); !slices.Equal(got, want) {
				t.Fatalf("near %v are %v, want %v of %v", b, got, want, boxes)
			}
		}
		count := 0
		x.Pairs(func(i, j int) {
			if i >= j || !boxes[i].Overlaps(boxes[j]) {
				t.Fatalf("%d and %d are no pair", i, j)
			}
			count++
		})
		for i := range boxes {
			for j := range boxes[:i] {
				if boxes[i].Overlaps(boxes[j]) {
					count--
				}
			}
		}
		if count != 0 {
			t.Fatalf("%d pairs too many", count)
		}
	})
}

// A thing some inches wide has the region on both sides wherever it is clear, and
// is clear wherever a wider one has: looked at one by one.
func TestClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		lo, hi := g.Bounds()
		half := (hi.X - lo.X) / 50
		if half < 100 {
			return
		}
		s := NewSides(g)
		a, _ := somewhere(r, g)
		b, _ := somewhere(r, g)
		if len(g) > 0 && r.IntN(2) == 0 {
			a, b = g[0][0], g[0][1]
			a, b = a.Sub(b.Sub(a)), b.Add(b.Sub(a)) // along a side and beyond it
		}
		long := geometry.Distance(a, b)
		if long < 10*half {
			return
		}
		got := s.Clear(a, b, half, nil)
		u := direction(a, b)
		for range 30 {
			at := geometry.Length(r.Int64N(int64(long)))
			on := slices.ContainsFunc(got, func(x Stretch) bool { return x.From < at && at < x.To })
			nearEnd := slices.ContainsFunc(got, func(x Stretch) bool { return (x.From-at).Abs() < 8*half || (x.To-at).Abs() < 8*half })
			sides := 0
			for _, by := range [...]float64{-1, 1} {
				if g.Contains(moved(a, u.Times(float64(at)).Add(u.Left().Times(by*float64(half))))) {
					sides++
				}
			}
			middle := g.Contains(moved(a, u.Times(float64(at))))
			if on && !nearEnd && !middle && sides == 0 {
				t.Fatalf("at %d of %d from %v to %v, clear %v, is no slab: %v", at, long, a, b, got, g)
			}
		}
	})
	// By hand: an L whose inside corner is at 10, 10 ft, cut on a line through it: along
	// its side nothing is clear.
	l := NewSides(Region{{pt(0, 0), pt(20*ft, 0), pt(20*ft, 10*ft), pt(10*ft, 10*ft), pt(10*ft, 20*ft), pt(0, 20*ft)}})
	for _, c := range []struct {
		a, b geometry.Point
		want []Stretch
	}{
		{pt(20*ft, 10*ft), pt(0, 10*ft), []Stretch{{10 * ft, 20 * ft}}},
		{pt(20*ft, 10*ft+1), pt(0, 10*ft-1), []Stretch{{10 * ft, 20 * ft}}},
		{pt(0, 0), pt(20*ft, 0), nil},
		{pt(-ft, 5*ft), pt(21*ft, 5*ft), []Stretch{{ft, 21 * ft}}},
	} {
		if got := l.Clear(c.a, c.b, ft/24, nil); !slices.Equal(got, c.want) {
			t.Errorf("from %v to %v: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}
