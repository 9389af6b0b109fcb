package plane

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

// Worked by hand: a rectangle, and an L whose inside corner is at 10, 10 ft.
func TestOffset(t *testing.T) {
	l := Region{{pt(0, 0), pt(20*ft, 0), pt(20*ft, 10*ft), pt(10*ft, 10*ft), pt(10*ft, 20*ft), pt(0, 20*ft)}}
	hole := Region{rectangle(0, 0, 10*ft, 10*ft), {pt(4*ft, 4*ft), pt(4*ft, 6*ft), pt(6*ft, 6*ft), pt(6*ft, 4*ft)}}
	for _, c := range []struct {
		name string
		got  Region
		want Region
	}{
		{"outward", Region{rectangle(0, 0, 10*ft, 10*ft)}.Offset(ft), Region{rectangle(-ft, -ft, 11*ft, 11*ft)}},
		{"inward", Region{rectangle(0, 0, 10*ft, 10*ft)}.Offset(-ft), Region{rectangle(ft, ft, 9*ft, 9*ft)}},
		{"all gone", Region{rectangle(0, 0, 10*ft, 10*ft)}.Offset(-5 * ft), nil},
		{"an L outward", l.Offset(ft), Region{{pt(-ft, -ft), pt(21*ft, -ft), pt(21*ft, 11*ft), pt(11*ft, 11*ft), pt(11*ft, 21*ft), pt(-ft, 21*ft)}}},
		{"an L inward", l.Offset(-ft), Region{{pt(ft, ft), pt(19*ft, ft), pt(19*ft, 9*ft), pt(9*ft, 9*ft), pt(9*ft, 19*ft), pt(ft, 19*ft)}}},
		{"a hole closes", hole.Offset(ft), Region{rectangle(-ft, -ft, 11*ft, 11*ft)}},
		{"a hole opens", hole.Offset(-ft), Region{rectangle(ft, ft, 9*ft, 9*ft), {pt(3*ft, 3*ft), pt(3*ft, 7*ft), pt(7*ft, 7*ft), pt(7*ft, 3*ft)}}},
		{"two become one", Region{rectangle(0, 0, 2*ft, 2*ft), rectangle(3*ft, 0, 5*ft, 2*ft)}.Offset(ft), Region{rectangle(-ft, -ft, 6*ft, 3*ft)}},
		{"nothing moved", l.Offset(0), l},
	} {
		if !sameRegion(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

// Every place of the border moved by an offset is as far from the region as the
// offset says or, at a corner, up to four times that.
func TestOffsetKeepsItsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		lo, hi := g.Bounds()
		by := 1 + geometry.Length(r.Int64N(int64(max(hi.X-lo.X, 1))/3+1))
		const slack = 3
		out := g.Offset(by)
		for _, ring := range out {
			for _, p := range ring {
				if d := g.Distance(p); d < by-slack || d > 4*by+slack {
					t.Fatalf("%v lies %d away, moved by %d\n%v", p, d, by, g)
				}
			}
		}
		in := g.Offset(-by)
		outside := Subtract(Region{rectangle(lo.X-9*by, lo.Y-9*by, hi.X+9*by, hi.Y+9*by)}, g)
		for _, ring := range in {
			for _, p := range ring {
				if d := outside.Distance(p); d < by-slack || d > 4*by+slack {
					t.Fatalf("%v lies %d inside, moved by %d\n%v", p, d, by, g)
				}
			}
		}
	})
}

// The mean place of the largest part's widest line is inside it.
func TestMiddle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyRegion(drawn(t))
		lo, hi := g.Bounds()
		if m, ok := g.Middle(); ok && g.Distance(m) > 1 {
			t.Fatalf("%v is not on %v", m, g)
		} else if !ok && min(hi.X-lo.X, hi.Y-lo.Y) > 1000 {
			t.Fatalf("none in %v", g)
		}
	})
	u := Region{{pt(0, 0), pt(20*ft, 0), pt(20*ft, 20*ft), pt(18*ft, 20*ft), pt(18*ft, 6*ft), pt(2*ft, 6*ft), pt(2*ft, 20*ft), pt(0, 20*ft)}}
	if m, _ := u.Middle(); !u.Contains(m) {
		t.Errorf("the middle of a U is in its court: %v", m)
	}
}

func TestDistance(t *testing.T) {
	g := Region{rectangle(0, 0, 10*ft, 10*ft), {pt(4*ft, 4*ft), pt(4*ft, 6*ft), pt(6*ft, 6*ft), pt(6*ft, 4*ft)}}
	for _, c := range []struct {
		p    geometry.Point
		want geometry.Length
	}{
		{pt(2*ft, 2*ft), 0}, {pt(0, 0), 0}, {pt(-3*ft, -4*ft), 5 * ft}, {pt(5*ft, 12*ft), 2 * ft}, {pt(5*ft, 5*ft), ft},
	} {
		if got := g.Distance(c.p); got != c.want {
			t.Errorf("%v: %v, want %v", c.p, got, c.want)
		}
	}
}

