package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// An apron is drawn by its line and the side that drops, changed, turned to its other side,
// moved by an end and removed in one step of the history each, which the job file keeps.
func TestBreaksAreUndone(t *testing.T) {
	b := newBench(t, shop())
	take := func(sub int) { b.m.Use(&tool.Select{}); b.m.Selected = tool.Target{Kind: tool.Break, Sub: sub} }
	does := func(what string) func() {
		return func() {
			take(0)
			if err := b.does(what); err != nil {
				t.Fatalf("%s: %v", what, err)
			}
		}
	}
	states := []plan.Plan{b.doc.Plan()}
	for _, s := range []struct {
		label string
		do    func()
	}{
		{"Apron", func() {
			b.m.Use(&tool.PlaceBreak{})
			b.keys("0, 4'<Return>")
			b.click(pt(24*ft, 4*ft))
			b.click(pt(9*ft, ft))
		}},
		{"Change break 1", does("Drop beyond it=-3/4\"")},
		{"Change break 1", does("In a run of=2'")},
		{"Change break 1", does("!The other side")},
		{"Nudge", func() { take(2); b.keys("<Up>") }},
		{"Remove break 1", func() { take(0); b.keys("<Delete>") }},
	} {
		s.do()
		states = append(states, b.doc.Plan())
		if label, ok := b.doc.CanUndo(); label != s.label || !ok {
			t.Errorf("undo would take back %q, want %q", label, s.label)
		}
	}
	drawn := plan.Break{From: pt(24*ft, 4*ft), To: pt(0, 4*ft), Drop: in / 4, Over: ft}
	turned := plan.Break{From: drawn.To, To: drawn.From, Drop: -3 * in / 4, Over: 2 * ft}
	if got := states[1].Top.Breaks; len(got) != 1 || got[0] != drawn {
		t.Errorf("drawn %+v, want %+v", got, drawn)
	}
	if got := states[4].Top.Breaks; len(got) != 1 || got[0] != turned {
		t.Errorf("turned %+v, want %+v", got, turned)
	}
	if got := states[5].Top.Breaks; len(got) != 1 || got[0].To != pt(24*ft, 4*ft+in) {
		t.Errorf("nudged %+v", got)
	}
	if len(states[6].Top.Breaks) != 0 {
		t.Errorf("left %+v", states[6].Top.Breaks)
	}
	b.goes(states)
}

// The slope is typed before the side is clicked: as a drop in the run, per foot or in percent,
// and a negative one rises.
func TestSlopeOfABreakIsTyped(t *testing.T) {
	for typed, drop := range map[string]geometry.Length{"": in / 4, "1/2 per ft": in / 2, "-1\" per ft": -in, "2 %": 15 * in / 64, "3/8": 3 * in / 8} {
		b := newBench(t, shop())
		b.m.Use(&tool.PlaceBreak{})
		b.click(pt(0, 16*ft))
		b.click(pt(24*ft, 16*ft))
		b.move(pt(5*ft, 19*ft))
		if st := b.m.Status(); !strings.Contains(st.Help.Do, "side that drops") {
			t.Errorf("it says %q", st.Help.Do)
		}
		if typed != "" {
			b.keys(typed + "<Return>")
		}
		var o tool.Overlay
		b.m.Overlay(&o)
		if way := map[bool]string{true: "rises", false: "falls"}[drop < 0]; len(o.Labels) == 0 || !strings.Contains(o.Labels[0].Text, way) {
			t.Errorf("%q shows %+v", typed, o.Labels)
		}
		b.click(pt(5*ft, 19*ft))
		want := plan.Break{From: pt(0, 16*ft), To: pt(24*ft, 16*ft), Drop: drop, Over: ft}
		if got := b.doc.Plan().Top.Breaks; len(got) != 1 || got[0] != want {
			t.Errorf("%q: %+v, want %+v; %s", typed, got, want, b.m.Notice)
		}
	}
}
