package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry"
)

// papers gives the papers to choose from.
func (s *set) papers() []Paper {
	if s.options.Paper != (Paper{}) {
		return []Paper{s.options.Paper}
	}
	return Papers(s.job.Units)
}

// layoutPages draws the plan with its dimensions, and the details beside it.
func (s *set) layoutPages() {
	var short []edgeRef
	letters := sectionLetters(s.slab.Plan)
	s.planSheets("Layout", func(g *drawing) {
		short = append(short, g.layout(letters)...)
	}, func() []block { return s.layoutBlocks(short) })
}

// layout draws the plan with its dimensions and gives the sides that found no
// place for theirs.
func (g *drawing) layout(letters map[string]string) []edgeRef {
	g.slab()
	g.doors()
	g.cornerMarks()
	g.furniture()
	short := g.dimensions()
	g.sectionMarks(letters)
	g.falls()
	g.doorLabels()
	g.jointLabels()
	g.padLabels()
	g.slabLabel()
	g.diagonals()
	return short
}

// LayoutDrawing gives the plan of the layout sheet on a page of its own size,
// without frame or details, whole also where the sheets split it.
func LayoutDrawing(j job.Job, t takeoff.Takeoff) (Page, error) {
	if len(t.Slabs) == 0 {
		return Page{}, errEmpty
	}
	corners := t.Slabs[0].Plan.Outline.Corners()
	lo, hi := corners.Bounds()
	all := arrange(Papers(j.Units), j.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(all, j.Units)
	if !ok {
		a, _ = split(all[len(all)-2], j.Units, corners)
	}
	const around = 32 // mm, for the dimensions
	w, h := a.scale.paperOf(hi.X-lo.X)+2*around, max(60, a.scale.paperOf(hi.Y-lo.Y)+2*around)
	d := newDraft("Layout", max(w, 90), h)
	sheet := rect{0, 0, max(w, 90), h}
	d.area = sheet.inset(1)
	g := newDrawing(d, viewOf(a.scale, lo, hi, sheet), sheet.inset(3), j, t.Slabs[0])
	g.layout(sectionLetters(t.Slabs[0].Plan))
	return d.finish(), nil
}

// furniture draws the scale bar and the north mark in the lower corners.
func (g *drawing) furniture() {
	r, old := g.paper, g.clip
	g.clip = everywhere
	g.scaleBar(g.view, g.j.Units, r.x0+1, r.y0+1)
	g.north(Point{r.x1 - 10, r.y0 + 9})
	g.clip = old
}

// slabLabel says what the field is.
func (g *drawing) slabLabel() {
	g.mustLabel(label{
		layer: Notes, size: sizeHead, bold: true, color: black,
		lines: []string{g.of.Plan.Field.Text(g.j.Units) + " slab"},
		at:    g.view.at(innermost(g.loops[0].Corners())), limit: 120,
	})
}

func (s *set) layoutBlocks(short []edgeRef) []block {
	u := s.job.Units
	var out []block
	if len(short) > 0 {
		tb := table{title: "Sides too short to dimension", head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, e := range short {
			tb.rows = append(tb.rows, []string{e.name(s.slab.Plan.Loops()), e.length.Text(u)})
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
	out = append(out, s.setOutTable()...)
	if s.job.Notes != "" {
		out = append(out, notes{title: "Notes", items: []string{s.job.Notes}, size: sizeSmall})
	}
	return append(out, s.findings(ruleHas("stock", "form")), legend(s.layoutLegend()), cautionBlock())
}

// sectionList says what the letters on the edges stand for.
func (s *set) sectionList() block {
	letters := sectionLetters(s.slab.Plan)
	n := notes{title: "Edge sections", size: sizeSmall}
	for _, sec := range s.slab.Plan.Sections {
		if l := letters[sec.Name]; l != "" {
			n.items = append(n.items, fmt.Sprintf("%s  %s, %s deep", l, sec.Name, sec.Deepest().Text(s.job.Units)))
		}
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	slices.Sort(n.items)
	return n
}

// heightsTable lists the heights of the corners, where they differ.
func (s *set) heightsTable() []block {
	grades := s.slab.Layout.Grades
	differ := false
	for _, g := range grades {
		differ = differ || g.Top != grades[0].Top
	}
	if !differ && s.job.Spec.Place.StakeOut.Benchmark == 0 {
		return nil
	}
	u := s.job.Units
	tb := table{title: "Heights over the benchmark", head: []string{"Corner", "Top", "Dig to"}, right: []bool{false, true, true}}
	for _, g := range grades {
		tb.rows = append(tb.rows, []string{fmt.Sprint(g.Corner + 1), g.Top.Text(u), g.Bottom.Text(u)})
	}
	return []block{tableBlock{table: tb}}
}

// setOutTable lists where pads and holes lie, measured from corner 1 along the
// first side and square off it.
func (s *set) setOutTable() []block {
	l := s.slab.Plan.Outline
	a, b := l.Ends(0)
	u := s.job.Units
	tb := table{
		title: "Set out from corner 1",
		head:  []string{"What", "Along 1–2", "Square off"}, right: []bool{false, true, true},
	}
	add := func(name string, p geometry.Point) {
		x, y := along(a, b, p)
		tb.rows = append(tb.rows, []string{name, x.Text(u), y.Text(u)})
	}
	for i, p := range s.slab.Plan.Pads {
		add(padName(p, i)+" centre", p.Centre)
	}
	for i, h := range s.slab.Plan.Holes {
		for k, e := range h.Loop {
			add(fmt.Sprintf("%s corner %d", holeName(h, i), k+1), e.At)
		}
	}
	for i, st := range s.slab.Plan.Strips {
		for k, p := range st.Path {
			add(fmt.Sprintf("%s point %d", stripName(st, i), k+1), p)
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

// along gives where p lies from a: along the way to b, and square off it to the
// left.
func along(a, b, p geometry.Point) (x, y geometry.Length) {
	v, w := b.Sub(a), p.Sub(a)
	l := math.Hypot(float64(v.X), float64(v.Y))
	if l == 0 {
		return w.X, w.Y
	}
	return geometry.Length(math.Round((float64(w.X)*float64(v.X) + float64(w.Y)*float64(v.Y)) / l)),
		geometry.Length(math.Round((float64(w.Y)*float64(v.X) - float64(w.X)*float64(v.Y)) / l))
}
