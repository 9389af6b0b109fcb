package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/mark"
)

// Side names what a form stands at: "edge 3", or a construction joint or the pad under a column
// by its mark; of a curb see Of.
func (f Form) Side(n mark.Names) string {
	if f.Joint > 0 {
		return n.Construction(f.Joint - 1).String()
	}
	if f.Pad > 0 {
		return n.Pad(f.Pad - 1).String()
	}
	return n.Edge(f.Loop, f.Edge)
}

// Of says what of an edge a form is for besides the edge itself: "curb, inner face"; "" for
// nothing.
func (f Form) Of() string {
	if f.Step {
		return "step"
	}
	return f.Curb.String()
}

// Named gives what a form stands at, called so, with what of it the form is for.
func (f Form) Named(at string) string {
	if of := f.Of(); of != "" {
		return at + ", " + of
	}
	return at
}

// Place is where the boards of a form lie and what holds them stands, on the plan.
type Place struct {
	Boards  [][]geometry.Point // from above, their faces to the slab first; bent ones as chords
	Stakes  []geometry.Point   // at the boards' outer face
	Kickers []geometry.Point   // likewise, where they meet the boards
}

// Place gives where a form lies along its edge.
func (f Form) Place() Place {
	if f.Middle != 0 {
		return f.bent()
	}
	var out Place
	s := slab.NewSide(f.Loop, f.Edge, f.A, f.B)
	thick := f.Board.Thickness
	at := geometry.Length(0)
	for _, l := range f.Boards {
		to := at + l
		out.Boards = append(out.Boards, []geometry.Point{s.At(at, 0), s.At(to, 0), s.At(to, -thick), s.At(at, -thick)})
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

// bent gives where a form along an arc lies.
func (f Form) bent() (out Place) {
	a, thick := f.Arc(), f.Board.Thickness
	long := a.Length()
	at := func(along, left geometry.Length) geometry.Point {
		return a.At(min(1, float64(along)/float64(long)), left)
	}
	n, from := a.Parts(geometry.Sixteenth), geometry.Length(0)
	for _, l := range f.Boards {
		to := min(from+l, long)
		k := max(2, int(int64(n)*int64(to-from)/int64(long))+1)
		board := make([]geometry.Point, 0, 2*k+2)
		for i := range k + 1 {
			board = append(board, at(slab.Place(from, to, geometry.Length(i), geometry.Length(k), 1), 0))
		}
		for i := k; i >= 0; i-- {
			board = append(board, at(slab.Place(from, to, geometry.Length(i), geometry.Length(k), 1), -thick))
		}
		out.Boards = append(out.Boards, board)
		from = to
	}
	for _, along := range f.Stakes {
		out.Stakes = append(out.Stakes, at(along, -thick))
	}
	for _, along := range f.Kickers {
		out.Kickers = append(out.Kickers, at(along, -thick))
	}
	return out
}
