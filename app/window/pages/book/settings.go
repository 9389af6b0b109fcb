package book

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// settingsPart is what heads the sheets of the book, and what new jobs start as.
func (p *Page) settingsPart() (fyne.CanvasObject, func()) {
	f := form.New(p)
	s := bind.Of(f, func() storage.Settings {
		s, err := p.shelf.Settings()
		p.say(err)
		return s
	}, func(_ string, change func(*storage.Settings)) error { return p.shelf.ChangeSettings(change) })
	f.Title("Company, on every sheet and bid")
	s.Words("Name", func(s *storage.Settings) *string { return &s.Company.Name })
	for i, label := range []string{"Address", "Phone", "License"} {
		s.Words(label, func(s *storage.Settings) *string {
			s.Company.Lines = slices.Clone(s.Company.Lines)
			for len(s.Company.Lines) <= i {
				s.Company.Lines = append(s.Company.Lines, "")
			}
			return &s.Company.Lines[i]
		})
	}
	p.logo(f, s)
	f.Heading("Sheets")
	names, values := []string{"chosen to fit"}, []string{""}
	for _, paper := range sheet.AllPapers() {
		names, values = append(names, paper.Name), append(values, paper.Name)
	}
	bind.OneOf(f, "Paper", names, values, func() string {
		if name := s.Get().Paper; slices.Contains(values, name) {
			return name
		}
		return ""
	}, func(name string) error { return s.Put("Paper", func(s *storage.Settings) { s.Paper = name }) })
	s.Depth(field.Frost.Label, func(s *storage.Settings) *geometry.Length { return &s.Frost })
	f.Explain(field.Frost.Help)
	f.Heading("Window")
	codes, names := p.Languages()
	bind.OneOf(f, "Language", names, codes, p.Language, p.SetLanguage)
	p.newJobs(f, s)
	return f.Box, f.Sync
}

// maxLogo bounds the file of a logo: it is printed a thumb wide.
const maxLogo = 4 << 20

// logo is the company's picture, to choose and to take away.
func (p *Page) logo(f *form.Form, s bind.Fields[storage.Settings]) {
	shown := container.NewCenter()
	show := func() {
		img, err := s.Get().Company.Picture()
		if img == nil || err != nil {
			form.Refill(shown, form.Caption("No logo"))
			return
		}
		c := canvas.NewImageFromImage(img)
		c.FillMode = canvas.ImageFillContain
		c.SetMinSize(fyne.NewSize(120, 60))
		form.Refill(shown, c)
	}
	put := func(data []byte) error {
		err := s.Put("Logo", func(s *storage.Settings) { s.Company.Logo = data })
		show()
		return err
	}
	show()
	choose := form.Do("Logo…", func() {
		p.load(form.Pictures, func(data []byte) {
			err := checkLogo(data)
			if err == nil {
				err = put(data)
			}
			p.say(err)
		})
	})
	remove := form.Do("Without a logo", f.Act(func() error { return put(nil) }))
	f.Add(container.NewGridWithColumns(3, shown, container.NewCenter(choose), container.NewCenter(remove)), nil)
}

// checkLogo tells what is wrong with a picture for the sheets.
func checkLogo(data []byte) error {
	if len(data) > maxLogo {
		return fmt.Errorf("the picture has %d MB; give one of at most %d MB", len(data)>>20, maxLogo>>20)
	}
	_, _, err := picture.Check(data)
	return err
}

// newJobs is what jobs start as.
func (p *Page) newJobs(f *form.Form, s bind.Fields[storage.Settings]) {
	f.Heading("New jobs start with")
	row, _ := field.At("units")
	bind.OneOf(f, row.Label, []string{row.Names[0].Words, row.Names[1].Words}, units, func() geometry.Units {
		if s := s.Get(); s.Stored {
			return s.Start.Units
		}
		return p.Units()
	}, func(u geometry.Units) error {
		return s.Put(row.Label, func(s *storage.Settings) {
			s.Start = shelf.Anew(s.Start, u)
			s.Start.Slabs = shelf.StartOf(shelf.Blank(u)).Slabs
		})
	})
	start := s
	start.Put = func(what string, change func(*storage.Settings)) error {
		is := s.Get()
		change(&is)
		for _, fault := range is.Start.Validate() {
			if !slabFault(fault) {
				return fmt.Errorf("found %s; %s", fault.Found, fault.Want)
			}
		}
		return s.Put(what, change)
	}
	of := bind.Of(f, func() job.Job { return start.Get().Start }, func(what string, change func(*job.Job)) error {
		return start.Put(what, func(s *storage.Settings) { change(&s.Start) })
	})
	of.Rows("pour.weathering", "spec.order.waste", "price.overhead", "price.profit", "price.tax")
	f.Add(form.Do("Start new jobs as the open one", f.Act(func() error {
		err := s.Put("Start", func(s *storage.Settings) { s.Start = shelf.StartOf(p.Base()) })
		if err == nil {
			f.Sync()
			p.Tell("New jobs start as this one: without its outline, its customer and its own prices")
		}
		return err
	})), nil)
	f.Explain("That takes over everything of the open job that is not its own: its units, field thickness and sections, what goes in and by which rules, the pour, the percentages. Change any of it in a job, then take it over here.")
}
