package price

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/xuri/excelize/v2"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
)

// opened is the page of a job, at a desk.
func opened(t *testing.T, j job.Job) (*hands.Desk, *Page) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d)
	d.Show(p)
	return d, p
}

func estimated(d *hands.Desk) estimate.Estimate {
	to, _ := d.Takeoff()
	j := d.Job()
	return estimate.Of(*to, j.Pricing(), d.Prices())
}

// price gives the field of the price of a line.
func (p *Page) price(t *testing.T, name string) *form.Entry {
	t.Helper()
	for _, r := range p.rows {
		if r.line.Name == name {
			return hands.On(t, r.box).Entries()[0]
		}
	}
	t.Fatalf("no row %s", name)
	return nil
}

func TestEveryLineOfTheEstimate(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	e := estimated(d)
	if len(p.rows) != len(e.Lines) {
		t.Fatalf("%d rows for %d lines", len(p.rows), len(e.Lines))
	}
	for i, l := range e.Lines {
		r := hands.On(t, p.rows[i].box)
		want := money(e, l.Extended)
		if l.ByOthers {
			want = "by others"
		}
		r.Reads(l.Name+"\n"+l.Quantity.Round(2).String()+" ", l.Unit, want)
		r.Open(l.Name)
		for _, s := range l.Working {
			r.Reads(s.Text, s.Result)
		}
		r.Open(l.Name)
	}
	for _, s := range e.Working {
		d.Reads(s.Text)
	}
	d.Reads(money(e, e.Bid)+" *", money(e, e.Cost), money(e, e.Overhead), money(e, e.Profit), money(e, e.Tax), "invented examples")
}

func TestPricesFlowIntoTheJob(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	before := estimated(d)
	d.Type(p.price(t, "Concrete to order"), "200")
	e := estimated(d)
	to, _ := d.Takeoff()
	order, _ := to.Line(takeoff.ConcreteOrder)
	d.Reads(money(e, decimal.NewFromFloat(order.Value).Mul(decimal.NewFromInt(200))), money(e, e.Bid))
	if it, _ := d.Job().Price.Prices.Item(takeoff.ID{Kind: takeoff.ConcreteOrder}); !it.Price.To.Equal(decimal.NewFromInt(200)) || it.Date != d.Today() {
		t.Errorf("the job's list has %+v", it)
	}
	if e.Bid.Equal(before.Bid) {
		t.Error("the bid does not move with the price")
	}

	// What cannot be is said below the row, and changes nothing.
	field := p.price(t, "Concrete to order")
	for _, bad := range []string{"cheap", "-3", "1e9", "12345678901234"} {
		d.Type(field, bad)
		d.Reads("! ")
		if got := estimated(d); !got.Bid.Equal(e.Bid) {
			t.Errorf("%q changes the bid", bad)
		}
	}
	d.Key(field, "Escape")
	if field.Text != "200.00" {
		t.Errorf("Esc leaves %q", field.Text)
	}

	d.Type(p.price(t, "Set forms"), "12")
	if got := estimated(d); got.Hours.GreaterThanOrEqual(e.Hours) {
		t.Errorf("a faster rate leaves %s hours of %s", got.Hours, e.Hours)
	}
	d.Undo()
	d.Undo()
	if got := estimated(d); !got.Bid.Equal(before.Bid) {
		t.Errorf("after undo the bid is %s, it was %s", got.Bid, before.Bid)
	}
	if got := p.price(t, "Concrete to order").Text; got != "168.00" {
		t.Errorf("after undo the field has %s", got)
	}
	d.Redo()
	if got := p.price(t, "Concrete to order").Text; got != "200.00" {
		t.Errorf("after redo the field has %s", got)
	}
}

