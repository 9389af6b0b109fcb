package tool_test

import (
	"testing"

	"haunchbook/app/job"
	"haunchbook/app/window/canvas/tool"
	"haunchbook/geometry"
)

func TestFitATracedPicture(t *testing.T) {
	b := newBench(t, shop())
	j := b.doc.Job()
	j.Trace = job.Trace{Image: "x", Corners: []geometry.Point{pt(0, 20*ft), pt(30*ft, 20*ft), pt(30*ft, 0), pt(0, 0)}}
	b.doc.Commit("Import", j)
	corners := func() []geometry.Point { return b.doc.Job().Trace.Corners }

	b.m.Use(&tool.MoveTrace{})
	b.drag(pt(10*ft, 10*ft), pt(12*ft, 9*ft))
	if d := geometry.Distance(corners()[3], pt(2*ft, -1*ft)); d > geometry.Inch {
		t.Errorf("dragged to %v", corners()[3])
	}
	b.doc.Undo()

	b.m.Use(tool.NewScaleTrace())
	b.click(pt(0, 0))
	b.click(pt(15*ft, 0))
	b.keys("12' < 0<Return>")
	if d := corners()[1].X - corners()[0].X; (d - 24*ft).Abs() > geometry.Inch/8 {
		t.Errorf("the picture is %v wide, notice %q", d.Text(0), b.m.Notice)
	}
	b.state("Select")
	b.doc.Undo()

	b.m.Use(tool.NewSquareTrace())
	for _, p := range []geometry.Point{pt(5*ft, 2*ft), pt(25*ft, 3*ft), pt(22*ft, 16*ft), pt(7*ft, 15*ft)} {
		b.click(p)
	}
	b.keys("<Escape>")
	b.click(pt(7*ft, 15*ft))
	b.keys("20 x 14<Return>")
	b.state("Select")
	if label, _ := b.doc.CanUndo(); label != "Square the picture" {
		t.Errorf("history has %q, notice %q", label, b.m.Notice)
	}

	j = b.doc.Job()
	j.Trace.Locked = true
	b.doc.Commit("Lock", j)
	was := corners()[0]
	b.m.Use(&tool.MoveTrace{})
	b.drag(pt(10*ft, 10*ft), pt(12*ft, 9*ft))
	if corners()[0] != was {
		t.Error("a locked picture was dragged")
	}
}
