package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Strip is a band of a slab that the straightedge spans in one pass.
type Strip struct {
	Number int    // in the order of placing, from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Width  geometry.Length
	Shape  Shape
	Bays   []int // places in the list of bays
}

// Bay is what is placed and struck off in one go: a part of a strip.
type Bay struct {
	Number  int             // in the order of placing, from 1, over all slabs
	Slab    int             // its slab's number in the job, from 0
	Strip   int             // its strip's number
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

// Shape is a part of the slab in plan: rings counter-clockwise round it and
// clockwise round its holes. More than one runs round it where an opening or a
// notch parts it.
type Shape []geometry.Ring

// Area gives the area in m².
func (s Shape) Area() float64 {
	sum := 0.0
	for _, r := range s {
		sum += r.Area()
	}
	return sum
}

// Pad is a wet pad: a heap of fresh concrete struck to grade by the laser, that
// carries the straightedge between two strips.
type Pad struct {
	Number int    // from 1, over all slabs
	Slab   int    // its slab's number in the job, from 0
	Name   string // its slab's, "" where the job has but one
	Row    int    // rows lie between strips: after the strip of that number
	At     geometry.Point
	From   geometry.Point  // At from the slab's first corner
	Height geometry.Length // of the top above its lowest point; 0 for a level top
}

// frame turns plan coordinates so that strips run along u and lie side by side
// along v. Both are metres from an origin near the slab.
type frame struct {
	origin geometry.Point
	cos    float64
	sin    float64
}

func newFrame(origin geometry.Point, turn float64) frame {
	sin, cos := math.Sincos(turn)
	return frame{origin, cos, sin}
}

func (f frame) in(p geometry.Point) uv {
	d := p.Sub(f.origin)
	x, y := d.X.Metres(), d.Y.Metres()
	return uv{f.cos*x + f.sin*y, f.cos*y - f.sin*x}
}

func (f frame) out(q uv) geometry.Point {
	return f.origin.Add(geometry.Point{X: length(f.cos*q.u - f.sin*q.v), Y: length(f.sin*q.u + f.cos*q.v)})
}

// slab gives the outline and the holes.
func (f frame) slab(p plan.Plan) shape {
	var out shape
	for _, l := range p.Loops() {
		ring := make([]uv, len(l))
		for i, e := range l {
			ring[i] = f.in(e.At)
		}
		out = append(out, ring)
	}
	return out
}

func (f frame) shape(s shape) Shape {
	out := make(Shape, len(s))
	for i, r := range s {
		out[i] = make(geometry.Ring, len(r))
		for k, q := range r {
			out[i][k] = f.out(q)
		}
	}
	return out
}

// rectangle is a part of the frame's plane.
type rectangle struct{ u0, u1, v0, v1 float64 }

// divide cuts a length into the fewest equal parts of at most most each. A hair
// over is no further part.
func divide(length, most float64) int {
	if most <= 0 {
		return 1
	}
	return max(1, int(math.Ceil(length/most-1e-9)))
}

// StripWidth gives the greatest width of a strip: what the straightedge spans
// with its overlap, and what the bull float reaches across from one side.
func (r Reach) StripWidth() geometry.Length {
	w := r.Straightedge - r.Overlap
	if r.Float > 0 {
		w = min(w, r.Float)
	}
	return w
}

// Bounds on what a plan is cut into, far beyond what is poured in a day.
const (
	maxStrips = 200
	maxBays   = 2000
)

// turns lists the directions of strips to choose from: the given one, or those of
// the outline's edges, each once, longest edge first.
func turns(p plan.Plan, r Reach) []float64 {
	if r.Turned {
		return []float64{r.Turn * math.Pi / 180}
	}
	type edge struct {
		turn   float64
		length geometry.Length
	}
	var edges []edge
	for i := range p.Outline {
		a, b := p.Outline.Ends(i)
		d := b.Sub(a)
		turn := math.Atan2(float64(d.Y), float64(d.X))
		if turn < -1e-9 {
			turn += math.Pi
		} else if turn > math.Pi-1e-9 {
			turn -= math.Pi
		}
		edges = append(edges, edge{turn, geometry.Distance(a, b)})
	}
	slices.SortStableFunc(edges, func(a, b edge) int { return cmp.Compare(b.length, a.length) })
	var out []float64
	for _, e := range edges {
		if !slices.ContainsFunc(out, func(t float64) bool { return math.Abs(t-e.turn) < 1e-6 }) {
			out = append(out, e.turn)
		}
	}
	// Past some dozens nothing is gained, on an outline of many short edges.
	return out[:min(len(out), 32)]
}

// cut is one way to lay the strips.
type cut struct {
	frame  frame
	slab   shape
	extent rectangle
	strips int
	trucks []uv    // their places
	away   float64 // how far the nearest truck stands beyond the last strip; negative beside them
}

// chooseCut takes the direction with the fewest strips, and of several the one
// whose last strip the truck stands behind.
func chooseCut(p plan.Plan, r Reach, stations []geometry.Point) cut {
	var best cut
	for i, t := range turns(p, r) {
		c := cut{frame: newFrame(p.Outline[0].At, t)}
		c.slab = c.frame.slab(p)
		c.extent = c.slab.extent()
		c.strips = divide(c.extent.v1-c.extent.v0, r.StripWidth().Metres())
		for _, st := range stations {
			c.trucks = append(c.trucks, c.frame.in(st))
		}
		q := nearestPlace(c.trucks, c.extent)
		c.away = max(q.v-c.extent.v1, c.extent.v0-q.v)
		if i == 0 || c.strips < best.strips || c.strips == best.strips && c.away > best.away+1e-6 {
			best = c
		}
	}
	return best
}

// course is the strips, bays and wet pads of the slabs laid so far.
type course struct {
	reach    Reach
	stations []geometry.Point
	strips   []Strip
	bays     []Bay
	pads     []Pad
	placed   float64 // m³
}

// lay cuts a slab into strips and bays in the order they are placed: from the
// strip farthest from the trucks to the nearest, and in each from its far end.
func (c *course) lay(s Slab) error {
	cut := chooseCut(s.Plan, c.reach, c.stations)
	if cut.strips > maxStrips {
		return fmt.Errorf("found a slab %d strips wide; a pour of at most %d is planned here: divide the slab, or check its size", cut.strips, maxStrips)
	}
	f := cut.frame
	width := (cut.extent.v1 - cut.extent.v0) / float64(cut.strips)
	border := func(k int) float64 { return cut.extent.v0 + float64(k)*width }
	upward := cut.upward()
	first := len(c.bays)
	var shapes []shape
	for n := range cut.strips {
		k := n
		if !upward {
			k = cut.strips - 1 - n
		}
		// The outer borders are the slab's own.
		band := cut.slab
		if k > 0 {
			band = band.keep(above(border(k)))
		}
		if k < cut.strips-1 {
			band = band.keep(below(border(k + 1)))
		}
		if n > 0 {
			at := border(k)
			if !upward {
				at = border(k + 1)
			}
			c.padRow(s, cut, at, width)
		}
		strip := Strip{Number: len(c.strips) + 1, Slab: s.Number, Name: s.Name, Width: length(width), Shape: f.shape(band)}
		for _, part := range cutStrip(band, c.reach.Bay.Metres(), cut.trucks, maxBays/cut.strips+1) {
			bay := c.fillBay(s, f, part)
			bay.Number, bay.Slab, bay.Strip = len(c.bays)+1, s.Number, strip.Number
			c.placed += bay.Volume
			bay.Running = c.placed
			strip.Bays = append(strip.Bays, len(c.bays))
			c.bays, shapes = append(c.bays, bay), append(shapes, part)
		}
		c.strips = append(c.strips, strip)
	}
	for _, at := range s.Bolts {
		if i := nearest(shapes, f.in(at)); i >= 0 {
			c.bays[first+i].Bolts++
		}
	}
	return nil
}

// cutStrip cuts a strip into bays of at most a length along it, in the order
// they are placed: the part of the strip farthest from the truck first, each from
// its far end. No bay reaches across a gap in the slab.
func cutStrip(band shape, long float64, trucks []uv, most int) []shape {
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

// upward tells whether the strips are placed from the low side to the high one:
// the last strip is on the side that a truck stands nearest to, the low one
// without any.
func (c cut) upward() bool {
	low, high := c.extent, c.extent
	low.v1, high.v0 = low.v0, high.v1
	least := func(r rectangle) float64 { return r.distance(nearestPlace(c.trucks, r)) }
	return least(high) < least(low)-1e-6
}

// nearestPlace gives the place nearest to r; its low corner where there is none.
func nearestPlace(places []uv, r rectangle) uv {
	if len(places) == 0 {
		return uv{r.u0, r.v0}
	}
	return slices.MinFunc(places, func(a, b uv) int { return cmp.Compare(r.distance(a), r.distance(b)) })
}

// distance gives how far q lies from r; 0 within.
func (r rectangle) distance(q uv) float64 {
	return math.Hypot(max(r.u0-q.u, 0, q.u-r.u1), max(r.v0-q.v, 0, q.v-r.v1))
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

func length(metres float64) geometry.Length { return geometry.Length(math.Round(metres * 1e9)) }

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

// padRow sets wet pads along the line between the last strip and the next, so
// that the straightedge reaches from form to pad and from pad to pad.
func (c *course) padRow(s Slab, cut cut, v, most float64) {
	for _, stretch := range slabAlong(cut.slab, v) {
		n := divide(stretch[1]-stretch[0], most)
		for k := 1; k < n; k++ {
			at := cut.frame.out(uv{stretch[0] + (stretch[1]-stretch[0])*float64(k)/float64(n), v})
			c.pads = append(c.pads, Pad{len(c.pads) + 1, s.Number, s.Name, len(c.strips), at, at.Sub(s.Plan.Outline[0].At), s.Solid.TopAt(at)})
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
