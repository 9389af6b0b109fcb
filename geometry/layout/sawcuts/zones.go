package sawcuts

import "math"

// padZones notes the middle half of every pad.
func (t *sawing) padZones(p *sawPlan) {
	for _, pad := range t.Plan.Pads {
		for d, f := range p.f {
			y := f.Turn(pad.Center).Y
			half := float64(min(pad.Width, pad.Length)) / 4
			p.pads[d] = append(p.pads[d], [2]float64{y - half, y + half})
		}
	}
}

// offPlate is how far from the plate of a wall within the slab a cut along it runs, so that it is
// clear of the wall's bolts: own figure. What still meets one is told with the bolts.
const offPlate = 2 * inch

// wallZones notes where walls within the slab stand that lie along a frame: a cut there would run
// from bolt to bolt. Across a wall the bolts give way to the cut.
func (t *sawing) wallZones(p *sawPlan) {
	for _, w := range t.Plan.Walls {
		if _, along, _ := t.Plan.Lies(w); along {
			continue
		}
		half := float64(w.Board().Width/2 + offPlate)
		for d, f := range p.f {
			a, b := f.Turn(w.From), f.Turn(w.To)
			if math.Abs(b.Y-a.Y) <= askew*math.Abs(b.X-a.X) {
				p.pads[d] = append(p.pads[d], [2]float64{min(a.Y, b.Y) - half, max(a.Y, b.Y) + half})
			}
		}
	}
}
