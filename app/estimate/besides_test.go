package estimate

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// A price list takes what no drawing shows where it has it in use, fees and work by how
// concrete is placed, and percentages of what stands before them. By hand: 11.25 yd³ on
// 2 trucks, 480 ft², at a wage of 50 with 4 people.
func TestWhatAListUses(t *testing.T) {
	to := example()
	to.Besides = []takeoff.Line{{ID: takeoff.ID{Kind: takeoff.CuringCompound}, Name: "Curing compound", Value: 480, Unit: takeoff.SquareFeet},
		{ID: takeoff.ID{Kind: takeoff.Sealer}, Name: "Sealer", Value: 480, Unit: takeoff.SquareFeet}, {ID: takeoff.ID{Kind: takeoff.HaulOff}, Name: "Hauling off", Value: 10, Unit: takeoff.CubicYards}}
	concrete := takeoff.ID{Kind: takeoff.ConcreteOrder}
	p := PriceList{Units: geometry.FeetInches, Currency: "$", Wage: d("50"), Crew: 4, CrewDay: d("0.5"),
		Items: []Item{
			{What: takeoff.ID{Kind: takeoff.CuringCompound}, Group: Hardware, Unit: "pail", Of: takeoff.SquareFeet, Pack: d("200"), Price: Costs(d("30"))}, // 3 pails: 90
			{What: takeoff.ID{Kind: takeoff.Sealer}, Group: Hardware, Unit: "pail", Of: takeoff.SquareFeet, Pack: d("200"), Price: Costs(d("99")), Off: true},
		},
		Tasks: []Task{
			{Name: "Place", What: concrete, Of: takeoff.CubicYards, Rate: d("0.75")}, // 15 h: 750
			{Name: "Wheel", What: concrete, Of: takeoff.CubicYards, Rate: d("1"), Method: "buggy"},
			{Name: "Wash", Each: d("1"), Off: true},
			// And 1 h to 16, half a day of four: 50.
		},
		Fees: []Fee{
			{Name: "Pump", For: FeePerUnit, What: concrete, Of: takeoff.CubicYards, Amount: Costs(d("4")), Method: "pump"},               // 45
			{Name: "Cylinders", For: FeePerUnit, What: concrete, Of: takeoff.CubicYards, Pack: d("5"), Amount: Costs(d("10"))},           // 3 × 10
			{Name: "Compactor", For: FeeOnce, What: takeoff.ID{Kind: takeoff.GravelVolume}, Amount: Costs(d("70"))},                      // 70
			{Name: "Saw", For: FeeOnce, What: takeoff.ID{Kind: takeoff.SawCuts}, Amount: Costs(d("25"))},                                 // no cuts
			{Name: "Reserve", For: FeeOfCost, Amount: Costs(d("10"))},                                                                    // of 90+800+45+30+70+40+20+55+80+100: 133
			{Name: "Hauling", For: FeePerUnit, What: takeoff.ID{Kind: takeoff.HaulOff}, Of: takeoff.CubicYards, Amount: Costs(d("5.5"))}, // 55
			{Name: "Travel", For: FeePerDay, Amount: Costs(d("20"))},                                                                     // 16 h are half a day: 20
			{Name: "Overtime", For: FeeOfLabor, Amount: Costs(d("5"))},                                                                   // 40
			{Name: "Permit", For: FeePerJob, Amount: Costs(d("180")), Off: true},
		}}
	s := Spec{Mobilization: d("80"), Extras: []Extra{{Name: "Gate", Amount: d("100")}}, Placed: "pump"}
	e := Of(to, s, p)
	of := func(e Estimate, name string) string {
		i := slices.IndexFunc(e.Lines, func(l Line) bool { return l.Name == name })
		if i < 0 {
			return "none"
		}
		return e.Lines[i].Extended.String()
	}
	for name, want := range map[string]string{
		"Curing compound": "90", "Sealer": "none", "Place": "750", "Wheel": "none", "Wash": "none", ToDays: "50", "Pump": "45", "Cylinders": "30", "Compactor": "70", "Saw": "none",
		"Hauling": "55", "Travel": "20", "Overtime": "40", "Permit": "none", "Reserve": "133", "Gate": "100",
	} {
		if got := of(e, name); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
	if e.Cost.String() != "1463" || e.Fees.String() != "473" || e.Lines[len(e.Lines)-1].Name != "Gate" {
		t.Errorf("cost %s, fees %s, last %s", e.Cost, e.Fees, e.Lines[len(e.Lines)-1].Name)
	}
	s.Placed = "buggy"
	if e := Of(to, s, p); of(e, "Pump") != "none" || of(e, "Wheel") != "562.5" {
		t.Errorf("by buggy: pump %s, wheeling %s", of(e, "Pump"), of(e, "Wheel"))
	}
}

// From cost to bid with a markup of each kind of cost, a least charge and a round bid, by
// hand: materials 90, labor 600 and a fee of 10 cost 700.
func TestMarkupLeastAndRound(t *testing.T) {
	to := example()
	to.Lines = []takeoff.Line{{ID: takeoff.ID{Kind: takeoff.Stakes}, Name: "Stakes", Value: 9, Unit: takeoff.Each}}
	p := PriceList{Wage: d("60"), Crew: 1, Items: []Item{{What: takeoff.ID{Kind: takeoff.Stakes}, Unit: "stake", Price: Costs(d("10"))}}, Tasks: []Task{{Name: "Work", Each: d("10")}}, Fees: []Fee{{Name: "Fee", For: FeePerJob, Amount: Costs(d("10"))}}}
	for _, c := range []struct {
		name                                     string
		spec                                     Spec
		markup, profit, raised, price, tax, paid string
	}{
		{"none", Spec{Overhead: d("10"), Profit: d("10")}, "0", "77", "0", "847", "0", "847"},
		// 9 + 120 + 0.5; 10 % of 700 + 70 + 129.5.
		{"markups", Spec{Overhead: d("10"), Profit: d("10"), MarkupMaterials: d("10"), MarkupLabor: d("20"), MarkupFees: d("5")}, "129.5", "89.95", "0", "989.45", "0", "989.45"},
		{"least charge", Spec{Least: d("1500"), Tax: d("5"), TaxOn: TaxAll}, "0", "0", "800", "1500", "75", "1575"},
		{"more than the least", Spec{Least: d("600"), TaxOn: TaxNone}, "0", "0", "0", "700", "0", "700"},
		// Tax of 4.5 on materials is in the bid that is made round, 750.
		{"round with tax on materials", Spec{Tax: d("5"), Round: d("50")}, "0", "0", "45.5", "745.5", "4.5", "750"},
		{"round price with tax on all", Spec{Tax: d("5"), TaxOn: TaxAll, Round: d("40")}, "0", "0", "20", "720", "36", "756"},
		{"round as it is", Spec{TaxOn: TaxNone, Round: d("100")}, "0", "0", "0", "700", "0", "700"},
	} {
		e := Of(to, c.spec, p)
		for what, g := range map[string][2]string{"markup": {e.Markup.String(), c.markup}, "profit": {e.Profit.String(), c.profit}, "raised": {e.Raised.String(), c.raised}, "price": {e.Price.String(), c.price}, "tax": {e.Tax.String(), c.tax}, "bid": {e.Bid.String(), c.paid}} {
			if g[0] != g[1] {
				t.Errorf("%s: %s %s, want %s", c.name, what, g[0], g[1])
			}
		}
	}
}

// A list with what another has comes to no more until it is used.
func TestComplete(t *testing.T) {
	full := Starting(geometry.FeetInches)
	old := full
	old.Items, old.Tasks, old.Fees = full.Items[:5], full.Tasks[:2], full.Fees[:1]
	now := old.Complete(full)
	if len(now.Items) != len(full.Items) || len(now.Tasks) != len(full.Tasks) || len(now.Fees) != len(full.Fees) || len(old.Items) != 5 {
		t.Errorf("%d items, %d tasks, %d fees", len(now.Items), len(now.Tasks), len(now.Fees))
	}
	if a, b := Of(example(), exampleSpec(), old), Of(example(), exampleSpec(), now); !a.Bid.Equal(b.Bid) || a.Bid.Equal(decimal.Zero) {
		t.Errorf("bid %s, was %s", b.Bid, a.Bid)
	}
}
