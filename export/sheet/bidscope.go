package sheet

import (
	"fmt"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
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
	return text
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
