package pour

import (
	"haunchbook.example/geometry"
)

// Pad is a wet pad: a heap of fresh concrete struck to grade by the laser, that
// carries the straightedge between two lanes.
type Pad struct {
	Number int    // from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Row    int    // rows lie between lanes: after the lane of that number
	At     geometry.Point
	From   geometry.Point  // At from the slab's first corner
	Height geometry.Length // of the top above its lowest point; 0 for a level top
}

// padRow sets wet pads along the line between the last lane and the next, so
// that the straightedge reaches from form to pad and from pad to pad.
func (c *course) padRow(s Slab, cut cut, v, most float64) {
	for _, stretch := range slabAlong(cut.slab, v) {
		n := divide(stretch[1]-stretch[0], most)
		for k := 1; k < n; k++ {
			at := cut.frame.out(uv{stretch[0] + (stretch[1]-stretch[0])*float64(k)/float64(n), v})
			c.pads = append(c.pads, Pad{len(c.pads) + 1, s.Number, s.Name, len(c.lanes), at, at.Sub(s.Plan.Outline[0].At), s.Solid.TopAt(at)})
		}
	}
}

// slabAlong gives the stretches of a line along u that have slab on both sides:
// a form along the line carries the straightedge itself.
func slabAlong(slab shape, v float64) [][2]float64 {
	const aside = 1e-3 // m
	low, high := slab.crossings(v-aside), slab.crossings(v+aside)
	var out [][2]float64
	for i := 0; i+1 < len(low); i += 2 {
		for k := 0; k+1 < len(high); k += 2 {
			if a, b := max(low[i], high[k]), min(low[i+1], high[k+1]); a < b {
				out = append(out, [2]float64{a, b})
			}
		}
	}
	return out
}
