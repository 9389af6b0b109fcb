package tool_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// panel takes what is described beside the plan, and does in it what a person would.
type panel struct {
	b       *bench
	heads   []string
	said    []string
	texts   map[string]bind.Text
	checks  map[string]func(bool) error
	choices map[string]func(string) error
	chosen  map[string]func() string
	options map[string]func() []string
	ticked  map[string]func() bool
	buttons map[string]func() error
	rows    []tool.Row
}

func (b *bench) panel() *panel {
	p := &panel{b: b, texts: map[string]bind.Text{}, checks: map[string]func(bool) error{}, choices: map[string]func(string) error{},
		chosen: map[string]func() string{}, options: map[string]func() []string{}, ticked: map[string]func() bool{}, buttons: map[string]func() error{}}
	b.m.Describe(p)
	return p
}

func (p *panel) Units() geometry.Units       { return p.b.m.Units() }
func (p *panel) Heading(s string)            { p.heads = append(p.heads, s) }
func (p *panel) Explain(s string)            { p.said = append(p.said, s) }
func (p *panel) Text(l string, t bind.Text)  { p.texts[l] = t }
func (p *panel) About(string)                {}
func (p *panel) Lines(l string, t bind.Text) { p.texts[l] = t }
func (p *panel) Row(r tool.Row)              { p.rows = append(p.rows, r) }
func (p *panel) Picture(func() string)       {}
func (p *panel) Check(l string, get func() bool, set func(bool) error) {
	p.ticked[l], p.checks[l] = get, set
}
func (p *panel) Choice(l string, options func() []string, get func() string, set func(string) error) {
	p.options[l], p.chosen[l], p.choices[l] = options, get, set
}
func (p *panel) Buttons(bs ...tool.Do) {
	for _, b := range bs {
		p.buttons[b.Name] = b.Act
	}
}

// does types "Label=text", ticks "Label" on with "+Label" and off with "-Label",
// chooses "Label:option", presses "!Button", and taps the row that begins with a text
// by ">text". It gives what was refused.
func (b *bench) does(what string) error {
	b.Helper()
	p := b.panel()
	need := func(ok bool) {
		b.Helper()
		if !ok {
			b.Fatalf("%q cannot be done on the panel %q with fields %v, checks %v, lists %v, buttons %v", what, p.heads, keysOf(p.texts), keysOf(p.checks), keysOf(p.choices), keysOf(p.buttons))
		}
	}
	if name, ok := strings.CutPrefix(what, "!"); ok {
		need(p.buttons[name] != nil)
		return p.buttons[name]()
	}
	if name, ok := strings.CutPrefix(what, ">"); ok {
		i := slices.IndexFunc(p.rows, func(r tool.Row) bool { return strings.HasPrefix(r.Text(), name) })
		need(i >= 0)
		p.rows[i].Tap()
		return nil
	}
	if what[0] == '+' || what[0] == '-' {
		set := p.checks[what[1:]]
		need(set != nil)
		err := set(what[0] == '+')
		if err == nil && p.ticked[what[1:]]() != (what[0] == '+') {
			b.Errorf("%s: it is not shown", what)
		}
		return err
	}
	if label, option, ok := strings.Cut(what, ":"); ok && p.choices[label] != nil {
		need(slices.Contains(p.options[label](), option))
		err := p.choices[label](option)
		if err == nil && b.panel().chosen[label]() != option {
			b.Errorf("%s: %q is shown", what, p.chosen[label]())
		}
		return err
	}
	label, text, ok := strings.Cut(what, "=")
	need(ok && p.texts[label].Set != nil)
	return p.texts[label].Set(text)
}

func keysOf[V any](m map[string]V) (all []string) {
	for k := range m {
		all = append(all, k)
	}
	slices.Sort(all)
	return all
}

