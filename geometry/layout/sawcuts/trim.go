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
// at another.
func (t *sawing) shortened(cuts []Cut, limit float64) []Cut {
	pieces := t.inPieces(cuts)
	if len(pieces) > mostPieces {
		return cuts
	}
	d := t.divide(cuts)
	if !slices.ContainsFunc(d.panels, panel.crumb) {
		return cuts
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
	return out
}

// inPieces gives cuts in pieces between those, and the inside corners, that they meet,
// in order.
func (t *sawing) inPieces(cuts []Cut) []piece {
	var out []piece
	corners := t.inside()
	for i, c := range cuts {
		s := slab.NewSide(0, 0, c.A, c.B)
		stops := []geometry.Length{0, s.Length}
		for k, o := range cuts {
			if k == i {
				continue
			}
			if p, ok := geometry.Meet(c.A, c.B, o.A, o.B); ok {
				along, _ := s.Project(p)
				stops = append(stops, along)
				continue
			}
			for _, p := range [...]geometry.Point{o.A, o.B} { // one that ends here, but for rounding
				if along, off := s.Project(p); off.Abs() < beyond && along > 0 && along < s.Length {
					stops = append(stops, along)
				}
			}
		}
		for _, c := range corners {
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

// merge joins panels across pieces, best first, while that mends more than it spoils,
// and tells which pieces are left.
func (t *sawing) merge(pieces []piece, d divided, limit float64) []bool {
	panels := d.panels
	group := make([]int, len(panels))
	fault := make([]float64, len(panels))
	for i := range panels {
		group[i], fault[i] = i, t.fault(panels[i], limit)
	}
	kept := make([]bool, len(pieces))
	for i := range kept {
		kept[i] = true
	}
	corners := t.cornersOf(pieces, d.cuts)
	known := map[[2]int]float64{} // what joining two panels changes
	for {
		between := map[[2]int][]int{}
		var order [][2]int
		for i, p := range pieces {
			if !kept[i] {
				continue
			}
			a, b := -1, -1
			if p.left >= 0 {
				a = group[p.left]
			}
			if p.right >= 0 {
				b = group[p.right]
			}
			switch {
			case a == b && a >= 0: // it ends in the middle of a panel
				kept[i] = false
				continue
			case min(a, b) < 0: // along an edge
				kept[i] = losesCorner(corners, kept, []int{i})
				continue
			}
			k := [2]int{min(a, b), max(a, b)}
			if between[k] == nil {
				order = append(order, k)
			}
			between[k] = append(between[k], i)
		}
		var best [2]int
		mends := -1e-6
		for _, k := range order {
			a, b := panels[k[0]], panels[k[1]]
			if !a.crumb() && !b.crumb() {
				continue
			}
			by, ok := known[k]
			if !ok {
				by = t.fault(a.with(b), limit) - fault[k[0]] - fault[k[1]]
				known[k] = by
			}
			if by < mends-1e-9 && !losesCorner(corners, kept, between[k]) {
				best, mends = k, by
			}
		}
		if mends >= -1e-6 {
			return kept
		}
		for _, i := range between[best] {
			kept[i] = false
		}
		panels[best[0]] = panels[best[0]].with(panels[best[1]])
		fault[best[0]] = t.fault(panels[best[0]], limit)
		for i, g := range group {
			if g == best[1] {
				group[i] = best[0]
			}
		}
		for k := range known {
			if k[0] == best[0] || k[1] == best[0] || k[0] == best[1] || k[1] == best[1] {
				delete(known, k)
			}
		}
	}
}

// cornersOf gives, for every inside corner, the pieces that end at it.
func (t *sawing) cornersOf(pieces []piece, cuts []Cut) [][]int {
	var out [][]int
	for _, c := range t.inside() {
		var at []int
		for i, p := range pieces {
			s := slab.NewSide(0, 0, cuts[p.cut].A, cuts[p.cut].B)
			if along, off := s.Project(c.A); off.Abs() < inch && along > p.from-inch && along < p.to+inch {
				at = append(at, i)
			}
		}
		if len(at) > 0 {
			out = append(out, at)
		}
	}
	return out
}

// losesCorner tells whether a corner has no piece left without some.
func losesCorner(corners [][]int, kept []bool, without []int) bool {
	return slices.ContainsFunc(corners, func(at []int) bool {
		return !slices.ContainsFunc(at, func(i int) bool { return kept[i] && !slices.Contains(without, i) })
	})
}

// inside gives the sides that start at an inside corner that cracks run from.
func (t *sawing) inside() (out []slab.Side) {
	for _, l := range t.Sides {
		for _, s := range l {
			if slab.Interior(t.Before(s), s) > math.Pi+0.2 {
				out = append(out, s)
			}
		}
	}
	return out
}

// mostSplits bounds how many panels are split one by one.
const mostSplits = 200

// split cuts panels that are too long or slim across their middle, from one cut or
// edge to the next, where that mends more than it spoils.
func (t *sawing) split(d divided, limit float64) divided {
	for i, tries := 0, 0; i < len(d.panels) && tries < mostSplits; i++ {
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
						more = append(more, Cut{A: s.At(from, 0), B: s.At(to, 0), Depth: t.spec.CutDepth(t.Plan.Field), Why: ForSpacing})
					}
				}
			}
		}
		after := dividedBy(d.parts[i], more)
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
