package layout_test

import (
	"fmt"
	"testing"

	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// checkMarks: everything that is marked has a mark, and no two things have the same.
// Bars that are cut alike share one.
func checkMarks(t failing, plans []plan.Plan, ls []layout.Layout) {
	of := map[string]string{}
	has := func(m mark.Mark, thing string, at ...int) {
		if len(at) > 0 {
			thing += fmt.Sprint(" ", at)
		}
		text := m.String()
		if was, ok := of[text]; text == "" || ok && was != thing {
			t.Fatalf("%q is %s and %s", text, thing, was)
		}
		of[text] = thing
	}
	for n, l := range ls {
		for k, loop := range plans[n].Loops() {
			for i, e := range loop {
				for d := range e.Doors {
					has(l.Marks.Door(k, i, d), "a door", n, k, i, d)
				}
			}
		}
		for i := range plans[n].Pads {
			has(l.Marks.Pad(i), "a pad", n, i)
		}
		for i := range plans[n].Strips {
			has(l.Marks.Strip(i), "a strip", n, i)
		}
		for i := range plans[n].Holes {
			has(l.Marks.Hole(i), "a hole", n, i)
		}
		for i, w := range l.Walls {
			has(w.Mark, "a wall", n, i)
			for k := range w.Pieces {
				has(w.Mark.Piece(k+1), "a plate", n, i, k)
			}
			for k, b := range w.Bolts {
				has(b.Mark, "a bolt", n, i, k)
			}
		}
		for i, f := range l.Forms {
			has(f.Mark, "a form", n, i)
			for k := range f.Boards {
				has(f.Mark.Piece(k+1), "a board", n, i, k)
			}
		}
		for i, c := range l.SawCuts {
			has(c.Mark, "a saw cut", n, i)
		}
		for _, b := range l.Bars {
			has(b.Mark, fmt.Sprint("bars No. ", b.Size, " cut ", b.Cut))
		}
		if len(l.Dowels) > 0 {
			has(layout.DowelMark, "dowels")
		}
	}
}

// No mark is used twice in a job of several slabs.
func TestNoMarkTwice(t *testing.T) {
	for _, p := range corpus(t) {
		q := p
		q.Pads = append([]plan.Pad{{Name: "P1", Width: foot, Length: foot, Depth: foot, Center: p.Outline[0].At}, {Width: foot, Length: foot, Depth: foot, Center: p.Outline[0].At}}, p.Pads...)
		plans := []plan.Plan{p, q}
		ls, _, _ := layout.Of(t.Context(), []layout.Slab{{Name: "One", Plan: p}, {Name: "Two", Plan: q}}, spec(nil))
		checkMarks(t, plans, ls)
	}
}
