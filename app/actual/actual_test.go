package actual

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// known is what is written down; "" for what nobody wrote.
func known(s string) decimal.NullDecimal {
	if s == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(d(s))
}

// poured is a job of 10 yd³ with 100 ft of forms, estimated at 5 % waste and 10 ft
// of forms an hour with half an hour besides.
func poured(delivered, left, formHours string) Job {
	line := func(k takeoff.Kind, v float64, u takeoff.Unit) takeoff.Line {
		return takeoff.Line{ID: takeoff.ID{Kind: k}, Value: v, Unit: u}
	}
	t := takeoff.Takeoff{Lines: []takeoff.Line{
		line(takeoff.ConcreteNet, 10, takeoff.CubicYards), line(takeoff.ConcreteWaste, 0.5, takeoff.CubicYards), line(takeoff.ConcreteOrder, 10.5, takeoff.CubicYards),
		line(takeoff.ConcreteTrucks, 2, takeoff.Each), line(takeoff.FormLength, 100, takeoff.Feet),
	}}
	p := estimate.PriceList{Wage: d("50"), Tasks: []estimate.Task{{Name: "Set forms", What: takeoff.ID{Kind: takeoff.FormLength}, Of: takeoff.Feet, Rate: d("10"), Each: d("0.5")}}}
	return Job{
		Takeoff: t, Estimate: estimate.Of(t, estimate.Spec{}, p),
		Record: Record{Ordered: d("11"), Delivered: d(delivered), Left: known(left), Trucks: 2, Hours: []TaskHours{{"Set forms", d(formHours)}}},
	}
}

func TestAgainst(t *testing.T) {
	rows := map[string]Row{}
	for _, r := range Against(poured("11", "0.3", "8.5")) {
		rows[r.Name] = r
	}
	for name, want := range map[string][3]string{
		"Concrete ordered":   {"10.5", "11", "4.8"},
		"Concrete delivered": {"10.5", "11", "4.8"},
		"Concrete used":      {"10.5", "10.7", "1.9"},
		"Waste":              {"5", "7", "40"},
		"Trucks":             {"2", "2", "0"},
		"Set forms":          {"10.5", "8.5", "-19"},
	} {
		r := rows[name]
		if !r.Estimated.Equal(d(want[0])) || !r.Actual.Equal(d(want[1])) || !r.Percent.Equal(d(want[2])) {
			t.Errorf("%s: %s estimated, %s actual, %s %%; want %v", name, r.Estimated, r.Actual, r.Percent, want)
		}
	}
}

// TestLearn checks mean and spread against values worked by hand: wastes of 4, 6
// and 8 % have mean 6 and sample standard deviation 2.
func TestLearn(t *testing.T) {
	jobs := []Job{poured("10.4", "0", "8.5"), poured("10.8", "0.2", "10.5"), poured("10.8", "0", "5.5")}
	got := Learn(jobs)
	if len(got) != 2 || got[0].Name != "Waste" {
		t.Fatalf("lessons are %+v", got)
	}
	w := got[0]
	if !w.Mean.Equal(d("6")) || !w.Spread.Equal(d("2")) || !w.Least.Equal(d("4")) || !w.Most.Equal(d("8")) || !w.Now.Equal(d("5")) || !w.Offered {
		t.Errorf("waste: %+v", w)
	}
	// 100 ft in 8, 10 and 5 hours: 12.5, 10 and 20 ft/h; 300 ft in 23 hours: 13.04, and by
	// hours the square of the spread is 1.5 × (8 × 0.543² + 10 × 3.043² + 5 × 6.957²) ÷ 23.
	f := got[1]
	if f.Unit != "ft/h" || !f.Mean.Equal(d("13.04")) || !f.Least.Equal(d("10")) || !f.Most.Equal(d("20")) || !f.Spread.Equal(d("4.69")) || !f.Now.Equal(d("10")) {
		t.Errorf("forms: %+v", f)
	}
	if one := Learn(jobs[:1]); one[0].Offered || !one[0].Spread.IsZero() {
		t.Errorf("one job is enough: %+v", one[0])
	}
	if none := Learn(nil); len(none) != 0 {
		t.Errorf("no jobs teach %+v", none)
	}
}

// A small job with a wild figure weighs little, is shown, and is counted; what nobody
// wrote down teaches nothing.
func TestLearnWeighs(t *testing.T) {
	of := func(name, feet, hours string) Job {
		j := poured("10.5", "0", hours)
		j.Name = name
		for i, l := range j.Estimate.Lines {
			if l.Kind == estimate.Labor {
				j.Estimate.Lines[i].Need, j.Estimate.Lines[i].Each = d(feet), d("0")
			}
		}
		return j
	}
	// 400 ft in 40 h, thrice about, and 10 ft in 10 h: 1240 ft in 134 h.
	jobs := []Job{of("A", "400", "40"), of("B", "400", "42"), of("C", "430", "42"), of("Wild", "10", "10")}
	jobs[2].Record.Left = known("")
	got := Learn(jobs)
	if w := got[0]; w.Name != "Waste" || w.Jobs != 3 || !w.Mean.Equal(d("5")) {
		t.Errorf("waste, of which one job says nothing: %+v", w)
	}
	if f := got[1]; !f.Mean.Equal(d("9.25")) || len(f.Far) != 1 || f.Far[0].Job != "Wild" || !f.Far[0].Value.Equal(d("1")) || f.Jobs != 4 {
		t.Errorf("forms: %+v", f)
	}
	for _, r := range Against(jobs[2]) {
		if r.Name == "Waste" || r.Name == "Concrete used" {
			t.Errorf("%s of a job whose rest nobody wrote down: %s", r.Name, r.Actual)
		}
	}
}

