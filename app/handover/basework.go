package handover

import (
	"fmt"
	"math"

	"haunchbook.example/app/takeoff"
)

// BaseWork is what brings the base in where it was shot: what is high is cut, and goes where
// it is low, with the gravel in hand. Volumes are in the ground's unit.
type BaseWork struct {
	Cut, Fill float64 // in place
	Gravel    float64 // in hand, loose
	Fetch     float64 // gravel that is missing, loose
	Over      float64 // what is cut and finds no place
	Barrows   int     // loads of wheelbarrows, of what is cut and of what is brought
}

// wheelbarrow is what one takes in m³: 3 ft³, common practice, no source.
const wheelbarrow = 3 * 0.3048 * 0.3048 * 0.3048

// baseWork weighs what is cut against what is filled; a volume in place takes loose times
// as much loose gravel.
func baseWork(cut, fill, gravel, loose, unit float64) BaseWork {
	w := BaseWork{Cut: cut, Fill: fill, Gravel: gravel}
	open := fill - cut
	if open > 0 {
		w.Fetch = max(0, open*loose-gravel)
	} else {
		w.Over = -open
	}
	w.Barrows = int(math.Ceil((cut+max(0, open)*loose)*unit/wheelbarrow - 1e-9))
	return w
}

// Said says what brings the base in.
func (w BaseWork) Said(unit takeoff.Unit) string {
	text := fmt.Sprintf("To bring the base in: cut %.2f %s, fill %.2f; wheelbarrows: %d.", w.Cut, unit, w.Fill, w.Barrows)
	switch {
	case w.Over > 0:
		text += fmt.Sprintf(" %.2f %s of what is cut find no place.", w.Over, unit)
	case w.Fetch > 0 && w.Gravel > 0:
		text += fmt.Sprintf(" Besides what is cut and the %.2f in hand, %.2f %s of loose gravel are missing.", w.Gravel, w.Fetch, unit)
	case w.Fetch > 0:
		text += fmt.Sprintf(" Besides what is cut, %.2f %s of loose gravel are missing.", w.Fetch, unit)
	case w.Gravel > 0:
		text += fmt.Sprintf(" What is cut and the %.2f in hand do.", w.Gravel)
	}
	return text
}
