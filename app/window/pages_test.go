package window

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// texts gathers what can be read on a page, hidden things left out.
func texts(o fyne.CanvasObject) string {
	var b strings.Builder
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *widget.RichText:
			b.WriteString(o.String() + "\n")
		case *canvas.Text:
			b.WriteString(o.Text + "\n")
		case *entry:
			b.WriteString(o.Text + "\n")
		case *lineRow:
			b.WriteString(o.name + "\n" + o.value + "\n")
		case *container.Scroll:
			walk(o.Content)
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *barChart, *rateChart:
			for _, c := range test.WidgetRenderer(o.(fyne.Widget)).Objects() {
				walk(c)
			}
		}
	}
	walk(o)
	return b.String()
}

func wantText(t *testing.T, o fyne.CanvasObject, wants ...string) {
	t.Helper()
	got := texts(o)
	for _, w := range wants {
		if !strings.Contains(got, w) {
			t.Errorf("the page does not show %q; it shows:\n%s", w, got)
		}
	}
}

// enter types into an entry as a person does: focus, text, Enter.
func (w *Window) enter(t *testing.T, e *entry, s string) {
	t.Helper()
	w.win.Canvas().Focus(e)
	if w.win.Canvas().Focused() != e {
		t.Fatalf("the entry with %q takes no focus", e.Text)
	}
	e.SetText("")
	for _, r := range s {
		e.TypedRune(r)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func (w *Window) estimated(t *testing.T) estimate.Estimate {
	t.Helper()
	to, _ := w.doc.Takeoff()
	j := w.doc.Job()
	prices := estimate.Starting(j.Units)
	return estimate.Of(*to, j.Price, prices)
}

func priceViewOf(w *Window) *pricePage     { return w.pages.list[priceView].view.(*pricePage) }
func optionsViewOf(w *Window) *optionsPage { return w.pages.list[optionsView].view.(*optionsPage) }
func pourViewOf(w *Window) *pourPage       { return w.pages.list[pourView].view.(*pourPage) }
func bookViewOf(w *Window) *bookPage       { return w.pages.list[bookView].view.(*bookPage) }

func TestPagesOpenAndClose(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
		if w.plan.Visible() && w.pages.body.Objects[0] == w.pages.list[planView].root {
			t.Errorf("page %d does not take the plan's place", i)
		}
		key := w.win.Canvas().OnTypedKey()
		if key == nil {
			t.Fatalf("page %d has no keys", i)
		}
		key(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if w.pages.at != planView || w.win.Canvas().Focused() != w.plan {
			t.Errorf("Esc does not lead from page %d to the plan", i)
		}
	}
	// Esc works from a field too, once there is nothing to take back.
	w.pages.turn(priceView)
	e := priceViewOf(w).rows[0].price
	w.win.Canvas().Focus(e.entry)
	e.TypedRune('7')
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.pages.at != priceView || e.Text != e.shown {
		t.Errorf("the first Esc is to take back what was typed; the field has %q", e.Text)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.pages.at != planView {
		t.Error("the second Esc does not lead to the plan")
	}
	// A tool leads back to the plan.
	w.pages.turn(pourView)
	w.use(tools()[1].start())
	if w.pages.at != planView {
		t.Error("a tool of the menu leaves the page open")
	}
}

func TestPriceShowsTheEstimate(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(priceView)
	p := priceViewOf(w)
	e := w.estimated(t)
	if len(p.rows) != len(e.Lines) {
		t.Fatalf("%d rows for %d lines", len(p.rows), len(e.Lines))
	}
	for i, l := range e.Lines {
		r := p.rows[i]
		want := money(e, l.Extended)
		if l.ByOthers {
			want = "by others"
		}
		if r.row.name != l.Name || r.amount.Text != want || !strings.HasPrefix(r.row.value, l.Quantity.Round(2).String()+" ") || !strings.HasSuffix(r.row.value, l.Unit) {
			t.Errorf("row %d shows %q, %q, %q; the estimate has %s, %s %s, %s", i, r.row.name, r.row.value, r.amount.Text, l.Name, l.Quantity, l.Unit, want)
		}
		r.row.Tapped(nil)
		for _, s := range l.Working {
			wantText(t, r.box, s.Text, s.Result)
		}
		r.row.Tapped(nil)
	}
	for _, s := range e.Working {
		wantText(t, p.totals.box, s.Text)
	}
	wantText(t, p.totals.box, money(e, e.Bid)+" *", money(e, e.Cost), money(e, e.Overhead), money(e, e.Profit), money(e, e.Tax))
	wantText(t, p.wants, "invented examples")
}

// What an older file says that others supply and nothing fits is shown, and can be
// removed.
func TestOthersThatFitNothing(t *testing.T) {
	j := demoJob(t)
	known := slices.Clone(j.Price.Others)
	j.Price.Others = append(j.Price.Others, takeoff.ID{Kind: takeoff.Unknown, Name: "sil.plate"})
	w := open(t, Options{Job: j})
	w.pages.turn(priceView)
	p := priceViewOf(w)
	wantText(t, p.wants, "“sil.plate”")
	press(t, p.wants, "Remove what others supply and nothing fits")
	if got := w.doc.Job().Price.Others; !slices.Equal(got, known) {
		t.Errorf("others supply %v, want %v", got, known)
	}
	if said := texts(p.wants); strings.Contains(said, "sil.plate") || strings.Contains(said, "Remove") {
		t.Errorf("removed, it still says\n%s", said)
	}
}

func TestPriceEditsFlowIntoTheJob(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(priceView)
	p := priceViewOf(w)
	before := w.estimated(t)
	row := func(name string) *priceRow {
		for _, r := range p.rows {
			if r.line.Name == name {
				return r
			}
		}
		t.Fatalf("no row %s", name)
		return nil
	}
	w.enter(t, row("Concrete to order").price.entry, "200")
	e := w.estimated(t)
	order := decimal.NewFromFloat(w.figure(t, takeoff.ConcreteOrder))
	if got := row("Concrete to order").amount.Text; got != money(e, order.Mul(decimal.NewFromInt(200))) {
		t.Errorf("the concrete comes to %s", got)
	}
	wantText(t, p.totals.box, money(e, e.Bid))
	if it, _ := w.doc.Job().Price.Prices.Item(takeoff.ID{Kind: takeoff.ConcreteOrder}); !it.Price.Equal(decimal.NewFromInt(200)) || it.Date == "" {
		t.Errorf("the job's list has %+v", it)
	}
	if e.Bid.Equal(before.Bid) {
		t.Error("the bid does not move with the price")
	}

	// What cannot be is said beside the field, and changes nothing.
	r := row("Concrete to order")
	for _, bad := range []string{"cheap", "-3", "1e9", "12345678901234"} {
		w.enter(t, r.price.entry, bad)
		if !r.price.bad || !r.price.note.Visible() {
			t.Errorf("%q brings no error beside the field", bad)
		}
	}
	r.price.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if r.price.note.Visible() || r.price.Text != "200.00" {
		t.Errorf("Esc leaves %q", r.price.Text)
	}

	w.enter(t, row("Set forms").price.entry, "12")
	if got := w.estimated(t); got.Hours.GreaterThanOrEqual(e.Hours) {
		t.Errorf("a faster rate leaves %s hours of %s", got.Hours, e.Hours)
	}
	w.undo()
	w.undo()
	if got := w.estimated(t); !got.Bid.Equal(before.Bid) {
		t.Errorf("after undo the bid is %s, it was %s", got.Bid, before.Bid)
	}
	if row("Concrete to order").price.Text != "168.00" {
		t.Errorf("after undo the field has %s", row("Concrete to order").price.Text)
	}
	w.redo()
	if row("Concrete to order").price.Text != "200.00" {
		t.Errorf("after redo the field has %s", row("Concrete to order").price.Text)
	}
}

func TestPricePercentagesAndExtras(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(priceView)
	p := priceViewOf(w)
	if err := w.changePricing("Profit", func(s *estimate.Spec) { s.ProfitAs = estimate.Margin }); err != nil {
		t.Fatal(err)
	}
	wantText(t, p.totals.box, "Profit, as margin of the price")
	// A margin of all of the price cannot be.
	if err := w.changePricing("Profit", func(s *estimate.Spec) { s.Profit = decimal.NewFromInt(100) }); err == nil {
		t.Error("a margin of 100 % is taken")
	}
	if err := w.changePricing("Extra", func(s *estimate.Spec) {
		s.Extras = append(s.Extras, estimate.Extra{Name: "Permit", Amount: decimal.NewFromInt(75)})
	}); err != nil {
		t.Fatal(err)
	}
	wantText(t, p.root, "Extras of this job", "Permit", "$75.00")
	if err := w.changePrices("Mine", func(l *estimate.PriceList) { l.Invented = false }); err != nil {
		t.Fatal(err)
	}
	wantText(t, p.wants, "Every line has a price of your own.")
	if strings.Contains(p.totals.bid.Text, "*") {
		t.Errorf("the bid is still marked: %s", p.totals.bid.Text)
	}
}

func TestPriceListForNewJobs(t *testing.T) {
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: demoJob(t), Book: book})
	if err := w.changePrices("Wage", func(l *estimate.PriceList) { l.Wage = decimal.NewFromInt(61) }); err != nil {
		t.Fatal(err)
	}
	w.keepPrices()
	w.newJob()
	if got := w.prices().Wage; !got.Equal(decimal.NewFromInt(61)) {
		t.Errorf("a new job has a wage of %s", got)
	}
}

func TestOptionsShowTheComparison(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	p.addUsual()
	os := w.doc.Job().Price.Options
	if len(os) == 0 {
		t.Fatal("no usual depths")
	}
	want := estimate.Compare(p.base())
	for i, o := range want {
		if o.Err != nil {
			t.Fatalf("%s: %v", o.Name, o.Err)
		}
		wantText(t, p.table, o.Ordered.String()+" "+string(o.Volume), money(o.Estimate, o.Bid), money(o.Estimate, o.Cost))
		if i > 0 {
			wantText(t, p.table, strings.TrimPrefix(money(o.Estimate, o.Difference), "-"), o.Name)
		}
		wantText(t, p.chart, money(o.Estimate, o.Bid))
	}
	th, err := estimate.Thresholds(p.base())
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range th {
		if x.Found {
			wantText(t, p.found, x.Text+": "+x.Depth.Text(w.doc.Units()))
		}
	}
	for len(w.doc.Job().Price.Options) < estimate.MaxOptions {
		p.addOne()
	}
	p.addOne()
	if n := len(w.doc.Job().Price.Options); n != estimate.MaxOptions {
		t.Errorf("%d options", n)
	}
	p.remove(0)
	if got := w.doc.Job().Price.Options[0].Name; got != os[1].Name {
		t.Errorf("the first option is %s", got)
	}
}

func TestOptionBecomesTheJob(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	was := string(w.doc.Job().Encode())
	before, _ := estimate.MainSection(w.doc.Job().Slabs)
	foam := 2 * geometry.Inch
	p.add(estimate.Option{Name: "Deep", Edge: estimate.To(16 * geometry.Inch), Foam: estimate.To(foam)}, estimate.Option{Name: "Other", Strength: 4000})
	p.choose(0)
	main, _ := estimate.MainSection(w.doc.Job().Slabs)
	if main.Depth != 16*geometry.Inch || w.doc.Job().Spec.Base.Foam != foam {
		t.Fatalf("the edge is %v, the foam %v", main.Depth, w.doc.Job().Spec.Base.Foam)
	}
	os := w.doc.Job().Price.Options
	if len(os) != 2 || os[1].Name != "Other" || os[0].Edge != estimate.To(before.Depth) {
		t.Fatalf("the options are %+v", os)
	}
	p.choose(0) // back to what it was
	main, _ = estimate.MainSection(w.doc.Job().Slabs)
	if main.Depth != before.Depth {
		t.Errorf("the edge is %v, it was %v", main.Depth, before.Depth)
	}
	for range 3 {
		w.undo()
	}
	if string(w.doc.Job().Encode()) != was {
		t.Error("undo does not bring the job back")
	}
}

func TestOptionThatCannotBeBuilt(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	p.add(estimate.Option{Name: "Bar", Bar: 17}) // no such size
	wantText(t, p.root, "Bar cannot be built")
	was := string(w.doc.Job().Encode())
	p.choose(0)
	if string(w.doc.Job().Encode()) != was || w.machine.Notice == "" {
		t.Error("an option that cannot be built becomes the job")
	}
}

func TestFrostDepth(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	if err := p.setFrost("20 ft"); err == nil {
		t.Error("a frost depth of 20 ft is taken")
	}
	if err := p.setFrost("36\""); err != nil {
		t.Fatal(err)
	}
	// The lowest top stands 6 in over the ground, and the far end 3 1/2 in higher.
	wantText(t, p.root, "! not reached", "The edge that reaches frost, 3'-0\" below the ground: 3'-9 1/2\"")
	if err := p.setFrost("6\""); err != nil {
		t.Fatal(err)
	}
	wantText(t, p.table, "reached")
}

func TestPourShowsTheDay(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(pourView)
	p := pourViewOf(w)
	j := w.doc.Job()
	to, _ := w.doc.Takeoff()
	d, err := pour.Of(pour.From(j.Spec, *to, j.Pour))
	if err != nil {
		t.Fatal(err)
	}
	order := strings.TrimSpace(d.OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units))
	if p.order.Text != order {
		t.Errorf("the order reads\n%s\nwant\n%s", p.order.Text, order)
	}
	for i, b := range d.Bays {
		wantText(t, p.bays, fmt.Sprintf("%.2f %s", d.Times[i].Volume, d.Unit), fmt.Sprintf("%.1f", d.Times[i].Used), b.Edge.Round(geometry.Inch).Text(j.Units))
	}
	for _, s := range d.Lanes {
		wantText(t, p.bays, strings.TrimPrefix(d.LaneText(s.Number), "at"))
	}
	for _, f := range d.Findings {
		wantText(t, p.findings, f.Text, f.Source)
	}
	for _, s := range d.Cure {
		wantText(t, p.cure, s.Name, s.From)
	}
	for _, h := range d.Hours {
		wantText(t, p.weather.box, h.Rate.Text(j.Units), h.Trowel.Text())
	}
	for _, c := range pour.Cautions() {
		wantText(t, p.root, c.Text)
	}
}

