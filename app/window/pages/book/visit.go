package book

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/date"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/visit"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/export/sheet"
)

// visitName is what the part of the site visit is called.
const visitName = "Site visit"

// visitPart is what was seen on the site: the list to print, the answers in the order of the
// list, each with the fields of the job that it goes into, and the photographs. It stands in
// the job itself, as what goes on around it.
func (p *Page) visitPart() (fyne.CanvasObject, func()) {
	f := form.New(p)
	f.Title(visitName)
	if p.elsewhere(f) {
		return f.Box, nil
	}
	f.Buttons(p.opening(officeName), form.Do("List to print…", func() {
		p.save("visit.pdf", func(w io.Writer) error {
			return sheet.WriteVisit(context.Background(), w, p.now(), p.officeOptions())
		})
	}))
	seen := bind.Of(f, func() visit.Visit { return p.Base().Visit }, func(what string, change func(*visit.Visit)) error {
		return p.Change(what, func(j *job.Job) { change(&j.Visit) })
	}).At("visit")
	of := bind.Of(f, p.Base, p.Change).Used()
	seen.Rows("date")
	for _, t := range visit.Topics {
		f.Heading(bind.Row("visit", t.Field).Title())
		of.Rows(t.Job...)
		seen.RowAs("As seen", t.Field)
		if t.Field == "lines" {
			f.Buttons(form.Do("Add a utility locate", f.Act(func() error {
				return p.Change("Add a utility locate", func(j *job.Job) {
					j.Holds = append(slices.Clip(j.Holds), hold.Hold{Kind: hold.Locate, Asked: date.On(p.Now())})
				})
			})))
		}
	}
	p.photographs(f)
	return f.Box, f.Sync
}

// photographs shows those of the site, and takes more.
func (p *Page) photographs(f *form.Form) {
	f.Heading("Photographs")
	all := ofJob(p, func(j *job.Job) *[]visit.Photo { return &j.Visit.Photos })
	list := form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := all.Item(i)
		of := form.New(p)
		of.Add(container.NewHBox(form.Bold(visit.Mark(i))), nil)
		bind.Of(of, get, put).At("visit.photos[]").Rows("name", "date")
		place := form.Do("", func() {
			p.Home()
			p.Draw(&tool.PlacePhoto{N: i})
		})
		of.Buttons(place, form.NewTwice("Remove", "Remove it", of.Act(func() error { return all.Remove("Remove a photograph", i) })))
		shown, show := form.NewPhoto(200, 150, func() string { return get().Image })
		return container.NewVBox(container.NewBorder(nil, nil, shown, nil, of.Box), form.Strut(1, 8)), func() {
			show()
			of.Sync()
			text := "Place it on the plan"
			if get().Placed {
				text = "Place it elsewhere on the plan"
			}
			place.SetText(text)
		}
	})
	f.Add(list.Box, func() {
		list.Sync()
		f.Box.Refresh() // it grew, or got shorter
		p.scroll.Refresh()
	})
	f.Buttons(
		form.Do("Add a photograph…", func() {
			form.OpenFile(p.Window(), p.say, form.Pictures, func(r fyne.URIReadCloser) { p.readPhotos([]io.ReadCloser{r}, []string{r.URI().Name()}) })
		}),
		form.Do("Photographs to file…", func() {
			p.save("photographs.pdf", func(w io.Writer) error {
				return sheet.WritePhotos(context.Background(), w, p.now(), p.officeOptions())
			})
		}),
	)
	f.Explain("Or drop pictures here. Each is made smaller and kept in the job, without what the camera noted of where it was. They stand on no sheet of the crew's set.")
}

// TakesPictures tells whether pictures that are dropped on the window are photographs of the
// site.
func (p *Page) TakesPictures() bool {
	return p.book != nil && p.parts[p.part].name == visitName && p.chosen != 0 && p.chosen == p.shelf.ID()
}

// Dropped takes pictures that were dropped on the window.
func (p *Page) Dropped(files []fyne.URI, open func(fyne.URI) (fyne.URIReadCloser, error)) {
	var rs []io.ReadCloser
	var names []string
	for _, f := range files {
		r, err := open(f)
		if err != nil {
			p.say(err)
			continue
		}
		rs, names = append(rs, r), append(names, f.Name())
	}
	p.readPhotos(rs, names)
}

// readPhotos reads pictures beside the window and adds them to the job, in one step. One
// that cannot be read is said, and the others are taken.
func (p *Page) readPhotos(from []io.ReadCloser, names []string) {
	most := bind.Row("visit", "photos[]").Items[1]
	if n := len(p.Base().Visit.Photos); n+len(from) > most {
		p.Say(fmt.Sprintf("A job keeps %d photographs, and this one has %d: remove some first", most, n))
		return
	}
	id := p.shelf.ID()
	p.Stoppable("Reading photographs", func(ctx context.Context) (func(), error) {
		var got []visit.Photo
		var fault error
		for i, r := range from {
			data, err := picture.Load(r)
			_ = r.Close() // it was read to its end, or failed already
			if err == nil {
				err = ctx.Err()
			}
			var text string
			if err == nil {
				text, _, err = picture.Import(bytes.NewReader(data), picture.Photo)
			}
			if err != nil {
				fault = fmt.Errorf("%s: %w", names[i], err)
				continue
			}
			got = append(got, visit.Photo{Image: text})
		}
		if len(got) == 0 {
			return nil, fault
		}
		return func() {
			p.say(fault)
			if p.shelf.ID() != id { // another job was opened meanwhile
				return
			}
			on := date.On(p.Now())
			for i := range got {
				got[i].Date = on
			}
			p.say(p.Change("Add photographs", func(j *job.Job) { j.Visit.Photos = append(slices.Clip(j.Visit.Photos), got...) }))
			p.Update()
		}, nil
	})
}

// elsewhere says that the records of the chosen job stand in it, where it is not the open
// one.
func (p *Page) elsewhere(f *form.Form) bool {
	if p.chosen != 0 && p.chosen == p.shelf.ID() {
		return false
	}
	f.Explain("These records stand in the job, and its Undo takes them back: open it to read and write them.")
	f.Buttons(form.Do("Open it on the plan", p.open))
	return true
}
