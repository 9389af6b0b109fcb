package takeoff

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// trench puts both ways of digging an edge side by side where they differ: to
// the section's depth, or to the bottom of the form board, whose dressed width
// is less than its name.
func (b *builder) trench() {
	b.dugAs(plan.ToBoard, ConcreteToBoard)
	b.dugAs(plan.ToDepth, ConcreteToDepth)
}

// dugAs takes off the volume if every slab were dug one way, where any is not and
// it makes a difference.
func (b *builder) dugAs(t plan.Trench, k Kind) {
	var steps []Step
	now, then := 0.0, 0.0
	for _, s := range b.t.Slabs {
		v := s.Volume()
		now += v
		if s.Plan.Trench != t && trenchMatters(s.Plan) {
			other := s.Plan.Clone()
			other.Trench = t
			v = solid.OfSound(other.Open()).Volume + s.Curbs.Volume // as the plan is: no edge is dug above the field
			steps = append(steps, Step{Text: s.Called("Exact volume with the other trench"), Result: b.m.volumeText(v), Source: "dressed widths: NIST PS 20"})
		}
		then += v
	}
	if len(steps) == 0 {
		return
	}
	net, unit := b.m.volume(now)
	v, _ := b.m.volume(then)
	b.add(ID{Kind: k}, v, unit, append(steps,
		Step{Text: "Against the job as set", Work: fmt.Sprintf("%s − %s", text(v, unit), text(net, unit)), Result: text(v-net, unit)})...)
}

// trenchMatters tells whether any edge's depth depends on how it is dug.
func trenchMatters(p plan.Plan) bool {
	p.Trench = plan.ToBoard
	for _, l := range p.Loops() {
		for i, e := range l {
			for _, s := range l.Spans(i) {
				called, ok := p.SectionNamed(s.Section)
				if dug, _ := p.SectionOn(e, s.Section); ok && dug.Depth != called.Depth {
					return true
				}
			}
		}
	}
	return false
}

// digging takes off the ground to move so that the slab stands on its base and
// foam.
func (b *builder) digging() {
	g, m := b.spec.Base, b.m
	dig, fill := 0.0, 0.0
	underField, underThick := g.Layers()
	var from, dug, filled []Step
	for _, s := range b.t.Slabs {
		above := g.Above + s.Plan.Height
		d, f := s.dug().Excavation(underField, underThick, above)
		dig, fill = dig+d, fill+f
		step := Step{Text: s.Called("Lowest top above the ground that is there"), Result: m.text(above)}
		if s.Plan.Height != 0 {
			step.Work = fmt.Sprintf("%s, and this slab %s over the job's height", m.text(g.Above), m.text(s.Plan.Height))
		}
		from = append(from, step)
		dug = append(dug, Step{Text: s.Called("Digging"), Result: m.volumeText(d)})
		filled = append(filled, Step{Text: s.Called("Fill"), Result: m.volumeText(f)})
	}
	if len(b.t.Slabs) < 2 {
		dug, filled = nil, nil
	}
	layers := Step{
		Text: "Under the slab's underside", Work: fmt.Sprintf("base %s + foam %s", m.text(g.Gravel), m.text(g.Foam)),
		Result: m.text(underField),
	}
	if underThick != underField {
		layers.Text = "Under the field, and none under what is thickened"
	}
	v, unit := m.volume(dig)
	b.add(ID{Kind: Digging}, v, unit, slices.Concat([]Step{layers}, from, dug, []Step{
		{Text: "Integral, within the outline, of what the slab and its layers reach below the ground", Result: text(v, unit)}})...)
	if v, unit = m.volume(fill); fill > 1e-9 {
		b.add(ID{Kind: Filling}, v, unit, slices.Concat([]Step{layers}, from, filled, []Step{
			{Text: "Integral, within the outline, of what they stay above it", Result: text(v, unit)}})...)
	}
}
