package solid

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// feature is one thickening before overlaps are settled: a span of an edge, a
// run-out, a pad, one side of one leg of a strip.
type feature struct {
	part      Part    // what it is; the volume is left open
	naive     float64 // m³ beyond the field, by length times section
	fill      float64 // m³ beyond the field that a miter adds
	clipped   float64 // m³ beyond the field on the slab, fill included
	surviving float64 // m³ beyond the field where no other is deeper
}

// builder turns a plan into features and their pieces.
type builder struct {
	plan     plan.Plan
	sweep    sweeper
	field    float64
	mem      arena
	cut      scratch
	features []feature
	pieces   []piece
}

// add cuts a band to the slab and books it as a feature, or as a further part
// of the last one.
func (b *builder) add(bd *band, part Part, further bool) {
	if !further {
		b.features = append(b.features, feature{part: part})
	}
	n := len(b.features) - 1
	f := &b.features[n]
	f.naive += (bd.to - bd.from) * bd.excess(b.field)
	for _, t := range b.sweep.within(bd) {
		i := 1
		for i < len(bd.stations)-1 && (t.v0+t.v1)/2 > bd.stations[i].v {
			i++
		}
		depth := bd.planeOf(slope(bd.stations[i-1], bd.stations[i]))
		quad := [4]plane.Vec{bd.toPlan(t.l0, t.v0), bd.toPlan(t.r0, t.v0), bd.toPlan(t.r1, t.v1), bd.toPlan(t.l1, t.v1)}
		b.piece(quad[:], depth, n, bd)
	}
}

// piece books one convex part of feature n, cut by the band's ramp if it has one.
func (b *builder) piece(poly []plane.Vec, depth plane.Linear, n int, bd *band) {
	if bd.ramp != nil {
		ramp := bd.planeOf(*bd.ramp)
		b.cut.a = plane.Clip(b.cut.a[:0], poly, ramp.Minus(depth))
		b.book(b.cut.a, depth, n, bd)
		b.cut.b = plane.Clip(b.cut.b[:0], poly, depth.Minus(ramp))
		b.book(b.cut.b, ramp, n, bd)
		return
	}
	b.book(poly, depth, n, bd)
}

func (b *builder) book(poly []plane.Vec, depth plane.Linear, n int, bd *band) {
	if plane.Area(poly) <= sliver {
		return
	}
	f := &b.features[n]
	extra := depth.Plus(-b.field)
	f.clipped += plane.Integral(poly, extra)
	if bd.k0 != 0 {
		b.cut.c = plane.Clip(b.cut.c[:0], poly, bd.planeOf(plane.Linear{C: bd.from, G: plane.Vec{X: -1}}))
		f.fill += plane.Integral(b.cut.c, extra)
	}
	if bd.k1 != 0 {
		b.cut.c = plane.Clip(b.cut.c[:0], poly, bd.planeOf(plane.Linear{C: -bd.to, G: plane.Vec{X: 1}}))
		f.fill += plane.Integral(b.cut.c, extra)
	}
	b.pieces = append(b.pieces, piece{b.mem.keep(poly), depth, int32(n)})
}

// slope gives the plane, in band coordinates, through two stations.
func slope(s, t station) plane.Linear {
	if t.v <= s.v {
		return plane.Linear{C: s.depth}
	}
	m := (t.depth - s.depth) / (t.v - s.v)
	return plane.Linear{C: s.depth - m*s.v, G: plane.Vec{Y: m}}
}

// excess gives the area of the section beyond the field.
func (b *band) excess(field float64) float64 {
	sum := 0.0
	for i := 1; i < len(b.stations); i++ {
		s, t := b.stations[i-1], b.stations[i]
		sum += (t.v - s.v) * ((s.depth+t.depth)/2 - field)
	}
	return sum
}

func stationsOf(ps []plan.Station) []station {
	out := make([]station, len(ps))
	for i, p := range ps {
		out[i] = station{p.Inset.Meters(), p.Depth.Meters()}
	}
	return out
}

// span is a stretch of an edge with what it carries.
type span struct {
	from, to float64
	stations []station // nil for no haunch
	deepest  float64
	door     int
}

