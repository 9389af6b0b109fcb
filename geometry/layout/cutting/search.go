package cutting

import (
	"cmp"
	"math/big"
	"slices"
)

// dual is a set of whole-number values of the pieces, by which no pattern of any
// stock on sale is worth more than unit times its cost. So every plan costs at
// least what its pieces are worth, less what the yard's stock can hold.
type dual struct {
	values []int64
	unit   int64
	worth  int64 // of all pieces, less the best pattern of all stock at hand
	bound  int   // in grains
	bag    *knapsack
}

// dual makes the duals of the linear program safe.
func (lp *program) dual() dual {
	d := dual{values: lp.values(), bag: &lp.bag}
	lp.bag.fill(d.values)
	for _, s := range lp.p.sale {
		c := int64(lp.p.cost[s])
		d.unit = max(d.unit, (lp.bag.best(s)+c-1)/c)
	}
	d.unit = max(d.unit, 1)
	worth, term := new(big.Int), new(big.Int)
	for i, v := range d.values {
		worth.Add(worth, term.Mul(big.NewInt(v), big.NewInt(int64(lp.p.pieces[i].count))))
	}
	for _, s := range lp.hand {
		worth.Sub(worth, term.Mul(big.NewInt(lp.bag.best(s)), big.NewInt(int64(lp.p.hands[s]))))
	}
	if worth.Sign() > 0 && worth.IsInt64() {
		d.worth = worth.Int64()
		d.bound = int((d.worth + d.unit - 1) / d.unit)
	}
	return d
}

// search looks, depth first, for a plan that costs no more than a target. Every
// bar of a plan wastes the difference between its cost and its pieces' worth;
// all wastes together are what the target leaves over the worth of all pieces.
type search struct {
	p      *problem
	d      dual
	left   int // patterns that may still be tried
	want   []int
	hands  []int
	cuts   []cut
	funds  int              // what may still be spent, in grains
	failed map[string]int64 // by what is left to cut: the waste that was not enough
	key    []byte
}

// find gives a plan that costs at most target grains, or nil. done tells that
// the search was complete: without a plan, there is none.
func (s *search) find(target int) (plan []cut, done bool) {
	s.want, s.hands, s.cuts = s.p.wanted(), slices.Clone(s.p.hands), nil
	s.failed = map[string]int64{}
	budget := int64(target)*s.d.unit - s.d.worth
	if budget < 0 {
		return nil, true
	}
	s.funds = target
	if s.place(budget) {
		return slices.Clone(s.cuts), true
	}
	return nil, s.left > 0
}

// option is a pattern for the next bar.
type option struct {
	stock  int
	counts []int
	waste  int64
	used   int
}

// maxOptions bounds the patterns kept for one bar; beyond, a search that fails
// proves nothing, and counts as cut short.
const maxOptions = 4000

// maxSteps bounds the looking for those patterns likewise.
const maxSteps = 200_000

// place cuts the longest piece left, and all others, within a budget of waste.
func (s *search) place(budget int64) bool {
	first := slices.IndexFunc(s.want, func(n int) bool { return n > 0 })
	if first < 0 {
		return true
	}
	key := s.state()
	if had, ok := s.failed[key]; ok && budget <= had {
		return false
	}
	options := s.options(first, budget)
	slices.SortStableFunc(options, func(a, b option) int {
		return cmp.Or(cmp.Compare(a.waste, b.waste), cmp.Compare(b.used, a.used))
	})
	for _, o := range options {
		if s.p.cost[o.stock] > s.funds {
			continue
		}
		if s.left--; s.left <= 0 {
			return false
		}
		s.funds -= s.p.cost[o.stock]
		for i, n := range o.counts {
			s.want[i] -= n
		}
		if s.p.hands[o.stock] > 0 {
			s.hands[o.stock]--
		}
		s.cuts = append(s.cuts, newCut(o.stock, o.counts))
		if s.place(budget - o.waste) {
			return true
		}
		s.cuts = s.cuts[:len(s.cuts)-1]
		s.funds += s.p.cost[o.stock]
		if s.p.hands[o.stock] > 0 {
			s.hands[o.stock]++
		}
		for i, n := range o.counts {
			s.want[i] += n
		}
	}
	if s.left > 0 {
		s.failed[key] = budget
	}
	return false
}

// state is what is left, as a key.
func (s *search) state() string {
	s.key = s.key[:0]
	for _, n := range s.want {
		s.key = append(s.key, byte(n), byte(n>>8))
	}
	for k, n := range s.hands {
		if s.p.hands[k] > 0 {
			s.key = append(s.key, byte(n), byte(n>>8))
		}
	}
	return string(s.key)
}

// options gives the patterns of every stock that hold the piece first, can take
// no further piece, and waste no more than the budget. Filling a bar with pieces
// of other bars never makes a plan dearer, so others need no look.
func (s *search) options(first int, budget int64) []option {
	var out []option
	for stock, room := range s.p.caps {
		if s.p.hands[stock] > 0 && s.hands[stock] == 0 || room < s.p.pieces[first].length {
			continue
		}
		full := int64(s.p.cost[stock]) * s.d.unit
		if s.p.hands[stock] > 0 {
			full = s.d.bag.best(stock)
		}
		e := enumeration{s: s, stock: stock, least: full - budget, full: full, counts: make([]int, len(s.want))}
		e.from(first, first, room, 0)
		out = append(out, e.found...)
		if len(out) > maxOptions || e.steps > maxSteps {
			s.left = 0
			return nil
		}
	}
	return out
}

// enumeration lists maximal patterns of one stock.
type enumeration struct {
	s           *search
	stock       int
	least, full int64 // worth of a pattern: at least, and what wastes nothing
	counts      []int
	found       []option
	steps       int
}

// from chooses how many of piece i and of those after it.
func (e *enumeration) from(i, first, room int, worth int64) {
	s := e.s
	if e.steps++; len(e.found) > maxOptions || e.steps > maxSteps || worth+s.d.bag.within(i, room) < e.least {
		return
	}
	if i == len(s.want) {
		for k, n := range s.want {
			if n > e.counts[k] && s.p.pieces[k].length <= room {
				return // another piece fits: not maximal
			}
		}
		e.found = append(e.found, option{e.stock, slices.Clone(e.counts), e.full - worth, s.p.caps[e.stock] - room})
		return
	}
	length := s.p.pieces[i].length
	least := 0
	if i == first {
		least = 1
	}
	for n := min(s.want[i], room/length); n >= least; n-- {
		e.counts[i] = n
		e.from(i+1, first, room-n*length, worth+int64(n)*s.d.values[i])
	}
	e.counts[i] = 0
}
