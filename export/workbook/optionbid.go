package workbook

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// cells gives where an option's concrete stands.
func (t optionTable) cells(col string) concreteCells {
	return concreteCells{fmt.Sprint(col, t.net), fmt.Sprint(col, t.order), fmt.Sprint(col, t.trucks), fmt.Sprint(col, t.dose)}
}

// per says what a fee without a quantity is counted by.
func (w *optionWriter) per(f estimate.Fee, concrete string) string {
	switch f.For {
	case estimate.FeeShortLoad:
		return concrete
	case estimate.FeePerDay:
		return "day"
	case estimate.FeeOfLabor, estimate.FeeOfCost:
		return "%"
	}
	return "job"
}

func (w *optionWriter) fees() {
	b, p, at := w.b, w.p, w.at
	unit := string(b.line(takeoff.ConcreteOrder).Unit)
	others := len(at.fees)
	for others > 0 && ofCost(at.fees[others-1]) == 1 {
		others--
	}
	p.band("Fees and equipment: quantities")
	for i, f := range at.fees {
		w.row(f.Name, firstOf(string(f.Of), w.per(f, unit)), [3]cell{}, func(col string, o estimate.Outcome) cell {
			l, ok := feeLine(o.Estimate, f.Name)
			if f.For != estimate.FeeShortLoad && (!ok || l.Unpriced) {
				return dec(decimal.Zero, general)
			}
			cost := fmt.Sprintf("%s%d+AddedMaterials+MaterialExtras+%s%d+ExtraTotal+Mobilization+SUM(AddedFees)+%s", col, at.materialTotal, col, at.wages, span("SUM(%s)", col, at.feeAmount, others))
			return b.charges(f, l, fmt.Sprint("$D", at.feeAmount+i), at.cells(col), fmt.Sprint(col, at.last), fmt.Sprint(col, at.hours), fmt.Sprint(col, at.wages), cost)
		})
	}
	p.gap()
	p.band("Fees and equipment: amounts")
	for i, f := range at.fees {
		row := p.row + 1
		rate, least := input(f.Amount.To, b.money()), text("")
		if r, ok := b.charged[f.Name]; ok {
			rate = formula(fmt.Sprintf("%sD%d", b.cellsOf(priceSheet), r), f.Amount.To, b.money())
			if f.For == estimate.FeeShortLoad {
				least = formula(fmt.Sprintf("%sE%d", b.cellsOf(priceSheet), r), f.Least, general)
			}
		}
		w.row(f.Name, "", [3]cell{rate, least}, func(col string, o estimate.Outcome) cell {
			l, _ := feeLine(o.Estimate, f.Name)
			return formula(fmt.Sprintf("ROUND(%s%d*$C%d,2)", col, at.feeQuantity+i, row), l.Extended, b.money())
		})
	}
	w.total("Fees and equipment, besides mobilization", at.feeAmount, len(at.fees), func(e estimate.Estimate) decimal.Decimal {
		return e.Fees.Sub(e.Spec.Mobilization.Round(2))
	})
	p.gap()
}

// bid goes from cost to bid as the price sheet does.
func (w *optionWriter) bid() {
	b, p, at := w.b, w.p, w.at
	money := b.money()
	line := func(label, f string, of func(estimate.Estimate) decimal.Decimal) {
		w.row(label, "", [3]cell{}, func(col string, o estimate.Outcome) cell {
			return formula(strings.ReplaceAll(f, "{}", col), of(o.Estimate), money)
		})
	}
	in := func(row int) string { return fmt.Sprintf("{}%d", row) }
	p.band("From cost to bid")
	line("Materials, with extras", in(at.materialTotal)+"+AddedMaterials+MaterialExtras", func(e estimate.Estimate) decimal.Decimal { return e.Materials })
	line("Labor", in(at.wages), func(e estimate.Estimate) decimal.Decimal { return e.Labor })
	line("Fees and equipment", in(at.feeTotal)+"+Mobilization+SUM(AddedFees)", func(e estimate.Estimate) decimal.Decimal { return e.Fees })
	line("Extras", "ExtraTotal", func(e estimate.Estimate) decimal.Decimal { return e.Extras })
	line("Cost", fmt.Sprintf("SUM({}%d:{}%d)", at.bidFrom, at.bidFrom+3), func(e estimate.Estimate) decimal.Decimal { return e.Cost })
	line("Overhead", fmt.Sprintf("ROUND({}%d*OverheadPercent/100,2)", at.cost), func(e estimate.Estimate) decimal.Decimal { return e.Overhead })
	of := map[string]string{"MaterialTotal": in(at.bidFrom), "LaborTotal": in(at.bidFrom + 1), "FeeTotal": in(at.bidFrom + 2)}
	for _, m := range markups(b.estimate.Spec) {
		line("Markup of "+m.name, fmt.Sprintf("ROUND(%s*Markup_%s/100,2)", of[m.of], m.of), func(e estimate.Estimate) decimal.Decimal { return m.by.Mul(m.on(e)).Shift(-2).Round(2) })
	}
	line("Profit", b.profitOf(fmt.Sprintf("SUM({}%d:{}%d)", at.cost, at.profit-1)), func(e estimate.Estimate) decimal.Decimal { return e.Profit })
	raised := at.profit
	before := func() string { return fmt.Sprintf("SUM({}%d:{}%d)", at.cost, raised) }
	if b.estimate.Spec.Least.IsPositive() {
		line("Up to the least charge", fmt.Sprintf("MAX(0,LeastCharge-%s)", before()), b.toLeast)
		raised++
	}
	if b.estimate.Spec.Round.IsPositive() {
		line("Up to a round bid", b.roundingOf(before(), in(at.bidFrom)), func(e estimate.Estimate) decimal.Decimal { return e.Raised.Sub(b.toLeast(e)) })
		raised++
	}
	line("Price before tax", before(), func(e estimate.Estimate) decimal.Decimal { return e.Price })
	line("Sales tax", b.taxOf(in(at.bidFrom), in(at.price)), func(e estimate.Estimate) decimal.Decimal { return e.Tax })
	w.row("Bid", "", [3]cell{}, func(col string, o estimate.Outcome) cell {
		return formula(fmt.Sprintf("%s%d+%s%d", col, at.price, col, at.tax), o.Bid, money).strong()
	})
}
