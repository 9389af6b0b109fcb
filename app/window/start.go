package window

import (
	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/opening"
)

// Start says what to open.
type Start = opening.Start

// Begin opens the job book and a window on it. Where the book cannot be opened it
// opens a window that says why, and offers the ways out.
func Begin(a fyne.App, s Start) error {
	a.Settings().SetTheme(themeOf(a))
	return opening.New(a, s, schedulerOf(s.Synchronous), func(f opening.Found) error {
		_, err := enter(a, f, s.Synchronous)
		return err
	}).Begin()
}

// enter opens a window on what was found.
func enter(a fyne.App, f opening.Found, synchronous bool) (*Window, error) {
	w, err := New(a, Options{Job: f.Job, Book: f.Book, ID: f.ID, Welcome: f.Welcome, Synchronous: synchronous})
	if err != nil {
		return nil, err
	}
	w.sayError(f.Err)
	w.Show()
	return w, nil
}
