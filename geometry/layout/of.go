package layout

import (
	"fmt"
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Of places everything on a sound plan whose outline runs counter-clockwise, by
// a sound specification. The same input gives the same layout.
func Of(p plan.Plan, s Spec, sol *solid.Solid) Layout {
	t := newSite(p, s, sol)
	var l Layout
	l.Bars = t.edgeBars()
	l.Bars = append(l.Bars, t.padBars()...)
	l.Bars = append(l.Bars, t.stripBars()...)
	t.field(&l)
	l.Dowels = t.dowels(l.Bars)
	l.Walls = t.walls()
	t.bolts(l.Walls)
	t.hits(l.Walls, l.Bars)
	l.Forms = t.forms()
	l.Joints = t.joints()
	l.Diagonals = t.diagonals()
	l.Squares = t.squares()
	l.Lines = t.lines()
	l.Grades = t.grades()
	mark(l.Bars)
	t.cutLists(&l)
	l.Findings = t.findings
	return l
}

// boardStep is what lengths of boards are rounded up to on their cut lists.
func (t *site) boardStep() geometry.Length {
	if t.spec.Units == geometry.Millimetres {
		return geometry.Millimetre
	}
	return geometry.Inch / 8
}

// cutLists makes the lists to cut from.
func (t *site) cutLists(l *Layout) {
	var bars, boards, plates []wanted
	for _, b := range l.Bars {
		bars = append(bars, wanted{barName(b.Size), b.Size, Piece{b.Mark, b.Cut}})
	}
	for range l.Dowels {
		d := t.spec.Dowels
		bars = append(bars, wanted{barName(d.Size), d.Size, Piece{"D1", d.Length}})
	}
	for _, f := range l.Forms {
		for i, b := range f.Boards {
			boards = append(boards, wanted{name: f.Board, Piece: Piece{fmt.Sprintf("%s.%d", t.sides[f.Loop][f.Edge].name(), i+1), min(slices.Max(t.spec.Forms.Stock), roundUp(b, t.boardStep()))}})
		}
	}
	for _, w := range l.Walls {
		for i, p := range w.Pieces {
			plates = append(plates, wanted{name: w.Plate, Piece: Piece{fmt.Sprintf("%s.%d", w.Name, i+1), min(t.spec.Bolts.Stock, roundUp(p.To-p.From, t.boardStep()))}})
		}
	}
	l.Cuts = t.cutFrom(bars, t.spec.Bars.Stock, t.spec.Bars.Yard, t.spec.Bars.Size, t.spec.Bars.Kerf)
	l.Lumber = t.cutFrom(boards, t.spec.Forms.Stock, nil, 0, 0)
	l.Plates = t.cutFrom(plates, []geometry.Length{t.spec.Bolts.Stock}, nil, 0, 0)
}
