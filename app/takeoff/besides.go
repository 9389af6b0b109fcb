package takeoff

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/forms"
)

// besides takes off what no drawing shows and every job costs: each a rule over what is
// drawn. A price list says which of it is used.
func (b *builder) besides() {
	for _, r := range besides {
		v := r.of(b)
		if v < 1e-9 {
			continue
		}
		value, unit := r.in(b.m, v)
		source := r.source
		if source == "" {
			source = "common practice, no source: replace it by your own figure"
		}
		id := ID{Kind: r.kind}
		b.t.Besides = append(b.t.Besides, Line{ID: id, Name: id.Text(b.m.u), Value: value, Unit: unit,
			Working: []Step{{Text: "By a rule", Work: r.rule, Result: text(value, unit), Source: source}}})
	}
}

// besides is the table of the rules. Each gives an amount in SI units, or a count, and
// says in words how.
var besides = []struct {
	kind   Kind
	of     func(*builder) float64
	in     func(measure, float64) (float64, Unit)
	rule   string
	source string // "" for common practice
}{
	{BarSupports, func(b *builder) float64 { return up(b.si(EdgeBarLength) / (4 * foot)) }, each, "one every 4 ft (1.2 m) of edge bar, up to a whole one", ""},
	{TieWire, func(b *builder) float64 {
		return 0.006 * b.si(EdgeBarWeight, PadBarWeight, StripBarWeight, CurbBarWeight, FieldBarWeight)
	}, measure.mass, "0.6 % of the weight of the bars: 12 lb a ton", ""},
	{RetarderTape, func(b *builder) float64 { return b.seams() }, measure.meters, "as long as all pieces of the retarder but the longest of each slab", ""},
	{FormRelease, func(b *builder) float64 {
		return b.boards(func(s Slab, f forms.Form) float64 { return f.Length.Meters() * f.Board.Width.Meters() })
	}, measure.area, "one face of the boards: their length times their dressed width", "dressed widths: NIST PS 20"},
	{KickerStakes, func(b *builder) float64 { return b.si(Kickers) }, each, "one to hold each kicker", ""},
	{BoardScabs, func(b *builder) float64 {
		return b.boards(func(_ Slab, f forms.Form) float64 { return float64(max(0, len(f.Boards)-1)) })
	}, each, "one where two boards of an edge meet", ""},
	{DuplexNails, func(b *builder) float64 {
		return 2*b.si(Stakes) + 3*b.si(Kickers) + b.boards(func(_ Slab, f forms.Form) float64 { return 8 * float64(max(0, len(f.Boards)-1)) })
	}, each, "2 a stake, 3 a kicker, 8 a joint of boards", ""},
	{LipBlockOuts, func(b *builder) float64 { return b.lips() }, measure.meters, "the width of each door with a lip", ""},
	{MarkingString, func(b *builder) float64 { return b.si(SlabPerimeter) }, measure.meters, "once around", ""},
	{CuringCompound, func(b *builder) float64 { return b.si(SlabArea) }, measure.area, "the top of the slab; the pack says how far one goes: 200 ft² a gallon (5 m² a liter) is usual", "ACI 308R, from memory"},
	{CuringBlankets, func(b *builder) float64 { return b.si(SlabArea) }, measure.area, "the top of the slab", ""},
	{Sealer, func(b *builder) float64 { return b.si(SlabArea) }, measure.area, "the top of the slab; the pack says how far one goes", "the maker's data"},
	{JointSealant, func(b *builder) float64 { return b.si(SawCuts, IsolationStrip) }, measure.meters, "saw cuts and isolation strips; the pack says how far one goes", "the maker's data"},
	{BackerRod, func(b *builder) float64 { return b.si(IsolationStrip) }, measure.meters, "along the isolation strips", ""},
	{SillSeal, func(b *builder) float64 { return b.si(PlateLength) }, measure.meters, "under the sill plates", ""},
	{BarCaps, func(b *builder) float64 { return b.si(DowelHoles, DowelSlots, AnchorBolts, HoldDowns) }, each, "one on each dowel, bolt and hold-down anchor; they last", "OSHA 29 CFR 1926.701(b): bars that one could fall on"},
	{OverDig, func(b *builder) float64 { return b.overDig() }, measure.volume, "1 ft (0.3 m) beside the boards, down to their bottom, for working at them", ""},
	{Backfill, func(b *builder) float64 { return b.overDig() }, measure.volume, "what was dug beside the boards goes back", ""},
	{HaulOff, func(b *builder) float64 { return 1.25 * b.si(Digging) }, measure.volume, "what the slab and its base take the place of, a quarter more when it is loose", ""},
	{LooseFill, func(b *builder) float64 { return b.si(Filling) * b.spec.Base.Compaction.InexactFloat64() }, measure.volume, "the fill in place times the factor by which the base is compacted", ""},
}

// foot is a foot in meters.
const foot = 0.3048

func up(v float64) float64 { return math.Ceil(v - 1e-9) }

func each(_ measure, n float64) (float64, Unit) { return n, Each }

// si gives how much there is of kinds together, in SI units or as a count.
func (b *builder) si(kinds ...Kind) float64 {
	sum := 0.0
	for _, k := range kinds {
		for _, l := range b.t.Lines {
			if l.ID.Kind == k {
				sum += l.Value * unitSize[l.Unit]
			}
		}
	}
	return sum
}

// unitSize is a unit in SI units; a count counts as it is.
var unitSize = map[Unit]float64{
	CubicYards: yard3, CubicMeters: 1, SquareFeet: foot2, SquareMeters: 1, Feet: foot, Meters: 1,
	Pounds: pound, Kilograms: 1, Tons: ton, Tonnes: 1000, Each: 1, FluidOunces: ounceFl, Millilitres: 1e-6,
}

// SI gives a unit in SI units.
func (u Unit) SI() float64 { return unitSize[u] }

// boards adds up a number of the boards along every edge.
func (b *builder) boards(of func(Slab, forms.Form) float64) float64 {
	return b.sum(func(s Slab) float64 {
		total := 0.0
		for _, f := range s.Layout.Forms {
			total += of(s, f)
		}
		return total
	})
}

// overDig is what is dug beside the boards, in m³.
func (b *builder) overDig() float64 {
	return b.boards(func(s Slab, f forms.Form) float64 {
		if f.Loop < 0 || f.Of() != "" { // it stands on the base, between two pours or in a block-out, or over the slab's top
			return 0
		}
		deep := f.Board.Width - f.Ripped - b.spec.Base.Above - s.Plan.Height
		return f.Length.Meters() * max(0, deep.Meters()) * foot
	})
}

// seams is how long the seams of the retarder are, in m: between its bands.
func (b *builder) seams() float64 {
	return b.sum(func(s Slab) float64 {
		total, longest := geometry.Length(0), geometry.Length(0)
		for _, p := range s.Retarder.Sheets {
			total, longest = total+p.Length, max(longest, p.Length)
		}
		return (total - longest).Meters()
	})
}
