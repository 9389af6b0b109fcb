package sheet

import (
	"reflect"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// letters are the edge sections in use, in the order of their letters. Those of
// several slabs that are built alike share one.
type letters []lettered

type lettered struct {
	section plan.Section
	field   geometry.Length // of the slabs that have it
	slabs   []takeoff.Slab
}

// lettersOf gives the sections in use on the slabs.
func lettersOf(slabs []takeoff.Slab) (out letters) {
	for _, s := range slabs {
		for _, name := range sectionsUsed(s.Plan) {
			sec, ok := s.Plan.SectionNamed(name)
			if !ok {
				continue
			}
			at := -1
			for i, l := range out {
				if l.field == s.Plan.Field && reflect.DeepEqual(l.section, sec) {
					at = i
				}
			}
			if at < 0 {
				at = len(out)
				out = append(out, lettered{section: sec, field: s.Plan.Field})
			}
			out[at].slabs = append(out[at].slabs, s)
		}
	}
	return out
}

// sectionsUsed names the sections of a plan's edges and doors, in order.
func sectionsUsed(p plan.Plan) (names []string) {
	seen := map[string]bool{"": true}
	for _, l := range p.Loops() {
		for i := range l {
			for _, s := range l.Spans(i) {
				if !seen[s.Section] {
					seen[s.Section] = true
					names = append(names, s.Section)
				}
			}
		}
	}
	return names
}

// on gives the letter of each section of one slab, by name.
func (ls letters) on(slab int) map[string]string {
	m := map[string]string{}
	for i, l := range ls {
		for _, s := range l.slabs {
			if s.Number == slab {
				m[l.section.Name] = letter(i)
			}
		}
	}
	return m
}

// letter gives A, B, … Z, AA, …
func letter(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('A'+(i-1)%26)) + s
	}
	return s
}

// sectionMarks says at each stretch of an edge which section it has.
func (g *drawing) sectionMarks(all letters) {
	if len(all) < 2 {
		return // it goes without saying
	}
	letters := all.on(g.of.Number)
	for li, l := range g.loops {
		for i := range l {
			r := g.side(li, i)
			last := ""
			for _, s := range l.Spans(i) {
				if s.Section == "" || s.Section == last {
					continue
				}
				last = s.Section
				at := (s.From + s.To) / 2
				if s.Door >= 0 {
					at = s.From + (s.To-s.From)/4 // its name stands in the middle
				}
				g.label(label{
					layer: Thick, size: sizeSmall, bold: true, color: black, lines: []string{letters[s.Section]}, boxed: true,
					at: g.onSide(li, i, at), prefer: r.out.times(-1), start: 4, limit: 22,
				})
			}
		}
	}
}
