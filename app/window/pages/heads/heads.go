// Package heads has the panel of what is printed at the head of the sheets: whose job
// it is, and where.
package heads

import (
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
)

// Frame is what the panel needs of the window.
type Frame interface {
	form.Desk
	Base() job.Job
	Change(label string, change func(*job.Job)) error
	SwitchUnits()
	Kept() bool // every change is stored in a job book
}

// Page is the panel.
type Page struct{ frame Frame }

// New gives the panel.
func New(f Frame) Page { return Page{f} }

// Name is how the status line calls the panel: as the tool at hand.
func (Page) Name() string { return "" }

// Key changes when the panel is to be made anew.
func (Page) Key() string { return "" }

// Form makes the panel.
func (p Page) Form() *form.Form {
	frame := p.frame
	f := form.New(frame)
	f.Heading("Job")
	j := bind.Of(f, frame.Base, func(what string, change func(*job.Job)) error { return frame.Change("Change "+what, change) })
	j.Rows("name", "customer", "site", "date", "revision", "notes")
	units := bind.Row("", "units").Names
	bind.OneOf(f, j.Label("units"), []string{units[0].Words, units[1].Words}, []geometry.Units{geometry.FeetInches, geometry.Millimeters}, frame.Units, func(geometry.Units) error {
		frame.SwitchUnits()
		return nil
	})
	kept := form.Wrapped("")
	f.Add(kept, func() { where(kept, frame.Kept()) })
	return f
}

func where(l *widget.Label, kept bool) {
	text := "This window has no job book to write to: save the job as a job file (Ctrl+S) to keep it."
	if kept {
		text = "Every change is saved in the job book at once. Save as a job file (Ctrl+S) to mail it or keep it elsewhere."
	}
	form.Set(l, text)
}
