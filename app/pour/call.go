package pour

import (
	"math"
)

// Call is when the last load is called, by what is left to fill. The plant must
// know before it is batched.
type Call struct {
	Needed bool // there is more than one load
	At     Clock
	Bay    int     // number of the bay being placed then
	Placed float64 // by then, in the day's unit
	Left   float64 // of the slab with its waste
	Bring  float64 // of it, what the loads before do not bring
	Held   bool    // the last load is to be held back for it: as asked, it is batched before any concrete is placed
	Idle   float64 // minutes that the crew waits for it then
}

// callOff finds when the last load must be called and where the crew is then.
// Where nothing is placed by then, it finds what holding the load back costs:
// until half of what comes before it is placed, which is enough to measure by.
func (d *Day) callOff(t Trucks) {
	n := len(d.Loads)
	if n < 2 {
		return
	}
	visits, before := d.visits(), 0.0
	for _, v := range visits[:n-1] {
		before += v.Volume
	}
	last := visits[n-1]
	c := Call{Needed: true, At: Clock(math.Floor(last.Batched)), Placed: PlacedAt(visits, last.Batched), Bring: max(0, d.Need-before)}
	if c.Placed <= 0 {
		at := PlacedBy(visits, before/2)
		arrives := at + float64(t.Loading+t.Travel)
		c.Held, c.At, c.Placed = true, Clock(math.Floor(at)), before/2
		c.Idle = max(0, arrives-visits[n-2].Ends)
	}
	c.Left = max(0, d.Need-c.Placed)
	for i, t := range d.Times {
		c.Bay = d.Bays[i].Number
		if t.Used > c.Placed {
			break
		}
	}
	d.Call = c
}
