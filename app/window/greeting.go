package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// newGreeting is the line above the plan on the first run: the sample job is
// open, and a blank sheet one press away. It hides nothing of the plan, and goes
// when either is chosen.
func newGreeting(w *Window) fyne.CanvasObject {
	text := widget.NewLabel("Welcome. This is a sample job: try anything; Undo takes it back.")
	text.Truncation = fyne.TextTruncateEllipsis
	text.TextStyle.Bold = true
	gone := func() {
		w.greeted()
		w.win.Canvas().Focus(w.plan)
	}
	blank := newButton("Start a blank sheet", w.newJob)
	blank.Importance = widget.HighImportance
	strip := container.NewVBox(container.NewBorder(nil, nil, nil, container.NewHBox(blank, newButton("Look round first", gone)), text), divider())
	strip.Hide()
	return strip
}

// greeted takes the greeting away, once another job is shown.
func (w *Window) greeted() {
	if w.greeting.Visible() {
		w.greeting.Hide()
		w.win.Content().Refresh()
	}
}
