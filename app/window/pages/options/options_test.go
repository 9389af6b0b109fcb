package options

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
)

func opened(t *testing.T, j job.Job) (*hands.Desk, *Page) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d, d.Fonts, document.Scheduler{})
	d.Show(p)
	return d, p
}

// add gives the job options of its own.
func add(t *testing.T, p *Page, os ...estimate.Option) {
	t.Helper()
	if err := p.frame.ChangePricing("Options", func(s *estimate.Spec) { s.Options = append(s.Options, os...) }); err != nil {
		t.Fatal(err)
	}
}

// base is what the options vary.
func base(d *hands.Desk) estimate.Base {
	j := d.Job()
	return estimate.Base{Slabs: j.Slabs, Spec: j.Spec, Units: j.Units, Price: j.Pricing(), Prices: d.Prices(), Frost: d.Frost()}
}

// use presses the button below an option.
func use(d *hands.Desk, p *Page, i int) {
	p.form.Act(func() error { return p.choose(p.options(), i) })()
}

func TestComparison(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	os := p.options()
	if len(os) == 0 || len(p.sections) != len(os)+1 {
		t.Fatalf("opened, the page has %d options and %d sections", len(os), len(p.sections))
	}
	if len(d.Job().Price.Options) > 0 {
		t.Error("looking at the usual depths changes the job")
	}
	table := hands.On(t, p.table)
	b := base(d)
	b.Price.Options = os
	for i, o := range estimate.Compare(t.Context(), b) {
		if o.Err != nil {
			t.Fatalf("%s: %v", o.Name, o.Err)
		}
		table.Reads(o.Ordered.String()+" "+string(o.Volume), money(o, o.Estimate.Bid), money(o, o.Estimate.Cost))
		if i > 0 {
			table.Reads(strings.TrimPrefix(money(o, o.Difference), "-"), o.Name)
		}
	}
	th, err := estimate.Thresholds(t.Context(), base(d))
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range th {
		if x.Found {
			d.Reads(x.Text + ": " + x.Depth.Text(d.Units()))
		}
	}
	n := len(p.options())
	d.Press("Compare")
	if len(p.options()) != n+1 {
		t.Error("a depth that matters is not compared")
	}
	for len(p.options()) < estimate.MaxOptions {
		d.Press("Add an option")
	}
	if !p.more.Disabled() || p.addOne() == nil || len(p.options()) != estimate.MaxOptions {
		t.Errorf("%d options", len(p.options()))
	}
	if err := p.all().Remove("Remove an option", 0); err != nil || p.options()[0].Name != os[1].Name {
		t.Errorf("the first option is %s, %v", p.options()[0].Name, err)
	}
	d.Press("Add the usual edge depths") // is told that there is no room, or none left
}

// The mark on the chart is dragged and moved by keys; section, figures and chart follow,
// and the depth becomes the job's, the rest kept.
func TestMarkOnTheDepth(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	e := p.depth
	if !e.box.Visible() || e.mark != e.of.Drawn {
		t.Fatal("no chart is open, or its mark is not as drawn")
	}
	over := hands.On(t, e.box)
	over.Reads("as drawn", "truck 3 from")
	was, inked := hands.On(t, e.chart).Text(), picture(e)
	h := hands.Every[*handle](over)[0]
	if h.Size() != e.chart.Size() || h.Size().Width < 400 {
		t.Fatalf("the handle is %v, the chart %v", h.Size(), e.chart.Size())
	}
	i := slices.IndexFunc(e.of.At, func(a handover.AtDepth) bool { return a.Edge == 17*geometry.Inch })
	x := e.across(i, h.Size().Width)
	h.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(4, 60)}})
	if e.mark != 0 {
		t.Errorf("pressed at the left the mark is at %d", e.mark)
	}
	h.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x-1, 60)}})
	h.DragEnd()
	if e.mark != i {
		t.Fatalf("dragged to %d the mark is at %d", i, e.mark)
	}
	at := e.of.At[i]
	over.Reads("Edges 1'-5\" deep: "+e.amount(at), signed(e.money, at.Difference), at.Ordered.String())
	if hands.On(t, e.chart).Text() == was || picture(e) == inked {
		t.Error("chart or section do not follow the mark")
	}
	for key, want := range map[fyne.KeyName]int{fyne.KeyHome: 0, fyne.KeyEnd: len(e.of.At) - 1} {
		if h.TypedKey(&fyne.KeyEvent{Name: key}); e.mark != want {
			t.Errorf("%s puts the mark at %d", key, e.mark)
		}
	}
	e.move(i - 1)
	h.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	over.Press("Use this depth")
	main, _ := estimate.MainSection(d.Job().Slabs)
	if own := d.Job().Price.Options; main.Depth != at.Edge || len(own) < 2 || !slices.ContainsFunc(own, func(o estimate.Option) bool { return o.Edge == estimate.To(12*geometry.Inch) }) {
		t.Errorf("the edge is %v, the options are %+v", main.Depth, own)
	}
	if e.mark != e.of.Drawn || !e.of.At[e.mark].Bid.Equal(at.Bid) {
		t.Error("the mark is not on what is drawn now, or that costs other than it said")
	}
	over.Press("Use this depth")
	if !strings.Contains(d.Told, "as drawn") {
		t.Errorf("it says %q", d.Told)
	}
}

