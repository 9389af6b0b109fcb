package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

// papers gives the papers to choose from.
func (s *set) papers() []Paper {
	if s.options.Paper != (Paper{}) {
		return []Paper{s.options.Paper}
	}
	return Papers(s.job.Units)
}

// layoutPages draws each slab with its dimensions, and the details beside it.
func (s *set) layoutPages() {
	var short []edgeRef
	s.plans(work{
		title: "Layout",
		draw: func(g *drawing) {
			g.neighbours()
			short = append(short, drawLayout([]*drawing{g}, s.letters, s.noteOf)...)
		},
		details: func() []block {
			out := s.layoutBlocks(short)
			short = nil
			return out
		},
		pooled: func() []block { return []block{legend(s.layoutLegend()), cautionBlock(siteCautions...)} },
	})
}

// drawLayout draws slabs of one drawing with their dimensions, and what stands around
// them; of the notes, those that wants says. It gives the sides that found no
// place for their measure.
func drawLayout(plans []*drawing, ls letters, wants func(plan.Note) bool) (short []edgeRef) {
	all := func(draw func(*drawing)) {
		for _, g := range plans {
			draw(g)
		}
	}
	all((*drawing).slab)
	all((*drawing).doors)
	plans[0].furniture()
	plans[0].benchmarks()
	all((*drawing).cornerMarks)
	all(func(g *drawing) { short = append(short, g.dimensions()...) })
	plans[0].notes(wants)
	all(func(g *drawing) { g.sectionMarks(ls) })
	all((*drawing).falls)
	all((*drawing).doorLabels)
	all((*drawing).jointLabels)
	all((*drawing).padLabels)
	all((*drawing).slabLabel)
	all((*drawing).heights)
	all((*drawing).diagonals)
	return short
}

// neighbours draws the other slabs of the job, as far as they are on the sheet.
func (g *drawing) neighbours() {
	for _, s := range g.all {
		if s.Number == g.of.Number {
			continue
		}
		other := newDrawing(g.draft, g.view, g.paper, g.j, s, g.all)
		for _, l := range other.loops {
			var pts []Point
			for _, e := range l {
				pts = append(pts, g.view.at(e.At))
			}
			g.soft(Notes, penNeighbour, append(pts, pts[0])...)
		}
		if at := g.view.at(innermost(other.loops[0].Corners())); g.clip.inset(8).has(at) {
			g.label(label{layer: Notes, size: sizeSmall, color: grey, lines: []string{s.Name}, at: at, limit: 20})
		}
	}
}

var penNeighbour = Pen{Width: 0.25, Color: grey, Dash: []float64{8, 1.5, 1.5, 1.5, 1.5, 1.5}}

// LayoutDrawing gives the plan of the layout sheet on a page of its own size,
// without frame or details: all slabs in their places, whole also where the
// sheets split them.
func LayoutDrawing(j job.Job, t takeoff.Takeoff) (Page, error) {
	if len(t.Slabs) == 0 {
		return Page{}, errEmpty
	}
	lo, hi := boundsOf(t.Slabs)
	corners := geometry.Ring{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	all := arrange(Papers(j.Units), j.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(all, j.Units)
	if !ok {
		a, _ = split(all[len(all)-2], j.Units, corners)
	}
	lo, hi = withSurvey(j.Survey, lo, hi)
	const around = 32 // mm, for the dimensions
	w, h := a.scale.paperOf(hi.X-lo.X)+2*around, max(60, a.scale.paperOf(hi.Y-lo.Y)+2*around)
	d := newDraft("Layout", max(w, 90), h)
	sheet := rect{0, 0, max(w, 90), h}
	d.area = sheet.inset(1)
	var plans []*drawing
	for _, slab := range t.Slabs {
		plans = append(plans, newDrawing(d, viewOf(a.scale, lo, hi, sheet), sheet.inset(3), j, slab, t.Slabs))
	}
	drawLayout(plans, lettersOf(t.Slabs), func(plan.Note) bool { return true })
	return d.finish(), nil
}

// withSurvey widens the box lo-hi to hold the benchmarks and notes that are no
// farther from it than it is large.
func withSurvey(s plan.Survey, lo, hi geometry.Point) (geometry.Point, geometry.Point) {
	reach := max(hi.X-lo.X, hi.Y-lo.Y)
	from, to := geometry.Point{X: lo.X - reach, Y: lo.Y - reach}, geometry.Point{X: hi.X + reach, Y: hi.Y + reach}
	take := func(p geometry.Point) {
		if p.X >= from.X && p.X <= to.X && p.Y >= from.Y && p.Y <= to.Y {
			lo = geometry.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = geometry.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
	}
	for _, b := range s.Benchmarks {
		take(b.At)
	}
	for _, n := range s.Notes {
		take(subject(n))
	}
	return lo, hi
}

// furniture draws the scale bar and the north mark in the lower corners.
func (g *drawing) furniture() {
	r, old := g.paper, g.clip
	g.clip = everywhere
	g.scaleBar(g.view, g.j.Units, r.x0+1, r.y0+1)
	g.north(g.j.Survey.North, Point{r.x1 - 10, r.y0 + 9})
	g.clip = old
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
	on := s.letters.on(s.slab.Number)
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
