package drawing

// Distances of a thinned picture, mm on paper: a third of a pixel's width each
// way matters to nobody.
const (
	leastSpan  = 2.4 // of a measure that is written at all
	offEdge    = 1.9 // of a level number from a slanted edge
	besideLine = 1.6 // of a line's end from a number that fills it
	tiers      = 3
)

// thin places the measures of a dimension each by itself, and leaves out those
// that find no room near by.
func (p *Placed) thin(r run, m *dimension) {
	first := p.m.First
	if m.First > 0 {
		first = float64(m.First)
	}
	for i := range m.chains {
		c := &m.chains[i]
		for k := range c.Texts {
			placed := false
			for t := 0; t < tiers && !placed; t++ {
				placed = p.thinMeasure(r, c, k, (first+float64(i+t)*p.m.Step)*p.unit)
			}
			if !placed {
				p.Thinned[Dimensions]++
			}
		}
	}
}

// thinMeasure places one measure of a chain at a distance.
func (p *Placed) thinMeasure(r run, c *Chain, k int, o float64) bool {
	s, t := p.o.View.Size(c.Stops[k]), p.o.View.Size(c.Stops[k+1])
	if t-s < leastSpan*p.unit || t < r.from || s > r.to {
		return false
	}
	w, above, below := p.o.Fonts.Size(c.Texts[k], Body)
	along := p.written(r.u)
	b := Box{r.at((r.clamp(s)+r.clamp(t))/2, o), along, w / 2, (above + below) / 2}
	out := b.spread(r.out)
	if out+offEdge*p.unit > o {
		b.Mid = b.Mid.Toward(r.out, out+offEdge*p.unit-o)
	}
	if 2*b.spread(r.u) > t-s-besideLine*p.unit {
		b.Mid = b.Mid.Toward(r.out, out+1.3*p.unit)
	}
	if !p.free(b) {
		return false
	}
	from, to := r.at(s, o), r.at(t, o)
	gap := p.m.Gap * p.unit
	lines := [3]placedStroke{
		{Ink{Layer: Dimensions, Style: ExtLine}, r.at(s, gap), from},
		{Ink{Layer: Dimensions, Style: ExtLine}, r.at(t, gap), to},
		{Ink{Layer: Dimensions, Style: DimLine}, from, to},
	}
	for k, l := range lines {
		box := BoxOf(l.a, l.b, 0)
		if !p.room.free(box, takenText) || k < 2 && b.Hits(box.Grown(p.m.Tick*p.unit)) {
			return false
		}
	}
	tick := p.m.Tick * p.unit * 1.5
	for _, q := range [2]Vec{from, to} {
		if !p.room.free(Box{q, r.u, tick, tick}, takenText) {
			return false
		}
	}
	for _, l := range lines {
		p.line(l.Ink, l.a, l.b)
	}
	p.tick(from, r.u)
	p.tick(to, r.u)
	word := p.measureWord(c.Texts[k], b.Mid, along)
	p.words = append(p.words, word)
	p.room.take(b.Grown(p.m.Clear*p.unit), takenText)
	p.measured(r, c, k, o, b.Mid, false)
	return true
}
