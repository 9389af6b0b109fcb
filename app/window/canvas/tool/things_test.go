package tool_test

import (
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// labels gives what stands beside things above the plan.
func (b *bench) labels() (all []string) {
	var o tool.Overlay
	b.m.Overlay(&o)
	for _, l := range o.Labels {
		all = append(all, plain(l.Text))
	}
	return all
}

// outlined tells how many lines and rings show what is selected.
func (b *bench) outlined() (n int) {
	var o tool.Overlay
	b.m.Overlay(&o)
	for _, l := range o.Lines {
		if l.Style == tool.Chosen {
			n++
		}
	}
	for _, r := range o.Rings {
		if r.Style == tool.Chosen {
			n++
		}
	}
	return n
}

// Everything on the plan is outlined once it is selected, is told what can be done with
// it, and moves by an inch with the arrow keys, from where it was and back.
func TestEverythingIsShownAndNudged(t *testing.T) {
	for name, c := range map[string]struct {
		on    tool.Target
		help  string
		moved func(p *plan.Plan)
	}{
		"corner": {tool.Target{Kind: tool.Corner, Index: 2}, "Drag to move", func(p *plan.Plan) { p.Outline[2].At.X += in }},
		"edge":   {tool.Target{Kind: tool.Edge, Index: 1}, "type", func(p *plan.Plan) { p.Outline[1].At.X += in; p.Outline[2].At.X += in }},
		"door":   {tool.Target{Kind: tool.Door}, "type", func(p *plan.Plan) { p.Outline[0].Doors[0].From += in }},
		"bolt":   {tool.Target{Kind: tool.Bolt}, "hold-down", func(p *plan.Plan) { p.Outline[0].Bolts[0].Along += in }},
		"pad":    {tool.Target{Kind: tool.Pad}, "Drag to move", func(p *plan.Plan) { p.Pads[0].Center.X += in }},
		"strip": {tool.Target{Kind: tool.Strip}, "Drag to move", func(p *plan.Plan) {
			p.Strips[0].Path = slices.Clone(p.Strips[0].Path)
			p.Strips[0].Path[0].X += in
			p.Strips[0].Path[1].X += in
		}},
		"strip's end": {tool.Target{Kind: tool.Strip, Sub: 2}, "Drag to move", func(p *plan.Plan) { p.Strips[0].Path[1].X += in }},
		"fall":        {tool.Target{Kind: tool.Fall}, "Drag to move", func(p *plan.Plan) { p.Top.Falls[0].From.X += in; p.Top.Falls[0].To.X += in }},
		"hole": {tool.Target{Kind: tool.Slab, Loop: 1}, "", func(p *plan.Plan) {
			for i := range p.Holes[0].Loop {
				p.Holes[0].Loop[i].At.X += in
			}
		}},
		"slab": {tool.Target{Kind: tool.Slab}, "", func(p *plan.Plan) { *p = p.Translate(pt(in, 0)) }},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, everything())
			b.m.Selected = c.on
			if b.outlined() == 0 {
				t.Error("it is not outlined")
			}
			if help := b.m.Status().Help; !strings.Contains(help.Do, c.help) || help.Esc != "Deselect" {
				t.Errorf("it says %+v", help)
			}
			was := b.doc.Job()
			b.keys("<Right>")
			want := everything()
			c.moved(&want)
			if !b.doc.Job().Same(was.WithSlab(0, want)) {
				t.Errorf("nudged to %+v, want %+v; notice %q", b.doc.Plan(), want, b.m.Notice)
			}
			b.keys("<Left>")
			if !b.doc.Job().Same(was) {
				t.Error("nudged back it is elsewhere")
			}
		})
	}
}

