package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/geometry"
)

// toolbar is the row of commands above the plan.
type toolbar struct {
	w          *Window
	undo, redo *keyButton
	units      *keyButton
	layers     *keyButton
	appearance *keyButton
	object     fyne.CanvasObject
}

func newToolbar(w *Window) *toolbar {
	b := &toolbar{w: w}
	button := func(text string, icon fyne.Resource, f func()) *keyButton {
		btn := newIconButton(text, icon, f)
		btn.Importance = widget.LowImportance
		return btn
	}
	// After these the keys go to the plan again.
	back := func(f func()) func() {
		return func() {
			f()
			if w.pages.at == planView {
				w.win.Canvas().Focus(w.plan)
			}
		}
	}
	b.undo = button("Undo", theme.ContentUndoIcon(), back(w.undo))
	b.redo = button("Redo", theme.ContentRedoIcon(), back(w.redo))
	b.units = button("ft-in", nil, back(w.switchUnits))
	b.layers = button("Layers", theme.VisibilityIcon(), w.showLayers)
	b.appearance = button("Dark", nil, back(w.otherAppearance))
	print := newIconButton("Print sheets", theme.DocumentPrintIcon(), w.showPrint)
	print.Importance = widget.HighImportance
	b.object = container.NewHBox(
		button("New", theme.DocumentCreateIcon(), w.newJob),
		button("Jobs", theme.FolderOpenIcon(), w.showJobs),
		widget.NewSeparator(),
		b.undo, b.redo,
		widget.NewSeparator(),
		button("Fit", theme.ZoomFitIcon(), back(w.machine.Fit)),
		button("", theme.ZoomInIcon(), back(func() { w.machine.Zoom(1.25) })),
		button("", theme.ZoomOutIcon(), back(func() { w.machine.Zoom(0.8) })),
		widget.NewSeparator(),
		b.layers, b.units, b.appearance,
		layout.NewSpacer(),
		button("Keys", theme.HelpIcon(), w.showKeys),
		print,
	)
	return b
}

// show brings the buttons up to date.
func (b *toolbar) show() {
	_, undo := b.w.doc.CanUndo()
	_, redo := b.w.doc.CanRedo()
	able(b.undo, undo)
	able(b.redo, redo)
	text := "Units: ft-in"
	if b.w.doc.Units() == geometry.Millimeters {
		text = "Units: mm"
	}
	if b.units.Text != text {
		b.units.SetText(text)
	}
	text = "Dark"
	if b.w.dark() {
		text = "Light"
	}
	if b.appearance.Text != text {
		b.appearance.SetText(text)
	}
}

func able(b fyne.Disableable, on bool) {
	switch {
	case on && b.Disabled():
		b.Enable()
	case !on && !b.Disabled():
		b.Disable()
	}
}