// What an older file says that others supply and nothing fits is shown, and can be
// removed.
func TestOthersThatFitNothing(t *testing.T) {
	j := hands.Demo(t)
	known := slices.Clone(j.Price.Others)
	j.Price.Others = append(j.Price.Others, takeoff.ID{Kind: takeoff.Unknown, Name: "sil.plate"})
	d, _ := opened(t, j)
	d.Reads("“sil.plate”")
	d.Press("Remove what others supply and nothing fits")
	if got := d.Job().Price.Others; !slices.Equal(got, known) {
		t.Errorf("others supply %v, want %v", got, known)
	}
	d.ReadsNot("sil.plate", "Remove what others supply")
}

// Each part of the form beside the lines reads and writes.
func TestFormOfTheBid(t *testing.T) {
	d, _ := opened(t, hands.Demo(t))
	price := func() estimate.Spec { return d.Job().Price }
	for _, c := range []struct {
		label, text string
		got         func() string
	}{
		{"Overhead", "12", func() string { return price().Overhead.String() }},
		{"Profit", "9", func() string { return price().Profit.String() }},
		{"Sales tax", "5", func() string { return price().Tax.String() }},
		{"Mobilization", "250", func() string { return price().Mobilization.String() }},
		{"Wage per hour", "61.5", func() string { return d.Prices().Wage.String() }},
		{"Also included", "Cleaning up; Curing", func() string { return strings.Join(price().Terms.Included, "; ") }},
		{"Not included", "Electric", func() string { return strings.Join(price().Terms.Excluded, "; ") }},
		{"Payment terms", "Half before", func() string { return price().Terms.Payment }},
		{"Start of work", "March", func() string { return price().Terms.Start }},
		{"Finished by", "May", func() string { return price().Terms.Finish }},
		{"Currency", "€", func() string { return d.Prices().Currency }},
		{"Date", "2026-02-01", func() string { return d.Prices().Date }},
	} {
		d.Fill(c.label, c.text)
		if got := c.got(); got != c.text {
			t.Errorf("%s: the job has %q, want %q; it says %q", c.label, got, c.text, d.Told)
		}
	}
	d.Fill("Currency", "12")
	d.Reads("write a sign such as $")
	d.Select("Profit as", "margin, % of price")
	d.Reads("Profit, as margin of the price")
	d.Fill("Profit", "100") // a margin of all of the price cannot be
	if !price().Profit.Equal(decimal.NewFromInt(9)) {
		t.Errorf("a margin of %s %% is taken", price().Profit)
	}
	d.Press("Price with the starting list")
	if !d.Prices().Wage.Equal(estimate.Starting(d.Units()).Wage) {
		t.Errorf("the wage is %s", d.Prices().Wage)
	}
	d.Press("Use this list for new jobs")
	if d.Last() != "keep prices" {
		t.Errorf("asked %v", d.Asked)
	}
	d.Press("Price with the list for new jobs")
	if len(price().Prices.Items) != 0 {
		t.Error("the job keeps a list of its own")
	}
}

func TestOnesOwnPrices(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	d.Tick("These prices are my own", 0)
	d.Reads("Are these yours?", "[ ] These prices are my own", "$168.00 per yd³", "9 ft an hour", "$54.00")
	if !d.Prices().Invented {
		t.Fatal("prices that nobody confirmed are one's own")
	}
	d.Press("Not yet")
	d.ReadsNot("Are these yours?")
	d.Tick("These prices are my own", 0)
	d.Press("They are right: these prices are my own")
	d.ReadsNot("Are these yours?")
	d.Reads("Every line has a price of your own.", "My prices", "[x] These prices are my own")
	if l := p.estimate.Unconfirmed(p.startingList()); slices.ContainsFunc(l, func(l estimate.Line) bool { return l.Kind == estimate.Material }) {
		t.Errorf("not confirmed: %+v", l)
	}
	if strings.Contains(p.totals.bid.Text, "*") {
		t.Errorf("the bid is still marked: %s", p.totals.bid.Text)
	}
}

