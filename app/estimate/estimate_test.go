package estimate

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// example is the takeoff of the worked example.
func example() takeoff.Takeoff {
	const ft = geometry.Foot
	one := func(id takeoff.ID, v float64, u takeoff.Unit) takeoff.Line {
		return takeoff.Line{ID: id, Name: id.Text(geometry.FeetInches), Value: v, Unit: u}
	}
	line := func(k takeoff.Kind, v float64, u takeoff.Unit) takeoff.Line { return one(takeoff.ID{Kind: k}, v, u) }
	return takeoff.Takeoff{Loads: []decimal.Decimal{d("10"), d("1.25")}, Mix: takeoff.Mix{Strength: 3250, Air: 6}, Lines: []takeoff.Line{
		line(takeoff.ConcreteNet, 10.5, takeoff.CubicYards),
		line(takeoff.ConcreteOrder, 11.25, takeoff.CubicYards),
		line(takeoff.ConcreteTrucks, 2, takeoff.Each),
		line(takeoff.SlabArea, 479.9999999999998, takeoff.SquareFeet),
		line(takeoff.Fibers, 16.875, takeoff.Pounds),
		one(takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * ft}, 9, takeoff.Each),
		one(takeoff.ID{Kind: takeoff.YardBars, Bar: 4, Length: 20 * ft}, 3, takeoff.Each),
		one(takeoff.ID{Kind: takeoff.BarStock, Bar: 5, Length: 30 * ft}, 2, takeoff.Each),
		line(takeoff.Chairs, 0, takeoff.Each),
		line(takeoff.FormLength, 70.5, takeoff.Feet),
		one(takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12", Length: 16 * ft}, 5, takeoff.Each),
		line(takeoff.Stakes, 31, takeoff.Each),
		line(takeoff.GravelVolume, 6.2372, takeoff.CubicYards),
		line(takeoff.GravelWeight, 8.7321, takeoff.Tons),
		line(takeoff.AnchorBolts, 26, takeoff.Each),
	}}
}

func exampleSpec() Spec {
	return Spec{
		Overhead: d("12.5"), Profit: d("15"), Tax: d("6.375"), Mobilization: d("150"),
		Extras: []Extra{{Name: "Trench drain", Amount: d("312.45"), Material: true}, {Name: "Rock allowance", Amount: d("-75.5")}},
	}
}

