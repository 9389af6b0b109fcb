package layout

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// dug is what the underside of a section depends on.
type dug struct {
	section string
	joint   bool // no form board is set there
}

// stations gives the underside of a named section on an edge, from the face
// inward, as it is dug.
func (t *site) stations(e plan.Edge, name string) []plan.Station {
	key := dug{name, e.Joint}
	st, ok := t.dug[key]
	if !ok {
		if s, ok := t.plan.SectionOn(e, name); ok {
			st = s.Stations(t.plan.Field)
		}
		t.dug[key] = st
	}
	return st
}

// depthAt gives the depth of an underside at an inset, the lesser one at a step.
func depthAt(st []plan.Station, inset, field geometry.Length) geometry.Length {
	depth := field
	for i := 1; i < len(st); i++ {
		a, b := st[i-1], st[i]
		if inset < a.Inset || inset > b.Inset {
			continue
		}
		d := min(a.Depth, b.Depth)
		if b.Inset > a.Inset {
			d = a.Depth + round(float64(b.Depth-a.Depth)*float64(inset-a.Inset)/float64(b.Inset-a.Inset))
		}
		return d
	}
	return depth
}

// row is one continuous bar of the edges, with what follows from its covers.
type row struct {
	Row
	number int // from 1
	size   int
	db     geometry.Length
	inset  geometry.Length // of its center from the face
	lap    geometry.Length
}

func (t *site) row(i int) row {
	r := row{Row: t.spec.Bars.Rows[i], number: i + 1, size: t.spec.Bars.Size}
	if r.Size != 0 {
		r.size = r.Size
	}
	r.db = diameter(r.size)
	r.inset = r.Face + r.db/2
	return r
}

// under gives the least depth of the underside of a span across a row's width.
func (t *site) under(r row, e plan.Edge, sp plan.Span) geometry.Length {
	st := t.stations(e, sp.Section)
	under := geometry.Length(math.MaxInt64)
	for _, at := range [...]geometry.Length{r.inset - r.db/2, r.inset, r.inset + r.db/2} {
		under = min(under, depthAt(st, at, t.plan.Field))
	}
	return under
}

// depth gives how deep the center of the row lies under a span.
func (t *site) depth(r row, e plan.Edge, sp plan.Span) geometry.Length {
	var drop geometry.Length
	if sp.Door >= 0 {
		if lip := e.Doors[sp.Door].Lip; lip.Inset > r.inset-r.db/2 {
			drop = lip.Drop
		}
	}
	if r.Top > 0 {
		return drop + r.Top + r.db/2
	}
	return max(t.under(r, e, sp)-r.Bottom-r.db/2, r.db/2)
}

// reach is a stretch of one edge along which a row lies.
type reach struct {
	side         side
	from, to     geometry.Length // of the bar, by running distance
	spans        []plan.Span     // of the edge, those with a section
	start, end   bool            // joined to the reach before or after round a corner
	turnAtEnd    float64
	depthAtStart geometry.Length // at a joined corner
	depthAtEnd   geometry.Length
}

// reaches gives where a row lies on the edges of a loop, in order, joined round
// the corners where both sides carry it.
func (t *site) reaches(loop int, r row) []reach {
	out := make([]reach, 0, len(t.sides[loop])*3/2)
	for _, s := range t.sides[loop] {
		out = append(out, t.live(s)...)
	}
	for range 4 { // a reach that finds no room frees its neighbors
		t.join(out, r)
		kept := out[:0]
		for _, c := range out {
			if c.to-c.from >= 4*r.db {
				kept = append(kept, c)
				continue
			}
			t.find(ruleRoom, false, c.side.at(c.side.length/2, 0),
				"Row %d finds no room on %s (%s long): the bars beside it end before it.", r.number, c.side.name(), t.text(c.side.length))
		}
		done := len(kept) == len(out)
		out = kept
		if done {
			break
		}
	}
	t.checkCrossing(out, r)
	return t.clear(out, r)
}

// live gives the stretches of an edge that have a section.
func (t *site) live(s side) []reach {
	e := t.edge(s)
	if e.Joint && t.spec.Bars.Joint == StopAtJoint {
		return nil
	}
	var out []reach
	spans := t.spans(s)
	for i, sp := range spans {
		if sp.Section == "" || sp.To <= sp.From {
			continue
		}
		if n := len(out); n > 0 && out[n-1].spans[len(out[n-1].spans)-1].To == sp.From {
			out[n-1].spans = append(out[n-1].spans, sp)
			continue
		}
		out = append(out, reach{side: s, spans: spans[i : i+1 : i+1]})
	}
	return out
}

