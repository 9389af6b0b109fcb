package solid_test

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// raised gives a slab of 24 ft by 20 ft with level curbs of 6 by 6 in on all edges.
func raised(falls ...plan.Fall) plan.Plan {
	const ft, in = geometry.Foot, geometry.Inch
	p := plan.Plan{Field: 4 * in, Top: plan.Top{Falls: falls, Curbs: plan.CurbsLevel}}
	for _, q := range [][2]geometry.Length{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * ft, Y: q[1] * ft}, Curb: 6 * in, CurbWidth: 6 * in})
	}
	return p
}

// By hand, in feet. The curbs cover 480 - 23 × 19 = 43 square feet: 21 1/2 cubic feet at 6 in.
//
// A fall of 3 in from back to front adds, halfway, 1 1/2 in on all of them: 43 / 8 = 5.375. The
// door of 16 ft in front takes 8 square feet, of 6 + 3 × (1 - 1/80) in: 8 × 8.9625 / 12 = 5.975.
//
// Two falls of 3 in to either side from a ridge in the middle add 1 1/2 in on 24 square feet along
// the long sides, and 3 × 11.75 / 12 = 2.9375 in on 19 along the others: 3 + 4.651041…
func TestLevelCurbsByHand(t *testing.T) {
	const ft, in, cubic = geometry.Foot, geometry.Inch, 0.3048 * 0.3048 * 0.3048
	fall := func(x0, y0, x1, y1, drop geometry.Length) plan.Fall {
		return plan.Fall{From: geometry.Point{X: x0 * ft, Y: y0 * ft}, To: geometry.Point{X: x1 * ft, Y: y1 * ft}, Drop: drop * in}
	}
	one := fall(0, 20, 0, 0, 3)
	door := raised(one)
	door.Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 16 * ft}}
	ridge := raised(fall(12, 10, 0, 10, 3), fall(12, 10, 24, 10, 3))
	ridge.Top.Meet = plan.Ridge
	follow := raised(one)
	follow.Top.Curbs = plan.CurbsFollow
	for _, c := range []struct {
		name        string
		p           plan.Plan
		volume      float64 // cubic feet
		least, most geometry.Length
		bends       int // of the top under the first edge
	}{
		{"level", raised(), 21.5, 6 * in, 6 * in, 0},
		{"follow", follow, 21.5, 6 * in, 6 * in, 0},
		{"one fall", raised(one), 21.5 + 5.375, 6 * in, 9 * in, 0},
		{"door", door, 21.5 + 5.375 - 5.975, 6 * in, 9 * in, 0},
		{"ridge", ridge, 21.5 + 3 + 19*2.9375/12, 6 * in, 9 * in, 1},
	} {
		got := solid.OfSound(c.p).Curbs(c.p.Curbs(nil))
		if v := got.Volume / cubic; math.Abs(v-c.volume) > 1e-6 {
			t.Errorf("%s: %.9f cubic feet, want %g", c.name, v, c.volume)
		}
		least, most := geometry.MaxLength, geometry.Length(0)
		for _, r := range got.Runs {
			lo, hi := got.Range(r)
			least, most = min(least, lo), max(most, hi)
		}
		if (least-c.least).Abs() > 2 || (most-c.most).Abs() > 2 {
			t.Errorf("%s: from %s to %s high", c.name, least.Text(geometry.FeetInches), most.Text(geometry.FeetInches))
		}
		if n := got.Over.Bends(c.p.Outline[0].At, c.p.Outline[1].At); len(n) != c.bends {
			t.Errorf("%s: bends at %v", c.name, n)
		}
		left := c.p.Region().Left(geometry.Point{X: 9 * ft}, geometry.Point{X: 9 * ft, Y: 1})
		right := c.p.Region().Left(geometry.Point{X: 9 * ft, Y: 1}, geometry.Point{X: 9 * ft})
		if sum := (got.Within(left) + got.Within(right)) / cubic; math.Abs(sum-c.volume) > 1e-6 {
			t.Errorf("%s: in two parts %.9f", c.name, sum)
		}
	}
}
