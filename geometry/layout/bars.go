package layout

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const (
	// cornerTurn is the least turn, 15 degrees, that takes a corner bar; round
	// a slighter one a straight bar is sprung. Common practice, no source.
	cornerTurn = math.Pi / 12
	// offCorner is how far a lap keeps from a corner: common practice, no source.
	offCorner = 12 * geometry.Inch
)

// laps are those already laid, by where they lie.
type laps map[lapsOn][]interval

type lapsOn struct{ loop, row, edge int }

// edgeBars places the rows of the haunches.
func (t *site) edgeBars() []Bar {
	var bars []Bar
	laid := laps{}
	all := t.run(func(e plan.Edge) bool { return true }) * geometry.Length(len(t.spec.Bars.Rows))
	if !t.fits("Edge bars", all, t.stock()/4) {
		return nil
	}
	for i := range t.spec.Bars.Rows {
		r := t.row(i)
		top := t.topCast(r)
		r.lap = t.spec.LapLength(r.size, top)
		legs, before := t.cornerLegs(r, i), len(bars)
		for k := range t.loops {
			for _, c := range t.chains(k, r, legs.short+2*r.db) {
				t.checkDug(&c)
				bars = append(bars, t.layChain(&c, legs, laid)...)
			}
		}
		if len(bars) > before {
			t.laps = append(t.laps, LaidLap{EdgeLaps, r.number, r.size, r.lap, top && t.spec.Bars.Lap.Rule == LapByACI})
		}
		t.checkRow(r)
	}
	t.checkRowsApart()
	t.checkHooks(bars)
	return bars
}

// topCast tells whether more than 12 in of concrete is cast below the row.
func (t *site) topCast(r row) bool {
	deep := false
	if r.Top > 0 {
		t.eachSection(func(_ side, e plan.Edge, sp plan.Span) {
			sec, _ := t.plan.SectionOn(e, sp.Section)
			deep = deep || sec.Deepest()-r.Top-r.db > topBar
		})
	}
	return deep
}

// cornerLegs is how long the legs of corner bars are, outside. Every other row
// takes the longer leg where there is room, so that laps of neighboring rows do
// not lie side by side.
type cornerLegs struct{ short, long geometry.Length }

func (t *site) cornerLegs(r row, i int) cornerLegs {
	short := t.spec.Bars.Leg
	if short == 0 {
		short = roundUp(t.spec.leastLeg(r.size, r.lap), t.cutStep())
	}
	l := cornerLegs{short, short}
	if i%2 == 1 {
		l.long = roundUp(short+r.lap+t.spec.Bars.Stagger, t.cutStep())
	}
	return l
}

// leastLeg gives the shortest leg of a corner bar, outside, that laps beyond the
// bend.
func (s Spec) leastLeg(size int, lap geometry.Length) geometry.Length {
	return lap + bendReach(size, math.Pi/2) + diameter(size)/2
}

func roundUp(l, grain geometry.Length) geometry.Length {
	return (l + grain - 1) / grain * grain
}

// stock gives the longest bar that can be had.
func (t *site) stock() geometry.Length {
	if len(t.spec.Bars.Stock) == 0 {
		return 0
	}
	return slices.Max(t.spec.Bars.Stock)
}

