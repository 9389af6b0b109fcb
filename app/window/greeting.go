package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/form"
)

// newGreeting is the line above the plan on the first run: the sample job is
// open, and a blank sheet one press away. It hides nothing of the plan, and goes
// when either is chosen.
func (w *Window) newGreeting() fyne.CanvasObject {
	text := form.Bold("Welcome. This is a sample job: try anything; Undo takes it back.")
	text.Truncation = fyne.TextTruncateEllipsis
	look := form.Do("Look round first", func() {
		w.greeted()
		w.win.Canvas().Focus(w.plan)
	})
	buttons := container.NewHBox(form.Do("Start a blank sheet", w.newJob).Strong(), look)
	strip := container.NewVBox(container.NewBorder(nil, nil, nil, buttons, text), form.Rule())
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
