package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// What cannot be is refused beside its field, and the plan stays.
func TestRefusedFields(t *testing.T) {
	bolt := tool.Target{Kind: tool.Bolt}
	edge := tool.Target{Kind: tool.Edge}
	for _, c := range []struct {
		on         tool.Target
		does, says string
	}{
		{edge, "From the start=1', 25'", `found 25'-0" on a wall of 24'-0"`},
		{edge, "From the start=1', 1'", "twice"},
		{edge, "From the start=bananas", "bananas"},
		{edge, "Length=0", "0"},
		{bolt, "From start corner=30'", "a bolt stands on its wall"},
		{tool.Target{Kind: tool.Pad}, "Width=wide", "wide"},
		{tool.Target{Kind: tool.Pad}, "Turned=much", "much"},
	} {
		b := newBench(t, everything())
		b.m.Selected = c.on
		if err := b.does(c.does); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: refused with %v, want %q", c.does, err, c.says)
		}
		if _, changed := b.doc.CanUndo(); changed {
			t.Errorf("%s: it was changed", c.does)
		}
	}
}

// The list of an edge's bolt marks: each can be taken, made a hold-down and removed, and
// what is typed is told as it will be read.
func TestRowsOfBoltMarks(t *testing.T) {
	b := newBench(t, everything())
	b.m.Selected = tool.Target{Kind: tool.Edge}
	p := b.panel()
	if got, err := p.texts["From the start"].Meaning("1, 2-6 h"); got != `1'-0", 2'-6" H` || err != nil {
		t.Errorf("it is read as %q, %v", got, err)
	}
	if len(p.rows) != 2 || p.rows[1].Text() != `2:  20'-0"` || !p.rows[1].Ticked() || p.rows[0].Ticked() {
		t.Fatalf("there are %d rows, the last %q", len(p.rows), p.rows[len(p.rows)-1].Text())
	}
	if err := p.rows[0].SetTo(true); err != nil || !b.doc.Plan().Outline[0].Bolts[0].HoldDown {
		t.Errorf("%v, %+v", err, b.doc.Plan().Outline[0].Bolts)
	}
	if err := p.rows[0].Remove(); err != nil || len(b.doc.Plan().Outline[0].Bolts) != 1 {
		t.Errorf("%v, %+v", err, b.doc.Plan().Outline[0].Bolts)
	}
	if err := b.does(">1:"); err != nil || b.m.Selected.Kind != tool.Bolt {
		t.Errorf("taken: %+v", b.m.Selected)
	}
	if err := b.does("!All of this edge"); err != nil || b.m.Selected.Kind != tool.Edge {
		t.Errorf("taken: %+v", b.m.Selected)
	}
	if err := b.does("!Mark on the plan"); err != nil {
		t.Error(err)
	}
	b.state("Bolt marks")
}

