package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Lane is a band of a slab that the straightedge spans in one pass.
type Lane struct {
	Number int    // in the order of placing, from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Width  geometry.Length
	Shape  plane.Region
	Bays   []int // places in the list of bays
}

// Bay is what is placed and struck off in one go: a part of a lane.
type Bay struct {
	Number  int             // in the order of placing, from 1, over all slabs
	Slab    int             // its slab's number in the job, from 0
	Lane    int             // its lane's number
	Shape   plane.Region    // it holds slab only
	Middle  geometry.Point  // a place in it for its number
	Volume  float64         // m³ of the slab in it, no waste
	Running float64         // m³ placed when it is done, no waste
	Edge    geometry.Length // of form to run the edger along
	Bolts   int             // anchor bolts to set while it is soft
	Station int             // the truck's place that it is filled from; -1 without any
	Away    geometry.Length // the farthest of it from that place
	Reached bool            // the chute with rakes, or the hose, goes that far
}

// Bounds on what a plan is cut into, far beyond what is poured in a day.
const (
	maxLanes = 200
	maxBays  = 2000
)

// course is the lanes, bays and wet pads of the slabs laid so far.
type course struct {
	reach    Reach
	stations []geometry.Point
	lanes    []Lane
	bays     []Bay
	pads     []Pad
	placed   float64 // m³

	// The numbers of the last ones of the pour before.
	lastLane, lastBay, lastPad int
}

// begin numbers on from a pour before; nil for none.
func (c *course) begin(after *Day) {
	if after == nil {
		return
	}
	c.lastLane, c.lastBay, c.lastPad = after.lastLane+len(after.Lanes), after.lastBay+len(after.Bays), after.lastPad+len(after.Pads)
}

// lay cuts a slab into lanes and bays in the order they are placed: from the
// lane farthest from the trucks to the nearest, and in each from its far end.
func (c *course) lay(s Slab) error {
	cut := chooseCut(s, c.reach, c.stations)
	if cut.lanes > maxLanes {
		return fmt.Errorf("found a slab %d lanes wide; a pour of at most %d is planned here: divide the slab, or check its size", cut.lanes, maxLanes)
	}
	upward, first := cut.upward(), len(c.bays)
	for n := range cut.lanes {
		k, begins := n, n
		if !upward {
			k = cut.lanes - 1 - n
			begins = k + 1
		}
		if n > 0 {
			c.padRow(s, cut, cut.border(begins))
		}
		lane := Lane{Number: c.lastLane + len(c.lanes) + 1, Slab: s.Number, Name: s.Name, Width: geometry.FromMeters(cut.border(1) - cut.border(0)), Shape: cut.band(k)}
		for _, part := range cut.bays(lane.Shape, c.reach.Bay.Meters(), maxBays/cut.lanes+1) {
			bay := c.fillBay(s, part)
			bay.Number, bay.Slab, bay.Lane = c.lastBay+len(c.bays)+1, s.Number, lane.Number
			c.placed += bay.Volume
			bay.Running = c.placed
			lane.Bays = append(lane.Bays, len(c.bays))
			c.bays = append(c.bays, bay)
		}
		c.lanes = append(c.lanes, lane)
	}
	bays := c.bays[first:]
	boxes := make([]plane.Box, len(bays))
	for i, b := range bays {
		lo, hi := b.Shape.Bounds()
		boxes[i] = plane.BoxOf(lo, hi)
	}
	for _, at := range s.Bolts {
		if k := nearest(bays, boxes, at); k >= 0 {
			bays[k].Bolts++
		}
	}
	return nil
}

