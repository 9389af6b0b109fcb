package takeoff

import (
	"fmt"

	"haunchbook.example/geometry"
)

// lumber takes off form boards, stakes and kickers.
func (b *builder) lumber() {
	var total geometry.Length
	stakes, kickers := 0, 0
	var steps []Step
	for _, s := range b.t.Slabs {
		stakes, kickers = stakes+s.stakes(), kickers+s.kickers()
		for _, f := range s.Layout.Forms {
			total += f.Length
			steps = append(steps, Step{Text: s.Called(f.Mark.String()+", "+s.Layout.Marks.Edge(f.Loop, f.Edge)) + ", " + f.Board.Name, Work: "free edge, with its lap at an outside corner", Result: b.m.lengthText(f.Length)})
		}
	}
	if len(steps) == 0 {
		return
	}
	v, u := b.m.length(total)
	b.add(ID{Kind: FormLength}, v, u, append(steps, Step{Text: "Sum", Result: text(v, u)})...)
	b.stock(ID{Kind: FormBoards}, b.t.Lists.Lumber)
	b.add(ID{Kind: Stakes}, float64(stakes), Each, append(
		b.steps(func(s Slab) Step { return Step{Text: "Stakes", Result: fmt.Sprint(s.stakes())} }),
		Step{Text: "At ends, where boards meet and between", Work: "at most " + b.m.text(b.place.Forms.Stakes) + " apart", Result: fmt.Sprint(stakes), Source: "common practice"})...)
	b.add(ID{Kind: Kickers}, float64(kickers), Each, append(
		b.steps(func(s Slab) Step { return Step{Text: "Kickers", Result: fmt.Sprint(s.kickers())} }),
		Step{Text: "Braces", Work: "at most " + b.m.text(b.place.Forms.Kickers) + " apart", Result: fmt.Sprint(kickers), Source: "common practice"})...)
}

func (s Slab) stakes() (n int) {
	for _, f := range s.Layout.Forms {
		n += len(f.Stakes)
	}
	return n
}

func (s Slab) kickers() (n int) {
	for _, f := range s.Layout.Forms {
		n += len(f.Kickers)
	}
	return n
}
