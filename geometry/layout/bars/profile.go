package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// bend is a place along an edge where a row changes its slope.
type bend struct{ along, depth geometry.Length }

// leastDrop is the difference of depth that a bar makes up within its slack.
const leastDrop = geometry.Inch / 2

// profile gives the row's depth along a reach, from its start to its end. Under
// a door with a deeper section a bar of the bottom drops with it: within the
// deeper span and clear of the step, at 45 degrees, or along the run-out where
// there is one. A bar of the top is down before a lip begins.
func (t *steel) profile(c reach, r row, flat geometry.Length) []bend {
	e := t.Edge(c.side)
	depths := make([]geometry.Length, len(c.spans))
	for i, sp := range c.spans {
		depths[i] = t.depth(r, e, sp)
	}
	t.level(c, r, depths, flat)
	bends := []bend{{c.from, depths[0]}}
	if c.start && depths[0] > c.depthAtStart+leastDrop {
		d := depths[0] - c.depthAtStart
		bends = []bend{{c.from, c.depthAtStart}, {c.from + flat, c.depthAtStart}, {c.from + flat + d, depths[0]}}
	}
	for i := 1; i < len(c.spans); i++ {
		from, to := depths[i-1], depths[i]
		if from == to {
			continue
		}
		x, drop := c.spans[i].From, (to - from).Abs()
		runout := t.runOut(c, depths, i-1)
		near, far := max(r.Bottom, CoverEarth), max(r.Bottom, CoverEarth)+drop
		intoSpan := to > from // the slope lies beyond x
		switch {
		case r.Top > 0: // before the lip, or after it
			intoSpan = !intoSpan
			near, far = r.Top, r.Top+drop
		case runout > 0:
			// Beside the ramp as far off it as off the bottom.
			intoSpan = !intoSpan
			lead := t.lead(r, drop, runout)
			near, far = -lead, runout-lead
		}
		if intoSpan {
			bends = append(bends, bend{x + near, from}, bend{x + far, to})
		} else {
			bends = append(bends, bend{x - far, from}, bend{x - near, to})
		}
	}
	last := depths[len(depths)-1]
	if c.end && last > c.depthAtEnd+leastDrop {
		d := last - c.depthAtEnd
		bends = append(bends, bend{c.to - flat - d, last}, bend{c.to - flat, c.depthAtEnd}, bend{c.to, c.depthAtEnd})
	} else {
		bends = append(bends, bend{c.to, last})
	}
	return tidy(bends, c.from, c.to)
}

// lead gives how far before a ramp's foot a bar of the bottom turns up, so that it
// keeps its distance from the ramp: where it turns by an angle θ at a distance c, by
// c·tan(θ/2).
func (t *steel) lead(r row, drop, runout geometry.Length) geometry.Length {
	turn := math.Atan2(float64(drop), float64(runout))
	return geometry.Rounded(float64(r.Bottom+r.db/2) * math.Tan(turn/2))
}

// level takes the depth of a neighbor where a deeper span leaves no room to
// drop into it and back, or the difference is slight.
func (t *steel) level(c reach, r row, depths []geometry.Length, flat geometry.Length) {
	for i := range depths {
		if i+1 < len(depths) && (depths[i]-depths[i+1]).Abs() < leastDrop {
			d := min(depths[i], depths[i+1])
			depths[i], depths[i+1] = d, d
		}
	}
	if r.Top > 0 {
		return
	}
	// A span that is leveled may leave its neighbor no room. Each pass but the last
	// lowers a span to the depth of another, or of a corner: no new depth arises.
	n := len(depths)
	for pass, again := 0, true; again && pass <= n*(n+2); pass++ {
		again = false
		for i, sp := range c.spans {
			if need, up := t.needs(c, r, depths, i, flat); need > c.room(i) && up < depths[i] {
				depths[i], again = up, true
				t.Find(ruleDrop, rule.Note, c.side.At((sp.From+sp.To)/2, 0),
					"Row %d on %s: it has no room to drop into a deeper stretch and runs on at the depth beside it.", r.number, t.SideName(c.side))
			}
		}
	}
}

// needs gives the length that a row takes in a span to drop from the shallower
// spans and corners beside it and come back, and the least depth of those.
func (t *steel) needs(c reach, r row, depths []geometry.Length, i int, flat geometry.Length) (need, up geometry.Length) {
	up = depths[i]
	clear := max(r.Bottom, CoverEarth)
	for _, k := range [...]int{i - 1, i + 1} {
		if k >= 0 && k < len(depths) && depths[k] < depths[i] && t.runOut(c, depths, min(i, k)) == 0 {
			need += clear + depths[i] - depths[k]
			up = min(up, depths[k])
		}
	}
	if i == 0 && c.start && depths[i] > c.depthAtStart+leastDrop {
		need += flat + depths[i] - c.depthAtStart
		up = min(up, c.depthAtStart)
	}
	if i == len(depths)-1 && c.end && depths[i] > c.depthAtEnd+leastDrop {
		need += flat + depths[i] - c.depthAtEnd
		up = min(up, c.depthAtEnd)
	}
	return need, up
}

// room gives how much of a span a row has.
func (c *reach) room(span int) geometry.Length {
	sp := c.spans[span]
	return min(sp.To, c.to) - max(sp.From, c.from)
}

// runOut gives the length over which a row follows the ramp between a span and the
// next: 0 for a step, and where the shallower of them has no room for a ramp at
// either end, so that the row must change its depth within the deeper one.
func (t *steel) runOut(c reach, depths []geometry.Length, span int) geometry.Length {
	var out geometry.Length
	for _, sp := range c.spans[span : span+2] {
		if sp.Door >= 0 {
			out = max(out, t.Edge(c.side).Doors[sp.Door].RunOut)
		}
	}
	shallow := span
	if depths[span+1] < depths[span] {
		shallow++
	}
	if c.room(shallow) < 2*out {
		return 0
	}
	return out
}

// tidy puts bends in order within from..to, and leaves out those on a straight.
func tidy(bends []bend, from, to geometry.Length) []bend {
	out := bends[:0]
	at := from
	for _, b := range bends {
		b.along = min(max(b.along, at), to)
		at = b.along
		if n := len(out); n > 1 && out[n-1].depth == b.depth && out[n-2].depth == b.depth {
			out = out[:n-1]
		}
		if n := len(out); n > 0 && out[n-1].along == b.along {
			if n > 1 {
				out[n-1].depth = min(out[n-1].depth, b.depth)
			}
			continue
		}
		out = append(out, b)
	}
	return out
}
