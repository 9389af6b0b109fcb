package estimate

import (
	"errors"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plan"
)

// Spec is how a job is priced, besides the price list.
type Spec struct {
	Overhead     decimal.Decimal `json:"overhead"` // percent of cost
	Profit       decimal.Decimal `json:"profit"`   // percent, of what ProfitAs says
	ProfitAs     ProfitAs        `json:"profitas"`
	Tax          decimal.Decimal `json:"tax"` // percent
	TaxOn        TaxOn           `json:"taxon"`
	Mobilization decimal.Decimal `json:"mobilization"`    // amount, once
	Extras       []Extra         `json:"extras,omitzero"` // what this job has besides
	Others       []takeoff.ID    `json:"others"`          // what others supply
	Terms        Terms           `json:"terms,omitzero"`
	Options      []Option        `json:"options,omitzero"`
	Prices       PriceList       `json:"prices,omitzero"` // the list the bid was made with; none for the current one
}

// Extra is an amount of this job alone.
type Extra struct {
	Name     string          `json:"name"`
	Amount   decimal.Decimal `json:"amount"`            // may be negative: an allowance
	Material bool            `json:"material,omitzero"` // taxed as material
}

// ProfitAs says what profit is a percentage of.
type ProfitAs uint8

const (
	// Markup is profit as a percentage of cost with overhead.
	Markup ProfitAs = iota
	// Margin is profit as a percentage of the price before tax.
	Margin
)

// String gives the name used in job files: "markup" or "margin".
func (p ProfitAs) String() string {
	if p == Margin {
		return "margin"
	}
	return "markup"
}

// MarshalText gives the name that String gives.
func (p ProfitAs) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads the name that String gives.
func (p *ProfitAs) UnmarshalText(text []byte) error {
	switch string(text) {
	case "markup":
		*p = Markup
	case "margin":
		*p = Margin
	default:
		return errors.New("write markup (of cost) or margin (of price)")
	}
	return nil
}

// TaxOn says what sales tax is charged on.
type TaxOn uint8

const (
	// TaxMaterials is tax on what materials cost.
	TaxMaterials TaxOn = iota
	// TaxAll is tax on the whole price.
	TaxAll
	// TaxNone is no tax.
	TaxNone
)

var taxNames = [...]string{TaxMaterials: "materials", TaxAll: "all", TaxNone: "none"}

// String gives the name used in job files: "materials", "all" or "none".
func (t TaxOn) String() string { return taxNames[t] }

// MarshalText gives the name that String gives.
func (t TaxOn) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads the name that String gives.
func (t *TaxOn) UnmarshalText(text []byte) error {
	for i, name := range taxNames {
		if name == string(text) {
			*t = TaxOn(i)
			return nil
		}
	}
	return errors.New("write materials, all or none")
}

// Default gives a usual pricing. Its percentages are placeholders: what a
// business needs follows from its own books.
func Default() Spec {
	return Spec{
		Overhead: decimal.NewFromInt(10),
		Profit:   decimal.NewFromInt(15),
		Tax:      decimal.NewFromInt(6),
		// The framer brings the sill plates as a rule: common practice, no source.
		Others: []takeoff.ID{{Kind: takeoff.SillPlates}},
		Terms:  Terms{Excluded: slices.Clone(usualExclusions)},
	}
}

// Validate gives each thing wrong with the pricing: the field, what was found
// and what would do.
func (s Spec) Validate() plan.Faults {
	var out plan.Faults
	amount := func(field string, v decimal.Decimal) bool {
		if !plain(v) {
			out = append(out, plan.Fault{Path: field, Found: "a number of too many digits", Want: "write at most 12"})
		}
		return plain(v)
	}
	check := func(field string, v decimal.Decimal, below int64) {
		if amount(field, v) && (v.IsNegative() || v.GreaterThanOrEqual(decimal.NewFromInt(below))) {
			out = append(out, plan.Fault{Path: field, Found: v.String(), Want: "write a percentage from 0 to under " + decimal.NewFromInt(below).String()})
		}
	}
	check("overhead", s.Overhead, 1000)
	if s.ProfitAs == Margin {
		check("profit", s.Profit, 100)
	} else {
		check("profit", s.Profit, 1000)
	}
	check("tax", s.Tax, 100)
	if amount("mobilization", s.Mobilization) && s.Mobilization.IsNegative() {
		out = append(out, plan.Fault{Path: "mobilization", Found: s.Mobilization.String(), Want: "write an amount of 0 or more"})
	}
	for i, x := range s.Extras {
		amount(fmt.Sprintf("extras[%d].amount", i), x.Amount)
	}
	out = append(out, s.Terms.validate()...)
	if len(s.Options) > MaxOptions {
		out = append(out, plan.Fault{Path: "options", Found: fmt.Sprint(len(s.Options), " options"), Want: "keep six at most"})
	}
	if err := s.Prices.Validate(); err != nil {
		out = append(out, plan.Fault{Path: "prices", Found: "a fault", Want: err.Error()})
	}
	return out
}
