// Package cutlist tells how pieces of given lengths are cut from stock: bars, form
// boards, sill plates.
package cutlist

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cutting"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/mark"
)

// List tells how pieces are cut from stock.
type List struct {
	Stock   []Bar
	Optimal bool            // proven to buy the least stock
	Bought  geometry.Length // total length bought
	Bound   geometry.Length // proven: no cutting buys less than this
	Waste   geometry.Length // left over in all
}

// Bar is one bar as bought, with the pieces sawn from it in order.
type Bar struct {
	Size   bars.Size // 0 for a board
	Name   string    // "No. 4", "2x12"
	Length geometry.Length
	Yard   bool // an offcut from the yard: not bought
	Pieces []Piece
	Rest   geometry.Length
}

// Piece is one cut.
type Piece struct {
	Mark   mark.Mark // a bar's, or that of a board of a form or a plate of a wall
	Length geometry.Length
}

// Offcut is what is left of a bar of stock.
type Offcut struct {
	Name   string // of the stock: "No. 4"
	Length geometry.Length

	size bars.Size
}

// Offcuts gives what is left of each bar of stock, where it is at least as long
// as least: worth carrying to the yard.
func (c List) Offcuts(least geometry.Length) []Offcut {
	var out []Offcut
	for _, s := range c.Stock {
		if s.Rest >= least {
			out = append(out, Offcut{s.Name, s.Rest, s.Size})
		}
	}
	slices.SortStableFunc(out, func(a, b Offcut) int {
		return cmp.Or(cmp.Compare(a.size, b.size), cmp.Compare(a.Name, b.Name), cmp.Compare(b.Length, a.Length))
	})
	return out
}

// Wanted is a length to cut, with its mark.
type Wanted struct {
	Name  string    // what it is cut from: "No. 4", "2x12"
	Size  bars.Size // 0 for a board
	Count int       // how many
	Piece
}

// Cutter makes cut lists. What it finds is about the whole job.
type Cutter struct {
	At       geometry.Point // where findings are shown
	Units    geometry.Units // of their texts
	Findings []rule.Finding
}

var ruleStock = rule.Rule{Name: "Stock lengths", Source: "set on the job"}

// SearchEffort bounds the search for the least stock of one size so that a
// layout is quick enough to follow a corner that is dragged.
const SearchEffort = 400

// Together cuts the pieces of all slabs from one stock. Where the search falls
// short of what each slab's own list buys, those lists stand: together is never
// more than apart.
func (c *Cutter) Together(bySlab [][]Wanted, stock, yard []geometry.Length, yardSize bars.Size, kerf geometry.Length) List {
	all := c.from(slices.Concat(bySlab...), stock, yard, yardSize, kerf)
	if all.Optimal || len(bySlab) < 2 || len(yard) > 0 { // what is at hand is there but once
		return all
	}
	found := len(c.Findings)
	apart := List{Bound: all.Bound}
	for _, pieces := range bySlab {
		l := c.from(pieces, stock, nil, 0, kerf)
		apart.Stock = append(apart.Stock, l.Stock...)
		apart.Bought, apart.Waste = apart.Bought+l.Bought, apart.Waste+l.Waste
	}
	c.Findings = c.Findings[:found]
	if apart.Bought >= all.Bought {
		return all
	}
	apart.Optimal = apart.Bought == apart.Bound
	return apart
}

// from makes the cut list of pieces, each name from its own stock.
func (c *Cutter) from(pieces []Wanted, stock, yard []geometry.Length, yardSize bars.Size, kerf geometry.Length) List {
	list := List{Optimal: true}
	pieces = slices.Clone(pieces) // to be sorted and counted down
	slices.SortFunc(pieces, func(a, b Wanted) int {
		return cmp.Or(cmp.Compare(a.Size, b.Size), strings.Compare(a.Name, b.Name), cmp.Compare(b.Length, a.Length), mark.Compare(a.Mark, b.Mark))
	})
	for len(pieces) > 0 {
		name, n := pieces[0].Name, 1
		for n < len(pieces) && pieces[n].Name == name {
			n++
		}
		ws := pieces[:n]
		pieces = pieces[n:]
		var from []cutting.Stock
		for _, l := range stock {
			from = append(from, cutting.Stock{Length: int64(l)})
		}
		if ws[0].Size == yardSize {
			for _, l := range yard {
				from = append(from, cutting.Stock{Length: int64(l), Hand: 1})
			}
		}
		demands, next := alike(ws)
		r, err := cutting.Solve(demands, from, int64(kerf), SearchEffort)
		if err != nil {
			c.Findings = append(c.Findings, rule.Finding{Rule: ruleStock, Severity: rule.Severe, At: c.At,
				Text: fmt.Sprintf("%s: the longest piece, %s, is longer than any stock; add a longer stock length.", name, ws[0].Length.Text(c.Units))})
			list.Optimal = false
			continue
		}
		list.Optimal = list.Optimal && r.Optimal()
		list.Bought += geometry.Length(r.Bought)
		list.Bound += geometry.Length(r.Bound)
		n = 0
		for _, w := range ws {
			n += w.Count
		}
		cut := make([]Piece, 0, n) // of all bars
		list.Stock = slices.Grow(list.Stock, len(r.Bars))
		for _, b := range r.Bars {
			s := Bar{Size: ws[0].Size, Name: name, Length: geometry.Length(from[b.Stock].Length), Yard: from[b.Stock].Hand > 0}
			s.Rest = s.Length
			for _, k := range b.Cuts {
				w := &ws[next[k]]
				cut = append(cut, w.Piece)
				s.Rest -= w.Length + kerf
				if w.Count--; w.Count == 0 {
					next[k]++
				}
			}
			s.Pieces = cut[len(cut)-len(b.Cuts) : len(cut) : len(cut)]
			s.Rest = max(0, s.Rest)
			list.Waste += s.Rest
			list.Stock = append(list.Stock, s)
		}
	}
	return list
}

// alike gives the demands of pieces that are sorted by length, equal ones as one,
// and where the pieces of each demand start.
func alike(ws []Wanted) (demands []cutting.Demand, start []int) {
	for i, w := range ws {
		n := len(demands)
		if n == 0 || demands[n-1].Length != int64(w.Length) {
			demands, start = append(demands, cutting.Demand{Length: int64(w.Length)}), append(start, i)
			n++
		}
		demands[n-1].Count += w.Count
	}
	return demands, start
}
