package drawing

import (
	"math"

	"haunchbook.example/geometry"
)

// run is the way that a dimension measures, on the sheet.
type run struct {
	a, b, u, out  Vec // its ends, and unit vectors along it and away from it
	length        float64
	from, to      float64 // the stretch of it that is seen
	before, after Vec
}

// inward gives the same run with its chains on the other side.
func (r run) inward() run {
	r.out = r.out.Times(-1)
	return r
}

func (r run) at(s, o float64) Vec { return r.a.Toward(r.u, s).Toward(r.out, o) }

// clamp brings a stop into what is seen.
func (r run) clamp(s float64) float64 { return max(r.from, min(r.to, s)) }

// shows tells whether a stop is seen.
func (r run) shows(s float64) bool {
	const grain = 0.01
	return s >= r.from-grain && s <= r.to+grain
}

func (p *Placed) run(m *dimension) (run, bool) {
	r := run{a: p.o.View.On(m.A), b: p.o.View.On(m.B)}
	u, ok := way(m.B.Sub(m.A))
	if !ok {
		return r, false
	}
	r.u, r.length = u, r.b.Sub(r.a).Length()
	if r.out = u.Left().Times(-1); m.Left {
		r.out = u.Left()
	}
	size := func(v geometry.Point) Vec { return Vec{X: p.o.View.Size(v.X), Y: p.o.View.Size(v.Y)} }
	r.before, r.after = size(m.Before), size(m.After)
	from, to, ok := p.o.Clip.Box().Grown(1e-6).Cuts(r.a, r.b)
	r.from, r.to = from*r.length, to*r.length
	return r, ok
}

// dimension places the chains of a dimension; what of it finds no room is a row.
func (p *Placed) dimension(m *dimension) {
	r, ok := p.run(m)
	if !ok {
		return // it stands on the sheet that shows it
	}
	if p.m.Thin {
		p.thin(r, m)
		return
	}
	if p.stackAnywhere(r, m, m.chains, false) {
		return
	}
	for k := range m.chains {
		c := m.chains[k : k+1]
		if p.stackAnywhere(r, m, c, false) || m.Along && p.alongSide(r, &c[0]) || m.Optional || p.stackAnywhere(r, m, c, true) {
			continue
		}
		of := c[0].Of
		if of == "" {
			of = m.Of
		}
		mid := (r.from + r.to) / 2
		p.row(Row{Of: of, Texts: append([]string(nil), c[0].Texts...), Layer: Dimensions, At: p.o.View.Back(r.at(mid, 0))}, r.at(mid, 0))
	}
}

// stackAnywhere places chains where they cross nothing: beside the run, else on
// its other side, else farther out. Loose measures may become rows.
func (p *Placed) stackAnywhere(r run, m *dimension, chains []Chain, loose bool) bool {
	first, most := p.m.First, p.m.Far
	if m.First > 0 {
		first = float64(m.First)
	}
	if m.Most > 0 {
		most = float64(m.Most)
	}
	near := min(most, p.m.Near)
	search := func(r run, from, to float64) bool {
		for o := from; o <= to; o += p.m.Try {
			for step := p.m.Step; step <= 2*p.m.Step; step += p.m.Try {
				h := p.hold()
				if p.stack(r, m, o*p.unit, step*p.unit, chains, loose) {
					return true
				}
				p.giveBack(h)
				if len(chains) == 1 {
					break
				}
			}
		}
		return false
	}
	return search(r, first, near) || !m.OneSide && search(r.inward(), first, near) || most > near && search(r, near+p.m.Try, most)
}

// stopReach is how far the extension line of a stop goes.
type stopReach struct{ stop, far float64 }

// stack draws chains at distances from o that rise by step. It gives false, part drawn,
// where something is in the way.
func (p *Placed) stack(r run, m *dimension, o, step float64, chains []Chain, loose bool) bool {
	p.reach = p.reach[:0]
	for i := range chains {
		far := o + float64(i)*step
		for _, l := range chains[i].Stops {
			s, known := p.o.View.Size(l), false
			for k := range p.reach {
				if p.reach[k].stop == s {
					p.reach[k].far, known = max(p.reach[k].far, far), true
				}
			}
			if !known {
				p.reach = append(p.reach, stopReach{s, far})
			}
		}
	}
	for _, e := range p.reach {
		if !p.extension(r, m, e.stop, e.far) {
			return false
		}
	}
	at := func(i int) float64 { return o + float64(i)*step }
	for i := range chains {
		if !p.chainLine(r, at(i), &chains[i]) {
			return false
		}
	}
	for i := range chains {
		if !p.chainTexts(r, m, at(i), &chains[i], loose) {
			return false
		}
	}
	return true
}

