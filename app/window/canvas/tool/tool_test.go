package tool_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

const ft, in = geometry.Foot, geometry.Inch

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// bench is a machine on a job, with a pointer and keys.
type bench struct {
	*testing.T
	m    *tool.Machine
	doc  *document.Document
	mods tool.Mods
}

func newBench(t *testing.T, p plan.Plan) *bench {
	t.Helper()
	j := job.New()
	j.Slabs[0] = p
	doc := document.New(j, nil, document.Scheduler{})
	m := tool.New(doc, func(text string) (float64, float64) { return 7 * float64(len(text)), 14 })
	m.View = view.Fit(pt(-4*ft, -4*ft), pt(36*ft, 28*ft), 1000, 800, 0)
	return &bench{T: t, m: m, doc: doc}
}

func slab(corners ...geometry.Point) plan.Plan {
	return plan.Plan{Field: 6 * in, Sections: []plan.Section{{Name: "edge", Depth: 12 * in, Bottom: 12 * in, Taper: 6 * in}}}.
		WithOutline(plan.Like(corners, plan.Edge{}))
}

func shop() plan.Plan { return slab(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)) }

func (b *bench) move(p geometry.Point) { b.m.PointerMoved(b.m.View.Screen(p), b.mods) }
func (b *bench) press(p geometry.Point) {
	b.move(p)
	b.m.Pressed(b.m.View.Screen(p), tool.Primary, b.mods)
}
func (b *bench) click(p geometry.Point) {
	b.press(p)
	b.m.Released()
}

// drag presses at one point and releases at another, by several moves.
func (b *bench) drag(from, to geometry.Point) {
	b.press(from)
	for i := range 5 {
		f := geometry.Length(i + 1)
		b.move(pt(from.X+(to.X-from.X)*f/5, from.Y+(to.Y-from.Y)*f/5))
	}
	b.m.Released()
}

// keys types text, with names of keys in < >, as "24-6<Return>".
func (b *bench) keys(s string) {
	for s != "" {
		if name, rest, ok := strings.Cut(s[1:], ">"); s[0] == '<' && ok && !strings.ContainsAny(name, " 0123456789") {
			b.m.Key(name, b.mods)
			s = rest
			continue
		}
		b.m.Rune(rune(s[0]))
		s = s[1:]
	}
}

func (b *bench) corners(want ...geometry.Point) {
	b.Helper()
	if diff := cmp.Diff(geometry.Ring(want), b.doc.Plan().Outline.Corners()); diff != "" {
		b.Errorf("corners (-want +got):\n%s\nnotice: %s", diff, b.m.Notice)
	}
}

func (b *bench) state(name string) {
	b.Helper()
	if got := b.m.State().Name(); got != name {
		b.Errorf("the tool is %q, want %q", got, name)
	}
}

func TestDrawOutlineByClicks(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.NewEdge = plan.Edge{Section: "edge", Wall: "2x6"}
	b.m.Use(&tool.Chain{})
	for _, p := range []geometry.Point{pt(0, 0), pt(24*ft, 2*in), pt(24*ft, 20*ft), pt(1*in, 20*ft), pt(0, 2*in)} {
		b.click(p)
	}
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	b.state("Select")
	if e := b.doc.Plan().Outline[2]; e.Section != "edge" || e.Wall != "2x6" {
		t.Errorf("new edges got %+v", e)
	}
}

func TestDrawOutlineByKeysAlone(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Chain{})
	b.keys("<Return><Right>24-6<Return><Up>18' 1/2\"<Return><Left>12'<Return>6'-3\" at 90 right to the last side<Return>")
	b.keys("12'-6\" at 90 left to the last side<Return><Return>")
	b.corners(pt(0, 0), pt(24*ft+6*in, 0), pt(24*ft+6*in, 18*ft+in/2), pt(12*ft+6*in, 18*ft+in/2),
		pt(12*ft+6*in, 24*ft+3*in+in/2), pt(0, 24*ft+3*in+in/2))
	b.state("Select")
}

func TestTypedLengthsAreRefusedWithAReason(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Chain{})
	b.keys("<Return><Right>12 bananas<Return>")
	if !strings.Contains(b.m.Notice, "bananas") {
		t.Errorf("notice %q", b.m.Notice)
	}
	if b.m.Text == "" {
		t.Error("what was typed is gone; it should stay to be mended")
	}
	if got := b.m.Status().Typed; !strings.Contains(got, "no unit") {
		t.Errorf("meaning %q", got)
	}
}

