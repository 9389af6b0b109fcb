package tool_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

func framed() plan.Plan {
	p := shop()
	p.Outline[0].Wall = "2x6"
	return p
}

func (b *bench) bolts(want ...plan.BoltMark) {
	b.Helper()
	if diff := cmp.Diff(want, b.doc.Plan().Outline[0].Bolts); diff != "" {
		b.Errorf("bolts (-want +got):\n%s\nnotice: %s", diff, b.m.Notice)
	}
}

func TestBoltMarksByClickAndTyped(t *testing.T) {
	b := newBench(t, framed())
	b.m.Use(&tool.PlaceBolt{})
	b.click(pt(5*ft+in/3, 2*in)) // to the inch
	b.bolts(plan.BoltMark{Along: 5 * ft})
	b.move(pt(9*ft, 2*in))
	b.keys("1', 9'-6 3/16\"<Return>")
	b.bolts(plan.BoltMark{Along: ft}, plan.BoltMark{Along: 5 * ft}, plan.BoltMark{Along: 9*ft + 6*in + 3*in/16})
	b.keys("<Tab><Space>2'<Return>") // a hold-down, from the other corner
	b.bolts(plan.BoltMark{Along: ft}, plan.BoltMark{Along: 5 * ft}, plan.BoltMark{Along: 9*ft + 6*in + 3*in/16}, plan.BoltMark{Along: 22 * ft, HoldDown: true})
	b.state("Bolt marks") // for the next one
	for text, want := range map[string]string{"30'": "not on this wall", "2'": "already", "3 x": "no unit"} {
		b.keys(text + "<Return>")
		if !strings.Contains(b.m.Notice, want) {
			t.Errorf("%s: notice %q, want %q", text, b.m.Notice, want)
		}
		b.keys("<Escape>")
	}
	b.m.Use(&tool.PlaceBolt{})
	b.click(pt(12*ft, 20*ft))
	if !strings.Contains(b.m.Notice, "No wall") {
		t.Errorf("notice %q", b.m.Notice)
	}
}

func TestBoltMarksByKeysAlone(t *testing.T) {
	b := newBench(t, framed())
	b.m.PointerLeft()
	b.m.Use(&tool.PlaceBolt{})
	b.keys("<Right>4-6<Return>")
	b.bolts(plan.BoltMark{Along: 4*ft + 6*in})
}

func TestBoltMarksAreMovedTypedAndRemoved(t *testing.T) {
	p := framed()
	p.Outline[0].Bolts = []plan.BoltMark{{Along: 4 * ft}, {Along: 8 * ft}}
	b := newBench(t, p)
	b.click(pt(4*ft, 2*in))
	if want := (tool.Target{Kind: tool.Bolt}); !b.m.Selected.On(want) {
		t.Fatalf("selected %+v", b.m.Selected)
	}
	b.drag(pt(4*ft, 2*in), pt(10*ft, 3*in)) // past the other
	b.bolts(plan.BoltMark{Along: 8 * ft}, plan.BoltMark{Along: 10 * ft})
	if b.m.Selected.Sub != 1 {
		t.Errorf("the mark that was dragged is number 1; selected %+v", b.m.Selected)
	}
	b.keys("<Right>")
	b.bolts(plan.BoltMark{Along: 8 * ft}, plan.BoltMark{Along: 10*ft + in})
	b.keys("6'<Return>") // typed on the selection: from the start corner
	b.bolts(plan.BoltMark{Along: 6 * ft}, plan.BoltMark{Along: 8 * ft})
	if b.m.Selected.Sub != 0 {
		t.Errorf("selected %+v", b.m.Selected)
	}
	b.keys("<Space>")
	b.bolts(plan.BoltMark{Along: 6 * ft, HoldDown: true}, plan.BoltMark{Along: 8 * ft})
	var to size.Dim
	for _, d := range b.m.Dims() {
		if d.Kind == planview.BoltTo {
			to = d
		}
	}
	if to.Value != 18*ft {
		t.Fatalf("to the end corner: %v", to.Value.Text(0))
	}
	b.m.Pressed(to.At, tool.Primary, tool.Mods{})
	b.m.Released()
	b.keys("23'<Return>")
	b.bolts(plan.BoltMark{Along: ft, HoldDown: true}, plan.BoltMark{Along: 8 * ft})
	b.keys("<Delete>")
	b.bolts(plan.BoltMark{Along: 8 * ft})
	b.press(pt(8*ft, 2*in))
	b.move(pt(12*ft, 2*in))
	b.keys("<Escape>")
	b.m.Released()
	b.bolts(plan.BoltMark{Along: 8 * ft})
}