func examplePrices(t testing.TB) PriceList {
	t.Helper()
	data, err := os.ReadFile("testdata/worked-example.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := ReadPrices(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestWorkedExample compares every line and total with an example that was
// worked by hand.
func TestWorkedExample(t *testing.T) {
	f, err := os.Open("testdata/worked-example.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	e := Of(example(), exampleSpec(), examplePrices(t))
	totals := map[string]decimal.Decimal{
		"Materials": e.Materials, "Labor": e.Labor, "Fees": e.Fees, "Extras": e.Extras, "Hours": e.Hours, "Cost": e.Cost,
		"Overhead": e.Overhead, "Profit": e.Profit, "Price": e.Price, "Taxed": e.Taxed, "Tax": e.Tax, "Bid": e.Bid,
	}
	lines, seen := e.Lines, 0
	scan, inTotals := bufio.NewScanner(f), false
	for scan.Scan() {
		text := scan.Text()
		if strings.HasPrefix(text, "#") {
			inTotals = inTotals || text == "# totals"
			continue
		}
		col := strings.Split(text, "\t")
		if inTotals {
			if got := totals[col[0]]; !got.Equal(d(col[1])) {
				t.Errorf("%s is %s, by hand %s", col[0], got, col[1])
			}
			seen++
			continue
		}
		if len(lines) == 0 {
			t.Fatalf("no line for %s", text)
		}
		l := lines[0]
		lines = lines[1:]
		got := []string{string(l.Kind), l.Name, l.Need.String(), l.Quantity.String(), l.Price.StringFixed(2), fmt.Sprint(l.Uses), l.Extended.StringFixed(2)}
		if diff := cmp.Diff(col[:7], got); diff != "" {
			t.Errorf("by hand (-) and computed (+): %s", diff)
		}
	}
	if len(lines) > 0 || seen != len(totals) {
		t.Errorf("%d lines and %d totals are not in the example", len(lines), len(totals)-seen)
	}
	if not := e.Draft(time.Time{}); len(not) > 0 {
		t.Errorf("a draft: %v", not)
	}
}

// A mix is priced as the least strength on the list that is as strong; a list
// that prices no strengths charges the same for all; one that ends below the
// strength asked wants a price.
func TestMix(t *testing.T) {
	isMix := func(k takeoff.Kind) bool {
		return k == takeoff.MixStrength || k == takeoff.MixAir || k == takeoff.MixReducer
	}
	list := examplePrices(t)
	none := examplePrices(t)
	none.Items = slices.DeleteFunc(none.Items, func(it Item) bool { return isMix(it.What.Kind) })
	for _, c := range []struct {
		mix    takeoff.Mix
		prices PriceList
		keys   string
		wants  int
	}{
		{takeoff.Mix{Strength: 2500}, list, "", 0},
		{takeoff.Mix{Strength: 3000}, list, "", 0},
		{takeoff.Mix{Strength: 3001}, list, "Mix of 3500 psi, beyond the base price", 0},
		{takeoff.Mix{Strength: 3500, Air: 6}, list, "Mix of 3500 psi, beyond the base price; Entrained air", 0},
		{takeoff.Mix{Strength: 4000, Reducer: true}, list, "Mix of 4000 psi, beyond the base price", 0}, // the list does not charge for the reducer
		{takeoff.Mix{Strength: 4500}, list, "", 1},
		{takeoff.Mix{Strength: 4500, Air: 6}, none, "", 0},
	} {
		to := example()
		to.Mix = c.mix
		e := Of(to, exampleSpec(), c.prices)
		var keys []string
		for _, l := range e.Lines {
			if isMix(l.ID.Kind) {
				keys = append(keys, l.Name)
				if l.Group != ReadyMix || !l.Quantity.Equal(d("11.25")) {
					t.Errorf("%+v: %+v", c.mix, l)
				}
			}
		}
		if got := strings.Join(keys, "; "); got != c.keys || len(e.Draft(time.Time{})) != c.wants {
			t.Errorf("%+v is priced by %q, a draft for %v", c.mix, got, e.Draft(time.Time{}))
		}
	}
}

func TestProfitAsMargin(t *testing.T) {
	s := exampleSpec()
	s.ProfitAs, s.Profit = Margin, d("20")
	e := Of(example(), s, examplePrices(t))
	// A margin of a fifth of the price is a quarter of what the job costs.
	if want := d("1306.09"); !e.Profit.Equal(want) { // 5224.37 / 4 = 1306.0925
		t.Errorf("profit is %s, want %s", e.Profit, want)
	}
	if share := e.Profit.Div(e.Price).Round(4); !share.Equal(d("0.2")) {
		t.Errorf("profit is %s of the price", share)
	}
}

func TestTaxOn(t *testing.T) {
	for on, want := range map[TaxOn]string{TaxMaterials: "189.06", TaxAll: "383.01", TaxNone: "0"} { // 6.375 % of 6008.03 = 383.0119
		s := exampleSpec()
		s.TaxOn = on
		if e := Of(example(), s, examplePrices(t)); !e.Tax.Equal(d(want)) {
			t.Errorf("tax on %v is %s, want %s", on, e.Tax, want)
		}
	}
}

func TestWhatOthersSupplyIsListedNotCharged(t *testing.T) {
	s := exampleSpec()
	s.Others = []takeoff.ID{{Kind: takeoff.BarStock}}
	e := Of(example(), s, examplePrices(t))
	n := 0
	for _, l := range e.Lines {
		if l.ByOthers {
			n++
			if !l.Extended.IsZero() {
				t.Errorf("%s by others costs %s", l.Name, l.Extended)
			}
		}
	}
	if n != 2 {
		t.Errorf("%d lines by others, want 2", n)
	}
}

func TestTheJobsOwnPricesGoFirst(t *testing.T) {
	s := exampleSpec()
	s.Prices = examplePrices(t)
	kept := Of(example(), s, Starting(geometry.FeetInches))
	if want := Of(example(), exampleSpec(), examplePrices(t)); !kept.Bid.Equal(want.Bid) {
		t.Errorf("the bid became %s after the list changed, it was %s", kept.Bid, want.Bid)
	}
}

func TestEveryLineHasAWorking(t *testing.T) {
	e := Of(example(), exampleSpec(), examplePrices(t))
	for _, l := range e.Lines {
		last := l.Working[len(l.Working)-1]
		if !strings.HasSuffix(last.Result, Thousands(l.Extended.Abs().StringFixed(2))) {
			t.Errorf("%s: the working ends in %q, the amount is %s", l.Name, last.Result, l.Extended)
		}
	}
	if last := e.Working[len(e.Working)-1]; last.Result != e.Money(e.Bid) {
		t.Errorf("the working ends in %q", last.Result)
	}
}

func TestSumsAreOfWhatIsShown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := func(label string, most int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(t, label), -3)
		}
		to := example()
		for i := range to.Lines {
			to.Lines[i].Value = float64(rapid.IntRange(0, 9_999_999).Draw(t, "value")) / 1000
		}
		s := Spec{Overhead: cents("overhead", 99_999), Profit: cents("profit", 90_000), Tax: cents("tax", 20_000), Mobilization: cents("mob", 999_999)}
		s.ProfitAs = ProfitAs(rapid.IntRange(0, 1).Draw(t, "as"))
		s.TaxOn = TaxOn(rapid.IntRange(0, 2).Draw(t, "on"))
		p := Starting(geometry.FeetInches)
		for i := range p.Items {
			p.Items[i].Price = Costs(cents("price", 500_000))
		}
		e := Of(to, s, p)
		sum := decimal.Zero
		for _, l := range e.Lines {
			if !l.Extended.Equal(l.Extended.Round(2)) {
				t.Fatalf("%s is %s", l.Name, l.Extended)
			}
			if l.Kind == Material && !l.ID.IsZero() && l.Quantity.Mul(l.Pack).Add(d("0.000001")).LessThan(l.Need) {
				t.Fatalf("%s: %s of %s bought for %s needed", l.Name, l.Quantity, l.Pack, l.Need)
			}
			sum = sum.Add(l.Extended)
		}
		if !sum.Equal(e.Cost) {
			t.Fatalf("the lines come to %s, the cost is %s", sum, e.Cost)
		}
		if got := decimal.Sum(e.Cost, e.Overhead, e.Profit, e.Tax); !got.Equal(e.Bid) {
			t.Fatalf("cost, overhead, profit and tax come to %s, the bid is %s", got, e.Bid)
		}
	})
}

