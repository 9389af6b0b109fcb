package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

var _ = add(kind{layer: drawing.Curbs, stage: lines, order: 10, sound: true, draw: (*Maker).curbs, write: (*Maker).curbNames})

// curbs draws the inner faces of curbs, and their ends at doors.
func (m *Maker) curbs() {
	if m.s.Layout == nil {
		return
	}
	for _, f := range m.s.Layout.Curbs.Faces {
		if m.seen(f.A, f.B) {
			m.d.Stroke(drawing.Pencil{Layer: drawing.Curbs, Style: drawing.CurbLine}, f.A, f.B)
		}
	}
}

// curbNames says, on the longest of the stretches that are alike, how high and wide a curb is.
func (m *Maker) curbNames() {
	if m.s.Layout == nil {
		return
	}
	runs := m.s.Layout.Curbs.Runs
	for i := range runs {
		if r := &runs[i]; longest(runs, i) {
			a, b := r.Arc.B, r.Arc.A // the slab is on the right of it
			if !m.seen(a, b) || m.o.Screen && m.small(geometry.Distance(a, b), 47) {
				continue
			}
			m.lines = append(m.lines[:0], m.s.Layout.Curbs.Kind(*r).Called(m.d.Text))
			at := drawing.Beside(r.Arc.At(0.9, 0), r.Arc.At(0.1, 0), -4.5, 0.5, 0.25, 0.75)
			m.d.Label(drawing.Label{
				Layer: drawing.Curbs, Style: drawing.NoteText, Type: drawing.Small, Of: "Curb", At: r.Arc.At(0.5, r.Width), Prefer: inward(r.Arc.A, r.Arc.B),
				Start: 1.6, Near: 6, Reach: m.reach(60), Weight: placeWeight - 4,
			}, m.lines, at[:3]...)
		}
	}
}

// longest tells whether a run is the longest of those that are as high and as wide, the first
// of several.
func longest(runs []plan.CurbRun, i int) bool {
	for k, o := range runs {
		if o.Height == runs[i].Height && o.Width == runs[i].Width && (o.Long() > runs[i].Long() || o.Long() == runs[i].Long() && k < i) {
			return false
		}
	}
	return true
}
