package sheet

import (
	"bufio"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// others gives the languages with a file.
func others(t *testing.T) []language.Language {
	t.Helper()
	all, err := language.All()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 2 {
		t.Fatal("no language but English")
	}
	return all[1:]
}

// spoken are the jobs whose sheets are read in every language.
func spoken(t *testing.T) []awkward {
	out := append(corpus(), awkward{"demo", demoJob(t)})
	hard := demoJob(t)
	hard.Spec.Base.Foam = 2 * in
	hard.Spec.Place.Bars.Stagger = 2 * ft
	hard.Spec.Mix.Strength, hard.Spec.Mix.Air = 2000, 0
	hard.Pour.Weather = slices.Clone(hard.Pour.Weather)
	if len(hard.Pour.Weather) < 3 {
		t.Fatal("the demo job has no weather")
	}
	hard.Pour.Weather[0].Air, hard.Pour.Weather[1].Air = pour.Fahrenheit(25), pour.Fahrenheit(100)
	metric := demoJob(t)
	metric.Units = geometry.Millimeters
	held := demoJob(t)
	held.Pour.Date = heldOn
	held.Holds = holds()
	noDay := demoJob(t)
	noDay.Holds = held.Holds
	held.Pour.Forecast = []pour.Forecast{{Date: heldOn, Rain: 60}, {Date: heldOn.Plus(1), Low: pour.Fahrenheit(20)}}
	damp := demoJob(t)
	damp.Pour.Date, damp.Pour.Forecast = heldOn, []pour.Forecast{{Date: heldOn, Rain: 30, Low: pour.Fahrenheit(38)}}
	return append(out, awkward{"weather", hard}, awkward{"demo in millimeters", metric}, awkward{"held back", held}, awkward{"held back, no day", noDay}, awkward{"damp", damp})
}

// Whatever is written on the sheets of awkward plans is in the file of each language,
// but for the user's own texts.
func TestEveryTextIsKnown(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through every text: run without -short")
	}
	papers := []Paper{{}, AllPapers()[0], AllPapers()[len(AllPapers())-1]}
	for _, l := range others(t) {
		unknown := map[string]string{}
		for _, c := range spoken(t) {
			h := handed(t, c.job)
			for _, key := range slices.Concat(orderUnknown(t, l, h), shotsUnknown(t, l, h), recordUnknown(t, l, h), officeUnknown(t, l, h)) {
				unknown[key] = c.name
			}
			for _, key := range append(phoneUnknown(t, l, h), customerUnknown(t, l, h)...) {
				unknown[key] = c.name
			}
			for i, paper := range papers {
				for _, part := range []Part{Whole, ForSteel}[:2-min(i, 1)] {
					all, err := sets(t.Context(), h, Options{Date: fixedDate, Paper: paper, Part: part, Languages: []language.Language{l}, Revisions: []Revision{{Mark: "0", Why: "asked by the owner", Date: fixedDate}}})
					if err != nil {
						t.Fatal(err)
					}
					for _, s := range all {
						s.done(len(s.made))
						for _, key := range s.say.Unknown() {
							unknown[key] = c.name
						}
					}
				}
			}
		}
		for key, where := range unknown {
			t.Errorf("assets/languages/%s.json: texts: no %q, which stands on the sheets of %q", l.Code, key, where)
		}
	}
}

// orderUnknown gives the keys of an order's text that a language lacks.
func orderUnknown(t *testing.T, l language.Language, h *handover.Handover) []string {
	j := h.Job()
	days, err := h.Days(t.Context())
	if err != nil {
		return nil // the sheets have none either
	}
	say := l.Speaker(own(j, Options{}))
	for _, i := range slices.Concat(days[0].OrderItems(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units), days[len(days)-1].OrderItems(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units)) {
		say.Word(i.Name)
		say.Say(i.Text)
	}
	return say.Unknown()
}

// phoneUnknown gives the keys of the page for the telephone that a language lacks.
func phoneUnknown(t *testing.T, l language.Language, h *handover.Handover) []string {
	all, err := unpaged(t.Context(), h, Options{Date: fixedDate, Languages: []language.Language{l}})
	if err != nil {
		t.Fatal(err)
	}
	(&phone{set: all[0], Writer: bufio.NewWriter(io.Discard)}).write()
	return all[0].say.Unknown()
}

// customerUnknown gives the keys of what the customer gets that a language lacks: as a
// draft, and as an offer with all that it may say.
func customerUnknown(t *testing.T, l language.Language, h *handover.Handover) (out []string) {
	t.Helper()
	j := h.Job()
	j.Price.Terms.Alternates, j.Price.Terms.Days = true, 30
	j.Price.Terms.ExtraConcrete, j.Price.Terms.ExtraDepth = estimate.Costs(decimal.NewFromInt(200)), estimate.Costs(decimal.NewFromInt(2))
	j.Price.Terms.Steps = []estimate.Step{{When: "at the start", Percent: decimal.NewFromInt(40)}, {When: "at the end", Percent: decimal.NewFromInt(60)}}
	j.Price.Extras = append(j.Price.Extras, estimate.Extra{Name: "Rock", Amount: decimal.NewFromInt(900), Allowance: true}, estimate.Extra{Name: "the old slab", Amount: decimal.NewFromInt(-50)})
	j.Price.Tax = decimal.NewFromInt(7)
	prices := estimate.Starting(j.Units)
	prices.Invented = false
	o := Options{Date: fixedDate, Languages: []language.Language{l}}
	for _, h := range []*handover.Handover{h, handover.Of(handover.From{Job: j, Prices: prices, Frost: 30 * in})} {
		all, err := bids(t.Context(), h, o)
		if err != nil {
			t.Fatal(err)
		}
		deep, err := howDeeps(t.Context(), h, o)
		if err != nil && !errors.Is(err, estimate.ErrNoEdge) {
			t.Fatal(err)
		}
		for _, b := range append(all, deep...) {
			out = append(out, b.say.Unknown()...)
			for _, s := range overlaps(b.finish()) {
				t.Errorf("%s, %s: %s", l.Code, j.Name, s)
			}
		}
	}
	return out
}