func picture(e *depth) (n int) { return hands.On(nil, e.pic).Inked() }

// What moves the price is ranked, and compared at a click.
func TestWhatMovesThePrice(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	moves := hands.On(t, p.depth.moves)
	for _, m := range p.depth.of.Movers {
		moves.Reads(m.Option.Name, signed(p.depth.money, m.Difference))
	}
	n, first := len(p.options()), p.depth.of.Movers[0].Option
	moves.Buttons("Compare")[0].OnTapped()
	if own := d.Job().Price.Options; len(own) != n+1 || own[n] != first {
		t.Errorf("the options are %+v", own)
	}
}

// What is never changed stays out of the job; what is changed of the usual depths
// becomes the job's.
func TestUsualDepthsBecomeTheJobs(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	usual := p.options()
	d.Type(hands.On(t, p.table).Entries()[0], "Shallow")
	own := d.Job().Price.Options
	if len(own) != len(usual) || own[0].Name != "Shallow" || own[1] != usual[1] {
		t.Errorf("the options are %+v", own)
	}
}

func TestOptionBecomesTheJob(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	was := string(d.Job().Encode())
	before, _ := estimate.MainSection(d.Job().Slabs)
	const foam = 2 * geometry.Inch
	add(t, p, estimate.Option{Name: "Deep", Edge: estimate.To(16 * geometry.Inch), Foam: estimate.To(foam)}, estimate.Option{Name: "Other", Strength: 4000})
	use(d, p, 0)
	main, _ := estimate.MainSection(d.Job().Slabs)
	if main.Depth != 16*geometry.Inch || d.Job().Spec.Base.Foam != foam {
		t.Fatalf("the edge is %v, the foam %v", main.Depth, d.Job().Spec.Base.Foam)
	}
	os := p.options()
	if len(os) != 2 || os[1].Name != "Other" || os[0].Edge != estimate.To(before.Depth) {
		t.Fatalf("the options are %+v", os)
	}
	use(d, p, 0) // back to what it was
	if main, _ = estimate.MainSection(d.Job().Slabs); main.Depth != before.Depth {
		t.Errorf("the edge is %v, it was %v", main.Depth, before.Depth)
	}
	for range 3 {
		d.Undo()
	}
	if string(d.Job().Encode()) != was {
		t.Error("undo does not bring the job back")
	}
}

func TestOptionThatCannotBeBuilt(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	add(t, p, estimate.Option{Name: "Bar", Bar: 17}) // no such size
	d.Reads("Bar cannot be built", "cannot be built")
	was := string(d.Job().Encode())
	use(d, p, 0)
	if string(d.Job().Encode()) != was || d.Told == "" {
		t.Error("an option that cannot be built becomes the job")
	}
}

func TestFrostDepth(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	add(t, p, estimate.Option{Name: "Deep", Edge: estimate.To(16 * geometry.Inch)})
	d.Fill("Frost depth", "20 ft")
	d.Reads("write a depth of up to")
	d.Fill("Frost depth", `36"`)
	// The lowest top stands 6 in over the ground, and the far end 3 1/2 in higher.
	d.Reads("! not reached", "The edge that reaches frost, 3'-0\" below the ground: 3'-9 1/2\"")
	d.Fill("Frost depth", `2"`)
	d.ReadsNot("! not reached")
	d.Reads("reached")
}

