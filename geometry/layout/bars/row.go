package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// row is one continuous bar of the edges, with what follows from its covers.
type row struct {
	Row
	number int // from 1
	size   Size
	db     geometry.Length
	inset  geometry.Length // of its center from the face
	lap    geometry.Length
}

func (t *steel) row(i int) row {
	r := row{Row: t.spec.Rows[i], number: i + 1, size: t.spec.Size}
	if r.Size != 0 {
		r.size = r.Size
	}
	r.db = r.size.Diameter()
	r.inset = r.Face + r.db/2
	return r
}

// under gives the least depth of the underside of a span across a row's width.
func (t *steel) under(r row, e plan.Edge, sp plan.Span) geometry.Length {
	st := t.Stations(e, sp.Section)
	under := geometry.Length(math.MaxInt64)
	for _, at := range [...]geometry.Length{r.inset - r.db/2, r.inset, r.inset + r.db/2} {
		under = min(under, slab.DepthAt(st, at, t.Plan.Field))
	}
	return under
}

// depth gives how deep the center of the row lies under a span.
func (t *steel) depth(r row, e plan.Edge, sp plan.Span) geometry.Length {
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
	side         slab.Side
	from, to     geometry.Length // of the bar, by running distance
	spans        []plan.Span     // of the edge, those with a section
	start, end   bool            // joined to the reach before or after round a corner
	jogged       bool            // joined at its start past a jog
	radius       geometry.Length // of the row along an arc that the edge is a chord of; 0 of a straight edge
	depthAtStart geometry.Length // at a joined corner
	depthAtEnd   geometry.Length
}

// reaches gives where a row lies on the edges of a loop, in order, joined round
// the corners where both sides carry it.
func (t *steel) reaches(loop int, r row) []reach {
	out := make([]reach, 0, len(t.Sides[loop])*3/2)
	for _, s := range t.Sides[loop] {
		if !t.Loops[loop].Jog(s.Edge) {
			n := len(out)
			out = append(out, t.live(s)...)
			for i := range out[n:] {
				out[n+i].radius = t.radius(s, r)
			}
		}
	}
	for range 4 { // a reach that finds no room frees its neighbors
		t.join(out, r)
		kept := out[:0]
		for _, c := range out {
			if c.to-c.from >= 4*r.db || c.radius >= bendRadius(r.size) && c.to > c.from {
				kept = append(kept, c)
				continue
			}
			t.Find(ruleRoom, rule.Note, c.side.At(c.side.Length/2, 0),
				"Row %d on %s: it finds no room; the bars beside it end before its corners, neither bent nor lapped there. Lay a bar past them, a lap long on either side.", r.number, t.SideName(c.side))
		}
		done := len(kept) == len(out)
		out = kept
		if done {
			break
		}
	}
	t.checkCrossing(out, r)
	t.checkSharp(out)
	return t.clear(out, r)
}

// next gives the side that a row goes on to, past a jog where one comes first.
func (t *steel) next(s slab.Side) (n slab.Side, jogged bool) {
	n = t.After(s)
	if t.Loops[n.Loop].Jog(n.Edge) {
		return t.After(n), true
	}
	return n, false
}

// offsetSlope is how many times its offset a bar takes to pass a jog: the steepest slope of
// offset bars of columns, ACI 318-19 10.7.4.1, from memory.
const offsetSlope = 6

// passes tells whether a row has its cover where it passes a jog: on the wider side it
// lies as much further in as the jog is long.
func (t *steel) passes(c, n *reach, r row) bool {
	_, offset := c.side.Project(n.side.A)
	if t.wide > 0 { // on the wider side it lies further in by as much
		return r.inset+offset.Abs() <= t.wide-r.Face-r.db/2
	}
	before, after := c.spans[len(c.spans)-1], n.spans[0]
	wide, span := c.side, before
	if offset < 0 {
		wide, span = n.side, after
	}
	depth := min(t.depth(r, t.Edge(c.side), before), t.depth(r, t.Edge(n.side), after))
	under := t.Stations(t.Edge(wide), span.Section)
	asks := min(CoverEarth, slopeDistance(under, r.inset, depth)-r.db/2) // what it has beside the jog
	return slopeDistance(under, r.inset+offset.Abs(), depth)-r.db/2 >= asks-geometry.Micrometer
}

// pastJog moves the ends of two reaches, which meet past a jog, to where a bar leaves the
// one line and is on the other: on the wider side of the jog, clear of its corner.
func pastJog(c, n *reach, r row) {
	_, offset := c.side.Project(n.side.A)
	run := offsetSlope * offset.Abs()
	if offset > 0 {
		c.to -= r.Face + run
		n.from -= r.Face
	} else {
		c.to += r.Face
		n.from += r.Face + run
	}
}

