package drawing

import (
	"math"

	"haunchbook.example/geometry"
)

// Symbol is a mark that is as large on every drawing.
type Symbol uint8

// The symbols.
const (
	CornerSquare Symbol = iota
	BoltMark            // a ring with a cross
	HoldDown            // the same with a second ring
	JambTick            // across an edge along Turn, longer on its left
	StakeTick           // out from an edge along Turn
	KickerTick
	SawTick     // across a piece of stock along Turn
	StringStake // a diagonal cross
	Dot
	WetPad
	Benchmark
	ArrowHead // open, along Turn
	FullArrow
	NorthArrow
)

// symbolRoom is what of the sheet a symbol takes, mm from its place: across all
// round, or for a stroke from one end to the other to the left of its direction.
var symbolRoom = map[Symbol]struct{ round, from, to float64 }{
	BoltMark: {round: 1.4}, HoldDown: {round: 2}, WetPad: {round: 1.5}, Benchmark: {round: 2.2}, NorthArrow: {round: 7},
	SawTick: {from: 1, to: -1}, JambTick: {from: 2.4, to: -0.7}, StakeTick: {from: -1.06, to: -2.65}, KickerTick: {from: -1.06, to: -4.5}, StringStake: {round: 1}, ArrowHead: {}, FullArrow: {},
}

// symbolBox gives the room that text leaves to a symbol. A thinned picture has
// room for few.
func (p *Placed) symbolBox(it *item) (Box, bool) {
	r, ok := symbolRoom[it.symbol]
	if !ok || !p.seen(it) || p.m.Thin && it.symbol != JambTick && it.symbol != WetPad && it.symbol != Benchmark {
		return Box{}, false
	}
	at, half := p.o.View.On(p.d.points[it.first]), p.pens[it.Style].Width*p.unit/2
	switch it.symbol {
	case BoltMark:
		r.round = 1.6*p.boltRadius()/p.unit + half
	case HoldDown:
		r.round = 1.8*p.boltRadius()/p.unit + half
	}
	if r.round > 0 {
		return Box{at, Vec{X: 1, Y: 0}, r.round * p.unit, r.round * p.unit}, true
	}
	u, _ := way(it.turn)
	switch it.symbol {
	case ArrowHead:
		return BoxOf(at, at.Toward(u, -2.4*p.unit), 1.2*p.unit), true
	case FullArrow:
		return BoxOf(at, at.Toward(u, -2.1*p.unit), 0.75*p.unit), true
	}
	return BoxOf(at.Toward(u.Left(), r.from*p.unit), at.Toward(u.Left(), r.to*p.unit), half), true
}

// boltWide is the width of a bolt's mark in truth, about that of a washer.
const boltWide = 2 * geometry.Inch

// boltRadius gives the radius of a bolt's ring on the sheet.
func (p *Placed) boltRadius() float64 {
	return max(0.58*p.unit, min(1.32*p.unit, p.o.View.Size(boltWide)))
}

// symbol draws a symbol of the drawing.
func (p *Placed) symbol(c Canvas, k Ink, it *item) {
	at := p.o.View.On(p.d.points[it.first])
	if !p.o.Clip.Has(at) && !p.m.Thin {
		return
	}
	u, ok := way(it.turn)
	if !ok {
		u = Vec{X: 1, Y: 0}
	}
	mm, n := p.unit, u.Left()
	line := func(a, b Vec) {
		p.side = append(p.side[:0], a, b)
		c.Stroke(k, p.side, false)
	}
	switch it.symbol {
	case CornerSquare:
		p.shape(c, k, at.Add(Vec{X: -0.66 * mm, Y: -0.66 * mm}), at.Add(Vec{X: 0.66 * mm, Y: -0.66 * mm}), at.Add(Vec{X: 0.66 * mm, Y: 0.66 * mm}), at.Add(Vec{X: -0.66 * mm, Y: 0.66 * mm}))
	case BoltMark, HoldDown:
		r := p.boltRadius()
		c.Circle(k, at, r, false)
		if p.m.Thin && p.o.View.Size(boltWide) < 0.2*mm { // far off, the ring alone
			break
		}
		line(at.Add(Vec{X: -1.6 * r, Y: 0}), at.Add(Vec{X: 1.6 * r, Y: 0}))
		line(at.Add(Vec{X: 0, Y: -1.6 * r}), at.Add(Vec{X: 0, Y: 1.6 * r}))
		if it.symbol == HoldDown {
			c.Circle(k, at, 1.8*r, false)
		}
	case SawTick, JambTick, StakeTick, KickerTick:
		r := symbolRoom[it.symbol]
		line(at.Toward(n, r.from*mm), at.Toward(n, r.to*mm))
	case StringStake:
		const r = 0.93
		line(at.Add(Vec{X: -r * mm, Y: -r * mm}), at.Add(Vec{X: r * mm, Y: r * mm}))
		line(at.Add(Vec{X: -r * mm, Y: r * mm}), at.Add(Vec{X: r * mm, Y: -r * mm}))
	case Dot:
		c.Circle(k, at, 0.8*mm, true)
	case WetPad:
		c.Circle(k, at, 1.32*mm, false)
		c.Circle(k, at, 0.4*mm, true)
	case Benchmark:
		p.benchmark(c, k, at)
	case ArrowHead:
		for _, s := range [2]float64{1, -1} {
			line(at, at.Toward(u, -2.4*mm).Toward(n, 1.2*s*mm))
		}
	case FullArrow:
		p.head(c, k, at, u)
	case NorthArrow:
		p.north(c, k, at, u)
	}
}

// shape fills a ring of corners.
func (p *Placed) shape(c Canvas, k Ink, corners ...Vec) {
	if len(p.rings) == 0 {
		p.rings = append(p.rings, nil)
	}
	p.rings[0] = append(p.rings[0][:0], corners...)
	c.Fill(k, p.rings[:1])
}

// head fills the head of an arrow along u.
func (p *Placed) head(c Canvas, k Ink, tip, u Vec) {
	back, n := tip.Toward(u, -2.1*p.unit), u.Left().Times(0.75*p.unit)
	p.shape(c, k, tip, back.Add(n), back.Sub(n))
}

// benchmark draws a circle in quarters, two of them full.
func (p *Placed) benchmark(c Canvas, k Ink, at Vec) {
	r := 2.1 * p.unit
	ground := k
	ground.Style = PlateFill
	c.Circle(ground, at, r, true)
	for _, d := range [2]float64{1, -1} {
		var quarter [10]Vec
		quarter[0] = at
		for i := range 9 {
			sin, cos := math.Sincos(math.Pi / 16 * float64(i))
			quarter[i+1] = at.Add(Vec{X: d * r * cos, Y: d * r * sin})
		}
		p.shape(c, k, quarter[:]...)
	}
	c.Circle(k, at, r, false)
}

// north draws an arrow in a ring, one half of its head full, so that its direction
// is seen. Without a direction, as the zero vector gives, it is drawn to the right.
func (p *Placed) north(c Canvas, k Ink, at, u Vec) {
	mm, n := p.unit, u.Left()
	c.Circle(k, at, 4*mm, false)
	tip, tail := at.Toward(u, 4*mm), at.Toward(u, -4*mm)
	p.shape(c, k, tip, tail.Toward(n, -1.9*mm), at.Toward(u, -2*mm))
	p.side = append(p.side[:0], tip, tail.Toward(n, 1.9*mm), at.Toward(u, -2*mm), tip)
	c.Stroke(k, p.side, false)
}
