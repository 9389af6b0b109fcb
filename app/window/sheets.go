package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/assets/notices"
)

// openList shows a thing below a button until something else is clicked, or it is
// left with Esc.
func (w *Window) openList(o, below fyne.CanvasObject) {
	pop := widget.NewPopUp(container.NewPadded(o), w.win.Canvas())
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(below)
	pop.ShowAtPosition(at.AddXY(0, below.Size().Height))
	w.over(pop, o)
}

// over has the keys go to what stands over everything.
func (w *Window) over(pop, first fyne.CanvasObject) {
	w.popup = pop
	if f := form.FirstFocus(first); f != nil {
		w.win.Canvas().Focus(f)
	}
}

// closeList closes what stands over everything, and gives the keys back.
func (w *Window) closeList() {
	w.popup.Hide()
	w.popup = nil
	if left := w.left; left != nil {
		w.left = nil
		left()
	}
	w.key(&fyne.KeyEvent{Name: form.KeyDone})
}

// showText shows a page of text in the middle, until it is closed: headings, and rows
// of a key and what it does, and buttons above them.
func (w *Window) showText(title string, rows [][2]string, buttons ...fyne.CanvasObject) {
	grid := container.NewVBox()
	for _, r := range rows {
		if r[1] == "" {
			l := form.Bold(r[0])
			l.Wrapping = fyne.TextWrapWord
			grid.Add(l)
			continue
		}
		key := widget.NewLabelWithStyle(words.Say(r[0]), fyne.TextAlignLeading, fyne.TextStyle{Monospace: true})
		grid.Add(form.Tight(key, form.Wrapped(r[1])))
	}
	scroll := container.NewVScroll(grid)
	scroll.SetMinSize(fyne.NewSize(min(600, w.room().Width), min(620, w.room().Height)))
	o := fyne.CanvasObject(scroll)
	if len(buttons) > 0 {
		o = container.NewBorder(container.NewHBox(buttons...), nil, nil, nil, scroll)
	}
	w.showOver(title, o, scrolled(scroll), func() {})
}

// scrolled has keys move what is scrolled.
func scrolled(s *container.Scroll) func(*fyne.KeyEvent) bool {
	return func(k *fyne.KeyEvent) bool {
		all, seen := s.Content.Size().Height, s.Size().Height
		by := map[fyne.KeyName]float32{
			fyne.KeyDown: 40, fyne.KeyUp: -40, fyne.KeyPageDown: seen - 40, fyne.KeyPageUp: 40 - seen,
			fyne.KeyHome: -all, fyne.KeyEnd: all,
		}[k.Name]
		s.Offset.Y = max(0, min(s.Offset.Y+by, all-seen))
		s.Refresh()
		return by != 0
	}
}

// room is what there is for a thing that stands over everything.
func (w *Window) room() fyne.Size { return w.win.Canvas().Size().SubtractWidthHeight(80, 140) }

// showOver shows a thing over everything, in the middle, until it is closed. Keys go to
// it first, as long as it takes them.
func (w *Window) showOver(title string, o fyne.CanvasObject, keys func(*fyne.KeyEvent) bool, closed func()) {
	shut := newCloser(keys, w.closeList)
	pop := widget.NewPopUp(container.NewPadded(container.NewBorder(container.NewBorder(nil, nil, form.Title(title), shut), nil, nil, nil, o)), w.win.Canvas())
	m, size := pop.MinSize(), w.win.Canvas().Size()
	pop.ShowAtPosition(fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2))
	w.over(pop, shut)
	w.left = closed
}

// closer closes what it stands on, and hands other keys to it.
type closer struct {
	form.Button
	keys func(*fyne.KeyEvent) bool
}