// extension draws the line from what is measured at a stop out to its chain.
func (p *Placed) extension(r run, m *dimension, s, to float64) bool {
	if !r.shows(s) {
		return true
	}
	grain, gap := 0.05*p.unit, p.m.Gap*p.unit
	if m.OnA && s < grain || m.OnB && s > r.length-grain {
		return true
	}
	from := gap
	for _, n := range [2]struct {
		at   float64
		side Vec
	}{{0, r.before}, {r.length, r.after}} {
		if math.Abs(s-n.at) < grain && n.side != (Vec{}) && n.side.Unit().Dot(r.out) > 0.9999 {
			from = n.side.Length() + gap
		}
	}
	if from >= to {
		return true
	}
	a, b := r.at(s, from), r.at(s, to+p.m.Past*p.unit)
	if !p.free(BoxOf(a, b, 0.15*p.unit)) {
		if !m.Short {
			return false
		}
		if a = r.at(s, to-3*p.unit); !p.free(BoxOf(a, b, 0.15*p.unit)) {
			return false
		}
	}
	p.line(Ink{Layer: Dimensions, Style: ExtLine}, a, b)
	return true
}

// chainLine draws one string at a distance, with its ticks.
func (p *Placed) chainLine(r run, o float64, c *Chain) bool {
	stop := func(k int) float64 { return p.o.View.Size(c.Stops[k]) }
	a, b := r.at(r.clamp(stop(0)), o), r.at(r.clamp(stop(len(c.Stops)-1)), o)
	if b.Sub(a).Length() <= 0.5*p.unit || !p.clearString(r, o, a, b, c) {
		return false
	}
	p.line(Ink{Layer: Dimensions, Style: DimLine}, a, b)
	for k := range c.Stops {
		if s := stop(k); r.shows(s) {
			p.tick(r.at(s, o), r.u)
		}
	}
	return true
}

// chainTexts writes the measures of a string at a distance. Of a loose one those
// without room become rows.
func (p *Placed) chainTexts(r run, m *dimension, o float64, c *Chain, loose bool) bool {
	for k, text := range c.Texts {
		s, t := p.o.View.Size(c.Stops[k]), p.o.View.Size(c.Stops[k+1])
		from, to := r.at(r.clamp(s), o), r.at(r.clamp(t), o)
		if long := to.Sub(from).Length(); long < 0.01*p.unit || long < 12*p.unit && !(r.shows(s) && r.shows(t)) {
			continue // seen well enough on the next sheet
		}
		for _, end := range [2]float64{s, t} {
			if r.shows(end) {
				continue
			}
			in := r.clamp(end) // the mark stands off the cut, where it would read as an end
			in += math.Copysign(breakIn*p.unit, in-end)
			if !p.breakMark(r.at(in, o), r.u) {
				return false
			}
		}
		w, ok := p.measure(from, to, Readable(r.u), text)
		if !ok {
			if !loose {
				return false
			}
			of := c.Of
			if of == "" {
				of = m.Of
			}
			mid := middle(from, to)
			p.row(Row{Of: of, Texts: []string{text}, Layer: Dimensions, At: p.o.View.Back(mid)}, mid)
		}
		p.measured(r, c, k, o, w, !ok)
	}
	return true
}

// measured notes a measure in its place, and its key in its text.
func (p *Placed) measured(r run, c *Chain, k int, o float64, mid Vec, row bool) {
	key := 0
	if k < len(c.Keys) {
		key = c.Keys[k]
		if !row {
			p.words[len(p.words)-1].Key = key
		}
	}
	s, t := p.o.View.Size(c.Stops[k]), p.o.View.Size(c.Stops[k+1])
	p.Measures = append(p.Measures, Measured{c.Texts[k], key, r.at(s, 0), r.at(t, 0), r.at(s, o), mid, row})
}

// clearString tells whether a string from a to b crosses nothing but the extension
// lines of its own stops. Its ends stand on extension lines or on the neighboring
// sides.
func (p *Placed) clearString(r run, o float64, a, b Vec, c *Chain) bool {
	near, end := 0.75*p.unit, 1.1*p.unit
	a, b = a.Toward(r.u, end), b.Toward(r.u, -end)
	if b.Sub(a).Dot(r.u) <= 0 {
		return true // too short to cross anything between its ends
	}
	from := a
	for _, l := range c.Stops[1 : len(c.Stops)-1] {
		q := r.at(p.o.View.Size(l), o)
		if q.Sub(a).Dot(r.u) < 0 || b.Sub(q).Dot(r.u) < 0 {
			continue // off this sheet
		}
		if before := q.Toward(r.u, -near); before.Sub(from).Dot(r.u) > 0 && !p.free(BoxOf(from, before, 0.15*p.unit)) {
			return false
		}
		from = q.Toward(r.u, near)
	}
	return b.Sub(from).Dot(r.u) <= 0 || p.free(BoxOf(from, b, 0.15*p.unit))
}

// tick draws the oblique stroke that ends a measure.
func (p *Placed) tick(at, u Vec) {
	v := u.Add(u.Left()).Times(p.m.Tick * p.unit)
	p.strokes = append(p.strokes, placedStroke{Ink{Layer: Dimensions, Style: TickLine}, at.Sub(v), at.Add(v)})
	p.room.take(BoxOf(at.Sub(v), at.Add(v), p.pens[TickLine].Width*p.unit/2+0.1*p.unit), takenLine)
}