// What is set before it is drawn is what is drawn.
func TestNextThing(t *testing.T) {
	for _, c := range []struct {
		name  string
		use   tool.State
		does  []string
		then  func(*bench)
		right func(p plan.Plan) bool
	}{
		{"pad", &tool.PlacePad{}, []string{"Width=3'", "Depth from top=20\""}, func(b *bench) { b.click(pt(6*ft, 6*ft)) },
			func(p plan.Plan) bool {
				return p.Pads[0] == plan.Pad{Center: pt(6*ft, 6*ft), Width: 3 * ft, Length: 2 * ft, Depth: 20 * in}
			}},
		{"embed", &tool.PlaceEmbed{}, []string{"Diameter or width=6\"", "Depth below the top=3\""}, func(b *bench) { b.click(pt(6*ft, 6*ft)) },
			func(p plan.Plan) bool {
				return p.Embeds[0] == plan.Embed{Center: pt(6*ft, 6*ft), Width: 6 * in, Deep: 3 * in}
			}},
		{"construction joint", &tool.PlaceConstruction{}, []string{"It is:smooth dowels", "Poured first:right", "Dowels, diameter=1\""}, func(b *bench) { b.keys("12', 0<Return>"); b.click(pt(12*ft, 20*ft)) },
			func(p plan.Plan) bool {
				return p.Construction[0] == plan.Construction{Kind: plan.Doweled, From: pt(12*ft, 0), To: pt(12*ft, 20*ft), First: plan.RightFirst, Diameter: in}
			}},
		{"strip", &tool.Chain{What: tool.Band}, []string{"Flat width=2'", "Taper of sides=0"}, func(b *bench) { b.keys("2',2'<Return>6' right<Return>"); b.keys("<Return>") },
			func(p plan.Plan) bool {
				return p.Strips[0].Bottom == 2*ft && p.Strips[0].Taper == 0 && len(p.Strips[0].Path) == 2
			}},
		{"door", &tool.PlaceDoor{}, []string{"Rough opening=7'", "Lip, drop=1\""}, func(b *bench) { b.click(pt(12*ft, 20*ft)) },
			func(p plan.Plan) bool { d := p.Outline[2].Doors[0]; return d.Width == 7*ft && d.Lip.Drop == in }},
		{"bolt", &tool.PlaceBolt{}, []string{"+Hold-down (Space)"}, func(b *bench) { b.click(pt(3*ft, 0)) },
			func(p plan.Plan) bool { return p.Outline[0].Bolts[0] == plan.BoltMark{Along: 3 * ft, HoldDown: true} }},
		{"rectangle", &tool.Rectangle{}, []string{"Section:edge", "Wall:2x4"}, func(b *bench) { b.keys("30 x 20<Return>") },
			func(p plan.Plan) bool {
				return p.Outline[1].Section == "edge" && p.Outline[1].Wall == "2x4" && p.Outline.Length(0) == 30*ft
			}},
		{"outline", &tool.Chain{}, []string{"Wall:2x6"}, func(b *bench) { b.keys("<Return><Right>9'<Return><Up>8'<Return><Left>9'<Return><Return>") },
			func(p plan.Plan) bool { return p.Outline[3].Wall == "2x6" && p.Outline.Length(1) == 8*ft }},
		{"painted section", &tool.Paint{}, []string{"Paint:section", "Section:edge"}, func(b *bench) { b.click(pt(8*ft, 0)) },
			func(p plan.Plan) bool { return p.Outline[0].Section == "edge" && p.Outline[1].Section == "" }},
		{"section all round", &tool.Paint{}, []string{"Paint:section", "Section:edge", "!All but joints"}, func(*bench) {},
			func(p plan.Plan) bool { return p.Outline[0].Section == "edge" && p.Outline[3].Section == "edge" }},
		{"walls all round", &tool.Paint{}, []string{"Paint:wall", "Wall:2x4", "!All but joints"}, func(*bench) {},
			func(p plan.Plan) bool { return p.Outline[0].Wall == "2x4" && p.Outline[3].Wall == "2x4" }},
		{"painted with the keys", &tool.Paint{}, []string{"Paint:joint"}, func(b *bench) { b.keys("<Tab><Tab><Return>") },
			func(p plan.Plan) bool { return !p.Outline[0].Joint && p.Outline[1].Joint }},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, framed())
			b.m.Use(c.use)
			for _, d := range c.does {
				if err := b.does(d); err != nil {
					t.Fatalf("%s: %v", d, err)
				}
			}
			c.then(b)
			defer func() {
				if r := recover(); r != nil {
					t.Fatalf("it is not there: %v; notice %q", r, b.m.Notice)
				}
			}()
			if !c.right(b.doc.Plan()) {
				t.Errorf("it is drawn as %+v; notice %q", b.doc.Plan(), b.m.Notice)
			}
		})
	}
}

