package estimate

import (
	"fmt"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// frostLine is how deep the edges of one slab go to reach the frost depth: every
// span of every edge of the outline that is no joint, below its own top.
type frostLine [][]geometry.Length

// frostLine gives it for a slab that is oriented, with its lowest top at above
// over the ground. The frost depth counts from the ground, IRC R403.1.4; where the
// ground under the slab rises with its top, edges rise with it. Frost-protected
// shallow foundations are another way, IRC R403.3, for an engineer to lay out.
func (b Base) frostLine(p plan.Plan, s *solid.Solid, above geometry.Length) frostLine {
	out := make(frostLine, len(p.Outline))
	for i, e := range p.Outline {
		if e.Joint {
			continue
		}
		from, to := p.Outline.Ends(i)
		for _, span := range p.Outline.Spans(i) {
			rise := geometry.Length(0)
			if p.Base == plan.Graded {
				_, rise = s.TopRange(geometry.Along(from, to, span.From), geometry.Along(from, to, span.To))
			}
			out[i] = append(out[i], b.Frost+above+p.Height+rise)
		}
	}
	return out
}

// each calls visit for every span of the outline that is no joint, with how deep it
// goes and how deep it is to go, below its own top, until visit gives false.
func (l frostLine) each(p plan.Plan, visit func(section string, deep, asked geometry.Length) bool) {
	for i, e := range p.Outline {
		if e.Joint {
			continue
		}
		for k, span := range p.Outline.Spans(i) {
			deep := p.Field
			if s, ok := p.SectionOn(e, span.Section); ok {
				deep = s.Deepest()
			}
			if !visit(span.Section, deep, l[i][k]) {
				return
			}
		}
	}
}

// reached tells whether every edge of a slab goes as deep as the line.
func (l frostLine) reached(p plan.Plan) bool {
	all := true
	l.each(p, func(_ string, deep, asked geometry.Length) bool {
		all = deep >= asked
		return all
	})
	return all
}

// FrostReach is how deep the edges with one section go on a slab, and how deep they
// are to go to reach the frost depth: where they fall short of it most. Both are
// below their own top.
type FrostReach struct {
	Slab        int    // its number in the job
	Section     string // by its name; "" for edges that are as thick as the field
	Deep, Asked geometry.Length
}

// Short gives by how much they fall short; 0 where they reach it.
func (r FrostReach) Short() geometry.Length { return max(0, r.Asked-r.Deep) }

// FrostReaches gives how deep the edges of every section go, slab by slab, where
// frost goes so deep below the ground: see frostLine for the rule.
func FrostReaches(slabs []takeoff.Slab, base takeoff.Base, frost geometry.Length) []FrostReach {
	var out []FrostReach
	for _, s := range slabs {
		first := len(out)
		Base{Frost: frost}.frostLine(s.Plan, s.Solid, base.Above).each(s.Plan, func(section string, deep, asked geometry.Length) bool {
			r := FrostReach{s.Number, section, deep, asked}
			i := slices.IndexFunc(out[first:], func(o FrostReach) bool { return o.Section == section })
			switch {
			case i < 0:
				out = append(out, r)
			case asked-deep > out[first+i].Asked-out[first+i].Deep:
				out[first+i] = r
			}
			return true
		})
	}
	return out
}

// frostThreshold gives the depth of the main section from which on every edge
// reaches the frost depth.
func (b Base) frostThreshold(step geometry.Length) (Threshold, error) {
	t := Threshold{Text: fmt.Sprintf("The edge that reaches frost, %s below the ground", b.Frost.Text(b.Units))}
	lines := make([]frostLine, len(b.Slabs))
	for k, p := range b.Slabs {
		if p.Blank() {
			continue
		}
		p = p.Oriented()
		s, err := solid.Of(p)
		if err != nil {
			return t, err
		}
		lines[k] = b.frostLine(p, s, b.Spec.Base.Above)
	}
	reached := func(n geometry.Length) bool {
		slabs, _ := Option{Edge: To(n * step)}.Apply(b.Slabs, b.Spec)
		for k, p := range slabs {
			if !p.Blank() && !lines[k].reached(p.Oriented()) {
				return false
			}
		}
		return true
	}
	lo, hi := Field(b.Slabs)/step, Deepest/step
	if !reached(hi) {
		return t, nil
	}
	for lo < hi {
		if mid := (lo + hi) / 2; reached(mid) {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	t.Depth, t.Found = hi*step, true
	return t, nil
}
