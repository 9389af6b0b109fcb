package hit

import (
	"math"
	"strings"

	"haunchbook/app/window/canvas/dim"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry/plan"
)

// Box is an upright rectangle on the screen.
type Box struct{ X0, Y0, X1, Y1 float64 }

// Covers tells whether s lies in the box or by its side.
func (b Box) Covers(s view.XY) bool {
	const by = 3
	return s.X >= b.X0-by && s.X <= b.X1+by && s.Y >= b.Y0-by && s.Y <= b.Y1+by
}

// Lines gives a note's text line by line, as it is drawn.
func Lines(n plan.Note) []string { return strings.Split(n.Text, "\n") }

// NoteBox gives where a note's text stands: its place is the middle of the left
// side.
func NoteBox(n plan.Note, v view.View, measure dim.Measure) Box {
	at := v.Screen(n.At)
	w, h := 0.0, 0.0
	for _, line := range Lines(n) {
		lw, lh := measure(line)
		w, h = math.Max(w, lw), h+lh
	}
	return Box{at.X, at.Y - h/2, at.X + w, at.Y + h/2}
}

// Around gives the benchmark or note under s.
func Around(sv plan.Survey, v view.View, measure dim.Measure, s view.XY) Target {
	best, reach := Target{}, float64(cornerReach)
	for i, b := range sv.Benchmarks {
		if d := view.Distance(v.Screen(b.At), s); d < reach {
			best, reach = Target{Kind: Benchmark, Index: i}, d
		}
	}
	for i, n := range sv.Notes {
		if d := view.Distance(v.Screen(n.To), s); n.Leader && d < reach {
			best, reach = Target{Kind: Note, Index: i, Sub: 1}, d
		}
	}
	if best.Kind != Nothing {
		return best
	}
	for i, n := range sv.Notes {
		if NoteBox(n, v, measure).Covers(s) {
			return Target{Kind: Note, Index: i}
		}
	}
	return Target{}
}

// Beside gives which of the other slabs is under s.
func Beside(slabs []plan.Plan, worked int, v view.View, s view.XY) Target {
	for k, p := range slabs {
		if k != worked && At(p, v, nil, s).Kind != Nothing {
			return Target{Kind: Other, Index: k}
		}
	}
	return Target{}
}
