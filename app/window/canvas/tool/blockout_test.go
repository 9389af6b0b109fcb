package tool_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// A pad's block-out is chosen, sized, moved with the pad and removed with it in one step of the
// history each, which the job file keeps; one that leaves the slab is refused beside its field.
func TestBlockOutsAreUndone(t *testing.T) {
	p := shop()
	p.Pads = []plan.Pad{{Center: pt(10*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Depth: ft}}
	b := newBench(t, p)
	take := func() { b.m.Use(&tool.Select{}); b.m.Selected = tool.Target{Kind: tool.Pad} }
	does := func(what string) func() {
		return func() {
			take()
			if err := b.does(what); err != nil {
				t.Fatalf("%s: %v", what, err)
			}
		}
	}
	states := []plan.Plan{b.doc.Plan()}
	for _, do := range []func(){
		does("Isolation:square"), does("Isolation:diamond, a square turned 45°"), does("Block-out, across=36"),
		func() { take(); b.keys("<Right>") },
		does("Isolation:round"), does("Isolation:none"),
		func() { take(); b.keys("<Delete>") },
	} {
		do()
		states = append(states, b.doc.Plan())
	}
	want := []plan.BlockOut{{Shape: plan.DiamondOut, Center: pt(10*ft+in, 10*ft), Size: 36 * in, Turn: 45}}
	if got := states[4].BlockOuts(); len(got) != 1 || got[0] != want[0] {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := states[6].BlockOuts(); len(got) != 0 || len(states[7].Pads) != 0 {
		t.Errorf("left %+v, %+v", got, states[7].Pads)
	}
	b.goes(states)
}
