package estimate

import (
	"slices"
	"strings"
	"testing"
	"time"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// An own figure stands in place of the rule's, for what is bought and for what labor goes
// by; 0 takes the line away. In another unit than the job counts in it is left, and the
// bid is a draft.
func TestOwnFigures(t *testing.T) {
	to := example()
	caps := takeoff.Line{ID: takeoff.ID{Kind: takeoff.BarCaps}, Name: "Caps", Value: 43, Unit: takeoff.Each}
	back := takeoff.Line{ID: takeoff.ID{Kind: takeoff.Backfill}, Name: "Backfill", Value: 2, Unit: takeoff.CubicYards}
	to.Besides = []takeoff.Line{caps, back}
	p := PriceList{Units: geometry.FeetInches, Wage: d("50"), Crew: 4,
		Items: []Item{{What: caps.ID, Unit: "bag", Of: takeoff.Each, Pack: d("50"), Price: Costs(d("10"))}},
		Tasks: []Task{{Name: "Backfill", What: back.ID, Of: takeoff.CubicYards, Rate: d("2")}}}
	var s Spec
	cost := func(k takeoff.Kind) string {
		e := Of(to, s, p)
		i := slices.IndexFunc(e.Lines, func(l Line) bool { return l.ID.Kind == k })
		if i < 0 {
			return "none"
		}
		return e.Lines[i].Extended.String()
	}
	check := func(when, wantCaps, wantBack string) {
		t.Helper()
		if a, b := cost(takeoff.BarCaps), cost(takeoff.Backfill); a != wantCaps || b != wantBack {
			t.Errorf("%s: caps %s, backfill %s; want %s and %s", when, a, b, wantCaps, wantBack)
		}
	}
	check("by the rules", "10", "50") // a bag of 50; 1 h
	s.SetFigure(caps, d("120"), true)
	s.SetFigure(back, d("3.5"), true)
	check("own", "30", "87.5") // 3 bags; 1.75 h
	s.SetFigure(caps, d("0"), true)
	check("none", "none", "87.5")
	s.SetFigure(caps, d("0"), false)
	check("by the rule again", "10", "87.5")
	s.Figures[0].Of = takeoff.CubicMeters
	check("in another unit", "10", "50")
	if !slices.ContainsFunc(Of(to, s, p).Draft(time.Time{}), func(r Reason) bool { return r.Path == "price.figures[0].of" }) {
		t.Error("a figure in another unit is not told")
	}
}

// An extra that is charged is named.
func TestExtraWithoutANameIsADraft(t *testing.T) {
	for name, want := range map[string]bool{"": true, " ": true, "Floor drain": false} {
		s := exampleSpec()
		s.Extras = []Extra{{Name: name, Amount: d("500")}}
		told := slices.ContainsFunc(Of(example(), s, PriceList{}).Draft(time.Time{}), func(r Reason) bool { return strings.Contains(r.Text, "has no name") })
		if told != want {
			t.Errorf("%q: told %v", name, told)
		}
	}
}
