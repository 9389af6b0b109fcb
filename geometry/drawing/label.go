package drawing

import (
	"math"

	"haunchbook.example/geometry"
)

// Label is a short text of one or more lines that belongs to a place. It stands at
// the first of its spots that is free, else round its place, at the end of a
// leader where that is some way off; without any room it becomes a numbered mark
// with a row of a table.
type Label struct {
	Layer Layer
	Style Style          // whose color it has
	Type  Type           // of its lines; bold for the first alone
	Of    string         // what the row of a table calls it: "Door D2"; "" for its lines alone
	At    geometry.Point // what it belongs to

	// Round its place it is looked for from Start to Reach millimeters away, first
	// the way that Prefer points, as a vector of any length; up for zero. Reach 0
	// is nowhere but at its spots. From Near on it gets a leader; 0 is never.
	Prefer             geometry.Point
	Start, Reach, Near float32

	Weight   int8 // the weightier is placed first; labels of one weight in their order
	Frame    Framing
	Dark     bool   // light text in a full frame
	Left     bool   // its lines start at one left edge
	Fixed    bool   // it stands at its first spot whatever else is there
	Optional bool   // it may be left out without a word: it says again what is said elsewhere
	Rim      bool   // where its place is off the sheet, it stands at the rim and points there
	Leader   bool   // it has a leader wherever it stands
	Slides   bool   // where there is no way to its place, its leader may point to any of its spots
	Short    string // what may stand instead where a picture is thinned
	Key      int    // for whoever gave it, to find it again
}

// Framing is the frame round a label.
type Framing uint8

// The frames.
const (
	NoFrame  Framing = iota
	InBox            // a rectangle
	InCircle         // a circle: of one short line
	InHexagon
)

// Spot is where a label may stand: at a place, or beside a line through it. Aside
// is how far to the left of the line its nearer side lies, in millimeters, or to
// the right where it is negative, and Ahead how far along; for 0 the line goes
// through its middle. Without a line both are off the place, Ahead to the right
// and Aside up.
type Spot struct {
	At           geometry.Point
	Line         geometry.Point // direction of the line, as a vector of any length
	Aside, Ahead float32
	Turned       bool // it is written along the line
	Within       bool // only where the line, as long as it is given, is a good deal longer than the text
}

// At gives the spot with its middle at a place.
func At(p geometry.Point) Spot { return Spot{At: p} }

// Beside gives spots for a text along the line a-b, at fractions of its length,
// each the same way aside; the first of most of them that are given.
func Beside(a, b geometry.Point, aside float32, at ...float64) (out [4]Spot) {
	for i := range out {
		f := at[min(i, len(at)-1)]
		out[i] = Spot{At: Between(a, b, f), Line: b.Sub(a), Aside: aside, Turned: true}
	}
	return out
}

// Between gives the place at a fraction of the way from a to b.
func Between(a, b geometry.Point, f float64) geometry.Point {
	return geometry.Point{
		X: a.X + geometry.Length(math.Round(float64(b.X-a.X)*f)),
		Y: a.Y + geometry.Length(math.Round(float64(b.Y-a.Y)*f)),
	}
}

// Row is what of a label or a dimension found no room: a row for a table beside
// the drawing. The mark stands on the drawing; it is "" where not even that found
// a free place.
type Row struct {
	Mark  string
	Of    string // "Side 3–4", "Door D2"
	Texts []string
	Layer Layer
	At    geometry.Point
}

// thicket is for how many labels of a layer a thinned picture looks for room in
// vain: where so many found none, the rest is not tried.
const thicket = 60

// directions that a label is tried in, evenly round.
const directions = 24

// around gives the sine and cosine of the k-th direction to try: the preferred one,
// then to both sides of it in turn.
var around = func() (a [directions]Vec) {
	for k := range a {
		turn := float64((k+1)/2) * 2 * math.Pi / directions
		if k%2 == 1 {
			turn = -turn
		}
		s, c := math.Sincos(turn)
		a[k] = Vec{X: c, Y: s}
	}
	return a
}()

func turned(u, by Vec) Vec { return Vec{X: u.X*by.X - u.Y*by.Y, Y: u.X*by.Y + u.Y*by.X} }
