package tool_test

import (
	"math"
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// An edge is drawn as an arc: the key, a point that it passes and its end, clicked or typed,
// counter-clockwise and the other way round. A slab of 12 by 10 ft with a half circle over its
// end has the area of both.
func TestDrawAnArc(t *testing.T) {
	want := (12*10 + math.Pi*25/2) * 0.3048 * 0.3048
	for name, draw := range map[string]func(b *bench){
		"clicked": func(b *bench) {
			b.click(pt(0, 0))
			b.click(pt(12*ft, 0))
			b.keys("(")
			b.click(pt(17*ft, 5*ft))
			b.click(pt(12*ft, 10*ft))
			b.click(pt(0, 10*ft))
		},
		"typed": func(b *bench) {
			b.keys("0,0<Return>12' right<Return>)5' right, 5' up<Return>10' up<Return>12' left<Return>")
		},
		"the other way round": func(b *bench) {
			b.click(pt(0, 0))
			b.click(pt(0, 10*ft))
			b.click(pt(12*ft, 10*ft))
			b.keys("(")
			b.click(pt(17*ft, 5*ft))
			b.click(pt(12*ft, 0))
		},
		"closed by the arc": func(b *bench) {
			b.click(pt(12*ft, 10*ft))
			b.click(pt(0, 10*ft))
			b.click(pt(0, 0))
			b.click(pt(12*ft, 0))
			b.keys("(")
			b.click(pt(17*ft, 5*ft))
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, plan.Plan{Field: ft / 2})
			b.m.NewEdge.Wall = "2x6"
			b.m.Use(&tool.Chain{})
			draw(b)
			b.keys("<Return>")
			l := b.doc.Plan().Outline
			if len(l) != 4 || math.Abs(l.Area()-want) > 1e-6 {
				t.Fatalf("%d edges of %.4f m², want %.4f: %+v; %s", len(l), l.Area(), want, l, b.m.Notice)
			}
			arcs := 0
			for i, e := range l {
				if e.Middle != 0 {
					arcs++
					if (e.Middle-5*ft).Abs() > 10 || e.Wall != "" || (l.Arc(i).Radius()-5*ft).Abs() > 10 {
						t.Errorf("the arc is %+v", e)
					}
				} else if e.Wall != "2x6" {
					t.Errorf("edge %d has wall %q", i+1, e.Wall)
				}
			}
			if arcs != 1 {
				t.Errorf("%d arcs", arcs)
			}
			if fs := b.doc.Faults(); len(fs) > 0 {
				t.Error(fs)
			}
			if label, _ := b.doc.CanUndo(); label != "Draw outline" {
				t.Errorf("undo would take back %q", label)
			}
			if b.doc.Undo(); len(b.doc.Plan().Outline) != 0 {
				t.Error("undone, there is an outline")
			}
		})
	}
}

// What is shown while an arc is drawn: the help, its radius, and steps back by Esc. One of more
// than half a circle becomes two edges.
func TestArcStepByStep(t *testing.T) {
	b := newBench(t, plan.Plan{Field: ft / 2})
	b.m.Use(&tool.Chain{})
	says := func(help, label string) {
		t.Helper()
		var o tool.Overlay
		b.m.Overlay(&o)
		text := ""
		for _, l := range o.Labels {
			text += l.Text + "; "
		}
		if do := b.m.Status().Help.Do; !strings.Contains(do, help) || !strings.Contains(text, label) {
			t.Errorf("help %q, labels %q; want %q, %q", do, text, help, label)
		}
	}
	b.keys("(")
	if !strings.Contains(b.m.Notice, "starts at a corner") {
		t.Errorf("notice %q", b.m.Notice)
	}
	b.click(pt(5*ft, 0))
	says("( for an arc", "")
	b.keys("(")
	b.move(pt(0, 5*ft))
	says("a point that the arc passes", "a point of the arc")
	b.click(pt(0, 5*ft))
	b.move(pt(-5*ft, 0))
	says("where the arc ends", "R 5'")
	b.keys("<Escape>")
	says("a point that the arc passes", "")
	b.keys("<Escape>")
	says("( for an arc", "")
	b.keys("(")
	b.click(pt(-5*ft, 0))
	b.click(pt(0, -5*ft)) // three quarters of a circle
	b.keys("<Return>")
	l := b.doc.Plan().Outline
	if len(l) != 3 || (l.Arc(0).Radius()-5*ft).Abs() > 40 || (l.Arc(1).Radius()-5*ft).Abs() > 40 || l[2].Middle != 0 {
		t.Fatalf("%+v; %s", l, b.m.Notice)
	}
	if want := (25*3*math.Pi/4 + 25.0/2) * 0.3048 * 0.3048; math.Abs(l.Area()-want) > 1e-6 {
		t.Errorf("%.4f m², want %.4f", l.Area(), want)
	}
}

