package actual

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// pour is a job of 10 yd³ with 100 ft of forms, estimated at 5 % waste and 10 ft
// of forms an hour with half an hour besides.
func pour(delivered, left, formHours string) Job {
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
		Record: Record{Ordered: d("11"), Delivered: d(delivered), Left: d(left), Trucks: 2, Hours: []TaskHours{{"Set forms", d(formHours)}}},
	}
}

func TestAgainst(t *testing.T) {
	rows := map[string]Row{}
	for _, r := range Against(pour("11", "0.3", "8.5")) {
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
	jobs := []Job{pour("10.4", "0", "8.5"), pour("10.8", "0.2", "10.5"), pour("10.8", "0", "5.5")}
	got := Learn(jobs)
	if len(got) != 2 || got[0].Name != "Waste" {
		t.Fatalf("lessons are %+v", got)
	}
	w := got[0]
	if !w.Mean.Equal(d("6")) || !w.Spread.Equal(d("2")) || !w.Least.Equal(d("4")) || !w.Most.Equal(d("8")) || !w.Now.Equal(d("5")) || !w.Offered {
		t.Errorf("waste: %+v", w)
	}
	// 100 ft in 8, 10 and 5 hours: 12.5, 10 and 20 ft/h.
	f := got[1]
	if f.Unit != "ft/h" || !f.Mean.Equal(d("14.17")) || !f.Least.Equal(d("10")) || !f.Most.Equal(d("20")) || !f.Spread.Equal(d("5.2")) || !f.Now.Equal(d("10")) {
		t.Errorf("forms: %+v", f)
	}
	if one := Learn(jobs[:1]); one[0].Offered || !one[0].Spread.IsZero() {
		t.Errorf("one job is enough: %+v", one[0])
	}
	if none := Learn(nil); len(none) != 0 {
		t.Errorf("no jobs teach %+v", none)
	}
}

func TestValidate(t *testing.T) {
	for want, r := range map[string]Record{
		"":          {Ordered: d("10"), Delivered: d("10"), Left: d("1")},
		"delivered": {Delivered: d("-1")},
		"left":      {Delivered: d("1"), Left: d("2")},
		"hours[0]":  {Hours: []TaskHours{{"", d("1")}}},
	} {
		err := r.Validate()
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", r, err, want)
		}
	}
}
