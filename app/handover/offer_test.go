package handover_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

func dollars(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// own is the starting list as one's own.
func own(j job.Job) estimate.PriceList {
	p := estimate.Starting(j.Units)
	p.Invented = false
	return p
}

func offer(t *testing.T, j job.Job, p estimate.PriceList) handover.Offer {
	t.Helper()
	if faults := j.Validate(); len(faults) > 0 {
		t.Fatal(faults)
	}
	o, err := handover.Of(handover.From{Job: j, Prices: p}).Offer(t.Context(), time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// What is charged is included, what others supply or nobody is paid for is not, and
// nothing is both.
func TestOfferAgreesWithItself(t *testing.T) {
	without := func(p estimate.PriceList, kinds ...takeoff.Kind) estimate.PriceList {
		gone := func(id takeoff.ID) bool { return slices.Contains(kinds, id.Kind) }
		p.Items = slices.DeleteFunc(p.Items, func(it estimate.Item) bool { return gone(it.What) })
		p.Tasks = slices.DeleteFunc(p.Tasks, func(t estimate.Task) bool { return gone(t.What) })
		p.Fees = slices.DeleteFunc(p.Fees, func(f estimate.Fee) bool { return gone(f.What) })
		return p
	}
	for _, c := range []struct {
		name    string
		change  func(*job.Job, *estimate.PriceList)
		in, out string // what stands there
		not     string // what stands nowhere
	}{
		{"as drawn", func(*job.Job, *estimate.PriceList) {}, "Digging", "Sill plates (by others)", ""},
		{"digging that nobody is paid for", func(_ *job.Job, p *estimate.PriceList) { *p = without(*p, takeoff.Digging) }, "Saw cuts", "Digging", ""},
		{"saw cuts that nobody is paid for", func(_ *job.Job, p *estimate.PriceList) { *p = without(*p, takeoff.SawCuts) }, "Digging", "Saw cuts", ""},
		{"bolts of others, set by us", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Others = []takeoff.ID{{Kind: takeoff.AnchorBolts}, {Kind: takeoff.BoltWashers}}
		}, "Setting anchor bolts that others supply", "Anchor bolts 1/2\" × 10\", bent (by others)", "Anchor bolts, set to the wall layout"},
		{"bolts of others, set by them", func(j *job.Job, p *estimate.PriceList) {
			j.Price.Others = []takeoff.ID{{Kind: takeoff.AnchorBolts}, {Kind: takeoff.BoltWashers}}
			p.Tasks = slices.DeleteFunc(p.Tasks, func(t estimate.Task) bool { return t.What.Kind == takeoff.AnchorBolts })
		}, "Digging", "Anchor bolts 1/2\" × 10\", bent (by others)", "Setting anchor bolts that others supply"},
		{"concrete of others", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Others = []takeoff.ID{{Kind: takeoff.ConcreteOrder}}
		}, "Placing, finishing and curing", "Concrete to order (by others)", ""},
		{"a permit that is charged", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Extras = []estimate.Extra{{Name: "Building permit", Amount: dollars("250")}}
		}, "Building permit", "Engineering and inspections", "Permits, engineering and inspections"},
		{"a permit of the price list", func(_ *job.Job, p *estimate.PriceList) {
			for i := range p.Fees {
				p.Fees[i].Off = p.Fees[i].Off && p.Fees[i].Name != "Permit"
			}
		}, "Permit", "Engineering and inspections", "Permits, engineering and inspections"},
		{"sealer and hauling", func(_ *job.Job, p *estimate.PriceList) {
			for i := range p.Items {
				p.Items[i].Off = p.Items[i].Off && p.Items[i].What.Kind != takeoff.Sealer
			}
		}, "Sealer", "Anything not named here", "Joint sealant"},
		{"hauling", func(*job.Job, *estimate.PriceList) {}, "Hauling off what is dug", "Anything not named here", "Sealer"},
		{"no permit", func(*job.Job, *estimate.PriceList) {}, "Digging", "Permits, engineering and inspections", ""},
		{"an exclusion that is included", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Terms.Included, j.Price.Terms.Excluded = []string{"Hauling off"}, []string{"hauling off", "Fences"}
		}, "Hauling off", "Fences", "hauling off"},
		{"an allowance", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Extras = []estimate.Extra{{Name: "Rock", Amount: dollars("400"), Allowance: true}}
		}, "Rock: an allowance of $400.00, settled by what it comes to", "Unsuitable ground and dewatering", ""},
		{"what is not named", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Extras = []estimate.Extra{{Name: "Contingency", Amount: dollars("400"), Hidden: true}}
		}, "Digging", "Anything not named here", "Contingency"},
		{"a credit", func(j *job.Job, _ *estimate.PriceList) {
			j.Price.Extras = []estimate.Extra{{Name: "forms left over", Amount: dollars("-40")}}
		}, "Credit for forms left over", "Anything not named here", "forms left over"},
	} {
		j := demo(t)
		p := own(j)
		c.change(&j, &p)
		o := offer(t, j, p)
		if !slices.Contains(o.Included, c.in) || !slices.Contains(o.Excluded, c.out) {
			t.Errorf("%s: included %q, not included %q; want %q and %q", c.name, o.Included, o.Excluded, c.in, c.out)
		}
		if slices.Contains(o.Included, c.not) || slices.Contains(o.Excluded, c.not) {
			t.Errorf("%s: %q stands there", c.name, c.not)
		}
		for _, x := range o.Excluded {
			bare := strings.TrimSuffix(x, " (by others)")
			if slices.ContainsFunc(o.Included, func(in string) bool { return strings.EqualFold(in, bare) }) {
				t.Errorf("%s: %q is included and not", c.name, bare)
			}
		}
	}
}

