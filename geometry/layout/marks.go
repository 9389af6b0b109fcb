package layout

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cutting"
)

// kind is what bars of one mark have in common.
type kind struct {
	letter string
	size   int
	cut    geometry.Length
	bends  string // legs and bends
}

// mark gives every bar its mark: a letter for what it belongs to and a number,
// the same for bars that are cut and bent alike.
func mark(bars []*Bar) {
	number := map[kind]int{}
	numbers := make([]int, len(bars))
	var order []kind
	for i, b := range bars {
		k := b.kind()
		if n := len(order); n > 0 && i > 0 && order[numbers[i-1]] == k { // as in a grid
			numbers[i] = numbers[i-1]
			continue
		}
		n, ok := number[k]
		if !ok {
			n = len(order)
			number[k] = n
			order = append(order, k)
		}
		numbers[i] = n
	}
	sorted := slices.Clone(order)
	slices.SortFunc(sorted, func(a, b kind) int {
		return cmp.Or(
			strings.Compare(a.letter, b.letter),
			cmp.Compare(b.size, a.size),
			cmp.Compare(b.cut, a.cut),
			strings.Compare(a.bends, b.bends))
	})
	letter, n := "", 0
	marks := make([]string, len(order))
	for _, k := range sorted {
		if k.letter != letter {
			letter, n = k.letter, 0
		}
		n++
		marks[number[k]] = letter + strconv.Itoa(n)
	}
	for i, b := range bars {
		b.Mark = marks[numbers[i]]
	}
}

// letter tells bars apart at a glance: A straight and B bent in the edges, F in
// the field, P in pads, S in strips, D dowels.
func (b *Bar) letter() string {
	switch {
	case strings.HasPrefix(b.Row, "field"):
		return "F"
	case strings.HasPrefix(b.Row, "pad"):
		return "P"
	case strings.HasPrefix(b.Row, "strip"):
		return "S"
	case strings.HasPrefix(b.Row, "dowel"):
		return "D"
	case len(b.Bends) > 0:
		return "B"
	}
	return "A"
}

// shapeGrain is how far legs of like bars may differ.
const shapeGrain = geometry.Inch / 8

// kind is equal for bars that are cut and bent alike, in either direction.
func (b *Bar) kind() kind {
	k := kind{letter: b.letter(), size: b.Size, cut: b.Cut}
	if len(b.Legs) > 0 {
		forth, back := b.shapeFrom(false), b.shapeFrom(true)
		if bytes.Compare(back, forth) < 0 {
			forth = back
		}
		k.bends = string(forth)
	}
	return k
}

// shapeFrom lists legs and bends from the start of the bar, or from its end.
func (b *Bar) shapeFrom(end bool) []byte {
	var s []byte
	for i := range b.Legs {
		leg, bend := i, i
		if end {
			leg, bend = len(b.Legs)-1-i, len(b.Bends)-1-i
		}
		s = strconv.AppendInt(s, int64(b.Legs[leg].Round(shapeGrain)), 10)
		if i < len(b.Bends) {
			s = append(s, '<')
			s = append(strconv.AppendFloat(s, b.Bends[bend].Turn, 'f', 0, 64), '>')
		}
	}
	return s
}

// wanted is a length to cut, with its mark.
type wanted struct {
	name  string // what it is cut from: "No. 4", "2x12"
	size  int    // of a bar
	count int    // how many
	Piece
}

var ruleStock = Rule{"Stock lengths", "set on the job"}

// searchEffort bounds the search for the least stock of one size so that a
// layout is quick enough to follow a corner that is dragged.
const searchEffort = 400

// cutTogether cuts the pieces of all slabs from one stock. Where the search falls
// short of what each slab's own list buys, those lists stand: together is never
// more than apart.
func (t *site) cutTogether(bySlab [][]wanted, stock, yard []geometry.Length, yardSize int, kerf geometry.Length) CutList {
	all := t.cutFrom(slices.Concat(bySlab...), stock, yard, yardSize, kerf)
	if all.Optimal || len(bySlab) < 2 || len(yard) > 0 { // what is at hand is there but once
		return all
	}
	found := len(t.findings)
	apart := CutList{Bound: all.Bound}
	for _, pieces := range bySlab {
		l := t.cutFrom(pieces, stock, nil, 0, kerf)
		apart.Stock = append(apart.Stock, l.Stock...)
		apart.Bought, apart.Waste = apart.Bought+l.Bought, apart.Waste+l.Waste
	}
	t.findings = t.findings[:found]
	if apart.Bought >= all.Bought {
		return all
	}
	apart.Optimal = apart.Bought == apart.Bound
	return apart
}

// cutFrom makes the cut list of pieces, each name from its own stock.
func (t *site) cutFrom(pieces []wanted, stock, yard []geometry.Length, yardSize int, kerf geometry.Length) CutList {
	list := CutList{Optimal: true}
	pieces = slices.Clone(pieces) // to be sorted and counted down
	slices.SortFunc(pieces, func(a, b wanted) int {
		return cmp.Or(strings.Compare(a.name, b.name), cmp.Compare(b.Length, a.Length), strings.Compare(a.Mark, b.Mark))
	})
	for len(pieces) > 0 {
		name, n := pieces[0].name, 1
		for n < len(pieces) && pieces[n].name == name {
			n++
		}
		ws := pieces[:n]
		pieces = pieces[n:]
		var from []cutting.Stock
		for _, l := range stock {
			from = append(from, cutting.Stock{Length: int64(l)})
		}
		if ws[0].size == yardSize {
			for _, l := range yard {
				from = append(from, cutting.Stock{Length: int64(l), Hand: 1})
			}
		}
		demands, next := alike(ws)
		r, err := cutting.Solve(demands, from, int64(kerf), searchEffort)
		if err != nil {
			t.find(ruleStock, true, t.home(),
				"%s: the longest piece, %s, is longer than any stock; add a longer stock length.", name, t.text(ws[0].Length))
			list.Optimal = false
			continue
		}
		list.Optimal = list.Optimal && r.Optimal()
		list.Bought += geometry.Length(r.Bought)
		list.Bound += geometry.Length(r.Bound)
		n = 0
		for _, w := range ws {
			n += w.count
		}
		cut := make([]Piece, 0, n) // of all bars
		list.Stock = slices.Grow(list.Stock, len(r.Bars))
		for _, b := range r.Bars {
			s := StockBar{Size: ws[0].size, Name: name, Length: geometry.Length(from[b.Stock].Length), Yard: from[b.Stock].Hand > 0}
			s.Rest = s.Length
			for _, k := range b.Cuts {
				w := &ws[next[k]]
				cut = append(cut, w.Piece)
				s.Rest -= w.Length + kerf
				if w.count--; w.count == 0 {
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
func alike(ws []wanted) (demands []cutting.Demand, start []int) {
	for i, w := range ws {
		n := len(demands)
		if n == 0 || demands[n-1].Length != int64(w.Length) {
			demands, start = append(demands, cutting.Demand{Length: int64(w.Length)}), append(start, i)
			n++
		}
		demands[n-1].Count += w.count
	}
	return demands, start
}

func (t *site) home() geometry.Point { return t.plan.Outline[0].At }

func barName(size int) string { return fmt.Sprintf("No. %d", size) }
