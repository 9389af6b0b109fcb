package pour

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// usual is the reach of Default: a straightedge of 14 ft with 1 ft of overlap,
// which spans 13 ft.
var usual = Default().Reach

// By hand, with a span of 13 ft both ways. 24 by 20 ft: 20 ft take two lanes and
// one row, 24 ft two spans and one pad, in the middle (common practice; its source
// is a crew). 60 by 40 ft: 40 ft take four lanes and three rows, 60 ft five spans
// and four pads in each. 13 ft wide takes no pad, and 13 ft 1 in a row.
func TestWetPadsStandAsFarAsTheStraightedgeSpans(t *testing.T) {
	for _, c := range []struct {
		w, h float64
		want []geometry.Point // nil to count only
		n    int
	}{
		{24, 20, []geometry.Point{at(12, 10)}, 1},
		{20, 24, []geometry.Point{at(10, 12)}, 1},
		{60, 40, nil, 12},
		{39, 26, []geometry.Point{at(13, 13), at(26, 13)}, 2},
		{40, 13, nil, 0},
		{40, 13 + 1.0/12, nil, 3},
	} {
		p := slab(at(0, 0), at(c.w, 0), at(c.w, c.h), at(0, c.h))
		_, _, pads := lay(t, p, usual, nil, nil, solidOf(t, p))
		if len(pads) != c.n {
			t.Errorf("%g by %g ft: %d pads, want %d", c.w, c.h, len(pads), c.n)
			continue
		}
		for i, want := range c.want {
			if geometry.Distance(pads[i].At, want) > 2 {
				t.Errorf("%g by %g ft: pad %d at %v, want %v", c.w, c.h, i+1, pads[i].At, want)
			}
		}
	}
}

// A slab that lies askew has its pads where the same slab has them that lies
// straight: measured from its corner 1, along its first side and square off it.
func TestWetPadsFollowTheSlab(t *testing.T) {
	straight := slab(at(0, 0), at(60, 0), at(60, 40), at(0, 40))
	_, _, want := lay(t, straight, usual, nil, nil, solidOf(t, straight))
	for _, turn := range []float64{30, 90, 137} {
		p := straight.Rotate(at(7, -3), turn).Translate(at(100, -50))
		_, _, pads := lay(t, p, usual, nil, nil, solidOf(t, p))
		if len(pads) != len(want) {
			t.Fatalf("turned by %g degrees, %d pads, want %d", turn, len(pads), len(want))
		}
		for _, w := range want {
			found := false
			for _, pad := range pads {
				found = found || geometry.Distance(pad.From, w.From) < 100
			}
			if !found {
				t.Errorf("turned by %g degrees, no pad is %s along and %s off corner 1", turn, w.From.X.Text(0), w.From.Y.Text(0))
			}
		}
	}
	if got := want[0].From; got != want[0].At {
		t.Errorf("straight at the origin, the pad at %v is %v from corner 1", want[0].At, got)
	}
}

// Every place on a slab is within a span, both ways, of a form or a pad: no gap
// along a row is wider than the straightedge reaches, and each row stands so far
// from the next.
func TestWetPadsOnAnL(t *testing.T) {
	p := slab(at(0, 0), at(40, 0), at(40, 20), at(20, 20), at(20, 40), at(0, 40))
	p.Top.Falls = []plan.Fall{{From: at(0, 40), To: at(0, 0), Drop: 4 * geometry.Inch}}
	_, _, pads := lay(t, p, usual, nil, nil, solidOf(t, p))
	// Lanes of 10 ft along X: rows at 10, 20 and 30 ft. The first is 40 ft long and
	// takes three pads; the second has a form along its right half, and it and the
	// third are 20 ft and take one.
	if len(pads) != 5 {
		t.Fatalf("%d pads, want 5: %v", len(pads), pads)
	}
	for _, pad := range pads {
		if want := 4 * geometry.Inch * pad.At.Y / (40 * ft); pad.Level || (pad.Height-want).Abs() > 1 {
			t.Errorf("pad at %v: %s high, want %s", pad.At, pad.Height.Exact(0), want.Exact(0))
		}
	}
}