func TestEscBacksOutOneStepAtATime(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.Edge}
	c := &tool.Chain{}
	b.m.Use(c)
	b.click(pt(2*ft, 2*ft))
	b.click(pt(6*ft, 2*ft))
	b.keys("12")
	steps := []struct {
		what string
		ok   func() bool
	}{
		{"what is typed goes first", func() bool { return b.m.Text == "" && len(c.Points) == 2 }},
		{"then the last point", func() bool { return len(c.Points) == 1 }},
		{"then the first", func() bool { return len(c.Points) == 0 && b.m.State() == tool.State(c) }},
		{"then the tool", func() bool { return b.m.State().Name() == "Select" && b.m.Selected.Kind == tool.Edge }},
		{"then the selection", func() bool { return b.m.Selected.Kind == nil }},
		{"and then nothing", func() bool { return b.m.State().Name() == "Select" }},
	}
	for _, s := range steps {
		b.keys("<Escape>")
		if !s.ok() {
			t.Errorf("%s: it did not (text %q, %d points, %s)", s.what, b.m.Text, len(c.Points), b.m.State().Name())
		}
	}
	b.corners(shop().Outline.Corners()...)
}

func TestRectangleByTwoLengths(t *testing.T) {
	for _, text := range []string{"24 x 20", "24' x 20'", "24×20"} {
		b := newBench(t, plan.Plan{Field: 6 * in})
		b.m.Use(&tool.Rectangle{})
		for _, r := range text {
			b.m.Rune(r)
		}
		b.keys("<Return>")
		b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	}
}

func TestDragCornerIsOneStepAndEscTakesItBack(t *testing.T) {
	b := newBench(t, shop())
	b.drag(pt(24*ft, 20*ft), pt(26*ft, 22*ft))
	b.corners(pt(0, 0), pt(24*ft, 0), pt(26*ft, 22*ft), pt(0, 20*ft))
	if label, ok := b.doc.CanUndo(); label != "Move corner 3" || !ok {
		t.Errorf("history has %q", label)
	}
	b.doc.Undo()
	b.corners(shop().Outline.Corners()...)
	if _, ok := b.doc.CanUndo(); ok {
		t.Error("the drag was more than one step")
	}
	b.press(pt(24*ft, 20*ft))
	b.move(pt(26*ft, 22*ft))
	b.keys("<Escape>")
	b.move(pt(27*ft, 23*ft))
	b.m.Released()
	b.corners(shop().Outline.Corners()...)
}

func TestReleaseMayComeTwiceOrNotAtAll(t *testing.T) {
	b := newBench(t, shop())
	b.drag(pt(24*ft, 20*ft), pt(26*ft, 22*ft))
	b.m.Released()
	b.m.Released()
	b.doc.Undo()
	if _, ok := b.doc.CanUndo(); ok {
		t.Error("releasing twice made two steps")
	}
}

func TestDragEdgeKeepsTheSquare(t *testing.T) {
	b := newBench(t, shop())
	b.drag(pt(24*ft, 8*ft), pt(27*ft, 9*ft))
	b.corners(pt(0, 0), pt(27*ft, 0), pt(27*ft, 20*ft), pt(0, 20*ft))
}

func TestSnapToLineOfAnotherCorner(t *testing.T) {
	b := newBench(t, slab(pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)))
	b.press(pt(16*ft, 20*ft))
	b.move(pt(20*ft, 17*ft))
	b.move(pt(23*ft+10*in, 22*ft))
	if !strings.Contains(b.m.Snap.Name, "in line with corner") {
		t.Errorf("the snap is named %q", b.m.Snap.Name)
	}
	b.m.Released()
	if got := b.doc.Plan().Outline[4].At; got.X != 24*ft {
		t.Errorf("the corner is at %v", got)
	}
}

