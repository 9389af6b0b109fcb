package pour

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Pad is a wet pad: a heap of fresh concrete struck to grade by the laser, that
// carries the straightedge between two lanes.
type Pad struct {
	Number int    // from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Row    int    // rows lie between lanes: after the lane of that number
	At     geometry.Point
	From   geometry.Point  // from the slab's datum: X along its side, Y square off it
	Level  bool            // the slab's top is level: the pad has no height of its own
	Height geometry.Length // of the top above its lowest point
}

// padRow sets wet pads along the line between the last lane and the next, evenly
// and no farther apart than a straightedge spans, from the forms too.
func (c *course) padRow(s Slab, cut cut, y float64) {
	a, b := cut.across(y)
	for _, on := range cut.between(y) {
		n := divide((on.To - on.From).Meters(), c.reach.Span().Meters())
		for k := 1; k < n; k++ {
			at := geometry.Along(a, b, on.From+(on.To-on.From)*geometry.Length(k)/geometry.Length(n))
			c.pads = append(c.pads, Pad{
				Number: c.lastPad + len(c.pads) + 1, Slab: s.Number, Name: s.Name, Row: c.lastLane + len(c.lanes),
				At: at, From: s.Plan.Datum().Of(at), Level: s.Plan.Top.Level(), Height: s.Solid.TopAt(at),
			})
		}
	}
}

// between gives the stretches of the line across at a height that have slab on
// both sides: a form along the line carries the straightedge itself.
func (c *cut) between(y float64) []plane.Stretch {
	const aside = 1e-3 // m
	a, b := c.across(y - aside)
	low := c.sides.Stretches(a, b, plane.Through, nil)
	a, b = c.across(y + aside)
	high := c.sides.Stretches(a, b, plane.Through, nil)
	var out []plane.Stretch
	for _, l := range low {
		for _, h := range high {
			if s := (plane.Stretch{From: max(l.From, h.From), To: min(l.To, h.To)}); s.From < s.To {
				out = append(out, s)
			}
		}
	}
	return out
}
