// Package cutting solves the one-dimensional cutting stock problem: which pieces
// to cut from which stock, so that the least stock is bought.
//
// Stock on sale comes in any number and costs its length. Stock at hand
// (offcuts in the yard) costs nothing and is limited. Lengths are whole numbers
// of any unit.
//
// A quick plan by first fit is compared with a lower bound from the linear
// program over cutting patterns (Gilmore and Gomory, A Linear Programming
// Approach to the Cutting-Stock Problem, Operations Research 9, 1961), made safe
// by whole-number duals. While they differ, a depth-first search over maximal
// patterns looks for a plan that meets the bound or proves that there is none.
package cutting

import (
	"cmp"
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
// bounds the search, in patterns tried; with 0 only first fit and the bound by
// sheer length are. A demand that fits no stock on sale is an error, which names its number.
func Solve(demands []Demand, stock []Stock, kerf int64, effort int) (Result, error) {
	p, err := newProblem(demands, stock, kerf)
	if err != nil {
		return Result{}, err
	}
	cuts, bound := p.solve(effort)
	r := Result{Bound: bound, Bars: make([]Bar, 0, len(cuts))}
	next := make([]int, len(p.pieces))
	all := 0
	for _, d := range p.pieces {
		all += d.count
	}
	names := make([]int, 0, all)
	for _, c := range cuts {
		from := len(names)
		for _, s := range c.some {
			n := min(s.count, len(p.name[s.piece])-next[s.piece])
			names = append(names, p.name[s.piece][next[s.piece]:next[s.piece]+n]...)
			next[s.piece] += n
		}
		r.Bars = append(r.Bars, Bar{Stock: c.stock, Cuts: names[from:len(names):len(names)]})
		if p.hands[c.stock] == 0 {
			r.Bought += stock[c.stock].Length
		}
	}
	return r, nil
}

// maxUnits bounds the size of the tables: lengths that share no larger unit are
// rounded to a grid, pieces up and stock down.
const maxUnits = 1 << 14

// problem is a Solve in small whole units, with kerfs taken in: every piece is
// longer by a kerf, and so is every bar, whose last cut may fall off its end.
type problem struct {
	pieces []piece // longest first, each length once
	name   [][]int // the demands behind each piece, one entry per piece wanted
	caps   []int   // of every stock
	cost   []int   // of every stock, in grains; 0 at hand
	hands  []int   // how many at hand, by stock; 0 for any number
	sale   []int   // numbers of the stock on sale, shortest first
	grain  int64   // what a cost of 1 is in lengths
	exact  bool    // the units are no grid
}

type piece struct{ length, count int }

func newProblem(demands []Demand, stock []Stock, kerf int64) (*problem, error) {
	p := &problem{exact: true}
	var longest int64
	for _, s := range stock {
		p.hands = append(p.hands, max(0, s.Hand))
		if s.Hand <= 0 {
			longest = max(longest, s.Length)
		}
	}
	order := make([]int, 0, len(demands))
	unit, shortest := int64(0), longest
	for i, d := range demands {
		if d.Count <= 0 {
			continue
		}
		if d.Length <= 0 || d.Length > longest {
			return nil, fmt.Errorf("demand %d: a piece of length %d must be more than 0 and at most the longest stock, %d", i, d.Length, longest)
		}
		unit, shortest = gcd(unit, d.Length+kerf), min(shortest, d.Length)
		order = append(order, i)
	}
	if len(order) == 0 {
		return p, nil
	}
	if (longest+kerf)/unit > maxUnits {
		unit, p.exact = (longest+kerf)/maxUnits+1, false
	}
	useful := func(s Stock) bool { return s.Hand <= 0 && s.Length >= shortest }
	for _, s := range stock {
		if useful(s) {
			p.grain = gcd(p.grain, s.Length)
		}
	}
	for i, s := range stock {
		p.caps = append(p.caps, int(min((s.Length+kerf)/unit, maxUnits)))
		if !useful(s) {
			p.cost = append(p.cost, 0)
			if s.Hand <= 0 {
				p.caps[i] = 0 // too short for any piece
			}
			continue
		}
		p.sale, p.cost = append(p.sale, i), append(p.cost, int(s.Length/p.grain))
	}
	slices.SortStableFunc(p.sale, func(a, b int) int { return cmp.Compare(stock[a].Length, stock[b].Length) })
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(demands[b].Length, demands[a].Length) })
	most := p.caps[p.sale[len(p.sale)-1]]
	for _, i := range order {
		d := demands[i]
		units := min(int((d.Length+kerf+unit-1)/unit), most)
		if n := len(p.pieces); n == 0 || p.pieces[n-1].length != units {
			p.pieces = append(p.pieces, piece{length: units})
			p.name = append(p.name, nil)
		}
		n := len(p.pieces) - 1
		p.pieces[n].count += d.Count
		for range d.Count {
			p.name[n] = append(p.name[n], i)
		}
	}
	return p, nil
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// cut is a pattern in use: how many of which pieces come from one bar, the
// longest first. A bar holds few of many pieces.
type cut struct {
	stock int
	some  []some
}

// some is a number of equal pieces.
type some struct{ piece, count int }

// newCut gives the cut of a pattern over all pieces.
func newCut(stock int, counts []int) cut {
	c := cut{stock: stock}
	for i, n := range counts {
		if n > 0 {
			c.some = append(c.some, some{i, n})
		}
	}
	return c
}