func TestDimensionsAreHandles(t *testing.T) {
	b := newBench(t, shop())
	click := func(text string) {
		b.Helper()
		for _, d := range b.m.Dims() {
			if d.Text == text {
				b.m.Pressed(d.At, tool.Primary, tool.Mods{})
				b.m.Released()
				return
			}
		}
		b.Fatalf("no dimension reads %s", text)
	}
	click(`24'-0"`)
	b.state("Change dimension")
	b.keys("26<Return>")
	widths := func() geometry.Length { lo, hi := b.doc.Plan().Outline.Corners().Bounds(); return hi.X - lo.X }
	if widths() != 26*ft {
		t.Errorf("width %v, notice %q", widths(), b.m.Notice)
	}
	before := b.doc.Plan().Outline.Corners()
	click(`20'-0"`)
	b.keys("<Tab>18-6<Return>")
	lo, hi := b.doc.Plan().Outline.Corners().Bounds()
	blo, bhi := before.Bounds()
	if hi.Y-lo.Y != 18*ft+6*in {
		t.Errorf("depth %v", hi.Y-lo.Y)
	}
	if (lo.Y == blo.Y) == (hi.Y == bhi.Y) {
		t.Error("one side should have moved and the other stayed")
	}
}

// A door's width and its distance from either corner are handles too, once its edge
// is selected.
func TestDoorDimensionsAreHandles(t *testing.T) {
	for _, test := range []struct {
		kind        planview.MeasureKind
		keys        string
		from, width geometry.Length
	}{
		{planview.DoorFrom, "2-6<Return>", 2*ft + 6*in, 9 * ft},
		{planview.DoorTo, "3'<Return>", 12 * ft, 9 * ft},
		{planview.DoorWidth, "10'<Return>", 4 * ft, 10 * ft},
		{planview.DoorWidth, "<Tab>10'<Return>", 3 * ft, 10 * ft},
		{planview.DoorWidth, "<Tab><Tab>10'<Return>", 3*ft + 6*in, 10 * ft},
	} {
		p := shop()
		p.Outline[0].Doors = []plan.Door{{Name: "D1", From: 4 * ft, Width: 9 * ft}}
		b := newBench(t, p)
		b.click(pt(20*ft, 0))
		found := false
		for _, d := range b.m.Dims() {
			if d.Kind == test.kind && !found {
				found = true
				b.m.Pressed(d.At, tool.Primary, tool.Mods{})
				b.m.Released()
			}
		}
		b.keys(test.keys)
		if d := b.doc.Plan().Outline[0].Doors[0]; !found || d.From != test.from || d.Width != test.width {
			t.Errorf("%s: from %v, %v wide; notice %q", test.keys, d.From.Text(0), d.Width.Text(0), b.m.Notice)
		}
		// Typed on the selected door: its distance from the start corner.
		b.m.Selected = tool.Target{Kind: tool.Door}
		b.keys("1'<Return>")
		if d := b.doc.Plan().Outline[0].Doors[0]; d.From != ft {
			t.Errorf("typed on the door: from %v", d.From.Text(0))
		}
	}
}

func TestOverallDimensionStretches(t *testing.T) {
	p := slab(pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft))
	p, _ = p.SplitEdge(0, 0, 10*ft)
	b := newBench(t, p)
	for _, side := range []plan.Side{plan.End, plan.Start, plan.Both} {
		r := &tool.Resize{Side: side}
		for _, d := range b.m.Dims() {
			if d.Edge == -1 && d.Axis == plan.AcrossX {
				r.Dim = d
			}
		}
		if r.Dim.Text == "" {
			t.Fatal("no overall dimension")
		}
		b.m.Use(r)
		b.keys("30<Return>")
		lo, hi := b.doc.Plan().Outline.Corners().Bounds()
		want := map[plan.Side][2]geometry.Length{plan.End: {0, 30 * ft}, plan.Start: {-6 * ft, 24 * ft}, plan.Both: {-3 * ft, 27 * ft}}[side]
		if lo.X != want[0] || hi.X != want[1] {
			t.Errorf("%s: from %v to %v", r.SideName(p), lo.X.Text(0), hi.X.Text(0))
		}
		b.doc.Undo()
	}
}

func TestTypingOnASelectedEdgeSetsItsLength(t *testing.T) {
	b := newBench(t, shop())
	b.keys("<Tab><Tab>30'<Return>")
	if got := b.doc.Plan().Outline.Length(0); got != 30*ft {
		t.Errorf("edge 1 is %v, notice %q", got.Text(0), b.m.Notice)
	}
}

