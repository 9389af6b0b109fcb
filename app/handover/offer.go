package handover

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
)

// Offer is what a bid says to the customer: what is done for the price and what is
// not, from one list of what is charged; nothing of how the price came about.
type Offer struct {
	Not      []estimate.Reason // why it is a draft; none for one to sign
	Included []string
	Excluded []string

	Price      decimal.Decimal // before tax; with it where TaxInside
	Tax        decimal.Decimal // 0 where it is in Price
	TaxInside  bool
	Total      decimal.Decimal
	Payments   []Payment
	Alternates []Alternate
	Units      []string // prices for more than is drawn

	charged, bought map[takeoff.Kind]bool
}

// Payment is one step of paying the total.
type Payment struct {
	When   string
	Amount decimal.Decimal
}

// Alternate is an option that the customer may choose.
type Alternate struct {
	Name string
	Add  decimal.Decimal // to the total; less than 0 for what is taken off
	Asks bool            // its price is not known: on request
}

// Supplies tells whether the price holds goods of a kind.
func (o Offer) Supplies(k takeoff.Kind) bool { return o.bought[k] }

// Offer gives what the bid of a day says.
func (h *Handover) Offer(ctx context.Context, on time.Time) (Offer, error) {
	t, err := h.Takeoff(ctx)
	if err != nil {
		return Offer{}, err
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return Offer{}, err
	}
	terms := e.Spec.Terms
	o := Offer{Not: e.Draft(on), Price: e.Price, Tax: e.Tax, Total: e.Bid, charged: map[takeoff.Kind]bool{}, bought: map[takeoff.Kind]bool{}}
	if e.TaxHidden() {
		o.Price, o.Tax, o.TaxInside = e.Bid, decimal.Zero, true
	}
	o.list(h, t, e)
	for i, a := range terms.Amounts(e.Bid) {
		o.Payments = append(o.Payments, Payment{terms.Steps[i].When, a})
	}
	long, deep := "foot", "inch"
	if e.Units != 0 {
		long, deep = "meter", "25 mm"
	}
	if l, ok := t.Line(takeoff.ConcreteOrder); ok && terms.ExtraConcrete.Set {
		o.Units = append(o.Units, fmt.Sprintf("Concrete beyond what is drawn: %s for each %s", e.Money(terms.ExtraConcrete.To), l.Unit))
	}
	if terms.ExtraDepth.Set {
		o.Units = append(o.Units, fmt.Sprintf("Edges deeper than drawn: %s for each %s of edge and %s of depth", e.Money(terms.ExtraDepth.To), long, deep))
	}
	if !terms.Alternates || len(e.Spec.Options) == 0 {
		return o, nil
	}
	outcomes, err := h.Options(ctx)
	if err != nil {
		return Offer{}, err
	}
	for _, c := range outcomes[1:] {
		if c.Err == nil {
			o.Alternates = append(o.Alternates, Alternate{c.Name, c.Difference, len(c.Estimate.Draft(on)) > 0 || len(c.Alike) > 0})
		}
	}
	return o, nil
}

// work is an item of the bid: what is done, and by which lines it is charged.
type work struct {
	name  string
	set   string // what is done with it where others supply it
	kinds []takeoff.Kind
}

