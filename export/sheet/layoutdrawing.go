package sheet

import (
	"context"

	"haunchbook.example/app/handover"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

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
	large := Papers(j.Units)
	ways := arrange(large[len(large)-1], j.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(ways, j.Units)
	if !ok {
		a, _ = split(ways[0], j.Units, lo, hi, lo, nil)
	}
	lo, hi = withSurvey(j.Survey, lo, hi)
	const around = 32 // mm, for the dimensions
	wide, tall := max(90, a.scale.paperOf(hi.X-lo.X)+2*around), max(60, a.scale.paperOf(hi.Y-lo.Y)+2*around)
	d := newDraft("Layout", wide, tall)
	sheet := rect{X0: 0, Y0: 0, X1: wide, Y1: tall}
	d.area = sheet.Inset(1)
	v := viewOf(a.scale, lo, hi, sheet)
	s.furniture(d, v, sheet.Inset(3))
	w := shown{draw: layoutLayers, names: layoutLayers, notes: func(plan.Note) bool { return true }}
	s.plot(d, v, sheet.Inset(3), d.area, t.Slabs, w)
	if all { // what is written does not keep off them
		s.plot(d, v, sheet.Inset(3), d.area, t.Slabs, shown{draw: drawing.LayersOf(drawing.Steel, drawing.Forms)})
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