// While something is dragged, where it stands is told beside it.
func TestBesideADrag(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to geometry.Point
		says     string
		want     func(p *plan.Plan)
	}{
		{"door", pt(8*ft, 0*ft), pt(10*ft, 0*ft), "6' from one corner, 9' from the other", func(p *plan.Plan) { p.Outline[0].Doors[0].From = 6 * ft }},
		{"bolt", pt(1*ft, 0*ft), pt(3*ft, 0*ft), "3' from one corner, 21' from the other", func(p *plan.Plan) { p.Outline[0].Bolts[0].Along = 3 * ft }},
		{"pad", pt(12*ft, 10*ft), pt(14*ft, 11*ft), "", func(p *plan.Plan) { p.Pads[0].Center = pt(14*ft, 11*ft) }},
	} {
		b := newBench(t, everything())
		b.press(c.from)
		b.move(c.to)
		b.move(c.to)
		if got := strings.Join(b.labels(), "|"); !strings.Contains(got, c.says) {
			t.Errorf("%s: beside it stands %q", c.name, got)
		}
		if st := b.m.Status(); st.Tool == "Select" || st.Help.Esc == "" {
			t.Errorf("%s: the status line says %+v", c.name, st)
		}
		b.m.Released()
		want := everything()
		c.want(&want)
		if !b.doc.Job().Same(b.doc.Job().WithSlab(0, want)) {
			t.Errorf("%s: dragged to %+v", c.name, b.doc.Plan())
		}
	}
}

// A dimension that is changed says which side moves; a click elsewhere leaves it.
func TestChangingADimensionSaysWhatMoves(t *testing.T) {
	for _, c := range []struct {
		edge  int
		sides [3]string
	}{
		{0, [3]string{"Right side", "Left side", "Both sides"}},
		{1, [3]string{"Upper side", "Lower side", "Both sides"}},
		{2, [3]string{"Left side", "Right side", "Both sides"}},
		{3, [3]string{"Lower side", "Upper side", "Both sides"}},
	} {
		b := newBench(t, shop())
		b.m.Selected = tool.Target{Kind: tool.Edge, Index: c.edge}
		b.keys("3")
		b.state("Change dimension")
		for _, side := range c.sides {
			if st := b.m.Status(); !strings.Contains(st.Help.Do, side+" moves") || st.Typed != `3  =  3'-0"` {
				t.Errorf("edge %d: it says %q, typed %q; want %s", c.edge+1, st.Help.Do, st.Typed, side)
			}
			if got := strings.Join(b.labels(), "|"); !strings.Contains(got, side+" moves (Tab)") || !strings.Contains(got, "3  =  3'") {
				t.Errorf("edge %d: it shows %q", c.edge+1, got)
			}
			b.keys("<Tab>")
		}
		b.click(pt(30*ft, 25*ft))
		b.state("Select")
		b.corners(shop().Outline.Corners()...)
	}
	for kind, says := range map[planview.MeasureKind]string{planview.DoorFrom: "The door", planview.BoltTo: "The bolt", planview.Gap: "This slab"} {
		r := &tool.Resize{}
		r.Dim.Kind = kind
		if got := r.SideName(shop()); got != says {
			t.Errorf("%v: %s moves, want %s", kind, got, says)
		}
	}
}

// Typed on what is selected, a number is its dimension, also where that is not drawn
// for want of room.
func TestTypedWithoutRoomForItsDimension(t *testing.T) {
	b := newBench(t, everything())
	b.m.View = b.m.View.Zoom(b.m.View.Screen(pt(0, 0)), 0.02)
	b.m.Selected = tool.Target{Kind: tool.Bolt}
	b.keys("2'<Return>")
	b.m.Selected = tool.Target{Kind: tool.Door}
	b.keys("5'<Return>")
	if e := b.doc.Plan().Outline[0]; e.Bolts[0].Along != 2*ft || e.Doors[0].From != 5*ft {
		t.Errorf("edge 1 has %+v and %+v; notice %q", e.Bolts, e.Doors, b.m.Notice)
	}
}

