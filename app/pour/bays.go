package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// Lane is a band of a slab that the straightedge spans in one pass.
type Lane struct {
	Number int    // in the order of placing, from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Width  geometry.Length
	Shape  Shape
	Bays   []int // places in the list of bays
}

// Bay is what is placed and struck off in one go: a part of a lane.
type Bay struct {
	Number  int             // in the order of placing, from 1, over all slabs
	Slab    int             // its slab's number in the job, from 0
	Lane    int             // its lane's number
	Shape   Shape           // it holds slab only
	Middle  geometry.Point  // a place in it for its number
	Volume  float64         // m³ of the slab in it, no waste
	Running float64         // m³ placed when it is done, no waste
	Edge    geometry.Length // of form to run the edger along
	Bolts   int             // anchor bolts to set while it is soft
	Station int             // the truck's place that it is filled from; -1 without any
	Away    geometry.Length // the farthest of it from that place
	Reached bool            // the chute or hose goes that far
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
}

// lay cuts a slab into lanes and bays in the order they are placed: from the
// lane farthest from the trucks to the nearest, and in each from its far end.
func (c *course) lay(s Slab) error {
	cut := chooseCut(s.Plan, c.reach, c.stations)
	if cut.lanes > maxLanes {
		return fmt.Errorf("found a slab %d lanes wide; a pour of at most %d is planned here: divide the slab, or check its size", cut.lanes, maxLanes)
	}
	f := cut.frame
	width := (cut.extent.v1 - cut.extent.v0) / float64(cut.lanes)
	border := func(k int) float64 { return cut.extent.v0 + float64(k)*width }
	upward := cut.upward()
	first := len(c.bays)
	var shapes []shape
	for n := range cut.lanes {
		k := n
		if !upward {
			k = cut.lanes - 1 - n
		}
		// The outer borders are the slab's own.
		band := cut.slab
		if k > 0 {
			band = band.keep(above(border(k)))
		}
		if k < cut.lanes-1 {
			band = band.keep(below(border(k + 1)))
		}
		if n > 0 {
			at := border(k)
			if !upward {
				at = border(k + 1)
			}
			c.padRow(s, cut, at, width)
		}
		lane := Lane{Number: len(c.lanes) + 1, Slab: s.Number, Name: s.Name, Width: length(width), Shape: f.shape(band)}
		for _, part := range cutLane(band, c.reach.Bay.Meters(), cut.trucks, maxBays/cut.lanes+1) {
			bay := c.fillBay(s, f, part)
			bay.Number, bay.Slab, bay.Lane = len(c.bays)+1, s.Number, lane.Number
			c.placed += bay.Volume
			bay.Running = c.placed
			lane.Bays = append(lane.Bays, len(c.bays))
			c.bays, shapes = append(c.bays, bay), append(shapes, part)
		}
		c.lanes = append(c.lanes, lane)
	}
	for _, at := range s.Bolts {
		if i := nearest(shapes, f.in(at)); i >= 0 {
			c.bays[first+i].Bolts++
		}
	}
	return nil
}

// cutLane cuts a lane into bays of at most a length along it, in the order
// they are placed: the part of the lane farthest from the truck first, each from
// its far end. No bay reaches across a gap in the slab.
func cutLane(band shape, long float64, trucks []uv, most int) []shape {
	parts := band.parts()
	truck := nearestPlace(trucks, band.extent()).u
	away := func(p shape) float64 { e := p.extent(); return math.Abs((e.u0+e.u1)/2 - truck) }
	slices.SortStableFunc(parts, func(a, b shape) int { return cmp.Compare(away(b), away(a)) })
	var out []shape
	for _, part := range parts {
		e := part.extent()
		truck := nearestPlace(trucks, e).u
		m := min(divide(e.u1-e.u0, long), most)
		step := (e.u1 - e.u0) / float64(m)
		for i := range m {
			j := i
			if truck < (e.u0+e.u1)/2 {
				j = m - 1 - i
			}
			bay := part
			if j > 0 {
				bay = bay.keep(after(e.u0 + float64(j)*step))
			}
			if j < m-1 {
				bay = bay.keep(before(e.u0 + float64(j+1)*step))
			}
			if len(bay.parts()) > 0 {
				out = append(out, bay)
			}
		}
	}
	return out
}

// nearest gives the shape that q lies in or is nearest to, the first of several;
// -1 for none.
func nearest(shapes []shape, q uv) int {
	at, least := -1, math.Inf(1)
	for i, s := range shapes {
		if d := s.distance(q); d < least {
			at, least = i, d
		}
	}
	return at
}

// fillBay measures one bay.
func (c *course) fillBay(of Slab, f frame, s shape) Bay {
	bay := Bay{Shape: f.shape(s), Middle: f.out(s.middle()), Volume: volumeOf(of.Solid, f, s), Station: -1}
	extent := s.extent()
	for _, l := range of.Plan.Loops() {
		for i := range l {
			if !l[i].Joint {
				a, b := l.Ends(i)
				bay.Edge += length(lengthIn(f.in(a), f.in(b), s, extent))
			}
		}
	}
	best := math.Inf(1)
	for i, st := range c.stations {
		q, far := f.in(st), 0.0
		for _, ring := range s {
			for _, v := range ring {
				far = max(far, math.Hypot(v.u-q.u, v.v-q.v))
			}
		}
		if far < best {
			best, bay.Station = far, i
		}
	}
	if bay.Station >= 0 {
		bay.Away = length(best)
	}
	bay.Reached = c.reach.Method == Buggy || bay.Station >= 0 && bay.Away <= c.reach.Chute
	return bay
}

// volumeOf gives the concrete over a shape, m³: that over the triangles from a
// corner to each side of a ring, taken off where they turn back. There is none
// over a hole.
func volumeOf(body *solid.Solid, f frame, s shape) float64 {
	sum := 0.0
	for _, r := range s {
		if ringArea(r) < 0 {
			continue
		}
		for i := 1; i+1 < len(r); i++ {
			part := body.VolumeWithin(geometry.Ring{f.out(r[0]), f.out(r[i]), f.out(r[i+1])})
			sum += math.Copysign(part, ringArea([]uv{r[0], r[i], r[i+1]}))
		}
	}
	return sum
}

// lengthIn gives how much of the edge a-b borders s, within whose extent it is to
// be looked for. The slab is left of the edge: an edge along the border of two
// shapes belongs to the one on its left.
func lengthIn(a, b uv, s shape, extent rectangle) float64 {
	const nudge = 10 * onLine
	long := math.Hypot(b.u-a.u, b.v-a.v)
	du, dv := -(b.v-a.v)/long*nudge, (b.u-a.u)/long*nudge
	a, b = uv{a.u + du, a.v + dv}, uv{b.u + du, b.v + dv}
	t0, t1 := 0.0, 1.0
	for _, l := range []line{after(extent.u0), before(extent.u1), above(extent.v0), below(extent.v1)} {
		fa, fb := l.side(a), l.side(b)
		switch {
		case fa < 0 && fb < 0:
			return 0
		case fa < 0:
			t0 = max(t0, fa/(fa-fb))
		case fb < 0:
			t1 = min(t1, fa/(fa-fb))
		}
	}
	t := (t0 + t1) / 2
	if t0 >= t1 || !s.contains(uv{a.u + t*(b.u-a.u), a.v + t*(b.v-a.v)}) {
		return 0
	}
	return (t1 - t0) * long
}
