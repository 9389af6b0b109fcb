package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// MaxSpan is how far a slab may reach, in either direction: several times what is cast
// as one. What lies along its edges is thousands of things then; beyond it, a length was
// written in another unit than meant.
const MaxSpan = 2000 * geometry.Foot

// span faults the corner that makes the slab reach farther than any does, and tells
// whether none does.
func (v *validator) span() bool {
	for _, along := range []func(geometry.Point) geometry.Length{
		func(p geometry.Point) geometry.Length { return p.X }, func(p geometry.Point) geometry.Length { return p.Y },
	} {
		low, high := along(v.home), along(v.home)
		for _, e := range v.p.Outline {
			low, high = min(low, along(e.At)), max(high, along(e.At))
		}
		if high-low <= MaxSpan {
			continue
		}
		off := high // the end that is farther from where drawing begins
		if low.Abs() > high.Abs() {
			off = low
		}
		k := slices.IndexFunc(v.p.Outline, func(e Edge) bool { return along(e.At) == off })
		v.fault(fmt.Sprintf("outline[%d].at", k), v.p.Outline[k].At, "a corner at "+v.place(v.p.Outline[k].At)+", which makes the slab "+long(high-low, v.u)+" long",
			"did you mean "+meant(off, v.u)+"? A slab reaches "+MaxSpan.Text(v.u)+" at most")
		return false
	}
	return true
}

// long says how long something far too long is: "6.2 miles".
func long(l geometry.Length, u geometry.Units) string {
	if u == geometry.Millimeters {
		return fmt.Sprintf("%.1f km", l.Meters()/1000)
	}
	const mile = 5280 * geometry.Foot
	if l < mile {
		return l.Text(u)
	}
	return fmt.Sprintf("%.1f miles", float64(l)/float64(mile))
}

// meant says in which unit a length may have been meant.
func meant(l geometry.Length, u geometry.Units) string {
	switch {
	case u == geometry.Millimeters, l%geometry.Meter == 0 && l%geometry.Foot != 0:
		return "mm"
	}
	return "inches"
}