// A sum lengthens a side, and so does a plus before a length.
func TestASumLengthensASide(t *testing.T) {
	b := newBench(t, shop())
	b.keys("<Tab><Tab>+2'<Return>")
	if got := b.doc.Plan().Outline.Length(0); got != 26*ft {
		t.Errorf("edge 1 is %v, notice %q", got.Text(0), b.m.Notice)
	}
	b.keys("+-3'<Return>")
	if got := b.doc.Plan().Outline.Length(0); got != 23*ft {
		t.Errorf("edge 1 is %v, notice %q", got.Text(0), b.m.Notice)
	}
	b.keys("=24' + 2' - 3 1/2\"<Return>")
	if got := b.doc.Plan().Outline.Length(0); got != 26*ft-7*in/2 {
		t.Errorf("edge 1 is %v, notice %q", got.Text(0), b.m.Notice)
	}
}

// A fall is typed as a drop, per foot or in percent; a bare number is inches.
func TestFallIsTypedInThreeWays(t *testing.T) {
	for text, want := range map[string]geometry.Length{"2": 2 * in, "1/8 per ft": 2 * in, "1 %": 123 * in / 64} { // of 16 ft: 1.92 in
		b := newBench(t, shop())
		b.m.Use(&tool.PlaceFall{})
		b.click(pt(12*ft, 18*ft))
		b.click(pt(12*ft, 2*ft))
		b.keys(text)
		if typed := b.m.Status().Typed; !strings.Contains(typed, "per ft") || !strings.Contains(typed, "%)") {
			t.Errorf("%s is read as %s", text, typed)
		}
		b.keys("<Return>")
		if falls := b.doc.Plan().Top.Falls; len(falls) != 1 || falls[0].Drop != want {
			t.Errorf("%s gave %+v, notice %q", text, falls, b.m.Notice)
		}
	}
}

func TestPlaceDoor(t *testing.T) {
	b := newBench(t, shop())
	b.m.NewDoor = plan.Door{Kind: plan.Overhead, Width: 9 * ft}
	b.m.Use(&tool.PlaceDoor{})
	b.click(pt(8*ft, 0))
	want := []plan.Door{{Kind: plan.Overhead, From: 3*ft + 6*in, Width: 9 * ft}}
	if diff := cmp.Diff(want, b.doc.Plan().Outline[0].Doors); diff != "" {
		t.Errorf("by a click (-want +got):\n%s", diff)
	}
	b.m.Use(&tool.PlaceDoor{})
	b.move(pt(24*ft, 15*ft)) // nearer to the end corner, which is measured from
	b.keys("3' at 2-6<Return>")
	want = []plan.Door{{Kind: plan.Overhead, From: 20*ft - 2*ft - 6*in - 3*ft, Width: 3 * ft}}
	if diff := cmp.Diff(want, b.doc.Plan().Outline[1].Doors); diff != "" {
		t.Errorf("typed from the end corner (-want +got):\n%s", diff)
	}
	b.drag(pt(24*ft, 16*ft), pt(24*ft, 11*ft))
	if got := b.doc.Plan().Outline[1].Doors[0].From; got != 9*ft+6*in {
		t.Errorf("dragged to %v", got.Text(0))
	}
}

// Wherever the pointer rests, the arrow keys step from edge to edge, and what is
// typed counts from the start corner, or with Tab from the other.
func TestPlaceDoorByKeys(t *testing.T) {
	for keys, want := range map[string]geometry.Length{"9' at 4'<Return>": 4 * ft, "<Tab>9' at 4'<Return>": 7 * ft} {
		b := newBench(t, shop())
		b.move(pt(20*ft, 1*ft)) // nearer to the end corner of edge 1
		b.m.Selected = tool.Target{Kind: tool.Edge}
		b.m.Use(&tool.PlaceDoor{})
		b.keys("<Right>" + keys)
		if d := b.doc.Plan().Outline[1].Doors; len(d) != 1 || d[0].From != want {
			t.Errorf("%s: doors of edge 2 are %+v; notice %q", keys, d, b.m.Notice)
		}
	}
}

