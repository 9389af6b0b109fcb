package sawcuts

import (
	"slices"

	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// gap is what parts two panels: pieces of cuts.
type gap struct {
	panels [2]int
	pieces []int // the first one first
	mends  float64
	judged bool // mends is known
}

// merge joins panels across pieces, best first, while that mends more than it spoils,
// and tells which pieces are left.
func (t *sawing) merge(pieces []piece, d divided, limit float64) []bool {
	panels, fault := slices.Clone(d.panels), make([]float64, len(d.panels))
	for i := range panels {
		fault[i] = t.fault(panels[i], limit)
	}
	kept := make([]bool, len(pieces))
	for i := range kept {
		kept[i] = true
	}
	ends := t.endsOf(pieces, d.cuts)
	drop := func(ps ...int) {
		ends.drop(ps)
		for _, i := range ps {
			kept[i] = false
		}
	}
	gaps := make([]*gap, len(pieces)) // each at its first piece
	beside := make([]map[int]*gap, len(panels))
	for i := range beside {
		beside[i] = map[int]*gap{}
	}
	for i, p := range pieces {
		switch {
		case p.left == p.right && p.left >= 0: // it ends in the middle of a panel
			drop(i)
		case min(p.left, p.right) < 0: // along an edge
			if !ends.last(i) {
				drop(i)
			}
		case beside[p.left][p.right] != nil:
			g := beside[p.left][p.right]
			g.pieces = append(g.pieces, i)
		default:
			g := &gap{panels: [2]int{p.left, p.right}, pieces: []int{i}}
			gaps[i], beside[p.left][p.right], beside[p.right][p.left] = g, g, g
		}
	}
	for {
		var best *gap
		mends := -1e-6
		for _, g := range gaps {
			if g == nil {
				continue
			}
			a, b := g.panels[0], g.panels[1]
			if !panels[a].crumb() && !panels[b].crumb() {
				continue
			}
			if !g.judged {
				g.mends, g.judged = t.fault(panels[a].with(panels[b]), limit)-fault[a]-fault[b], true
			}
			if g.mends < mends-1e-9 && !ends.last(g.pieces...) {
				best, mends = g, g.mends
			}
		}
		if best == nil {
			return kept
		}
		drop(best.pieces...)
		gaps[best.pieces[0]] = nil
		a, b := best.panels[0], best.panels[1]
		panels[a] = panels[a].with(panels[b])
		fault[a] = t.fault(panels[a], limit)
		delete(beside[a], b)
		delete(beside[b], a)
		for far, g := range beside[b] {
			delete(beside[far], b)
			if o := beside[a][far]; o != nil {
				gaps[o.pieces[0]], gaps[g.pieces[0]] = nil, nil
				g.pieces = append(g.pieces, o.pieces...)
				slices.Sort(g.pieces)
			}
			g.panels = [2]int{a, far}
			gaps[g.pieces[0]], beside[a][far], beside[far][a] = g, g, g
		}
		for _, g := range beside[a] {
			g.judged = false
		}
	}
}

// ends is which pieces end at which inside corners.
type ends struct {
	of   [][]int // the corners of each piece
	left []int   // how many pieces each corner has left
}

func (t *sawing) endsOf(pieces []piece, cuts []Cut) ends {
	e := ends{make([][]int, len(pieces)), make([]int, len(t.inside))}
	boxes := make([]plane.Box, len(t.inside))
	for k, c := range t.inside {
		boxes[k] = plane.BoxOf(c.A)
	}
	index := plane.NewIndex(boxes)
	for i, p := range pieces {
		s := slab.NewSide(0, 0, cuts[p.cut].A, cuts[p.cut].B)
		for _, k := range index.Near(plane.BoxOf(s.At(p.from, 0), s.At(p.to, 0)).Grown(2*float64(inch)), nil) {
			if along, off := s.Project(t.inside[k].A); off.Abs() < inch && along > p.from-inch && along < p.to+inch {
				e.of[i] = append(e.of[i], int(k))
				e.left[k]++
			}
		}
	}
	return e
}

// last tells whether a corner has no piece left without some.
func (e ends) last(pieces ...int) bool {
	for _, i := range pieces {
		for _, k := range e.of[i] {
			here := 0
			for _, o := range pieces {
				if slices.Contains(e.of[o], k) {
					here++
				}
			}
			if here == e.left[k] {
				return true
			}
		}
	}
	return false
}

func (e ends) drop(pieces []int) {
	for _, i := range pieces {
		for _, k := range e.of[i] {
			e.left[k]--
		}
	}
}
