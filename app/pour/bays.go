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

// Strip is a band of the slab that the straightedge spans in one pass.
type Strip struct {
	Number  int // in the order of placing, from 1
	Width   geometry.Length
	Corners [4]geometry.Point
	Bays    []int // places in the list of bays
}

// Bay is what is placed and struck off in one go: a part of a strip.
type Bay struct {
	Number  int               // in the order of placing, from 1
	Strip   int               // its strip's number
	Corners [4]geometry.Point // of the rectangle that holds its part of the slab
	Volume  float64           // m³ of the slab in it, no waste
	Running float64           // m³ placed when it is done, no waste
	Edge    geometry.Length   // of form to run the edger along
	Bolts   int               // anchor bolts to set while it is soft
	Station int               // the truck's place that it is filled from; -1 without any
	Away    geometry.Length   // the farthest of it from that place
	Reached bool              // the chute or hose goes that far
}

// Pad is a wet pad: a heap of fresh concrete struck to grade by the laser, that
// carries the straightedge between two strips.
type Pad struct {
	Number int
	Row    int // rows lie between strips; row 1 is between the strips 1 and 2
	At     geometry.Point
	Height geometry.Length // of the top above its lowest point; 0 for a level top
}

// frame turns plan coordinates so that strips run along u and lie side by side
// along v. Both are metres from an origin near the slab.
type frame struct {
	origin geometry.Point
	cos    float64
	sin    float64
}

type uv struct{ u, v float64 }

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
	round := func(m float64) geometry.Length { return geometry.Length(math.Round(m * 1e9)) }
	return f.origin.Add(geometry.Point{X: round(f.cos*q.u - f.sin*q.v), Y: round(f.sin*q.u + f.cos*q.v)})
}

func (f frame) ring(l plan.Loop) []uv {
	out := make([]uv, len(l))
	for i, e := range l {
		out[i] = f.in(e.At)
	}
	return out
}

// rectangle is a part of the frame's plane.
type rectangle struct{ u0, u1, v0, v1 float64 }

func (r rectangle) corners(f frame) [4]geometry.Point {
	return [4]geometry.Point{f.out(uv{r.u0, r.v0}), f.out(uv{r.u1, r.v0}), f.out(uv{r.u1, r.v1}), f.out(uv{r.u0, r.v1})}
}

// half is the side of a line on which f is not negative.
type half func(q uv) float64

func (r rectangle) halves() [4]half {
	return [4]half{
		func(q uv) float64 { return q.u - r.u0 },
		func(q uv) float64 { return r.u1 - q.u },
		func(q uv) float64 { return q.v - r.v0 },
		func(q uv) float64 { return r.v1 - q.v },
	}
}

// clip cuts a ring to half planes, one after the other. Where that splits the
// ring, its parts stay joined along the cuts, which moves no extent.
func clip(ring []uv, halves ...half) []uv {
	for _, h := range halves {
		var out []uv
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			fa, fb := h(a), h(b)
			if fa >= 0 {
				out = append(out, a)
			}
			if fa > 0 && fb < 0 || fa < 0 && fb > 0 {
				t := fa / (fa - fb)
				out = append(out, uv{a.u + t*(b.u-a.u), a.v + t*(b.v-a.v)})
			}
		}
		ring = out
	}
	return ring
}

// bounds gives the extents of some points, of which there must be one.
func bounds(ps []uv) rectangle {
	r := rectangle{ps[0].u, ps[0].u, ps[0].v, ps[0].v}
	for _, p := range ps[1:] {
		r = rectangle{min(r.u0, p.u), max(r.u1, p.u), min(r.v0, p.v), max(r.v1, p.v)}
	}
	return r
}

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
	extent rectangle
	strips int
	away   float64 // how far the nearest truck stands beyond the last strip; negative beside them
}

