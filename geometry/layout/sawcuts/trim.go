package sawcuts

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// piece is a stretch of a cut between those that it meets.
type piece struct {
	cut      int
	from, to geometry.Length
	left     int // panels beside it; -1 for none
	right    int
}

// mostPieces is up to how many pieces cuts are shortened.
const mostPieces = 2000

// shortened takes those pieces out of cuts that run right through which leave strips
// beside an edge or another cut, as long as every inside corner keeps one: a cut may end
// at another. What comes back has the panels only where they were looked at.
func (t *sawing) shortened(cuts []Cut, limit float64) divided {
	pieces := t.inPieces(cuts, limit*meter)
	if t.Over() || len(pieces) > mostPieces {
		return divided{cuts: cuts}
	}
	d := t.divide(cuts)
	if t.Over() || !slices.ContainsFunc(d.panels, panel.crumb) {
		return d
	}
	find(pieces, d)
	kept := t.merge(pieces, d, limit)
	var out []Cut
	for i, p := range pieces {
		if !kept[i] {
			continue
		}
		s := slab.NewSide(0, 0, cuts[p.cut].A, cuts[p.cut].B)
		c := cuts[p.cut]
		c.A, c.B = s.At(p.from, 0), s.At(p.to, 0)
		if p.from == 0 {
			c.A = cuts[p.cut].A
		}
		if p.to == s.Length {
			c.B = cuts[p.cut].B
		}
		if i > 0 && kept[i-1] && pieces[i-1].cut == p.cut {
			c.A = out[len(out)-1].A
			out = out[:len(out)-1]
		}
		out = append(out, c)
	}
	return divided{cuts: out}
}

// intoCorners moves the ends of cuts that lie beside an inside corner, by less than the saw is
// wide, into it, and tells whether there are any: a line from one corner passes another but for
// a hair, and a gap as narrow would make two panels one.
func (t *sawing) intoCorners(cuts []Cut) (moved bool) {
	boxes := make([]plane.Box, len(t.inside))
	for i, s := range t.inside {
		boxes[i] = plane.BoxOf(s.A)
	}
	index := plane.NewIndex(boxes)
	for k := range cuts {
		for _, end := range [...]*geometry.Point{&cuts[k].A, &cuts[k].B} {
			index.Visit(plane.BoxOf(*end).Grown(float64(kerf)), func(i int32) bool {
				at := t.inside[i].A
				near := geometry.Distance(at, *end) <= kerf
				if near && at != *end {
					*end, moved = at, true
				}
				return !near
			})
		}
	}
	return moved
}

// inPieces gives cuts in pieces between those, and the inside corners, that they meet,
// in order.
func (t *sawing) inPieces(cuts []Cut, limit float64) []piece {
	var out []piece
	all := laidOut(cuts, limit)
	for i, c := range cuts {
		s := slab.NewSide(0, 0, c.A, c.B)
		stops := []geometry.Length{0, s.Length}
		all.any(c.A, c.B, beyond, func(o Cut) bool {
			if p, ok := geometry.Meet(c.A, c.B, o.A, o.B); ok {
				along, _ := s.Project(p)
				stops = append(stops, along)
				return false
			}
			for _, p := range [...]geometry.Point{o.A, o.B} { // one that ends here, but for rounding
				if along, off := s.Project(p); off.Abs() < beyond && along > 0 && along < s.Length {
					stops = append(stops, along)
				}
			}
			return false
		})
		for _, c := range t.inside {
			if along, off := s.Project(c.A); off.Abs() < kerf && along > 0 && along < s.Length {
				stops = append(stops, along)
			}
		}
		slices.Sort(stops)
		stops = slices.CompactFunc(stops, func(a, b geometry.Length) bool { return (b - a).Abs() < beyond })
		stops[len(stops)-1] = s.Length
		for k := 1; k < len(stops); k++ {
			out = append(out, piece{i, stops[k-1], stops[k], -1, -1})
		}
	}
	return out
}

// find notes the panels beside every piece.
func find(pieces []piece, d divided) {
	boxes := make([]plane.Box, len(d.parts))
	for i, g := range d.parts {
		boxes[i] = plane.BoxOf(g[0]...)
	}
	index := plane.NewIndex(boxes)
	at := func(p geometry.Point) int {
		found := -1
		index.Visit(plane.BoxOf(p), func(i int32) bool {
			if !d.panels[i].none() && d.parts[i].Contains(p) {
				found = int(i)
			}
			return found < 0
		})
		return found
	}
	for i := range pieces {
		p := &pieces[i]
		s := slab.NewSide(0, 0, d.cuts[p.cut].A, d.cuts[p.cut].B)
		mid := (p.from + p.to) / 2
		p.left, p.right = at(s.At(mid, kerf/2)), at(s.At(mid, -kerf/2))
	}
}

// mostSplits bounds how many panels are split one by one.
const mostSplits = 200

// split cuts panels that are too long or slim across their middle, from one cut or
// edge to the next, where that mends more than it spoils.
func (t *sawing) split(d divided, limit float64) divided {
	for i, tries := 0, 0; i < len(d.panels) && tries < mostSplits && !t.Over(); i++ {
		p := d.panels[i]
		long := p.box.length > limit+float64(inch)/meter
		slim := !p.strip() && p.box.length > t.spec.Aspect*p.box.width && p.box.width >= leastSide/meter
		n := max(2, math.Ceil(p.box.length/limit-1e-9))
		if !long && !slim || p.box.length/n < leastSide/meter {
			continue
		}
		tries++
		var more []Cut
		on := plane.NewSides(d.parts[i])
		for k := 1.0; k < n; k++ {
			mid := p.box.mid.Add(p.box.along.Times(p.box.length * (k/n - 0.5)))
			aside := p.box.along.Left().Times(p.box.width)
			s := slab.NewSide(0, 0, point(mid.Sub(aside)), point(mid.Add(aside)))
			whole := t.Within(s.A, s.B)
			for _, in := range on.Clear(s.A, s.B, inch/2, nil) {
				for _, w := range whole {
					if from, to := max(w.From, in.From-slit), min(w.To, in.To+slit); to > from+kerf {
						more = append(more, Cut{A: s.At(from, 0), B: s.At(to, 0), Depth: t.spec.CutDepth(t.Plan.Field, t.Units), Why: ForSpacing})
					}
				}
			}
		}
		after := dividedBy(d.parts[i], more, t.Over)
		if len(more) == 0 || t.faults(after.panels, limit) > t.fault(p, limit)-perLine*float64(len(more)) {
			continue
		}
		d.cuts = append(d.cuts, more...)
		d.panels = append(slices.Delete(d.panels, i, i+1), after.panels...) // looked at in their turn
		d.parts = append(slices.Delete(d.parts, i, i+1), after.parts...)
		i--
	}
	return d
}

// faults adds up what is wrong with panels.
func (t *sawing) faults(ps []panel, limit float64) (sum float64) {
	for _, p := range ps {
		sum += t.fault(p, limit)
	}
	return sum
}

// point gives a place in meters on the plan.
func point(v slab.Vec) geometry.Point {
	return geometry.Point{X: geometry.FromMeters(v.X), Y: geometry.FromMeters(v.Y)}
}
