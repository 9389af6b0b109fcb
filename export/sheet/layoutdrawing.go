package sheet

import (
	"context"

	"haunchbook.example/app/handover"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// drawLayout draws slabs of one drawing with their dimensions, and what stands around
// them; of the notes, those that wants says. It gives the sides that found no
// place for their measure.
func drawLayout(plans []*drawing, ls handover.EdgeSections, wants func(plan.Note) bool) (short []edgeRef) {
	all := func(draw func(*drawing)) {
		for _, g := range plans {
			draw(g)
		}
	}
	all((*drawing).slab)
	all((*drawing).plates)
	all((*drawing).doors)
	all((*drawing).creases)
	all((*drawing).sawCuts)
	all((*drawing).bolts)
	all((*drawing).dowels)
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
	all((*drawing).boltNumbers)
	all((*drawing).sawCutNames)
	all((*drawing).slabLabel)
	all((*drawing).heights)
	all((*drawing).diagonals)
	all((*drawing).wallNames)
	return short
}

// neighbors draws the other slabs of the job, as far as they are on the sheet.
func (g *drawing) neighbors() {
	for _, s := range g.all {
		if s.Number == g.of.Number {
			continue
		}
		for _, l := range s.Plan.Loops() {
			var pts []Point
			for _, e := range l {
				pts = append(pts, g.view.at(e.At))
			}
			g.soft(Notes, penNeighbor, append(pts, pts[0])...)
		}
		if at := g.view.at(innermost(s.Plan.Outline.Corners())); g.clip.inset(8).has(at) {
			g.label(label{layer: Notes, size: sizeSmall, color: gray, lines: []string{s.Name}, at: at, limit: 20})
		}
	}
}

var penNeighbor = Pen{Width: 0.25, Color: gray, Dash: []float64{8, 1.5, 1.5, 1.5, 1.5, 1.5}}

// LayoutDrawing gives the plan of the layout sheet on a page of its own size,
// without frame or details: all slabs in their places, whole also where the
// sheets split them.
func LayoutDrawing(ctx context.Context, h *handover.Handover) (Page, error) {
	return layoutDrawing(ctx, h, false)
}

// layoutDrawing draws it, and where all is asked for the bars and the form boards on
// their layers, which a drawing program turns on and off.
func layoutDrawing(ctx context.Context, h *handover.Handover, all bool) (Page, error) {
	s, err := newSet(ctx, h, Options{})
	if err != nil {
		return Page{}, err
	}
	j, t := s.job, s.takeoff
	lo, hi := boundsOf(t.Slabs)
	corners := geometry.Ring{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	large := Papers(j.Units)
	ways := arrange(large[len(large)-1], j.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(ways, j.Units)
	if !ok {
		a, _ = split(ways[0], j.Units, corners)
	}
	lo, hi = withSurvey(j.Survey, lo, hi)
	const around = 32 // mm, for the dimensions
	wide, tall := max(90, a.scale.paperOf(hi.X-lo.X)+2*around), max(60, a.scale.paperOf(hi.Y-lo.Y)+2*around)
	d := newDraft("Layout", wide, tall)
	sheet := rect{0, 0, wide, tall}
	d.area = sheet.inset(1)
	var plans []*drawing
	for _, slab := range t.Slabs {
		plans = append(plans, s.drawing(d, viewOf(a.scale, lo, hi, sheet), sheet.inset(3), slab))
	}
	drawLayout(plans, s.sections, func(plan.Note) bool { return true })
	if all {
		d.obs = newObstacles() // they cross what is written, on layers of their own
		for _, g := range plans {
			g.bars()
			g.forms()
		}
	}
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