// What stands around the slabs, and the pages that buttons turn to.
func TestSurveyPanel(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.North}
	turned := []tool.Page{}
	b.m.Turn = func(p tool.Page) { turned = append(turned, p) }
	focused := 0
	b.m.Focus = func() { focused++ }
	b.m.Use(&tool.PlaceNorth{})
	b.keys("30<Return>")
	b.m.Use(&tool.PlaceBenchmark{})
	b.keys("1',2'<Return><Return>3'<Return>")
	b.m.Use(&tool.PlaceNote{})
	b.click(pt(4*ft, 4*ft))
	b.click(pt(8*ft, 8*ft))
	b.keys("Mind the pipe<Return>")
	sv := b.doc.Job().Survey
	if !sv.North.Known || sv.North.Turn != 30 || len(sv.Benchmarks) != 1 || sv.Benchmarks[0].Name != "BM 1" || sv.Benchmarks[0].Height != 3*ft || len(sv.Notes) != 1 || sv.Notes[0].To != pt(4*ft, 4*ft) {
		t.Fatalf("around the slab is %+v; notice %q", sv, b.m.Notice)
	}
	for _, c := range []struct {
		on   tool.Target
		does string
		ok   func(sv plan.Survey) bool
	}{
		{tool.Target{Kind: tool.Note}, "=Mind the drain", func(sv plan.Survey) bool { return sv.Notes[0].Text == "Mind the drain" }},
		{tool.Target{Kind: tool.Note}, "-With a leader", func(sv plan.Survey) bool { return !sv.Notes[0].Leader && sv.Notes[0].To == pt(0, 0) }},
		{tool.Target{Kind: tool.Note}, "+With a leader", func(sv plan.Survey) bool { return sv.Notes[0].Leader && sv.Notes[0].To.X < sv.Notes[0].At.X }},
		{tool.Target{Kind: tool.Note}, "Off 1–2=9'", func(sv plan.Survey) bool { return sv.Notes[0].At.Y == 9*ft }},
		{tool.Target{Kind: tool.Benchmark}, "Name=Nail", func(sv plan.Survey) bool { return sv.Benchmarks[0].Name == "Nail" }},
		{tool.Target{Kind: tool.Benchmark}, "Height over datum=0", func(sv plan.Survey) bool { return sv.Benchmarks[0].Height == 0 }},
		{tool.Target{Kind: tool.North}, "North, turned=-90", func(sv plan.Survey) bool { return sv.North.Known && sv.North.Turn == -90 }},
		{tool.Target{Kind: tool.North}, "-North is known", func(sv plan.Survey) bool { return !sv.North.Known }},
		{tool.Target{Kind: tool.Benchmark}, "!Remove benchmark", func(sv plan.Survey) bool { return len(sv.Benchmarks) == 0 }},
		{tool.Target{Kind: tool.Note}, "!Remove note", func(sv plan.Survey) bool { return len(sv.Notes) == 0 }},
	} {
		b.m.Use(&tool.Select{})
		b.m.Selected = c.on
		if err := b.does(c.does); err != nil || !c.ok(b.doc.Job().Survey) {
			t.Errorf("%s: %v, %+v", c.does, err, b.doc.Job().Survey)
		}
	}
	b.m.Selected = tool.Target{Kind: tool.Note}
	for range 2 { // what was removed comes back
		b.doc.Undo()
	}
	if err := b.does("="); err == nil || len(b.doc.Job().Survey.Notes[0].Text) == 0 {
		t.Errorf("a note says nothing: %v", err)
	}
	b.doc.Undo()
	b.m.Selected = tool.Target{Kind: tool.North}
	for row, kind := range map[string]tool.Kind{">Nail": tool.Benchmark, ">“Mind the drain": tool.Note} {
		b.m.Selected = tool.Target{Kind: tool.North}
		if err := b.does(row); err != nil || b.m.Selected.Kind != kind {
			t.Errorf("%s takes %+v", row, b.m.Selected)
		}
	}
	for name, tools := range map[string]string{"!Point north…": "North", "!Add benchmark": "Benchmark", "!Add note": "Note"} {
		b.m.Use(&tool.Select{})
		b.m.Selected = tool.Target{Kind: tool.North}
		if err := b.does(name); err != nil {
			t.Error(err)
		}
		b.state(tools)
	}
	b.m.Use(&tool.Select{})
	b.m.Selected = tool.Target{Kind: tool.Slab}
	turned = nil
	for name, page := range map[string]tool.Page{"!Shapes…": tool.Shapes, "!Legs…": tool.Legs, "!Sections…": tool.Sections, "!Draw over a sketch…": tool.Sketching, "!North, notes…": tool.Surveying} {
		turned = nil
		if err := b.does(name); err != nil || len(turned) != 1 || turned[0] != page {
			t.Errorf("%s turns to %v, %v", name, turned, err)
		}
	}
	if focused == 0 {
		t.Error("after a tool is taken up the keys are not for the plan")
	}
}