// layChain covers one chain with bars and notes their laps.
func (t *site) layChain(c *chain, legs cornerLegs, laid laps) []Bar {
	name := fmt.Sprintf("edge row %d", c.row.number)
	if t.spec.Bars.Corner == CornerBars && c.turns() > 0 {
		return t.layWithCornerBars(c, legs, name, laid)
	}
	from, to := geometry.Length(0), c.length()
	run := *c
	if c.closed {
		run = c.twice()
		from = t.loopStart(&run, laid)
		to += from + c.row.lap
	}
	return t.lay(&run, from, to, name, laid)
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

// lay splices one stretch of a chain.
func (t *site) lay(c *chain, from, to geometry.Length, name string, laid laps) []Bar {
	var avoid []interval
	if to-from > t.stock()-t.cutStep() { // else one bar will do
		avoid = t.avoid(c, laid, from, to)
	}
	pieces, clean := splice(from, to, c.row.lap, t.stock(), t.cutStep(), avoid)
	if !clean {
		p, _ := c.at((from + to) / 2)
		t.find(ruleStagger, false, p,
			"Some laps of row %d here lie beside those of the next row or at a corner: there is no room elsewhere.", c.row.number)
	}
	bars := make([]Bar, 0, len(pieces))
	for i, p := range pieces {
		b := c.cut(p.from, p.to)
		b.Row = name
		bars = append(bars, b)
		if i > 0 {
			for _, s := range c.locate(p.from, pieces[i-1].to) {
				on := lapsOn{c.loop, c.row.number, s.edge}
				laid[on] = append(laid[on], interval{s.from, s.to})
			}
		}
	}
	return bars
}

// avoid gives the stretches of a chain where no lap that ends within from..to
// should lie: round corners, on slopes, and beside the laps of the row before.
func (t *site) avoid(c *chain, laid laps, from, to geometry.Length) []interval {
	var out []interval
	clear := t.spec.Bars.Stagger
	corner := func(v vertex) {
		if v.corner && v.turn >= cornerTurn {
			out = append(out, interval{v.dev - offCorner, v.dev + offCorner})
		}
	}
	first, last := c.segment(from-c.row.lap-offCorner), c.segment(to+offCorner)
	corner(c.v[first])
	for i := first; i <= last; i++ {
		corner(c.v[i+1])
		if c.v[i+1].depth != c.v[i].depth {
			out = append(out, interval{c.v[i].dev, c.v[i+1].dev})
		}
		for _, l := range laid[lapsOn{c.loop, c.row.number - 1, c.s[i].edge}] {
			if in, ok := c.project(i, l.from-clear, l.to+clear); ok {
				out = append(out, in)
			}
		}
	}
	return out
}

// loopStart gives where to begin a closed chain: past the first corner of its
// longest stretch, clear of the laps beside.
func (t *site) loopStart(c *chain, laid laps) geometry.Length {
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
			if start < a.to && start+c.row.lap > a.from {
				start, moved = a.to, true
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
	interval                      // of developed lengths, first to last corner
	before, after geometry.Length // lengths of the straights
	back, forth   geometry.Length // legs
	first, last   bool            // of an open chain
}

// layWithCornerBars puts a bent bar at each corner and straight ones between.
func (t *site) layWithCornerBars(c *chain, legs cornerLegs, name string, laid laps) []Bar {
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
		return t.lay(&run, 0, total+c.row.lap, name, laid)
	}
	turnings := t.legs(&run, groups, total, legs)
	var bars []Bar
	for i, g := range turnings {
		shift := geometry.Length(0)
		if c.closed && g.from < g.back {
			shift = total
		}
		bars = append(bars, t.lay(&run, g.from-g.back+shift, g.to+g.forth+shift, name, laid)...)
		if g.first && g.before > g.back {
			bars = append(bars, t.lay(&run, 0, g.from-g.back+c.row.lap, name, laid)...)
		}
		from, to := g.to+g.forth-c.row.lap, total
		if !g.last {
			to = g.to + g.after - turnings[(i+1)%len(turnings)].back + c.row.lap
		}
		if to-from > c.row.lap && (!g.last || g.after > g.forth) {
			bars = append(bars, t.lay(&run, from, to, name, laid)...)
		}
	}
	return bars
}

// legs chooses the legs of every bent bar of a chain.
func (t *site) legs(run *chain, groups []interval, total geometry.Length, legs cornerLegs) []turning {
	n := len(groups)
	out := make([]turning, n)
	slopes := run.slopes()
	for i, g := range groups {
		w := turning{interval: g, before: g.from, after: total - g.to}
		w.first, w.last = !run.closed && i == 0, !run.closed && i+1 == n
		if !w.first {
			w.before = g.from - groups[(i+n-1)%n].to
			if i == 0 {
				w.before += total
			}
		}
		if !w.last {
			w.after = groups[(i+1)%n].from - g.to
			if i+1 == n {
				w.after += total
			}
		}
		lap := run.row.lap
		w.back = legs.fit(w.before, run.row, func(leg geometry.Length) geometry.Length {
			for _, s := range slopes {
				for _, d := range [...]geometry.Length{0, total} {
					if c := g.from + d; run.closed || d == 0 {
						if c-leg < s.to && c-leg+lap > s.from {
							return c - s.from + lap
						}
					}
				}
			}
			return 0
		})
		w.forth = legs.fit(w.after, run.row, func(leg geometry.Length) geometry.Length {
			for _, s := range slopes {
				if g.to+leg > s.from && g.to+leg-lap < s.to {
					return s.to - g.to + lap
				}
			}
			return 0
		})
		if over := (w.back + w.to - w.from + w.forth) % t.cutStep(); over != 0 && w.after > w.forth+t.cutStep() {
			w.forth += t.cutStep() - over
		}
		out[i] = w
	}
	return out
}

// slopes gives where a chain goes up or down, with the bends there.
func (c *chain) slopes() []interval {
	var out []interval
	bend := bendReach(c.row.size, math.Pi/4) + c.row.db
	for i := 1; i < len(c.v); i++ {
		if c.v[i].depth != c.v[i-1].depth {
			out = append(out, interval{c.v[i-1].dev - bend, c.v[i].dev + bend})
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
func gather(at []geometry.Length, total, leg geometry.Length, closed bool) []interval {
	groups := []interval{{at[0], at[0]}}
	for _, d := range at[1:] {
		if last := &groups[len(groups)-1]; d-last.to < leg {
			last.to = d
		} else {
			groups = append(groups, interval{d, d})
		}
	}
	if !closed {
		return groups
	}
	first, last := groups[0], groups[len(groups)-1]
	if first.from+total-last.to >= leg {
		return groups
	}
	if len(groups) == 1 {
		return nil
	}
	groups = groups[1:]
	groups[len(groups)-1].to = first.to + total
	return groups
}
