package pour

import (
	"haunchbook.example/geometry"
)

// Place is where a truck or pump may stand, and what is filled from there.
type Place struct {
	At      geometry.Point
	Reach   geometry.Length // of the chute or the hose; 0 where buggies go anywhere
	Bays    []int           // numbers of the bays filled from it
	Outside []int           // of those, the numbers beyond its reach
}

// places tells who reaches what.
func (c *course) places() []Place {
	out := make([]Place, len(c.stations))
	for i, at := range c.stations {
		out[i].At = at
		if c.reach.Method != Buggy {
			out[i].Reach = c.reach.Chute
		}
	}
	for _, b := range c.bays {
		if b.Station < 0 {
			continue
		}
		p := &out[b.Station]
		p.Bays = append(p.Bays, b.Number)
		if !b.Reached {
			p.Outside = append(p.Outside, b.Number)
		}
	}
	return out
}