// Whole slabs are chosen, begun, copied and removed beside the plan.
func TestSlabsPanel(t *testing.T) {
	b := newBench(t, shop())
	apron(b)
	b.m.Selected = tool.Target{Kind: tool.Slab}
	p := b.panel()
	if len(p.rows) != 2 || !p.rows[0].On() || p.rows[1].On() || p.rows[1].Text() != "Apron" || p.rows[1].Beside() != `12'-0" × 8'-0"` {
		t.Fatalf("there are %d slabs, the last %q, %q", len(p.rows), p.rows[len(p.rows)-1].Text(), p.rows[len(p.rows)-1].Beside())
	}
	steps := []struct {
		does          string
		slabs, chosen int
	}{
		{">Apron", 2, 1}, {"!Copy", 3, 2}, {"!New slab", 4, 3}, {">Apron", 4, 1}, {"!Remove", 3, 0},
	}
	for _, s := range steps {
		if err := b.does(s.does); err != nil || len(b.doc.Job().Slabs) != s.slabs || b.doc.Slab() != s.chosen {
			t.Errorf("%s: %d slabs, working on %d, %v; want %d and %d", s.does, len(b.doc.Job().Slabs), b.doc.Slab(), err, s.slabs, s.chosen)
		}
	}
	b.m.Choose(1)
	if err := b.does("Top over the job's=-4\""); err != nil || b.doc.Plan().Height != -4*in {
		t.Errorf("its top is at %v, %v", b.doc.Plan().Height, err)
	}
	if err := b.does("!Move…"); err != nil {
		t.Error(err)
	}
	b.state("Move slab")
	taken := document.New(b.doc.Job().In(geometry.Millimeters), document.Taken, document.Scheduler{})
	m := tool.New(taken, func(s string) (float64, float64) { return 7 * float64(len(s)), 14 })
	metric := &bench{T: t, m: m, doc: taken}
	if got := metric.panel().rows[0].Beside(); !strings.HasSuffix(got, " m²") {
		t.Errorf("the first slab has %q", got)
	}
}

// plain leaves out inches that are none.
func plain(s string) string { return strings.ReplaceAll(s, `-0"`, "") }