// join sets the ends of the reaches: on the miter where two meet at a corner,
// else clear of the face or of the end of the haunch.
func (t *site) join(rs []reach, r row) {
	for i := range rs {
		c := &rs[i]
		c.from, c.to = c.spans[0].From, c.spans[len(c.spans)-1].To
		c.start, c.end = false, false
	}
	for i := range rs {
		c := &rs[i]
		n := &rs[(i+1)%len(rs)]
		angle := interior(c.side, t.after(c.side))
		atCorner := c.to == c.side.length
		meets := atCorner && n.side.edge == t.after(c.side).edge && n.spans[0].From == 0
		turn := math.Abs(math.Pi - angle)
		if meets && turn <= sharpest && (t.spec.Bars.Corner != Crossed || turn < cornerTurn) {
			back := geometry.Length(0)
			if !straight(angle) {
				back = round(float64(r.inset) / math.Tan(angle/2))
			}
			c.end, n.start = true, true
			c.turnAtEnd = math.Pi - angle
			c.to -= back
			n.from += back
			d := min(t.depth(r, t.edge(c.side), c.spans[len(c.spans)-1]), t.depth(r, t.edge(n.side), n.spans[0]))
			c.depthAtEnd, n.depthAtStart = d, d
		}
	}
	for i := range rs {
		c := &rs[i]
		if !c.start {
			c.from += t.endCover(r, c, false)
		}
		if !c.end {
			c.to -= t.endCover(r, c, true)
		}
	}
}

// endCover gives how far a bar that turns no corner ends before the end of its
// haunch. Crossed bars run on past an inside corner.
func (t *site) endCover(r row, c *reach, atEnd bool) geometry.Length {
	angle, corner := interior(t.before(c.side), c.side), c.from == 0
	if atEnd {
		angle, corner = interior(c.side, t.after(c.side)), c.to == c.side.length
	}
	switch {
	case !corner || straight(angle):
		return coverEarth
	case outside(angle):
		clear := min(r.Face, coverEarth)
		return max(0, round((float64(clear)+float64(r.inset)*math.Cos(angle))/math.Sin(angle)))
	case t.spec.Bars.Corner == Crossed:
		if past := t.pastCorner(r, c, atEnd); past > 0 {
			return -past
		}
	}
	return coverEarth
}

// pastCorner gives how far a crossed bar runs on past an inside corner: by a lap,
// as far as the haunch round the corner is deep enough to cover it.
func (t *site) pastCorner(r row, c *reach, atEnd bool) geometry.Length {
	other, sp := t.before(c.side), c.spans[0]
	angle := interior(other, c.side)
	if atEnd {
		other, sp = t.after(c.side), c.spans[len(c.spans)-1]
		angle = interior(c.side, other)
	}
	needs := t.depth(r, t.edge(c.side), sp) + r.db/2 + coverEarth
	sin, cos := math.Sincos(angle - math.Pi)
	reached := geometry.Length(0)
	for past := miter(math.Pi-(angle-math.Pi), r.inset); ; past = min(past+inch, r.lap) {
		// The place beyond the miter, as seen along the edge round the corner.
		inset := round(float64(past)*sin + float64(r.inset)*cos)
		along := max(0, round(float64(past)*cos-float64(r.inset)*sin))
		if !atEnd {
			along = other.length - along
		}
		if past > r.lap || t.depthUnder(other, along, inset) < needs {
			return reached
		}
		if reached = past; past == r.lap {
			return reached
		}
	}
}

// checkCrossing reports crossed bars that run on past an inside corner by less than
// a lap.
func (t *site) checkCrossing(rs []reach, r row) {
	if t.spec.Bars.Corner != Crossed {
		return
	}
	for i := range rs {
		c := &rs[i]
		for _, atEnd := range [...]bool{false, true} {
			at, angle, corner := c.side.a, interior(t.before(c.side), c.side), c.spans[0].From == 0
			if atEnd {
				at, angle, corner = c.side.b, interior(c.side, t.after(c.side)), c.spans[len(c.spans)-1].To == c.side.length
			}
			if !corner || angle-math.Pi < cornerTurn {
				continue
			}
			if past := t.pastCorner(r, c, atEnd); past < r.lap {
				t.find(ruleCrossing, false, at, "Row %d along %s runs on %s past the inside corner, where the haunch ends; a lap of %s is asked: add a bent bar there.",
					r.number, c.side.name(), t.text(past), t.text(r.lap))
			}
		}
	}
}

// clear cuts the reaches where they would leave the slab, as where a notch or a
// hole lies close behind the face.
func (t *site) clear(rs []reach, r row) []reach {
	out := make([]reach, 0, len(rs))
	for _, c := range rs {
		a, b := c.side.at(c.from, r.inset), c.side.at(c.to, r.inset)
		in := t.within(a, b)
		length := c.to - c.from
		if len(in) == 1 && in[0].from <= 2 && in[0].to >= length-2 {
			out = append(out, c)
			continue
		}
		if t.spec.Bars.Corner != Crossed {
			t.find(ruleRoom, false, c.side.at(c.side.length/2, 0),
				"Row %d along %s would leave the slab: it is cut there.", r.number, c.side.name())
		}
		for _, s := range in {
			k := c
			if s.from > 2 {
				k.start, k.from = false, c.from+s.from+r.Face
			}
			if s.to < length-2 {
				k.end, k.to = false, c.from+s.to-r.Face
			}
			if k.to-k.from >= 4*r.db {
				out = append(out, k)
			}
		}
	}
	// A neighbor that was cut joins no more.
	for i := range out {
		n := &out[(i+1)%len(out)]
		if out[i].end && !(n.start && n.side.edge == t.after(out[i].side).edge) {
			out[i].end = false
		}
	}
	for i := range out {
		p := out[(i+len(out)-1)%len(out)]
		if out[i].start && !p.end {
			out[i].start = false
		}
	}
	return out
}
