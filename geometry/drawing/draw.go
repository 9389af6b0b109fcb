package drawing

import "math"

// Draw renders what is placed: first the drawing in its order, cut to what is
// seen, with the lines that give way broken under text; then dimensions, leaders
// and labels.
func (p *Placed) Draw(c Canvas) {
	p.DrawUnder(c)
	p.DrawPlaced(c)
}

// DrawUnder renders the drawing without its labels and dimensions. Lines that give
// way are broken under text only after that has its places.
func (p *Placed) DrawUnder(c Canvas) {
	for i := range p.d.items {
		it := &p.d.items[i]
		if !p.seen(it) {
			continue
		}
		k := Ink{Layer: it.Layer, Style: it.Style, Quiet: it.Quiet, Shade: it.Shade, Width: p.o.View.Size(it.Width)}
		if k.Width <= p.pens[it.Style].Width*p.unit {
			k.Width = 0
		}
		switch it.kind {
		case stroke, ring:
			p.drawPath(c, k, it)
		case fill:
			p.drawFill(c, k, it)
		case circle, disc:
			p.drawCircle(c, k, it)
		case mark:
			p.symbol(c, k, it)
		case hatch:
			p.drawHatch(c, k, it)
		case patterned:
			p.drawPattern(c, k, it)
		case broken:
			p.drawBreak(c, k, it)
		}
	}
}

// DrawPlaced renders what was given a place alone: dimensions, leaders and labels.
func (p *Placed) DrawPlaced(c Canvas) {
	for i := range p.strokes {
		s := &p.strokes[i]
		p.side = append(p.side[:0], s.a, s.b)
		c.Stroke(s.Ink, p.side, false)
	}
	for i := range p.arrows {
		p.head(c, p.arrows[i].Ink, p.arrows[i].tip, p.arrows[i].u)
	}
	p.drawLabels(c)
}

// drawLabels renders texts with what stands round and under them.
func (p *Placed) drawLabels(c Canvas) {
	if p.m.Plates {
		for i := range p.words {
			if p.words[i].Layer == Dimensions {
				w := p.words[i].Box()
				w.L += p.m.Clear * p.unit
				corners := w.Corners()
				p.shape(c, Ink{Layer: Dimensions, Style: PlateFill}, corners[:]...)
			}
		}
	}
	for i := range p.labels {
		p.drawFrame(c, &p.labels[i])
	}
	for i := range p.words {
		c.Text(p.words[i])
	}
}

// drawFrame renders the ground and the frame of a label.
func (p *Placed) drawFrame(c Canvas, l *placedLabel) {
	ground, rim := Ink{Layer: l.layer, Style: PlateFill}, Ink{Layer: l.layer, Style: FrameLine}
	if l.dark {
		ground.Style = l.style
	}
	corners := l.box.Corners()
	switch l.frame {
	case NoFrame:
		if p.m.Plates {
			b := l.box
			b.L += p.m.Clear * p.unit
			corners = b.Corners()
			p.shape(c, ground, corners[:]...)
		}
	case InBox:
		p.shape(c, ground, corners[:]...)
		if !l.dark {
			c.Stroke(rim, p.rings[0], true)
		}
	case InCircle:
		c.Circle(ground, l.box.Mid, l.box.L, true)
		c.Circle(rim, l.box.Mid, l.box.L, false)
	case InHexagon:
		var six [6]Vec
		for k := range six {
			s, co := math.Sincos(float64(k) * math.Pi / 3)
			six[k] = l.box.Mid.Add(Vec{X: co * l.box.L, Y: s * l.box.L})
		}
		ground.Layer, rim.Layer = Notes, Notes // it frames a mark, and is none of the things marked
		p.shape(c, ground, six[:]...)
		c.Stroke(rim, p.rings[0], true)
	}
}

// drawCircle renders a circle. A thin one of which a part is off the sheet, or that
// gives way to text, is a chain of short lines.
func (p *Placed) drawCircle(c Canvas, k Ink, it *item) {
	at, r := p.o.View.On(p.d.points[it.first]), p.radius(it)
	gives := !p.m.Plates && !p.pens[it.Style].Hard
	if p.m.Thin || it.kind == disc || !gives && p.o.Clip.Inset(r).Has(at) {
		if p.m.Thin || p.o.Clip.Inset(-r).Has(at) {
			c.Circle(k, at, r, it.kind == disc)
		}
		return
	}
	const parts = 180
	p.pts = p.pts[:0]
	for i := range parts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / parts)
		p.pts = append(p.pts, at.Add(Vec{X: r * cos, Y: r * sin}))
	}
	p.drawParts(c, k, p.pts, true, gives)
}