// Tax on materials is in the price, since by its rate it would tell what they cost,
// unless it is asked for.
func TestOfferKeepsTax(t *testing.T) {
	for _, c := range []struct {
		on     estimate.TaxOn
		shown  estimate.TaxShown
		inside bool
	}{
		{estimate.TaxMaterials, estimate.TaxUsual, true},
		{estimate.TaxMaterials, estimate.TaxAsLine, false},
		{estimate.TaxMaterials, estimate.TaxInside, true},
		{estimate.TaxAll, estimate.TaxUsual, false},
		{estimate.TaxAll, estimate.TaxInside, true},
		{estimate.TaxNone, estimate.TaxUsual, false},
		{estimate.TaxNone, estimate.TaxInside, false},
	} {
		j := demo(t)
		j.Price.TaxOn, j.Price.Terms.TaxShown = c.on, c.shown
		o := offer(t, j, own(j))
		if o.TaxInside != c.inside || !o.Price.Add(o.Tax).Equal(o.Total) {
			t.Errorf("tax on %v, %v: %s and %s of %s, inside: %v", c.on, c.shown, o.Price, o.Tax, o.Total, o.TaxInside)
		}
	}
}

// Payments add up to the total, to the cent.
func TestOfferPayments(t *testing.T) {
	j := demo(t)
	j.Price.Terms.Steps = []estimate.Step{{When: "on signing", Percent: dollars("33.33")}, {When: "on the pour", Percent: dollars("33.33")}, {When: "when done", Percent: dollars("33.34")}}
	o := offer(t, j, own(j))
	sum := decimal.Zero
	for i, p := range o.Payments {
		if want := o.Total.Mul(j.Price.Terms.Steps[i].Percent).Div(dollars("100")); p.Amount.Sub(want).Abs().GreaterThan(dollars("0.02")) {
			t.Errorf("%s: %s, want about %s", p.When, p.Amount, want)
		}
		sum = sum.Add(p.Amount)
	}
	if len(o.Payments) != 3 || !sum.Equal(o.Total) {
		t.Errorf("payments %v of %s", o.Payments, o.Total)
	}
	j.Price.Terms.Steps = j.Price.Terms.Steps[:2]
	if faults := j.Validate(); len(faults) != 1 || faults[0].Path != "price.terms.steps" {
		t.Errorf("steps of 66.66 %%: %v", faults)
	}
}

// Options are alternates where the job says so, at the difference that the options
// show; one that is no bid has no price.
func TestOfferAlternates(t *testing.T) {
	j := demo(t)
	j.Price.Options = []estimate.Option{{Name: "Edge 20 in", Edge: estimate.To(20 * in)}, {Name: "Stronger", Strength: 8000}, {Name: "Thinner", Field: estimate.To(4 * in)}}
	if o := offer(t, j, own(j)); len(o.Alternates) > 0 {
		t.Errorf("alternates that were not asked for: %v", o.Alternates)
	}
	j.Price.Terms.Alternates = true
	j.Price.Terms.ExtraConcrete, j.Price.Terms.ExtraDepth = estimate.Costs(dollars("310")), estimate.Costs(dollars("4.5"))
	o := offer(t, j, own(j))
	options := must(t, handover.Of(handover.From{Job: j, Prices: own(j)}).Options)
	for i, a := range o.Alternates {
		if a.Name != options[i+1].Name || !a.Add.Equal(options[i+1].Difference) || a.Asks != (a.Name == "Stronger") {
			t.Errorf("%+v", a)
		}
	}
	if len(o.Alternates) != 3 || !o.Alternates[0].Add.IsPositive() || !o.Alternates[2].Add.IsNegative() {
		t.Errorf("alternates %v", o.Alternates)
	}
	if got := strings.Join(o.Units, "; "); got != "Concrete beyond what is drawn: $310.00 for each yd³; Edges deeper than drawn: $4.50 for each foot of edge and inch of depth" {
		t.Errorf("unit prices %s", got)
	}
}

// Foam of another thickness costs another price; where the list has one for any, the
// alternate has none.
func TestOptionsArePricedByWhatIsBought(t *testing.T) {
	j := demo(t)
	j.Spec.Base.Foam = 2 * in
	j.Price.Options = []estimate.Option{{Name: "Foam 1 in", Foam: estimate.To(in)}, {Name: "Foam 4 in", Foam: estimate.To(4 * in)}}
	j.Price.Terms.Alternates = true
	foam := func(p estimate.PriceList) (each []string) {
		for _, c := range must(t, handover.Of(handover.From{Job: j, Prices: p}).Options) {
			for _, l := range c.Estimate.Lines {
				if l.ID.Kind == takeoff.FoamStock {
					each = append(each, l.Price.StringFixed(2))
				}
			}
		}
		return each
	}
	if got := strings.Join(foam(own(j)), " "); got != "38.20 19.10 76.40" {
		t.Errorf("sheets of 2, 1 and 4 in foam cost %s", got)
	}
	any := own(j)
	for i, it := range any.Items {
		if it.What.Kind == takeoff.FoamStock {
			any.Items[i].By, any.Items[i].Price = estimate.ByUnit, estimate.Costs(dollars("38.20"))
		}
	}
	if got := strings.Join(foam(any), " "); got != "38.20 38.20 38.20" {
		t.Errorf("sheets at one price cost %s", got)
	}
	for _, a := range offer(t, j, any).Alternates {
		if !a.Asks {
			t.Errorf("%s is offered at %s", a.Name, a.Add)
		}
	}
	for _, a := range offer(t, j, own(j)).Alternates {
		if a.Asks {
			t.Errorf("%s is not offered", a.Name)
		}
	}
}