// solve gives a plan and the bound on what must be bought, in lengths.
func (p *problem) solve(effort int) ([]cut, int64) {
	if len(p.pieces) == 0 {
		return nil, 0
	}
	best := p.firstFit(p.wanted(), nil)
	bound := p.material()
	if !p.exact {
		return best, int64(bound) * p.grain
	}
	if p.price(best) > bound && p.price(best) <= mostGrains && p.work() <= programWork*effort && p.filling() <= fillingWork*effort {
		lp := newProgram(p)
		lp.solve()
		d := lp.dual()
		bound = max(bound, d.bound)
		for _, try := range []func() []cut{
			func() []cut { return p.roundDown(lp) },
			func() []cut { return p.fullest(p.lengths()) },
			func() []cut { return p.fullest(d.values) },
		} {
			if p.price(best) == bound {
				break
			}
			if c := try(); p.price(c) < p.price(best) {
				best = c
			}
		}
		s := search{p: p, d: d, left: effort}
		// A bound in tiny grains is raised a number of times, not to no end.
		for round := 0; p.price(best) > bound && s.left > 0 && round < maxRounds; round++ {
			found, done := s.find(bound)
			switch {
			case found != nil:
				best = found
			case done:
				bound++ // no plan meets it
			}
		}
	}
	return best, int64(bound) * p.grain
}

// programWork is how much of the linear program's work an effort of 1 pays for,
// and fillingWork how much of the filling of its tables.
const (
	programWork = 10_000
	fillingWork = 20 * programWork
)

// maxRounds bounds how many targets a search tries, and mostGrains the price up
// to which its sums are sure to fit their integers.
const (
	maxRounds  = 1000
	mostGrains = 1 << 37
)

// work estimates the linear program's: its steps grow with the pieces, and each
// fills a table.
func (p *problem) work() int {
	m := len(p.pieces)
	return m * m * p.caps[p.sale[len(p.sale)-1]]
}

// filling estimates the filling of tables: short pieces go many times into a bar.
func (p *problem) filling() int {
	most, n := p.caps[p.sale[len(p.sale)-1]], 0
	for _, d := range p.pieces {
		n += most * min(d.count, most/d.length)
	}
	return n * len(p.pieces)
}

// price gives what a plan buys, in grains.
func (p *problem) price(cuts []cut) int {
	sum := 0
	for _, c := range cuts {
		sum += p.cost[c.stock]
	}
	return sum
}

func (p *problem) wanted() []int {
	w := make([]int, len(p.pieces))
	for i, d := range p.pieces {
		w[i] = d.count
	}
	return w
}

// material gives the bound by sheer length, in grains: what the yard cannot give
// must be bought, at best from the stock that gives most for its cost.
func (p *problem) material() int {
	need := 0
	for _, d := range p.pieces {
		need += d.length * d.count
	}
	for s, n := range p.hands {
		need -= p.caps[s] * n
	}
	if need <= 0 || !p.exact && need <= p.slack() {
		return 0
	}
	if !p.exact {
		need -= p.slack()
	}
	bound := -1
	for _, s := range p.sale {
		// A grid rounds stock down by less than a unit.
		give := p.caps[s]
		if !p.exact {
			give++
		}
		if least := (need*p.cost[s] + give - 1) / give; bound < 0 || least < bound {
			bound = least
		}
	}
	return bound
}

// slack is what rounding to a grid may have added to the need.
func (p *problem) slack() int {
	n := 0
	for _, d := range p.pieces {
		n += d.count
	}
	for _, h := range p.hands {
		n += h
	}
	return n
}

// firstFit adds to used bars, and cuts what is wanted: each piece, longest
// first, from the first bar that has room. Each bar bought is traded for the
// cheapest that holds its pieces.
func (p *problem) firstFit(wanted []int, used []cut) []cut {
	fixed := len(used)
	room := make([]int, fixed) // none is left in those
	hands := slices.Clone(p.hands)
	for _, c := range used {
		if hands[c.stock] > 0 {
			hands[c.stock]--
		}
	}
	total := 0
	for _, n := range wanted {
		total += n
	}
	for _, n := range hands {
		total += n
	}
	open := newRooms(room, fixed+total)
	cuts := append(make([]cut, 0, fixed+total), used...)
	firsts := make([]some, total) // what is cut first from each bar
	bar := func(s int) {
		k := len(cuts) - fixed
		open.add(p.caps[s])
		cuts = append(cuts, cut{s, firsts[k : k : k+1]})
	}
	for s, n := range hands {
		if p.hands[s] > 0 {
			for range n {
				bar(s)
			}
		}
	}
	for i, d := range p.pieces {
		for left := wanted[i]; left > 0; {
			first := open.first(d.length)
			if first < 0 {
				bar(p.sale[len(p.sale)-1])
				continue
			}
			n := min(left, open.at(first)/d.length)
			cuts[first].some = append(cuts[first].some, some{i, n})
			open.take(first, n*d.length)
			left -= n
		}
	}
	out := cuts[:fixed]
	for k := fixed; k < len(cuts); k++ {
		c := cuts[k]
		held := p.caps[c.stock] - open.at(k)
		if held == 0 {
			continue
		}
		if p.hands[c.stock] == 0 {
			c.stock = p.cheapest(held)
		}
		out = append(out, c)
	}
	return out
}

// cheapest gives the stock on sale that holds so much for the least.
func (p *problem) cheapest(held int) int {
	for _, s := range p.sale {
		if p.caps[s] >= held {
			return s
		}
	}
	return p.sale[len(p.sale)-1]
}
