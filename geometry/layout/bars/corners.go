package bars

import (
	"cmp"
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// cornerLegs is how long the legs of corner bars are, along the center line from the
// corner, where nothing keeps them from it. Every other row takes the longer leg, so
// that laps of neighboring rows do not lie side by side.
type cornerLegs struct {
	short, long geometry.Length
	outside     geometry.Length // what a leg is longer over the outside of its bend
	// A straight shorter than both holds laps of two rows only where either has a
	// single one, and one shorter than one those of one row: 0 where there is no next.
	both, one geometry.Length
	whole     bool // straights shorter than one are bridged by bars bent twice
}

func (t *steel) cornerLegs(r row, i int) cornerLegs {
	short := t.spec.Leg
	if short == 0 {
		short = slab.RoundUp(LeastLeg(r.size, r.lap), t.CutStep())
	}
	l := cornerLegs{outside: r.db/2 + bendSaving(r.size, math.Pi/2)/2}
	l.short = short - l.outside
	l.long = l.short
	if i%2 == 1 {
		l.long = slab.RoundUp(short+r.lap+t.spec.Stagger+3*t.CutStep(), t.CutStep()) - l.outside
	}
	if len(t.spec.Rows) > 1 && t.spec.Stagger > 0 {
		l.one = 2*l.short + t.spec.Stagger + 3*t.CutStep()
		l.both = l.one + t.spec.Stagger + 3*t.CutStep() + r.lap
		l.whole = i%2 == 1
	}
	return l
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
func (t *steel) layWithCornerBars(c *chain, legs cornerLegs, part Part, laid *laps) []Bar {
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
	groups := t.gather(at, total, legs, c)
	if groups == nil { // a ring too small for legs: a tie closed by a lap
		return t.layRing(c, part, laid)
	}
	turnings := t.legs(&run, groups, total, legs, laid)
	var bars []Bar
	for i, g := range turnings {
		shift := geometry.Length(0)
		if c.closed && g.From < g.back {
			shift = total
		}
		bars = append(bars, t.lay(&run, g.From-g.back+shift, g.To+g.forth+shift, part, laid)...)
		if g.first && g.before > g.back {
			end := g.From - g.back + c.row.lap
			bars = append(bars, t.layLapped(&run, 0, end, part, laid)...)
			laid.note(&run, slab.Interval{From: g.From - g.back, To: end})
		}
		if g.last {
			if from := g.To + g.forth - c.row.lap; g.after > g.forth {
				bars = append(bars, t.layLapped(&run, from, total, part, laid)...)
				laid.note(&run, slab.Interval{From: from, To: g.To + g.forth})
			}
			continue
		}
		end := g.To + g.after - turnings[(i+1)%len(turnings)].back
		from, to := g.To+g.forth-c.row.lap, end+c.row.lap
		if to-from > c.row.lap {
			bars = append(bars, t.layLapped(&run, from, to, part, laid)...)
			laid.note(&run, slab.Interval{From: from, To: g.To + g.forth})
			laid.note(&run, slab.Interval{From: end, To: to})
		} else {
			laid.note(&run, slab.Interval{From: end, To: g.To + g.forth})
		}
	}
	return bars
}

// legs chooses the legs of every bent bar of a chain.
func (t *steel) legs(run *chain, groups []slab.Interval, total geometry.Length, legs cornerLegs, laid *laps) []turning {
	n := len(groups)
	out := make([]turning, n)
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
		out[i] = w
	}
	slopes := run.slopes()
	// most is how long a leg may be beside the other one.
	most := func(w *turning, other, beyond geometry.Length) geometry.Length {
		if other == 0 {
			other = min(legs.short, beyond)
		}
		return max(legs.short, t.spec.longest()-t.CutStep()-(w.To-w.From)-other)
	}
	for i := range out {
		w := &out[i]
		if w.first {
			s := straight{from: 0, to: w.From, back: most(w, 0, w.after)}
			_, w.back = t.chooseLegs(run, s, legs, slopes, laid)
		}
		s := straight{from: w.To, to: w.To + w.after, forth: most(w, w.back, w.before)}
		next := &out[(i+1)%n]
		if !w.last {
			s.back = most(next, next.forth, next.after)
		}
		var back geometry.Length
		if w.forth, back = t.chooseLegs(run, s, legs, slopes, laid); !w.last {
			next.back = back
		}
	}
	for i := range out {
		w := &out[i]
		if over := (w.back + w.To - w.From + w.forth) % t.CutStep(); over != 0 && w.after > w.forth+t.CutStep() {
			w.forth += t.CutStep() - over
		}
	}
	return out
}

// straight is what lies between two bent bars, or beside one at an end of a chain:
// from developed length to developed length, with the longest legs along it, 0 at the
// end of the chain.
type straight struct{ from, to, forth, back geometry.Length }

// legsCost weighs a choice of legs, what comes first the most.
type legsCost struct {
	beside int             // laps where none should lie
	tight  int             // 1 where the next row finds no room, or three bars lie side by side
	beyond geometry.Length // by how much legs are longer than corner bars usually have
	bars   int             // straight ones
	sum    geometry.Length // of the legs
}

func (a legsCost) less(b legsCost) bool {
	return cmp.Or(cmp.Compare(a.beside, b.beside), cmp.Compare(a.tight, b.tight), cmp.Compare(a.beyond, b.beyond),
		cmp.Compare(a.bars, b.bars), cmp.Compare(a.sum, b.sum)) < 0
}

// chooseLegs gives the legs along a straight, from its start and back from its end,
// whose laps best keep off slopes and the laps of the row before, and reports those
// that find no room.
func (t *steel) chooseLegs(run *chain, s straight, legs cornerLegs, slopes []slab.Interval, laid *laps) (forth, back geometry.Length) {
	long, lap := s.to-s.from, run.row.lap
	var keep []slab.Interval
	for i := run.segment(s.from); i < len(run.s) && run.v[i].dev < s.to; i++ {
		keep = append(keep, t.beside(run, i, laid)...)
	}
	for _, z := range slopes {
		for _, d := range [...]geometry.Length{0, run.length() / 2} {
			if z.From+d < s.to && z.To+d > s.from && (d == 0 || run.closed) {
				keep = append(keep, slab.Interval{From: z.From + d, To: z.To + d})
			}
		}
	}
	along := t.avoid(run, laid, s.from, s.to)
	best, set := legsCost{}, false
	consider := func(a, b geometry.Length) {
		if (s.forth > 0 && a < min(legs.short, long)) || (s.back > 0 && b < min(legs.short, long)) || a > s.forth || b > s.back {
			return
		}
		cost := legsCost{beyond: max(0, a-legs.long) + max(0, b-legs.long), sum: a + b}
		count := func(from, to geometry.Length) {
			if !off(slab.Interval{From: from, To: to}, keep) {
				cost.beside++
			}
		}
		open := s.forth == 0 || s.back == 0
		switch {
		case open && a+b >= long: // the leg is all there is
		case !open && a+b >= long+lap:
			count(s.to-b, s.from+a)
		default:
			from, to := s.from, s.to
			if s.forth > 0 {
				from += a - lap
				count(from, s.from+a)
			}
			if s.back > 0 {
				to += lap - b
				count(s.to-b, to)
			}
			pieces, clean := splice(from, to, lap, t.spec.longest(), t.CutStep(), along)
			if !clean {
				cost.beside++
			}
			cost.bars = len(pieces)
			if !open && (a+b > long || long < legs.both) {
				cost.tight = 1
			}
		}
		if !set || cost.less(best) {
			best, set, forth, back = cost, true, a, b
		}
	}
	fs, bs := []geometry.Length{min(legs.short, long)}, []geometry.Length{min(legs.short, long)}
	if long > legs.short {
		fs, bs = append(fs, legs.long), append(bs, legs.long)
		for _, z := range keep {
			fs, bs = append(fs, z.To-s.from+lap), append(bs, s.to-z.From+lap)
		}
	}
	switch {
	case s.forth == 0:
		for _, b := range append(bs, long) {
			consider(0, b)
		}
	case s.back == 0:
		for _, a := range append(fs, long) {
			consider(a, 0)
		}
	default:
		for _, a := range fs {
			for _, b := range bs {
				consider(a, b)
			}
			consider(a, long+lap-a)
		}
		for _, b := range bs {
			consider(long+lap-b, b)
		}
	}
	if !set { // no leg is short enough: what the corner asks for at least
		forth, back = min(s.forth, legs.short, long), min(s.back, legs.short, long)
	}
	t.tellLegs(run, s, forth, back, keep)
	return forth, back
}

// tellLegs reports the laps of chosen legs that lie where none should.
func (t *steel) tellLegs(run *chain, s straight, forth, back geometry.Length, keep []slab.Interval) {
	long, lap := s.to-s.from, run.row.lap
	if s.forth > 0 && s.back > 0 && forth+back >= long+lap {
		t.tellLap(run, slab.Interval{From: s.to - back, To: s.from + forth}, keep)
		return
	}
	if s.forth > 0 && forth < long {
		t.tellLap(run, slab.Interval{From: s.from + forth - lap, To: s.from + forth}, keep)
	}
	if s.back > 0 && back < long {
		t.tellLap(run, slab.Interval{From: s.to - back, To: s.to - back + lap}, keep)
	}
}

// slopes gives where a chain goes up or down, with the bends there.
func (c *chain) slopes() []slab.Interval {
	var out []slab.Interval
	bend := bendReach(c.row.size, math.Pi/4) + c.row.db
	n := len(c.v) - 1
	if c.closed { // it is run round twice
		n /= 2
	}
	for i := 1; i <= n; i++ {
		if c.v[i].Depth != c.v[i-1].Depth {
			out = append(out, slab.Interval{From: c.v[i-1].dev - bend, To: c.v[i].dev + bend})
		}
	}
	return out
}

// gather joins corners that stand closer than a leg into one bent bar, and those
// between which the laps of two rows find no room, where the stock is long enough. It
// gives nil for a ring that is one bar.
func (t *steel) gather(at []geometry.Length, total geometry.Length, legs cornerLegs, c *chain) []slab.Interval {
	// A leg is counted as long as it is outside: so close together no straight bar fits.
	leg := legs.short + legs.outside
	near := func(gap, span geometry.Length) bool {
		return gap < leg || legs.whole && gap < legs.one && span+2*leg <= t.spec.longest()
	}
	groups := []slab.Interval{{From: at[0], To: at[0]}}
	least := geometry.MaxLength
	for _, d := range at[1:] {
		last := &groups[len(groups)-1]
		least = min(least, d-last.To)
		if near(d-last.To, d-last.From) {
			last.To = d
		} else {
			groups = append(groups, slab.Interval{From: d, To: d})
		}
	}
	if !c.closed {
		return groups
	}
	first, last := groups[0], groups[len(groups)-1]
	gap := first.From + total - last.To
	if min(least, gap) < legs.one && total+c.row.lap+2*t.CutStep() <= t.spec.longest() {
		return nil
	}
	if len(groups) == 1 {
		if gap < leg {
			return nil
		}
		return groups
	}
	if !near(gap, first.To+total-last.From) {
		return groups
	}
	groups = groups[1:]
	groups[len(groups)-1].To = first.To + total
	return groups
}
