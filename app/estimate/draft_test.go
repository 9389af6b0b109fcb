package estimate

import (
	"strings"
	"testing"
	"time"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Each case that once printed a bid to be signed: what is wrong, and where the reason
// says it is mended.
func TestDraft(t *testing.T) {
	on := time.Date(2026, 4, 12, 0, 0, 0, 0, time.UTC)
	item := func(p *PriceList, k takeoff.Kind) *Item {
		for i := range p.Items {
			if p.Items[i].What.Kind == k {
				return &p.Items[i]
			}
		}
		t.Fatalf("no %s on the list", k)
		return nil
	}
	for _, c := range []struct {
		name   string
		change func(*takeoff.Takeoff, *Spec, *PriceList)
		path   string // of the one reason; "" for none
		says   string
	}{
		{"as it is", func(*takeoff.Takeoff, *Spec, *PriceList) {}, "", ""},
		{"invented prices", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Invented = true }, "price.prices.invented", "invented examples"},
		{"no price of concrete", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { item(p, takeoff.ConcreteOrder).Price = Amount{} }, "price.prices.items", "No price: Concrete to order. Add it"},
		{"no item for concrete", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Items = p.Items[1:] }, "price.prices.items", "No price: Concrete to order. Add it"},
		{"a price of nothing is one", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { item(p, takeoff.Stakes).Price = Costs(d("0")) }, "", ""},
		{"a price for another unit", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { item(p, takeoff.AnchorBolts).Of = takeoff.Pounds }, "price.prices.items", "No price: Anchor bolts. Add it"},
		{"no price of what others supply", func(_ *takeoff.Takeoff, s *Spec, p *PriceList) {
			item(p, takeoff.AnchorBolts).Price, s.Others = Amount{}, []takeoff.ID{{Kind: takeoff.AnchorBolts}}
		}, "", ""},
		{"no price of what the job does not use", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Items = append(p.Items, Item{What: takeoff.ID{Kind: takeoff.FoamStock}, Name: "Foam", Unit: "sheet"})
		}, "", ""},
		{"no amount of a fee", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Fees[0].Amount = Amount{} }, "price.prices.items", "No price: Truck fee. Add it"},
		{"no wage", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Wage = d("0") }, "price.prices.wage", "The wage is $0.00 an hour"},
		{"no tasks", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Tasks = nil }, "price.prices.tasks", "No labor"},
		{"no task that fits", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Tasks = p.Tasks[2:3] }, "price.prices.tasks", "No labor"},
		{"a list for millimeters", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Units = geometry.Millimeters }, "price.prices.units", "for jobs in millimeters, this job is in feet and inches"},
		{"a mix that the list does not have", func(to *takeoff.Takeoff, _ *Spec, _ *PriceList) { to.Mix.Strength = 5000 }, "price.prices.items", "5000 psi is stronger"},
		{"an item that fits nothing", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Items = append(p.Items, Item{What: takeoff.ID{Kind: takeoff.Unknown, Name: "concrete.odrer"}})
		}, "price.prices.items[12].what", "“concrete.odrer”"},
		{"a task that fits nothing", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Tasks[1].What = takeoff.ID{Kind: takeoff.Unknown, Name: "froms.length"}
		}, "price.prices.tasks[1].what", "Set forms goes by “froms.length”"},
		{"a misspelt fee", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Fees[0].What = takeoff.ID{Kind: takeoff.Unknown, Name: "concrete.truks"}
		}, "price.prices.fees[0].what", "Truck fee goes by “concrete.truks”"},
		{"others supply what fits nothing", func(_ *takeoff.Takeoff, s *Spec, _ *PriceList) {
			s.Others = []takeoff.ID{{Kind: takeoff.Unknown, Name: "sil.plate"}}
		}, "price.others[0]", "Others supply “sil.plate”"},
		{"an old list", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Days, item(p, takeoff.AnchorBolts).Date = 30, "2026-04-01"
		}, "price.prices.date", "Prices of 2026-02-01 are older than the 30 days"},
		{"an old price", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Days = 75 }, "price.prices.date", "Prices of 2026-01-15 are older than the 75 days that the list allows: Anchor bolts."},
		{"prices just young enough", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) { p.Days = 87 }, "", ""},
		{"a price of no day", func(_ *takeoff.Takeoff, _ *Spec, p *PriceList) {
			p.Days, item(p, takeoff.AnchorBolts).Date = 90, "spring"
		}, "price.prices.date", `dated "spring"`},
		{"a credit above the materials", func(_ *takeoff.Takeoff, s *Spec, _ *PriceList) {
			s.Extras, s.Overhead = []Extra{{Name: "Old stock", Amount: d("-4000"), Material: true}}, d("999")
		}, "price.extras", "Credits of $4,000.00 are more than what they refer to: all materials come to $"},
		{"a price below cost", func(_ *takeoff.Takeoff, s *Spec, _ *PriceList) {
			s.Extras = []Extra{{Name: "Friend", Amount: d("-2000"), Material: false}}
		}, "price.confirmed", "is below the cost of $"},
		{"a price below cost that is meant", func(_ *takeoff.Takeoff, s *Spec, _ *PriceList) {
			s.Extras, s.Confirmed = []Extra{{Name: "Friend", Amount: d("-2000"), Material: false}}, "My brother's garage"
		}, "", ""},
		{"a bid of less than nothing is never one", func(_ *takeoff.Takeoff, s *Spec, _ *PriceList) {
			s.Extras, s.Confirmed = []Extra{{Name: "Slip", Amount: d("-150000"), Material: false}}, "It is meant"
		}, "price", "it must be more than nothing"},
	} {
		to, s, p := example(), exampleSpec(), examplePrices(t)
		s.Extras = nil
		c.change(&to, &s, &p)
		got := Of(to, s, p).Draft(on)
		switch {
		case c.path == "" && len(got) > 0:
			t.Errorf("%s: a draft, since %v", c.name, got)
		case c.path == "":
		case len(got) != 1 || got[0].Path != c.path || !strings.Contains(got[0].Text, c.says):
			t.Errorf("%s: %q; want %s, %q", c.name, got, c.path, c.says)
		}
	}
}

