// Package embeds looks at what is set before the pour and stays in the concrete: sleeves,
// pipes that come up, drains, post bases, plates. It moves nothing for them, and says what
// they meet.
package embeds

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

const inch = geometry.Inch

var (
	ruleBars  = rule.Rule{Name: "Bars clear of embeds", Source: "the gap that ACI 318-19 25.2.1 has between bars; common practice", Step: rule.Steel}
	ruleBolts = rule.Rule{Name: "Bolts clear of embeds", Source: "common practice"}
	ruleDowel = rule.Rule{Name: "Dowels clear of embeds", Source: "common practice"}
	ruleSaw   = rule.Rule{Name: "Saw cuts clear of embeds", Source: "common practice", Step: rule.Pour}
	ruleCover = rule.Rule{Name: "Embeds have cover at the edges", Source: "ACI 318-19 20.5.1.3.5, 1 1/2 in, from memory"}
	ruleApart = rule.Rule{Name: "Embeds clear of each other", Source: "three diameters from middle to middle: ACI 318-11 6.3.5, from memory"}
)

// Placed is what lies in the slab besides.
type Placed struct {
	Bars     []bars.Bar
	Dowels   []joints.Dowel
	Thick    geometry.Length // of the dowels
	Walls    []bolts.Wall
	Diameter geometry.Length // of the bolts
	Cuts     []sawcuts.Cut
}

// Check reports what the embeds of a slab meet, and where they have too little concrete.
func Check(t *slab.Slab, p Placed) {
	all := t.Plan.Embeds
	if len(all) == 0 {
		return
	}
	met := bars.NewSegments(p.Bars)
	for i := range all {
		e := embed{Slab: t, Embed: all[i], ring: all[i].Ring(), name: "embed " + t.Marks.Embed(i).String()}
		e.meetsBars(met)
		e.meetsDowels(p)
		e.meetsBolts(p)
		e.meetsCuts(p.Cuts)
		e.covered()
		for k := range i {
			e.meets(all[k], t.Marks.Embed(k).String())
		}
	}
}

// embed is one that is looked at.
type embed struct {
	*slab.Slab
	plan.Embed
	ring geometry.Ring
	name string
}

// away gives how far a segment of the plan is from the embed's rim; 0 where it runs into it.
func (e *embed) away(a, b geometry.Point) geometry.Length {
	if e.Round() {
		_, d := geometry.Nearest(e.Center, a, b)
		return max(0, d-e.Width/2)
	}
	if plane.In(e.ring, a) || plane.In(e.ring, b) {
		return 0
	}
	least := geometry.Length(-1)
	for i, p := range e.ring {
		q := e.ring[(i+1)%len(e.ring)]
		if _, ok := geometry.Meet(p, q, a, b); ok {
			return 0
		}
		for _, d := range [...]geometry.Length{from(p, a, b), from(a, p, q), from(b, p, q)} {
			if least < 0 || d < least {
				least = d
			}
		}
	}
	return least
}

func from(p, a, b geometry.Point) geometry.Length {
	_, d := geometry.Nearest(p, a, b)
	return d
}

// reaches tells whether the embed reaches so deep below the top.
func (e *embed) reaches(depth geometry.Length) bool { return e.Deep == 0 || depth <= e.Deep }

// box gives the corners of a box round the embed.
func (e *embed) box() (lo, hi geometry.Point) { return e.ring.Bounds() }

// gap gives how much concrete must flow between an embed and a bar.
func (e *embed) gap() geometry.Length { return max(inch, 4*e.Concrete.Aggregate/3) }

