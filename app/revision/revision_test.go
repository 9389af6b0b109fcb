package revision

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func demo(t *testing.T) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

// with is a job with the built-in prices.
func with(j job.Job) State { return State{j, estimate.Starting(j.Units)} }

func TestChangesInWords(t *testing.T) {
	at := func(x, y geometry.Length) plan.Edge { return plan.Edge{At: geometry.Point{X: x, Y: y}} }
	for name, c := range map[string]struct {
		edit func(*job.Job)
		want []Change
	}{
		"nothing":       {func(j *job.Job) {}, nil},
		"customer":      {func(j *job.Job) { j.Customer = "" }, []Change{{"customer", "Sample customer", "none"}}},
		"edge depth":    {func(j *job.Job) { j.Slabs[0].Sections[0].Depth = 16 * inch }, []Change{{"section Edge 12, depth from top", `1'-0"`, `1'-4"`}}},
		"by a hair":     {func(j *job.Job) { j.Slabs[0].Field++ }, []Change{{"field thickness", `6"`, "152.400001 mm"}}},
		"door":          {func(j *job.Job) { j.Slabs[0].Outline[0].Doors[0].Width = 14 * foot }, []Change{{"edge 1, door D1, rough opening", `12'-0"`, `14'-0"`}}},
		"corner moved":  {func(j *job.Job) { j.Slabs[0].Outline[1].At.X = 23 * foot }, []Change{{"edge 2, corner", `(22'-6", 0")`, `(23'-0", 0")`}}},
		"pad added":     {func(j *job.Job) { j.Slabs[0].Pads = []plan.Pad{{Name: "P1", Width: 2 * foot, Depth: foot}} }, []Change{{"pad P1", "", `width: 2'-0"; depth from top: 1'-0"`}}},
		"section gone":  {func(j *job.Job) { j.Slabs[0].Sections = j.Slabs[0].Sections[:1] }, []Change{{"section Door 16", `depth from top: 1'-4"; flat bottom: 1'-2"; taper: 10"`, ""}}},
		"corner added":  {func(j *job.Job) { j.Slabs[0].Outline = slices.Insert(j.Slabs[0].Outline, 1, at(10*foot, -foot)) }, []Change{{"edge 2", "", `corner: (10'-0", -1'-0")`}}},
		"waste":         {func(j *job.Job) { j.Spec.Order.Waste = decimal.NewFromInt(8) }, []Change{{"ordering, waste", "5 %", "8 %"}}},
		"bolt spacing":  {func(j *job.Job) { j.Spec.Place.Bolts.Spacing = 4 * foot }, []Change{{"anchor bolts, spacing, at most", demo(t).Spec.Place.Bolts.Spacing.Text(geometry.FeetInches), `4'-0"`}}},
		"profit":        {func(j *job.Job) { j.Price.ProfitAs = estimate.Margin }, []Change{{"profit as", "markup, % of cost", "margin, % of price"}}},
		"extra":         {func(j *job.Job) { j.Price.Extras = []estimate.Extra{{Name: "Drain", Amount: decimal.NewFromInt(90)}} }, []Change{{"extra Drain", "", "amount: 90"}}},
		"weathering":    {func(j *job.Job) { j.Spec.Mix.Reducer = !j.Spec.Mix.Reducer }, []Change{{"concrete mix, water reducer", "yes", "no"}}},
		"several at it": {func(j *job.Job) { j.Name, j.Slabs[0].Field = "New", 5*inch }, []Change{{"name", "Shop addition, Lot 7", "New"}, {"field thickness", `6"`, `5"`}}},
	} {
		t.Run(name, func(t *testing.T) {
			is := demo(t)
			is.Slabs[0] = is.Slabs[0].Clone()
			c.edit(&is)
			d := Compare(t.Context(), with(demo(t)), with(is))
			got := slices.Concat(d.Job, d.Plan, d.Spec, d.Pricing)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
			if d.Same() != (c.want == nil) {
				t.Errorf("Same is %v", d.Same())
			}
		})
	}
}

