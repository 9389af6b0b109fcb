package takeoff

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// EdgeLine is how deep the edges of one slab are to go: every span of every edge of
// the outline that is no joint, below its own top; inside where another slab of the job lies
// against all of it. A nil one asks nothing.
type EdgeLine [][]geometry.Length

// EdgeLineOf gives it for edges of a slab that is oriented which are to reach so far
// below the ground. That counts from the ground, IRC R403.1.4, over which the lowest
// top of the job stands as b says; where the ground under the slab rises with its top,
// edges rise with it. met are its meetings with the other slabs of the job: it is no edge of
// the building where they lie against it.
func EdgeLineOf(p plan.Plan, s *solid.Solid, b Base, below geometry.Length, met []plan.Meeting) EdgeLine {
	out := make(EdgeLine, len(p.Outline))
	for i, e := range p.Outline {
		if e.Joint {
			continue
		}
		for _, span := range p.Outline.Spans(i) {
			if plan.Covered(met, i, span.From, span.To) {
				out[i] = append(out[i], inside)
				continue
			}
			rise := geometry.Length(0)
			if p.Base == plan.Graded {
				ps := []geometry.Point{p.Outline.Along(i, span.From), p.Outline.Along(i, span.To)}
				if e.Middle != 0 {
					ps = p.Outline.Chords(i)
				}
				for k := 1; k < len(ps); k++ {
					_, high := s.TopRange(ps[k-1], ps[k])
					if rise = max(rise, high); k == 1 {
						rise = high
					}
				}
			}
			out[i] = append(out[i], below+b.Above+p.Height+rise)
		}
	}
	return out
}

// inside marks a span that no ground outside lies at.
const inside geometry.Length = -1

// FrostLineOf gives it for the frost depth, or for the lesser depth of edges that are
// insulated; nil for a building that needs none.
func FrostLineOf(p plan.Plan, s *solid.Solid, b Base, frost geometry.Length, met []plan.Meeting) EdgeLine {
	if b.LetOff(p) {
		return nil
	}
	if b.Insulates(p) && !garage(p) {
		frost = min(frost, b.ShallowDepth())
	}
	return EdgeLineOf(p, s, b, frost, met)
}

// accessoryArea is the greatest area, m², of a free-standing accessory building of light
// frame, eaves at most 10 ft, that needs no frost protection: 600 ft², IRC R403.1.4.1,
// exception 1 (2018).
const accessoryArea = 600 * 0.3048 * 0.3048

// LetOff tells whether a slab is that of a small accessory building, which
// IRC R403.1.4.1 lets off the frost depth. The exception is written for frost; that
// such a slab is not asked for 12 in either is how it is commonly read.
func (b Base) LetOff(p plan.Plan) bool {
	return b.Building == AccessoryBuilding && small(p)
}

// small tells whether a slab is small enough for that. Areas are exact to far less
// than the slack.
func small(p plan.Plan) bool { return p.Outline.Area() <= accessoryArea*(1+1e-12) }

// Each calls visit for every span of the outline that is no joint, with how deep it
// goes and how deep it is to go, below its own top, until visit gives false.
func (l EdgeLine) Each(p plan.Plan, visit func(edge int, on plan.Span, deep, asked geometry.Length) bool) {
	for i, e := range p.Outline {
		if e.Joint || l == nil {
			continue
		}
		for k, span := range p.Outline.Spans(i) {
			if l[i][k] == inside {
				continue
			}
			deep := p.Field
			if s, ok := p.SectionOn(e, span.Section); ok {
				deep = s.Deepest()
			}
			if !visit(i, span, deep, l[i][k]) {
				return
			}
		}
	}
}

// Reached tells whether every edge of a slab goes as deep as the line.
func (l EdgeLine) Reached(p plan.Plan) bool {
	all := true
	l.Each(p, func(_ int, _ plan.Span, deep, asked geometry.Length) bool {
		all = deep >= asked
		return all
	})
	return all
}

// EdgeReach is how deep the edges with one section go on a slab, and how deep they
// are to go: where they fall short of it most. Both are below their own top.
type EdgeReach struct {
	Section     string // by its name; "" for edges that are as thick as the field
	Deep, Asked geometry.Length
	At          geometry.Point // there
}

// Short gives by how much they fall short; 0 where they reach it.
func (r EdgeReach) Short() geometry.Length { return max(0, r.Asked-r.Deep) }

// Reaches gives how deep the edges of every section of a slab go against the line.
func (l EdgeLine) Reaches(p plan.Plan) []EdgeReach {
	var out []EdgeReach
	l.Each(p, func(edge int, on plan.Span, deep, asked geometry.Length) bool {
		r := EdgeReach{on.Section, deep, asked, p.Outline.Along(edge, (on.From+on.To)/2)}
		i := slices.IndexFunc(out, func(o EdgeReach) bool { return o.Section == on.Section })
		switch {
		case i < 0:
			out = append(out, r)
		case asked-deep > out[i].Asked-out[i].Deep:
			out[i] = r
		}
		return true
	})
	return out
}
