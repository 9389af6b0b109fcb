package window

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// checksPanel lists faults of the plan and findings of the takeoff; a click
// shows the place.
type checksPanel struct {
	w      *Window
	list   *fyne.Container
	scroll *container.Scroll
	shown  string
	of     any // what it was shown for
	count  int
}

func newChecksPanel(w *Window) *checksPanel {
	p := &checksPanel{w: w, list: container.NewVBox()}
	p.scroll = container.NewVScroll(p.list)
	return p
}

// check is one line of the list.
type check struct {
	grave  bool
	title  string
	text   string
	source string
	slab   int // -1 for the job as a whole
	at     geometry.Point
	path   string // of a fault, as in a job file
}

func (p *checksPanel) checks() []check {
	var cs []check
	d := p.w.doc
	for _, s := range d.Said() {
		cs = append(cs, check{true, s.Place, "Found " + s.Found + "; " + s.Want, "", s.Slab, s.At, s.Path})
	}
	if t, _ := d.Takeoff(); t != nil && len(d.Faults()) == 0 && !d.Blank() {
		on := slabsOf(t)
		for _, grave := range []bool{true, false} {
			for _, f := range t.Findings {
				if f.Broken() != grave {
					continue
				}
				c := check{grave, f.Rule.Name, f.Text, f.Rule.Source, -1, f.At, ""}
				if k, ok := on[f.Text]; ok {
					c.slab = k
					if s, _ := t.Slab(k); s.Name != "" {
						c.title = s.Name + ": " + c.title
					}
				}
				cs = append(cs, c)
			}
		}
	}
	return cs
}

// slabsOf tells which slab a finding is on, by its text, which names the slab.
func slabsOf(t *takeoff.Takeoff) map[string]int {
	on := map[string]int{}
	for _, s := range t.Slabs {
		for _, f := range s.Layout.Findings {
			on[f.Text] = s.Number
		}
	}
	return on
}

// visit shows what a check is about: its place on the plan, with its slab, or the
// page that has its field.
func (w *Window) visit(c check) {
	root, _, _ := strings.Cut(c.path, ".")
	switch root {
	case "spec":
		w.pages.home()
		w.tabs.SelectIndex(2)
		return
	case "pour":
		w.pages.turn(pourView)
		return
	case "price":
		w.pages.turn(priceView)
		return
	case "sketch":
		w.turn(sketchPage)
		return
	}
	if c.slab >= 0 && c.slab != w.doc.Slab() {
		w.machine.Choose(c.slab)
	}
	w.showPlace(c.at)
}

// show brings the list up to date; it is made anew only when it differs.
func (p *checksPanel) show() {
	t, _ := p.w.doc.Takeoff()
	of := [2]any{p.w.doc.Version(), t}
	if of == p.of {
		return
	}
	p.of = of
	cs := p.checks()
	p.count = len(cs)
	text := fmt.Sprint(cs)
	if text == p.shown {
		return
	}
	p.shown = text
	p.list.RemoveAll()
	if len(cs) == 0 {
		note := widget.NewLabel("Nothing to report. Structural values defer to local code and a licensed engineer.")
		note.Wrapping = fyne.TextWrapWord
		p.list.Add(note)
	}
	const most = 200
	for i, c := range cs {
		if i == most {
			p.list.Add(widget.NewLabel(fmt.Sprintf("… and %d more", len(cs)-most)))
			break
		}
		p.list.Add(p.line(c))
	}
	p.list.Refresh()
}

func (p *checksPanel) line(c check) fyne.CanvasObject {
	sign := "ⓘ  "
	if c.grave {
		sign = "⚠  "
	}
	head := newButton(sign+c.title, func() { p.w.visit(c) })
	head.Alignment = widget.ButtonAlignLeading
	head.Importance = widget.LowImportance
	if c.grave {
		head.Importance = widget.WarningImportance
	}
	body := widget.NewLabel(c.text)
	body.Wrapping = fyne.TextWrapWord
	body.SizeName = theme.SizeNameCaptionText
	box := container.NewVBox(head, body)
	if c.source != "" {
		src := widget.NewLabel(c.source)
		src.Wrapping = fyne.TextWrapWord
		src.SizeName = theme.SizeNameCaptionText
		src.TextStyle.Italic = true
		box.Add(src)
	}
	box.Add(divider())
	return box
}
