package sheet

import "math"

// A run is a straight side to dimension, on paper.
type run struct {
	a, b Point // its ends
	out  Point // unit vector away from the slab
	// prev and next are the neighboring sides, as vectors from a and from b.
	// One that runs along an extension line serves as that line.
	prev, next Point
	from, to   float64 // the stretch of it that is seen, mm from a
}

// seen cuts r to what the drawing shows of it; false for nothing.
func (d *draft) seen(r run) (run, bool) {
	from, to, ok := clipSegment(r.a, r.b, d.clip)
	r.from, r.to = from*r.length(), to*r.length()
	return r, ok
}

func (r run) along() Point    { return r.b.sub(r.a).unit() }
func (r run) length() float64 { return r.b.sub(r.a).length() }

// inward gives the same run dimensioned on the slab's side.
func (r run) inward() run {
	r.out = r.out.times(-1)
	return r
}

// chain is a dimension string: measures between stops along a run.
type chain struct {
	stops []float64 // mm from the run's start, rising
	texts []string  // between them
}

// Distances of dimension strings, in millimeters.
const (
	firstTier = 9.0
	tierStep  = 6.5
	tierTry   = 3.25 // step of the search for a free place
	extGap    = 1.5  // between a corner and its extension line
	extPast   = 1.4  // of an extension line beyond the string
	nearTiers = 38.0 // how far a string goes before the slab's own side is tried
	farTiers  = 120.0
)

// dimension places the chains of one run, inner first, where they cross nothing:
// outside the slab, else inside, else farther out. Without a place for all of
// them the last, the overall measure, is placed alone. It gives false when
// nothing was placed.
func (d *draft) dimension(r run, chains []chain) bool {
	r, ok := d.seen(r)
	if !ok {
		return true
	}
	for len(chains) > 0 {
		for _, try := range []struct {
			r        run
			from, to float64
		}{
			{r, firstTier, nearTiers},
			{r.inward(), firstTier, nearTiers},
			{r, nearTiers + tierTry, farTiers},
		} {
			for o := try.from; o <= try.to; o += tierTry {
				if d.attempt(func() bool { return d.stack(try.r, o, chains) }) {
					return true
				}
			}
		}
		chains = chains[1:]
	}
	return false
}

// stack draws chains at rising offsets from o. It gives false, part drawn, when
// something is in the way.
func (d *draft) stack(r run, o float64, chains []chain) bool {
	reach := map[float64]float64{} // how far each stop's extension line goes
	for i, c := range chains {
		for _, s := range c.stops {
			reach[s] = max(reach[s], o+float64(i)*tierStep)
		}
	}
	// In order, so that the same plan gives the same page.
	for _, c := range chains {
		for _, s := range c.stops {
			to, ok := reach[s]
			if !ok {
				continue
			}
			delete(reach, s)
			if !d.extension(r, s, to) {
				return false
			}
		}
	}
	for i, c := range chains {
		if !d.chain(r, o+float64(i)*tierStep, c) {
			return false
		}
	}
	return true
}

// extension draws the extension line at stop s out to the string at to.
func (d *draft) extension(r run, s, to float64) bool {
	if s < r.from-0.01 || s > r.to+0.01 {
		return true
	}
	from := extGap
	for _, n := range []struct {
		at   float64
		side Point
	}{{0, r.prev}, {r.length(), r.next}} {
		if math.Abs(s-n.at) < 0.05 && n.side.unit().dot(r.out) > 0.9999 {
			from = n.side.length() + extGap
		}
	}
	if from >= to {
		return true
	}
	p := r.a.toward(r.along(), s)
	a, b := p.toward(r.out, from), p.toward(r.out, to+extPast)
	if !d.free(boxOf(a, b, 0.15)) {
		return false
	}
	d.line(Dimension, penDim, a, b)
	return true
}

// chain draws one dimension string at an offset.
func (d *draft) chain(r run, o float64, c chain) bool {
	u := r.along()
	at := func(s float64) Point { return r.a.toward(u, s).toward(r.out, o) }
	cut := func(s float64) float64 { return max(r.from, min(r.to, s)) }
	a, b := at(cut(c.stops[0])), at(cut(c.stops[len(c.stops)-1]))
	// Its ends stand on extension lines or on the neighboring sides.
	const end = 1.1
	if b.sub(a).length() <= 0.5 || !d.clearLine(a.toward(u, end), b.toward(u, -end), u, c, at) {
		return false
	}
	first := len(d.page.Items)
	defer func() { d.part(first) }()
	d.line(Dimension, penDim, a, b)
	for _, s := range c.stops {
		if s >= r.from-0.01 && s <= r.to+0.01 {
			d.tick(at(s), u)
		}
	}
	ru := readable(u)
	for i, text := range c.texts {
		p, q := at(cut(c.stops[i])), at(cut(c.stops[i+1]))
		if q.sub(p).length() < 0.01 || q.sub(p).length() < 12 && (c.stops[i] < r.from-0.01 || c.stops[i+1] > r.to+0.01) {
			continue // seen well enough on the next sheet
		}
		at := len(d.page.Items)
		if !d.measure(p, q, ru, text) {
			return false
		}
		for _, it := range d.page.Items[at:] {
			if t, ok := it.(Text); ok {
				d.page.measures = append(d.page.measures, measure{r.a.toward(u, cut(c.stops[i])), r.a.toward(u, cut(c.stops[i+1])), p, q, t})
				break
			}
		}
	}
	return true
}

