package forms

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// Bulkhead is a stretch of a construction joint that is to be formed, with the first pour on
// its left.
type Bulkhead struct {
	Joint int // among the plan's, from 0
	A, B  geometry.Point
}

// Bulkheads gives the boards of construction joints: as deep as the slab is along them, so
// that where a joint runs through a haunch or a strip deeper boards stand there.
func Bulkheads(s *slab.Slab, spec Spec, of []Bulkhead) []Form {
	t := forming{Slab: s, spec: spec}
	var out []Form
	for _, b := range of {
		for _, run := range t.runs(b) {
			side := slab.NewSide(-1, -1, run.a, run.b)
			f := Form{Loop: -1, Edge: -1, Joint: b.Joint + 1, A: run.a, B: run.b, Depth: run.depth, Length: side.Length}
			t.board(&f, side)
			f.Boards = t.formBoards(f.Length)
			at := geometry.Length(0)
			for i, long := range f.Boards {
				stakes := slab.Evenly(at, at+long, spec.Stakes, t.Step())
				if i > 0 {
					stakes = stakes[1:]
				}
				f.Stakes = append(f.Stakes, stakes...)
				at += long
			}
			if spec.Kickers > 0 {
				f.Kickers = t.kickers(side)
			}
			out = append(out, f)
		}
	}
	return out
}

// run is a stretch of a bulkhead with boards of one width.
type run struct {
	a, b  geometry.Point
	depth geometry.Length
}

// leastRun is the shortest stretch that has boards of its own: common practice, no source.
const leastRun = 6 * geometry.Inch

// runs parts a bulkhead where the slab gets deeper than its field.
func (t *forming) runs(b Bulkhead) []run {
	long := geometry.Distance(b.A, b.B)
	type stretch struct{ from, to, depth geometry.Length }
	var all []stretch
	if t.Solid != nil {
		for _, p := range t.Solid.Cut(b.A, b.B) {
			all = append(all, stretch{p.From, p.To, max(p.Start, p.End)})
		}
	}
	if len(all) == 0 {
		all = []stretch{{0, long, t.Plan.Field}}
	}
	deep := func(s stretch) bool { return s.depth > t.Plan.Field+geometry.Sixteenth }
	joined := all[:1:1]
	for _, s := range all[1:] {
		last := &joined[len(joined)-1]
		if deep(s) == deep(*last) || s.to-s.from < leastRun || last.to-last.from < leastRun {
			last.to, last.depth = s.to, max(last.depth, s.depth)
		} else {
			joined = append(joined, s)
		}
	}
	for i := range joined {
		joined[i].from, joined[i].to = joined[i].from.Round(t.Step()), joined[i].to.Round(t.Step())
	}
	joined[0].from, joined[len(joined)-1].to = 0, long
	joined = slices.DeleteFunc(joined, func(s stretch) bool { return s.to <= s.from })
	out := make([]run, 0, len(joined))
	at := func(l geometry.Length) geometry.Point {
		switch l {
		case 0:
			return b.A
		case long:
			return b.B
		}
		return geometry.Along(b.A, b.B, l)
	}
	for _, s := range joined {
		out = append(out, run{at(s.from), at(s.to), s.depth})
	}
	return out
}
