package plan

import (
	"haunchbook.example/geometry"
)

// Top is the shape of the finished surface: the falls that meet in it, and the lines at
// which it breaks. Neither is a level top.
type Top struct {
	Falls  []Fall  `json:"falls"`
	Meet   Meet    `json:"meet"`
	Breaks []Break `json:"breaks,omitzero"`
	Curbs  CurbTop `json:"curbs,omitzero"` // how the tops of curbs run over it
}

// Fall is a plane that drops by Drop on the straight way From, To, and stays
// level across it. It has height zero at To.
type Fall struct {
	From, To geometry.Point
	Drop     geometry.Length `json:"drop"`
}

// Meet tells which of several falls counts at a point.
type Meet = geometry.Choice[meets]

type meets struct{}

// Names implements geometry.Named.
func (meets) Names() []string { return []string{"valley", "ridge"} }

const (
	// Valley takes the higher: falls that meet in a low point, as at a drain.
	Valley Meet = iota
	// Ridge takes the lower: falls that part at a high line, as between two doors.
	Ridge
)

// Base tells how the ground is cut under a top that falls.
type Base = geometry.Choice[bases]

type bases struct{}

// Names implements geometry.Named.
func (bases) Names() []string { return []string{"graded", "level"} }

const (
	// Graded ground is parallel to the top: thickness is the same everywhere.
	Graded Base = iota
	// Level ground keeps the design depths at the lowest point of the top, so
	// that a wedge of concrete comes on everywhere else.
	Level
)

// KindFall is the kind of falls of the top. Both ends can be taken alone.
const KindFall Kind = "fall"

func init() {
	ends := func(f *Fall) []*geometry.Point { return []*geometry.Point{&f.From, &f.To} }
	register(KindFall, 42, 7, list[Fall]{
		kind: KindFall, path: "top.falls",
		in:   func(s *Site) *[]Fall { return &s.Plan.Top.Falls },
		body: ends, ends: ends,
		lies:  func(f Fall) Outline { return Outline{Lines: [][2]geometry.Point{{f.From, f.To}}} },
		check: (*validator).fall,
	})
}

func (v *validator) fall(path string, f *Fall) {
	if f.From == f.To {
		v.fault(path+".to", f.To, "the point it falls from", "give two different points: from high to low")
	}
}