// bays cuts a lane into bays of at most a length along it, in the order they are
// placed: the part of the lane farthest from the truck first, each from its far
// end. No bay reaches across a gap in the slab.
func (c *cut) bays(lane plane.Region, long float64, most int) []plane.Region {
	parts := lane.Parts()
	truck := nearestPlace(c.trucks, c.frame.Bounds(lane)).X
	away := func(g plane.Region) float64 {
		e := c.frame.Bounds(g)
		return math.Abs((e.MinX+e.MaxX)/2 - truck)
	}
	slices.SortStableFunc(parts, func(a, b plane.Region) int { return cmp.Compare(away(b), away(a)) })
	var out []plane.Region
	for _, part := range parts {
		e := c.frame.Bounds(part)
		truck := nearestPlace(c.trucks, e).X
		m := min(divide(e.MaxX-e.MinX, long), most)
		step := (e.MaxX - e.MinX) / float64(m)
		for i := range m {
			k := i
			if truck < (e.MinX+e.MaxX)/2 {
				k = m - 1 - i
			}
			bay := part
			if k > 0 {
				a, b := c.up(e.MinX + float64(k)*step)
				bay = bay.Left(b, a)
			}
			if k < m-1 {
				a, b := c.up(e.MinX + float64(k+1)*step)
				bay = bay.Left(a, b)
			}
			if bay = bay.Without(hair); len(bay) > 0 {
				out = append(out, bay)
			}
		}
	}
	return out
}

// nearest gives the bay, by its place among those whose boxes are given, that a place lies in
// or is nearest to, the first of several; -1 of none.
func nearest(bays []Bay, boxes []plane.Box, at geometry.Point) int {
	best, least := -1, geometry.Length(0)
	v := plane.Vec{X: float64(at.X), Y: float64(at.Y)}
	for i := range bays {
		if best >= 0 && boxes[i].Distance(v) > float64(least) {
			continue // no more of the bay is as near
		}
		if d := bays[i].Shape.Distance(at); best < 0 || d < least {
			best, least = i, d
		}
	}
	return best
}

// fillBay measures one bay.
func (c *course) fillBay(of Slab, g plane.Region) Bay {
	bay := Bay{Shape: g, Volume: of.within(g), Edge: formed(of, g), Station: -1}
	bay.Middle, _ = g.Middle()
	for i, st := range c.stations {
		far := geometry.Length(0)
		for _, ring := range g {
			for _, corner := range ring {
				far = max(far, geometry.Distance(st, corner))
			}
		}
		if bay.Station < 0 || far < bay.Away {
			bay.Away, bay.Station = far, i
		}
	}
	bay.Reached = c.reach.Method == Buggy || bay.Station >= 0 && bay.Away <= c.reach.Far()
	return bay
}

// formed gives how much of the slab's edges that have a form borders a bay. The
// slab is left of an edge: it is looked for a hair inside, clear of what rounding
// did to the bay's corners.
func formed(of Slab, g plane.Region) geometry.Length {
	const inside = 10 * hair
	sides := plane.NewSides(g)
	near := sides.Bounds().Grown(float64(inside))
	var sum geometry.Length
	for k, l := range of.Plan.Loops() {
		for i := range l {
			a, b := l.Ends(i)
			if l[i].Middle == 0 && !near.Overlaps(plane.BoxOf(a, b)) {
				continue
			}
			free := plan.Formed(of.Met, l[i], k, i, l.Length(i))
			if len(free) == 0 {
				continue
			}
			if l[i].Middle != 0 { // it has a form from end to end
				for ps := l.Chords(i); len(ps) > 1; ps = ps[1:] {
					in := plan.Turn(geometry.Along(ps[0], ps[1], inside).Sub(ps[0]), 90)
					for _, on := range sides.Stretches(ps[0].Add(in), ps[1].Add(in), plane.Through, nil) {
						sum += on.To - on.From
					}
				}
				continue
			}
			in := plan.Turn(geometry.Along(a, b, inside).Sub(a), 90)
			for _, on := range sides.Stretches(a.Add(in), b.Add(in), plane.Through, nil) {
				for _, f := range free {
					sum += max(0, min(on.To, f.To)-max(on.From, f.From))
				}
			}
		}
	}
	return sum
}