// chooseCut takes the direction with the fewest strips, and of several the one
// whose last strip the truck stands behind.
func chooseCut(p plan.Plan, r Reach, stations []geometry.Point) cut {
	var best cut
	for i, t := range turns(p, r) {
		c := cut{frame: newFrame(p.Outline[0].At, t)}
		c.extent = bounds(c.frame.ring(p.Outline))
		c.strips = divide(c.extent.v1-c.extent.v0, r.StripWidth().Metres())
		c.away = math.Inf(-1)
		for _, s := range stations {
			q := c.frame.in(s)
			c.away = max(c.away, q.v-c.extent.v1, c.extent.v0-q.v)
		}
		if i == 0 || c.strips < best.strips || c.strips == best.strips && c.away > best.away+1e-6 {
			best = c
		}
	}
	return best
}

// layBays cuts the slab into strips and bays in the order they are placed: from
// the strip farthest from the trucks to the nearest, and in each from its far end.
func layBays(p plan.Plan, r Reach, stations []geometry.Point, bolts []geometry.Point,
	body *solid.Solid) (strips []Strip, bays []Bay, pads []Pad, err error) {

	c := chooseCut(p, r, stations)
	if c.strips > maxStrips {
		return nil, nil, nil, fmt.Errorf("found a slab %d strips wide; a pour of at most %d is planned here: divide the slab, or check its size", c.strips, maxStrips)
	}
	f, e := c.frame, c.extent
	width := (e.v1 - e.v0) / float64(c.strips)
	outline := f.ring(p.Outline)
	border := func(k int) float64 {
		if k == c.strips {
			return e.v1
		}
		return e.v0 + float64(k)*width
	}
	near := truckSide(f, stations, e)
	running := 0.0
	var cells []rectangle
	for n := range c.strips {
		k := n
		if near.v < (e.v0+e.v1)/2 {
			k = c.strips - 1 - n // the truck is at the low side: begin at the high one
		}
		band := rectangle{math.Inf(-1), math.Inf(1), border(k), border(k + 1)}
		part := clip(outline, band.halves()[2], band.halves()[3])
		if len(part) == 0 {
			continue
		}
		b := bounds(part)
		band.u0, band.u1 = b.u0, b.u1
		s := Strip{Number: len(strips) + 1, Width: geometry.Length(math.Round(width * 1e9)), Corners: band.corners(f)}
		m := min(divide(b.u1-b.u0, r.Bay.Metres()), maxBays/c.strips+1)
		step := (b.u1 - b.u0) / float64(m)
		for i := range m {
			j := i
			if near.u < (b.u0+b.u1)/2 {
				j = m - 1 - i
			}
			cell := rectangle{b.u0 + float64(j)*step, b.u0 + float64(j+1)*step, band.v0, band.v1}
			if j == m-1 {
				cell.u1 = b.u1
			}
			bay, ok := fillBay(p, f, cell, outline, r, stations, body)
			if !ok {
				continue // in a gap of the outline
			}
			cells = append(cells, cell)
			bay.Number, bay.Strip = len(bays)+1, s.Number
			running += bay.Volume
			bay.Running = running
			s.Bays = append(s.Bays, len(bays))
			bays = append(bays, bay)
		}
		strips = append(strips, s)
		if n > 0 {
			at := border(k)
			if near.v < (e.v0+e.v1)/2 {
				at = border(k + 1)
			}
			pads = append(pads, padRow(p, f, at, width, n, len(pads), body)...)
		}
	}
	for _, at := range bolts {
		if i := nearest(cells, f.in(at)); i >= 0 {
			bays[i].Bolts++
		}
	}
	return strips, bays, pads, nil
}

// nearest gives the rectangle that q lies in or is nearest to, the first of
// several; -1 for none.
func nearest(rs []rectangle, q uv) int {
	at, least := -1, math.Inf(1)
	for i, r := range rs {
		d := math.Hypot(max(r.u0-q.u, 0, q.u-r.u1), max(r.v0-q.v, 0, q.v-r.v1))
		if d < least {
			at, least = i, d
		}
	}
	return at
}