func TestPourEdits(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(pourView)
	p := pourViewOf(w)
	bays := len(p.day.Bays)
	if err := w.changePour("Bay", func(s *pour.Spec) { s.Reach.Bay = 5 * geometry.Foot }); err != nil {
		t.Fatal(err)
	}
	if len(p.day.Bays) <= bays {
		t.Errorf("shorter bays leave %d of %d", len(p.day.Bays), bays)
	}
	w.undo()
	if len(p.day.Bays) != bays {
		t.Errorf("after undo there are %d bays, there were %d", len(p.day.Bays), bays)
	}
	if err := w.changePour("People", func(s *pour.Spec) { s.Crew.People = 0 }); err == nil {
		t.Error("a crew of nobody is taken")
	}
	places := len(w.doc.Job().Pour.Stations)
	p.picture.armed = true
	p.picture.Resize(fyne.NewSize(600, 400))
	e := &fyne.PointEvent{}
	e.Position = fyne.NewPos(300, 20)
	p.picture.Tapped(e)
	if len(w.doc.Job().Pour.Stations) != places+1 {
		t.Error("a click on the picture places no truck")
	}
	hours := len(w.doc.Job().Pour.Weather)
	p.weather.addHour()
	got := w.doc.Job().Pour.Weather
	if len(got) != hours+1 || got[hours].Time <= got[hours-1].Time {
		t.Errorf("the weather is %+v", got)
	}
	p.weather.chart.Resize(fyne.NewSize(500, 200))
	wantText(t, p.weather.chart, got[hours].Time.String(), "limit")
	walk(p.shown, func(o fyne.CanvasObject) {
		if b, ok := o.(*pageButton); ok && b.Text == "Copy the order" {
			test.Tap(b)
		}
	})
	if got := w.app.Clipboard().Content(); got != p.order.Text || !strings.Contains(got, "Concrete:") {
		t.Errorf("the clipboard has %q", got)
	}
}

