package takeoff

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// dug gives the concrete with what fills the block-outs: what is dug, what lies under it, and
// the shape of the underside go by it.
func (t Slab) dug() *solid.Solid {
	if t.Whole != nil {
		return t.Whole
	}
	return t.Solid
}

// bagYield is what an 80 lb bag of concrete makes, in m³: 0.60 ft³, makers' data, from memory.
const bagYield = 0.60 * foot * foot * foot

// muchFill is how much in block-outs is told to be a truck's rather than bags': own figure.
const muchFill = yard3

var ruleBags = rule.Rule{Name: "Concrete in block-outs", Source: "own figure", Step: rule.Pour}

// blockOuts takes off what isolates the slab from the columns on its pads: block-outs that are
// poured apart, once the columns stand. The pad in one is poured with it.
func (b *builder) blockOuts() {
	n, fill := 0, 0.0
	var counted, filled []Step
	var first Slab
	for _, s := range b.t.Slabs {
		for _, o := range s.Layout.Outs {
			if n++; n == 1 {
				first = s
			}
			v := s.dug().VolumeWithin(plane.Region{o.Ring()})
			fill += v
			name := s.Called("Round " + s.Layout.Marks.Pad(o.Pad).String())
			counted = append(counted, Step{Text: name, Work: o.Shape.String() + " " + b.m.text(o.Size), Source: "ACI 302.1R, from memory"})
			filled = append(filled, Step{Text: name, Work: "down to the bottom of the pad in it", Result: b.m.volumeText(v), Source: exactly})
		}
	}
	if n == 0 {
		return
	}
	b.add(ID{Kind: BlockOuts}, float64(n), Each, counted...)
	v, u := b.m.volume(fill)
	b.add(ID{Kind: BlockOutFill}, v, u, append(filled, Step{Text: "Sum", Work: "not in the concrete in place", Result: text(v, u)})...)
	bags := math.Ceil(fill*(1+b.spec.Order.Waste.InexactFloat64()/100)/bagYield - 1e-9)
	each, _ := b.m.volume(bagYield)
	b.add(ID{Kind: FillBags}, bags, Each,
		Step{Text: "To buy", Work: fmt.Sprintf("%s and %s %%, %s a bag", text(v, u), b.spec.Order.Waste, text(each, u)), Result: fmt.Sprintf("%.0f", bags), Source: "makers' data, from memory"})
	if fill > muchFill {
		b.findOn(first, ruleBags, rule.Note, first.home(), "The block-outs take %s of concrete, counted in bags: so much may be cheaper as a load of its own.", text(v, u))
	}
}

// tubes takes off what forms round block-outs, by diameter.
func (b *builder) tubes() {
	tubes, from := map[geometry.Length]geometry.Length{}, map[geometry.Length][]Step{}
	for _, s := range b.t.Slabs {
		for _, o := range s.Layout.Outs {
			if o.Shape == plan.RoundOut {
				tubes[o.Size] += s.Plan.Field
				from[o.Size] = append(from[o.Size], Step{Text: s.Called("Round " + s.Layout.Marks.Pad(o.Pad).String()), Work: "as long as the field is thick", Result: b.m.lengthText(s.Plan.Field)})
			}
		}
	}
	for _, d := range slices.Sorted(maps.Keys(tubes)) {
		v, u := b.m.length(tubes[d])
		b.add(ID{Kind: FormTubes, Diameter: d}, v, u, append(from[d], Step{Text: "Sum", Work: "cut from tubes", Result: text(v, u)})...)
	}
}