// A frame turns there and back, and its axes are square.
func TestFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		any := func() geometry.Point { return pt(geometry.Length(r.Int64N(1e11)), geometry.Length(r.Int64N(1e11))) }
		f := NewFrame(any(), 7*r.Float64())
		p, q := any(), any()
		if back := f.Out(f.In(p)); geometry.Distance(back, p) > 1 {
			t.Fatalf("%v comes back as %v", p, back)
		}
		if d := f.In(p).Sub(f.In(q)).Length() - geometry.Distance(p, q).Meters(); math.Abs(d) > 1e-9 {
			t.Fatalf("a length changes by %v", d)
		}
		if p != q {
			along := FrameAlong(p, q)
			if v := along.In(q); v.X <= 0 || math.Abs(v.Y) > 1e-9 {
				t.Fatalf("%v lies at %v along the way to it", q, v)
			}
		}
	})
}

// What is cut off a convex polygon and what is left are the polygon.
func TestClipPartsAPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		var p []Vec
		n := 3 + r.IntN(6)
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.9*r.Float64()) / float64(n))
			p = append(p, Vec{5 * c, 5 * s})
		}
		a, b := Vec{10*r.Float64() - 5, 10*r.Float64() - 5}, p[r.IntN(n)]
		f := LeftOf(a, b)
		one, other := Clip(nil, p, f), Clip(nil, p, f.Negated())
		if d := Area(one) + Area(other) - Area(p); math.Abs(d) > 1e-12 {
			t.Fatalf("they differ by %v", d)
		}
		g := Linear{r.Float64(), Vec{r.Float64(), -r.Float64()}}
		if d := Integral(one, g) + Integral(other, g) - Integral(p, g); math.Abs(d) > 1e-12 {
			t.Fatalf("their integrals differ by %v", d)
		}
		var c Clipper
		if d := Area(c.Within(p, p, 1e-9)) - Area(p); math.Abs(d) > 1e-12 {
			t.Fatalf("within itself it differs by %v", d)
		}
		t0, t1 := ClipLine(p[0], p[n/2], f, 0, 1)
		if t0 < t1 && f.At(Lerp(p[0], p[n/2], (t0+t1)/2)) < -1e-9 {
			t.Fatalf("from %v to %v of the line is not left", t0, t1)
		}
	})
}

// A spike that only rounding makes goes, and what it stands on stays.
func TestWithout(t *testing.T) {
	spiked := geometry.Ring{pt(0, 0), pt(10*ft, 0), pt(10*ft, 5*ft), pt(12*ft+1, 9*ft), pt(10*ft-1, 5*ft+2), pt(10*ft, 6*ft), pt(0, 6*ft)}
	g := Region{spiked, {pt(20*ft, 0), pt(30*ft, 0), pt(30*ft, 3)}}
	got := g.Without(10)
	if len(got) != 1 || math.Abs(got.Area()-60*ft.Meters()*ft.Meters()) > 1e-8 {
		t.Errorf("without hairs: %v", got)
	}
	if _, hi := got.Bounds(); hi.X != 10*ft {
		t.Errorf("the spike is left: %v", got)
	}
	if m, ok := (Region{spiked}).Middle(); !ok || !(Region{spiked}).Contains(m) {
		t.Errorf("the middle is %v", m)
	}
}

// Worked by hand.
func TestCrossings(t *testing.T) {
	m := geometry.Meter
	for _, c := range []struct {
		name string
		ring geometry.Ring
		want int
		at   geometry.Point
	}{
		{"square", rectangle(0, 0, m, m), 0, geometry.Point{}},
		{"bow tie", geometry.Ring{pt(0, 0), pt(2*m, 2*m), pt(2*m, 0), pt(0, 2*m)}, 1, pt(m, m)},
		{"corner on an edge", geometry.Ring{pt(0, 0), pt(4*m, 0), pt(4*m, 4*m), pt(2*m, 0), pt(0, 4*m)}, 2, pt(2*m, 0)},
		{"spike folds back", geometry.Ring{pt(0, 0), pt(4*m, 0), pt(2*m, 0), pt(2*m, 2*m)}, 2, pt(4*m, 0)},
		{"collinear corner", geometry.Ring{pt(0, 0), pt(m, 0), pt(2*m, 0), pt(2*m, 2*m)}, 0, geometry.Point{}},
	} {
		got := Crossings([]geometry.Ring{c.ring}, 0)
		if len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		} else if c.want > 0 && got[0].At != c.at {
			t.Errorf("%s: at %v, want %v", c.name, got[0].At, c.at)
		}
	}
}

// A ring holds its corners and sides, whichever way it runs.
func TestIn(t *testing.T) {
	m := geometry.Meter
	r := geometry.Ring{pt(0, 0), pt(2*m, 0), pt(2*m, 2*m), pt(0, 2*m)}
	for range 2 {
		for p, want := range map[geometry.Point]bool{pt(m, m): true, pt(0, m): true, pt(2*m, 2*m): true, pt(-1, m): false, pt(m, 2*m+1): false} {
			if In(r, p) != want {
				t.Errorf("%v in %v: %v", p, r, !want)
			}
		}
		slices.Reverse(r)
	}
}
