package book

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage/office"
)

// founding is an office book that is to be set up, once it was looked what that comes to.
type founding struct {
	setup             *office.Setup
	address, password string
	keep              bool
	under             bool     // it is being done
	told              []string // how people get a part in it, once it is done
}

// prepare looks what setting up an office book comes to, and shows that.
func (p *Page) prepare(address, password string, keep bool, then func(error)) {
	p.shelf.PrepareOffice(address, password, func(setup *office.Setup, err error) {
		if err == nil {
			p.founding = &founding{setup: setup, address: address, password: password, keep: keep}
			p.turn(p.part)
		}
		then(err)
	})
}

// found says what setting up does, and does it; or removes the office book that is there.
func (p *Page) found(f *form.Form) {
	s := p.founding
	if s.told != nil {
		f.Explain("The office book is set up, and this book is kept together with it.")
		for _, line := range s.told {
			f.Add(form.Path(line), nil)
		}
		f.Buttons(form.Do("Go on", func() { p.founding = nil; p.turn(p.part) }))
		return
	}
	plan, sure := s.setup.Plan(), form.Do("Set it up", nil).Strong()
	do := sure.OnTapped
	if !s.setup.Due() {
		plan = s.setup.PlanDrop()
		sure = form.NewTwice("Remove the office book…", "Remove it, for everyone", func() { do() })
	}
	for _, line := range plan {
		f.Add(form.Wrapped(line), nil)
	}
	wrong := form.Grave("")
	wrong.Hide()
	do = func() {
		if s.under {
			return
		}
		s.under = true
		form.Able(sure, false)
		remove := !s.setup.Due()
		p.shelf.SetUpOffice(s.setup, remove, func(told []string, err error) {
			s.under = false
			switch {
			case err != nil:
				form.Set(wrong, "! "+field.Upper(shelf.Sentence(err))+".")
				wrong.Show()
			case remove:
				p.founding, p.joining = nil, joining{}
				p.again("The office book is gone; this book has everything that is in it")
			default:
				p.joins(s, told)
			}
		})
	}
	if s.setup.Due() {
		sure.OnTapped = do
	}
	cancel := form.Do("Cancel", func() {
		if s.under {
			return
		}
		p.say(s.setup.Close())
		p.founding = nil
		p.turn(p.part)
	})
	f.Add(container.NewGridWithColumns(2, sure, cancel), nil)
	f.Add(wrong, nil)
}

// joins makes the office book that was set up the one of this book.
func (p *Page) joins(s *founding, told []string) {
	p.shelf.JoinOffice(s.address, s.password, s.keep, func(err error) {
		s.told, s.password = told, ""
		p.joining = joining{}
		p.again("The office book is set up")
		p.say(err)
	})
}

// eraser is the button that deletes a job for everyone, for an owner of the office book.
func (p *Page) eraser(f *form.Form) []fyne.CanvasObject {
	if _, st, has := p.shelf.Office(); !has || !st.Part.Owner {
		return nil
	}
	s, _ := p.summary()
	return []fyne.CanvasObject{form.NewTwice("Delete for everyone…", "Delete it for good, for everyone", f.Act(func() error { return p.remove(s, true) }))}
}
