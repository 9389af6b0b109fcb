package window

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// legs is the form of an outline typed leg by leg.
func (p *editPanel) legs() {
	f := p.form
	f.heading("Outline by legs")
	f.note("A length and a direction for each side, with commas: 24' E, 30' N, 24' W, close. Directions are N, E, S, W, those between (NE), degrees from E (6' at 45), or a bearing (10' N30W).")
	text := newEntry()
	text.MultiLine = true
	text.SetPlaceHolder("24' E, 30' N, 24' W, close")
	text.Wrapping = fyne.TextWrapWord
	text.SetMinRowsVisible(4)
	say := widget.NewLabel("")
	say.Wrapping = fyne.TextWrapWord
	ways := []string{"spread over all legs", "kept as a leg of its own"}
	choice := newSelect(ways)
	choice.SetSelectedIndex(0)
	choice.Hide()
	read := func() (plan.Traverse, error) { return plan.FromLegs(text.Text, p.units()) }
	text.OnChanged = func(string) {
		t, err := read()
		say.Importance = widget.MediumImportance
		choice.Hide()
		switch gap := t.Misclosure(); {
		case err != nil:
			say.Importance = widget.DangerImportance
			say.SetText("! " + err.Error())
		case gap == 0:
			say.SetText(fmt.Sprintf("%d legs, closes exactly.", len(t.Legs)))
		default:
			say.SetText(fmt.Sprintf("%d legs; misses the start by %s (%s right, %s up). The gap is:",
				len(t.Legs), gap.Text(p.units()), t.Gap.X.Text(p.units()), t.Gap.Y.Text(p.units())))
			choice.Options = slices.Clone(ways)
			for i, v := range t.Legs {
				choice.Options = append(choice.Options, fmt.Sprintf("put in leg %d, of %s", i+1, geometry.Distance(geometry.Point{}, v).Text(p.units())))
			}
			if i := choice.SelectedIndex(); i < 0 {
				choice.SetSelectedIndex(0)
			}
			choice.Show()
		}
		say.Refresh()
	}
	draw := newButton("Draw it", func() {
		t, err := read()
		if err != nil {
			return // said already
		}
		switch way := choice.SelectedIndex(); {
		case t.Misclosure() == 0 || way == 1:
		case way >= len(ways):
			t, err = t.InLeg(way - len(ways))
		default:
			t = t.Spread()
		}
		p.report(err)
		p.outline("legs", t.Ring())
	})
	draw.Importance = widget.HighImportance
	f.add(text, nil)
	f.add(say, nil)
	f.add(choice, nil)
	f.buttons(newButton("Back", func() { p.turn(selection) }), draw)
}
