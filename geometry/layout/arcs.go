package layout

import "haunchbook.example/geometry/plan"

// asDrawn numbers what is placed along edges as they are drawn. It was placed on the plan
// whose arcs are parted into chords; what lies along an arc is told of it as one already.
func (l *Layout) asDrawn(parted plan.Plan) {
	loops := parted.Loops()
	of := func(loop int, edge *int) {
		if loop >= 0 && loop < len(loops) && *edge >= 0 && *edge < len(loops[loop]) {
			*edge = loops[loop].Drawn(*edge)
		}
	}
	for i := range l.Meetings {
		of(l.Meetings[i].Loop, &l.Meetings[i].Edge)
	}
	for i := range l.Dowels {
		of(0, &l.Dowels[i].Edge)
	}
	for i := range l.Walls {
		of(l.Walls[i].Loop, &l.Walls[i].Edge)
		of(l.Walls[i].Loop, &l.Walls[i].Side.Edge)
	}
	for i := range l.Isolation {
		of(l.Isolation[i].Loop, &l.Isolation[i].Edge)
	}
	for i := range l.Forms {
		if f := &l.Forms[i]; f.Middle == 0 && f.Curb == 0 { // the other has it already
			of(f.Loop, &f.Edge)
		}
	}
}
