package snap_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft, in = geometry.Foot, geometry.Inch

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func TestSnaps(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0) // 20 pixels to the foot
	anchor := func(x, y geometry.Length) *geometry.Point { q := pt(x, y); return &q }
	tests := []struct {
		name   string
		at     geometry.Point // pointed at
		anchor *geometry.Point
		free   bool
		want   geometry.Point
		snap   string
	}{
		{"a corner", pt(24*ft+3*in, -2*in), nil, false, pt(24*ft, 0), "corner 2"},
		{"the middle of an edge", pt(12*ft+3*in, 2*in), nil, false, pt(12*ft, 0), "middle"},
		{"along an edge", pt(7*ft+1*in, 2*in), nil, false, pt(7*ft, 0), "on edge"},
		{"the grid", pt(30*ft+1*in, 26*ft-1*in), nil, false, pt(30*ft, 26*ft), "grid 6\""},
		{"in line with a corner", pt(24*ft+2*in, 26*ft+1*in), nil, false, pt(24*ft, 26*ft), "in line with corner"},
		{"square to the last point", pt(30*ft, 26*ft+8*in), anchor(2*ft, 26*ft), false, pt(30*ft, 26*ft), "square"},
		{"at 45 degrees", pt(31*ft, 5*ft+1*in), anchor(28*ft, 2*ft), false, pt(31*ft, 5*ft), "45°"},
		{"square and in line", pt(24*ft+4*in, 26*ft+8*in), anchor(2*ft, 26*ft), false, pt(24*ft, 26*ft), "square, in line with corner"},
		{"perpendicular to an edge, the square let go", pt(9*ft+1*in, 1*in), anchor(9*ft, 8*ft), true, pt(9*ft, 0), "square on edge"},
		{"free", pt(30*ft+1*in, 25*ft+1*in), anchor(2*ft, 26*ft), true, pt(30*ft+1*in, 25*ft+1*in), ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := snap.To(snap.Request{
				View: v, Plan: p, Pointer: v.Screen(test.at), Anchor: test.anchor, Free: test.free, Grid: true, Square: true,
			})
			if d := geometry.Distance(got.At, test.want); d > in/8 {
				t.Errorf("at %s, %s; want %s, %s", got.At.X.Text(0), got.At.Y.Text(0), test.want.X.Text(0), test.want.Y.Text(0))
			}
			if got.Name != test.snap && (test.snap == "" || !strings.HasPrefix(got.Name, test.snap)) {
				t.Errorf("named %q, want %q", got.Name, test.snap)
			}
		})
	}
}

// What is dragged is no place to snap to.
func TestTheDraggedCornerIsLeftOut(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	got := snap.To(snap.Request{
		View: v, Plan: p, Pointer: v.Screen(pt(24*ft+2*in, 20*ft+4*in)), Grid: true,
		Except: func(loop, i int) bool { return i == 2 },
	})
	if got.Name == "corner 3" {
		t.Error("it snapped to itself")
	}
}

func TestLengthsAlongADiagonalAreHeld(t *testing.T) {
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	a := pt(0, 0)
	got := snap.To(snap.Request{View: v, Pointer: v.Screen(pt(10*ft+1*in, 10*ft-2*in)), Anchor: &a, Grid: true, Square: true})
	if got.At.X != got.At.Y {
		t.Errorf("off the diagonal: %v", got.At)
	}
}

// With right angles held, the square to a slanted edge and the edge that is run into
// are found all the same.
func TestSquareMeetsEdges(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(20*ft, 0), pt(30*ft, 10*ft), pt(0, 20*ft)}, plan.Edge{}))
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	for _, test := range []struct {
		anchor, at, want geometry.Point
		name             string
	}{
		{pt(26*ft, 0), pt(23*ft+1*in, 3*ft+1*in), pt(23*ft, 3*ft), "square on edge"},
		{pt(34*ft, 8*ft), pt(28*ft+2*in, 8*ft+2*in), pt(28*ft, 8*ft), "square, on edge"},
	} {
		got := snap.To(snap.Request{View: v, Plan: p, Pointer: v.Screen(test.at), Anchor: &test.anchor, Grid: true, Square: true})
		if d := geometry.Distance(got.At, test.want); d > in/8 || got.Name != test.name {
			t.Errorf("at %v, %q; want %v, %q", got.At, got.Name, test.want, test.name)
		}
	}
}

// What is on the picture under the plan comes after the places of the plan, and
// before the grid.
func TestSketchComesBetweenPlanAndGrid(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	mark := snap.Mark{At: pt(28*ft+in/3, 8*ft), Corner: true}
	ask := func(at geometry.Point) snap.Result {
		return snap.To(snap.Request{View: v, Plan: p, Pointer: v.Screen(at), Grid: true,
			Sketch: func(geometry.Point, geometry.Length) (snap.Mark, bool) { return mark, true }})
	}
	if got := ask(pt(24*ft+in, in)); got.Name != "corner 2" {
		t.Errorf("over a corner of the plan: %q", got.Name)
	}
	if got := ask(pt(28*ft, 8*ft)); got.At != mark.At || got.Name != "corner of the sketch" {
		t.Errorf("over the sketch: %v, %q", got.At, got.Name)
	}
	mark.Corner = false
	if got := ask(pt(7*ft, 2*in)); got.Name != "on edge" {
		t.Errorf("a line of the sketch by an edge: %q", got.Name)
	}
	if got := ask(pt(28*ft, 8*ft)); got.Name != "line of the sketch" {
		t.Errorf("over a line of the sketch: %q", got.Name)
	}
}
