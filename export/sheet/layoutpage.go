package sheet

import "fmt"

// papers gives the papers to choose from.
func (s *set) papers() []Paper {
	if s.options.Paper != (Paper{}) {
		return []Paper{s.options.Paper}
	}
	return Papers(s.job.Units)
}

// layoutPages draws the plan with its dimensions, and the details beside it.
func (s *set) layoutPages() {
	lo, hi := s.job.Slab.Outline.Corners().Bounds()
	a, _ := choose(arrange(s.papers(), s.job.Units, hi.X-lo.X, hi.Y-lo.Y), s.job.Units)
	d := newDraft("Layout", a.width, a.height)
	d.area = a.plan
	g := newDrawing(d, viewOf(a.scale, lo, hi, a.plan), s.job, s.takeoff)
	g.slab()
	g.plates()
	g.doors()
	g.bolts()
	g.cornerMarks()
	g.furniture(a.plan)
	short := g.dimensions()
	g.doorLabels()
	g.jointLabels()
	g.padLabels()
	g.boltNumbers()
	g.sectionMarks(sectionLetters(s.job.Slab))
	g.falls()
	g.slabLabel()
	g.diagonals()

	blocks := s.layoutBlocks(short)
	d.area = sheetArea(a.width, a.height)
	left := d.flow(a.columns, blocks)
	s.add(d, "Layout", a.scale.Name)
	s.continued("Layout", a.paper, left)
}

// continued puts blocks that found no room on pages of their own.
func (s *set) continued(title string, p Paper, left []block) {
	for len(left) > 0 {
		w, h := p.landscape()
		d := newDraft(title+" – lists", w, h)
		before := len(left)
		left = d.flow(columnsOf(sheetArea(w, h), int(w/80)), left)
		s.add(d, title+" – lists", "–")
		if len(left) == before {
			return // wider than any column; cannot happen with our blocks
		}
	}
}

// furniture draws the scale bar and the north mark in the lower corners.
func (g *drawing) furniture(r rect) {
	g.scaleBar(g.view, g.j.Units, r.x0+1, r.y0+1)
	g.north(Point{r.x1 - 10, r.y0 + 9})
}

// slabLabel says what the field is.
func (g *drawing) slabLabel() {
	lo, hi := g.loops[0].Corners().Bounds()
	g.mustLabel(label{
		layer: Notes, size: sizeHead, bold: true, color: black,
		lines: []string{g.j.Slab.Field.Text(g.j.Units) + " slab"},
		at:    g.view.at(lo).add(g.view.at(hi)).times(0.5), limit: 120,
	})
}

func (s *set) layoutBlocks(short []edgeRef) []block {
	u := s.job.Units
	var out []block
	out = append(out, s.sectionBlocks()...)
	if t := s.takeoff.Layout.Diagonals; len(t) > 0 {
		tb := table{title: "Square: diagonals", head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, d := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprintf("%d–%d", d.I+1, d.J+1), d.Length.Text(u)})
		}
		out = append(out, tableBlock{tb})
	}
	if t := s.takeoff.Layout.Squares; len(t) > 0 {
		tb := table{title: "Square: 3-4-5", head: []string{"Corner", "3", "4", "5"}, right: []bool{false, true, true, true}}
		for _, q := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprint(q.Corner + 1), (3 * q.Unit).Text(u), (4 * q.Unit).Text(u), (5 * q.Unit).Text(u)})
		}
		out = append(out, tableBlock{tb})
	}
	if len(short) > 0 {
		tb := table{title: "Edges not dimensioned on the plan", head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, e := range short {
			tb.rows = append(tb.rows, []string{e.name(s.job.Slab.Loops()), e.length.Text(u)})
		}
		out = append(out, tableBlock{tb})
	}
	out = append(out, s.boltTables()...)
	if s.job.Notes != "" {
		out = append(out, notes{title: "Notes", items: []string{s.job.Notes}, size: sizeSmall})
	}
	return append(out, cautionBlock())
}

// boltTables lists the bolts of each wall by running distance.
func (s *set) boltTables() []block {
	u := s.job.Units
	var out []block
	for _, w := range s.takeoff.Layout.Walls {
		if len(w.Bolts) == 0 {
			continue
		}
		n := len(s.job.Slab.Loops()[w.Loop])
		tb := table{
			title: fmt.Sprintf("%s bolts, tape %d → %d", w.Name, w.Edge+1, (w.Edge+1)%n+1),
			head:  []string{"Bolt", "Mark", "Bolt", "Mark"},
			right: []bool{true, true, true, true},
		}
		half := (len(w.Bolts) + 1) / 2
		for i := range half {
			row := []string{fmt.Sprint(w.Bolts[i].Mark), w.Bolts[i].Along.Text(u), "", ""}
			if k := i + half; k < len(w.Bolts) {
				row[2], row[3] = fmt.Sprint(w.Bolts[k].Mark), w.Bolts[k].Along.Text(u)
			}
			tb.rows = append(tb.rows, row)
		}
		out = append(out, tableBlock{tb})
	}
	return out
}