// A credit above all there is is a reason three times over: for what it refers to,
// for the cost, and for the bid.
func TestDraftOfAHugeCredit(t *testing.T) {
	s := exampleSpec()
	s.Extras = []Extra{{Name: "Slip", Amount: d("-150000"), Material: false}}
	var paths []string
	for _, r := range Of(example(), s, examplePrices(t)).Draft(time.Time{}) {
		paths = append(paths, r.Path)
	}
	if got := strings.Join(paths, " "); got != "price price.extras price.confirmed" {
		t.Errorf("reasons %s", got)
	}
}

// A file tells a price of nothing from none, and keeps them apart.
func TestNoPriceIsNotZero(t *testing.T) {
	read := func(price string) PriceList {
		t.Helper()
		p, err := ReadPrices([]byte(`{"name": "L", "units": "ft-in", "items": [{"what": {"kind": "stake"}, "name": "Stakes", "group": "Lumber", "unit": "piece", "of": "ea"` + price + `}]}`))
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for price, want := range map[string]Amount{"": {}, `, "price": null`: {}, `, "price": ""`: {}, `, "price": 0`: Costs(d("0")), `, "price": "0.00"`: Costs(d("0")), `, "price": 1.25`: Costs(d("1.25"))} {
		p := read(price)
		again, err := ReadPrices(p.Encode())
		if err != nil {
			t.Fatal(err)
		}
		if !p.Items[0].Price.Equal(want) || !again.Items[0].Price.Equal(want) {
			t.Errorf("%q is %v, then %v; want %v", price, p.Items[0].Price, again.Items[0].Price, want)
		}
	}
	for _, price := range []string{`"$175/yd"`, `"-1"`, `1e400`, `true`, `"1.0000000000001"`} {
		if p, err := ReadPrices([]byte(`{"name": "L", "units": "ft-in", "items": [{"what": {"kind": "stake"}, "name": "Stakes", "group": "Lumber", "unit": "piece", "of": "ea", "price": ` + price + `}]}`)); err == nil {
			t.Errorf("%s is read as %v", price, p.Items[0].Price)
		}
	}
}

// A price with a last day of its own is old after it.
func TestDraftOfAnEndedQuote(t *testing.T) {
	p := examplePrices(t)
	for i := range p.Items {
		if p.Items[i].What.Kind == takeoff.Stakes {
			p.Items[i].Until = "2026-04-12"
		}
	}
	e := Of(example(), exampleSpec(), p)
	if got := e.Draft(time.Date(2026, 4, 12, 0, 0, 0, 0, time.UTC)); len(got) > 0 {
		t.Errorf("on its last day: %v", got)
	}
	if got := e.Draft(time.Date(2026, 4, 13, 0, 0, 0, 0, time.UTC)); len(got) != 1 || got[0].Text != "The price of Stakes was good until 2026-04-12: ask for a new one." {
		t.Errorf("the day after: %v", got)
	}
}
