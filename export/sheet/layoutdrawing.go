package sheet

import (
	"context"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// Layout is the plan of the layout sheet by itself, for drawing programs and screens.
type Layout struct {
	Page                // without frame or details
	below []Item        // the bars and the form boards, which a drawing program turns on and off
	rows  []drawing.Row // what found no room on the page
	job   job.Job
	slabs []takeoff.Slab
}

// LayOut gives the plan of the layout sheet on a page of its own size: all slabs in
// their places, whole also where the sheets split them.
func LayOut(ctx context.Context, h *handover.Handover) (Layout, error) {
	s, err := newSet(ctx, h, Options{})
	if err != nil {
		return Layout{}, err
	}
	d := s.layOut(layoutShown)
	return Layout{
		Page: d.finish(), rows: d.rows,
		below: s.layOut(belowShown).finish().Items, // what is written does not keep off them
		job:   s.job, slabs: s.takeoff.Slabs,
	}, nil
}

// layoutShown is what the layout shows, and belowShown what lies below it.
var (
	layoutShown = shown{draw: layoutLayers, names: layoutLayers, notes: func(plan.Note) bool { return true }}
	belowShown  = shown{draw: drawing.LayersOf(drawing.Steel, drawing.Forms)}
)

// layOut draws all slabs in their places.
func (s *set) layOut(w shown) *draft {
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
	paper := rect{X0: 0, Y0: 0, X1: wide, Y1: tall}
	v := viewOf(a.scale, lo, hi, paper)
	d := newDraft(s.say.Word("Layout"), wide, tall)
	d.say = s.say
	d.area = paper.Inset(1)
	if w.names != 0 {
		s.furniture(d, v, paper.Inset(3))
	}
	s.plot(d, v, paper.Inset(3), d.area, t.Slabs, w)
	return d
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
