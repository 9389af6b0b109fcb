package tool_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// A construction joint is drawn, moved by its end and removed in one step of the history
// each: undo gives the plan before it, redo the same again.
func TestConstructionJointsAreUndone(t *testing.T) {
	b := newBench(t, shop())
	b.m.NewConstruction = plan.Construction{Kind: plan.Keyed, First: plan.RightFirst, Days: 3}
	drawn := plan.Construction{Kind: plan.Keyed, First: plan.RightFirst, Days: 3, From: pt(12*ft, 0), To: pt(12*ft, 20*ft)}
	moved := drawn
	moved.To.X += in
	var states []plan.Plan
	for _, s := range []struct {
		label string
		do    func()
		want  []plan.Construction
	}{
		{"Construction joint", func() {
			b.m.Use(&tool.PlaceConstruction{})
			b.click(pt(12*ft, 0))
			b.click(pt(12*ft, 20*ft))
			b.keys("<Escape>")
		}, []plan.Construction{drawn}},
		{"Nudge", func() {
			b.m.Use(&tool.Select{})
			b.m.Selected = tool.Target{Kind: tool.Construction, Sub: 2}
			b.keys("<Right>")
		}, []plan.Construction{moved}},
		{"Remove construction joint 1", func() { b.keys("<Delete>") }, nil},
	} {
		states = append(states, b.doc.Plan())
		s.do()
		if got := b.doc.Plan().Construction; len(got) != len(s.want) || len(got) > 0 && got[0] != s.want[0] {
			t.Fatalf("%s: %+v, want %+v; notice %q", s.label, got, s.want, b.m.Notice)
		}
		if label, ok := b.doc.CanUndo(); label != s.label || !ok {
			t.Errorf("undo would take back %q, want %q", label, s.label)
		}
	}
	states = append(states, b.doc.Plan())
	for i := len(states) - 2; i >= 0; i-- {
		if _, ok := b.doc.Undo(); !ok || !cmp.Equal(b.doc.Plan(), states[i]) {
			t.Errorf("undone to %+v, want %+v", b.doc.Plan().Construction, states[i].Construction)
		}
	}
	for _, want := range states[1:] {
		if _, ok := b.doc.Redo(); !ok || !cmp.Equal(b.doc.Plan(), want) {
			t.Errorf("done again to %+v, want %+v", b.doc.Plan().Construction, want.Construction)
		}
	}
}
