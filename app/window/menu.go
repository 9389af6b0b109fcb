package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
)

func ctrl(k fyne.KeyName, more fyne.KeyModifier) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | more}
}

// menu is the main menu: every command by name, with its keys.
func (w *Window) menu() *fyne.MainMenu {
	item := func(text string, s fyne.Shortcut, f func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(text, f)
		m.Shortcut = s
		return m
	}
	alt := func(k fyne.KeyName) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierAlt}
	}
	var slab []*fyne.MenuItem
	for _, t := range tools() {
		slab = append(slab, item(t.name+"   ("+string(t.key-'a'+'A')+")", nil, func() { w.use(t.start()) }))
	}
	slab = append(slab, fyne.NewMenuItemSeparator(),
		item("New slab   (S)", nil, w.newSlab),
		item("Copy the slab", nil, func() { w.doc.CopySlab(); w.showSlab() }),
		item("Next slab   (Page Down)", nil, func() { w.machine.Use(&tool.Select{}); w.machine.Key(tool.PageDown, tool.Mods{}) }),
		fyne.NewMenuItemSeparator(),
		item("Outline by legs…", ctrl(fyne.KeyL, 0), func() { w.turn(legsPage) }),
		item("Outline by sizes…", ctrl(fyne.KeyB, 0), func() { w.turn(shapesPage) }),
		item("Hole, point by point", nil, func() { w.use(&tool.Chain{What: tool.Hole}) }),
		item("Joint with the old slab   (J)", nil, func() { w.letter('j') }),
		item("Edge sections…", ctrl(fyne.KeyE, 0), func() { w.turn(sectionsPage) }),
		item("Draw over a sketch…", ctrl(fyne.KeyI, 0), func() { w.turn(sketchPage) }),
		item("North, benchmarks, notes…", nil, func() { w.turn(surveyPage) }),
	)
	return fyne.NewMainMenu(
		fyne.NewMenu("File",
			item("New job", ctrl(fyne.KeyN, 0), w.newJob),
			item("Jobs in the book…", ctrl(fyne.KeyO, 0), w.showJobs),
			item("Open a job file…", ctrl(fyne.KeyO, fyne.KeyModifierShift), w.openFile),
			item("Save as a job file…", ctrl(fyne.KeyS, 0), w.saveFile),
			fyne.NewMenuItemSeparator(),
			item("Print sheets…", ctrl(fyne.KeyP, 0), w.showPrint),
		),
		fyne.NewMenu("Edit",
			item("Undo", &fyne.ShortcutUndo{}, w.undo),
			item("Redo", &fyne.ShortcutRedo{}, w.redo),
			fyne.NewMenuItemSeparator(),
			item("Delete what is selected", nil, func() { w.machine.Key(tool.Delete, tool.Mods{}) }),
			item("Switch units   (U)", nil, w.switchUnits),
		),
		fyne.NewMenu("Slab", slab...),
		fyne.NewMenu("Pages", append(w.pages.items(),
			fyne.NewMenuItemSeparator(),
			item("Beside the plan: Edit", alt(fyne.Key1), func() { w.sideTab(0) }),
			item("Beside the plan: Checks", alt(fyne.Key2), func() { w.sideTab(1) }),
			item("Beside the plan: Spec", alt(fyne.Key3), func() { w.sideTab(2) }),
			item("Beside the plan: Job", alt(fyne.Key4), func() { w.sideTab(3) }),
			fyne.NewMenuItemSeparator(),
			item("Next part of the window", ctrl(fyne.KeyF6, 0), func() { w.nextPart(1) }),
			item("Part before", ctrl(fyne.KeyF6, fyne.KeyModifierShift), func() { w.nextPart(-1) }),
		)...),
		fyne.NewMenu("View",
			item("Show all", ctrl(fyne.Key0, 0), w.machine.Fit),
			item("Larger", ctrl(fyne.KeyEqual, 0), func() { w.machine.Zoom(1.25) }),
			item("Smaller", ctrl(fyne.KeyMinus, 0), func() { w.machine.Zoom(0.8) }),
			item("Layers…", ctrl(fyne.KeyK, 0), w.showLayers),
			fyne.NewMenuItemSeparator(),
			item("Light or dark", ctrl(fyne.KeyD, 0), w.otherAppearance),
			item("As the desktop", nil, func() { w.setAppearance(System) }),
		),
		fyne.NewMenu("Help",
			item("Keys   (F1)", nil, w.showKeys),
			item("Cautions", nil, w.showCautions),
		),
	)
}

// otherAppearance changes between light and dark.
func (w *Window) otherAppearance() {
	if w.dark() {
		w.setAppearance(LightAppearance)
	} else {
		w.setAppearance(DarkAppearance)
	}
}

// turn shows a page of the edit panel, ready to be typed into.
func (w *Window) turn(p page) {
	w.pages.home()
	w.machine.Use(&tool.Select{})
	w.tabs.SelectIndex(0)
	w.edit.turn(p)
	if f := firstFocus(w.edit.scroll); f != nil {
		w.win.Canvas().Focus(f)
	}
}