// everything is a slab with one of each thing on it.
func everything() plan.Plan {
	p := framed()
	p.Outline[0].Doors = []plan.Door{{Name: "D1", From: 4 * ft, Width: 9 * ft, Kind: plan.Overhead}}
	p.Outline[0].Bolts = []plan.BoltMark{{Along: ft}, {Along: 20 * ft, HoldDown: true}}
	p = p.AddHole("Pit", plan.Like(geometry.Ring{pt(4*ft, 4*ft), pt(6*ft, 4*ft), pt(6*ft, 7*ft), pt(4*ft, 7*ft)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Name: "P1", Center: pt(12*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Depth: ft}}
	p.Strips = []plan.Strip{{Name: "S1", Path: []geometry.Point{pt(2*ft, 14*ft), pt(20*ft, 14*ft)}, Bottom: ft, Depth: ft, Taper: 6 * in}}
	p.Top.Falls = []plan.Fall{{From: pt(18*ft, 18*ft), To: pt(18*ft, 2*ft), Drop: 2 * in}}
	return p
}

// What is typed, ticked, chosen or pressed beside the plan is in the plan, as one step
// that undo takes back.
func TestFieldsOfWhatIsSelected(t *testing.T) {
	var (
		edge  = tool.Target{Kind: tool.Edge}
		door  = tool.Target{Kind: tool.Door}
		bolt  = tool.Target{Kind: tool.Bolt}
		pad   = tool.Target{Kind: tool.Pad}
		strip = tool.Target{Kind: tool.Strip}
		fall  = tool.Target{Kind: tool.Fall}
		hole  = tool.Target{Kind: tool.Slab, Loop: 1}
		slab  = tool.Target{Kind: tool.Slab}
	)
	for _, c := range []struct {
		on   tool.Target
		does string
		want func(p *plan.Plan)
	}{
		{tool.Target{Kind: tool.Corner, Index: 2}, "Along 1–2=25'", func(p *plan.Plan) { p.Outline[2].At.X = 25 * ft }},
		{tool.Target{Kind: tool.Corner, Index: 2}, "Off 1–2=21-6", func(p *plan.Plan) { p.Outline[2].At.Y = 21*ft + 6*in }},
		{edge, "Length=26'", func(p *plan.Plan) { p.Outline[1].At.X, p.Outline[2].At.X = 26*ft, 26*ft }},
		{edge, "Section:edge", func(p *plan.Plan) { p.Outline[0].Section = "edge" }},
		{edge, "Wall:none", func(p *plan.Plan) { p.Outline[0].Wall = "" }},
		{edge, "Wall:2x4", func(p *plan.Plan) { p.Outline[0].Wall = "2x4" }},
		{tool.Target{Kind: tool.Edge, Index: 2}, "+Joint with the old slab", func(p *plan.Plan) { p.Outline[2].SetJoint(true) }},
		{edge, "From the start=1', 5-6, 11' H", func(p *plan.Plan) {
			p.Outline[0].Bolts = []plan.BoltMark{{Along: ft}, {Along: 5*ft + 6*in}, {Along: 11 * ft, HoldDown: true}}
		}},
		{door, "Name=West", func(p *plan.Plan) { p.Outline[0].Doors[0].Name = "West" }},
		{door, "Rough opening=8'", func(p *plan.Plan) { p.Outline[0].Doors[0].Width = 8 * ft }},
		{door, "From start corner=5'", func(p *plan.Plan) { p.Outline[0].Doors[0].From = 5 * ft }},
		{door, "To end corner=5'", func(p *plan.Plan) { p.Outline[0].Doors[0].From = 10 * ft }},
		{door, "Section under it:edge", func(p *plan.Plan) { p.Outline[0].Doors[0].Section = "edge" }},
		{door, "Lip, drop=3/4\"", func(p *plan.Plan) { p.Outline[0].Doors[0].Lip.Drop = 3 * in / 4 }},
		{door, "Lip, reach=6\"", func(p *plan.Plan) { p.Outline[0].Doors[0].Lip.Inset = 6 * in }},
		{door, "Run-out=2'", func(p *plan.Plan) { p.Outline[0].Doors[0].RunOut = 2 * ft }},
		{door, "!Remove door", func(p *plan.Plan) { p.Outline[0].Doors = nil }},
		{bolt, "From start corner=2'", func(p *plan.Plan) { p.Outline[0].Bolts[0].Along = 2 * ft }},
		{bolt, "To end corner=2'", func(p *plan.Plan) {
			p.Outline[0].Bolts = []plan.BoltMark{{Along: 20 * ft, HoldDown: true}, {Along: 22 * ft}}
		}},
		{bolt, "+Hold-down", func(p *plan.Plan) { p.Outline[0].Bolts[0].HoldDown = true }},
		{bolt, "!Remove", func(p *plan.Plan) { p.Outline[0].Bolts = p.Outline[0].Bolts[1:] }},
		{pad, "Name=Post", func(p *plan.Plan) { p.Pads[0].Name = "Post" }},
		{pad, "Width=3'", func(p *plan.Plan) { p.Pads[0].Width = 3 * ft }},
		{pad, "Length=30\"", func(p *plan.Plan) { p.Pads[0].Length = 30 * in }},
		{pad, "Depth from top=18\"", func(p *plan.Plan) { p.Pads[0].Depth = 18 * in }},
		{pad, "Taper of sides=3\"", func(p *plan.Plan) { p.Pads[0].Taper = 3 * in }},
		{pad, "Turned=45", func(p *plan.Plan) { p.Pads[0].Turn = 45 }},
		{pad, "Along 1–2=13'", func(p *plan.Plan) { p.Pads[0].Center.X = 13 * ft }},
		{pad, "!Remove pad", func(p *plan.Plan) { p.Pads = nil }},
		{strip, "Name=Bearing", func(p *plan.Plan) { p.Strips[0].Name = "Bearing" }},
		{strip, "Flat width=18\"", func(p *plan.Plan) { p.Strips[0].Bottom = 18 * in }},
		{strip, "Depth from top=14\"", func(p *plan.Plan) { p.Strips[0].Depth = 14 * in }},
		{strip, "!Remove thickened strip", func(p *plan.Plan) { p.Strips = nil }},
		{fall, "Drop=3\"", func(p *plan.Plan) { p.Top.Falls[0].Drop = 3 * in }},
		{fall, "!Remove fall", func(p *plan.Plan) { p.Top.Falls = []plan.Fall{} }},
		{hole, "Name=Sump", func(p *plan.Plan) { p.Holes[0].Name = "Sump" }},
		{hole, "!Remove hole", func(p *plan.Plan) { p.Holes = nil }},
		{slab, "Name=Shop", func(p *plan.Plan) { p.Name = "Shop" }},
		{slab, "Field thickness=5\"", func(p *plan.Plan) { p.Field = 5 * in }},
		{slab, "Edges are dug:to the form board", func(p *plan.Plan) { p.Trench = plan.ToBoard }},
		{slab, "!Flip left-right", func(p *plan.Plan) { *p = p.Mirror(plan.AcrossX, 12*ft) }},
		{slab, "!Flip up-down", func(p *plan.Plan) { *p = p.Mirror(plan.AcrossY, 10*ft) }},
		{slab, "!Turn 90°", func(p *plan.Plan) { *p = p.Rotate(pt(12*ft, 10*ft), 90) }},
		{slab, "Turn by, degrees=30", func(p *plan.Plan) { *p = p.Rotate(pt(12*ft, 10*ft), 30) }},
		{slab, "Turn by, degrees=0", nil},
	} {
		t.Run(c.does, func(t *testing.T) {
			b := newBench(t, everything())
			b.m.Selected = c.on
			was := b.doc.Job()
			if err := b.does(c.does); err != nil {
				t.Fatal(err)
			}
			want := everything()
			if c.want != nil {
				c.want(&want)
			}
			if diff := cmp.Diff(was.WithSlab(0, want).Slabs[0], b.doc.Plan()); diff != "" && !b.doc.Job().Same(was.WithSlab(0, want)) {
				t.Errorf("the plan (-want +got):\n%s\n%s", diff, b.m.Notice)
			}
			b.doc.Undo()
			if _, more := b.doc.CanUndo(); more || !b.doc.Job().Same(was) {
				t.Error("undo does not give what was there before, in one step")
			}
		})
	}
}
