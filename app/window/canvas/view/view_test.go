package view_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
)

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func TestFitShowsTheBoxInTheMiddle(t *testing.T) {
	lo, hi := pt(0, 0), pt(36*geometry.Foot, 28*geometry.Foot)
	v := view.Fit(lo, hi, 800, 600, 50)
	a, b := v.Screen(lo), v.Screen(hi)
	if math.Abs((a.X+b.X)/2-400) > 1e-3 || math.Abs((a.Y+b.Y)/2-300) > 1e-3 {
		t.Errorf("corners are seen at %v and %v", a, b)
	}
	if a.X < 49.9 || b.X > 750.1 || b.Y < 49.9 || a.Y > 550.1 || a.Y < b.Y {
		t.Errorf("corners are seen at %v and %v", a, b)
	}
}

func TestZoomHoldsThePointUnderThePointer(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := view.Fit(pt(0, 0), pt(36*geometry.Foot, 28*geometry.Foot), 800, 600, 50)
		s := view.XY{X: rapid.Float64Range(0, 800).Draw(rt, "x"), Y: rapid.Float64Range(0, 600).Draw(rt, "y")}
		held := v.Plan(s)
		for _, f := range rapid.SliceOfN(rapid.Float64Range(0.3, 3), 1, 40).Draw(rt, "factors") {
			v = v.Zoom(s, f)
		}
		if d := view.Distance(v.Screen(held), s); d > 0.5 {
			rt.Fatalf("the point went %g pixels away", d)
		}
	})
}

func TestScreenAndPlanAreInverse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := view.Fit(pt(0, 0), pt(36*geometry.Foot, 28*geometry.Foot), 800, 600, 50)
		p := pt(geometry.Length(rapid.Int64Range(-1e12, 1e12).Draw(rt, "x")), geometry.Length(rapid.Int64Range(-1e12, 1e12).Draw(rt, "y")))
		q := v.Plan(v.Screen(p))
		if d := geometry.Distance(p, q); d > geometry.Micrometer*10 {
			rt.Fatalf("%v came back as %v", p, q)
		}
	})
}

func TestGridCanBeRead(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		v := view.Fit(pt(0, 0), pt(36*geometry.Foot, 28*geometry.Foot), 800, 600, 50)
		for range 60 {
			v = v.Zoom(view.XY{X: 400, Y: 300}, 1.2)
			fine, coarse := v.Grid(u)
			if coarse <= fine || coarse%fine != 0 {
				t.Errorf("%s: coarse %d is no multiple of fine %d", u, coarse, fine)
			}
		}
	}
}

func TestNoInputBreaksTheView(t *testing.T) {
	v := view.Fit(pt(0, 0), pt(0, 0), 0, 0, 50)
	for _, f := range []float64{math.Inf(1), math.NaN(), 0, -1, 1e300, 1e-300} {
		v = v.Zoom(view.XY{X: 10, Y: 10}, f)
		if !(v.Scale > 0) || math.IsInf(v.Scale, 0) {
			t.Fatalf("factor %g gave scale %g", f, v.Scale)
		}
	}
}
