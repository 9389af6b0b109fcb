// Package stakeout gives what squares and levels the forms: diagonals, 3-4-5 checks,
// string lines and heights.
package stakeout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// allDiagonals is up to how many corners every diagonal is given. Beyond, each
// corner is measured from both ends of the longest edge, which fixes it too.
const allDiagonals = 16

// StakeOut is what squares and levels the forms of a slab.
type StakeOut struct {
	Diagonals []Diagonal
	Squares   []Square
	Lines     []StringLine
	Grades    []Grade
	Bows      []Bow
}

// Of gives the stake-out of a slab.
func Of(s *slab.Slab, spec Spec) StakeOut {
	t := staking{s, spec}
	return StakeOut{t.diagonals(), t.squares(), t.lines(), t.grades(), t.bows()}
}

// staking is a stake-out in the making.
type staking struct {
	*slab.Slab
	spec Spec
}

// diagonals gives the check measures between corners of the outline that are no
// neighbors.
func (t *staking) diagonals() []Diagonal {
	var r geometry.Ring // of the corners that are drawn
	base, longest := 0, geometry.Length(0)
	for _, s := range t.Sides[0] {
		if t.Loops[0].Within(s.Edge) {
			continue
		}
		if s.Length > longest {
			base, longest = len(r), s.Length
		}
		r = append(r, s.A)
	}
	n := len(r)
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
func (t *staking) squareStep() geometry.Length {
	if t.Units == geometry.Millimeters {
		return 100 * geometry.Millimeter
	}
	return geometry.Foot
}

// squares gives the 3-4-5 check of every right-angled corner, at the largest
// multiple that fits its edges.
func (t *staking) squares() []Square {
	var out []Square
	for _, s := range t.Sides[0] {
		p := t.Before(s)
		if t.Bent(s) || t.Bent(p) {
			continue
		}
		if math.Abs(p.Ux*s.Ux+p.Uy*s.Uy) > 1e-6 {
			continue
		}
		step := t.squareStep()
		unit, three := min(p.Length/3, s.Length/4)/step*step, true
		if u := min(p.Length/4, s.Length/3) / step * step; u > unit {
			unit, three = u, false
		}
		if unit == 0 {
			continue
		}
		back, forth := 3*unit, 4*unit
		if !three {
			back, forth = forth, back
		}
		out = append(out, Square{Corner: t.Loops[0].Drawn(s.Edge), Unit: unit, Back: back, Forth: forth, A: p.At(p.Length-back, 0), B: s.At(forth, 0)})
	}
	return out
}

// lines gives the string line of every edge of the outline: from a stake beyond
// its one end to a stake beyond the other. At an inside corner the line runs on
// across the slab to a stake beyond it: none stands in the concrete.
func (t *staking) lines() []StringLine {
	var out []StringLine
	for _, s := range t.Sides[0] {
		if t.Over() {
			return nil
		}
		if t.Bent(s) {
			continue // no string is drawn along an arc
		}
		back := slab.NewSide(s.Loop, s.Edge, s.B, s.A)
		l := StringLine{Edge: t.Loops[0].Drawn(s.Edge), Before: t.stake(back), Past: t.stake(s)}
		l.A, l.B = back.At(back.Length+l.Before, 0), s.At(s.Length+l.Past, 0)
		out = append(out, l)
	}
	return out
}

// stakeClear is how far a stake keeps from the slab: common practice, no source.
const stakeClear = 6 * inch

// stake gives how far the stake stands beyond the end of a side: its offset. Where that is in the slab or at its face, as of an edge in the same line, the
// offset counts from the far side of what is in the way.
func (t *staking) stake(s slab.Side) geometry.Length {
	off := t.spec.Offset
	at := off
	if off > 0 {
		// A look all across the slab is slow, and seldom needed.
		far := t.Across() + 2*off
		for reach := off + stakeClear; ; reach *= 4 {
			reach = min(reach, far)
			at = t.pastStake(s, reach, off)
			if at+stakeClear <= reach || reach == far {
				break
			}
		}
	}
	return at
}

// pastStake moves a stake, at a distance beyond the end of a side, past what of the
// slab is in its way within reach.
func (t *staking) pastStake(s slab.Side, reach, at geometry.Length) geometry.Length {
	on := t.Stretches[:0]
	for _, inset := range [...]geometry.Length{-inch / 8, inch / 8} { // beside the line, which may run along a face
		on = t.On.Stretches(s.At(s.Length, inset), s.At(s.Length+reach, inset), plane.Touching, on)
	}
	t.Stretches = on
	slices.SortFunc(on, func(a, b slab.Interval) int { return cmp.Compare(a.From, b.From) })
	for _, in := range on {
		if in.From < at+stakeClear && in.To > at-stakeClear && in.To > 2 {
			at = max(at, in.To+t.spec.Offset)
		}
	}
	return at
}

// grades gives the height of the top and of the underside at every corner of the
// outline, over the site's benchmark. The deeper of the two edges counts.
func (t *staking) grades() []Grade {
	var out []Grade
	for _, s := range t.Sides[0] {
		if t.Loops[0].Within(s.Edge) {
			continue
		}
		g := Grade{Corner: t.Loops[0].Drawn(s.Edge), At: s.A, Top: t.spec.Top(t.Plan)}
		rise := geometry.Length(0)
		if t.Solid != nil {
			rise = t.Solid.TopAt(s.A)
		}
		g.Top += rise
		depth := t.DepthAtCorner(s)
		g.Bottom = g.Top - depth
		if t.Plan.Base == plan.Level {
			g.Bottom -= rise // level ground does not rise with the top
		}
		g.Dig = g.Bottom - t.Under(depth)
		out = append(out, g)
	}
	return out
}
