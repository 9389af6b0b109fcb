package estimate

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Terms is what a bid says besides its price. What is empty is printed as a blank
// to fill in by hand, or not at all.
type Terms struct {
	Included []string `json:"included,omitzero"` // beyond what the drawing holds
	Excluded []string `json:"excluded"`          // what the price does not hold
	Days     int      `json:"days,omitzero"`     // that the bid is good for, from its date; 0 for a blank
	Payment  string   `json:"payment,omitzero"`
	Steps    []Step   `json:"steps,omitzero"`  // of paying
	Start    string   `json:"start,omitzero"`  // of the work
	Finish   string   `json:"finish,omitzero"` // of the work

	TaxShown      TaxShown `json:"taxshown,omitzero"`
	Alternates    bool     `json:"alternates,omitzero"`    // the options are offered
	ExtraConcrete Amount   `json:"extraconcrete,omitzero"` // for a unit of concrete beyond what is drawn
	ExtraDepth    Amount   `json:"extradepth,omitzero"`    // for a foot of edge an inch deeper, or a meter 25 mm
	Concealed     string   `json:"concealed"`              // what holds of what cannot be seen; "" for nothing
	Notices       string   `json:"notices,omitzero"`       // that the law of the place asks for
}

// Step is one of several payments.
type Step struct {
	When    string          `json:"when"`
	Percent decimal.Decimal `json:"percent"` // of the total; all add up to 100
}

// TaxShown says how a bid shows the sales tax.
type TaxShown = geometry.Choice[taxShowns]

type taxShowns struct{}

// Names implements geometry.Named.
func (taxShowns) Names() []string { return []string{"usual", "shown", "inside"} }

const (
	// TaxUsual shows the tax where it is on the whole price. Tax on materials is part
	// of the price: by the rate, which everybody knows, it tells what they cost.
	TaxUsual TaxShown = iota
	// TaxAsLine shows it in any case.
	TaxAsLine
	// TaxInside never does.
	TaxInside
)

// TaxHidden tells whether the bid has its tax inside the price.
func (e Estimate) TaxHidden() bool {
	switch e.Spec.Terms.TaxShown {
	case TaxAsLine:
		return false
	case TaxInside:
		return !e.Tax.IsZero()
	}
	return !e.Tax.IsZero() && e.Spec.TaxOn == TaxMaterials
}

// Amounts gives the payments of a total: each to the cent, and the last what is left.
func (t Terms) Amounts(total decimal.Decimal) []decimal.Decimal {
	var out []decimal.Decimal
	left := total
	for i, s := range t.Steps {
		a := percent(s.Percent, total)
		if i == len(t.Steps)-1 {
			a = left
		}
		out, left = append(out, a), left.Sub(a)
	}
	return out
}