func (e *embed) meetsBars(met *bars.Segments) {
	lo, hi := e.box()
	n, inside := 0, false
	for _, k := range met.Near(lo, hi, e.gap()) {
		bar := met.All[k]
		clear := e.away(bar.A.At, bar.B.At) - bar.Db/2
		if clear >= e.gap() || !e.reaches(min(bar.A.Depth, bar.B.Depth)-bar.Db/2-e.gap()) {
			continue
		}
		n, inside = n+1, inside || clear <= 0
	}
	switch {
	case n == 0:
	case inside:
		e.Find(ruleBars, rule.Note, e.Center, "Bars run into the %s, or pass nearer than %s: %d. Tie them aside; none is cut for it.", e.name, e.Text(e.gap()), n)
	default:
		e.Find(ruleBars, rule.Note, e.Center, "Bars pass nearer than %s to the %s: %d. Tie them aside, so that concrete gets between.", e.Text(e.gap()), e.name, n)
	}
}

func (e *embed) meetsDowels(p Placed) {
	for _, d := range p.Dowels {
		if e.away(d.Outer, d.Inner)-max(p.Thick, d.Width)/2 < e.gap() && e.reaches(d.Depth-p.Thick/2) {
			e.Find(ruleDowel, rule.Limit, e.Center, "The %s is nearer than %s to the dowel at %s on %s: move it.", e.name, e.Text(e.gap()), e.Text(d.Along), e.SideName(e.Sides[0][d.Edge]))
		}
	}
}

// boltClear is how far bolts are from what is cast in beside them, in diameters: common
// practice, no source.
const boltClear = 4

func (e *embed) meetsBolts(p Placed) {
	asks := boltClear * p.Diameter
	for _, w := range p.Walls {
		for _, b := range w.Bolts {
			if e.away(b.At, b.At)-p.Diameter/2 < asks {
				e.Find(ruleBolts, rule.Limit, b.At, "%s: the bolt at %s is nearer than %s to the %s: move one of them.", w.Name(), e.Text(b.Along), e.Text(asks), e.name)
			}
		}
	}
}

// sawClear is how far a saw stays off steel and pipes: common practice, no source.
const sawClear = inch

func (e *embed) meetsCuts(cuts []sawcuts.Cut) {
	if e.Kind == plan.FloorDrain { // a crack begins there anyway: a cut is to run to it
		return
	}
	for _, c := range cuts {
		if e.away(c.A, c.B) < sawClear {
			e.Find(ruleSaw, rule.Note, e.Center, "A saw cut runs over the %s: stop the saw off it, or move it.", e.name)
			return
		}
	}
}

// covered reports an embed that is too near to an edge of the slab.
func (e *embed) covered() {
	asks := bars.CoverExposed(0, e.Units)
	for _, s := range e.All {
		for _, on := range e.Formed(s) {
			if d := e.away(s.At(on.From, 0), s.At(on.To, 0)); d < asks {
				e.Find(ruleCover, rule.Limit, e.Center, "The %s is %s from %s; %s of concrete are asked there: move it inward.", e.name, e.Text(d), e.SideName(s), e.Text(asks))
			}
		}
	}
}

func (e *embed) meets(o plan.Embed, name string) {
	between := geometry.Distance(e.Center, o.Center)
	if between > 3*max(e.Width, e.Length, o.Width, o.Length) {
		return
	}
	ring, least := o.Ring(), geometry.Length(-1)
	for i, a := range ring {
		if d := e.away(a, ring[(i+1)%len(ring)]); least < 0 || d < least {
			least = d
		}
	}
	piped := func(k plan.EmbedKind) bool { return k == plan.Sleeve || k == plan.StubUp }
	switch {
	case least == 0 || plane.In(ring, e.Center) || plane.In(e.ring, o.Center):
		e.Find(ruleApart, rule.Severe, e.Center, "The %s and %s overlap: move one.", e.name, name)
	case piped(e.Kind) && piped(o.Kind) && between < 3*max(e.Width, o.Width):
		e.Find(ruleApart, rule.Note, e.Center, "The %s and %s are %s from middle to middle, less than three times the wider: in thin slabs have somebody who knows look at it.", e.name, name, e.Text(between))
	}
}