// Each tool says at every step what to do, how what is typed will be read, and shows it
// at the pointer.
func TestWhatToolsSayAndShow(t *testing.T) {
	type step struct {
		keys, do, typed, length, label string
		at                             geometry.Point // clicked, or for keys pointed at
	}
	const none = geometry.Length(-1)
	off := pt(none, none)
	for _, c := range []struct {
		use   tool.State
		steps []step
	}{
		{&tool.Chain{}, []step{
			{"", "Click the first corner", "", "", "", off},
			{"4", "first corner", "say where: 12' along", "", "say where", off},
			{", 3", "", "4' along 1–2, 3' off", "", "4' along 1–2", off},
			{"<Return>12 at 30", "Say which way", "12' 30° up from right", "", "12' 30° up from right", off},
			{"<Escape>at 90", "", "points up", "", "", off},
			{"<Escape>3' right, 4' up", "", "5' 53.1° up from right", "", "", off},
			{"<Escape>", "Click, or type how far", "", " right", "", pt(10*ft, 3*ft)},
		}},
		{&tool.Chain{What: tool.Hole}, []step{{"", "Click the first corner", "", "", "", off}}},
		{&tool.Rectangle{}, []step{
			{"", "Click a corner", "", "", "", off},
			{"", "opposite corner", "", "", "×", pt(2*ft, 2*ft)},
			{"6 x 4", "", "6' wide, 4' long", "", "6' wide", off},
		}},
		{&tool.PlaceDoor{}, []step{
			{"", "Click, or type how far", "", "", "", pt(12*ft, 0)},
		}},
		{&tool.PlaceBolt{}, []step{{"", "Point at an edge with a wall", "", "", "", off}}},
		{&tool.PlacePad{}, []step{{"6, 4", "Click the middle", "6' along 1–2, 4' off", "", "6' along 1–2", off}, {"<Escape>6", "", "say where", "", "", off}}},
		{&tool.PlaceConstruction{}, []step{
			{"", "meets an edge", "", "", "", off},
			{"", "the edge across", "", "", "", pt(8*ft, 0)},
			{"8, 2", "the edge across", "8' along 1–2, 2' off", "", "8' along 1–2", off},
			{"<Escape><Escape>", "meets an edge", "", "", "", off},
		}},
		{&tool.PlaceFall{}, []step{
			{"", "high end", "", "", "", off},
			{"", "low end", "", "", "", pt(8*ft, 8*ft)},
			{"", "how much lower", "", " right", "Drop?", pt(16*ft, 8*ft)},
			{"2", "", "per ft", "", "per ft", off},
			{"<Escape><Escape>", "low end", "", "", "", off},
			{"<Escape>", "high end", "", "", "", off},
		}},
		{&tool.Measure{}, []step{
			{"", "Drag, or click two", "", "", "", off},
			{"", "second point", "", "", "", pt(0, 0)},
			{"", "Drag, or click two", "", "31'-2 7/8", "across", pt(24*ft, 20*ft)},
			{"<Escape>", "Drag, or click two", "", "", "", off},
		}},
		{&tool.MovePlan{}, []step{
			{"2 r, 1 d", "Click a point of the slab", "2'-2 13/16\" 26.6° down from right", "", "down from right", off},
			{"<Escape>", "where that point goes", "", "", "", pt(0, 0)},
		}},
		{&tool.PlaceNorth{}, []step{
			{"45", "Drag toward north", "north is 45° clockwise", "", "north is 45°", off},
			{"<Escape>", "Click toward north", "", "", "", pt(4*ft, 4*ft)},
			{"<Escape>", "Drag toward north", "", "", "", off},
		}},
		{&tool.PlaceBenchmark{}, []step{
			{"1, 2", "Click the fixed point", "1' along 1–2, 2' off", "", "2' off", off},
			{"<Return>", "Type what it is", "", "", "Its name?", off},
			{"Nail", "", "Nail", "", "Nail", off},
			{"<Return>", "Type its height", "", "", "Nail: its height?", off},
			{"3", "", "3' over the datum", "", "", off},
			{"<Escape><Escape>", "Type what it is", "", "", "", off},
			{"<Escape>", "Click the fixed point", "", "", "", off},
		}},
		{&tool.PlaceNote{}, []step{
			{"", "what the note speaks of", "", "", "", off},
			{"", "where the text begins", "", "", "", pt(4*ft, 4*ft)},
			{"", "Type the note", "", "", "What does it say?", pt(8*ft, 8*ft)},
			{"Hi", "", "Hi", "", "Hi", off},
			{"<Escape><Escape>", "where the text begins", "", "", "", off},
			{"<Escape>", "what the note speaks of", "", "", "", off},
			{"<Return>", "where the text begins", "", "", "", off},
			{"<Escape>", "what the note speaks of", "", "", "", off},
		}},
		{&tool.Paint{}, []step{{"", "Click edges to put on: section edge", "", "", "section edge", off}}},
	} {
		t.Run(c.use.Name(), func(t *testing.T) {
			b := newBench(t, shop())
			b.m.Brush = tool.Brush{Section: "edge"}
			b.m.Use(c.use)
			b.move(pt(3*ft, 9*ft))
			for i, s := range c.steps {
				b.keys(s.keys)
				if s.at != off && s.length == " right" && i == 6 {
					b.move(s.at)
				} else if s.at != off && s.do == "Click, or type how far" {
					b.move(s.at)
				} else if s.at != off {
					b.click(s.at)
					b.move(s.at.Add(pt(ft, 2*ft)))
				}
				st := b.m.Status()
				if !strings.Contains(st.Help.Do, s.do) || !strings.Contains(plain(st.Typed), s.typed) || !strings.Contains(st.Length, s.length) {
					t.Errorf("step %d says %q, typed %q, length %q; want %q, %q, %q", i+1, st.Help.Do, st.Typed, st.Length, s.do, s.typed, s.length)
				}
				var o tool.Overlay
				b.m.Overlay(&o)
				found := s.label == ""
				for _, l := range o.Labels {
					found = found || strings.Contains(plain(l.Text), s.label)
				}
				if !found {
					t.Errorf("step %d shows %+v, want %q", i+1, o.Labels, s.label)
				}
			}
			if _, changed := b.doc.CanUndo(); changed {
				t.Error("something was changed")
			}
		})
	}
}
