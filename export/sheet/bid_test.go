package sheet

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// bidText gives a job's bid as another program reads it, after the checks that
// every bid must pass.
func bidText(t *testing.T, name string, j job.Job, prices estimate.PriceList) (string, estimate.Estimate) {
	t.Helper()
	h := handover.Of(handover.From{Job: j, Prices: prices})
	e, err := h.Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	o := Options{Date: fixedDate, Company: Company{Name: "Example Concrete", Lines: []string{"1 Sample Lane", "555 0100"}}}
	p, err := BidPages(t.Context(), h, o)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range overlaps(p[0]) {
		t.Errorf("%s: %s", name, s)
	}
	var b bytes.Buffer
	if err := WriteBid(t.Context(), &b, h, o); err != nil {
		t.Fatal(err)
	}
	show(t, "bid-"+name+".pdf", b.Bytes())
	text := tool(t, b.Bytes(), "pdftotext", "-layout", "FILE", "-")
	if strings.Count(text, "\f") != 1 {
		t.Errorf("%s: the bid takes more than one page", name)
	}
	return text, e
}

// says tells whether a text, read line by line with its columns apart, holds
// words in a row.
func says(text, words string) bool {
	return strings.Contains(strings.Join(strings.Fields(text), " "), words)
}

func TestBid(t *testing.T) {
	j := demoJob(t)
	text, e := bidText(t, "demo", j, estimate.Starting(j.Units))
	for _, want := range []string{"Example Concrete", "Sample customer", "Included", "Not included", "3500 psi", "28'-0\"", estimate.Money("$", e.Bid),
		"This bid is good until", "Payment terms", "Start of work", "DRAFT. Not an offer, since: • The prices and rates are invented examples", "Sill plates (by others)", "Permits, engineering and inspections", "overhead door 12'-0\", walk door 3'-2 1/2\""} {
		if !says(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

// A bid with prices of one's own is an offer.
func TestBidOfOwnPricesIsNoDraft(t *testing.T) {
	j := demoJob(t)
	own := estimate.Starting(j.Units)
	own.Invented = false
	if text, e := bidText(t, "own", j, own); strings.Contains(text, "DRAFT") || !says(text, "Accepted by the customer") {
		t.Errorf("a draft: %v", e.Draft(fixedDate))
	}
}

func TestBidTerms(t *testing.T) {
	j := demoJob(t)
	j.Price.Terms = estimate.Terms{
		Included: []string{"Hauling off the spoil"}, Excluded: []string{"Tearing out the old floor"},
		Days: 30, Payment: "half on the day of the pour, half on completion", Start: "May 4", Finish: "May 15",
	}
	text, _ := bidText(t, "terms", j, estimate.Starting(j.Units))
	for _, want := range []string{"Hauling off the spoil", "Tearing out the old floor", "This bid is good for 30 days from its date", "half on the day of the pour", "Start of work May 4", "Finished by May 15"} {
		if !says(text, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(text, "Permits") {
		t.Error("the usual exclusions stand beside the job's own")
	}
}

// Curbs 6 in over a garage of 24 by 20 ft that falls 3 in to its door, of 9 ft, are one line of its
// bid with level tops: 6 in high at the back, 9 in at the door, 88 - 9 ft long.
func TestBidOfLevelCurbs(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	j := demoJob(t)
	p := plan.Plan{Field: 5 * in}
	for _, q := range [][2]geometry.Length{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * ft, Y: q[1] * ft}, Curb: 6 * in})
	}
	p.Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 9 * ft}}
	p.Top = plan.Top{Curbs: plan.CurbsLevel, Falls: []plan.Fall{{From: geometry.Point{X: 12 * ft, Y: 20 * ft}, To: geometry.Point{X: 12 * ft}, Drop: 3 * in}}}
	j.Slabs = []plan.Plan{p}
	text, _ := bidText(t, "level curbs", j, estimate.Starting(j.Units))
	if want := "With: curb level, 6\" to 9\" high, 6\" wide, 79'-0\" long; a top that falls."; !says(text, want) {
		t.Errorf("no %q in %s", want, text)
	}
}

