package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// Frost is insulation of the edge against frost: on its face, and lying in the ground.
type Frost struct {
	Upright, Height geometry.Length // thickness, and from the top of the slab down
	Wing, Width     geometry.Length // thickness, and out from the upright foam; 0 for none
	Over            geometry.Length // from the top of the slab down to the top of the wing
	Ground          geometry.Length // below the top of the slab
}

// reach gives how far out it goes.
func (f *Frost) reach() geometry.Length {
	if f.Wing == 0 {
		return f.Upright
	}
	return f.Upright + f.Width
}

// draw draws it, and the ground outside.
func (f *Frost) draw(d *drawing.Drawing, s *Section) {
	thin := pencil(drawing.HatchLine)
	foam := func(a, b geometry.Point) {
		ring := corners(a, b)
		d.Pattern(thin, drawing.Slanted, ring...)
		d.Ring(pencil(drawing.RuleLine), ring...)
	}
	foam(at(-f.Upright, 0), at(0, f.Height))
	if f.Wing > 0 {
		foam(at(-f.reach(), f.Over), at(-f.Upright, f.Over+f.Wing))
	}
	d.Stroke(pencil(drawing.RuleLine), at(s.left(), f.Ground), at(-f.Upright, f.Ground))
	d.Label(drawing.Label{
		Layer: drawing.Details, Style: drawing.NoteText, Type: drawing.Small, At: at((s.left()-f.Upright)/2, f.Ground),
		Start: 0.5, Reach: 2, Weight: nameWeight, Optional: true,
	}, []string{"ground"})
}

// measures measures the depth of the edge, and the insulation where there is room: it is said
// in words too.
func (f *Frost) measures(d *drawing.Drawing, s *Section, deep geometry.Length) {
	left := s.left()
	between(d, drawing.Dimension{Of: "depth", A: at(left, deep), B: at(left, 0), Left: true, Weight: mainWeight}, deep)
	between(d, drawing.Dimension{Of: "upright foam, high", A: at(-f.Upright, f.Height), B: at(-f.Upright, 0), Left: true, First: 3, Weight: boltWeight, Optional: s.Said}, f.Height)
	between(d, drawing.Dimension{Of: "upright foam, thick", A: at(-f.Upright, 0), B: at(0, 0), Left: true, First: 3, Weight: boltWeight, Optional: s.Said}, f.Upright)
	if f.Wing == 0 {
		return
	}
	low := f.Over + f.Wing
	between(d, drawing.Dimension{Of: "lying foam, wide", A: at(-f.reach(), low), B: at(-f.Upright, low), First: 5.5, Weight: boltWeight, Optional: s.Said}, f.Width)
	between(d, drawing.Dimension{Of: "lying foam, thick", A: at(-f.reach(), low), B: at(-f.reach(), f.Over), Left: true, First: 3, Weight: boltWeight, Optional: s.Said}, f.Wing)
	if f.Over > f.Ground {
		mid := -f.reach() / 2
		between(d, drawing.Dimension{Of: "lying foam below the ground", A: at(mid, f.Over), B: at(mid, f.Ground), First: 3, Weight: boltWeight, Optional: s.Said}, f.Over-f.Ground)
	}
}