// By hand: concrete 1000 and stakes 60 that serve three jobs, 20; labor 10 h at 50; a fee
// of 80. Cost 1600, price 2000. Concrete was invoiced at 1100, stakes at 90, of which 30
// is this job's; 12 h were worked; the fee is not known.
func TestMargins(t *testing.T) {
	to := takeoff.Takeoff{Lines: []takeoff.Line{
		{ID: takeoff.ID{Kind: takeoff.ConcreteOrder}, Name: "Concrete to order", Value: 10, Unit: takeoff.CubicYards},
		{ID: takeoff.ID{Kind: takeoff.Stakes}, Name: "Stakes", Value: 30, Unit: takeoff.Each},
	}}
	p := estimate.PriceList{Wage: d("50"), Tasks: []estimate.Task{{Name: "Work", Each: d("10")}}, Fees: []estimate.Fee{{Name: "Pump", For: estimate.FeePerJob, Amount: estimate.Costs(d("80"))}},
		Items: []estimate.Item{{What: takeoff.ID{Kind: takeoff.ConcreteOrder}, Group: estimate.ReadyMix, Unit: "yd³", Price: estimate.Costs(d("100"))}, {What: takeoff.ID{Kind: takeoff.Stakes}, Group: estimate.Lumber, Unit: "ea", Price: estimate.Costs(d("2")), Uses: 3}}}
	j := Job{Name: "House", Takeoff: to, Estimate: estimate.Of(to, estimate.Spec{Profit: d("25"), TaxOn: estimate.TaxNone}, p)}
	if none, _ := Margins([]Job{j}); len(none) > 0 {
		t.Errorf("a job of which nothing is written down: %+v", none)
	}
	j.Record = Record{Hours: []TaskHours{{"Work", d("12")}}, Invoices: []Invoice{{For: "Concrete to order", Amount: d("700")}, {For: "Concrete to order", Amount: d("400")}, {For: "Stakes", Amount: d("90")}}}
	byJob, byWork := Margins([]Job{j})
	want := map[string][3]string{"Ready-mix": {"1250", "1100", "0"}, "Lumber": {"25", "30", "0"}, "Labor": {"625", "600", "0"}, "Fees and equipment": {"100", "80", "80"}}
	for _, m := range byWork {
		w := want[m.Name]
		if !m.Price.Equal(d(w[0])) || !m.Cost.Equal(d(w[1])) || !m.Unknown.Equal(d(w[2])) {
			t.Errorf("%s: %s, %s, %s; want %v", m.Name, m.Price, m.Cost, m.Unknown, w)
		}
	}
	if m := byJob[0]; len(byWork) != 4 || m.Name != "House" || !m.Price.Equal(d("2000")) || !m.Cost.Equal(d("1810")) || !m.Unknown.Equal(d("80")) {
		t.Errorf("job: %+v", m)
	}
	if p, ok := byJob[0].Percent(); !ok || !p.Equal(d("9.5")) {
		t.Errorf("margin of %s %%", p)
	}
	var costs []string
	for _, c := range Costs(j) {
		costs = append(costs, c.Name+" "+c.Estimated.StringFixed(0)+" "+c.Took.StringFixed(0)+" "+c.Off().StringFixed(0))
	}
	if want := []string{"Concrete to order 1000 1100 100", "Stakes 20 30 10", "Work 500 600 100"}; !slices.Equal(costs, want) {
		t.Errorf("costs %q, want %q", costs, want)
	}
	// One job of December and one of February are one season; one has no day; one of which
	// nothing is written down is left out.
	december, february, spring := j, j, Job{Estimate: j.Estimate, Day: date.Of(2026, 4, 1)}
	december.Day, february.Day = date.Of(2025, 12, 31), date.Of(2026, 2, 1)
	s := Seasons([]Job{j, february, spring, december})
	if len(s) != 2 || s[0].Name != "December to February" || !s[0].Price.Equal(d("4000")) || !s[0].Cost.Equal(d("3620")) || s[1].Name != noDay || !s[1].Price.Equal(d("2000")) {
		t.Errorf("seasons: %+v", s)
	}
	// An invoice for the whole kind of work, of two jobs.
	j.Record.Invoices = []Invoice{{For: "Fees and equipment", Amount: d("100")}}
	_, byWork = Margins([]Job{j, j})
	if m := byWork[3]; !m.Price.Equal(d("200")) || !m.Cost.Equal(d("200")) || !m.Unknown.IsZero() {
		t.Errorf("fees of two jobs: %+v", m)
	}
}

func TestValidate(t *testing.T) {
	for want, r := range map[string]Record{
		"":            {Ordered: d("10"), Delivered: d("10"), Left: known("1")},
		"delivered":   {Delivered: d("-1")},
		"left":        {Delivered: d("1"), Left: known("2")},
		"invoices[0]": {Invoices: []Invoice{{Amount: d("3")}}},
		"hours[0]":    {Hours: []TaskHours{{"", d("1")}}},
	} {
		err := r.Validate()
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", r, err, want)
		}
	}
}
