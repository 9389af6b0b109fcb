package size_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func measure(text string) (w, h float64) { return 7 * float64(len(text)), 15 }

// place gives the dimensions of a plan with an edge selected.
func place(p plan.Plan, v view.View, edge int) *size.Placed {
	out := &size.Placed{}
	out.Set([]plan.Plan{p}, 0, v, geometry.FeetInches, measure, planview.Selected{Edge: edge, Bolt: -1})
	return out
}

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

// Numbers never stand on each other, whatever the plan and the scale, and each
// that is left out is counted.
func TestNumbersDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := comb(rapid.IntRange(1, 12).Draw(rt, "teeth"), geometry.Length(rapid.Int64Range(int64(ft/4), int64(6*ft)).Draw(rt, "tooth")))
		p, _ = p.AddDoor(0, 0, plan.Door{From: ft / 8, Width: ft / 8})
		lo, hi := p.Outline.Corners().Bounds()
		v := view.Fit(lo, hi, 1000, 700, 80).Zoom(view.XY{X: 500, Y: 350}, rapid.Float64Range(0.1, 1).Draw(rt, "zoom"))
		got := place(p, v, 0)
		for i, a := range got.Dims {
			for _, b := range got.Dims[:i] {
				if math.Abs(a.At.X-b.At.X) < (a.W+b.W)/2 && math.Abs(a.At.Y-b.At.Y) < (a.H+b.H)/2 {
					rt.Fatalf("%s and %s overlap", a.Text, b.Text)
				}
			}
		}
		if all := len(p.Outline) + 3; len(got.Dims)+got.Thinned[drawing.Dimensions] != all {
			rt.Fatalf("%d numbers and %d left out of %d", len(got.Dims), got.Thinned[drawing.Dimensions], all)
		}
	})
}

func TestEveryNumberCanBeClicked(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.AddDoor(0, 0, plan.Door{From: 4 * ft, Width: 9 * ft})
	v := view.Fit(pt(0, 0), pt(24*ft, 20*ft), 1000, 700, 80)
	dims := place(p, v, 0).Dims
	if len(dims) != 6+3 {
		t.Errorf("%d dimensions, want one for each edge and three for the door", len(dims))
	}
	for _, d := range dims {
		if i := slices.IndexFunc(dims, func(o size.Dim) bool { return o.Covers(d.At) }); i < 0 || !dims[i].Same(d) {
			t.Errorf("a click on %s hits number %d", d.Text, i)
		}
	}
}

// An edge that is seen in part has its number on that part.
func TestNumbersStayOnTheScreen(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(100*ft, 0), pt(100*ft, 30*ft), pt(0, 30*ft)}, plan.Edge{}))
	v := view.Fit(pt(-4*ft, -6*ft), pt(20*ft, 12*ft), 800, 600, 0)
	for _, d := range place(p, v, -1).Dims {
		if d.Kind == planview.EdgeLength && d.Edge == 0 {
			if d.At.X < 0 || d.At.X > 800 || d.At.Y < 0 || d.At.Y > 600 {
				t.Errorf("%s stands at %v", d.Text, d.At)
			}
			return
		}
	}
	t.Error("the lower edge has no number")
}

// A slab of 24 by 20 with one 3 ft to its right, one 5 ft above it, and one that
// faces no edge of it.
func TestGapsAndBolts(t *testing.T) {
	box := func(x, y, w, h geometry.Length) plan.Plan {
		return plan.Plan{}.WithOutline(plan.Like(geometry.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}, plan.Edge{}))
	}
	p := box(0, 0, 24*ft, 20*ft)
	p, _ = p.SetBolts(0, 0, []plan.BoltMark{{Along: 7 * ft}})
	slabs := []plan.Plan{box(27*ft, 4*ft, 8*ft, 8*ft), p, box(2*ft, 25*ft, 8*ft, 8*ft), box(40*ft, 40*ft, 8*ft, 8*ft), {}}
	v := view.Fit(geometry.Point{X: -6 * ft, Y: -6 * ft}, geometry.Point{X: 50 * ft, Y: 50 * ft}, 1200, 1200, 0)
	var placed size.Placed
	placed.Set(slabs, 1, v, geometry.FeetInches, measure, planview.Selected{})
	got := map[planview.MeasureKind][]size.Dim{}
	for _, d := range placed.Dims {
		got[d.Kind] = append(got[d.Kind], d)
	}
	if g := got[planview.Gap]; len(g) != 2 || g[0].Value != 3*ft || g[0].Other != 0 || g[0].Axis != plan.AcrossX || g[0].Back || g[1].Value != 5*ft || g[1].Other != 2 || g[1].Axis != plan.AcrossY {
		t.Errorf("gaps %+v, want 3 ft to slab 0 and 5 ft to slab 2", g)
	}
	if f, to := got[planview.BoltFrom], got[planview.BoltTo]; len(f) != 1 || len(to) != 1 || f[0].Value != 7*ft || to[0].Value != 17*ft {
		t.Errorf("bolt %+v %+v, want 7 and 17 ft", f, to)
	}
}