func TestPaint(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.Paint{})
	b.m.Brush = tool.Brush{Sets: tool.SetsSection, Section: "edge"}
	b.click(pt(8*ft, 0))
	b.m.Brush = tool.Brush{Sets: tool.SetsWall, Wall: "2x6"}
	b.click(pt(8*ft, 0))
	b.m.Brush = tool.Brush{Sets: tool.SetsJoint}
	b.click(pt(8*ft, 20*ft))
	p := b.doc.Plan()
	if e := p.Outline[0]; e.Section != "edge" || e.Wall != "2x6" || e.Joint {
		t.Errorf("edge 1 is %+v", e)
	}
	if !p.Outline[2].Joint {
		t.Error("edge 3 is no joint")
	}
	b.click(pt(8*ft, 20*ft))
	if b.doc.Plan().Outline[2].Joint {
		t.Error("a second click did not take the joint off")
	}
}

func TestCornersComeAndGo(t *testing.T) {
	b := newBench(t, shop())
	b.click(pt(12*ft, 0))
	b.m.DoubleClicked()
	b.corners(pt(0, 0), pt(12*ft, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	b.keys("<Delete>")
	b.corners(shop().Outline.Corners()...)
}

func TestHolesPadsStripsAndFalls(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.Rectangle{What: tool.Hole})
	b.click(pt(4*ft, 4*ft))
	b.click(pt(6*ft, 7*ft))
	b.m.Use(&tool.PlacePad{})
	b.keys("12', 10'<Return>")
	b.m.Use(&tool.PlaceEmbed{})
	b.keys("5', 9'<Return>")
	b.m.Use(&tool.Chain{What: tool.Band})
	b.click(pt(2*ft, 14*ft))
	b.click(pt(20*ft, 14*ft))
	b.keys("<Return>")
	b.m.Use(&tool.PlaceFall{})
	b.click(pt(12*ft, 18*ft))
	b.click(pt(12*ft, 2*ft))
	b.keys("2\"<Return>")
	p := b.doc.Plan()
	if len(p.Holes) != 1 || len(p.Pads) != 1 || len(p.Embeds) != 1 || p.Embeds[0].Center != pt(5*ft, 9*ft) || len(p.Strips) != 1 || len(p.Top.Falls) != 1 {
		t.Fatalf("%d holes, %d pads, %d strips, %d falls", len(p.Holes), len(p.Pads), len(p.Strips), len(p.Top.Falls))
	}
	if faults := p.Validate(geometry.FeetInches); len(faults) > 0 {
		t.Error(faults)
	}
	if p.Pads[0].Center != pt(12*ft, 10*ft) || p.Top.Falls[0].Drop != 2*in {
		t.Errorf("pad %+v, fall %+v", p.Pads[0], p.Top.Falls[0])
	}
	b.drag(pt(12*ft, 10*ft), pt(15*ft, 10*ft))
	if got := b.doc.Plan().Pads[0].Center; got != pt(15*ft, 10*ft) {
		t.Errorf("the pad was dragged to %v", got)
	}
	for _, at := range []geometry.Point{pt(15*ft, 10*ft), pt(8*ft, 14*ft), pt(12*ft, 8*ft), pt(5*ft, 5*ft)} {
		b.click(at)
		b.keys("<Delete>")
	}
	p = b.doc.Plan()
	if len(p.Holes)+len(p.Pads)+len(p.Strips)+len(p.Top.Falls) != 0 {
		t.Errorf("left over: %d holes, %d pads, %d strips, %d falls", len(p.Holes), len(p.Pads), len(p.Strips), len(p.Top.Falls))
	}
}

func TestNudge(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.Edge, Index: 1}
	b.keys("<Right>")
	b.mods = tool.Mods{Shift: true}
	b.keys("<Right>")
	b.corners(pt(0, 0), pt(24*ft+in+in/16, 0), pt(24*ft+in+in/16, 20*ft), pt(0, 20*ft))
}

func TestMeasureAndCut(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.Measure{})
	b.drag(pt(0, 0), pt(24*ft, 20*ft))
	if b.m.Tape == nil || geometry.Distance(b.m.Tape[0], b.m.Tape[1]).Text(0) != `31'-2 7/8"` {
		t.Errorf("measured %v", b.m.Tape)
	}
	var cut [2]geometry.Point
	b.m.Cut = func(p, q geometry.Point) { cut = [2]geometry.Point{p, q} }
	b.m.Use(&tool.Measure{Cuts: true})
	b.click(pt(12*ft, -2*ft))
	b.click(pt(12*ft, 22*ft))
	if cut != [2]geometry.Point{pt(12*ft, -2*ft), pt(12*ft, 22*ft)} {
		t.Errorf("cut along %v", cut)
	}
}

