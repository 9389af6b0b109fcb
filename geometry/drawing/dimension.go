package drawing

import "haunchbook.example/geometry"

// Dimension measures along the straight way from A to B. Its chains stand beside
// it, the inner first, on its right for an A-B that has the slab on its left.
type Dimension struct {
	Of     string // what it measures, for a table: "Side 3–4"
	A, B   geometry.Point
	Weight int8 // as that of labels
	Left   bool // its chains stand on the left of A-B first

	// The neighboring sides, as vectors from A and from B. One that runs along an
	// extension line serves as that line.
	Before, After geometry.Point
	OnA, OnB      bool // a line that is drawn runs both ways through that end, and serves so

	OneSide     bool    // its chains never stand on the other side
	First, Most float32 // first and last distance tried, mm; 0 for those of the manner
	Short       bool    // its extension lines may stop short of what they would cross
	Optional    bool    // what of it finds no room is left out without a word: it says again what is said elsewhere
	Along       bool    // without room for a chain its measures may be written along the way itself
}

// Chain is a string of measures between stops.
type Chain struct {
	Of    string            // what it measures, where that is not all of the Dimension; for a table
	Stops []geometry.Length // from A, rising
	Texts []string          // one between each two stops
	Keys  []int             // one for each text, for whoever gave it, to find it again; nil for none
}

// Measured is one measure of a chain in its place, for a file that has dimensions
// of its own.
type Measured struct {
	Text string
	Key  int
	P, Q Vec  // what is measured
	On   Vec  // a place on its dimension line, beside P
	At   Vec  // the middle of its text
	Row  bool // its text is in a table
}
