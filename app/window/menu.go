package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/window/canvas/tool"
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
	var slab []*fyne.MenuItem
	for _, t := range tools() {
		slab = append(slab, item(t.name+"   ("+string(t.key-'a'+'A')+")", nil, func() { w.use(t.start()) }))
	}
	slab = append(slab, fyne.NewMenuItemSeparator(),
		item("Outline by sizes…", nil, func() { w.turn(shapesPage) }),
		item("Outline by legs…", nil, func() { w.turn(legsPage) }),
		item("Hole, point by point", nil, func() { w.use(&tool.Chain{What: tool.Hole}) }),
		item("Edge sections…", nil, func() { w.turn(sectionsPage) }),
		item("Trace a picture…", nil, func() { w.turn(tracePage) }),
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
			item("Redo ", ctrl(fyne.KeyZ, fyne.KeyModifierShift), w.redo),
			fyne.NewMenuItemSeparator(),
			item("Delete what is selected", nil, func() { w.machine.Key(tool.Delete, tool.Mods{}) }),
			item("Switch units", nil, w.switchUnits),
		),
		fyne.NewMenu("Slab", slab...),
		fyne.NewMenu("Pages", w.pages.items()...),
		fyne.NewMenu("View",
			item("Show all", ctrl(fyne.Key0, 0), w.machine.Fit),
			item("Larger", ctrl(fyne.KeyEqual, 0), func() { w.machine.Zoom(1.25) }),
			item("Smaller", ctrl(fyne.KeyMinus, 0), func() { w.machine.Zoom(0.8) }),
			item("Layers…", ctrl(fyne.KeyL, 0), w.showLayers),
			fyne.NewMenuItemSeparator(),
			item("Light", nil, func() { w.setAppearance(LightAppearance) }),
			item("Dark", nil, func() { w.setAppearance(DarkAppearance) }),
			item("As the desktop", nil, func() { w.setAppearance(System) }),
		),
		fyne.NewMenu("Help",
			item("Keys", nil, w.showKeys),
			item("Cautions", nil, w.showCautions),
		),
	)
}

// turn shows a page of the edit panel.
func (w *Window) turn(p page) {
	w.pages.home()
	w.machine.Use(&tool.Select{})
	w.tabs.SelectIndex(0)
	w.edit.turn(p)
}

// showLayers opens the list of layers below its button.
func (w *Window) showLayers() {
	l := &w.plan.Layers
	box := container.NewVBox()
	for _, c := range []struct {
		name string
		on   *bool
	}{
		{"Grid", &l.Grid}, {"Dimensions", &l.Dims}, {"Underside of the concrete", &l.Underside},
		{"Steel", &l.Steel}, {"Anchor bolts", &l.Bolts}, {"Dowels", &l.Dowels},
		{"Saw cuts", &l.Joints}, {"Forms and stakes", &l.Forms},
	} {
		ck := widget.NewCheck(c.name, func(v bool) {
			*c.on = v
			w.plan.Redraw()
		})
		ck.Checked = *c.on
		box.Add(ck)
	}
	w.popup(box, w.bar.layers)
}

// popup shows a thing below a button until something else is clicked.
func (w *Window) popup(o fyne.CanvasObject, below fyne.CanvasObject) {
	pop := widget.NewPopUp(container.NewPadded(o), w.win.Canvas())
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(below)
	pop.ShowAtPosition(at.AddXY(0, below.Size().Height))
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
		grid.Add(container.New(&labelled{}, keys, text))
	}
	var pop *widget.PopUp
	head := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = theme.SizeNameSubHeadingText
	shut := newCloseButton(func() { pop.Hide(); w.win.Canvas().Focus(w.plan) })
	size := w.win.Canvas().Size()
	scroll := container.NewVScroll(grid)
	scroll.SetMinSize(fyne.NewSize(min(560, size.Width-80), min(560, size.Height-140)))
	pop = widget.NewPopUp(container.NewPadded(container.NewBorder(container.NewBorder(nil, nil, head, shut), nil, nil, nil, scroll)), w.win.Canvas())
	m := pop.MinSize()
	pop.ShowAtPosition(fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2))
	w.win.Canvas().Focus(shut)
}

// closeButton closes what it stands on, for Esc too.
type closeButton struct{ widget.Button }

func newCloseButton(f func()) *closeButton {
	b := &closeButton{}
	b.Text, b.Icon, b.OnTapped = "Close", theme.CancelIcon(), f
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable.
func (b *closeButton) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		b.OnTapped()
		return
	}
	b.Button.TypedKey(k)
}

// showKeys shows the shortcut sheet.
func (w *Window) showKeys() {
	rows := [][2]string{{"Tools", ""}}
	for _, t := range tools() {
		rows = append(rows, [2]string{string(t.key - 'a' + 'A'), t.name})
	}
	rows = append(rows, [][2]string{
		{"Drawing", ""},
		{"24-6 Enter", "go 24'-6\" in the direction pointed at"},
		{"arrow keys", "point right, left, up or down"},
		{"12' < 30 Enter", "go 12' at 30 degrees"},
		{"4', 3' Enter", "go 4' right and 3' up"},
		{"Enter or C", "close the outline"},
		{"Backspace", "remove the last point"},
		{"Shift", "free the angle and the grid"},
		{"O  G", "right angles on or off; grid snap on or off"},
		{"Changing", ""},
		{"click a number", "type a new one; Tab chooses which side moves"},
		{"double-click an edge", "add a corner"},
		{"Delete", "remove what is selected"},
		{"arrow keys", "nudge by 1\" or 10 mm; Shift: finest; Ctrl: 1' or 100 mm"},
		{"Tab  Shift+Tab", "next or previous thing on the plan"},
		{"Ctrl+drag", "move the whole slab"},
		{"Ctrl+Z  Ctrl+Y", "undo, redo: without limit"},
		{"Esc", "one step back, always"},
		{"Looking", ""},
		{"wheel  +  -", "zoom at the pointer"},
		{"middle drag, or drag on empty ground", "move the view"},
		{"Z", "show all"},
		{"U", "feet and inches or millimetres"},
		{"F6", "leave the plan for the panels; Tab goes on from there"},
		{"?  F1", "this sheet"},
	}...)
	w.sheet("Keys", rows)
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
