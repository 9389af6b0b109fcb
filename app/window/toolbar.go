package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
)

// toolbar is the row of commands above the plan.
type toolbar struct {
	w          *Window
	undo, redo *form.Button
	units      *form.Button
	layers     *form.Button
	appearance *form.Button
	object     fyne.CanvasObject
}

func newToolbar(w *Window) *toolbar {
	b := &toolbar{w: w}
	button := func(text string, icon fyne.Resource, f func()) *form.Button {
		return form.NewButton(text, icon, f).Faint()
	}
	// After these the keys go to the plan again.
	back := func(text string, icon fyne.Resource, f func()) *form.Button {
		return button(text, icon, func() {
			f()
			if w.pages.at == planPage {
				w.win.Canvas().Focus(w.plan)
			}
		})
	}
	b.undo = back("Undo", theme.ContentUndoIcon(), w.undo)
	b.redo = back("Redo", theme.ContentRedoIcon(), w.redo)
	b.units = back("", nil, w.switchUnits)
	b.layers = button("Show", theme.VisibilityIcon(), w.showLayers)
	b.appearance = back("", nil, w.otherAppearance)
	b.object = container.NewHBox(
		button("New", theme.DocumentCreateIcon(), w.newJob),
		button("Jobs", theme.FolderOpenIcon(), w.showJobs),
		form.Rule(),
		b.undo, b.redo,
		form.Rule(),
		back("Fit", theme.ZoomFitIcon(), w.machine.Fit),
		back("", theme.ZoomInIcon(), func() { w.machine.Zoom(1.25) }),
		back("", theme.ZoomOutIcon(), func() { w.machine.Zoom(0.8) }),
		form.Rule(),
		b.layers, b.units, b.appearance,
		layout.NewSpacer(),
		button("Keys", theme.HelpIcon(), w.showKeys),
		form.NewButton("Print sheets", theme.DocumentPrintIcon(), w.showPrint).Strong(),
	)
	return b
}

// show brings the buttons up to date.
func (b *toolbar) show() {
	_, undo := b.w.doc.CanUndo()
	_, redo := b.w.doc.CanRedo()
	form.Able(b.undo, undo)
	form.Able(b.redo, redo)
	named := func(b *form.Button, first bool, one, other string) {
		if !first {
			one = other
		}
		if b.Text != one {
			b.SetText(one)
		}
	}
	named(b.units, b.w.doc.Units() == geometry.Millimeters, "Units: mm", "Units: ft-in")
	named(b.appearance, b.w.dark(), "Light", "Dark")
}
