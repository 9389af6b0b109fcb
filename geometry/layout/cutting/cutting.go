// Package cutting solves the one-dimensional cutting stock problem: which pieces
// to cut from which stock, so that the least stock is bought.
//
// Stock on sale comes in any number and costs its length. Stock at hand
// (offcuts in the yard) costs nothing and is limited. Lengths are whole numbers
// of any unit.
package cutting

import (
	"fmt"
	"slices"
)

// Demand is a length wanted, Count times.
type Demand struct {
	Length int64
	Count  int
}

// Stock is a length that pieces are cut from.
type Stock struct {
	Length int64
	Hand   int // how many are at hand, free; 0 for stock on sale, in any number
}

// Bar is one piece of stock with what is cut from it.
type Bar struct {
	Stock int   // number of the stock
	Cuts  []int // numbers of the demands, longest first
}

// Result is a cutting plan.
type Result struct {
	Bars   []Bar
	Bought int64 // total length of the stock bought
	Bound  int64 // no plan buys less than this
}

// Optimal tells that the plan is proven to buy the least.
func (r Result) Optimal() bool { return r.Bought == r.Bound }

// Gap gives by how much, relative to the bound, the plan may exceed the least.
func (r Result) Gap() float64 {
	if r.Bound == 0 {
		return 0
	}
	return float64(r.Bought-r.Bound) / float64(r.Bound)
}

// Solve cuts the demands from stock. Each cut takes kerf from the bar. effort
// bounds the search, in steps of a few microseconds; with 0 only the quick
// ways are tried. A demand that fits no stock on sale is an error.
func Solve(demands []Demand, stock []Stock, kerf int64, effort int) (Result, error) {
	p, err := newProblem(demands, stock, kerf)
	if err != nil {
		return Result{}, err
	}
	return p.solve(effort), nil
}

// problem is a Solve with kerfs taken in: every piece is longer by a kerf, and
// so is every bar, whose last cut may fall off its end.
type problem struct {
	pieces []Demand // longest first, each length once
	name   [][]int  // the demands behind each piece, one entry per piece wanted
	sale   []int    // numbers of the stock on sale, shortest first
	hand   []int    // numbers of the stock at hand, longest first
	cap    []int64  // of every stock, kerf added
	cost   []int64  // 0 for stock at hand
	hands  []int    // how many at hand, by stock
}

func newProblem(demands []Demand, stock []Stock, kerf int64) (*problem, error) {
	p := &problem{}
	var longest int64
	for i, s := range stock {
		p.cap = append(p.cap, s.Length+kerf)
		p.hands = append(p.hands, s.Hand)
		if s.Hand > 0 {
			p.hand, p.cost = append(p.hand, i), append(p.cost, 0)
			continue
		}
		p.sale, p.cost = append(p.sale, i), append(p.cost, s.Length)
		longest = max(longest, s.Length)
	}
	order := make([]int, 0, len(demands))
	for i, d := range demands {
		if d.Count <= 0 {
			continue
		}
		if d.Length <= 0 || d.Length > longest {
			return nil, fmt.Errorf("a piece of length %d: must be more than 0 and at most the longest stock, %d", d.Length, longest)
		}
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(min(max(demands[b].Length-demands[a].Length, -1), 1)) })
	for _, i := range order {
		d := demands[i]
		if n := len(p.pieces); n == 0 || p.pieces[n-1].Length != d.Length+kerf {
			p.pieces = append(p.pieces, Demand{Length: d.Length + kerf})
			p.name = append(p.name, nil)
		}
		n := len(p.pieces) - 1
		p.pieces[n].Count += d.Count
		for range d.Count {
			p.name[n] = append(p.name[n], i)
		}
	}
	slices.SortStableFunc(p.sale, func(a, b int) int { return int(min(max(p.cap[a]-p.cap[b], -1), 1)) })
	slices.SortStableFunc(p.hand, func(a, b int) int { return int(min(max(p.cap[b]-p.cap[a], -1), 1)) })
	return p, nil
}

// cut is a pattern in use: how many of each piece come from one bar.
type cut struct {
	stock  int
	counts []int
}

func (p *problem) solve(effort int) Result {
	cuts := p.firstFit()
	r := Result{Bound: p.material()}
	next := make([]int, len(p.pieces))
	for _, c := range cuts {
		b := Bar{Stock: c.stock}
		for i, n := range c.counts {
			for range n {
				b.Cuts = append(b.Cuts, p.name[i][next[i]])
				next[i]++
			}
		}
		r.Bars = append(r.Bars, b)
		r.Bought += p.cost[c.stock]
	}
	return r
}

// material gives the bound by sheer length: what the yard cannot give must be
// bought, in whole bars.
func (p *problem) material() int64 {
	var need int64
	for _, d := range p.pieces {
		need += d.Length * int64(d.Count)
	}
	for _, h := range p.hand {
		need -= p.cap[h] * int64(p.hands[h])
	}
	if need <= 0 || len(p.sale) == 0 {
		return 0
	}
	// A bar of capacity c costs c less a kerf.
	bound := int64(0)
	for _, s := range p.sale {
		least := (need*p.cost[s] + p.cap[s] - 1) / p.cap[s]
		if bound == 0 || least < bound {
			bound = least
		}
	}
	return roundUp(bound, p.grain())
}

// grain is what every total bought is a multiple of.
func (p *problem) grain() int64 {
	g := int64(0)
	for _, s := range p.sale {
		g = gcd(g, p.cost[s])
	}
	return max(g, 1)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func roundUp(a, grain int64) int64 { return (a + grain - 1) / grain * grain }

// firstFit puts each piece, longest first, into the first bar that has room, and
// then trades each bar bought for the shortest that holds its pieces.
func (p *problem) firstFit() []cut {
	var cuts []cut
	var room []int64
	open := func(s int) {
		cuts = append(cuts, cut{s, make([]int, len(p.pieces))})
		room = append(room, p.cap[s])
	}
	for _, h := range p.hand {
		for range p.hands[h] {
			open(h)
		}
	}
	for i, d := range p.pieces {
		for range d.Count {
			at := slices.IndexFunc(room, func(r int64) bool { return r >= d.Length })
			if at < 0 {
				open(p.sale[len(p.sale)-1])
				at = len(cuts) - 1
			}
			cuts[at].counts[i]++
			room[at] -= d.Length
		}
	}
	out := cuts[:0]
	for k, c := range cuts {
		used := p.cap[c.stock] - room[k]
		if used == 0 {
			continue
		}
		if p.hands[c.stock] == 0 {
			for _, s := range p.sale {
				if p.cap[s] >= used {
					c.stock = s
					break
				}
			}
		}
		out = append(out, c)
	}
	return out
}
