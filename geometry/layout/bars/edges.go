// Package bars lays reinforcing bars in haunches, pads and thickened strips: rows
// with laps, corner bars and drops under doors, cut lengths with bend deductions, and
// checks of cover and spacing.
package bars

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

const (
	// cornerTurn is the least turn, 15 degrees, that takes a corner bar; round
	// a slighter one a straight bar is sprung. Common practice, no source.
	cornerTurn = math.Pi / 12
	// offCorner is how far a lap keeps from a corner: common practice, no source.
	offCorner = 12 * geometry.Inch
)

// Lay lays the bars of a slab's haunches, pads and thickened strips, and tells how
// long those that run on from piece to piece lie side by side. They have no marks
// yet: see Number.
func Lay(s *slab.Slab, spec Spec, pads PadSpec, strips StripSpec) ([]Bar, []LaidLap) {
	t := steel{Slab: s, spec: spec, pads: pads, strips: strips}
	bars := t.edgeBars()
	bars = append(bars, t.padBars()...)
	bars = append(bars, t.stripBars()...)
	if l := t.spec.Lap; l.Rule == LapByLength && l.Length < leastLap && len(bars) > 0 {
		t.Find(ruleLap, rule.Limit, t.Home(), "Laps are typed as %s; the least lap is %s, whatever the bar.", t.Text(l.Length), t.Text(leastLap))
	}
	return bars, t.laps
}

// steel lays the bars of a slab.
type steel struct {
	*slab.Slab
	spec   Spec
	pads   PadSpec
	strips StripSpec
	laps   []LaidLap
}

// lap gives how long two bars of a size lie side by side.
func (t *steel) lap(size int, top bool) geometry.Length {
	return t.spec.LapLength(size, top, t.Concrete)
}

// laps are those already laid, by where they lie.
type laps map[lapsOn][]slab.Interval

type lapsOn struct{ loop, row, edge int }

// edgeBars places the rows of the haunches.
func (t *steel) edgeBars() []Bar {
	var bars []Bar
	laid := laps{}
	all := t.Run(func(e plan.Edge) bool { return true }) * geometry.Length(len(t.spec.Rows))
	if !t.Fits("Edge bars", all, t.spec.longest()/4) {
		return nil
	}
	for i := range t.spec.Rows {
		r := t.row(i)
		top := t.topCast(r)
		r.lap = t.lap(r.size, top)
		legs, before := t.cornerLegs(r, i), len(bars)
		for k := range t.Loops {
			for _, c := range t.chains(k, r, legs.short+2*r.db) {
				t.checkDug(&c)
				bars = append(bars, t.layChain(&c, legs, laid)...)
			}
		}
		if len(bars) > before {
			t.laps = append(t.laps, LaidLap{EdgeLaps, r.number, r.size, r.lap, top && t.spec.Lap.Rule == LapByACI})
		}
		t.checkRow(r)
	}
	t.checkRowsApart()
	t.checkHooks(bars)
	return bars
}

// topCast tells whether more than 12 in of concrete is cast below the row.
func (t *steel) topCast(r row) bool {
	deep := false
	if r.Top > 0 {
		t.eachSection(func(_ slab.Side, e plan.Edge, sp plan.Span) {
			sec, _ := t.Plan.SectionOn(e, sp.Section)
			deep = deep || sec.Deepest()-r.Top-r.db > topBar
		})
	}
	return deep
}

// cornerLegs is how long the legs of corner bars are, outside. Every other row
// takes the longer leg where there is room, so that laps of neighboring rows do
// not lie side by side.
type cornerLegs struct{ short, long geometry.Length }

func (t *steel) cornerLegs(r row, i int) cornerLegs {
	short := t.spec.Leg
	if short == 0 {
		short = slab.RoundUp(LeastLeg(r.size, r.lap), t.CutStep())
	}
	l := cornerLegs{short, short}
	if i%2 == 1 {
		l.long = slab.RoundUp(short+r.lap+t.spec.Stagger, t.CutStep())
	}
	return l
}

// LeastLeg gives the shortest leg of a corner bar, outside, that laps beyond the
// bend.
func LeastLeg(size int, lap geometry.Length) geometry.Length {
	return lap + bendReach(size, math.Pi/2) + Diameter(size)/2
}

// longest gives the longest bar that can be had.
func (s Spec) longest() geometry.Length {
	if len(s.Stock) == 0 {
		return 0
	}
	return slices.Max(s.Stock)
}

