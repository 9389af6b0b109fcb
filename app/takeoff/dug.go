package takeoff

import (
	"fmt"

	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// trench puts both ways of digging an edge side by side where they differ: to
// the section's depth, or to the bottom of the form board, whose dressed width
// is less than its name.
func (b *builder) trench() {
	name, key := "If edges end at the form board", "concrete.toboard"
	matters, now, then := false, 0.0, 0.0
	for _, s := range b.t.Slabs {
		now += s.Solid.Volume
		if !trenchMatters(s.Plan) {
			then += s.Solid.Volume
			continue
		}
		matters = true
		other := s.Plan.Clone()
		other.Trench = plan.ToBoard
		if s.Plan.Trench == plan.ToBoard {
			other.Trench = plan.ToDepth
			name, key = "If edges are dug to their depth", "concrete.todepth"
		}
		then += solid.OfSound(other).Volume // as the plan is: no edge is dug above the field
	}
	if !matters {
		return
	}
	net, unit := b.m.volume(now)
	v, _ := b.m.volume(then)
	b.add(key, Concrete, name, v, unit,
		Step{Text: "Exact volume with the other trench", Result: text(v, unit), Source: "dressed widths: NIST PS 20"},
		Step{Text: "Against the slab as set", Work: fmt.Sprintf("%s − %s", text(v, unit), text(net, unit)), Result: text(v-net, unit)})
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
	for _, s := range b.t.Slabs {
		d, f := s.Solid.Excavation(g.Gravel+g.Foam, g.Above+s.Plan.Height)
		dig, fill = dig+d, fill+f
	}
	layers := Step{
		Text: "Under the slab's underside", Work: fmt.Sprintf("base %s + foam %s", m.text(g.Gravel), m.text(g.Foam)),
		Result: m.text(g.Gravel + g.Foam),
	}
	from := Step{Text: "Lowest top above the ground that is there", Result: m.text(g.Above)}
	v, unit := m.volume(dig)
	b.add("ground.dig", Ground, "Ground to dig, in place", v, unit, layers, from,
		Step{Text: "Integral, within the outline, of what the slab and its layers reach below the ground", Result: text(v, unit)})
	if v, unit = m.volume(fill); fill > 1e-9 {
		b.add("ground.fill", Ground, "Fill under the base, in place", v, unit, layers, from,
			Step{Text: "Integral, within the outline, of what they stay above it", Result: text(v, unit)})
	}
}