// A supplier's list is looked at before it is taken, and what it has need not be
// confirmed.
func TestSuppliersList(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	list := "Item,Unit,Price\nConcrete to order,CY,171.50\nBar No. 4,ft,0.83\nGloves,pair,4\n"
	was := d.Prices().Encode()
	if err := p.LookAt("spring.csv", []byte(list)); err != nil {
		t.Fatal(err)
	}
	d.Reads("spring.csv", "2 prices found, of which 1 change. 1 row not taken.", "Concrete to order", "$168.00", "$171.50", "+2.1 %", "Row 4, Gloves: nothing on the price list is called so.")
	if string(d.Prices().Encode()) != string(was) {
		t.Error("prices were taken unasked")
	}
	d.Press("Leave the prices as they are")
	d.ReadsNot("spring.csv")
	if err := p.LookAt("spring.csv", []byte(list)); err != nil {
		t.Fatal(err)
	}
	d.Press("Take these prices")
	d.ReadsNot("spring.csv")
	d.Reads("Are these yours?", "Import prices…\nThese prices are my own\n") // what is left to confirm
	it, _ := d.Prices().Item(takeoff.ID{Kind: takeoff.ConcreteOrder})
	if it.Price.String() != "171.50" || it.Date != d.Today() {
		t.Errorf("concrete: %+v", it)
	}
	if label, _ := d.CanUndo(); label != "Take the prices of spring.csv" {
		t.Errorf("undo takes back %q", label)
	}
	for _, l := range p.estimate.Unconfirmed(p.startingList()) {
		if l.Kind == estimate.Material && l.ID.Kind == takeoff.ConcreteOrder || l.ID.Kind == takeoff.BarStock && l.ID.Bar == 4 {
			t.Errorf("%s is to be confirmed", l.Name)
		}
	}
	for name, data := range map[string]string{"a.csv": "what,how\n", "a.pdf": ""} {
		if err := p.LookAt(name, []byte(data)); err == nil {
			t.Errorf("%s is looked at", name)
		}
	}
}