// A single arc and its chord are a slab too: half a disc of 5 ft.
func TestHalfADisc(t *testing.T) {
	b := newBench(t, plan.Plan{Field: ft / 2})
	b.m.Use(&tool.Chain{})
	b.click(pt(5*ft, 0))
	b.keys("(")
	b.click(pt(0, 5*ft))
	b.click(pt(-5*ft, 0))
	b.keys("<Return>")
	l := b.doc.Plan().Outline
	if want := 25 * math.Pi / 2 * 0.3048 * 0.3048; len(l) != 3 || math.Abs(l.Area()-want) > 1e-6 || len(b.doc.Faults()) > 0 {
		t.Errorf("%d edges of %.4f m², want %.4f; %s; %v", len(l), l.Area(), want, b.m.Notice, b.doc.Faults())
	}
}

// A drawn edge is made to pass a point that is clicked or typed; more than half a circle is
// refused and says why.
func TestArcThroughAPoint(t *testing.T) {
	b := newBench(t, shop())
	edge := func() plan.Edge { return b.doc.Plan().Outline[0] }
	take := func() { b.m.Use(&tool.Select{}); b.m.Selected = tool.Target{Kind: tool.Edge} }
	states := []plan.Plan{b.doc.Plan()}
	take()
	b.keys("(")
	b.state("Arc through a point")
	b.move(pt(12*ft, -5*ft))
	var o tool.Overlay
	b.m.Overlay(&o)
	if len(o.Labels) == 0 || !strings.HasPrefix(o.Labels[0].Text, "R ") {
		t.Errorf("it shows %+v", o.Labels)
	}
	b.click(pt(12*ft, -5*ft))
	if (edge().Middle-5*ft).Abs() > 10 || b.m.Selected != (tool.Target{Kind: tool.Edge}) {
		t.Errorf("middle ordinate %v: %s", edge().Middle, b.m.Notice)
	}
	if label, _ := b.doc.CanUndo(); label != "Make edge 1 pass a point" {
		t.Errorf("undo would take back %q", label)
	}
	states = append(states, b.doc.Plan())
	take()
	if err := b.does("!Through a point… (()"); err != nil {
		t.Fatal(err)
	}
	b.keys("3', 12'<Return>") // from corner 2, where the first straight edge starts
	if (edge().Middle + 3*ft).Abs() > 10 {
		t.Errorf("middle ordinate %v: %s", edge().Middle, b.m.Notice)
	}
	states = append(states, b.doc.Plan())
	take()
	b.keys("(")
	b.click(pt(12*ft, -14*ft))
	if !strings.Contains(b.m.Notice, "half a circle") || (edge().Middle+3*ft).Abs() > 10 {
		t.Errorf("beyond half a circle: %v, %q", edge().Middle, b.m.Notice)
	}
	b.keys("<Escape>")
	b.goes(states)
	if got := geometry.Distance(edge().At, pt(0, 0)); got != 0 {
		t.Errorf("its corner moved by %v", got)
	}
}