func TestAmounts(t *testing.T) {
	old, is := demo(t), demo(t)
	is.Slabs[0] = is.Slabs[0].Clone()
	is.Slabs[0].Sections[0].Depth = 20 * inch
	d := Compare(t.Context(), with(old), with(is))
	find := func(list []Amount, name string) Amount {
		i := slices.IndexFunc(list, func(a Amount) bool { return a.Name == name })
		if i < 0 {
			t.Fatalf("no %s among %v", name, list)
		}
		return list[i]
	}
	if c := find(d.Quantities, "Concrete in place"); !c.Diff().IsPositive() || c.Unit != "yd³" {
		t.Errorf("concrete: %+v", c)
	}
	if bid := find(d.Price, "Bid"); !bid.Diff().IsPositive() {
		t.Errorf("bid: %+v", bid)
	}
	is.Slabs[0].Field = -inch
	if d := Compare(t.Context(), with(old), with(is)); d.Untaken == nil || d.Same() || len(d.Plan) == 0 {
		t.Errorf("with a fault: %+v", d)
	}
}

// A state that keeps its prices is compared with the list that applied to one
// that keeps none: what is the same in both is no change.
func TestKeptPricesAgainstTheListThatApplied(t *testing.T) {
	list := estimate.Starting(geometry.FeetInches)
	kept := demo(t)
	kept.Price.Prices = list
	if d := Compare(t.Context(), with(demo(t)), with(kept)); !d.Same() {
		t.Errorf("keeping the list that applied changes %+v, %+v", d.Pricing, d.Price)
	}
	if d := Compare(t.Context(), with(kept), with(demo(t))); !d.Same() {
		t.Errorf("going back to the list that applies changes %+v, %+v", d.Pricing, d.Price)
	}
	dearer := estimate.Starting(geometry.FeetInches)
	dearer.Date, dearer.Items[0].Date = "2026-07-01", "2026-07-01"
	dearer.Items[0].Price = estimate.Costs(dearer.Items[0].Price.To.Add(decimal.NewFromInt(10)))
	for name, c := range map[string]struct{ was, is State }{
		"the book's list changed":   {with(demo(t)), State{demo(t), dearer}},
		"since the bid kept its":    {with(kept), State{demo(t), dearer}},
		"kept with another price":   {with(demo(t)), with(func() job.Job { j := demo(t); j.Price.Prices = dearer; return j }())},
		"both keep, the lists rest": {State{kept, estimate.PriceList{}}, State{func() job.Job { j := demo(t); j.Price.Prices = dearer; return j }(), list}},
	} {
		d := Compare(t.Context(), c.was, c.is)
		want := []Change{{"price list, item " + list.Items[0].Name + ", price", list.Items[0].Price.To.String(), dearer.Items[0].Price.To.String()}}
		if diff := cmp.Diff(want, d.Pricing); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
		if !slices.ContainsFunc(d.Price, func(a Amount) bool { return a.Name == "Materials" && a.Diff().IsPositive() }) {
			t.Errorf("%s: the sums are %+v", name, d.Price)
		}
	}
	metric := demo(t)
	metric.Units = geometry.Millimeters
	if d := Compare(t.Context(), with(demo(t)), with(metric)); len(d.Pricing) != 0 {
		t.Errorf("in other units %d prices are called changed", len(d.Pricing))
	}
}

func TestPrices(t *testing.T) {
	old := estimate.Starting(geometry.FeetInches)
	is := estimate.Starting(geometry.FeetInches)
	is.Date, is.Wage = "2026-04-01", decimal.NewFromInt(60)
	is.Items[0].Price = estimate.Costs(decimal.NewFromInt(175))
	gone := is.Items[len(is.Items)-1]
	is.Items = is.Items[:len(is.Items)-1]
	var got []string
	for _, c := range Prices(old, is) {
		got = append(got, strings.Join([]string{c.Name, c.Was.String(), c.Is.String(), c.Date}, " "))
	}
	want := []string{"Concrete to order 168.00 175.00 2026-04-01", gone.Name + " " + gone.Price.String() + " no price 2026-04-01", "Wage per labor hour 54.00 60.00 2026-04-01"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