func newCloser(keys func(*fyne.KeyEvent) bool, f func()) *closer {
	b := &closer{keys: keys}
	b.Text, b.Icon, b.OnTapped = words.Say("Close"), theme.CancelIcon(), f
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable. Keys are handed on from here: the button within is
// on no canvas by itself.
func (b *closer) TypedKey(k *fyne.KeyEvent) {
	if !b.keys(k) && !form.HandOn(b, k.Name) {
		b.Button.TypedKey(k)
	}
}

// showHelp shows what the page in use is for; with the plan, its keys.
func (w *Window) showHelp() {
	f, rows := w.pages.list[w.pages.at], helpOf(w.pages.at)
	if w.pages.at == planPage {
		rows = append(rows, w.keySheet()...)
	} else {
		rows = append(rows, [][2]string{{"Keys", ""}, {"?", "on the plan, or Help, Keys: all keys"}, {"Esc", "back to the plan"}}...)
	}
	w.showText("Help: "+f.name, rows, form.Do("The guide", func() {
		w.closeList()
		w.showGuide(guideOf(w.pages.at))
	}))
}

// showAbout says which program this is, and whose work is in it.
func (w *Window) showAbout() {
	var linked [][2]string
	for _, l := range notices.List() {
		linked = append(linked, [2]string{l[1], l[0]}) // the long name has the room
	}
	w.showText("About Haunchbook", append([][2]string{
		{"Haunchbook", "Estimates and lays out concrete slabs with thickened edges."},
		{"Version", job.Build()},
		{"Typeface", "DejaVu Sans Condensed; its license lies beside it in the source, assets/fonts."},
		{"PDF pages", "Drawn by PDFium (Apache 2.0), which runs in wazero (Apache 2.0), by way of go-pdfium (MIT)."},
		{"Jobs", "The sample job, its prices and its people are invented."},
		{"Use", "An estimate: local code and a licensed professional decide."},
		{"Linked into it; haunchsheet -notices prints the texts of these licenses", ""},
	}, linked...), form.Do("Copy details", func() {
		w.app.Clipboard().SetContent(w.details())
		w.tell("Copied: version, system, and what was said last. Read it before you send it: it may name files.")
	}))
}

// showKeys shows the shortcut sheet.
func (w *Window) showKeys() { w.showText("Keys", w.keySheet()) }

// keySheet lists every key: those of the tools, the plan and the menu as they are
// handled, and those that the tools read themselves.
func (w *Window) keySheet() [][2]string {
	rows := [][2]string{{"Tools", ""}}
	for _, t := range tools() {
		rows = append(rows, [2]string{string(t.key - 'a' + 'A'), t.name})
	}
	rows = append(rows, [][2]string{
		{"Drawing", ""},
		{"24-6 Enter", "go 24'-6\" in the direction pointed at"},
		{"arrow keys", "point right, left, up or down"},
		{"12' right Enter", "go 12' that way: right, left, up, down, up left; with north known, NE"},
		{"12' at 30° Enter", "go 12' at 30 degrees; to the last side: 12' at 30° to the last side, back 4'"},
		{"4' right, 3' up Enter", "go both at once"},
		{"Tab", "where the legs miss the start: keep the gap, spread it, or put it in one leg"},
		{"24 x 30 Enter", "a rectangle by its width and length"},
		{"(", "the next edge is an arc: a point that it passes, then its end; on a selected edge: a point that it is to pass"},
		{"Enter", "back to the start, which finishes the outline"},
		{"Backspace", "remove the last point"},
		{"Shift", "free the angle and the grid"},
		{"Changing", ""},
		{"Tab, Shift+Tab", "next or previous thing on the plan"},
		{"a length, Enter", "make the selected edge so long; Tab chooses which side moves"},
		{"click a number", "type a new one"},
		{"double-click an edge", "add a corner; Insert: in the middle of the selected edge"},
		{"a length, Enter", "on a door or a bolt mark: how far from the corner"},
		{"Space", "on a bolt mark: hold-down or anchor bolt"},
		{"Delete", "remove what is selected"},
		{"arrow keys", "nudge by 1\" or 10 mm; Shift: finest; Ctrl: 1' or 100 mm"},
		{"Page Up  Page Down", "work on the slab before or after; or click it"},
		{"Ctrl+drag", "move the whole slab"},
		{"Esc", "one step back, always"},
		{"On the plan", ""},
		{"drag on empty ground", "move the view; so do the middle button, and the arrow keys with nothing selected"},
	}...)
	for _, k := range letterKeys() {
		rows = append(rows, [2]string{k.shown, k.about})
	}
	rows = append(rows, [][2]string{
		{"Moving about", ""},
		{"F6", "from the plan to the panel beside it and on, part by part"},
		{"Tab, Shift+Tab", "next or previous field"},
		{"Space or Enter", "press a button, tick a box, open a figure or a list"},
		{"left, right", "choose in a list"},
		{"F10", "the menu: arrow keys walk in it"},
		{"F1", "help for the page in use"},
		{"Commands", ""},
	}...)
	for _, m := range w.menu(func(name string) string { return name }).Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				rows = append(rows, [2]string{keysOf(i.Shortcut), strings.TrimSuffix(i.Label, "…")})
			}
		}
	}
	return append(rows, [2]string{"Ctrl+Shift+Z", "Redo"})
}

// keysOf writes a shortcut as it is pressed.
func keysOf(s fyne.Shortcut) string {
	k, ok := s.(fyne.KeyboardShortcut)
	if !ok {
		return s.ShortcutName()
	}
	text := ""
	for _, m := range []struct {
		is   fyne.KeyModifier
		name string
	}{
		{fyne.KeyModifierControl, "Ctrl+"}, {fyne.KeyModifierSuper, "Cmd+"}, {fyne.KeyModifierAlt, "Alt+"}, {fyne.KeyModifierShift, "Shift+"},
	} {
		if k.Mod()&m.is != 0 {
			text += m.name
		}
	}
	return text + string(k.Key())
}

// showCautions shows the cautions of the trade.
func (w *Window) showCautions() {
	w.showText("Cautions", [][2]string{
		{"This program estimates. Structural values defer to local code and a licensed engineer.", ""},
		{"Wet cement", "Caustic: gloves, boots, eye protection; wash it off at once."},
		{"Drilling", "Concrete dust holds silica: wet drilling or vacuum, and a respirator (OSHA 29 CFR 1926.1153)."},
		{"Digging", "Call before you dig: 811 in the US."},
		{"Bars and bolts", "Cap what sticks up (OSHA 29 CFR 1926.701(b))."},
		{"Trucks", "Keep the truck away from the edge of the trench."},
		{"Lifting", "Two for a form board and for a bundle of bars."},
	})
}
