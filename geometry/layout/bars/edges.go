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
	least := leastLap
	if t.Units == geometry.Millimeters {
		least = 300 * geometry.Millimeter // ACI 318M-19 25.5.2.1
	}
	if l := t.spec.Lap; l.Rule == LapByLength && l.Length < least && len(bars) > 0 {
		t.Find(ruleLap, rule.Limit, t.Home(), "Laps are typed as %s; the least lap is %s, whatever the bar.", t.Text(l.Length), t.Text(least))
	}
	return bars, t.laps
}

// steel lays the bars of a slab.
type steel struct {
	*slab.Slab
	spec   Spec
	pads   PadSpec
	strips StripSpec
	wide   geometry.Length // of the curbs that bars are laid along; 0 for haunches
	laps   []LaidLap
}

// lap gives how long two bars of a size lie side by side.
func (t *steel) lap(size Size, top bool) geometry.Length {
	return t.spec.LapLength(size, top, t.Concrete)
}

// edgeBars places the rows of the haunches.
func (t *steel) edgeBars() []Bar {
	var bars []Bar
	var laid laps
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
			for _, c := range t.chains(k, r, legs.short+legs.outside+2*r.db) {
				t.checkDug(&c)
				bars = append(bars, t.layChain(&c, legs, &laid)...)
			}
		}
		laid.nextRow()
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

// LeastLeg gives the shortest leg of a corner bar, outside, that laps beyond the
// bend.
func LeastLeg(size Size, lap geometry.Length) geometry.Length {
	return lap + bendReach(size, math.Pi/2) + size.Diameter()/2
}

// longest gives the longest bar that can be had.
func (s Spec) longest() geometry.Length {
	if len(s.Stock) == 0 {
		return 0
	}
	return slices.Max(s.Stock)
}

// layChain covers one chain with bars and notes their laps.
func (t *steel) layChain(c *chain, legs cornerLegs, laid *laps) []Bar {
	part := Part{EdgeRow, c.row.number}
	if t.spec.Corner == CornerBars && c.turns() > 0 {
		return t.layWithCornerBars(c, legs, part, laid)
	}
	if c.closed {
		return t.layRing(c, part, laid)
	}
	return t.lay(c, 0, c.length(), part, laid)
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
func (t *steel) layLapped(c *chain, from, to geometry.Length, part Part, laid *laps) []Bar {
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
func (t *steel) lay(c *chain, from, to geometry.Length, part Part, laid *laps) []Bar {
	var avoid []slab.Interval
	if to-from > t.spec.longest()-t.CutStep() { // else one bar will do
		avoid = t.avoid(c, laid, from, to)
	}
	pieces, _ := splice(from, to, c.row.lap, t.spec.longest(), t.CutStep(), avoid)
	bars := make([]Bar, 0, len(pieces))
	for i, p := range pieces {
		b := c.cut(p.From, p.To)
		b.Of = part
		bars = append(bars, b)
		if i > 0 {
			lap := slab.Interval{From: p.From, To: pieces[i-1].To}
			t.tellLap(c, lap, avoid)
			laid.note(c, lap)
		}
	}
	return bars
}
