package window

import (
	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/opening"
)

// Start says what to open.
type Start = opening.Start

// Begin opens the job book and a window on it. Where the book cannot be opened it
// opens a window that says why, and offers the ways out.
func Begin(a fyne.App, s Start) error {
	a.Settings().SetTheme(themeOf(a))
	speak(a)
	sc := schedulerOf(s.Synchronous)
	return opening.New(a, s, sc, func(f opening.Found) error {
		w, err := enter(a, f, sc)
		if err == nil {
			w.log = s.Log
		}
		if err == nil && s.Ready != nil {
			s.Ready(w.openNamed)
		}
		return err
	}).Begin()
}

// enter opens a window on what was found.
func enter(a fyne.App, f opening.Found, sc document.Scheduler) (*Window, error) {
	w, err := New(a, Options{Job: f.Job, Book: f.Book, ID: f.ID, Welcome: f.Welcome, Scheduler: sc})
	if err != nil {
		return nil, err
	}
	w.sayError(f.Err)
	w.Show()
	return w, nil
}