// What varies is typed in words, checked, and takes effect.
func TestOptionsInWords(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	add(t, p, estimate.Option{Name: "Option A"})
	table := hands.On(t, p.table)
	fields := table.Entries()
	for i, v := range variables() {
		field, text, bad := fields[i+1], "", ""
		switch v.row().Label {
		case "Field steel":
			text, bad = " Mesh ", "straw"
		case "Fibers":
			text, bad = "4", "-2"
		case "Strength":
			text, bad = "4500", "much"
		case "Edge bars":
			text, bad = "5", "99"
		default:
			text, bad = `9"`, "40 ft"
		}
		d.Type(field, bad)
		if got := v.row().Text(v.get(p.options()[0]), d.Units()); got != "" {
			t.Errorf("%s: %q is taken as %q", v.row().Label, bad, got)
		}
		table.Reads("! ")
		d.Type(field, text)
		if got := v.row().Text(v.get(p.options()[0]), d.Units()); got != strings.ToLower(strings.TrimSpace(text)) {
			t.Errorf("%s: %q is taken as %q", v.row().Label, text, got)
		}
		d.Type(field, "")
		if got := v.row().Text(v.get(p.options()[0]), d.Units()); got != "" {
			t.Errorf("%s: nothing is taken as %q", v.row().Label, got)
		}
	}
	d.Type(fields[0], "")
	table.Reads("give the option a name")
	d.Type(fields[0], "Renamed")
	d.Reads("Renamed")
	add(t, p, estimate.Option{Name: "Mesh", FieldSteel: estimate.FieldChange{Set: true, To: field.Mesh}, Fiber: estimate.DoseChange{Set: true}})
	d.Reads("mesh", "Mesh", "Limits broken", "To know", "No finding is no approval")
	if steel := p.outcomes[2].Steel; !steel.GreaterThan(p.outcomes[0].Steel) {
		t.Errorf("with mesh %s of steel, without %s", steel, p.outcomes[0].Steel)
	}
}

// Of a job with several slabs, an option changes all, and so does choosing it;
// where no option can say what was drawn, the message says so.
func TestOptionsOfSeveralSlabs(t *testing.T) {
	d, p := opened(t, hands.Twice(t))
	add(t, p, estimate.Option{Name: "Deep", Edge: estimate.To(20 * geometry.Inch)})
	if len(p.outcomes) != 2 || !p.outcomes[1].Ordered.GreaterThan(p.outcomes[0].Ordered) {
		t.Fatalf("%d outcomes", len(p.outcomes))
	}
	use(d, p, 0)
	for _, s := range d.Job().Slabs {
		if s.Sections[0].Depth != 20*geometry.Inch {
			t.Errorf("%s: the edge is %v", s.Name, s.Sections[0].Depth.Text(d.Units()))
		}
	}
	if !strings.Contains(d.Told, "stays as an option") || len(p.options()) != 1 {
		t.Errorf("it says %q of %d options", d.Told, len(p.options()))
	}
	// The deeper section of the door stops at the field: no depth brings it back.
	add(t, p, estimate.Option{Name: "None", Edge: estimate.To(1 * geometry.Inch)})
	use(d, p, 1)
	if !strings.Contains(d.Told, "no option can say") || len(p.options()) != 1 {
		t.Errorf("it says %q of %d options", d.Told, len(p.options()))
	}
}

func TestBlankAndMetric(t *testing.T) {
	d, _ := opened(t, shelf.Blank(geometry.FeetInches))
	d.Reads("Draw an outline first")
	d.Commit("Draw", hands.Demo(t).In(geometry.Millimeters))
	d.ReadsNot("Draw an outline first")
	d.Reads("m³")
}

// A panic while options are compared is said, and the page goes on.
func TestComparisonThatFails(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	p.compare.Run("comparing the options", func(context.Context) error { panic("spoiled") }, func(err error) { p.outcomes, p.failed = nil, err; p.Update() })
	d.Reads("comparing the options failed (spoiled)")
	if p.state.Visible() && p.state.Text != "" {
		t.Errorf("after it failed the page says %q", p.state.Text)
	}
}
