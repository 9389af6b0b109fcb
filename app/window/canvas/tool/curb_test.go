package tool_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
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
		if do == "Curb=6" {
			if shown := b.panel().texts["Curb, width"].Get(); shown != "6\"" {
				t.Errorf("a curb of the usual width shows %s", shown)
			}
		}
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

// How the tops of curbs run is asked where there are curbs and the slab falls, of the slab and of
// its falls; it is undone, and kept by the job file.
func TestCurbTopsAreAsked(t *testing.T) {
	const label = "Curbs' tops"
	fall := plan.Fall{From: pt(0, 20*ft), To: pt(0, 0), Drop: 3 * in}
	for _, c := range []struct {
		curb geometry.Length
		fall bool
		on   bool
	}{{0, false, false}, {6 * in, false, false}, {0, true, false}, {6 * in, true, true}} {
		p := shop()
		if p.Outline[0].Curb = c.curb; c.fall {
			p.Top.Falls = []plan.Fall{fall}
		}
		b := newBench(t, p)
		for _, at := range []tool.Target{{}, {Kind: tool.Fall}} {
			if at.Kind != nil && !c.fall {
				continue
			}
			b.m.Use(&tool.Select{})
			b.m.Selected = at
			if _, on := b.panel().choices[label]; on != c.on {
				t.Errorf("%+v: asked of %v: %v", c, at, on)
			}
		}
	}
	p := shop()
	p.Outline[0].Curb, p.Top.Falls = 6*in, []plan.Fall{fall}
	b := newBench(t, p)
	b.m.Use(&tool.Select{})
	states := []plan.Plan{b.doc.Plan()}
	for _, to := range []string{"level, from the slab's highest place", "with the slab"} {
		if err := b.does(label + ":" + to); err != nil {
			t.Fatal(err)
		}
		states = append(states, b.doc.Plan())
	}
	if states[1].Top.Curbs != plan.CurbsLevel || states[2].Top.Curbs != plan.CurbsFollow {
		t.Errorf("%v, %v", states[1].Top.Curbs, states[2].Top.Curbs)
	}
	b.goes(states)
}
