package tool_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// An edge's curb is given its height, then its width, and taken off again, each in one step of
// the history, which the job file keeps.
func TestCurbsAreUndone(t *testing.T) {
	b := newBench(t, shop())
	does := func(what string) {
		b.m.Use(&tool.Select{})
		b.m.Selected = tool.Target{Kind: tool.Edge, Index: 0}
		if err := b.does(what); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
	}
	states := []plan.Plan{b.doc.Plan()}
	for _, do := range []string{"Curb=6", "Curb, width=8", "Curb=0"} {
		does(do)
		states = append(states, b.doc.Plan())
	}
	if e := states[2].Outline[0]; e.Curb != 6*in || e.CurbWidth != 8*in {
		t.Errorf("%+v", e)
	}
	if states[3].Curbed() {
		t.Error("the curb is still there")
	}
	b.goes(states)
}