// layChain covers one chain with bars and notes their laps.
func (t *steel) layChain(c *chain, legs cornerLegs, laid laps) []Bar {
	part := Part{EdgeRow, c.row.number}
	if t.spec.Corner == CornerBars && c.turns() > 0 {
		return t.layWithCornerBars(c, legs, part, laid)
	}
	from, to := geometry.Length(0), c.length()
	run := *c
	if c.closed {
		run = c.twice()
		from = t.loopStart(&run, laid)
		to += from + c.row.lap
		return t.layLapped(&run, from, to, part, laid)
	}
	return t.lay(&run, from, to, part, laid)
}

// turns counts the corners that take a corner bar.
func (c *chain) turns() int {
	n := 0
	for _, v := range c.v {
		if v.corner && v.turn >= cornerTurn {
			n++
		}
	}
	return n
}

// layLapped splices one stretch of a chain that laps others at an end or itself: what
// is cut to whole steps is the longer for it, or the lap would be short.
func (t *steel) layLapped(c *chain, from, to geometry.Length, part Part, laid laps) []Bar {
	if over := (to - from) % t.CutStep(); over != 0 && to-from <= t.spec.longest() {
		if more := t.CutStep() - over; from >= more {
			from -= more
		} else {
			to += more
		}
	}
	return t.lay(c, from, to, part, laid)
}

// lay splices one stretch of a chain.
func (t *steel) lay(c *chain, from, to geometry.Length, part Part, laid laps) []Bar {
	var avoid []slab.Interval
	if to-from > t.spec.longest()-t.CutStep() { // else one bar will do
		avoid = t.avoid(c, laid, from, to)
	}
	pieces, clean := splice(from, to, c.row.lap, t.spec.longest(), t.CutStep(), avoid)
	if !clean {
		p, _ := c.at((from + to) / 2)
		t.Find(ruleStagger, rule.Note, p,
			"Some laps of row %d here lie beside those of the next row or at a corner: there is no room elsewhere.", c.row.number)
	}
	bars := make([]Bar, 0, len(pieces))
	for i, p := range pieces {
		b := c.cut(p.From, p.To)
		b.Of = part
		bars = append(bars, b)
		if i > 0 {
			for _, s := range c.locate(p.From, pieces[i-1].To) {
				on := lapsOn{c.loop, c.row.number, s.edge}
				laid[on] = append(laid[on], slab.Interval{From: s.from, To: s.to})
			}
		}
	}
	return bars
}

// avoid gives the stretches of a chain where no lap that ends within from..to
// should lie: round corners, on slopes, and beside the laps of the row before.
func (t *steel) avoid(c *chain, laid laps, from, to geometry.Length) []slab.Interval {
	var out []slab.Interval
	clear := t.spec.Stagger
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
		for _, l := range laid[lapsOn{c.loop, c.row.number - 1, c.s[i].edge}] {
			if in, ok := c.project(i, l.From-clear, l.To+clear); ok {
				out = append(out, in)
			}
		}
	}
	return out
}

// loopStart gives where to begin a closed chain: past the first corner of its
// longest stretch, clear of the laps beside.
func (t *steel) loopStart(c *chain, laid laps) geometry.Length {
	best := 0
	for i := range len(c.s) / 2 {
		if c.v[i+1].dev-c.v[i].dev > c.v[best+1].dev-c.v[best].dev {
			best = i
		}
	}
	start := c.v[best].dev
	for range 8 {
		moved := false
		for _, a := range t.avoid(c, laid, 0, c.length()) {
			if start < a.To && start+c.row.lap > a.From {
				start, moved = a.To, true
			}
		}
		if !moved {
			break
		}
	}
	if start >= c.length()/2*2 || start+c.row.lap > c.v[best+1].dev {
		return c.v[best].dev
	}
	return start
}

// turning is one bent bar at a corner, or at corners close together, with the
// straights beside it.
type turning struct {
	slab.Interval                 // of developed lengths, first to last corner
	before, after geometry.Length // lengths of the straights
	back, forth   geometry.Length // legs
	first, last   bool            // of an open chain
}

