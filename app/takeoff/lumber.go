package takeoff

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/plan"
)

// lumber takes off form boards, stakes and kickers.
func (b *builder) lumber() {
	defer b.tubes()
	var total geometry.Length
	stakes, kickers, hangers := 0, 0, 0
	var steps []Step
	for _, s := range b.t.Slabs {
		stakes, kickers = stakes+s.stakes(), kickers+s.kickers()
		for _, f := range s.Layout.Forms {
			hangers += len(f.Hangers)
			total += f.Length
			name := f.Named(f.Mark.String() + ", " + f.Side(s.Layout.Marks))
			steps = append(steps, Step{Text: s.Called(name) + ", " + f.Board.Name, Work: formWork(f), Result: b.m.lengthText(f.Length)})
		}
	}
	if len(steps) == 0 {
		return
	}
	v, u := b.m.length(total)
	b.add(ID{Kind: FormLength}, v, u, append(steps, Step{Text: "Sum", Result: text(v, u)})...)
	b.stock(ID{Kind: FormBoards}, b.t.Lists.Lumber)
	b.keyStrip()
	b.add(ID{Kind: Stakes}, float64(stakes), Each, append(
		b.steps(func(s Slab) Step { return Step{Text: "Stakes", Result: fmt.Sprint(s.stakes())} }),
		Step{Text: "At ends, where boards meet and between", Work: "at most " + b.m.text(b.place.Forms.Stakes) + " apart", Result: fmt.Sprint(stakes), Source: "common practice"})...)
	b.add(ID{Kind: Kickers}, float64(kickers), Each, append(
		b.steps(func(s Slab) Step { return Step{Text: "Kickers", Result: fmt.Sprint(s.kickers())} }),
		Step{Text: "Braces", Work: "at most " + b.m.text(b.place.Forms.Kickers) + " apart", Result: fmt.Sprint(kickers), Source: "common practice"})...)
	if hangers > 0 {
		b.add(ID{Kind: Hangers}, float64(hangers), Each,
			Step{Text: "Across the boards that hang over a slab", Work: "at their ends and at most as far apart as stakes, twice as close along an arc", Result: fmt.Sprint(hangers), Source: "common practice"})
	}
}

// keyStrip takes off the strip on the bulkheads of keyed joints.
func (b *builder) keyStrip() {
	var total geometry.Length
	var steps []Step
	for _, s := range b.t.Slabs {
		for _, j := range s.Layout.Construction {
			if j.Kind == plan.Keyed {
				total += j.Length
				steps = append(steps, Step{Text: s.Called(s.Layout.Marks.Construction(j.Index).String()), Work: b.m.text(j.Key.High) + " high, " + b.m.text(j.Key.Deep) + " deep, in the middle of the face", Result: b.m.lengthText(j.Length), Source: "handbook of floors on ground, from memory"})
			}
		}
	}
	if total > 0 {
		v, u := b.m.length(total)
		b.add(ID{Kind: KeyStrip}, v, u, append(steps, Step{Text: "Sum", Result: text(v, u)})...)
	}
}

// formWork says what a form's length is of.
func formWork(f forms.Form) string {
	if f.Joint > 0 {
		return "bulkhead of a construction joint"
	}
	if f.Pad > 0 {
		return "block-out round a column; the boards stand in it"
	}
	switch {
	case f.Step:
		return "face of a step down to a lower slab, hung over it"
	case f.Curb == forms.CurbOuter:
		return "on the edge's boards, up to the top of the curb"
	case f.Curb == forms.CurbInner:
		return "inner face of a curb, hung over the slab"
	case f.Curb == forms.CurbEnd:
		return "end of a curb at a door"
	}
	return "free edge, with its lap at an outside corner"
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