// truckSide gives the truck's place that decides the order: the one farthest
// out, or the slab's low corner without any.
func truckSide(f frame, stations []geometry.Point, e rectangle) uv {
	near, out := uv{e.u0, e.v0}, math.Inf(-1)
	for _, s := range stations {
		q := f.in(s)
		if d := max(q.v-e.v1, e.v0-q.v); d > out {
			near, out = q, d
		}
	}
	return near
}

// fillBay measures one bay, false where there is no slab in it.
func fillBay(p plan.Plan, f frame, cell rectangle, outline []uv, r Reach, stations []geometry.Point,
	body *solid.Solid) (Bay, bool) {

	halves := cell.halves()
	part := clip(outline, halves[:]...)
	whole := cell.corners(f)
	bay := Bay{Volume: body.VolumeWithin(whole[:]), Station: -1}
	if len(part) == 0 || bay.Volume < 1e-9 {
		return Bay{}, false
	}
	bay.Corners = bounds(part).corners(f)
	for _, l := range p.Loops() {
		for i := range l {
			if l[i].Joint {
				continue
			}
			a, b := l.Ends(i)
			bay.Edge += geometry.Length(math.Round(lengthIn(f.in(a), f.in(b), cell) * 1e9))
		}
	}
	best := math.Inf(1)
	for i, s := range stations {
		q, far := f.in(s), 0.0
		for _, v := range part {
			far = max(far, math.Hypot(v.u-q.u, v.v-q.v))
		}
		if far < best {
			best, bay.Station = far, i
		}
	}
	if bay.Station >= 0 {
		bay.Away = geometry.Length(math.Round(best * 1e9))
	}
	bay.Reached = r.Method == Buggy || bay.Station >= 0 && bay.Away <= r.Chute
	return bay, true
}

// lengthIn gives how much of the edge a-b lies in r. The slab is left of the edge:
// an edge along the border of two rectangles belongs to the one on its left.
func lengthIn(a, b uv, r rectangle) float64 {
	const nudge = 1e-7 // m
	long := math.Hypot(b.u-a.u, b.v-a.v)
	du, dv := -(b.v-a.v)/long*nudge, (b.u-a.u)/long*nudge
	a, b = uv{a.u + du, a.v + dv}, uv{b.u + du, b.v + dv}
	t0, t1 := 0.0, 1.0
	for _, h := range r.halves() {
		fa, fb := h(a), h(b)
		switch {
		case fa < 0 && fb < 0:
			return 0
		case fa < 0:
			t0 = max(t0, fa/(fa-fb))
		case fb < 0:
			t1 = min(t1, fa/(fa-fb))
		}
	}
	return max(0, t1-t0) * long
}

// padRow sets wet pads along a line between strips, so that the straightedge
// reaches from form to pad and from pad to pad.
func padRow(p plan.Plan, f frame, v, most float64, row, before int, body *solid.Solid) []Pad {
	var out []Pad
	for _, s := range slabAlong(p, f, v) {
		n := divide(s[1]-s[0], most)
		for k := 1; k < n; k++ {
			at := f.out(uv{s[0] + (s[1]-s[0])*float64(k)/float64(n), v})
			out = append(out, Pad{before + len(out) + 1, row, at, body.TopAt(at)})
		}
	}
	return out
}

// slabAlong gives the stretches of a line along u that have slab on both sides:
// a form along the line carries the straightedge itself.
func slabAlong(p plan.Plan, f frame, v float64) [][2]float64 {
	const aside = 1e-3 // m
	low, high := crossings(p, f, v-aside), crossings(p, f, v+aside)
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

// crossings lists where the slab's border crosses a line along u, sorted: slab
// lies between the first and the second, the third and the fourth, and so on.
func crossings(p plan.Plan, f frame, v float64) []float64 {
	var us []float64
	for _, l := range p.Loops() {
		ring := f.ring(l)
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.v > v) != (b.v > v) {
				us = append(us, a.u+(v-a.v)/(b.v-a.v)*(b.u-a.u))
			}
		}
	}
	slices.Sort(us)
	return us
}