// part marks what was drawn from an item on as part of measures.
func (d *draft) part(first int) {
	for i := first; i < len(d.page.Items); i++ {
		switch v := d.page.Items[i].(type) {
		case Line:
			v.dim = true
			d.page.Items[i] = v
		case Text:
			v.dim = true
			d.page.Items[i] = v
		}
	}
}

// clearLine tells whether a string from a to b crosses nothing but the extension
// lines of its own stops.
func (d *draft) clearLine(a, b, u Point, c chain, at func(float64) Point) bool {
	const near = 0.75
	if b.sub(a).dot(u) <= 0 {
		return true // too short to cross anything between its ends
	}
	from := a
	for _, s := range c.stops[1 : len(c.stops)-1] {
		p := at(s)
		if p.sub(a).dot(u) < 0 || b.sub(p).dot(u) < 0 {
			continue // off this sheet
		}
		if p.toward(u, -near).sub(from).dot(u) > 0 && !d.free(boxOf(from, p.toward(u, -near), 0.15)) {
			return false
		}
		from = p.toward(u, near)
	}
	return b.sub(from).dot(u) <= 0 || d.free(boxOf(from, b, 0.15))
}

// tick draws the oblique stroke that ends a measure.
func (d *draft) tick(p, u Point) {
	v := u.add(u.left()).unit().times(1.2)
	d.page.Items = append(d.page.Items, Line{Layer: Dimension, Pen: penTick, Points: []Point{p.sub(v), p.add(v)}})
	d.obs.add(boxOf(p.sub(v), p.add(v), penTick.Width/2+0.1), false)
}

// measure writes a measure on the string between p and q: over it, under it, or
// beside it with a leader where it is too short.
func (d *draft) measure(p, q, u Point, text string) bool {
	t := Text{Layer: Dimension, Turn: angle(u), Size: sizeBody, Color: blue, Text: text}
	w, up := t.width(), u.left()
	over, under := 0.75+t.low(), -0.75-capHeight*t.Size*mmPerPoint
	mid := p.add(q).times(0.5)
	place := func(shift, lift float64) bool {
		t.At = mid.toward(u, shift-w/2).toward(up, lift)
		if !d.free(t.box()) {
			return false
		}
		d.put(t)
		return true
	}
	span := q.sub(p).length()
	if w+2.6 <= span {
		if place(0, over) || place(0, under) {
			return true
		}
		for f := 0.15; f < 0.5; f += 0.1 {
			s := f * (span - w - 2.6)
			if place(s, over) || place(-s, over) || place(s, under) || place(-s, under) {
				return true
			}
		}
	}
	if span > 40 {
		return false
	}
	// Beside it, at the end of a short leader.
	for _, lift := range []float64{3.2, 5.5, 8} {
		for _, shift := range []float64{0, w/2 + 2, -w/2 - 2, w/2 + 5, -w/2 - 5, w, -w} {
			for _, side := range []float64{1, -1} {
				base := lift
				if side < 0 {
					base = -lift - capHeight*t.Size*mmPerPoint
				}
				if d.attempt(func() bool {
					if !place(shift, base) {
						return false
					}
					from := mid.toward(up, side*0.9)
					to := t.box().nearest(mid).sub(from)
					if to.length() < 0.8 {
						return true
					}
					tip := from.add(to.times(1 - 0.7/to.length()))
					if d.obs.hit(boxOf(from, tip, 0.1), false) {
						return false
					}
					d.line(Dimension, penDim, from, tip)
					return true
				}) {
					return true
				}
			}
		}
	}
	return false
}

// nearest gives the point of the box nearest to p.
func (b box) nearest(p Point) Point {
	v := p.sub(b.center)
	clamp := func(x, h float64) float64 { return max(-h, min(h, x)) }
	return b.center.
		toward(b.along, clamp(v.dot(b.along), b.halfL)).
		toward(b.along.left(), clamp(v.dot(b.along.left()), b.halfH))
}

// alongSide writes a measure along the side itself, without a string: outside,
// else inside.
func (d *draft) alongSide(r run, text string) bool {
	u := readable(r.along())
	t := Text{Layer: Dimension, Turn: angle(u), Size: sizeBody, Color: blue, Text: text}
	r, ok := d.seen(r)
	if !ok {
		return true
	}
	w, span := t.width(), r.to-r.from
	if w+2 > span {
		return false
	}
	mid := r.a.toward(r.along(), (r.from+r.to)/2)
	for _, out := range []Point{r.out, r.out.times(-1)} {
		for _, gap := range []float64{1.3, 3, 5} {
			lift := gap + t.low()
			if u.left().dot(out) < 0 {
				lift = -gap - capHeight*t.Size*mmPerPoint
			}
			for _, f := range []float64{0, 0.25, -0.25, 0.45, -0.45} {
				t.At = mid.toward(u, f*(span-w-2)-w/2).toward(u.left(), lift)
				if d.free(t.box()) {
					d.put(t)
					return true
				}
			}
		}
	}
	return false
}