// Concrete that others supply is not promised.
func TestScopeOfOthersConcrete(t *testing.T) {
	j := demoJob(t)
	for others, want := range map[bool]string{false: "Ready-mixed concrete to ASTM C94/C94M", true: "Concrete that others supply, to ASTM C94/C94M"} {
		if j.Price.Others = nil; others {
			j.Price.Others = []takeoff.ID{{Kind: takeoff.ConcreteOrder}}
		}
		if text, _ := bidText(t, "concrete", j, estimate.Starting(j.Units)); !says(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}

// The longest bid there can be still goes on one page.
func TestLongBid(t *testing.T) {
	var j job.Job
	for _, c := range corpus() {
		if c.name == "three slabs" {
			j = c.job
		}
	}
	for i := range 9 {
		p := j.Slabs[1].Clone()
		p.Name = fmt.Sprintf("A slab with a name, no. %d", i)
		for k := range p.Outline {
			p.Outline[k].At.X += 20 * ft * geometry.Length(i+1)
			p.Outline[k].Doors = []plan.Door{{Kind: plan.Walk, From: 6 * in, Width: 3*ft + in*geometry.Length(i)}}
		}
		j.Slabs = append(j.Slabs, p)
	}
	long := strings.TrimSpace(strings.Repeat("words that fill it ", 4))
	items := slices.Repeat([]string{long}, 10)
	j.Price.Terms = estimate.Terms{Included: items, Excluded: items, Payment: long, Start: long, Finish: long, Days: 1}
	if faults := j.Validate(); len(faults) > 0 {
		t.Fatal(faults)
	}
	own := estimate.Starting(j.Units)
	own.Invented = false
	text, _ := bidText(t, "long", j, own)
	for _, want := range []string{"12 concrete slabs on ground", "Garage: 24'-0\" × 20'-0\" overall, 6\" thick, edges thickened to 1'-0\"", "Shed, turned against the fence: 10'-0\" × 8'-0\" overall, 5\" thick", "and 6 more", "1 day from its date", "Accepted by the customer"} {
		if !says(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

// What a customer signs: payments, alternates, unit prices, what cannot be seen,
// notices, and names in print.
func TestSignableBid(t *testing.T) {
	j := demoJob(t)
	own := estimate.Starting(j.Units)
	own.Invented = false
	d := decimal.RequireFromString
	j.Price.Extras = []estimate.Extra{{Name: "Building permit", Amount: d("250")}, {Name: "Rock", Amount: d("500"), Allowance: true}}
	j.Price.Options = []estimate.Option{{Name: "Edge 20 in", Edge: estimate.To(20 * in)}, {Name: "Thinner slab", Field: estimate.To(4 * in)}}
	tm := &j.Price.Terms
	tm.Steps = []estimate.Step{{When: "deposit on signing", Percent: d("10")}, {When: "on the day of the pour", Percent: d("50")}, {When: "on the finish", Percent: d("35")}, {When: "retainage, 30 days after", Percent: d("5")}}
	tm.Days, tm.Alternates, tm.ExtraConcrete, tm.ExtraDepth = 30, true, estimate.Costs(d("310")), estimate.Costs(d("4.5"))
	tm.Notices = "Notice to the owner: whoever supplies this work and is not paid may have a claim on the place where it was done."
	text, e := bidText(t, "signable", j, own)
	for _, want := range []string{"Building permit", "Rock: an allowance of $500.00", "Engineering and inspections", "Total " + estimate.Money("$", e.Bid), "Sales tax is in the price.",
		"Payment, deposit on signing " + estimate.Money("$", e.Bid.Mul(d("0.1")).Round(2)), "Payment, retainage, 30 days after", "Edge 20 in: add $", "Thinner slab: take off $",
		"$310.00 for each yd³", "agreed in writing and paid for besides", "Notice to the owner", "Accepted: the work, the price and the terms above.", "Printed name", "License",
		"The work is done as drawn."} {
		if !says(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	for _, not := range []string{"Permits", "code", estimate.Money("$", e.Tax), estimate.Money("$", e.Price)} {
		if says(text, not) {
			t.Errorf("it says %q", not)
		}
	}
}

// A draft gives its reasons, and nothing to sign.
func TestDraftBid(t *testing.T) {
	j := demoJob(t)
	for name, c := range map[string]struct {
		change func(*estimate.PriceList)
		says   string
	}{
		"no concrete": {func(p *estimate.PriceList) { p.Items[0].Price = estimate.Amount{} }, "No price: Concrete to order"},
		"no wage":     {func(p *estimate.PriceList) { p.Wage = decimal.Zero }, "The wage is $0.00 an hour"},
		"old":         {func(p *estimate.PriceList) { p.Date, p.Days = "2001-02-03", 14 }, "are older than the 14 days"},
		"nothing":     {func(p *estimate.PriceList) { p.Items = nil }, "reasons more"},
	} {
		own := estimate.Starting(j.Units)
		own.Invented = false
		c.change(&own)
		text, _ := bidText(t, "draft "+name, j, own)
		for _, want := range []string{"DRAFT. Not an offer, since:", c.says, "DRAFT. Not to be signed."} {
			if !says(text, want) {
				t.Errorf("%s: no %q", name, want)
			}
		}
		for _, not := range []string{"Accepted", "For the contractor"} {
			if says(text, not) {
				t.Errorf("%s: a draft with a place to sign, %q", name, not)
			}
		}
	}
}

// Nothing internal: no part of the sum but price and tax, no word of how it was
// made.
func TestBidKeepsSecrets(t *testing.T) {
	demo := demoJob(t)
	demo.Price.Extras = []estimate.Extra{{Name: "Secret contingency", Amount: decimal.NewFromInt(500), Hidden: true}}
	demo.Price.Mobilization = decimal.NewFromInt(321)
	jobs := []awkward{{"demo", demo}}
	for _, c := range corpus() {
		if c.name == "two slabs" || c.name == "metric" {
			jobs = append(jobs, c)
		}
	}
	for _, c := range jobs {
		prices := estimate.Starting(c.job.Units)
		for i := range prices.Items {
			prices.Items[i].Supplier = "Hidden Supply"
		}
		text, e := bidText(t, "secret "+c.name, c.job, prices)
		secret := []string{"overhead", "profit", "markup", "margin", "labor", "labor", "hour", "wage", "crew", "waste", "supplier", "hidden", "secret", "contingency", "mobilization", "cost",
			estimate.Money("$", e.Cost), estimate.Money("$", e.Materials), estimate.Money("$", e.Labor), estimate.Money("$", e.Fees), estimate.Money("$", e.Overhead), estimate.Money("$", e.Profit), e.Hours.String(),
			c.job.Price.Overhead.String() + " %", c.job.Price.Profit.String() + " %"}
		for _, l := range e.Lines {
			if !l.Extended.IsZero() {
				secret = append(secret, estimate.Money("$", l.Extended))
			}
		}
		low := strings.ReplaceAll(strings.ToLower(text), "overhead door", "")
		for _, s := range secret {
			if s != "0" && strings.Contains(low, strings.ToLower(s)) {
				t.Errorf("%s: the bid says %q", c.name, s)
			}
		}
	}
}

// The bid is a letter, whatever paper the drawings are on.
func TestBidIsALetter(t *testing.T) {
	j := demoJob(t)
	h := handed(t, j)
	for asked, want := range map[Paper]Paper{{}: Letter, Letter: Letter, Legal: Legal, A4: A4, Tabloid: Letter, ArchD: Letter, A3: Letter} {
		p, err := BidPages(t.Context(), h, Options{Date: fixedDate, Paper: asked})
		if err != nil {
			t.Fatal(err)
		}
		if p[0].Width != want.Width || p[0].Height != want.Height {
			t.Errorf("on %s paper: %g × %g mm, want %s", asked.Name, p[0].Width, p[0].Height, want.Name)
		}
	}
}
