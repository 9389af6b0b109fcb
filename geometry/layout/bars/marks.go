package bars

import (
	"bytes"
	"cmp"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// kind is what bars of one mark have in common.
type kind struct {
	group int // what the bar belongs to
	size  Size
	cut   geometry.Length
	bends string // legs and bends
}

// Number gives every bar its mark, the same for those that are cut and bent alike
// and belong to parts of a kind: edges first, then the field, pads, strips and curbs, the
// thickest and longest first.
func Number(bars []*Bar) {
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
			cmp.Compare(a.group, b.group),
			cmp.Compare(b.size, a.size),
			cmp.Compare(b.cut, a.cut),
			strings.Compare(a.bends, b.bends))
	})
	marks := make([]mark.Mark, len(order))
	for i, k := range sorted {
		marks[number[k]] = mark.Mark{Kind: mark.Bar, N: i + 1}
	}
	for i, b := range bars {
		b.Mark = marks[numbers[i]]
	}
}

// group orders bars for their marks: straight and bent ones of the edges, then those
// of the field, of pads, of thickened strips and of curbs.
func (b *Bar) group() int {
	switch b.Of.Kind {
	case FieldGrid:
		return 2
	case InPad:
		return 3
	case InStrip:
		return 4
	case InCurb:
		return 5
	}
	return min(len(b.Bends), 1)
}

// shapeGrain is how far legs of like bars may differ.
const shapeGrain = geometry.Inch / 8

// kind is equal for bars that are cut and bent alike, in either direction.
func (b *Bar) kind() kind {
	k := kind{group: b.group(), size: b.Size, cut: b.Cut}
	if len(b.Legs) > 0 {
		forth, back := b.shapeFrom(false), b.shapeFrom(true)
		if bytes.Compare(back, forth) < 0 {
			forth = back
		}
		k.bends = string(forth)
	}
	if b.Radius > 0 {
		k.bends += "R" + strconv.FormatInt(int64(b.Radius.Round(shapeGrain)), 10)
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
