package options

import (
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
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
	p := New(d, document.Scheduler{})
	d.Show(p)
	return d, p
}

func add(t *testing.T, p *Page, os ...estimate.Option) {
	t.Helper()
	if err := p.add(os...); err != nil {
		t.Fatal(err)
	}
}

// base is what the options vary.
func base(d *hands.Desk) estimate.Base {
	j := d.Job()
	return estimate.Base{Slabs: j.Slabs, Spec: j.Spec, Units: j.Units, Price: j.Price, Prices: d.Prices(), Frost: d.Frost()}
}

// use presses the button below an option.
func use(d *hands.Desk, p *Page, i int) { p.form.Act(func() error { return p.choose(i) })() }

func TestComparison(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	d.Press("Add the usual edge depths")
	os := p.options()
	if len(os) == 0 {
		t.Fatal("no usual depths")
	}
	table, chart := hands.On(t, p.table), hands.On(t, p.chart)
	for i, o := range estimate.Compare(base(d)) {
		if o.Err != nil {
			t.Fatalf("%s: %v", o.Name, o.Err)
		}
		table.Reads(o.Ordered.String()+" "+string(o.Volume), money(o, o.Estimate.Bid), money(o, o.Estimate.Cost))
		if i > 0 {
			table.Reads(strings.TrimPrefix(money(o, o.Difference), "-"), o.Name)
		}
		chart.Reads(money(o, o.Estimate.Bid))
	}
	th, err := estimate.Thresholds(base(d))
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
	d.Select("Chart of", "Labor hours")
	chart.Reads("Labor hours")
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
	d, _ := opened(t, hands.Demo(t))
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
	d.Press("Add an option")
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
		case "Edge bars, No.":
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
	d.Reads("mesh", "Mesh", "Findings", "No finding is no approval")
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
	p.compare.Run("comparing the options", func() error { panic("spoiled") }, func(err error) { p.outcomes, p.failed = nil, err; p.Update() })
	d.Reads("comparing the options failed (spoiled)")
	if p.state.Visible() && p.state.Text != "" {
		t.Errorf("after it failed the page says %q", p.state.Text)
	}
}
