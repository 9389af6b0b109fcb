package takeoff

import (
	"fmt"

	"haunchbook/geometry"
)

// lumber takes off form boards, stakes and kickers.
func (b *builder) lumber() {
	forms := b.t.Layout.Forms
	if len(forms) == 0 {
		return
	}
	var total geometry.Length
	stakes, kickers := 0, 0
	var steps []Step
	for _, f := range forms {
		total += f.Length
		stakes += len(f.Stakes)
		kickers += len(f.Kickers)
		where := fmt.Sprintf("Edge %d", f.Edge+1)
		if f.Loop > 0 {
			where = fmt.Sprintf("Hole %d edge %d", f.Loop, f.Edge+1)
		}
		steps = append(steps, Step{Text: where + ", " + f.Board, Work: "free edge, with its lap at an outside corner", Result: b.m.lengthText(f.Length)})
	}
	v, u := b.m.length(total)
	b.add("forms.length", Lumber, "Forms", v, u, append(steps, Step{Text: "Sum", Result: text(v, u)})...)
	b.stock("forms.boards.", Lumber, "Form board", b.t.Layout.Lumber)
	b.buy("forms.stakes", Lumber, "Stakes", float64(stakes), Each,
		Step{Text: "At ends, butt joints and between", Work: "at most " + b.m.text(b.place.Forms.Stakes) + " apart", Result: fmt.Sprint(stakes), Source: "common practice"})
	b.buy("forms.kickers", Lumber, "Kickers", float64(kickers), Each,
		Step{Text: "Braces", Work: "at most " + b.m.text(b.place.Forms.Kickers) + " apart", Result: fmt.Sprint(kickers), Source: "common practice"})
}