// radius gives the radius of a circle on the sheet.
func (p *Placed) radius(it *item) float64 {
	r := max(p.o.View.Size(it.radius), float64(it.least)*p.unit)
	if it.most > 0 {
		r = min(r, float64(it.most)*p.unit)
	}
	return r
}

// path gives the points of a stroke on the sheet, moved aside where it is asked
// for. They hold until the next call.
func (p *Placed) path(it *item) []Vec {
	p.pts = p.pts[:0]
	for _, q := range p.d.points[it.first:it.last] {
		p.pts = append(p.pts, p.o.View.On(q))
	}
	if it.Aside != 0 {
		p.moveAside(float64(it.Aside)*p.unit, it.kind == ring)
	}
	return p.pts
}

// moveAside moves the path to its left. At a bend it moves along the bisector, by
// no more than twice as far.
func (p *Placed) moveAside(by float64, closed bool) {
	n := len(p.pts)
	if n < 2 {
		return
	}
	p.side = append(p.side[:0], p.pts...)
	for k, q := range p.side {
		before, after := p.side[(k+n-1)%n], p.side[(k+1)%n]
		var v Vec
		switch {
		case k == 0 && !closed:
			v = Unit(after.Sub(q)).Left()
		case k == n-1 && !closed:
			v = Unit(q.Sub(before)).Left()
		default:
			a, b := Unit(q.Sub(before)).Left(), Unit(after.Sub(q)).Left()
			if v = b; a.Dot(b) > -0.5 {
				v = a.Add(b).Times(1 / (1 + a.Dot(b)))
			}
		}
		p.pts[k] = q.Toward(v, by)
	}
}

// drawPath renders a stroke: cut to what is seen, and broken under text where it
// gives way.
func (p *Placed) drawPath(c Canvas, k Ink, it *item) {
	pts, closed := p.path(it), it.kind == ring
	if len(pts) < 2 {
		return
	}
	whole := p.m.Thin || p.within(pts)
	gives := !p.m.Plates && !p.pens[it.Style].Hard
	if whole && !gives {
		if it.Aside == 0 {
			k.Bow = it.bow
		}
		c.Stroke(k, pts, closed)
	} else {
		p.drawParts(c, k, pts, closed, gives)
	}
	if !it.Ends || closed {
		return
	}
	k.Bow = 0
	half := max(0.8*p.unit, p.o.View.Size(it.Width)/2+0.66*p.unit)
	end := k
	end.Style, end.Width = BarEnd, 0
	n := len(pts)
	a, b := pts[0], pts[n-1]
	u, v := Unit(pts[1].Sub(a)).Left().Times(half), Unit(b.Sub(pts[n-2])).Left().Times(half)
	for _, e := range [2][2]Vec{{a.Sub(u), a.Add(u)}, {b.Sub(v), b.Add(v)}} {
		switch {
		case p.m.Thin:
			p.side = append(p.side[:0], e[0], e[1])
			c.Stroke(end, p.side, false)
		case p.o.Clip.Has(middle(e[0], e[1])):
			p.drawParts(c, end, []Vec{e[0], e[1]}, false, gives)
		}
	}
}

// within tells whether all points are seen.
func (p *Placed) within(pts []Vec) bool {
	for _, q := range pts {
		if !p.o.Clip.Has(q) {
			return false
		}
	}
	return true
}

// drawParts renders the parts of a chain that are seen and free of text.
func (p *Placed) drawParts(c Canvas, k Ink, pts []Vec, closed, gives bool) {
	n := len(pts)
	if closed {
		n++
	}
	clip := p.o.Clip.Box()
	open := p.side[:0]
	shut := func() {
		if len(open) > 1 {
			c.Stroke(k, open, false)
		}
		open = open[:0]
	}
	for i := 1; i < n; i++ {
		a, b := pts[i-1], pts[i%len(pts)]
		from, to, ok := clip.Cuts(a, b)
		p.gaps = p.gaps[:0]
		if ok {
			p.gaps = append(p.gaps, [2]float64{from, to})
			if gives {
				p.cutGaps(a, b, p.pens[k.Style].Width*p.unit/2)
			}
		}
		if len(p.gaps) == 0 {
			shut()
		}
		v := b.Sub(a)
		for _, s := range p.gaps {
			if len(open) == 0 || s[0] > 0 {
				shut()
				open = append(open, a.Add(v.Times(s[0])))
			}
			open = append(open, a.Add(v.Times(s[1])))
			if s[1] < 1 {
				shut()
			}
		}
	}
	shut()
	p.side = open
}

