package dim_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/app/window/canvas/dim"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func measure(text string) (w, h float64) { return 7 * float64(len(text)), 15 }

// comb is an outline with n teeth.
func comb(n int, tooth geometry.Length) plan.Plan {
	var ring geometry.Ring
	w := geometry.Length(2*n) * tooth
	ring = append(ring, pt(0, 0), pt(w, 0))
	for i := n - 1; i >= 0; i-- {
		x := geometry.Length(2*i) * tooth
		ring = append(ring, pt(x+2*tooth, 10*ft), pt(x+tooth, 10*ft), pt(x+tooth, 6*ft), pt(x, 6*ft))
	}
	return plan.Plan{}.WithOutline(plan.Like(ring, plan.Edge{}))
}

// Numbers never stand on each other, whatever the plan and the scale.
func TestNumbersDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := comb(rapid.IntRange(1, 12).Draw(rt, "teeth"), geometry.Length(rapid.Int64Range(int64(ft/4), int64(6*ft)).Draw(rt, "tooth")))
		p, _ = p.AddDoor(0, 0, plan.Door{From: ft / 8, Width: ft / 8})
		lo, hi := p.Outline.Corners().Bounds()
		v := view.Fit(lo, hi, 1000, 700, 80).Zoom(view.XY{X: 500, Y: 350}, rapid.Float64Range(0.1, 5).Draw(rt, "zoom"))
		dims := dim.Place(p, v, geometry.FeetInches, measure, 0, 0)
		for i, a := range dims {
			for _, b := range dims[:i] {
				if math.Abs(a.At.X-b.At.X) < (a.W+b.W)/2 && math.Abs(a.At.Y-b.At.Y) < (a.H+b.H)/2 {
					rt.Fatalf("%s and %s overlap", a.Text, b.Text)
				}
			}
		}
	})
}

func TestEveryNumberCanBeClicked(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.AddDoor(0, 0, plan.Door{From: 4 * ft, Width: 9 * ft})
	v := view.Fit(pt(0, 0), pt(24*ft, 20*ft), 1000, 700, 80)
	dims := dim.Place(p, v, geometry.FeetInches, measure, 0, 0)
	if len(dims) != 6+3 {
		t.Errorf("%d dimensions, want one for each edge and three for the door", len(dims))
	}
	for _, d := range dims {
		got := hit.At(p, v, dims, d.At)
		if got.Kind != hit.Dim || !got.Dim.Same(d) {
			t.Errorf("a click on %s hits %v", d.Text, got.Kind)
		}
	}
}
