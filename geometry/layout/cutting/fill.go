package cutting

import "slices"

// fullest cuts bar after bar: the longest piece left, with those others that
// fill the bar best by the values given. Stock at hand comes first; of the stock
// on sale the one that gives most value for its cost.
func (p *problem) fullest(values []int64) []cut {
	left := *p // the same pieces, counted down
	left.pieces = slices.Clone(p.pieces)
	hands := slices.Clone(p.hands)
	bag := newKnapsack(&left)
	var cuts []cut
	for {
		first := slices.IndexFunc(left.pieces, func(d piece) bool { return d.count > 0 })
		if first < 0 {
			return cuts
		}
		length := left.pieces[first].length
		left.pieces[first].count--
		bag.fill(values)
		stock, most := -1, -1.0
		for s, c := range p.caps {
			switch {
			case c < length || p.hands[s] > 0 && hands[s] == 0:
				continue
			case p.hands[s] > 0:
				stock = s
			default:
				worth := float64(values[first]+bag.within(0, c-length)) / float64(p.cost[s])
				if stock >= 0 && p.hands[stock] > 0 || worth <= most {
					continue
				}
				stock, most = s, worth
			}
		}
		counts := bag.patternWithin(p.caps[stock] - length)
		for i, n := range counts {
			left.pieces[i].count -= n
		}
		counts[first]++
		if p.hands[stock] > 0 {
			hands[stock]--
		}
		held := 0
		for i, n := range counts {
			held += n * p.pieces[i].length
		}
		if p.hands[stock] == 0 {
			stock = p.cheapest(held)
		}
		c := newCut(stock, counts)
		cuts = append(cuts, c)
		if n := left.again(c, first, bag.width); n > 0 && !slices.ContainsFunc(hands, func(n int) bool { return n > 0 }) {
			for range n {
				cuts = append(cuts, c)
			}
			for _, s := range c.some {
				left.pieces[s.piece].count -= n * s.count
			}
		}
	}
}

// again gives how many more bars are surely cut like the last: as long as there
// are more of every piece than any bar holds, and one more of the first.
func (p *problem) again(c cut, first, width int) int {
	spare := func(i int) int {
		n := p.pieces[i].count - width/p.pieces[i].length
		if i == first {
			n--
		}
		return n
	}
	for i, d := range p.pieces {
		if d.count > 0 && spare(i) < 0 {
			return 0
		}
	}
	n := p.pieces[first].count
	for _, s := range c.some {
		n = min(n, max(0, spare(s.piece))/s.count)
	}
	return n
}

// lengths gives the pieces' lengths as values: the fullest bar wastes least.
func (p *problem) lengths() []int64 {
	v := make([]int64, len(p.pieces))
	for i, d := range p.pieces {
		v[i] = int64(d.length)
	}
	return v
}
