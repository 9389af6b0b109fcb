package bars

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// laps are those already laid: of the row before, which those of the next keep clear
// of, and of the row that is being laid.
type laps struct {
	before []straightLap
	index  *plane.Index // of before
	now    []straightLap
}

// straightLap is a lap, or as much of one as lies on one straight.
type straightLap struct{ a, b geometry.Point }

// nextRow makes the laps of the row just laid those of the row before.
func (l *laps) nextRow() {
	l.before, l.now = l.now, nil
	boxes := make([]plane.Box, len(l.before))
	for i, s := range l.before {
		boxes[i] = plane.BoxOf(s.a, s.b)
	}
	l.index = plane.NewIndex(boxes)
}

// note adds a lap of a chain.
func (l *laps) note(c *chain, lap slab.Interval) {
	a, _ := c.at(lap.From)
	for i := c.segment(lap.From) + 1; i < len(c.v) && c.v[i].dev < lap.To; i++ {
		if c.v[i].dev > lap.From {
			l.now = append(l.now, straightLap{a, c.v[i].At})
			a = c.v[i].At
		}
	}
	b, _ := c.at(lap.To)
	l.now = append(l.now, straightLap{a, b})
}

const (
	// besideWithin is how far apart, across, laps still lie beside each other: common
	// practice, no source.
	besideWithin = 24 * geometry.Inch
	// besideTurn is the sine of the angle up to which they do.
	besideTurn = 0.05
)

// beside gives the stretches of the i-th piece of a chain that lie beside laps of the
// row before, or nearer to them than the stagger. Two cuts' steps are added: bars that
// are cut to whole steps lap by so much more.
func (t *steel) beside(c *chain, i int, laid *laps) []slab.Interval {
	if laid.index == nil || t.spec.Stagger <= 0 {
		return nil
	}
	a, b := c.v[i], c.v[i+1]
	long, clear := geometry.Distance(a.At, b.At), t.spec.Stagger+2*t.CutStep()
	if long == 0 {
		return nil
	}
	ux, uy := float64(b.At.X-a.At.X)/float64(long), float64(b.At.Y-a.At.Y)/float64(long)
	var out []slab.Interval
	var room [64]int32
	for _, k := range laid.index.Near(plane.BoxOf(a.At, b.At).Grown(float64(besideWithin+clear)), room[:0]) {
		l := laid.before[k]
		p, q := l.a.Sub(a.At), l.b.Sub(a.At)
		px, py, qx, qy := float64(p.X), float64(p.Y), float64(q.X), float64(q.Y)
		s, e := px*ux+py*uy, qx*ux+qy*uy
		f, g := py*ux-px*uy, qy*ux-qx*uy
		if math.Abs(f+g)/2 > float64(besideWithin) || math.Abs(g-f) > besideTurn*math.Hypot(qx-px, qy-py) {
			continue
		}
		at := func(x float64) geometry.Length { // the developed length there
			return a.dev - a.saving/2 + geometry.Rounded(x/float64(long)*float64(apart(a.Spot, b.Spot)))
		}
		in := slab.Interval{From: max(a.dev, at(min(s, e)-float64(clear))), To: min(b.dev, at(max(s, e)+float64(clear)))}
		if in.To > in.From {
			out = append(out, in)
		}
	}
	return out
}

// avoid gives the stretches of a chain where no lap that ends within from..to
// should lie: round corners, on slopes, and beside the laps of the row before.
func (t *steel) avoid(c *chain, laid *laps, from, to geometry.Length) []slab.Interval {
	var out []slab.Interval
	corner := func(v vertex) {
		if v.corner && v.turn >= cornerTurn {
			out = append(out, slab.Interval{From: v.dev - offCorner, To: v.dev + offCorner})
		}
	}
	first, last := c.segment(from-c.row.lap-offCorner), c.segment(to+offCorner)
	corner(c.v[first])
	for i := first; i <= last; i++ {
		corner(c.v[i+1])
		if c.v[i+1].Depth != c.v[i].Depth {
			out = append(out, slab.Interval{From: c.v[i].dev, To: c.v[i+1].dev})
		}
		out = append(out, t.beside(c, i, laid)...)
	}
	return out
}

// off tells whether a lap keeps off stretches.
func off(lap slab.Interval, avoid []slab.Interval) bool {
	return !slices.ContainsFunc(avoid, func(a slab.Interval) bool { return lap.To > a.From && lap.From < a.To })
}

// tellLap reports a lap that lies where none should.
func (t *steel) tellLap(c *chain, lap slab.Interval, avoid []slab.Interval) {
	if lap.From += t.CutStep(); !off(lap, avoid) { // what is cut to whole steps is longer
		p, _ := c.at((lap.From + lap.To) / 2)
		t.Find(ruleStagger, rule.Note, p,
			"Some laps of row %d lie beside those of the next row, at a corner or on a slope: there is no room elsewhere. Ask for less between laps, or have the bars coupled there (mechanical splices: ACI 318-19 25.5.7, from memory).", c.row.number)
	}
}

// layRing covers a closed chain with bars that run on round its corners, the last
// lapped with the first.
func (t *steel) layRing(c *chain, part Part, laid *laps) []Bar {
	run := c.twice()
	from, avoid := t.loopStart(&run, laid)
	closing := slab.Interval{From: from, To: from + c.row.lap}
	t.tellLap(&run, closing, avoid)
	laid.note(&run, closing)
	return t.layLapped(&run, from, from+c.length()+c.row.lap, part, laid)
}

// loopStart gives where to begin a closed chain, run round twice, so that the lap
// that closes it lies off what laps avoid, on the longest stretch that has room for
// it; and what it avoids.
func (t *steel) loopStart(c *chain, laid *laps) (geometry.Length, []slab.Interval) {
	n := len(c.s) / 2
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(c.v[j+1].dev-c.v[j].dev, c.v[i+1].dev-c.v[i].dev)
	})
	avoid := t.avoid(c, laid, 0, c.v[n].dev+c.row.lap)
	var beside []slab.Interval
	for i := range c.s {
		beside = append(beside, t.beside(c, i, laid)...)
	}
	for _, keep := range [...][]slab.Interval{avoid, beside} {
		for _, i := range order {
			a, b := c.v[i].dev, c.v[i+1].dev
			starts := []geometry.Length{a}
			for _, z := range keep {
				if z.To > a && z.To < b {
					starts = append(starts, z.To)
				}
			}
			slices.Sort(starts)
			for _, s := range starts {
				if off(slab.Interval{From: s, To: s + c.row.lap}, keep) {
					return s, avoid
				}
			}
		}
	}
	return c.v[order[0]].dev, avoid
}
