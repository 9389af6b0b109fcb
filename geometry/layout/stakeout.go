package layout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// allDiagonals is up to how many corners every diagonal is given. Beyond, each
// corner is measured from both ends of the longest edge, which fixes it too.
const allDiagonals = 16

// diagonals gives the check measures between corners of the outline that are no
// neighbors.
func (t *site) diagonals() []Diagonal {
	r := t.rings[0]
	n := len(r)
	base := 0
	for i, s := range t.sides[0] {
		if s.length > t.sides[0][base].length {
			base = i
		}
	}
	var out []Diagonal
	for i := range r {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if n > allDiagonals && i != base && j != base && i != (base+1)%n && j != (base+1)%n {
				continue
			}
			out = append(out, Diagonal{I: i, J: j, Length: geometry.Distance(r[i], r[j])})
		}
	}
	return out
}

// squareStep is what the unit of a 3-4-5 check is a multiple of, so that its
// legs are easy to find on a tape.
func (t *site) squareStep() geometry.Length {
	if t.spec.Units == geometry.Millimeters {
		return 100 * geometry.Millimeter
	}
	return geometry.Foot
}

// squares gives the 3-4-5 check of every right-angled corner, at the largest
// multiple that fits its edges.
func (t *site) squares() []Square {
	var out []Square
	for i, s := range t.sides[0] {
		p := t.before(s)
		if math.Abs(p.ux*s.ux+p.uy*s.uy) > 1e-6 {
			continue
		}
		step := t.squareStep()
		unit, three := min(p.length/3, s.length/4)/step*step, true
		if u := min(p.length/4, s.length/3) / step * step; u > unit {
			unit, three = u, false
		}
		if unit == 0 {
			continue
		}
		back, forth := 3*unit, 4*unit
		if !three {
			back, forth = forth, back
		}
		out = append(out, Square{Corner: i, Unit: unit, A: p.at(p.length-back, 0), B: s.at(forth, 0)})
	}
	return out
}

// lines gives the string line of every edge of the outline: from a stake beyond
// its one end to a stake beyond the other. At an inside corner the line runs on
// across the slab to a stake beyond it: none stands in the concrete.
func (t *site) lines() []StringLine {
	var out []StringLine
	for _, s := range t.sides[0] {
		back := newSide(s.loop, s.edge, s.b, s.a)
		out = append(out, StringLine{Edge: s.edge, A: t.stake(back), B: t.stake(s)})
	}
	return out
}

// stakeClear is how far a stake keeps from the slab: common practice, no source.
const stakeClear = 6 * inch

// stake gives the place of the stake beyond the end of a side, its offset past it.
// Where that is in the slab or at its face, as of an edge in the same line, the
// offset counts from the far side of what is in the way.
func (t *site) stake(s side) geometry.Point {
	off := t.spec.StakeOut.Offset
	at := off
	if off > 0 {
		// A look all across the slab is slow, and seldom needed.
		far := t.across() + 2*off
		for reach := off + stakeClear; ; reach *= 4 {
			reach = min(reach, far)
			at = t.pastStake(s, far, reach, off)
			if at+stakeClear <= reach || reach == far {
				break
			}
		}
	}
	return s.at(s.length+at, 0)
}

// across gives the diagonal of the slab's extent.
func (t *site) across() geometry.Length {
	b := t.region.all
	return geometry.Distance(geometry.Point{X: geometry.Length(b.MinX), Y: geometry.Length(b.MinY)}, geometry.Point{X: geometry.Length(b.MaxX), Y: geometry.Length(b.MaxY)})
}

// pastStake moves a stake, at a distance beyond the end of a side, past what of the
// slab is in its way within reach, as seen along a line as long as far.
func (t *site) pastStake(s side, far, reach, at geometry.Length) geometry.Length {
	slab := t.stretches[:0]
	for _, inset := range [...]geometry.Length{-inch / 8, inch / 8} { // beside the line, which may run along a face
		line := newSide(s.loop, s.edge, s.at(s.length, inset), s.at(s.length+far, inset))
		slab = t.region.along(line, min(reach, line.length), 0, slab)
	}
	t.stretches = slab
	slices.SortFunc(slab, func(a, b interval) int { return cmp.Compare(a.from, b.from) })
	for _, in := range slab {
		if in.from < at+stakeClear && in.to > at-stakeClear && in.to > 2 {
			at = max(at, in.to+t.spec.StakeOut.Offset)
		}
	}
	return at
}

// depthAtCorner gives the slab's depth where s starts: the deeper of what meets
// there, doors included.
func (t *site) depthAtCorner(s side) geometry.Length {
	if t.solid != nil {
		if d, ok := t.solid.DepthAt(s.a); ok {
			return d
		}
	}
	return max(t.depthAtFace(t.before(s)), t.depthAtFace(s))
}

// grades gives the height of the top and of the underside at every corner of the
// outline, over the site's benchmark. The deeper of the two edges counts.
func (t *site) grades() []Grade {
	var out []Grade
	for _, s := range t.sides[0] {
		g := Grade{Corner: s.edge, At: s.a, Top: t.spec.StakeOut.Benchmark + t.plan.Height}
		rise := geometry.Length(0)
		if t.solid != nil {
			rise = t.solid.TopAt(s.a)
		}
		g.Top += rise
		g.Bottom = g.Top - t.depthAtCorner(s)
		if t.plan.Base == plan.Level {
			g.Bottom -= rise // level ground does not rise with the top
		}
		out = append(out, g)
	}
	return out
}
