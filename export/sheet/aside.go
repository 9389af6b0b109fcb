package sheet

import (
	"cmp"
	"slices"
	"strings"

	"haunchbook.example/geometry/drawing"
)

// asides is the list of what found no room on drawings, among what is packed: known once
// they are drawn, and about as tall as it was when they were drawn before.
type asides struct{ block }

func (a asides) span(n int, column, tall float64) int {
	if w, ok := a.block.(wider); ok {
		return w.span(n, column, tall)
	}
	return n
}

// sheets draws topics as they are packed. What finds no room on a drawing is listed where
// there still is some; where the list would take a sheet of its own, all is packed once
// more with it.
func (s *set) sheets(topics []topic, best *packing) {
	n, made, aside := len(best.sheets), len(s.made), s.aside
	rows := s.draw(best)
	if len(best.sheets) == n || s.stopped() != nil {
		return
	}
	drawn, counted := s.made, s.aside
	s.made, s.aside = s.made[:made:made], aside
	topics = slices.Clone(topics)
	first := slices.IndexFunc(topics, func(t topic) bool { return t.name == best.sheets[0].topics[0] })
	topics[first].blocks = append(slices.Clone(topics[first].blocks), asides{s.unmarked(rows)})
	again := s.packed(topics)
	if n = len(again.sheets); n >= len(best.sheets) || !alike(s.draw(again), rows) || len(again.sheets) > n {
		s.made, s.aside = drawn, counted
	}
}

// alike tells whether the same was found to have no room, whatever its marks.
func alike(a, b []drawing.Row) bool {
	text := func(r drawing.Row) string { return r.Of + "\n" + strings.Join(r.Texts, "\n") }
	list := func(rows []drawing.Row) (out []string) {
		for _, r := range rows {
			out = append(out, text(r))
		}
		slices.Sort(out)
		return out
	}
	return slices.Equal(list(a), list(b))
}

// draw draws the sheets of a packing and gives what found no room on their drawings.
func (s *set) draw(best *packing) (rows []drawing.Row) {
	w, h := s.paper.drawn().landscape()
	g := best.grid
	var kept func()                                               // draws the list of them where it has its place
	for i := 0; i < len(best.sheets) && s.stopped() == nil; i++ { // drawing may add what found no room
		b := best.sheets[i]
		slices.SortFunc(b.topics, func(x, y string) int {
			return cmp.Compare(best.step(x), best.step(y))
		})
		d := newDraft(strings.Join(s.words(b.topics), ", "), w, h)
		d.say = s.say
		d.area = g.area
		for k := 0; k < len(b.put); k++ {
			p := b.put[k]
			if _, list := p.block.(asides); list {
				kept = func() { s.unmarked(rows).draw(d, p.x, p.top, p.width) }
				continue
			}
			p.draw(d, p.x, p.top, p.width)
			if len(d.rows) > 0 {
				rows = append(rows, d.rows...)
				if !best.listed() {
					best.add(i, g.size(b.topics[0], s.unmarked(d.rows)))
				}
				d.rows = nil
			}
		}
		s.add(d, titles{sheet: d.page.Name, topics: b.topics, scale: "as written,", paper: s.paper.Name, packed: true})
	}
	if kept != nil {
		kept()
	}
	return rows
}

// listed tells whether the list of what finds no room has its place.
func (p *packing) listed() bool {
	return slices.ContainsFunc(p.sheets, func(s *packed) bool {
		return slices.ContainsFunc(s.put, func(b placedBlock) bool { _, ok := b.block.(asides); return ok })
	})
}
