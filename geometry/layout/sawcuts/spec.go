package sawcuts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// Cut is a saw cut.
type Cut struct {
	A, B  geometry.Point
	Depth geometry.Length
	Why   Why
	Mark  mark.Mark // counted through all slabs
}

// Spec is the saw cuts.
type Spec struct {
	Ratio   float64         `json:"ratio"`   // spacing at most this many times the thickness, 24 to 36; 0 for no saw cuts
	Spacing geometry.Length `json:"spacing"` // at most; 0 for what Ratio and the table give
	Aspect  float64         `json:"aspect"`  // longer over shorter side of a panel, at most
	Early   bool            `json:"early"`   // cut with an early-entry saw
}

// Why tells why a saw cut is where it is.
type Why = geometry.Choice[whys]

type whys struct{}

// Names implements geometry.Named.
func (whys) Names() []string {
	return []string{"spacing", "re-entrant corner", "door jamb", "joint of the old slab", "column", "break of the top"}
}

const (
	ForSpacing Why = iota // no panel is too large
	AtInside              // it starts at an inside corner
	AtJamb                // it meets the jamb of a door
	AtOld                 // it goes on from a joint of the old slab
	AtColumn              // it runs to the block-out round a column
	AtBreak               // the top breaks there, to an apron or a ramp
)