// Requests that came back are set side by side and looked at before they are taken, by
// the same button as a supplier's list; the newest of a supplier counts.
func TestQuotes(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	h, _ := d.Handover()
	var yard estimate.Request
	for _, r := range p.estimate.Requests() {
		if r.Supplier == "Sample yard" {
			yard = r
		}
	}
	back := func(supplier, price string) []byte {
		t.Helper()
		var b bytes.Buffer
		if err := workbook.WriteRequest(&b, h, yard, workbook.Options{}); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(&b)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := f.GetRows("Request")
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range rows {
			at := fmt.Sprint("D", i+1)
			switch {
			case r == nil:
			case r[0] == "Supplier":
				err = f.SetCellValue("Request", at, supplier)
			case r[0] == "Quote number":
				err = f.SetCellValue("Request", at, "Q-"+price)
			case r[0] == yard.Lines[0].Name && price != "":
				err = f.SetCellValue("Request", at, price)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	was := d.Prices().Encode()
	for i, q := range [][2]string{{"Yard A", "9.99"}, {"Yard B", "7.25"}, {"Yard A", "8.50"}} {
		if err := p.LookAt(fmt.Sprintf("%d.xlsx", i), back(q[0], q[1])); err != nil {
			t.Fatal(err)
		}
	}
	d.Reads("Yard B, quote Q-7.25", "Yard A, quote Q-8.50", "$8.50", "least: Yard B", yard.Lines[0].Name, "Compare with another quote…")
	d.ReadsNot("$9.99", "least: Yard A")
	if string(d.Prices().Encode()) != string(was) {
		t.Error("prices were taken unasked")
	}
	if err := p.LookAt("bad.xlsx", back("Yard C", "soon")); err == nil || !strings.Contains(err.Error(), "soon") {
		t.Errorf("a price in words: %v", err)
	}
	if err := p.LookAt("empty.xlsx", back("Yard C", "")); err == nil {
		t.Error("a request without a price is looked at")
	}
	d.Press("Take the least prices")
	if it, _ := d.Prices().Item(yard.Lines[0].ID); it.Price.String() != "7.25" || it.Supplier != "Yard B" || it.Quote != "Q-7.25" || len(p.quotes) > 0 {
		t.Errorf("%s: %+v", yard.Lines[0].Name, it)
	}
}

func TestExtras(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	extras := func() []estimate.Extra { return d.Job().Price.Extras }
	d.Press("Add an extra")
	d.Press("Add an extra")
	if len(extras()) != 2 {
		t.Fatalf("extras %+v", extras())
	}
	in := hands.On(t, p.form.Box).Entries()
	for i, e := range in {
		if e.Text == "Extra 1" {
			d.Type(e, "Permit")
			d.Type(in[i+1], "75")
		}
		if e.Text == "Extra 2" {
			d.Type(e, "Permit")
			d.Type(in[i+1], "75")
		}
	}
	d.Reads("Extras of this job", "Permit", "$75.00")
	d.Tick("Taxed as material", 0)
	if x := extras(); !x[0].Material || x[0].Amount.StringFixed(2) != "75.00" || x[1].Name != "Permit" {
		t.Errorf("extras %+v", x)
	}
	// Two of one name are told apart when their amounts are typed in their lines.
	for _, r := range p.rows {
		if r.line.Extra == 2 {
			d.Type(hands.On(t, r.box).Entries()[0], "12.50")
		}
	}
	if x := extras(); x[0].Amount.StringFixed(2) != "75.00" || x[1].Amount.StringFixed(2) != "12.50" {
		t.Errorf("the extras are %s and %s", x[0].Amount, x[1].Amount)
	}
	d.Press("Remove")
	if len(extras()) != 1 {
		t.Errorf("extras %+v", extras())
	}
}

// What a line opens: the rest of its item, and who supplies it.
func TestWhatALineOpens(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	name := "Concrete to order"
	item := func() estimate.Item { it, _ := d.Prices().Item(takeoff.ID{Kind: takeoff.ConcreteOrder}); return it }
	row := func() (estimate.Line, hands.Hands) {
		i := slices.IndexFunc(p.rows, func(r *row) bool { return r.line.Name == name })
		return p.rows[i].line, hands.On(t, p.rows[i].box)
	}
	of, h := row()
	h.Open(name)
	h.Fill("Supplier", "Pit & Sons")
	h.Fill("Sold by", "truck")
	_, h = row() // made anew, and open as it was
	h.Fill("How many "+string(of.Of)+" in it", "2")
	h.Fill("Jobs that one serves", "3")
	if it := item(); it.Supplier != "Pit & Sons" || it.Unit != "truck" || !it.Pack.Equal(decimal.NewFromInt(2)) || it.Uses != 3 {
		t.Errorf("the item is %+v", it)
	}
	h.Fill("How many "+string(of.Of)+" in it", "0")
	if it := item(); !it.Pack.Equal(decimal.NewFromInt(2)) {
		t.Errorf("none is in it: %+v", it)
	}
	d.Reads("truck, 3 uses")
	before := len(d.Job().Price.Others)
	d.Tick("Others supply it: listed, not charged", 0)
	if o := d.Job().Price.Others; len(o) != before+1 {
		t.Errorf("others supply %v", o)
	}
	h.Reads("by others")
	d.Tick("Others supply it: listed, not charged", 0)
	h.ReadsNot("by others")
}

// What a rule gives can be the job's own figure; where that is none, its row is gone and
// it can be taken by the rule again.
func TestOwnFigureOnThePage(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	const name = "Tie wire"
	row := func() *row {
		if i := slices.IndexFunc(p.rows, func(r *row) bool { return r.line.Name == name }); i >= 0 {
			return p.rows[i]
		}
		return nil
	}
	rule := row().line.Need
	hands.On(t, row().box).Open(name)
	hands.On(t, row().box).Fill("Own figure of this job, lb", "8")
	if need := row().line.Need; need.String() != "8" {
		t.Errorf("the job takes %s", need)
	}
	hands.On(t, row().box).Fill("Own figure of this job, lb", "0")
	if row() != nil {
		t.Error("none is taken, and it has a row")
	}
	d.Press("Take " + name + " by the rule again")
	if row() == nil || !row().line.Need.Equal(rule) || len(d.Job().Price.Figures) != 0 {
		t.Errorf("own figures %v", d.Job().Price.Figures)
	}
}

// All of the price list can be read and changed, whatever the job takes.
func TestWholePriceList(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	p.whole.head.Tapped(nil)
	list := d.Prices()
	l := hands.On(t, p.whole.head.Box)
	for _, it := range list.Items {
		l.Reads(it.Name + "\n" + it.Price.String())
	}
	for _, x := range list.Tasks {
		l.Reads(x.Name)
	}
	for _, x := range list.Fees {
		l.Reads(x.Name + "\n" + x.Amount.String())
	}
	// The demo's last truck is full enough: nothing but the list shows the fee.
	l.Open("Short load")
	l.Fill("Least load without a fee", "35")
	l.Reads("42.00 for each short of 35")
	found := false
	for _, line := range estimated(d).Lines {
		found = found || line.Name == "Short load"
	}
	if !found {
		t.Error("a least load of 35 brings no fee about")
	}
	l.Select("For each", onceAJob)
	l.Reads("42.00 a job")
	l.Fill("Least load without a fee", "30")
	l.Reads("only a fee for")
	p.whole.head.Tapped(nil)
	if p.whole.head.Below.Visible() {
		t.Error("the list does not close")
	}
}

// A task is added, driven by a quantity, priced, and removed; so is a fee.
func TestTaskOfThePriceList(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	p.whole.head.Tapped(nil)
	l := hands.On(t, p.whole.head.Box)
	n := len(d.Prices().Tasks)
	l.Press("Add a task")
	if len(d.Prices().Tasks) != n+1 {
		t.Fatalf("%d tasks", len(d.Prices().Tasks))
	}
	l.Reads("Task 1\n1 h a job", "Done in a labor hour")
	to, _ := d.Takeoff()
	trucks, _ := to.Line(takeoff.ConcreteTrucks)
	l.Select("Hours by", quantityName(trucks))
	l.Reads("Task 1\n1 ea an hour + 1 h a job")
	if got := d.Prices().Tasks[n]; got.What.Kind != takeoff.ConcreteTrucks || got.Of != trucks.Unit {
		t.Errorf("the task is %+v", got)
	}
	l.Press("Remove from the list")
	if len(d.Prices().Tasks) != n {
		t.Errorf("%d tasks after removing one", len(d.Prices().Tasks))
	}
	d.Undo()
	if len(d.Prices().Tasks) != n+1 {
		t.Error("undo does not bring the task back")
	}
	l.Press("Add a fee")
	l.Reads("Fee 1\nno price")
	l.Select("For each", quantityName(trucks))
	l.Fill("Amount", "12.5")
	l.Reads("Fee 1\n12.50 each")
	if got := p.whole.drivenBy(takeoff.ID{Kind: takeoff.Unknown, Name: "none.such"}); got != "none.such" {
		t.Errorf("an unknown quantity is called %q", got)
	}
}

// The terms that many a bid does without are opened.
func TestMoreForTheBid(t *testing.T) {
	d, _ := opened(t, hands.Demo(t))
	d.ReadsNot("Payment steps")
	d.Open("More for the bid")
	d.Fill("Payment steps", "10 on signing; 90.5 % when it is done")
	d.Reads("must add up to 100")
	d.Fill("Payment steps", "10 on signing; 90 % when it is done")
	d.Fill("Markup of labor", "7.5")
	d.Fill("Bid rounded up to", "25")
	d.Fill("Paid by parts of a crew's day", "0.5")
	if s := d.Job().Price; s.MarkupLabor.String() != "7.5" || s.Round.String() != "25" || d.Prices().CrewDay.String() != "0.5" {
		t.Errorf("markup %s, round %s, days %s", s.MarkupLabor, s.Round, d.Prices().CrewDay)
	}
	d.Fill("Extra concrete", "310")
	d.Fill("Extra depth", "4.5")
	d.Fill("Notices", "Ask the county.")
	d.Select("Sales tax on the bid", "a line of its own")
	d.Tick("Offer the options as alternates", 0)
	tm := d.Job().Price.Terms
	got := fmt.Sprintf("%v %v %v %v %v %v", tm.Steps, tm.ExtraConcrete, tm.ExtraDepth, tm.Notices, tm.TaxShown, tm.Alternates)
	if want := "[{on signing 10} {when it is done 90}] 310.00 4.50 Ask the county. shown true"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	d.Reads("10 on signing; 90 when it is done")
	d.Fill("Extra depth", "")
	if d.Job().Price.Terms.ExtraDepth.Set {
		t.Error("an emptied price is there")
	}
}

// The page gives the reasons why the bid is a draft as the bid does; what may be
// meant is confirmed where it is said, and nowhere else.
func TestReasonsOfADraft(t *testing.T) {
	d, _ := opened(t, hands.Demo(t))
	d.Reads("! The prices and rates are invented examples")
	d.ReadsNot("Confirmed")
	if err := d.ChangePrices("Own", func(p *estimate.PriceList) {
		p.Invented, p.Wage, p.Items[0].Price = false, decimal.Zero, estimate.Amount{}
	}); err != nil {
		t.Fatal(err)
	}
	d.Reads("! No price: Concrete to order. Add it to the price list.")
	d.Reads("! The wage is $0.00 an hour: write what an hour costs you.")
	d.Undo()
	if err := d.ChangePrices("Own", func(p *estimate.PriceList) { p.Invented = false }); err != nil {
		t.Fatal(err)
	}
	d.Reads("Every line has a price of your own.")
	if err := d.ChangePricing("Give", func(s *estimate.Spec) {
		s.Extras = []estimate.Extra{{Name: "Friend", Amount: decimal.NewFromInt(-6000)}}
	}); err != nil {
		t.Fatal(err)
	}
	d.Reads("is below the cost of")
	d.Fill("Confirmed", "My brother's garage")
	d.ReadsNot("is below the cost of")
	if got := d.Job().Price.Confirmed; got != "My brother's garage" {
		t.Errorf("confirmed by %q", got)
	}
}

func TestBlankAndFaultyJobs(t *testing.T) {
	d, _ := opened(t, shelf.Blank(geometry.FeetInches))
	d.Reads("Draw an outline first")
	j := hands.Demo(t)
	d.Commit("Draw", j)
	d.ReadsNot("Draw an outline first")
	j.Slabs = append(j.Slabs[:0:0], j.Slabs...)
	j.Slabs[0] = j.Slabs[0].Clone()
	j.Slabs[0].Field = -geometry.Foot
	d.Commit("Spoil", j)
	d.Reads("As of the last sound plan")
	metric := hands.Demo(t).In(geometry.Millimeters)
	d.Commit("Metric", metric)
	d.Reads("m³")
}

// A price that is likely a slip of the hand is asked about below its row, and taken.
func TestDoubtfulPrices(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	d.ReadsNot("starting list, which is invented, has", "more than ten times")
	d.Type(p.price(t, "Concrete to order"), "$16,800")
	d.Reads("16800.00? That is more than ten times the 168.00 of the starting list")
	if it, _ := d.Prices().Item(takeoff.ID{Kind: takeoff.ConcreteOrder}); !it.Price.To.Equal(decimal.NewFromInt(16800)) {
		t.Errorf("the price is %s", it.Price)
	}
	d.Type(p.price(t, "Concrete to order"), "175")
	d.ReadsNot("more than ten times")
	d.Fill("Wage per hour", "0")
	d.Reads("Nothing? The starting list, which is invented, has 54.00.")
	d.Fill("Wage per hour", "61.50")
	d.ReadsNot("Nothing?")
}
