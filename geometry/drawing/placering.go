package drawing

import "math"

// trial is a label whose place is looked for round its own.
type trial struct {
	i          int
	l          *label
	lines      []string
	e          extents
	at, prefer Vec
	past       [directions]float64 // nearer than that there is no room this way
}

// ring tries places round a label's own, nearer ones first, in some directions.
func (p *Placed) ring(t *trial, last float64, from, to int) bool {
	step, l := 1.0, t.l
	if p.m.Thin { // a few places will do
		step = 2
	}
	covered := l.Near > 0 && !l.Fixed && p.covered(t.at) // no leader goes there
	for r := float64(l.Start); r <= last; r += max(step, r/12) {
		leader := l.Near > 0 && r >= float64(l.Near) || l.Leader
		for k := from; k < to; k++ {
			if r < t.past[k] || p.m.Thin && (k+1)/2%2 == 1 {
				continue
			}
			p.room.way = k
			u := turned(t.prefer, around[k])
			b := Box{t.at.Toward(u, r*p.unit).Add(Vec{X: u.X * t.e.w / 2, Y: u.Y * t.e.h / 2}), Vec{X: 1, Y: 0}, t.e.w / 2, t.e.h / 2}
			if leader && covered && p.far(b, t.at) {
				continue
			}
			if !l.Fixed {
				if off := p.blocked(b.Grown(p.m.Apart*p.unit), u); off > 0 {
					t.past[k] = r + off/p.unit
					continue
				}
			}
			if p.stand(t.i, l, t.lines, t.e, b, leader) {
				return true
			}
			t.past[k] = math.Nextafter(r, math.Inf(1))
		}
	}
	return false
}

// tipRoom is how far a leader ends before its place, and least how long one is, mm.
const (
	tipRoom = 0.4
	least   = 1.5
)

// covered tells whether text lies over a place and all round it, so that a leader can't
// end there.
func (p *Placed) covered(at Vec) bool {
	in := false
	p.room.each(Box{at, Vec{X: 1, Y: 0}, 0, 0}, takenText, func(b *Box) bool {
		v, inset := at.Sub(b.Mid), (tipRoom+0.05)*p.unit
		in = math.Abs(v.Dot(b.Along)) <= b.L-inset && math.Abs(v.Dot(b.Along.Left())) <= b.H-inset
		return !in
	})
	return in
}

// far tells whether a label's box needs a leader to a place.
func (p *Placed) far(b Box, to Vec) bool {
	return to.Sub(b.Grown(0.8*p.unit).Nearest(to)).Length() >= least*p.unit
}