// layWithCornerBars puts a bent bar at each corner and straight ones between.
func (t *steel) layWithCornerBars(c *chain, legs cornerLegs, part Part, laid laps) []Bar {
	run, total := *c, c.length()
	if c.closed {
		run = c.twice()
	}
	var at []geometry.Length // developed lengths of the corners
	for _, v := range run.v {
		if v.corner && v.turn >= cornerTurn && !(c.closed && v.dev >= total) {
			at = append(at, v.dev)
		}
	}
	groups := gather(at, total, legs.short, c.closed)
	if groups == nil { // a ring too small for legs: a tie closed by a lap
		return t.layLapped(&run, 0, total+c.row.lap, part, laid)
	}
	turnings := t.legs(&run, groups, total, legs)
	var bars []Bar
	for i, g := range turnings {
		shift := geometry.Length(0)
		if c.closed && g.From < g.back {
			shift = total
		}
		bars = append(bars, t.lay(&run, g.From-g.back+shift, g.To+g.forth+shift, part, laid)...)
		if g.first && g.before > g.back {
			bars = append(bars, t.layLapped(&run, 0, g.From-g.back+c.row.lap, part, laid)...)
		}
		from, to := g.To+g.forth-c.row.lap, total
		if !g.last {
			to = g.To + g.after - turnings[(i+1)%len(turnings)].back + c.row.lap
		}
		if to-from > c.row.lap && (!g.last || g.after > g.forth) {
			bars = append(bars, t.layLapped(&run, from, to, part, laid)...)
		}
	}
	return bars
}

// legs chooses the legs of every bent bar of a chain.
func (t *steel) legs(run *chain, groups []slab.Interval, total geometry.Length, legs cornerLegs) []turning {
	n := len(groups)
	out := make([]turning, n)
	slopes := run.slopes()
	for i, g := range groups {
		w := turning{Interval: g, before: g.From, after: total - g.To}
		w.first, w.last = !run.closed && i == 0, !run.closed && i+1 == n
		if !w.first {
			w.before = g.From - groups[(i+n-1)%n].To
			if i == 0 {
				w.before += total
			}
		}
		if !w.last {
			w.after = groups[(i+1)%n].From - g.To
			if i+1 == n {
				w.after += total
			}
		}
		lap := run.row.lap
		w.back = legs.fit(w.before, run.row, func(leg geometry.Length) geometry.Length {
			for _, s := range slopes {
				for _, d := range [...]geometry.Length{0, total} {
					if c := g.From + d; run.closed || d == 0 {
						if c-leg < s.To && c-leg+lap > s.From {
							return c - s.From + lap
						}
					}
				}
			}
			return 0
		})
		w.forth = legs.fit(w.after, run.row, func(leg geometry.Length) geometry.Length {
			for _, s := range slopes {
				if g.To+leg > s.From && g.To+leg-lap < s.To {
					return s.To - g.To + lap
				}
			}
			return 0
		})
		if over := (w.back + w.To - w.From + w.forth) % t.CutStep(); over != 0 && w.after > w.forth+t.CutStep() {
			w.forth += t.CutStep() - over
		}
		out[i] = w
	}
	return out
}

// slopes gives where a chain goes up or down, with the bends there.
func (c *chain) slopes() []slab.Interval {
	var out []slab.Interval
	bend := bendReach(c.row.size, math.Pi/4) + c.row.db
	for i := 1; i < len(c.v); i++ {
		if c.v[i].Depth != c.v[i-1].Depth {
			out = append(out, slab.Interval{From: c.v[i-1].dev - bend, To: c.v[i].dev + bend})
		}
	}
	return out
}

// fit gives the leg, along the center line from the corner, on a straight of
// that length: the long or the short one, or one that reaches past a slope its
// lap would lie on. beyond gives how long it must be for that, 0 where it is
// clear.
func (l cornerLegs) fit(straight geometry.Length, r row, beyond func(geometry.Length) geometry.Length) geometry.Length {
	outside := r.db/2 + bendSaving(r.size, math.Pi/2)/2
	short, long := l.short-outside, l.long-outside
	if straight <= short {
		return straight
	}
	past := beyond(short)
	for _, leg := range [...]geometry.Length{long, short, past} {
		if leg > 0 && (leg == short || straight >= leg+long+r.lap) && beyond(leg) == 0 {
			return leg
		}
	}
	return short
}

// gather joins corners that stand closer than a leg into one bent bar. It gives
// nil for a ring all of whose corners do.
func gather(at []geometry.Length, total, leg geometry.Length, closed bool) []slab.Interval {
	groups := []slab.Interval{{From: at[0], To: at[0]}}
	for _, d := range at[1:] {
		if last := &groups[len(groups)-1]; d-last.To < leg {
			last.To = d
		} else {
			groups = append(groups, slab.Interval{From: d, To: d})
		}
	}
	if !closed {
		return groups
	}
	first, last := groups[0], groups[len(groups)-1]
	if first.From+total-last.To >= leg {
		return groups
	}
	if len(groups) == 1 {
		return nil
	}
	groups = groups[1:]
	groups[len(groups)-1].To = first.To + total
	return groups
}