// cutGaps takes off the stretches in p.gaps of a-b what text stands on.
func (p *Placed) cutGaps(a, b Vec, half float64) {
	p.room.each(BoxOf(a, b, half), takenText, func(t *Box) bool {
		from, to, ok := t.Grown(half).Cuts(a, b)
		if !ok {
			return true
		}
		n := len(p.gaps)
		for i := range n {
			g := p.gaps[i]
			left, right := [2]float64{g[0], min(g[1], from)}, [2]float64{max(g[0], to), g[1]}
			p.gaps[i] = left
			if right[1]-right[0] > 1e-9 && (left[1]-left[0] > 1e-9) {
				p.gaps = append(p.gaps, right)
			} else if right[1]-right[0] > 1e-9 {
				p.gaps[i] = right
			}
		}
		keep := p.gaps[:0]
		for _, g := range p.gaps {
			if g[1]-g[0] > 1e-9 {
				keep = append(keep, g)
			}
		}
		p.gaps = keep
		return true
	})
	for i := 1; i < len(p.gaps); i++ { // in order along a-b
		for k := i; k > 0 && p.gaps[k][0] < p.gaps[k-1][0]; k-- {
			p.gaps[k], p.gaps[k-1] = p.gaps[k-1], p.gaps[k]
		}
	}
}

// drawFill renders an area, cut to what is seen: parts that fall apart hang
// together along the rim, which a fill does not show.
func (p *Placed) drawFill(c Canvas, k Ink, it *item) {
	at := it.first
	n := 0
	for _, end := range p.d.ends[it.ring0:it.ring1] {
		if len(p.rings) <= n {
			p.rings = append(p.rings, nil)
		}
		r := p.rings[n][:0]
		for _, q := range p.d.points[at:end] {
			r = append(r, p.o.View.On(q))
		}
		if !p.m.Thin && !p.within(r) {
			window := p.o.Clip.Box().Corners()
			r = append(r[:0], p.clip.Within(r, window[:], 0)...)
		}
		p.rings[n] = r
		n, at = n+1, end
	}
	c.Fill(k, p.rings[:n])
}

// breakPath gives the line that marks a break from a to b, past both.
func (p *Placed) breakPath(a, b Vec) [6]Vec {
	u := Unit(b.Sub(a))
	n, mm, mid := u.Left(), p.unit, middle(a, b)
	at := func(along, aside float64) Vec { return mid.Toward(u, along*mm).Toward(n, aside*mm) }
	return [6]Vec{a.Toward(u, -1.5*mm), at(-1.2, 0), at(-0.4, 1.2), at(0.4, -1.2), at(1.2, 0), b.Toward(u, 1.5*mm)}
}

// drawBreak renders a break line.
func (p *Placed) drawBreak(c Canvas, k Ink, it *item) {
	pts := p.path(it)
	line := p.breakPath(pts[0], pts[1])
	c.Stroke(k, line[:], false)
}

// drawHatch renders hatching along the left of a path.
func (p *Placed) drawHatch(c Canvas, k Ink, it *item) {
	path := append([]Vec(nil), p.path(it)...)
	step, deep := 2.3*p.unit, float64(it.Deep)*p.unit
	for i := 1; i < len(path); i++ {
		a, v := path[i-1], path[i].Sub(path[i-1])
		u, l := Unit(v), v.Length()
		if l > 1e5*p.unit {
			continue
		}
		for s := step / 2; s < l-math.Abs(deep)*0.8; s += step {
			from := a.Toward(u, s)
			to := from.Toward(u, math.Abs(deep)*0.8).Toward(u.Left(), deep)
			if !p.m.Thin && !(p.o.Clip.Has(from) && p.o.Clip.Has(to)) {
				continue
			}
			p.gaps = append(p.gaps[:0], [2]float64{0, 1})
			if !p.m.Plates {
				p.cutGaps(from, to, p.pens[k.Style].Width*p.unit/2)
			}
			for _, g := range p.gaps {
				p.pts = append(p.pts[:0], from.Add(to.Sub(from).Times(g[0])), from.Add(to.Sub(from).Times(g[1])))
				c.Stroke(k, p.pts, false)
			}
		}
	}
}
