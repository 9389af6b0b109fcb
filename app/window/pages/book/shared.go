package book

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

// joining is what is typed to join an office book.
type joining struct {
	open              bool // it is being typed
	address, password *form.Entry
	keep              bool
	under             bool // it is tried
}

// mayJoin is the way to an office book, for a book that has none and can be written to.
func (p *Page) mayJoin() []fyne.CanvasObject {
	if _, _, has := p.shelf.Office(); has || p.joining.open || p.book.ReadOnly() {
		return nil
	}
	return []fyne.CanvasObject{form.Do("Join an office book…", func() {
		p.joining = joining{open: true}
		p.turn(p.part)
		p.Window().Canvas().Focus(p.joining.address)
	})}
}

// shared is how the book stands with its office book, for a book that has one or is to
// have one.
func (p *Page) shared(f *form.Form) {
	address, _, has := p.shelf.Office()
	if !has && !p.joining.open {
		return
	}
	f.Heading("Office book")
	if p.founding != nil {
		p.found(f)
		return
	}
	if has {
		state := form.Small("")
		others := form.Small("")
		f.Add(container.NewVBox(form.Path(address), state, others), func() {
			_, st, _ := p.shelf.Office()
			text, importance := OfficeState(st)
			form.Weigh(state, text, importance)
			form.Set(others, AlsoHere(st))
			form.Seen(others, len(st.Others) > 0)
		})
		again := form.Do("Log in again…", func() {
			p.joining = joining{open: true}
			p.turn(p.part)
			p.joining.address.SetText(address)
			p.Window().Canvas().Focus(p.joining.password)
		})
		leave := form.NewTwice("Leave the office book", "Leave, and keep all that is here", func() {
			if err := p.shelf.LeaveOffice(); err != nil {
				p.say(err)
				return
			}
			p.joining = joining{}
			p.again("The book goes on alone, with everything that is in it")
		})
		f.Add(container.NewGridWithColumns(2, leave, again), func() {
			_, st, _ := p.shelf.Office()
			form.Seen(again, storage.IsKind(st.Err, storage.Forbidden))
		})
	}
	if p.joining.open {
		p.join(f)
	}
}

// join asks for an office book, and for the password.
func (p *Page) join(f *form.Form) {
	j := &p.joining
	j.address, j.password = form.NewEntry(), form.NewEntry()
	j.address.SetPlaceHolder("postgres://NAME@HOST/DATABASE")
	j.password.Password = true
	f.Add(form.Labeled(widget.NewLabel(words.Say("Address")), j.address), nil)
	f.Add(form.Labeled(widget.NewLabel(words.Say("Password")), j.password), nil)
	f.Check("Have the system's keyring keep the password", func() bool { return j.keep }, func(v bool) error {
		j.keep = v
		return nil
	})
	wrong := form.Grave("")
	wrong.Hide()
	connect := form.Do("Connect", nil).Strong()
	connect.OnTapped = func() {
		if j.under {
			return
		}
		j.under = true
		form.Able(connect, false)
		p.shelf.JoinOffice(strings.TrimSpace(j.address.Text), j.password.Text, j.keep, func(err error) {
			j.under = false
			form.Able(connect, true)
			if _, _, has := p.shelf.Office(); has && (err == nil || !storage.IsKind(err, storage.Forbidden) && !storage.IsKind(err, storage.Offline)) {
				p.joining = joining{}
				p.again("The book is kept together with the office book")
				p.say(err)
				return
			}
			if err != nil {
				form.Set(wrong, "! "+field.Upper(shelf.Sentence(err))+".")
				wrong.Show()
			}
		})
	}
	j.password.Done = connect.OnTapped
	cancel := form.Do("Cancel", func() {
		p.joining = joining{}
		p.turn(p.part)
	})
	f.Add(container.NewGridWithColumns(2, connect, cancel), nil)
	f.Buttons(form.Do("Set one up, or remove it…", func() {
		if j.under {
			return
		}
		j.under = true
		p.prepare(strings.TrimSpace(j.address.Text), j.password.Text, j.keep, func(err error) {
			j.under = false
			if err != nil {
				form.Set(wrong, "! "+field.Upper(shelf.Sentence(err))+".")
				wrong.Show()
			}
		})
	}))
	f.Add(wrong, nil)
	f.Explain("An office book brings the job books of several people together. This book keeps everything, and goes on without a network. Setting one up says first what it does.")
}

// OfficeState says how a book stands with its office book, and how much that weighs.
func OfficeState(st office.Status) (string, widget.Importance) {
	switch {
	case st.Err != nil && st.Waiting > 0:
		return "! " + field.Upper(shelf.Sentence(st.Err)) + ". " + field.Upper(waiting(st.Waiting)) + ".", widget.WarningImportance
	case st.Err != nil:
		return "! " + field.Upper(shelf.Sentence(st.Err)) + ".", widget.WarningImportance
	case !st.Online:
		return "Connecting…", widget.MediumImportance
	case st.Waiting > 0:
		return field.Upper(waiting(st.Waiting)) + ".", widget.MediumImportance
	}
	return "Up to date; in it as " + st.Part.String() + ".", widget.MediumImportance
}

func waiting(n int) string {
	if n == 1 {
		return "1 edit waits to be sent"
	}
	return words.Plural(n, "edit") + " wait to be sent"
}

// AlsoHere says who else is on the open job.
func AlsoHere(st office.Status) string {
	return "Also on the open job: " + strings.Join(st.Others, ", ")
}
