package sheet

import (
	"fmt"
	"slices"
)

// layoutPages draws each slab with its dimensions, and the details beside it.
func (s *set) layoutPages() {
	var short []edgeRef
	s.plans(work{
		title: "Layout",
		draw: func(g *drawing) {
			g.neighbors()
			short = append(short, drawLayout([]*drawing{g}, s.sections, s.noteOf)...)
		},
		details: func() []block {
			out := s.layoutBlocks(short)
			short = nil
			return out
		},
		pooled: func() []block { return []block{legend(s.layoutLegend()), cautionBlock(siteCautions...)} },
	})
}

func (s *set) layoutBlocks(short []edgeRef) []block {
	u := s.job.Units
	var out []block
	if len(short) > 0 {
		tb := table{title: "Sides too short to dimension", head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, e := range short {
			tb.rows = append(tb.rows, []string{e.name(s.slab.Plan.Loops(), s.slab.Layout.Marks), e.length.Text(u)})
		}
		out = append(out, tableBlock{tb, 2})
	}
	if t := s.slab.Layout.Diagonals; len(t) > 0 {
		tb := table{title: "Square: diagonals", head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, d := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprintf("%d–%d", d.I+1, d.J+1), d.Length.Text(u)})
		}
		out = append(out, tableBlock{tb, 2})
	}
	if t := s.slab.Layout.Squares; len(t) > 0 {
		tb := table{title: "Square: 3-4-5", head: []string{"Corner", "3", "4", "5"}, right: []bool{false, true, true, true}}
		for _, q := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprint(q.Corner + 1), (3 * q.Unit).Text(u), (4 * q.Unit).Text(u), (5 * q.Unit).Text(u)})
		}
		out = append(out, tableBlock{table: tb})
	}
	out = append(out, s.sectionList())
	out = append(out, s.heightsTable()...)
	switch first := s.takeoff.Slabs[0]; {
	case len(s.takeoff.Slabs) == 1:
		out = append(out, s.benchmarkList())
	case s.slab.Number != first.Number:
		out = append(out, s.placeTable(s.slab))
	}
	out = append(out, s.setOutTable()...)
	if s.job.Notes != "" && s.slab.Number == s.takeoff.Slabs[0].Number {
		out = append(out, notes{title: "Notes", items: []string{s.job.Notes}, size: sizeSmall})
	}
	return append(out, s.findings(ruleHas("stock", "form")))
}

// sectionList says what the letters on the edges stand for.
func (s *set) sectionList() block {
	on := s.sections.Letters(s.slab.Number)
	n := notes{title: "Edge sections", size: sizeSmall}
	for _, sec := range s.slab.Plan.Sections {
		if l := on[sec.Name]; l != "" {
			n.items = append(n.items, fmt.Sprintf("%s  %s, %s deep", l, sec.Name, sec.Deepest().Text(s.job.Units)))
		}
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	slices.Sort(n.items)
	return n
}
