package solid

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The lowest point of a top is 0, wherever it lies: no point of the slab is lower, and
// one nearly is as low, among points that lie close and at the corners.
func TestLowestOfTheTop(t *testing.T) {
	const ft = geometry.Foot
	rapid.Check(t, func(t *rapid.T) {
		p := plan.Plan{Field: 6 * geometry.Inch}
		for _, c := range [][2]geometry.Length{{0, 0}, {40, 0}, {40, 12}, {18, 12}, {18, 30}, {0, 30}} {
			p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: c[0] * ft, Y: c[1] * ft}})
		}
		point := rapid.Custom(func(t *rapid.T) geometry.Point {
			return geometry.Point{X: geometry.Length(rapid.IntRange(0, 40).Draw(t, "x")) * ft, Y: geometry.Length(rapid.IntRange(0, 30).Draw(t, "y")) * ft}
		})
		for range rapid.IntRange(1, 6).Draw(t, "falls") {
			f := plan.Fall{From: point.Draw(t, "from"), To: point.Draw(t, "to"), Drop: geometry.Length(rapid.IntRange(1, 8).Draw(t, "drop")) * geometry.Inch}
			if f.From != f.To {
				p.Top.Falls = append(p.Top.Falls, f)
			}
		}
		if rapid.Bool().Draw(t, "ridge") {
			p.Top.Meet = plan.Ridge
		}
		s := OfSound(p)
		if s.top == nil {
			return
		}
		steepest := 0.0
		for _, f := range s.top.planes {
			steepest = max(steepest, f.G.Length())
		}
		low := math.Inf(1)
		const step = ft / 2
		for x := geometry.Length(0); x <= 40*ft; x += step {
			for y := geometry.Length(0); y <= 30*ft; y += step {
				if x <= 18*ft || y <= 12*ft {
					low = min(low, s.TopAt(geometry.Point{X: x, Y: y}).Meters())
				}
			}
		}
		if low < -1e-6 || low > steepest*step.Meters() {
			t.Fatalf("the lowest point found is %g m", low)
		}
	})
}

// Many falls are as quickly settled as few: how long the lowest point takes to find.
func BenchmarkManyFalls(b *testing.B) {
	p := plan.Plan{Field: 6 * geometry.Inch}
	for _, c := range [][2]geometry.Length{{0, 0}, {400, 0}, {400, 300}, {0, 300}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: c[0] * geometry.Foot, Y: c[1] * geometry.Foot}})
	}
	for i := range geometry.Length(500) {
		p.Top.Falls = append(p.Top.Falls, plan.Fall{
			From: geometry.Point{X: i * 200 * geometry.Millimeter, Y: 250 * geometry.Foot},
			To:   geometry.Point{X: i*200*geometry.Millimeter + i%5*geometry.Foot, Y: 8 * geometry.Foot}, Drop: (2 + i%3) * geometry.Inch,
		})
	}
	for b.Loop() {
		OfSound(p)
	}
}