// works are the items that a job may have, in the order a bid lists them.
func (h *Handover) works(t takeoff.Takeoff) []work {
	base, field, u := h.from.Job.Spec.Base, h.from.Job.Spec.Place.Field, h.from.Job.Units
	return []work{
		{takeoff.Digging.Noun(), "", []takeoff.Kind{takeoff.Digging}},
		{takeoff.HaulOff.Noun() + " what is dug", "", []takeoff.Kind{takeoff.HaulOff}},
		{takeoff.Filling.Noun(), "Placing and compacting fill", []takeoff.Kind{takeoff.Filling, takeoff.LooseFill}},
		{takeoff.Backfill.Noun(), "", []takeoff.Kind{takeoff.Backfill}},
		{takeoff.FormLength.Noun() + ", set and stripped", "Setting and stripping forms", []takeoff.Kind{takeoff.FormLength, takeoff.FormBoards, takeoff.KeyStrip, takeoff.Stakes, takeoff.Kickers, takeoff.Hangers}},
		{base.Gravel.Text(u) + " of compacted gravel", "Placing and compacting gravel", []takeoff.Kind{takeoff.GravelVolume, takeoff.GravelWeight, takeoff.BaseArea}},
		{base.Foam.Text(u) + " of foam under the slab", "Laying foam", []takeoff.Kind{takeoff.FoamStock, takeoff.FoamArea}},
		{takeoff.BlockOuts.Noun() + ", with isolation joints, filled once the columns stand", "Forming and filling block-outs", []takeoff.Kind{takeoff.BlockOuts, takeoff.BlockOutFill, takeoff.FillBags, takeoff.FormTubes}},
		{takeoff.FrostStock.Noun() + " of the edges", "Setting frost insulation", []takeoff.Kind{takeoff.FrostStock, takeoff.FrostUpright, takeoff.FrostLying}},
		{takeoff.RetarderStock.Noun() + ", " + takeoff.Mils(base.Retarder, u), "Laying vapor retarder", []takeoff.Kind{takeoff.RetarderStock, takeoff.RetarderArea}},
		{"Reinforcing bars", "Tying reinforcing bars", []takeoff.Kind{takeoff.BarStock, takeoff.EdgeBarLength, takeoff.PadBarLength, takeoff.StripBarLength, takeoff.CurbBarLength, takeoff.FieldBarLength,
			takeoff.EdgeBarWeight, takeoff.PadBarWeight, takeoff.StripBarWeight, takeoff.CurbBarWeight, takeoff.FieldBarWeight, takeoff.BentBars}},
		{takeoff.ID{Kind: takeoff.MeshStock, Style: field.Style}.Text(u), "Laying mesh", []takeoff.Kind{takeoff.MeshStock, takeoff.MeshWeight}},
		{takeoff.DowelBars.Noun() + " into the old slab", "Drilling and setting dowels", []takeoff.Kind{takeoff.DowelHoles, takeoff.DowelBars, takeoff.SlideDowels, takeoff.DowelSlots, takeoff.PlateDowels, takeoff.Adhesive}},
		{takeoff.AnchorBolts.Noun() + ", set to the wall layout", "Setting anchor bolts", []takeoff.Kind{takeoff.AnchorBolts, takeoff.BoltWashers, takeoff.TiedBolts}},
		{takeoff.HoldDowns.Noun(), "Setting hold-down anchors", []takeoff.Kind{takeoff.HoldDowns}},
		{takeoff.JointDowels.Noun(), "Setting dowels of construction joints", []takeoff.Kind{takeoff.JointDowels}},
		{takeoff.Sleeves.Noun(), "Setting sleeves", []takeoff.Kind{takeoff.Sleeves}},
		{takeoff.StubUps.Noun(), "Holding stub-ups", []takeoff.Kind{takeoff.StubUps}},
		{takeoff.FloorDrains.Noun(), "Setting floor drains", []takeoff.Kind{takeoff.FloorDrains}},
		{takeoff.PostBases.Noun(), "Setting post bases", []takeoff.Kind{takeoff.PostBases}},
		{takeoff.WeldPlates.Noun(), "Setting embedded plates", []takeoff.Kind{takeoff.WeldPlates}},
		{takeoff.DrainLines.Noun(), "Laying drain line", []takeoff.Kind{takeoff.DrainLines}},
		{takeoff.TrenchDrain.Noun(), "Setting trench drain", []takeoff.Kind{takeoff.TrenchDrain}},
		{takeoff.Conduits.Noun(), "Laying conduit", []takeoff.Kind{takeoff.Conduits}},
		{takeoff.Tubing.Noun(), "Laying hydronic tubing", []takeoff.Kind{takeoff.Tubing, takeoff.Circuits}},
		{takeoff.PlatePieces.Noun(), "Setting sill plates", []takeoff.Kind{takeoff.SillPlates, takeoff.PlatePieces, takeoff.PlateLength}},
		{takeoff.IsolationStrip.Noun(), "Setting isolation strip", []takeoff.Kind{takeoff.IsolationStrip}},
		{"Placing, finishing and curing", "", []takeoff.Kind{takeoff.SlabArea}},
		{takeoff.CuringBlankets.Noun(), "", []takeoff.Kind{takeoff.CuringBlankets}},
		{takeoff.SawCuts.Noun(), "", []takeoff.Kind{takeoff.SawCuts}},
		{takeoff.JointSealant.Noun(), "", []takeoff.Kind{takeoff.JointSealant, takeoff.BackerRod}},
		{takeoff.Sealer.Noun(), "", []takeoff.Kind{takeoff.Sealer}},
		{takeoff.SillSeal.Noun(), "", []takeoff.Kind{takeoff.SillSeal}},
	}
}

