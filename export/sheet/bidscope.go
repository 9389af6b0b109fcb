package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// mostSlabs is how many slabs the scope describes one by one.
const mostSlabs = 6

// scope says in words what is built.
func (b bid) scope() []string {
	area := ""
	if l, ok := b.t.Line(takeoff.SlabArea); ok {
		area = fmt.Sprintf("%.0f %s", l.Value, l.Unit)
	}
	var out []string
	if n := len(b.t.Slabs); n == 1 {
		out = append(out, "A concrete slab on ground, "+b.sizes(b.t.Slabs[0])+", "+area+" in area.")
	} else {
		out = append(out, fmt.Sprintf("%d concrete slabs on ground, %s in all:", n, area))
		for _, s := range b.t.Slabs[:min(n, mostSlabs)] {
			out = append(out, "• "+s.Called(b.sizes(s)))
		}
		if n > mostSlabs {
			out = append(out, fmt.Sprintf("• and %d more, as drawn", n-mostSlabs))
		}
	}
	m := b.j.Spec.Mix
	mix := "Ready-mixed concrete to ASTM C94/C94M"
	if !b.offer.Supplies(takeoff.ConcreteOrder) {
		mix = "Concrete that others supply, to ASTM C94/C94M"
	}
	mix += ", " + takeoff.StrengthText(m.Strength, b.j.Units) + " at 28 days"
	if m.Air > 0 {
		mix += fmt.Sprintf(", entrained air %g %%", m.Air)
	}
	if m.Fiber > 0 && b.offer.Supplies(takeoff.Fibers) {
		mix += ", fibers"
	}
	if m.Reducer {
		mix += ", water reducer"
	}
	out = append(out, mix+".")
	if d := b.doors(); d != "" {
		out = append(out, "Openings: "+d+".")
	}
	if w := b.with(); w != "" {
		out = append(out, "With: "+w+".")
	}
	return out
}

// sizes describes a slab: over all along its longest side, and its depths.
func (b bid) sizes(s takeoff.Slab) string {
	u, p := b.j.Units, s.Plan
	long, wide := sizeOf(p.Outline)
	text := fmt.Sprintf("%s × %s overall, %s thick", long.Text(u), wide.Text(u), p.Field.Text(u))
	if main, ok := estimate.MainSection([]plan.Plan{p}); ok && main.Deepest() > p.Field {
		text += fmt.Sprintf(", edges thickened to %s", main.Deepest().Text(u))
	}
	if slices.ContainsFunc(b.t.Slabs, func(o takeoff.Slab) bool { return o.Plan.Height != p.Height }) {
		text += ", top " + p.Height.Text(u)
	}
	return text
}

// with names what the slabs have besides: what is not named is not in the price.
func (b bid) with() string {
	u := b.j.Units
	var curbs []plan.Curbs
	var falls, aprons, ramps bool
	var pads, strips, holes, arcs, lips, joints int
	for _, s := range b.t.Slabs {
		curbs = append(curbs, s.Curbs)
		p := s.Plan
		pads, strips, holes, joints = pads+len(p.Pads), strips+len(p.Strips), holes+len(p.Holes), joints+len(p.Construction)
		falls = falls || len(p.Top.Falls) > 0
		for _, k := range p.Top.Breaks {
			aprons, ramps = aprons || k.Drop > 0, ramps || k.Drop < 0
		}
		for _, l := range p.Loops() {
			for _, e := range l {
				if e.Middle != 0 {
					arcs++
				}
				for _, d := range e.Doors {
					if d.Lip != (plan.Lip{}) {
						lips++
					}
				}
			}
		}
	}
	var out []string
	for _, k := range plan.CurbKinds(curbs...) {
		out = append(out, k.Called(func(l geometry.Length) string { return l.Text(u) })+", "+k.Long.Text(u)+" long")
	}
	for _, n := range []struct {
		many int
		of   string
	}{
		{pads, "pads under posts"}, {strips, "thickened strips"}, {holes, "openings through the slab"},
		{arcs, "edges bowed as arcs"}, {lips, "doors with a lip"}, {joints, "construction joints"},
	} {
		if n.many > 0 {
			out = append(out, fmt.Sprintf("%s: %d", n.of, n.many))
		}
	}
	for _, n := range []struct {
		has bool
		of  string
	}{{falls, "a top that falls"}, {aprons, "an apron that drops away"}, {ramps, "a ramp that rises"}} {
		if n.has {
			out = append(out, n.of)
		}
	}
	return strings.Join(out, "; ")
}

// doors lists the openings, alike ones together.
func (b bid) doors() string {
	var names []string
	count := map[string]int{}
	for _, s := range b.t.Slabs {
		for _, l := range s.Plan.Loops() {
			for _, e := range l {
				for _, d := range e.Doors {
					name := d.Kind.String() + " door " + d.Width.Text(b.j.Units)
					if count[name]++; count[name] == 1 {
						names = append(names, name)
					}
				}
			}
		}
	}
	for i, n := range names {
		if count[n] > 1 {
			names[i] = fmt.Sprintf("%d × %s", count[n], n)
		}
	}
	return strings.Join(names, ", ")
}

// counted writes a number of things: "1 day", "30 days".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
