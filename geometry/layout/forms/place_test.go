package forms

import (
	"slices"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
)

// An edge of 20 ft up the page has the slab on its left: boards of 1 1/2 in, 12 and 8 ft
// long, lie to its right.
func TestBoardsLieOutside(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	f := Form{A: geometry.Point{X: 5 * ft}, B: geometry.Point{X: 5 * ft, Y: 20 * ft}, Board: lumber.Board{Thickness: 3 * in / 2}, Boards: []geometry.Length{12 * ft, 8 * ft}, Stakes: []geometry.Length{0, 12 * ft}, Kickers: []geometry.Length{4 * ft}}
	p := f.Place()
	out := 5*ft + 3*in/2
	if want := []geometry.Point{{X: 5 * ft, Y: 12 * ft}, {X: 5 * ft, Y: 20 * ft}, {X: out, Y: 20 * ft}, {X: out, Y: 12 * ft}}; len(p.Boards) != 2 || !slices.Equal(p.Boards[1], want) {
		t.Errorf("boards %v", p.Boards)
	}
	if len(p.Stakes) != 2 || p.Stakes[1] != (geometry.Point{X: out, Y: 12 * ft}) || len(p.Kickers) != 1 || p.Kickers[0] != (geometry.Point{X: out, Y: 4 * ft}) {
		t.Errorf("stakes %v, kickers %v", p.Stakes, p.Kickers)
	}
}