// checkSharp reports the corners that are too sharp to bend a bar round: the rows end
// on either side of them.
func (t *steel) checkSharp(rs []reach) {
	for i := range rs {
		c, n := &rs[i], &rs[(i+1)%len(rs)]
		angle := slab.Interior(c.side, t.After(c.side))
		if _, jogged := t.next(c.side); jogged || t.spec.Corner == Crossed || math.Abs(math.Pi-angle) <= sharpest || c.spans[len(c.spans)-1].To != c.side.Length ||
			n.side.Edge != t.After(c.side).Edge || n.spans[0].From != 0 {
			continue
		}
		t.Find(ruleSharp, rule.Note, c.side.B,
			"No corner bar is laid at this corner of %g degrees: none is bent by more than %g, and the rows end beside it. Cut the corner off, so that two blunter ones take its place, or have the rows cross and run on into the slab there.",
			degrees(angle), degrees(sharpest))
	}
}

// degrees gives an angle as it is read, to a tenth.
func degrees(angle float64) float64 { return math.Round(angle*1800/math.Pi) / 10 }

// live gives the stretches of an edge that have a section.
func (t *steel) live(s slab.Side) []reach {
	e := t.Edge(s)
	if e.Joint && t.spec.Joint == StopAtJoint {
		return nil
	}
	var out []reach
	spans := t.Spans(s)
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
func (t *steel) join(rs []reach, r row) {
	for i := range rs {
		c := &rs[i]
		c.from, c.to = c.spans[0].From, c.spans[len(c.spans)-1].To
		c.start, c.end, c.jogged = false, false, false
	}
	for i := range rs {
		c := &rs[i]
		n := &rs[(i+1)%len(rs)]
		next, jogged := t.next(c.side)
		angle := slab.Interior(c.side, next)
		atCorner := c.spans[len(c.spans)-1].To == c.side.Length
		meets := atCorner && n.side.Edge == next.Edge && n.spans[0].From == 0
		turn := math.Abs(math.Pi - angle)
		if meets && jogged && !t.passes(c, n, r) {
			t.Find(ruleRoom, rule.Note, c.side.At(c.side.Length, 0),
				"Row %d on %s: it ends at the jog there, past which it would leave the haunch. Lay a bent bar past the corner, a lap long on either side.", r.number, t.SideName(c.side))
			continue
		}
		if meets && turn <= sharpest && (t.spec.Corner != Crossed || turn < cornerTurn) {
			c.end, n.start, n.jogged = true, true, jogged
			if jogged {
				pastJog(c, n, r)
			} else {
				back := miter(angle, r.inset)
				c.to -= back
				n.from += back
			}
			d := min(t.depth(r, t.Edge(c.side), c.spans[len(c.spans)-1]), t.depth(r, t.Edge(n.side), n.spans[0]))
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
func (t *steel) endCover(r row, c *reach, atEnd bool) geometry.Length {
	angle, corner := slab.Interior(t.Before(c.side), c.side), c.from == 0
	if atEnd {
		angle, corner = slab.Interior(c.side, t.After(c.side)), c.to == c.side.Length
	}
	switch {
	case !corner || slab.Straight(angle):
		return CoverEarth
	case slab.Outside(angle):
		clear := min(r.Face, CoverEarth)
		off := max(0, geometry.Rounded((float64(clear)+float64(r.inset)*math.Cos(angle))/math.Sin(angle)))
		if t.bare(r, c, atEnd, angle) {
			return max(off, CoverEarth)
		}
		return off
	case t.spec.Corner == Crossed:
		if past := t.pastCorner(r, c, atEnd); past > 0 {
			return -past
		}
	}
	return CoverEarth
}

// bare tells whether a haunch ends, square, before the face round its corner, as beside
// an edge without one at a blunt corner: ground lies between.
func (t *steel) bare(r row, c *reach, atEnd bool, angle float64) bool {
	other, last := t.Before(c.side), true
	if atEnd {
		other, last = t.After(c.side), false
	}
	spans := t.Spans(other)
	sp := spans[0]
	if last {
		sp = spans[len(spans)-1]
	}
	return sp.Section == "" && -float64(r.inset)*math.Cos(angle) > float64(inch/8)*math.Sin(angle)
}

// pastCorner gives how far a crossed bar runs on past an inside corner: by a lap,
// as far as the haunch round the corner covers its end: below it, ahead of it, and
// between.
func (t *steel) pastCorner(r row, c *reach, atEnd bool) geometry.Length {
	other, sp := t.Before(c.side), c.spans[0]
	angle := slab.Interior(other, c.side)
	if atEnd {
		other, sp = t.After(c.side), c.spans[len(c.spans)-1]
		angle = slab.Interior(c.side, other)
	}
	lowest := t.depth(r, t.Edge(c.side), sp) + r.db/2
	round := t.Spans(other)
	slope := t.Stations(t.Edge(other), round[len(round)-1].Section)
	if atEnd {
		slope = t.Stations(t.Edge(other), round[0].Section)
	}
	sin, cos := math.Sincos(angle - math.Pi)
	reached := geometry.Length(0)
	// under gives how deep the slab is under a place beyond the miter, as seen along the
	// edge round the corner.
	under := func(past geometry.Length) geometry.Length {
		inset := geometry.Rounded(float64(past)*sin + float64(r.inset)*cos)
		along := max(0, geometry.Rounded(float64(past)*cos-float64(r.inset)*sin))
		if !atEnd {
			along = other.Length - along
		}
		return t.DepthUnder(other, along, inset)
	}
	for past := miter(math.Pi-(angle-math.Pi), r.inset); ; past = min(past+inch, r.lap) {
		if past > r.lap {
			return reached
		}
		if inset := geometry.Rounded(float64(past)*sin + float64(r.inset)*cos); slopeDistance(slope, inset, lowest-r.db/2)-r.db/2 < CoverEarth-geometry.Micrometer {
			return reached // beside the slope, which the bar nears slant
		}
		for ahead := geometry.Length(0); ahead <= CoverEarth; ahead += inch / 2 {
			below := math.Sqrt(max(0, float64(CoverEarth)*float64(CoverEarth)-float64(ahead)*float64(ahead)))
			if under(past+ahead) < lowest+geometry.Rounded(below) {
				return reached
			}
		}
		if reached = past; past == r.lap {
			return reached
		}
	}
}

// checkCrossing reports crossed bars that run on past an inside corner by less than
// a lap.
func (t *steel) checkCrossing(rs []reach, r row) {
	if t.spec.Corner != Crossed {
		return
	}
	for i := range rs {
		c := &rs[i]
		for _, atEnd := range [...]bool{false, true} {
			at, angle, corner := c.side.A, slab.Interior(t.Before(c.side), c.side), c.spans[0].From == 0
			if atEnd {
				at, angle, corner = c.side.B, slab.Interior(c.side, t.After(c.side)), c.spans[len(c.spans)-1].To == c.side.Length
			}
			near := t.Before(c.side)
			if atEnd {
				near = t.After(c.side)
			}
			if !corner || angle-math.Pi < cornerTurn || t.Loops[near.Loop].Jog(near.Edge) {
				continue
			}
			if past := t.pastCorner(r, c, atEnd); past < r.lap {
				t.Find(ruleCrossing, rule.Note, at, "Row %d on %s: it runs on %s past the inside corner, where the haunch ends; a lap of %s is asked: add a bent bar there.",
					r.number, t.SideName(c.side), t.Text(past), t.Text(r.lap))
			}
		}
	}
}

// clear cuts the reaches where they would leave the slab, as where a notch or a
// hole lies close behind the face.
func (t *steel) clear(rs []reach, r row) []reach {
	out := make([]reach, 0, len(rs))
	for _, c := range rs {
		a, b := c.side.At(c.from, r.inset), c.side.At(c.to, r.inset)
		in := t.Within(a, b)
		length := c.to - c.from
		if len(in) == 1 && in[0].From <= 2 && in[0].To >= length-2 {
			out = append(out, c)
			continue
		}
		if t.spec.Corner != Crossed {
			t.Find(ruleRoom, rule.Note, c.side.At(c.side.Length/2, 0),
				"Row %d on %s: it would leave the slab, and is cut there.", r.number, t.SideName(c.side))
		}
		for _, s := range in {
			k := c
			if s.From > 2 {
				k.start, k.from = false, c.from+s.From+r.Face
			}
			if s.To < length-2 {
				k.end, k.to = false, c.from+s.To-r.Face
			}
			if k.to-k.from >= 4*r.db || k.radius > 0 && k.to > k.from {
				out = append(out, k)
			}
		}
	}
	// A neighbor that was cut joins no more.
	for i := range out {
		n := &out[(i+1)%len(out)]
		if next, _ := t.next(out[i].side); out[i].end && !(n.start && n.side.Edge == next.Edge) {
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