// edges books the haunch of every span of every edge.
func (b *builder) edges() {
	known := map[sectionKey][]station{}
	first := 0 // number of the loop's first side
	for li, loop := range b.plan.Loops() {
		all := make([]span, 0, len(loop)+8)
		ends := make([]int, len(loop))
		for i := range loop {
			all = b.spans(all, loop, i, known)
			ends[i] = len(all)
		}
		sides := b.sweep.region.sides[first : first+len(loop)]
		start := 0
		for i, e := range loop {
			before, after := (i+len(loop)-1)%len(loop), (i+1)%len(loop)
			prev, next := all[(start+len(all)-1)%len(all)], all[ends[i]%len(all)]
			b.edge(li, loop.Drawn(i), e, all[start:ends[i]], [3][2]plane.Vec{sides[before], sides[i], sides[after]},
				prev.stations != nil, next.stations != nil)
			if e.RunOut > 0 && loop.StraightOn(i) {
				b.straightOn(li, loop.Drawn(i), e.RunOut, prev, all[start], sides[before], sides[i])
			}
			start = ends[i]
		}
		first += len(loop)
	}
}

// sectionKey names a section as it is dug.
type sectionKey struct {
	name  string
	joint bool
}

// spans appends the spans of edge i. known holds the sections met so far.
func (b *builder) spans(dst []span, loop plan.Loop, i int, known map[sectionKey][]station) []span {
	e := loop[i]
	if len(e.Doors) == 0 {
		return append(dst, b.span(e, plan.Span{To: loop.Length(i), Section: e.Section, Door: -1}, known))
	}
	for _, s := range loop.Spans(i) {
		dst = append(dst, b.span(e, s, known))
	}
	return dst
}

func (b *builder) span(e plan.Edge, s plan.Span, known map[sectionKey][]station) span {
	out := span{from: s.From.Meters(), to: s.To.Meters(), door: s.Door}
	key := sectionKey{s.Section, e.Joint}
	st, ok := known[key]
	if !ok {
		if sec, found := b.plan.SectionOn(e, s.Section); found && sec.Deepest() > b.plan.Field && sec.Reach() > 0 {
			st = stationsOf(sec.Stations(b.plan.Field))
		}
		known[key] = st
	}
	out.stations = st
	for _, s := range st {
		out.deepest = max(out.deepest, s.depth)
	}
	return out
}

// edge books the spans of one edge and the run-outs between them. sides are the
// side before, its own and the one after.
func (b *builder) edge(loop, number int, e plan.Edge, spans []span, sides [3][2]plane.Vec, before, after bool) {
	o, u := sides[1][0], sides[1][1].Sub(sides[1][0])
	length := u.Length()
	u = u.Times(1 / length)
	for k, s := range spans {
		if k == len(spans)-1 {
			s.to = length // the span's end was rounded to a nanometer
		}
		if s.stations == nil || s.to <= s.from {
			continue
		}
		bd := band{o: o, u: u, from: s.from, to: s.to, stations: s.stations, attached: true, onSide: true}
		if k == 0 && before {
			bd.k0 = miter(u, u.Left(), sides[0][0].Sub(sides[0][1]))
		}
		if k == len(spans)-1 && after {
			bd.k1 = miter(u.Times(-1), u.Left(), sides[2][1].Sub(sides[2][0]))
		}
		b.add(&bd, Part{Kind: Haunch, Loop: loop, Edge: number, Arc: e.Chord.N > 1, Span: k, Length: s.to - s.from, Section: bd.excess(b.field)}, false)
	}
	for k := 1; k < len(spans); k++ {
		over := 0.0
		for _, s := range spans[k-1 : k+1] {
			if s.door >= 0 {
				over = max(over, e.Doors[s.door].RunOut.Meters())
			}
		}
		part, at := Part{Kind: RunOut, Loop: loop, Edge: number, Span: k}, spans[k].from
		b.runOut(part, o, u, at, 1, over, spans[k-1], spans[k])
		b.runOut(part, o, u, at, -1, over, spans[k], spans[k-1])
	}
}

// straightOn books the run-out at the start of an edge that goes straight on
// from the one before, as where only part of a side is a joint.
func (b *builder) straightOn(loop, number int, over geometry.Length, prev, own span, before, side [2]plane.Vec) {
	u, w := side[1].Sub(side[0]), before[1].Sub(before[0])
	length := w.Length()
	u, w = u.Times(1/u.Length()), w.Times(1/length)
	part := Part{Kind: RunOut, Loop: loop, Edge: number}
	b.runOut(part, side[0], u, 0, 1, over.Meters(), prev, own)
	b.runOut(part, before[0], w, length, -1, over.Meters(), own, prev)
}

