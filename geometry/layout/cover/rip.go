package cover

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/cutting"
	"haunchbook.example/geometry/layout/slab"
)

// goodsStep is what sheets and rolls are cut to.
const goodsStep = geometry.Inch / 2

// strip is a strip of goods of one width, ripped from a sheet or left of one.
type strip struct{ width, length int64 }

// Buy gives how many sheets or rolls of a ply pieces are cut from, of one slab or of
// several: in two steps as they are cut, strips ripped from the sheets and pieces cut
// from strips. The widest pieces come first; what is left of their strips serves the
// narrower ones. It tells whether it is proven that no fewer could do, however they are
// cut and turned.
func Buy(pieces []Sheet, y Ply) (count int, least bool) {
	byWidth := map[int64][]int64{}
	for _, s := range pieces {
		w, l := upTo(s.Width, y.Width), upTo(s.Length, y.Length)
		byWidth[w] = append(byWidth[w], l)
	}
	var widths []int64
	for w := range byWidth {
		widths = append(widths, w)
	}
	slices.SortFunc(widths, func(a, b int64) int { return cmp.Compare(b, a) })
	var ripped []cutting.Demand
	var left []strip
	for _, w := range widths {
		demands := each(fromLeft(w, byWidth[w], &left))
		r, err := cutting.Solve(demands, []cutting.Stock{{Length: int64(y.Length)}}, 0, cutlist.SearchEffort)
		if err != nil {
			return 0, false
		}
		for _, b := range r.Bars {
			over := int64(y.Length)
			for _, k := range b.Cuts {
				over -= demands[k].Length
			}
			left = append(left, strip{w, over})
		}
		ripped = append(ripped, cutting.Demand{Length: w, Count: len(r.Bars)})
	}
	r, err := cutting.Solve(ripped, []cutting.Stock{{Length: int64(y.Width)}}, 0, cutlist.SearchEffort)
	if err != nil {
		return 0, false
	}
	return len(r.Bars), len(r.Bars) <= fewest(pieces, y)
}

// fewest gives how many sheets or rolls pieces take at least, however they are cut and
// turned: their area; and those wider than half a sheet, whichever way they are turned,
// lie one behind the other in it, so that their lengths bound it too.
func fewest(pieces []Sheet, y Ply) int {
	area := 0.0
	var behind []int64
	for _, s := range pieces {
		area += float64(s.Width) * float64(s.Length)
		turns := s.Length <= y.Width && s.Width <= y.Length
		switch along := s.Length; {
		case s.Width <= y.Width/2 || turns && s.Length <= y.Width/2:
		case turns:
			behind = append(behind, int64(min(along, s.Width)))
		default:
			behind = append(behind, int64(along))
		}
	}
	byArea := int(math.Ceil(area/(float64(y.Width)*float64(y.Length)) - 1e-9))
	slices.SortFunc(behind, func(a, b int64) int { return cmp.Compare(b, a) })
	r, err := cutting.Solve(each(behind), []cutting.Stock{{Length: int64(y.Length)}}, 0, cutlist.SearchEffort)
	if err != nil {
		return byArea
	}
	return max(byArea, int(math.Ceil(float64(r.Bound)/float64(y.Length)-1e-9)))
}

// upTo rounds up to what goods are cut to, and at most to their own size.
func upTo(l, most geometry.Length) int64 { return int64(min(slab.RoundUp(l, goodsStep), most)) }

// fromLeft cuts what it can of the lengths of one width from what is left of
// wider strips, the longest first, each from the shortest that will do. It gives
// the lengths that are still wanted.
func fromLeft(width int64, lengths []int64, left *[]strip) []int64 {
	slices.SortFunc(lengths, func(a, b int64) int { return cmp.Compare(b, a) })
	var wanted []int64
	for _, l := range lengths {
		best := -1
		for i, s := range *left {
			if s.width >= width && s.length >= l && (best < 0 || s.length < (*left)[best].length) {
				best = i
			}
		}
		if best < 0 {
			wanted = append(wanted, l)
			continue
		}
		s := &(*left)[best]
		beside := strip{s.width - width, s.length}
		*s = strip{width, s.length - l}
		if beside.width > 0 {
			*left = append(*left, beside)
		}
	}
	return wanted
}

// each wants every length once. The lengths are sorted; equal ones are one demand.
func each(lengths []int64) []cutting.Demand {
	var out []cutting.Demand
	for _, l := range lengths {
		if n := len(out); n == 0 || out[n-1].Length != l {
			out = append(out, cutting.Demand{Length: l})
		}
		out[len(out)-1].Count++
	}
	return out
}