// A plant charges for what each truck brings below its least load: by hand.
func TestShortLoads(t *testing.T) {
	list := examplePrices(t)
	list.Fees = []Fee{{Name: "Short load", For: FeeShortLoad, Least: d("4"), Amount: Costs(d("20"))}}
	for _, c := range []struct {
		order string
		loads takeoff.Loads
		short string // of the least loads, all together
	}{
		{"11.25", takeoff.Full, "2.75"}, // 10 and 1.25
		{"11.25", takeoff.Balanced, "0"},
		{"20", takeoff.Full, "0"},
		{"3", takeoff.Balanced, "1"},
		{"3", takeoff.Full, "1"},
		{"30.25", takeoff.Full, "3.75"}, // three of 10 and 0.25
	} {
		to := example()
		for i, l := range to.Lines {
			if l.ID.Kind == takeoff.ConcreteOrder {
				to.Lines[i].Value = d(c.order).InexactFloat64()
			}
		}
		var err error
		if to.Loads, err = (takeoff.Order{Step: d("0.25"), Truck: d("10"), Loads: c.loads}).Split(d(c.order)); err != nil {
			t.Fatal(err)
		}
		short := decimal.Zero
		for _, l := range Of(to, Spec{}, list).Lines {
			if l.Name == "Short load" {
				short = l.Quantity
			}
		}
		if !short.Equal(d(c.short)) {
			t.Errorf("%s by %s: short of %s, by hand %s", c.order, c.loads, short, c.short)
		}
	}
}

