package takeoff

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// curbs finds the curbs on the edges of slabs.
func curbs(slabs []Slab) {
	if !slices.ContainsFunc(slabs, func(s Slab) bool { return s.Plan.Curbed() }) {
		return
	}
	plans := make([]plan.Plan, len(slabs))
	for k, s := range slabs {
		plans[k] = s.Plan
	}
	met := plan.Meetings(plans)
	for k := range slabs {
		on := slabs[k].Solid
		if slabs[k].Whole != nil { // its highest place may be where a block-out is left open
			on = slabs[k].Whole
		}
		slabs[k].Curbs = on.Curbs(slabs[k].Plan.Curbs(plan.OfSlab(met, k)))
	}
}

// Volume gives the concrete of the slab with its curbs, m³, no waste.
func (t Slab) Volume() float64 { return t.Solid.Volume + t.Curbs.Volume }

// VolumeWithin gives what of it lies within a region, m³.
func (t Slab) VolumeWithin(g plane.Region) float64 {
	return t.Solid.VolumeWithin(g) + t.Curbs.Within(g)
}

// curbs takes off the concrete of the curbs, which is poured with the slab, or once it has set.
func (b *builder) curbs() {
	total, long := 0.0, geometry.Length(0)
	var steps, runs []Step
	for _, s := range b.t.Slabs {
		if s.Curbs.None() {
			continue
		}
		total += s.Curbs.Volume
		naive := 0.0
		for _, r := range s.Curbs.Runs {
			v := r.Long().Meters() * r.Width.Meters() * r.Height.Meters()
			naive, long = naive+v, long+r.Long()
			name := s.Called("Along " + s.Layout.Marks.Edge(r.Loop, r.Edge))
			steps = append(steps, Step{Text: name, Work: fmt.Sprintf("%s × %s × %s high", b.m.lengthText(r.Long()), b.m.text(r.Width), b.m.text(r.Height)), Result: b.m.volumeText(v)})
			runs = append(runs, Step{Text: name, Work: fmt.Sprintf("%s to %s along it", b.m.text(r.From), b.m.text(r.To)), Result: b.m.lengthText(r.Long())})
		}
		if over := s.Curbs.OverVolume(); over != 0 {
			steps = append(steps, Step{Text: s.Called("Level tops"), Work: "from these heights over the falling top up to the level of its highest place", Result: b.m.volumeText(over)})
			naive += over
		}
		steps = append(steps, Step{Text: s.Called("Corners"), Work: "counted twice outside, short inside, and along arcs", Result: b.m.volumeText(s.Curbs.Volume - naive)})
	}
	if len(steps) == 0 {
		return
	}
	v, u := b.m.volume(total)
	b.add(ID{Kind: CurbConcrete}, v, u, append(steps, Step{Text: "Sum", Work: "in the concrete in place", Result: text(v, u), Source: "exact area of the curbs times their height"})...)
	l, lu := b.m.length(long)
	b.add(ID{Kind: CurbLength}, l, lu, append(runs, Step{Text: "Sum", Work: "doors out", Result: text(l, lu)})...)
}
