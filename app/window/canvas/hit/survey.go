package hit

import (
	"strings"

	"haunchbook.example/app/window/canvas/dim"
	"haunchbook.example/app/window/canvas/room"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry/plan"
)

// noteLetters is how long a line of a note is before it is broken.
const noteLetters = 32

// NoteLines breaks a note into lines, by its own breaks and between words.
func NoteLines(text string) []string {
	var lines []string
	for _, l := range strings.Split(text, "\n") {
		lines = append(lines, Wrap(l, noteLetters)...)
	}
	return lines
}

// Wrap breaks text between words into lines of at most so many letters.
func Wrap(text string, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > most {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// Room that a note's frame leaves around its text.
const (
	NoteMarginX = 6
	NoteMarginY = 3
)

// NoteBox gives where a note's frame stands, for so many lines of text of that
// width and of that height each. The leader leaves on the side that it goes to.
// While its place is on the screen, the frame is moved in where it would be cut
// off.
func NoteBox(n plan.Note, v view.View, width, lineHeight float64, lines int) room.Box {
	at := v.Screen(n.At)
	w, h := width+2*NoteMarginX, lineHeight*float64(lines)+2*NoteMarginY
	left := at.X
	if n.Leader && v.Screen(n.To).X > at.X {
		left -= w
	}
	if at.X >= 0 && at.X <= v.W && at.Y >= 0 && at.Y <= v.H {
		left = max(4, min(left, v.W-w-4))
	}
	return room.Box{X0: left, Y0: at.Y - h/2, X1: left + w, Y1: at.Y + h/2}
}

// NoteFrame is NoteBox for the text as it is measured: where a note's frame
// stands.
func NoteFrame(n plan.Note, v view.View, measure dim.Measure) room.Box {
	w, h := 0.0, 0.0
	lines := NoteLines(n.Text)
	for _, line := range lines {
		lw, lh := measure(line)
		w, h = max(w, lw), lh
	}
	return NoteBox(n, v, w, h, len(lines))
}

// NorthArrow gives where the arrow that points north stands on the screen, with the
// radius of its frame.
func NorthArrow(v view.View) (at view.XY, radius float64) {
	return view.XY{X: v.W - 38, Y: 42}, 33
}

// Around gives the north arrow, benchmark or note under s.
func Around(sv plan.Survey, v view.View, measure dim.Measure, s view.XY) Target {
	if at, r := NorthArrow(v); sv.North.Known && view.Distance(at, s) < r {
		return Target{Kind: North}
	}
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
		if NoteFrame(n, v, measure).Near(s.X, s.Y, 3) {
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