func TestStartingLists(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		p := Starting(u)
		if !p.Invented || p.Units != u || !strings.Contains(p.Name, "invented") {
			t.Errorf("%v: the starting list does not say that it is invented", u)
		}
		again, err := ReadPrices(p.Encode())
		if err != nil {
			t.Error(err)
		}
		if diff := cmp.Diff(p, again, cmp.Comparer(decimal.Decimal.Equal)); diff != "" {
			t.Errorf("%v: %s", u, diff)
		}
	}
}

func TestFaultsOfPriceLists(t *testing.T) {
	for name, c := range map[string]struct{ list, want string }{
		"unknown field": {`{"name":"x","wages":"3"}`, "wages"},
		"cut short":     {"{\n\n\"name\":", "line 3"},
		"two lists":     {`{"name":"x"}{}`, "one list"},
		"no kind":       {`{"items":[{"what":{},"name":"n","unit":"u","group":"Steel"}]}`, "items[0].what.kind"},
		"kind":          {`{"items":[{"what":{"kind":"rope"},"name":"n","unit":"u","group":"Steel"}]}`, `found "rope", no kind of quantity`},
		"attribute":     {`{"items":[{"what":{"kind":"bar","gauge":4},"name":"n","unit":"u","group":"Steel"}]}`, `"gauge"`},
		"no strength":   {`{"items":[{"what":{"kind":"mix strength"},"name":"n","unit":"u","group":"Steel"}]}`, "what.strength"},
		"group":         {`{"items":[{"what":{"kind":"chair"},"name":"n","unit":"u","group":"Tools"}]}`, "Hardware"},
		"twice":         {`{"items":[{"what":{"kind":"chair"},"name":"n","unit":"u","group":"Steel"},{"what":{"kind":"chair"},"name":"n","unit":"u","group":"Steel"}]}`, "second time"},
		"negative":      {`{"items":[{"what":{"kind":"chair"},"name":"n","unit":"u","group":"Steel","price":"-1"}]}`, "items[0].price: found -1; must be 0 or more"},
		"task twice":    {`{"tasks":[{"name":"Saw"},{"name":"Saw"}]}`, "tasks[1].name"},
		"fee twice":     {`{"fees":[{"name":"Toll","for":"job"},{"name":"Toll","for":"job"}]}`, "fees[1].name"},
		"no rate":       {`{"tasks":[{"name":"Saw","what":{"kind":"saw cut"}}]}`, "tasks[0].rate"},
		"endless":       {`{"wage":"1e99"}`, "too many digits"},
		"fee":           {`{"fees":[{"name":"Toll","for":"mile"}]}`, "short load"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := ReadPrices([]byte(c.list)); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want it to name %q", err, c.want)
			}
		})
	}
}

func FuzzReadPrices(f *testing.F) {
	f.Add(Starting(geometry.FeetInches).Encode())
	f.Add([]byte(`{"items":[{"key":"*","price":1e999999}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := ReadPrices(data)
		if err != nil {
			return
		}
		Of(example(), exampleSpec(), p)
	})
}

func BenchmarkOf(b *testing.B) {
	t, s, p := example(), exampleSpec(), examplePrices(b)
	for b.Loop() {
		Of(t, s, p)
	}
}
