package estimate

import (
	"reflect"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Apply gives the plan and the specification with the option's changes. The edge
// depth is that of the most used haunch: sections keep what they are deeper or
// shallower than it, as under a door. A section with a profile of its own, and
// one that would become shallower than the field, stays or stops at the field.
func (o Option) Apply(slabs []plan.Plan, s takeoff.Spec) ([]plan.Plan, takeoff.Spec) {
	main, ok := MainSection(slabs)
	shift := geometry.Length(0)
	if o.Edge.Set && ok {
		shift = o.Edge.To - main.Depth
	}
	usual := Field(slabs)
	slabs = slices.Clone(slabs)
	for k, p := range slabs {
		slabs[k] = o.slab(p, shift, usual)
	}
	s.Base.Foam = o.Foam.or(s.Base.Foam)
	s.Place.Bolts.Spacing = o.Bolts.or(s.Place.Bolts.Spacing)
	if o.Strength != 0 {
		s.Mix.Strength = o.Strength
	}
	if o.FieldSteel.Set {
		s.Place.Field.Kind = o.FieldSteel.To
	}
	if o.Fiber.Set {
		s.Mix.Fiber = o.Fiber.To
	}
	if o.Bar != 0 {
		s.Place.Bars.Size = o.Bar
		s.Place.Bars.Rows = slices.Clone(s.Place.Bars.Rows)
		for i := range s.Place.Bars.Rows {
			s.Place.Bars.Rows[i].Size = 0
		}
	}
	return slabs, s
}

// slab gives one slab with the option's changes: its haunches deeper by shift,
// and its field changed where it is as thick as usual.
func (o Option) slab(p plan.Plan, shift, usual geometry.Length) plan.Plan {
	p = p.Clone()
	if p.Field == usual {
		p.Field = o.Field.or(p.Field)
	}
	for i := range p.Sections {
		sec := &p.Sections[i]
		if len(sec.Profile) > 0 {
			continue
		}
		sec.Depth = max(sec.Depth+shift, p.Field)
		sec.Bottom = o.Bottom.or(sec.Bottom)
		sec.Taper = o.Taper.or(sec.Taper)
	}
	return p
}

// Field gives the thickness of the job's first slab that is drawn.
func Field(slabs []plan.Plan) geometry.Length {
	for _, p := range slabs {
		if !p.Blank() {
			return p.Field
		}
	}
	return 0
}

// MainSection gives the section without a profile that most of the outlines of all
// slabs have: the edge depth people speak of. Of several slabs, sections built alike
// are one, whatever they are called.
func MainSection(slabs []plan.Plan) (plan.Section, bool) {
	type shape struct{ depth, bottom, taper geometry.Length }
	length := map[shape]geometry.Length{}
	best, most := plan.Section{}, geometry.Length(0)
	for _, p := range slabs {
		for i, e := range p.Outline {
			s, ok := p.SectionNamed(e.Section)
			if !ok || len(s.Profile) > 0 {
				continue
			}
			at := shape{s.Depth, s.Bottom, s.Taper}
			length[at] += p.Outline.Length(i)
		}
	}
	for _, p := range slabs {
		for _, s := range p.Sections {
			if n := length[shape{s.Depth, s.Bottom, s.Taper}]; len(s.Profile) == 0 && n > most {
				best, most = s, n
			}
		}
	}
	return best, most > 0
}

// Choose makes option i the job's. The other options are kept, and in the place
// of the chosen one stands the job as it was, so that the choice can be turned
// round; where no option can say what the job was, none does.
func (s Spec) Choose(i int, p []plan.Plan, t takeoff.Spec) ([]plan.Plan, takeoff.Spec, Spec) {
	chosen := s.Options[i]
	back := chosen.reverse(p, t)
	q, u := chosen.Apply(p, t)
	s.Options = slices.Clone(s.Options)
	if was, spec := back.Apply(q, u); reflect.DeepEqual(was, p) && reflect.DeepEqual(spec, t) {
		s.Options[i] = back
	} else {
		s.Options = slices.Delete(s.Options, i, i+1)
	}
	return q, u, s
}

// reverse gives the option that undoes o on a job.
func (o Option) reverse(p []plan.Plan, t takeoff.Spec) Option {
	main, _ := MainSection(p)
	r := Option{Name: "Instead of " + o.Name}
	keep := func(c Change, was geometry.Length) Change {
		if !c.Set {
			return Change{}
		}
		return To(was)
	}
	r.Edge, r.Bottom, r.Taper = keep(o.Edge, main.Depth), keep(o.Bottom, main.Bottom), keep(o.Taper, main.Taper)
	r.Field, r.Foam, r.Bolts = keep(o.Field, Field(p)), keep(o.Foam, t.Base.Foam), keep(o.Bolts, t.Place.Bolts.Spacing)
	if o.Strength != 0 {
		r.Strength = t.Mix.Strength
	}
	if o.Bar != 0 {
		r.Bar = t.Place.Bars.Size
	}
	if o.FieldSteel.Set {
		r.FieldSteel = FieldChange{true, t.Place.Field.Kind}
	}
	if o.Fiber.Set {
		r.Fiber = DoseChange{true, t.Mix.Fiber}
	}
	return r
}
