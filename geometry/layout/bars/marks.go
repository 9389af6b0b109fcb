package bars

import (
	"bytes"
	"cmp"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// kind is what bars of one mark have in common.
type kind struct {
	letter string
	size   int
	cut    geometry.Length
	bends  string // legs and bends
}

// Number gives every bar its mark: a letter for what it belongs to and a number,
// the same for bars that are cut and bent alike.
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
	switch b.Of.Kind {
	case FieldGrid:
		return "F"
	case InPad:
		return "P"
	case InStrip:
		return "S"
	case InJoint:
		return "D"
	}
	if len(b.Bends) > 0 {
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
