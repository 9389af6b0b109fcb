package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// Place is where the boards of a form lie and what holds them stands, on the plan.
type Place struct {
	Boards  [][4]geometry.Point // from above, their faces to the slab first
	Stakes  []geometry.Point    // at the boards' outer face
	Kickers []geometry.Point    // likewise, where they meet the boards
}

// Place gives where a form lies along its edge, which runs from a to b with the slab on
// its left.
func (f Form) Place(a, b geometry.Point) Place {
	var out Place
	s := slab.NewSide(f.Loop, f.Edge, a, b)
	thick := f.Board.Thickness
	at := geometry.Length(0)
	for _, l := range f.Boards {
		to := at + l
		out.Boards = append(out.Boards, [4]geometry.Point{s.At(at, 0), s.At(to, 0), s.At(to, -thick), s.At(at, -thick)})
		at = to
	}
	for _, along := range f.Stakes {
		out.Stakes = append(out.Stakes, s.At(along, -thick))
	}
	for _, along := range f.Kickers {
		out.Kickers = append(out.Kickers, s.At(along, -thick))
	}
	return out
}
