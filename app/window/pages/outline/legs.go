package outline

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Legs is the page of an outline typed leg by leg.
type Legs struct {
	frame   Frame
	machine *tool.Machine
}

// NewLegs gives the page.
func NewLegs(f Frame, m *tool.Machine) *Legs { return &Legs{f, m} }

// Name is how the status line calls the page.
func (*Legs) Name() string { return "Outline by legs" }

// Key changes when the page is to be made anew.
func (*Legs) Key() string { return "" }

// What becomes of a gap between the last leg's end and the first one's start, before
// the legs that it can be put in.
var ways = []string{"spread over all legs", "kept as a leg of its own"}

// Form makes the page.
func (p *Legs) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading(p.Name())
	f.Explain("A length and a direction for each side, with commas: 24' right, 30' up, 24' left, back to start. Directions: right, left, up, down, those between (8' up left), degrees (6' at 45°, or 6' at 45° to the last side), back (back 4'), and compass words where North is on the plan.")
	text := form.NewWords(4)
	text.SetPlaceHolder("24' right, 30' up, 24' left, back to start")
	said := form.Wrapped("")
	choice := form.NewSelect(ways, nil)
	choice.Hide()
	read := func() (plan.Traverse, error) {
		return plan.FromLegs(text.Text, p.machine.Doc.Job().Survey.North, p.frame.Units())
	}
	text.OnChanged = func(string) {
		t, err := read()
		u, gap := p.frame.Units(), t.Misclosure()
		form.Seen(choice, err == nil && gap != 0)
		switch {
		case err != nil:
			form.Weigh(said, "! "+err.Error(), widget.DangerImportance)
		case gap == 0:
			form.Weigh(said, fmt.Sprintf("%d legs, back at the start exactly.", len(t.Legs)), widget.MediumImportance)
		default:
			form.Weigh(said, fmt.Sprintf("%d legs; misses the start by %s (%s right, %s up). The gap is:",
				len(t.Legs), gap.Text(u), t.Gap.X.Text(u), t.Gap.Y.Text(u)), widget.MediumImportance)
			options := slices.Clone(ways)
			for i, v := range t.Legs {
				options = append(options, fmt.Sprintf("put in leg %d, of %s", i+1, geometry.Distance(geometry.Point{}, v).Text(u)))
			}
			choice.ShowOptions(options, options[max(0, min(choice.SelectedIndex(), len(options)-1))])
		}
	}
	f.Add(text, nil)
	f.Add(said, nil)
	f.Add(choice, nil)
	f.Buttons(form.Do("Back", p.frame.Back), form.Do("Draw it", f.Act(func() error {
		t, err := read()
		if err != nil {
			return nil // said already
		}
		switch way := choice.SelectedIndex(); {
		case t.Misclosure() == 0 || way == 1:
		case way >= len(ways):
			t, err = t.InLeg(way - len(ways))
		default:
			t = t.Spread()
		}
		draw(p.frame, p.machine, "legs", t.Ring())
		return err
	})).Strong())
	return f
}
