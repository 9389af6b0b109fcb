package estimate

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Spec is how a job is priced, besides the price list.
type Spec struct {
	Overhead decimal.Decimal `json:"overhead"` // percent of cost
	Profit   decimal.Decimal `json:"profit"`   // percent, of what ProfitAs says
	ProfitAs ProfitAs        `json:"profitas"`

	// Percent of the cost of each, besides profit, which is on them too; 0 for none.
	MarkupMaterials decimal.Decimal `json:"markupmaterials,omitzero"`
	MarkupLabor     decimal.Decimal `json:"markuplabor,omitzero"`
	MarkupFees      decimal.Decimal `json:"markupfees,omitzero"`
	Least           decimal.Decimal `json:"least,omitzero"` // price before tax of any job; 0 for none
	Round           decimal.Decimal `json:"round,omitzero"` // the bid goes up to a whole multiple; 0 for to the cent

	Tax          decimal.Decimal `json:"tax"` // percent
	TaxOn        TaxOn           `json:"taxon"`
	Mobilization decimal.Decimal `json:"mobilization"`       // amount, once
	Extras       []Extra         `json:"extras,omitzero"`    // what this job has besides
	Figures      []Figure        `json:"figures,omitzero"`   // own ones, in place of those of rules
	Others       []takeoff.ID    `json:"others"`             // what others supply
	Confirmed    string          `json:"confirmed,omitzero"` // why a price is below cost, or more is given back than there is
	Terms        Terms           `json:"terms,omitzero"`
	Options      []Option        `json:"options,omitzero"`
	Prices       PriceList       `json:"prices,omitzero"` // the list the bid was made with; none for the current one

	Placed string `json:"-"` // how concrete gets to its place: "chute", "pump" or "buggy", as the job's pour has it
}

// Extra is an amount of this job alone.
type Extra struct {
	Name     string          `json:"name"`
	Amount   decimal.Decimal `json:"amount"`            // may be negative: an allowance
	Material bool            `json:"material,omitzero"` // taxed as material

	Allowance bool `json:"allowance,omitzero"` // the bid says how much it is, and it is settled by what it comes to
	Hidden    bool `json:"hidden,omitzero"`    // the bid does not name it
}

// ProfitAs says what profit is a percentage of.
type ProfitAs = geometry.Choice[profits]

type profits struct{}

// Names implements geometry.Named.
func (profits) Names() []string { return []string{"markup", "margin"} }

const (
	// Markup is profit as a percentage of cost with overhead.
	Markup ProfitAs = iota
	// Margin is profit as a percentage of the price before tax.
	Margin
)

// TaxOn says what sales tax is charged on.
type TaxOn = geometry.Choice[taxed]

type taxed struct{}

// Names implements geometry.Named.
func (taxed) Names() []string { return []string{"materials", "all", "none"} }

const (
	// TaxMaterials is tax on what materials cost.
	TaxMaterials TaxOn = iota
	// TaxAll is tax on the whole price.
	TaxAll
	// TaxNone is no tax.
	TaxNone
)

// Default gives a usual pricing. The rows of the fields say where each value comes
// from.
func Default() Spec {
	var s Spec
	field.Fill("price", &s, geometry.FeetInches)
	return s
}

// Validate gives what is wrong with the pricing and its list, with paths as in a
// job file.
func (s Spec) Validate(u geometry.Units) plan.Faults { return field.Check("price", s, u) }
