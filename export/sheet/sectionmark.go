package sheet

import "haunchbook.example/app/handover"

// sectionMarks says at each stretch of an edge which section it has.
func (g *drawing) sectionMarks(all handover.EdgeSections) {
	if len(all) < 2 {
		return // it goes without saying
	}
	letters := all.Letters(g.of.Number)
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
