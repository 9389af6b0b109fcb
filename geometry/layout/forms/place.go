package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/mark"
)

// Side names what a form stands at: "edge 3", or a construction joint by its mark.
func (f Form) Side(n mark.Names) string {
	if f.Joint > 0 {
		return n.Construction(f.Joint - 1).String()
	}
	return n.Edge(f.Loop, f.Edge)
}

// Place is where the boards of a form lie and what holds them stands, on the plan.
type Place struct {
	Boards  [][4]geometry.Point // from above, their faces to the slab first
	Stakes  []geometry.Point    // at the boards' outer face
	Kickers []geometry.Point    // likewise, where they meet the boards
}

// Place gives where a form lies along its edge.
func (f Form) Place() Place {
	var out Place
	s := slab.NewSide(f.Loop, f.Edge, f.A, f.B)
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