// breakIn is how far inside of what is seen a break mark stands.
const breakIn = 4

// breakMark draws the two strokes that say that a string goes on on another sheet;
// false where they would run into text.
func (p *Placed) breakMark(at, u Vec) bool {
	if !p.room.free(Box{at, u, p.unit, 1.7 * p.unit}, takenText) {
		return false
	}
	v := u.Add(u.Left().Times(3)).Unit().Times(1.6 * p.unit)
	for _, d := range [2]float64{-0.5, 0.5} {
		q := at.Toward(u, d*p.unit)
		p.strokes = append(p.strokes, placedStroke{Ink{Layer: Dimensions, Style: TickLine}, q.Sub(v), q.Add(v)})
		p.room.take(BoxOf(q.Sub(v), q.Add(v), p.pens[TickLine].Width*p.unit/2+0.1*p.unit), takenLine)
	}
	return true
}

// measureWord gives a measure as a word with its middle at a place.
func (p *Placed) measureWord(text string, mid, u Vec) Word {
	w, above, below := p.o.Fonts.Size(text, Body)
	at := mid.Toward(u, -w/2).Toward(u.Left(), (below-above)/2)
	return Word{Ink: Ink{Layer: Dimensions, Style: DimLine}, Text: text, Type: Body, At: at, Along: u, Width: w, Above: above, Below: below}
}

// putWord places a word where it is free.
func (p *Placed) putWord(w Word) bool {
	b := w.Box()
	if !p.free(b) {
		return false
	}
	p.words = append(p.words, w)
	p.room.take(b.Grown(p.m.Clear*p.unit), takenText)
	return true
}

// measure writes a measure on the string between a and b: over it, under it, or
// beside it with a leader where it is too short. It gives where its middle is.
func (p *Placed) measure(a, b, u Vec, text string) (Vec, bool) {
	mid, up := middle(a, b), u.Left()
	w := p.measureWord(text, mid, u)
	half := (w.Above + w.Below) / 2
	beside := 0.75*p.unit + half
	place := func(shift, lift float64) (Vec, bool) {
		at := mid.Toward(u, shift).Toward(up, lift)
		return at, p.putWord(p.measureWord(text, at, u))
	}
	span, ends := b.Sub(a).Length(), 2.6*p.unit
	if w.Width+ends <= span {
		for _, f := range [...]float64{0, 0.15, 0.25, 0.35, 0.45} {
			for _, s := range [2]float64{f, -f} {
				for _, lift := range [2]float64{beside, -beside} {
					if at, ok := place(s*(span-w.Width-ends), lift); ok {
						return at, true
					}
				}
			}
		}
	}
	if span > 40*p.unit {
		return mid, false
	}
	// At the end of a short leader: over the span, clear of what runs on from one of its
	// ends, then beside it.
	past, aside := span/2+w.Width/2+p.unit, max(0, (w.Width-span)/2+1.3*p.unit)
	for _, lift := range [...]float64{3.2, 5.5, 8, 11} {
		for _, shift := range [...]float64{0, aside, -aside, past, -past, past + 3*p.unit, -past - 3*p.unit, past + w.Width/2, -past - w.Width/2, past + w.Width, -past - w.Width} {
			for _, side := range [2]float64{1, -1} {
				h := p.hold()
				at, ok := place(shift, side*(lift*p.unit+half))
				if !ok {
					continue
				}
				from := mid.Toward(up, side*0.9*p.unit)
				to := p.words[len(p.words)-1].Box().Nearest(mid).Sub(from)
				if to.Length() < 0.8*p.unit {
					return at, true
				}
				tip := from.Add(to.Times(1 - 0.7*p.unit/to.Length()))
				if p.room.free(BoxOf(from, tip, 0.1*p.unit), takenAny) {
					p.line(Ink{Layer: Dimensions, Style: ExtLine}, from, tip)
					return at, true
				}
				p.giveBack(h)
			}
		}
	}
	return mid, false
}

// alongSide writes the measures of a chain along the run itself, without a string:
// on its side, else on the other.
func (p *Placed) alongSide(r run, c *Chain) bool {
	h := p.hold()
	u := Readable(r.u)
	for k, text := range c.Texts {
		from, to := r.clamp(p.o.View.Size(c.Stops[k])), r.clamp(p.o.View.Size(c.Stops[k+1]))
		w := p.measureWord(text, Vec{}, u)
		half, spare := (w.Above+w.Below)/2, to-from-w.Width-2*p.unit
		placed := false
		for _, out := range [2]float64{1, -1} {
			for _, gap := range [...]float64{1.3, 3, 5} {
				for _, f := range [...]float64{0, 0.25, -0.25, 0.45, -0.45} {
					at := r.at((from+to)/2+f*spare, out*(gap*p.unit+half))
					if !placed && spare >= 0 && p.putWord(p.measureWord(text, at, u)) {
						placed = true
						p.measured(r, c, k, 0, at, false)
					}
				}
			}
		}
		if !placed {
			p.giveBack(h)
			return false
		}
	}
	return true
}