func TestMovePlan(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.MovePlan{})
	b.keys("2' right, 1' down<Return>")
	b.corners(pt(2*ft, -1*ft), pt(26*ft, -1*ft), pt(26*ft, 19*ft), pt(2*ft, 19*ft))
	b.m.Use(&tool.MovePlan{})
	b.click(pt(2*ft, -1*ft))
	b.move(pt(6*ft, 6*ft))
	b.keys("<Escape><Escape>")
	b.corners(pt(2*ft, -1*ft), pt(26*ft, -1*ft), pt(26*ft, 19*ft), pt(2*ft, 19*ft))
}

func TestFaultyPlansCanBePassedThrough(t *testing.T) {
	b := newBench(t, shop())
	b.press(pt(24*ft, 20*ft))
	b.move(pt(20*ft, 15*ft))
	b.move(pt(-3*ft, 10*ft)) // the outline crosses itself here
	if len(b.doc.Faults()) == 0 {
		t.Error("no fault is placed while the outline crosses itself")
	}
	b.move(pt(22*ft, 18*ft))
	if len(b.doc.Faults()) != 0 {
		t.Errorf("faults stay: %v", b.doc.Faults())
	}
	b.m.Released()
}

// No sequence of events may panic or leave the plan changed without a step.
func FuzzEvents(f *testing.F) {
	f.Add([]byte("abcdefghijklmnopqrstuvwxyz"))
	f.Add([]byte{0, 40, 3, 1, 9, 80, 4, 200, 2, 17, 33, 5})
	f.Fuzz(func(t *testing.T, data []byte) {
		b := newBench(t, framed())
		apron(b)
		states := []func() tool.State{
			func() tool.State { return &tool.Select{} }, func() tool.State { return &tool.Chain{} },
			func() tool.State { return &tool.Chain{What: tool.Band} }, func() tool.State { return &tool.Rectangle{What: tool.Hole} },
			func() tool.State { return &tool.PlaceDoor{} }, func() tool.State { return &tool.Paint{} },
			func() tool.State { return &tool.PlacePad{} }, func() tool.State { return &tool.PlaceEmbed{} }, func() tool.State { return &tool.PlaceConstruction{} }, func() tool.State { return &tool.PlaceFall{} },
			func() tool.State { return &tool.Measure{} }, func() tool.State { return &tool.MovePlan{} },
			func() tool.State { return &tool.PlaceBolt{} }, func() tool.State { return &tool.PlaceBenchmark{} },
			func() tool.State { return &tool.PlaceNote{} }, func() tool.State { return &tool.PlaceNorth{} },
		}
		keys := []string{tool.Enter, tool.Escape, tool.Delete, tool.Backspace, tool.Tab, tool.Up, tool.Down, tool.Left, tool.Right, tool.PageDown, tool.Space, tool.Insert}
		var o tool.Overlay
		for i := 0; i+1 < len(data) && i < 200; i += 2 {
			arg := int(data[i+1])
			at := view.XY{X: float64(arg%16) * 62, Y: float64(arg/16) * 50}
			switch data[i] % 8 {
			case 0:
				b.m.Use(states[arg%len(states)]())
			case 1, 2:
				b.m.PointerMoved(at, tool.Mods{Shift: arg%3 == 0})
			case 3:
				b.m.Pressed(at, tool.Button(arg%3), tool.Mods{Ctrl: arg%5 == 0})
			case 4:
				b.m.Released()
			case 5:
				b.m.Key(keys[arg%len(keys)], tool.Mods{Shift: arg%2 == 0})
			case 6:
				b.m.Rune(rune("0123456789'\",<.- "[arg%17]))
			case 7:
				if arg%2 == 0 {
					b.doc.Undo()
				} else {
					b.m.DoubleClicked()
				}
			}
			b.m.Overlay(&o)
			b.m.Status()
		}
	})
}
