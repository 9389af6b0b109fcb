package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/language"
	changed "haunchbook.example/app/revision"
)

// heldOn is the day of the pour that holds are held against.
var heldOn = date.Of(2026, 6, 10)

// holds are things that hold a pour on heldOn back, and some that do not: every way in
// which one does is among them.
func holds() []hold.Hold {
	before, after := heldOn.Plus(-3), heldOn.Plus(3)
	return []hold.Hold{
		{Kind: hold.Locate},
		{Kind: hold.Locate, Number: "A-1182", Asked: before},
		{Kind: hold.Locate, Number: "A-1182", From: before.Plus(-9), Until: before},
		{Kind: hold.Locate, Number: "A-1182", From: after},
		{Kind: hold.Locate, From: after, Until: before},
		{Kind: hold.Locate, Number: "A-1182", From: before, Until: after},
		{Kind: hold.Permit}, {Kind: hold.Permit, Asked: before}, {Kind: hold.Permit, Number: "B-77", From: before},
		{Kind: hold.Footing}, {Kind: hold.Steel, From: before}, {Kind: hold.PrePour, From: after}, {Kind: hold.Inspection, Name: "soils", Result: hold.Failed},
		{Kind: hold.Footing, Result: hold.Passed, On: before}, {Kind: hold.Steel, Result: hold.Passed, On: after}, {Kind: hold.PrePour, Result: hold.Failed, On: before},
		{Kind: hold.Strip, From: before}, {Kind: hold.Cure, From: after},
	}
}

// What holds the pour back stands on the first sheet, on that of the pour and on the order
// of a telephone; a job without such records has nothing of it, and its sheets are as many.
func TestWhatHoldsThePourBackIsTold(t *testing.T) {
	j := demoJob(t)
	plain, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	flat := func(pages ...Page) string {
		var all []string
		for _, p := range pages {
			all = append(all, texts(p)...)
		}
		return strings.Join(strings.Fields(strings.Join(all, " ")), " ")
	}
	if s := flat(plain...); strings.Contains(s, "NOT TO BE") || strings.Contains(strings.ToLower(s), "locate") {
		t.Error("a job without holds tells of some")
	}
	j.Pour.Date = heldOn
	j.Holds = []hold.Hold{{Kind: hold.Locate, Number: "A-1182", From: heldOn.Plus(-12), Until: heldOn.Plus(-2)}, {Kind: hold.Footing, Result: hold.Passed, On: heldOn.Plus(-1)}}
	h := handed(t, j)
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	const why = "runs out on 2026-06-08, before the pour on 2026-06-10"
	if s := flat(pages[0]); !strings.Contains(s, "NOT TO BE POURED YET: utility locate A-1182: "+why+".") {
		t.Errorf("the first sheet says %s", s)
	}
	if s := flat(pages[1:]...); !strings.Contains(s, "SEVERE: Utility locate A-1182: "+why) || strings.Contains(s, "ooting inspection") {
		t.Errorf("the sheet of the pour says %s", s)
	}
	if len(pages) > len(plain) {
		t.Errorf("%d sheets with a line more, else %d", len(pages), len(plain))
	}
	days, err := h.Days(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if o := days[0].OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units); !strings.HasPrefix(o, "NOT TO BE ORDERED YET: utility locate A-1182: "+why) || !strings.Contains(o, "2026-06-10") {
		t.Errorf("the order says %s", o)
	}
	j.Holds[0].Until = heldOn
	if held := handed(t, j).Held(); len(held) > 0 {
		t.Errorf("held back by %v, and nothing does", held)
	}
}

// officeUnknown gives the keys of papers for the customer that a language lacks.
func officeUnknown(t *testing.T, l language.Language, h *handover.Handover) (out []string) {
	t.Helper()
	j := h.Job()
	j.Account = anAccount()
	h = handover.Of(handover.From{Job: j, Prices: h.Prices()})
	o := Options{Date: fixedDate, Languages: []language.Language{l}}
	for _, p := range offices(h, o) {
		p.visit()
		p.photos()
		out = append(out, p.say.Unknown()...)
		seen(t, p.finished())
	}
	s := h.Account()
	for _, b := range s.Bills {
		for _, p := range offices(h, o) {
			p.invoice(s, b)
			out = append(out, p.say.Unknown()...)
			seen(t, p.finished())
		}
	}
	was := j
	was.Slabs = slices.Clone(j.Slabs)
	was.Slabs[0] = was.Slabs[0].Clone()
	was.Slabs[0].Field += in
	was.Slabs[0].Pads, was.Slabs[0].Outline[0].Doors = nil, nil
	if len(was.Slabs[0].Sections) > 0 {
		was.Slabs[0].Sections[0].Depth += in
	}
	was.Spec.Mix.Strength, was.Spec.Base.Gravel, was.Spec.Place.Bolts.Spacing = 3000, 0, 4*12*in
	for _, c := range s.Changes {
		order, err := h.ChangeOrder(t.Context(), c, changed.State{Job: was, Prices: h.Prices()}, changed.State{Job: j, Prices: h.Prices()})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range offices(h, o) {
			p.change(order)
			out = append(out, p.say.Unknown()...)
			seen(t, p.finished())
		}
	}
	return out
}

// seen sees that nothing on pages overlaps.
func seen(t *testing.T, pages []Page) {
	t.Helper()
	for _, p := range pages {
		for _, s := range overlaps(p) {
			t.Errorf("%s: %s", p.Name, s)
		}
	}
}

// anAccount has one of everything.
func anAccount() account.Account {
	n, day := decimal.NewFromInt, heldOn
	return account.Account{
		Contract: account.Contract{Date: day, Amount: n(9000), Tax: n(300)}, Retainage: n(5),
		Changes:  []account.Change{{Number: 1, Date: day, Title: "Wider door", Amount: n(400), Days: 1, State: account.Accepted, Decided: day}, {Number: 2, Days: 3, State: account.Declined, Decided: day}, {Number: 3, Days: -1}, {Number: 4, Days: -2}, {Number: 5}},
		Invoices: []account.Invoice{{Number: 41, Date: day, For: "on signing", Amount: n(3000)}, {Number: 42, Date: day, Kind: account.Progress, Amount: n(5000), Held: n(250), Due: day.Plus(30)}, {Number: 43, Kind: account.Final, Amount: n(1400)}, {Number: 44, Kind: account.Retainage, Held: n(-250)}},
		Payments: []account.Payment{{Date: day, Invoice: 41, Amount: n(3000), How: "check 2207"}, {Invoice: 42, Amount: n(100)}},
		Papers:   []account.Paper{{Name: "Notice", Text: "In words of one's own."}},
	}
}
