package bars

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// MarkLine is one line of a bar schedule: all bars of one mark.
type MarkLine struct {
	Mark   mark.Mark
	Size   Size
	Count  int
	Cut    geometry.Length   // of one
	Legs   []geometry.Length // of a bent bar, over the outside of its bends
	Bends  []Bend
	Radius geometry.Length // to which it is bent along an arc; 0 of another
	Pin    geometry.Length // least inside diameter of the bends; 0 for a straight bar
}

// Schedule gathers the bars of all slabs of a job by mark. Dowels are not among
// them: see Layout.Dowels.
func Schedule(bars []Bar) []MarkLine {
	var out []MarkLine
	at := map[mark.Mark]int{}
	for _, b := range bars {
		i, ok := at[b.Mark]
		if !ok {
			i = len(out)
			at[b.Mark] = i
			m := MarkLine{Mark: b.Mark, Size: b.Size, Cut: b.Cut, Legs: b.Legs, Bends: b.Bends, Radius: b.Radius}
			if len(b.Bends) > 0 {
				m.Pin = BendDiameter(b.Size)
			}
			out = append(out, m)
		}
		out[i].Count++
	}
	slices.SortFunc(out, func(a, b MarkLine) int {
		return mark.Compare(a.Mark, b.Mark)
	})
	return out
}
