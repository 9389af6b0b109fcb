// Package hit says where things stand on the screen that have no lines of their own
// there, and how far the pointer is from a line.
package hit

import (
	"math"

	"haunchbook.example/app/window/canvas/view"
)

// ToSegment gives the distance from s to the segment a-b.
func ToSegment(a, b, s view.XY) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l2 := dx*dx + dy*dy
	t := 0.0
	if l2 > 0 {
		t = min(max(((s.X-a.X)*dx+(s.Y-a.Y)*dy)/l2, 0), 1)
	}
	return math.Hypot(a.X+t*dx-s.X, a.Y+t*dy-s.Y)
}