// list sorts what the job takes into what the price holds and what it does not: what
// is charged is included, what others supply is not, and what nobody is paid for is
// not either.
func (o *Offer) list(h *Handover, t takeoff.Takeoff, e estimate.Estimate) {
	others := map[takeoff.Kind]bool{}
	for _, l := range e.Lines {
		k := l.ID.Kind
		switch {
		case l.ID.IsZero():
		case l.ByOthers:
			others[k] = true
		default:
			o.charged[k] = true
			o.bought[k] = o.bought[k] || l.Kind == estimate.Material
		}
	}
	any := func(w work, in map[takeoff.Kind]bool) bool {
		return slices.ContainsFunc(w.kinds, func(k takeoff.Kind) bool { return in[k] })
	}
	takes := maps.Clone(o.charged) // also what no drawing shows
	for _, l := range t.Lines {
		takes[l.ID.Kind] = takes[l.ID.Kind] || l.Value > 0
	}
	for _, w := range h.works(t) {
		switch {
		case !any(w, takes):
		case any(w, others) && !any(w, o.bought) && any(w, o.charged):
			o.Included = append(o.Included, w.set+" that others supply")
		case any(w, o.charged):
			o.Included = append(o.Included, w.name)
		case !any(w, others):
			o.Excluded = append(o.Excluded, w.name)
		}
	}
	o.extras(e)
	for _, l := range e.Lines { // such as a permit on the price list
		charge := l.Kind == estimate.Charge && l.ID.IsZero()
		if charge && slices.ContainsFunc(topics, func(topic string) bool { return strings.Contains(strings.ToLower(l.Name), topic) }) {
			o.Included = append(o.Included, l.Name)
		}
	}
	o.Included = append(o.Included, e.Spec.Terms.Included...)
	plates := false
	for _, l := range e.Lines {
		switch {
		case !l.ByOthers || plates && l.ID.Kind == takeoff.SillPlates:
		case l.ID.Kind == takeoff.SillPlates: // in several lengths
			plates = true
			o.Excluded = append(o.Excluded, takeoff.PlatePieces.Noun()+" (by others)")
		default:
			o.Excluded = append(o.Excluded, l.Name+" (by others)")
		}
	}
	for _, x := range e.Spec.Terms.Excluded {
		if x = without(x, o.Included); x != "" {
			o.Excluded = append(o.Excluded, x)
		}
	}
	o.Excluded = append(o.Excluded, "Anything not named here")
}

// extras names the amounts of this job alone.
func (o *Offer) extras(e estimate.Estimate) {
	for _, x := range e.Spec.Extras {
		switch {
		case x.Hidden || x.Amount.IsZero():
		case x.Amount.IsNegative():
			o.Included = append(o.Included, "Credit for "+x.Name)
		case x.Allowance:
			o.Included = append(o.Included, fmt.Sprintf("%s: an allowance of %s, settled by what it comes to", x.Name, e.Money(x.Amount)))
		default:
			o.Included = append(o.Included, x.Name)
		}
	}
}

// topics are what an exclusion may name that an extra may charge for, by the
// beginnings of their words.
var topics = []string{"permit", "engineering", "inspection", "rock", "dewatering", "unsuitable ground"}

// without gives an exclusion without what is included: of "Permits, engineering and
// inspections" the permits, where a permit is charged; "" where nothing is left.
func without(exclusion string, included []string) string {
	names := func(text, topic string) bool { return strings.Contains(strings.ToLower(text), topic) }
	var parts []string
	all := strings.Split(strings.ReplaceAll(exclusion, " and ", ", "), ", ")
	for _, p := range all {
		if !slices.ContainsFunc(topics, func(topic string) bool {
			return names(p, topic) && slices.ContainsFunc(included, func(in string) bool { return names(in, topic) })
		}) {
			parts = append(parts, p)
		}
	}
	same := slices.ContainsFunc(included, func(in string) bool { return strings.EqualFold(strings.TrimSpace(in), strings.TrimSpace(exclusion)) })
	switch n := len(parts); {
	case same || n == 0:
		return ""
	case n == len(all):
		return exclusion
	case n == 1:
		return field.Upper(parts[0])
	default:
		return field.Upper(strings.Join(parts[:n-1], ", ") + " and " + parts[n-1])
	}
}
