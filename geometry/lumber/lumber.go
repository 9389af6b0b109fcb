// Package lumber gives the real sizes behind the names of boards.
//
// Source: NIST Voluntary Product Standard PS 20, American Softwood Lumber
// Standard, minimum dressed sizes, dry, for nominal 2 in dimension lumber.
package lumber

import "haunchbook.example/geometry"

// Board is a size of dimension lumber.
type Board struct {
	Name      string // as it is sold, "2x12"
	Nominal   geometry.Length
	Width     geometry.Length // dressed: 11-1/4 in for a 2x12
	Thickness geometry.Length // dressed: 1-1/2 in
}

// String gives the name it is sold by.
func (b Board) String() string { return b.Name }

const eighth = geometry.Inch / 8

// Boards lists the stocked sizes from narrow to wide.
func Boards() []Board {
	const thick = 12 * eighth
	return []Board{
		{"2x4", 4 * geometry.Inch, 28 * eighth, thick},
		{"2x6", 6 * geometry.Inch, 44 * eighth, thick},
		{"2x8", 8 * geometry.Inch, 58 * eighth, thick},
		{"2x10", 10 * geometry.Inch, 74 * eighth, thick},
		{"2x12", 12 * geometry.Inch, 90 * eighth, thick},
	}
}

// Thin gives the board of nominal 1 in that is as wide as a board of nominal 2 in: 3/4 in
// thick, dressed dry (PS 20), its widths the same.
func Thin(b Board) Board {
	b.Name, b.Thickness = "1"+b.Name[1:], 6*eighth
	return b
}

// Named gives the board sold as name.
func Named(name string) (Board, bool) {
	for _, b := range Boards() {
		if b.Name == name {
			return b, true
		}
	}
	return Board{}, false
}

// ForDepth gives the narrowest board whose nominal width is at least depth: the
// board people mean by "a 12 in form". For a deeper edge it gives the widest
// board and false.
func ForDepth(depth geometry.Length) (Board, bool) {
	all := Boards()
	for _, b := range all {
		if b.Nominal >= depth {
			return b, true
		}
	}
	return all[len(all)-1], false
}

// Course is boards of one width in a form of several, one over the other.
type Course struct {
	Board Board
	From  geometry.Length // the bottom of the course over that of the form
	High  geometry.Length // what of the board's width is needed: the rest is ripped off
}

// Courses gives the fewest boards over each other that are as high as a form in all: whole
// ones of the widest, and over them the narrowest whose dressed width is enough.
func Courses(high geometry.Length) (out []Course) {
	all := Boards()
	widest := all[len(all)-1]
	at := geometry.Length(0)
	for ; high-at > widest.Width; at += widest.Width {
		out = append(out, Course{widest, at, widest.Width})
	}
	for _, b := range all {
		if rest := high - at; rest > 0 && b.Width >= rest {
			return append(out, Course{b, at, rest})
		}
	}
	return out
}
