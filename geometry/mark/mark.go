// Package mark names what is placed in a whole set of documents: one scheme, in
// which no two things have the same mark. Marks are given once, and every sheet,
// list and picture uses them.
//
// Sides, corners and dowels of a joint are numbers from 1, told apart by their slab.
package mark

import (
	"cmp"
	"strconv"
	"strings"
	"sync"
)

// Kind is what a mark is of.
type Kind uint8

const (
	Wall         Kind = iota + 1 // W1; its pieces of sill plate are W1.1, W1.2
	Door                         // D1
	Bar                          // B1: bars that are cut and bent alike
	Dowel                        // DW1
	Bolt                         // A1, for anchor
	SawCut                       // S1
	Pad                          // P1
	Strip                        // T1: a thickened strip
	Hole                         // H1
	Embed                        // E1: a sleeve, a drain, a post base
	Line                         // L1: a drain line, conduit, tubing
	Construction                 // CJ1: a construction joint
	Form                         // F1: the boards of one side are F1.1, F1.2
	WetPad                       // WP1
	Truck                        // TR1: a place for a truck or pump
	Photo                        // PH1: a photograph of the site
	Aside                        // N1: what is written beside a drawing for want of room on it
	Section                      // A, B, … Z, AA: an edge section, which alone has no number
)

var letters = [...]string{Wall: "W", Door: "D", Bar: "B", Dowel: "DW", Bolt: "A", SawCut: "S", Pad: "P", Strip: "T", Hole: "H", Embed: "E", Line: "L", Construction: "CJ", Form: "F", WetPad: "WP", Truck: "TR", Photo: "PH", Aside: "N", Section: ""}

// Mark is the name of one thing, or of several alike. The zero Mark is none.
type Mark struct {
	Kind Kind
	N    int // from 1
	Part int // piece of the thing, from 1; 0 for all of it
}

// String gives a mark as it is written everywhere: "W2", "W2.1"; "" for none.
func (m Mark) String() string {
	switch {
	case m.Kind == 0 || int(m.Kind) >= len(letters):
		return ""
	case m.Kind == Section:
		return letter(m.N)
	case m.Part != 0:
		return Mark{m.Kind, m.N, 0}.String() + "." + strconv.Itoa(m.Part)
	case m.N > 0 && m.N < common:
		return texts()[m.Kind][m.N]
	}
	return letters[m.Kind] + strconv.Itoa(m.N)
}

// common is how many marks of a kind are kept written, for pictures that are drawn
// again and again.
const common = 250

var texts = sync.OnceValue(func() *[len(letters)][common]string {
	out := &[len(letters)][common]string{}
	for k, letter := range letters {
		for n := range common {
			out[k][n] = letter + strconv.Itoa(n)
		}
	}
	return out
})

// parse reads the mark of a whole thing of a kind, as String writes it.
func parse(k Kind, text string) (Mark, bool) {
	number, ok := strings.CutPrefix(text, letters[k])
	n, err := strconv.Atoi(number)
	m := Mark{Kind: k, N: n}
	return m, ok && err == nil && n > 0 && m.String() == text
}

// letter counts A to Z from 1, then AA, AB and on.
func letter(n int) string {
	s := ""
	for ; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// Piece gives the mark of a piece of a thing, from 1.
func (m Mark) Piece(n int) Mark { return Mark{m.Kind, m.N, n} }

// Called gives a mark with the name that the user gave the thing, where that says
// more: "D1", "P2 Post". The zero Mark leaves the name.
func (m Mark) Called(name string) string {
	switch text := m.String(); {
	case name == "" || name == text:
		return text
	case text == "":
		return name
	default:
		return text + " " + name
	}
}

// Compare orders marks as people count: by kind, and B9 before B10.
func Compare(a, b Mark) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.N, b.N), cmp.Compare(a.Part, b.Part))
}
