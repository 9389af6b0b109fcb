package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A sketch that is squeezed: 30 ft across stands for 24, and 20 ft up for 18. A
// length across and one up put both right; a third that is wrong is told.
func TestFitATracedPictureByMoreLengths(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	j := b.doc.Job()
	j.Sketch = job.Sketch{Image: "x", Corners: []geometry.Point{pt(0, 20*ft), pt(30*ft, 20*ft), pt(30*ft, 0), pt(0, 0)}}
	b.doc.Commit("Import", j)
	corner := func(i int) geometry.Point { return b.doc.Job().Sketch.Corners[i] }
	b.m.Use(tool.NewScaleSketch())
	b.click(pt(0, 0))
	b.click(pt(30*ft, 0))
	b.keys("24' right<Return>")
	if s := b.m.View.Screen(corner(1)); s.X > b.m.View.W || s.Y < 0 {
		t.Errorf("the sketch is not seen whole: its corner is at %v", s)
	}
	if h := corner(0).Y - corner(3).Y; (h - 16*ft).Abs() > in {
		t.Errorf("by one length it is %s high, want 16'", h.Text(0))
	}
	b.click(corner(3))
	b.click(corner(0))
	b.keys("18'<Return>")
	if d := geometry.Distance(corner(1), pt(24*ft, 18*ft)); d > in {
		t.Errorf("by two lengths its upper right corner is %s off, at %v", d.Text(0), corner(1))
	}
	if !strings.Contains(b.m.Info, "2 lengths") {
		t.Errorf("told %q", b.m.Info)
	}
	b.click(corner(3))
	b.click(corner(1))
	b.keys("27'<Return>") // it is 30
	if !strings.Contains(b.m.Info, "wrong") {
		t.Errorf("told %q, notice %q", b.m.Info, b.m.Notice)
	}
	var o tool.Overlay
	b.m.Overlay(&o)
	if len(o.Labels) < 3 {
		t.Errorf("the lengths are not shown: %v", o.Labels)
	}
	b.keys("<Escape>")
	b.state("Select")
}

// What is drawn on the sketch is snapped to, by the tools that fit it and by those
// that draw.
func TestSnapsToTheSketch(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	found := snap.Mark{At: pt(10*ft+in/2, 8*ft), Corner: true}
	b.m.Sketch = func(at geometry.Point, reach geometry.Length) (snap.Mark, bool) {
		return found, geometry.Distance(at, found.At) < reach
	}
	b.m.Use(tool.NewSquareSketch())
	b.move(pt(10*ft+2*in, 8*ft-in))
	if b.m.Snap.At != found.At || b.m.Snap.Name != "corner of the sketch" {
		t.Errorf("fitting: %+v", b.m.Snap)
	}
	b.m.Use(&tool.Chain{})
	b.click(pt(10*ft+2*in, 8*ft-in))
	if got := b.m.State().(*tool.Chain).Points[0]; got != found.At {
		t.Errorf("drawing began at %v", got)
	}
	found = snap.Mark{At: pt(20*ft+in/4, 8*ft+2*in)}
	b.move(pt(20*ft, 8*ft+in))
	if s := b.m.Snap; s.Name != "square, line of the sketch" || s.At.Y != 8*ft || s.At.X.Abs()%in == in/4 {
		t.Errorf("drawing on, square: %+v", s)
	}
}

func TestFitATracedPicture(t *testing.T) {
	b := newBench(t, shop())
	j := b.doc.Job()
	j.Sketch = job.Sketch{Image: "x", Corners: []geometry.Point{pt(0, 20*ft), pt(30*ft, 20*ft), pt(30*ft, 0), pt(0, 0)}}
	b.doc.Commit("Import", j)
	corners := func() []geometry.Point { return b.doc.Job().Sketch.Corners }

	b.m.Use(&tool.MoveSketch{})
	b.drag(pt(10*ft, 10*ft), pt(12*ft, 9*ft))
	if d := geometry.Distance(corners()[3], pt(2*ft, -1*ft)); d > geometry.Inch {
		t.Errorf("dragged to %v", corners()[3])
	}
	b.doc.Undo()

	b.m.Use(tool.NewScaleSketch())
	b.click(pt(0, 0))
	b.click(pt(15*ft, 0))
	b.keys("12' right<Return>")
	if d := corners()[1].X - corners()[0].X; (d - 24*ft).Abs() > geometry.Inch/8 {
		t.Errorf("the sketch is %v wide, notice %q", d.Text(0), b.m.Notice)
	}
	b.state("Scale sketch") // for another length
	b.keys("<Return>")
	b.state("Select")
	b.doc.Undo()

	b.m.Use(tool.NewSquareSketch())
	for _, p := range []geometry.Point{pt(5*ft, 2*ft), pt(25*ft, 3*ft), pt(22*ft, 16*ft), pt(7*ft, 15*ft)} {
		b.click(p)
	}
	b.keys("<Escape>")
	b.click(pt(7*ft, 15*ft))
	b.keys("20 x 14<Return>")
	b.state("Select")
	if label, _ := b.doc.CanUndo(); label != "Square the sketch" {
		t.Errorf("history has %q, notice %q", label, b.m.Notice)
	}

	j = b.doc.Job()
	j.Sketch.Locked = true
	b.doc.Commit("Lock", j)
	was := corners()[0]
	b.m.Use(&tool.MoveSketch{})
	b.drag(pt(10*ft, 10*ft), pt(12*ft, 9*ft))
	if corners()[0] != was {
		t.Error("a locked sketch was dragged")
	}
	b.m.Use(tool.NewScaleSketch())
	b.click(pt(1*ft, 1*ft))
	b.click(pt(9*ft, 1*ft))
	b.keys("20'<Return>")
	if corners()[0] != was || !strings.Contains(b.m.Notice, "locked") {
		t.Errorf("a locked sketch was fit; notice %q", b.m.Notice)
	}
}