// A rectangle is drawn by a drag, and by sizes toward the pointer; Esc takes its first
// corner back.
func TestRectangleByDragAndTowardThePointer(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Rectangle{})
	b.drag(pt(2*ft, 2*ft), pt(12*ft, 10*ft))
	b.corners(pt(2*ft, 2*ft), pt(12*ft, 2*ft), pt(12*ft, 10*ft), pt(2*ft, 10*ft))
	b.m.Use(&tool.Rectangle{What: tool.Hole})
	b.click(pt(10*ft, 8*ft))
	b.keys("<Escape>")
	b.state("Rectangular hole")
	b.click(pt(10*ft, 8*ft))
	b.move(pt(9*ft, 7*ft))
	b.keys("2 by 3<Return>")
	if b.m.Notice == "" {
		t.Error("2 by 3 is read")
	}
	b.keys("<Escape>2 x 3<Return>")
	if h := b.doc.Plan().Holes; len(h) != 1 || h[0].Loop[0].At != pt(8*ft, 5*ft) || h[0].Loop[2].At != pt(10*ft, 8*ft) {
		t.Errorf("the hole is %+v; notice %q", h, b.m.Notice)
	}
}

// What is typed while a door or a bolt is placed is told as it will be read, and marked
// where it would stand; what cannot be is refused.
func TestPlacingAlongAnEdgeSaysWhere(t *testing.T) {
	for _, c := range []struct {
		use               tool.State
		typed, read, mark string
		bad, refused      string
	}{
		{&tool.PlaceDoor{}, "8 at 4", "4' from the corner, 8' wide", "", "4 wide at 4<Return>", "wide"},
		{&tool.PlaceBolt{}, "4, 6-6", `4', 6'-6" from the marked corner`, "anchor bolt", "44<Return>", "is not on this wall"},
	} {
		b := newBench(t, framed())
		b.m.Use(c.use)
		b.move(pt(8*ft, 0))
		if got := strings.Join(b.labels(), "|"); !strings.Contains(got, c.mark) || got == "" {
			t.Errorf("%s: it shows %q", c.use.Name(), got)
		}
		b.keys(c.typed)
		if st := b.m.Status(); !strings.Contains(plain(st.Typed), c.read) {
			t.Errorf("%s: %s is read as %q", c.use.Name(), c.typed, st.Typed)
		}
		b.keys("<Escape>" + c.bad)
		if !strings.Contains(b.m.Notice, c.refused) {
			t.Errorf("%s: %s is refused with %q", c.use.Name(), c.bad, b.m.Notice)
		}
		if _, changed := b.doc.CanUndo(); changed {
			t.Errorf("%s: something was changed", c.use.Name())
		}
	}
}

// The plan is zoomed about the pointer, or about the middle while that is elsewhere, and
// Fit shows everything that stands around it.
func TestZoomAndFit(t *testing.T) {
	b := newBench(t, shop())
	b.move(pt(24*ft, 20*ft))
	at := b.m.View.Screen(pt(24*ft, 20*ft))
	b.m.Zoom(2)
	if got := b.m.View.Screen(pt(24*ft, 20*ft)); got != at || !b.m.Moved {
		t.Errorf("what is under the pointer went from %v to %v", at, got)
	}
	b.m.PointerLeft()
	middle := b.m.View.Plan(at)
	b.m.Zoom(0.5)
	if b.m.View.Plan(at) == middle {
		t.Error("it is zoomed about the pointer, which is elsewhere")
	}
	b.doc.ChangeSurvey("Around", func(s *plan.Survey) {
		s.Benchmarks = []plan.Benchmark{{Name: "BM 1", At: pt(-60*ft, 0)}}
		s.Notes = []plan.Note{{Text: "Far", At: pt(90*ft, 0), Leader: true, To: pt(0, 70*ft)}}
	})
	b.m.Fit()
	for _, p := range []geometry.Point{pt(-60*ft, 0), pt(90*ft, 0), pt(0, 70*ft)} {
		s := b.m.View.Screen(p)
		if s.X < 0 || s.Y < 0 || s.X > b.m.View.W || s.Y > b.m.View.H {
			t.Errorf("%v is off the screen, at %v", p, s)
		}
	}
	if b.m.Moved {
		t.Error("the view does not follow the window's size")
	}
}