func TestPagesInMillimeters(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.switchUnits()
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
	}
	wantText(t, priceViewOf(w).root, "m³")
	wantText(t, pourViewOf(w).root, "m³", "kg/m²/h")
	foreign := regexp.MustCompile(`°F|mph|yd³|lb/|\d'|\d"`)
	for _, line := range strings.Split(texts(pourViewOf(w).root), "\n") {
		if foreign.MatchString(line) && !strings.HasPrefix(line, "⚠") { // cautions name both
			t.Errorf("in a metric job the pour shows %q", line)
		}
	}
	wantText(t, optionsViewOf(w).root, "m³")
}

func TestBlankSheet(t *testing.T) {
	w := open(t, Options{Job: Blank(geometry.FeetInches)})
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
	}
	wantText(t, priceViewOf(w).root, "Draw an outline first")
	wantText(t, optionsViewOf(w).root, "Draw an outline first")
	wantText(t, pourViewOf(w).root, "Draw an outline first")
}

func TestBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.book")
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: demoJob(t), Book: book})
	first := w.id
	w.pages.turn(bookView)
	p := bookViewOf(w)
	if len(p.listed) != 1 || p.chosen != first {
		t.Fatalf("%d jobs are listed, %v is chosen", len(p.listed), p.chosen)
	}
	second, err := w.book.Copy(first)
	if err != nil {
		t.Fatal(err)
	}
	p.show()
	p.search.SetText("copy")
	if len(p.listed) != 1 || p.listed[0].ID != second {
		t.Errorf("the search finds %+v", p.listed)
	}
	p.search.SetText("")
	p.order = storage.ByNumber
	p.filter()
	if len(p.listed) != 2 || p.listed[0].ID != first {
		t.Errorf("by number: %+v", p.listed)
	}
	if err := w.book.Archive(second, true); err != nil {
		t.Fatal(err)
	}
	p.show()
	if len(p.listed) != 1 {
		t.Errorf("%d jobs are listed with one archived", len(p.listed))
	}

	// Two revisions, and what changed between them in words, quantity and price.
	if _, err := w.book.Revise(first, "before"); err != nil {
		t.Fatal(err)
	}
	j := w.doc.Job()
	j.Slabs[0].Field += geometry.Inch
	w.doc.Commit("Thicker", j)
	p.turn(1)
	wantText(t, p.body, "field", "6\"", "7\"", "Bid", "Concrete to order")

	// After the pour.
	p.turn(2)
	if err := w.book.SetRecord(first, actual.Record{Ordered: decimal.NewFromInt(25), Delivered: decimal.NewFromInt(25), Left: decimal.NewFromInt(1)}); err != nil {
		t.Fatal(err)
	}
	p.turn(2)
	wantText(t, p.body, "Estimate against actual", "Concrete delivered", "Waste")
	p.turn(3)
	wantText(t, p.body, "Waste, %")

	// A backup put in place of the book.
	backup, err := w.book.Backup("test")
	if err != nil {
		t.Fatal(err)
	}
	j = w.doc.Job()
	j.Name = "Changed since"
	w.doc.Commit("Name", j)
	p.turn(6)
	wantText(t, p.body, path, "test")
	p.restore(backup)
	if got := w.doc.Job().Name; got == "Changed since" {
		t.Error("the backup is not back")
	}
	j = w.doc.Job()
	j.Name = "On"
	w.doc.Commit("Name", j)
	if got, err := w.book.Get(w.id); err != nil || got.Name != "On" {
		t.Errorf("work after restoring is not saved: %q, %v", got.Name, err)
	}
}

