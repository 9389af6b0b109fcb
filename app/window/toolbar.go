package window

import (
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
)

// toolbar is the one row above the plan: the menu, the pages, and the commands that are
// used all day.
type toolbar struct {
	w          *Window
	menu       *form.Button // nil where the desktop has a place of its own for menus
	undo, redo *form.Button
	units      *form.Button
	layers     *form.Button
	view       *fyne.Container // what is for the plan alone
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
	b.undo = back("", theme.ContentUndoIcon(), w.undo)
	b.redo = back("", theme.ContentRedoIcon(), w.redo)
	b.units = back("", nil, w.switchUnits)
	b.layers = button("Show", theme.VisibilityIcon(), w.showLayers)
	b.view = container.NewHBox(
		form.Rule(),
		back("", theme.ZoomFitIcon(), w.machine.Fit),
		back("", theme.ZoomInIcon(), func() { w.machine.Zoom(1.25) }),
		back("", theme.ZoomOutIcon(), func() { w.machine.Zoom(0.8) }),
		b.layers,
	)
	row := container.NewHBox()
	if runtime.GOOS != "darwin" {
		b.menu = button("Menu", theme.MenuIcon(), w.openMenu)
		row.Add(b.menu)
		row.Add(form.Rule())
	}
	for _, o := range []fyne.CanvasObject{
		w.pages.bar,
		form.Rule(),
		b.undo, b.redo, b.units,
		b.view,
		layout.NewSpacer(),
		button("", theme.HelpIcon(), w.showHelp),
		form.NewButton("Print sheets", theme.DocumentPrintIcon(), w.showPrint).Strong(),
	} {
		row.Add(o)
	}
	b.object = row
	return b
}

// show brings the buttons up to date.
func (b *toolbar) show() {
	_, undo := b.w.doc.CanUndo()
	_, redo := b.w.doc.CanRedo()
	form.Able(b.undo, undo)
	form.Able(b.redo, redo)
	form.Seen(b.view, b.w.pages.at == planPage)
	name := "ft-in"
	if b.w.doc.Units() == geometry.Millimeters {
		name = "mm"
	}
	b.units.SetText(name)
}

// setMenu has the commands at hand: from the desktop's own place for menus, or else from
// the button of the bar, and by their keys.
func (w *Window) setMenu() {
	w.commands = w.menu(words.Say)
	if w.bar.menu == nil {
		w.win.SetMainMenu(w.commands)
		return
	}
	for _, m := range w.commands.Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				w.win.Canvas().AddShortcut(i.Shortcut, func(fyne.Shortcut) {
					if w.popup != nil {
						w.closeList() // one thing at a time stands over everything
					}
					i.Action()
				})
			}
		}
	}
}

// openMenu opens the menu below its button; the arrow keys walk in it.
func (w *Window) openMenu() {
	b := w.bar.menu
	if b == nil {
		return // the desktop opens its own
	}
	all := fyne.NewMenu("")
	for _, m := range w.commands.Items {
		i := fyne.NewMenuItem(m.Label, nil)
		i.ChildMenu = m
		all.Items = append(all.Items, i)
	}
	widget.ShowPopUpMenuAtRelativePosition(all, w.win.Canvas(), fyne.NewPos(0, b.Size().Height), b)
}
