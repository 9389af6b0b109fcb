package hit

import (
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry/plan"
)

// Box is a part of the screen, pixels.
type Box struct{ X0, Y0, X1, Y1 float64 }

// BoxAround gives the box that reaches so far from a place on all sides.
func BoxAround(at view.XY, by float64) Box { return Box{at.X - by, at.Y - by, at.X + by, at.Y + by} }

// Near tells whether a place lies in the box or at most so far from its sides.
func (b Box) Near(s view.XY, by float64) bool {
	return s.X >= b.X0-by && s.X <= b.X1+by && s.Y >= b.Y0-by && s.Y <= b.Y1+by
}

// Room that a note's frame leaves around its text.
const (
	NoteMarginX = 6
	NoteMarginY = 3
)

// NoteBox gives where a note's frame stands, for its lines of text. The leader
// leaves on the side that it goes to. While its place is on the screen, the frame
// is moved in where it would be cut off.
func NoteBox(n plan.Note, v view.View, lines []string, measure size.Measure) Box {
	w, h := 0.0, 0.0
	for _, line := range lines {
		lw, lh := measure(line)
		w, h = max(w, lw), lh
	}
	w, h = w+2*NoteMarginX, h*float64(len(lines))+2*NoteMarginY
	at := v.Screen(n.At)
	left := at.X
	if n.Leader && v.Screen(n.To).X > at.X {
		left -= w
	}
	if at.X >= 0 && at.X <= v.W && at.Y >= 0 && at.Y <= v.H {
		left = max(4, min(left, v.W-w-4))
	}
	return Box{left, at.Y - h/2, left + w, at.Y + h/2}
}

// NorthArrow gives where the arrow that points north stands on the screen, with the
// radius of its frame.
func NorthArrow(v view.View) (at view.XY, radius float64) {
	return view.XY{X: v.W - 38, Y: 42}, 33
}
