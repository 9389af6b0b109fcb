package handover_test

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
)

// Three jobs priced line by line by a script that shares nothing with this program,
// each line with how it is found in words: testdata/priced/price.py. All lines are
// there, none besides, and every amount is the same to the cent.
func TestPricedByHand(t *testing.T) {
	const dir = "../../testdata/priced/"
	for name, list := range map[string]string{"patio": "feet", "garage": "feet", "addition": "metric"} {
		t.Run(name, func(t *testing.T) {
			f, err := os.Open(dir + name + ".json")
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			j, err := job.Read(f)
			if err != nil {
				t.Fatal(err)
			}
			data, err := os.ReadFile(dir + list + ".json")
			if err != nil {
				t.Fatal(err)
			}
			p, err := estimate.ReadPrices(data)
			if err != nil {
				t.Fatal(err)
			}
			table, err := os.Open(dir + name + ".csv")
			if err != nil {
				t.Fatal(err)
			}
			defer table.Close()
			rows, err := csv.NewReader(table).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			e, err := handover.Of(handover.From{Job: j, Prices: p}).Estimate(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			byHand(t, e, rows[1:])
		})
	}
}

func byHand(t *testing.T, e estimate.Estimate, rows [][]string) {
	sums := map[string]decimal.Decimal{"Cost": e.Cost, "Overhead": e.Overhead, "Markup": e.Markup, "Profit": e.Profit, "Price": e.Price, "Tax": e.Tax, "Bid": e.Bid}
	kinds := map[estimate.Kind]string{estimate.Material: "Material", estimate.Labor: "Labor", estimate.Charge: "Fee", estimate.Equipment: "Fee"}
	lines := map[[2]string]estimate.Line{}
	for _, l := range e.Lines {
		lines[[2]string{kinds[l.Kind], l.Name}] = l
	}
	for _, r := range rows {
		kind, name, amount := r[0], r[1], dollars(r[4])
		if kind == "Sum" {
			if !sums[name].Equal(amount) {
				t.Errorf("%s: %s, by hand %s (%s)", name, sums[name], amount, r[5])
			}
			delete(sums, name)
			continue
		}
		at := [2]string{kind, name}
		l, ok := lines[at]
		if !ok {
			t.Errorf("no line %s, which comes to %s by hand (%s)", name, amount, r[5])
			continue
		}
		delete(lines, at)
		need, bought := dollars(r[2]), dollars(r[3])
		if kind != "Fee" && !l.Need.IsZero() && math.Abs(l.Need.Sub(need).InexactFloat64()) > 2e-6 || l.Quantity.Sub(bought).Abs().GreaterThan(dollars("0.000002")) || !l.Extended.Equal(amount) {
			t.Errorf("%s: %s, %s, %s; by hand %s, %s, %s (%s)", name, l.Need, l.Quantity, l.Extended, need, bought, amount, r[5])
		}
	}
	for at, l := range lines {
		t.Errorf("%s at %s is not among the lines by hand", at[1], l.Extended)
	}
	for name := range sums {
		t.Errorf("no sum %s by hand", name)
	}
}