// miter gives how far, per unit inward, a band runs on beyond its end to the
// bisector of the corner there. From the corner, u leads along the band's base,
// n inward and w along the other edge. It is 0 at an outside corner.
//
// With the interior angle a between u and w, w/|w| = (cos a, sin a) in u and n,
// and the bisector leaves at a/2: it gains -cot(a/2) per unit inward. That is
// both (1 + cos a) / -sin a and -sin a / (1 - cos a); the one that does not
// cancel is taken, since collinear corners are common.
func miter(u, n, w plane.Vec) float64 {
	w = w.Times(1 / w.Length())
	cos, sin := u.Dot(w), n.Dot(w)
	switch {
	case sin >= 0:
		return 0
	case cos < 0:
		return -sin / (1 - cos)
	}
	return (1 + cos) / -sin
}

// runOut books the ramp of a deep span into a shallow one that begins at at and
// goes on in direction dir along u: the deep section goes on over the length over,
// no deeper than a bottom that rises in a straight line to the shallow section's.
// Where deep is not the deeper it does nothing.
func (b *builder) runOut(part Part, o, u plane.Vec, at, dir, over float64, deep, shallow span) {
	low := max(shallow.deepest, b.field)
	if over == 0 || deep.deepest-low <= level {
		return
	}
	grade := (deep.deepest - low) / over // rise per length
	run := min(over, shallow.to-shallow.from)
	bd := band{o: o, u: u, from: at, to: at + run, stations: deep.stations, attached: true, onSide: true}
	if dir < 0 {
		bd.from, bd.to = at-run, at
	}
	bd.ramp = &plane.Linear{C: deep.deepest + dir*grade*at, G: plane.Vec{X: -dir * grade}}
	before := len(b.features)
	b.add(&bd, part, false)
	f := &b.features[before]
	f.naive = f.clipped // a ramp has no simple length times section
}

// pads books every pad: its bottom, and four sides that meet in the hips.
func (b *builder) pads() {
	for i, p := range b.plan.Pads {
		sin, cos := math.Sincos(p.Turn * math.Pi / 180)
		ux := plane.Vec{X: cos, Y: sin}
		c := b.sweep.In(p.Center)
		w, l, t, d := p.Width.Meters(), p.Length.Meters(), p.Taper.Meters(), p.Depth.Meters()
		if d-b.field <= level {
			continue
		}
		part := Part{Kind: PadPart, Loop: -1, Edge: -1, Span: i}
		corner := c.Sub(ux.Times(w / 2)).Sub(ux.Left().Times(l / 2))
		bottom := band{o: corner, u: ux, to: w, stations: []station{{0, d}, {l, d}}}
		b.add(&bottom, part, false)
		if t == 0 {
			continue
		}
		sides := []station{{0, d}, {t, b.field}}
		// Each side is a band that looks outward: its base is an edge of the
		// bottom, run clockwise, and its ends lean out at 45 degrees.
		at, u, run := corner, ux.Left(), l
		for range 4 {
			side := band{o: at, u: u, to: run, k0: 1, k1: 1, stations: sides}
			b.add(&side, part, true)
			at = at.Add(u.Times(run))
			u = u.Left().Times(-1)
			run = w + l - run
		}
		f := &b.features[len(b.features)-1]
		f.fill = 0
		// The prismatoid formula: h/6 (A0 + 4 Am + A1).
		h := d - b.field
		f.naive = h / 6 * (w*l + 4*(w+t)*(l+t) + (w+2*t)*(l+2*t))
	}
}

// strips books both halves of every leg of every strip.
func (b *builder) strips() {
	for i, s := range b.plan.Strips {
		d, half, t := s.Depth.Meters(), s.Bottom.Meters()/2, s.Taper.Meters()
		if d-b.field <= level {
			continue
		}
		st := []station{{0, d}, {half, d}, {half + t, b.field}}
		path := make([]plane.Vec, len(s.Path))
		for k, p := range s.Path {
			path[k] = b.sweep.In(p)
		}
		for k := 1; k < len(path); k++ {
			leg := path[k].Sub(path[k-1])
			for _, fromEnd := range [2]bool{false, true} {
				bd := band{o: path[k-1], u: leg.Times(1 / leg.Length()), to: leg.Length(), stations: st, attached: true}
				prev, next := k-2, k+1
				if fromEnd {
					bd.o, bd.u, prev, next = path[k], bd.u.Times(-1), k+1, k-2
				}
				if prev >= 0 && prev < len(path) {
					bd.k0 = miter(bd.u, bd.u.Left(), path[prev].Sub(bd.o))
				}
				if next >= 0 && next < len(path) {
					bd.k1 = miter(bd.u.Times(-1), bd.u.Left(), path[next].Sub(bd.toPlan(bd.to, 0)))
				}
				b.add(&bd, Part{Kind: StripPart, Loop: -1, Edge: -1, Span: i, Length: bd.to, Section: bd.excess(b.field)}, false)
			}
		}
	}
}