// shotsUnknown gives the keys of the pages of shots that a language lacks, with and
// without shots.
func shotsUnknown(t *testing.T, l language.Language, h *handover.Handover) (out []string) {
	t.Helper()
	for _, with := range []bool{false, true} {
		j := h.Job()
		if j.Ground.Instrument = 0; with {
			j = shot(t, h)
			if strings.Contains(j.Name, "e") {
				j.Ground.Lost, j.Ground.Stray = decimal.NewFromInt(2), decimal.NewFromInt(1)
			}
		}
		h := handed(t, j)
		s, err := newSet(t.Context(), h, Options{})
		if err != nil {
			t.Fatal(err)
		}
		g, err := h.Ground(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		s.say = l.Speaker(own(j, Options{}))
		last, err := h.LastLoad(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		s.shotPages(g, last)
		out = append(out, s.say.Unknown()...)
	}
	return out
}

// shot gives a job with the field of its slabs shot, half an inch high here and there.
func shot(t *testing.T, h *handover.Handover) job.Job {
	t.Helper()
	g, err := h.Ground(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	j := h.Job()
	j.Ground.Instrument = 5 * geometry.Foot
	j.Survey.Shots = nil
	for _, s := range g.Slabs {
		for i, w := range s.Wanted {
			if w.What == "field" {
				j.Survey.Shots = append(j.Survey.Shots, plan.Shot{At: w.At, Height: w.Height + geometry.Length(i%3)*geometry.Inch/2})
			}
		}
	}
	return j
}

// spokenFew are some of them, of which all that is drawn is looked at.
func spokenFew(t *testing.T) (out []awkward) {
	for _, c := range spoken(t) {
		if slices.Contains([]string{"rectangle", "three slabs", "pads", "all joint", "metric ell", "holes", "demo"}, c.name) {
			out = append(out, c)
		}
	}
	return out
}

// measured are lengths and marks, which are alike in every language but for N1: that
// stands for what found no room.
var measured = regexp.MustCompile(`\d+'-\d+(?: \d+/\d+)?"|\b[A-MO-Z]{1,2}\d+(?:\.\d+)?\b`)

// In another language nothing overlaps or finds no place, no English that could be said
// is left, every length and mark of the English sheets stands on these too, and there is
// a sheet more at most.
func TestSheetsInOtherLanguages(t *testing.T) {
	for _, l := range others(t) {
		for _, c := range spokenFew(t) {
			h := handed(t, c.job)
			english, err := Pages(t.Context(), h, Options{Date: fixedDate})
			if err != nil {
				t.Fatal(err)
			}
			pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Languages: []language.Language{l}})
			if err != nil {
				t.Fatal(err)
			}
			if len(pages) > len(english)+1 {
				t.Errorf("%s, %s: %d sheets, in English %d", l.Code, c.name, len(pages), len(english))
			}
			say := l.Speaker(own(c.job, Options{}))
			for _, p := range pages {
				for _, s := range overlaps(p) {
					t.Errorf("%s, %s, %s: %s", l.Code, c.name, p.Name, s)
				}
				for _, s := range p.Unplaced {
					t.Errorf("%s, %s, %s: no place for %q", l.Code, c.name, p.Name, s)
				}
				for _, it := range p.Items {
					if x, ok := it.(Text); ok && l.Texts[x.Text] != "" && say.Say(x.Text) != x.Text {
						t.Errorf("%s, %s, %s: %q is left in English", l.Code, c.name, p.Name, x.Text)
					}
				}
			}
			there := measured.FindAllString(strings.Join(texts(pages...), " "), -1)
			for _, m := range measured.FindAllString(strings.Join(texts(english...), " "), -1) {
				if !slices.Contains(there, m) {
					t.Errorf("%s, %s: %s is on the English sheets only", l.Code, c.name, m)
				}
			}
		}
	}
}

// Both languages in one file are the sheets of each, numbered through.
func TestBothLanguages(t *testing.T) {
	h := handed(t, demoJob(t))
	all, err := language.Chosen(language.Both)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Languages: all})
	if err != nil {
		t.Fatal(err)
	}
	alone := 0
	for _, l := range all {
		p, err := Pages(t.Context(), h, Options{Date: fixedDate, Languages: []language.Language{l}})
		if err != nil {
			t.Fatal(err)
		}
		alone += len(p)
	}
	if len(pages) != alone {
		t.Errorf("%d sheets, %d in each language by itself", len(pages), alone)
	}
	said := texts(pages...)
	for _, want := range []string{"Steel", "Acero", "Cautions", "Precauciones"} {
		if !slices.Contains(said, want) {
			t.Errorf("no %q", want)
		}
	}
}

// What the user wrote stands as it is.
func TestOwnTextsStay(t *testing.T) {
	j := demoJob(t)
	j.Notes = "Watch the slab, not the clock."
	j.Survey.Notes = []plan.Note{{Text: "Loads", At: geometry.Point{X: 10 * ft, Y: 10 * ft}}}
	for _, l := range others(t) {
		pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate, Languages: []language.Language{l}})
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Join(texts(pages...), " ")
		for _, want := range []string{j.Notes, j.Survey.Notes[0].Text, j.Name} {
			if !strings.Contains(said, want) {
				t.Errorf("%s: %q is said otherwise", l.Code, want)
			}
		}
	}
}