// popup shows a thing below a button until something else is clicked, or until
// the function that it gives is called.
func (w *Window) popup(o fyne.CanvasObject, below fyne.CanvasObject) (shut func()) {
	pop := widget.NewPopUp(container.NewPadded(o), w.win.Canvas())
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(below)
	pop.ShowAtPosition(at.AddXY(0, below.Size().Height))
	if f := firstFocus(o); f != nil {
		w.win.Canvas().Focus(f)
	}
	return func() {
		pop.Hide()
		w.key(&fyne.KeyEvent{Name: keyLeave})
	}
}

// sheet shows a page of text in the middle, until it is closed.
func (w *Window) sheet(title string, rows [][2]string) {
	grid := container.NewVBox()
	for _, r := range rows {
		if r[1] == "" {
			l := widget.NewLabelWithStyle(r[0], fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
			l.Wrapping = fyne.TextWrapWord
			grid.Add(l)
			continue
		}
		keys := widget.NewLabelWithStyle(r[0], fyne.TextAlignLeading, fyne.TextStyle{Monospace: true})
		text := widget.NewLabel(r[1])
		text.Wrapping = fyne.TextWrapWord
		grid.Add(container.New(&tightRow{}, keys, text))
	}
	var pop *widget.PopUp
	head := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = theme.SizeNameSubHeadingText
	shut := newCloseButton(func() {
		pop.Hide()
		w.key(&fyne.KeyEvent{Name: keyLeave})
	})
	size := w.win.Canvas().Size()
	scroll := container.NewVScroll(grid)
	scroll.SetMinSize(fyne.NewSize(min(600, size.Width-80), min(620, size.Height-140)))
	shut.scroll = scroll
	pop = widget.NewPopUp(container.NewPadded(container.NewBorder(container.NewBorder(nil, nil, head, shut), nil, nil, nil, scroll)), w.win.Canvas())
	m := pop.MinSize()
	pop.ShowAtPosition(fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2))
	w.win.Canvas().Focus(shut)
}

// tightRow lays out a key and what it does, two fifths to three, close below the
// row before.
type tightRow struct{ labeled }

func (r tightRow) MinSize(os []fyne.CanvasObject) fyne.Size {
	return r.labeled.MinSize(os).SubtractWidthHeight(0, 8)
}

// closeButton closes what it stands on, for Esc too; other keys scroll it.
type closeButton struct {
	widget.Button
	scroll *container.Scroll
}

func newCloseButton(f func()) *closeButton {
	b := &closeButton{}
	b.Text, b.Icon, b.OnTapped = "Close", theme.CancelIcon(), f
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable.
func (b *closeButton) TypedKey(k *fyne.KeyEvent) {
	by := float32(0)
	page := b.scroll.Size().Height - 40
	switch k.Name {
	case fyne.KeyEscape, fyne.KeyReturn, fyne.KeyEnter:
		b.OnTapped()
	case fyne.KeyDown:
		by = 40
	case fyne.KeyUp:
		by = -40
	case fyne.KeyPageDown:
		by = page
	case fyne.KeyPageUp:
		by = -page
	case fyne.KeyHome:
		by = -b.scroll.Content.Size().Height
	case fyne.KeyEnd:
		by = b.scroll.Content.Size().Height
	default:
		b.Button.TypedKey(k)
	}
	if by != 0 {
		b.scroll.Offset.Y = max(0, min(b.scroll.Offset.Y+by, b.scroll.Content.Size().Height-b.scroll.Size().Height))
		b.scroll.Refresh()
	}
}

// showKeys shows the shortcut sheet.
func (w *Window) showKeys() { w.sheet("Keys", w.keySheet()) }

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
		{"12' < 30 Enter", "go 12' at 30 degrees"},
		{"< 30 Enter", "point at 30 degrees, for the lengths that follow"},
		{"4', 3' Enter", "go 4' right and 3' up"},
		{"Tab", "where the legs miss the start: keep the gap, spread it, or put it in one leg"},
		{"24 x 30 Enter", "a rectangle by its width and length"},
		{"Enter", "close the outline"},
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
		{"F10 or Alt", "the menu: arrow keys walk in it"},
		{"F1", "this sheet"},
		{"Commands", ""},
	}...)
	for _, m := range w.win.MainMenu().Items {
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
	w.sheet("Cautions", [][2]string{
		{"This program estimates. Structural values defer to local code and a licensed engineer.", ""},
		{"Wet cement", "Caustic: gloves, boots, eye protection; wash it off at once."},
		{"Drilling", "Concrete dust holds silica: wet drilling or vacuum, and a respirator (OSHA 29 CFR 1926.1153)."},
		{"Digging", "Call before you dig: 811 in the US."},
		{"Bars and bolts", "Cap what sticks up (OSHA 29 CFR 1926.701(b))."},
		{"Trucks", "Keep the truck away from the edge of the trench."},
		{"Lifting", "Two for a form board and for a bundle of bars."},
	})
}
