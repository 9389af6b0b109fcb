package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Of many falls only some are the top anywhere. The heights, and the least and greatest
// along a line, are as over all falls; every arrow goes down its fall where that is the
// top; and a fall that is the top somewhere has its arrow.
func TestManyFalls(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	const ft = geometry.Foot
	within := func(l geometry.Length) geometry.Length { return geometry.Length(rnd.Int64N(int64(l))) }
	for range 60 {
		p := plan.Plan{Field: ft / 2}
		for _, c := range [][2]geometry.Length{{0, 0}, {40, 0}, {40, 30}, {0, 30}} {
			p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: c[0] * ft, Y: c[1] * ft}})
		}
		p.Top.Meet = plan.Meet(rnd.IntN(2))
		for range 1 + rnd.IntN(40) {
			from := geometry.Point{X: within(40 * ft), Y: within(30 * ft)}
			to := geometry.Point{X: within(40 * ft), Y: within(30 * ft)}
			if geometry.Distance(from, to) > ft {
				p.Top.Falls = append(p.Top.Falls, plan.Fall{From: from, To: to, Drop: geometry.Inch/4 + within(3*geometry.Inch)})
			}
		}
		if len(p.Top.Falls) == 0 {
			continue
		}
		s := OfSound(p)
		all := func(q geometry.Point) float64 {
			h := s.top.planes[0].At(s.region.In(q))
			for _, f := range s.top.planes {
				if v := f.At(s.region.In(q)); s.top.ridge {
					h = min(h, v)
				} else {
					h = max(h, v)
				}
			}
			return h
		}
		for range 200 {
			q := geometry.Point{X: within(80*ft) - 20*ft, Y: within(60*ft) - 15*ft}
			if got, want := s.top.at(s.region.In(q)), all(q); math.Abs(got-want) > 1e-9 {
				t.Fatalf("%d falls: %g at %v, want %g", len(p.Top.Falls), got, q, want)
			}
		}
		for range 20 {
			a, b := geometry.Point{X: within(40 * ft), Y: within(30 * ft)}, geometry.Point{X: within(40 * ft), Y: within(30 * ft)}
			lo, hi := s.TopRange(a, b)
			least, most := math.Inf(1), math.Inf(-1)
			const n = 4000
			for k := range n + 1 {
				h := all(geometry.Point{X: a.X + (b.X-a.X)*geometry.Length(k)/n, Y: a.Y + (b.Y-a.Y)*geometry.Length(k)/n})
				least, most = min(least, h), max(most, h)
			}
			// A place between two samples may be lower or higher than both.
			if lo.Meters() > least+1e-8 || lo.Meters() < least-1e-3 || hi.Meters() < most-1e-8 || hi.Meters() > most+1e-3 {
				t.Fatalf("from %v to %v: %v to %v, sampled %g to %g", a, b, lo, hi, least, most)
			}
		}
		arrows := map[int]bool{}
		for _, a := range s.Surface().Arrows {
			arrows[a.Fall] = true
			for _, q := range []geometry.Point{a.From, a.To} {
				if h := s.top.planes[a.Fall].At(s.region.In(q)); math.Abs(h-all(q)) > 1e-6 {
					t.Errorf("the arrow of fall %d is at %v where another is the top", a.Fall, q)
				}
			}
			if a.Drop <= 0 {
				t.Errorf("the arrow of fall %d drops %v", a.Fall, a.Drop)
			}
		}
		for range 500 {
			q := geometry.Point{X: within(40 * ft), Y: within(30 * ft)}
			top, second := -1, math.Inf(1)
			for i, f := range s.top.planes {
				d := math.Abs(f.At(s.region.In(q)) - all(q))
				if d < 1e-12 {
					top = i
				} else {
					second = min(second, d)
				}
			}
			if second > 1e-3 && top >= 0 && !arrows[top] {
				t.Fatalf("fall %d is the top at %v and has no arrow", top, q)
			}
		}
	}
}
