package sheet

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// tries is how many orders of blocks are tried where they may save a sheet, and sorted how
// many more where they do, for the order of the work.
const (
	tries  = 3000
	sorted = 600
)

// fewer gives how many orders are tried of so many blocks: each takes the longer, the more
// there are.
func fewer(n, blocks int) int {
	const usual = 20
	if blocks <= usual {
		return n
	}
	return n * usual * usual / (blocks * blocks)
}

// mix sets the blocks of all topics among each other, in several orders and widths, each a
// step from the best so far: first those that leave less for the last sheet, where that may
// save one, then those that keep together what is for one step of the work. It gives what it
// began with where it finds nothing better.
func (s *set) mix(than *packing, sized [][]sizedBlock, least int) *packing {
	blocks := slices.Concat(sized...)
	if len(blocks) < 2 {
		return than
	}
	settled := fewer(sorted, len(blocks))
	left := settled
	if len(than.sheets) > least {
		left = fewer(tries, len(blocks))
		slices.SortStableFunc(blocks, func(a, b sizedBlock) int { return cmp.Compare(b.width*b.tall, a.width*a.tall) })
	}
	most := mostSheets
	try := func() *packing {
		p := &packing{grid: than.grid, topics: than.topics, scatter: true}
		for _, b := range blocks {
			if p.add(0, b); len(p.sheets) > most {
				break
			}
		}
		return p
	}
	best := try()
	apart := best.apart()
	most = len(best.sheets)
	chance := rand.New(rand.NewPCG(1, 0))
	for ; left > 0 && s.stopped() == nil; left-- {
		was := slices.Clone(blocks)
		a, b := chance.IntN(len(blocks)), chance.IntN(len(blocks))
		if n := len(blocks[a].others); n > 0 && chance.IntN(3) == 0 {
			other := blocks[a].others[chance.IntN(n)]
			other.others = blocks[a].others
			blocks[a] = other
		} else {
			blocks[a], blocks[b] = blocks[b], blocks[a]
		}
		p := try()
		done := len(best.sheets) <= least || left <= settled
		if done {
			left = min(left, settled)
		}
		switch {
		case len(p.sheets) < len(best.sheets),
			len(p.sheets) == len(best.sheets) && !done && p.last() <= best.last(),
			len(p.sheets) == len(best.sheets) && done && p.apart() <= apart:
			best, most, apart = p, len(p.sheets), p.apart()
		default:
			blocks = was
		}
	}
	if len(best.sheets) < len(than.sheets) || len(best.sheets) == len(than.sheets) && apart < than.apart() {
		return best
	}
	return than
}

// How far apart things are counted, mm: a topic on one more sheet, and a block a sheet later
// than its step of the work is.
const (
	sheetApart = 250.0
	stepLate   = 40.0
)

// apart gives how far from each other the blocks of each topic stand, mm.
func (p *packing) apart() float64 {
	sum := -stepLate * p.order
	for _, s := range p.sheets {
		for _, name := range s.topics {
			sum += sheetApart
			var mid Point
			n := 0.0
			for _, b := range s.put {
				if b.topic == name {
					mid, n = mid.Add(b.middle()), n+1
				}
			}
			mid = mid.Times(1 / n)
			for _, b := range s.put {
				if b.topic == name {
					sum += b.middle().Sub(mid).Length()
				}
			}
		}
	}
	return sum
}

// last gives how much of the last sheet is taken, mm².
func (p *packing) last() float64 {
	if len(p.sheets) == 0 {
		return 0
	}
	return p.sheets[len(p.sheets)-1].taken
}
