package geometry

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func point(t *rapid.T, name string, limit int64) Point {
	return Point{Length(rapid.Int64Range(-limit, limit).Draw(t, name+" x")), Length(rapid.Int64Range(-limit, limit).Draw(t, name+" y"))}
}

// TestOrientation compares with whole-number arithmetic of any size.
func TestOrientation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.SampledFrom([]int64{3, 1000, int64(MaxLength)}).Draw(t, "limit")
		a, b, c := point(t, "a", limit), point(t, "b", limit), point(t, "c", limit)
		big2 := func(x, y Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(x)), big.NewInt(int64(y))) }
		want := big2(b.X-a.X, c.Y-a.Y).Cmp(big2(b.Y-a.Y, c.X-a.X))
		if got := Orientation(a, b, c); got != want {
			t.Fatalf("got %d, want %d", got, want)
		}
	})
}

func square(side Length) Ring { return Ring{{0, 0}, {side, 0}, {side, side}, {0, side}} }

func TestRing(t *testing.T) {
	r := square(2 * Meter)
	if r.Area() != 4 || r.Perimeter() != 8*Meter || !r.CounterClockwise() {
		t.Errorf("square of 2 m: %g m², %d nm, counter-clockwise %v", r.Area(), r.Perimeter(), r.CounterClockwise())
	}
	for _, c := range []struct {
		p  Point
		in bool
	}{{Point{Meter, Meter}, true}, {Point{0, Meter}, true}, {Point{2 * Meter, 2 * Meter}, true}, {Point{-1, Meter}, false}, {Point{Meter, 2*Meter + 1}, false}} {
		if r.Contains(c.p) != c.in {
			t.Errorf("%v inside: %v, want %v", c.p, !c.in, c.in)
		}
	}
	if got := Along(Point{0, 0}, Point{3 * Meter, 4 * Meter}, 5*Meter); got != (Point{3 * Meter, 4 * Meter}) {
		t.Errorf("5 m along a 3-4-5 triangle: %v", got)
	}
	if got := Distance(Point{0, 0}, Point{3 * Meter, 4 * Meter}); got != 5*Meter {
		t.Errorf("3-4-5 triangle: %v", got)
	}
}

func TestCrossings(t *testing.T) {
	m := Meter
	for _, c := range []struct {
		name string
		ring Ring
		want int
		at   Point
	}{
		{"square", square(m), 0, Point{}},
		{"bow tie", Ring{{0, 0}, {2 * m, 2 * m}, {2 * m, 0}, {0, 2 * m}}, 1, Point{m, m}},
		{"corner on an edge", Ring{{0, 0}, {4 * m, 0}, {4 * m, 4 * m}, {2 * m, 0}, {0, 4 * m}}, 2, Point{2 * m, 0}},
		{"spike folds back", Ring{{0, 0}, {4 * m, 0}, {2 * m, 0}, {2 * m, 2 * m}}, 2, Point{4 * m, 0}},
		{"collinear corner", Ring{{0, 0}, {m, 0}, {2 * m, 0}, {2 * m, 2 * m}}, 0, Point{}},
	} {
		got := c.ring.Crossings(0)
		if len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		} else if c.want > 0 && got[0].At != c.at {
			t.Errorf("%s: at %v, want %v", c.name, got[0].At, c.at)
		}
	}
}

// The index finds what a look at every box finds.
func TestIndex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 120).Draw(t, "n")
		boxes := make([]Box, n)
		span := rapid.SampledFrom([]float64{1, 30, 1000}).Draw(t, "span")
		for i := range boxes {
			x, y := rapid.Float64Range(-span, span).Draw(t, "x"), rapid.Float64Range(-span, span).Draw(t, "y")
			boxes[i] = Box{x, y, x + rapid.Float64Range(0, 5).Draw(t, "w"), y + rapid.Float64Range(0, 5).Draw(t, "h")}
		}
		q := Box{-3, -2, 4, 3}
		var want []int32
		for i, b := range boxes {
			if b.Overlaps(q) {
				want = append(want, int32(i))
			}
		}
		x := NewIndex(boxes)
		got := x.Near(q, nil)
		if len(got) != len(want) {
			t.Fatalf("near: %v, want %v", got, want)
		}
		for i := range got {
			if got[i] != want[i] {
				t.Fatalf("near: %v, want %v", got, want)
			}
		}
		pairs := 0
		x.Pairs(func(i, j int) {
			if i >= j || !boxes[i].Overlaps(boxes[j]) {
				t.Fatalf("pair %d, %d", i, j)
			}
			pairs++
		})
		for i := range boxes {
			for j := range i {
				if boxes[i].Overlaps(boxes[j]) {
					pairs--
				}
			}
		}
		if pairs != 0 {
			t.Fatalf("%d pairs too many", pairs)
		}
	})
}

func TestAreaIsExact(t *testing.T) {
	// One nanometer more on a side of 10 km: 1e-9 · 1e4 m² beyond 1e8 m², in the
	// 17th digit; the sum must not lose it before the last rounding.
	r := square(10_000 * Meter)
	r[1].X++
	r[2].X++
	if got, want := r.Area(), 1e8+1e-5; math.Abs(got-want) > 1.5e-8 {
		t.Errorf("got %.10f, want %.10f", got, want)
	}
}
