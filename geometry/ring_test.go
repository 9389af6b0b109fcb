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
	if got := Along(Point{0, 0}, Point{3 * Meter, 4 * Meter}, 5*Meter); got != (Point{3 * Meter, 4 * Meter}) {
		t.Errorf("5 m along a 3-4-5 triangle: %v", got)
	}
	if got := Distance(Point{0, 0}, Point{3 * Meter, 4 * Meter}); got != 5*Meter {
		t.Errorf("3-4-5 triangle: %v", got)
	}
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