func TestBidKeepsItsPrices(t *testing.T) {
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: demoJob(t), Book: book})
	w.pages.turn(bookView)
	p := bookViewOf(w)
	if err := p.setState(w.id, storage.Bid); err != nil {
		t.Fatal(err)
	}
	bid := w.estimated(t).Bid
	list := estimate.Starting(geometry.FeetInches)
	list.Wage = decimal.NewFromInt(90)
	if err := book.SetPrices(list); err != nil {
		t.Fatal(err)
	}
	w.kept = nil
	to, _ := w.doc.Takeoff()
	j := w.doc.Job()
	if got := estimate.Of(*to, j.Price, w.prices()).Bid; !got.Equal(bid) {
		t.Errorf("the bid was %s, it is %s with a new list", bid, got)
	}
}

// No page needs more room than a small window has.
func TestPagesFitASmallWindow(t *testing.T) {
	exhaustive(t)
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: demoJob(t), Book: book})
	w.pages.turn(optionsView)
	for range estimate.MaxOptions {
		optionsViewOf(w).addOne()
	}
	for i, f := range w.pages.list {
		w.pages.turn(i)
		if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 640 {
			t.Errorf("%s needs %v", f.name, m)
		}
	}
	for i := range bookViewOf(w).parts {
		bookViewOf(w).turn(i)
		if m := w.win.Content().MinSize(); m.Width > 1024 {
			t.Errorf("%s needs %v", bookViewOf(w).parts[i].name, m)
		}
	}
}
