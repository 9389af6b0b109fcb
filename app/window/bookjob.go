package window

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

func itoa(n int) string { return strconv.Itoa(n) }

const minute = "2006-01-02 15:04"

// open shows the chosen job on the plan.
func (p *bookPage) open() {
	if p.chosen == 0 || p.chosen == p.w.id {
		p.w.pages.home()
		return
	}
	p.w.openFromBook(p.chosen)
}

// jobPart is what can be done with the chosen job.
func (p *bookPage) jobPart() (fyne.CanvasObject, func()) {
	w := p.w
	s, ok := p.summary()
	if !ok {
		return caption("Choose a job from the list.", false), nil
	}
	f := newPageForm(w)
	name := title(s.Name)
	about := widget.NewLabel("")
	about.Wrapping = fyne.TextWrapWord
	f.add(name, nil)
	f.add(about, func() {
		s, _ := p.summary()
		text := fmt.Sprintf("%s, begun %s, last changed %s", s.ID, s.Created.Local().Format(minute), s.Changed.Local().Format(minute))
		if s.Revision != "" {
			text += ", revision mark " + s.Revision
		}
		if s.Archived {
			text += ". Archived"
		}
		set(about, text+".")
	})
	f.add(container.NewGridWithColumns(2,
		newPageButton(w, "Open it on the plan", p.open),
		newPageButton(w, "Copy it as a start for another", func() {
			id, err := w.book.Copy(s.ID)
			if err != nil {
				p.say(err)
				return
			}
			p.chosen = id
			p.turn(p.part)
			w.tell("Copied as " + id.String() + ": open it to go on")
		}),
	), nil)
	var states []string
	for _, st := range storage.States {
		states = append(states, st.String())
	}
	f.choice("State", states, func() string { s, _ := p.summary(); return s.State.String() }, func(v string) {
		var st storage.State
		if err := st.UnmarshalText([]byte(v)); err != nil {
			p.say(err)
			return
		}
		p.say(p.setState(s.ID, st))
		p.show()
	})
	f.check("Archived: out of the everyday list", func() bool { s, _ := p.summary(); return s.Archived }, func(v bool) {
		p.say(w.book.Archive(s.ID, v))
		p.show()
	})
	f.note("In the state bid, a job keeps the prices it was bid with, whatever the lists say later.")
	f.check("Export with the undo history", func() bool { return p.history }, func(v bool) { p.history = v })
	f.add(container.NewGridWithColumns(2,
		newPageButton(w, "Export this job…", func() {
			o := storage.ExportOptions{History: p.history}
			p.save(fileName(s.Name)+".zip", func(out io.Writer) error { return w.book.ExportJob(out, s.ID, o) })
		}),
		p.deleteButton(s),
	), nil)
	f.note("An export holds the job with its revisions and what it took, as plain files in a ZIP archive. Its undo history is left out unless ticked.")
	return f.box, f.sync
}

// setState says how far a job has come. One that becomes a bid keeps its prices
// and is set aside as a revision.
func (p *bookPage) setState(id storage.ID, st storage.State) error {
	w := p.w
	switch {
	case st != storage.Bid:
		return w.book.SetState(id, st)
	case id != w.id || w.history == nil:
		_, err := w.book.Bid(id)
		return err
	}
	if err := w.keepBidPrices(); err != nil {
		return err
	}
	if _, err := w.book.Revise(id, "bid"); err != nil {
		return err
	}
	return w.book.SetState(id, st)
}

// keepBidPrices puts the list that the open job is priced with into it.
func (w *Window) keepBidPrices() error {
	if len(w.doc.Base().Price.Prices.Items) > 0 {
		return nil
	}
	list := w.prices()
	return w.changePricing("Keep the prices of the bid", func(s *estimate.Spec) { s.Prices = list })
}

// deleteButton asks once more before it deletes.
func (p *bookPage) deleteButton(s storage.Summary) fyne.CanvasObject {
	var b *pageButton
	b = newPageButton(p.w, "Delete…", func() {
		if s.ID == p.w.id {
			p.w.say("This job is open: open another first")
			return
		}
		if b.Text == "Delete…" {
			b.SetText("Delete it for good")
			b.Importance = widget.DangerImportance
			b.Refresh()
			return
		}
		p.erase(s)
	})
	return b
}

// erase deletes a job for good, and says what it cannot reach.
func (p *bookPage) erase(s storage.Summary) {
	p.w.longWork("Deleting "+s.ID.String()+" from the book and its backups", func(ctx context.Context) (func(), error) {
		done, err := p.w.book.Erase(ctx, s.ID)
		return func() {
			p.chosen = p.w.id
			p.turn(p.part)
			if len(done.Left) > 0 {
				p.w.say(fmt.Sprintf("%s is deleted, but may still be in %s: %s", s.ID, plural(len(done.Left), "file"), errors.Join(done.Left...)))
				return
			}
			p.w.tell(fmt.Sprintf("Deleted %s from the book and %s; what was exported or printed is not touched", s.ID, plural(done.Files, "backup")))
		}, err
	})
}

// save asks for a file and writes it, whole or not at all.
func (p *bookPage) save(name string, write func(io.Writer) error) {
	d := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			p.say(err)
			return
		}
		path := f.URI().Path()
		_ = f.Close() // it is written under its name when it is whole
		p.saveAs(path, write)
	}, p.w.win)
	d.SetFileName(name)
	d.Resize(fyne.NewSize(760, 520))
	d.Show()
}

func (p *bookPage) saveAs(path string, write func(io.Writer) error) {
	p.w.longWork("Writing "+filepath.Base(path), func(ctx context.Context) (func(), error) {
		var b bytes.Buffer
		err := write(stoppable{&b, ctx})
		if err == nil {
			err = wholefile.Write(path, wholefile.Bytes(b.Bytes()))
		}
		return func() { p.w.tell("Saved " + path) }, err
	})
}

// load asks for a file and reads it.
func (p *bookPage) load(ends []string, read func([]byte)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			p.say(err)
			return
		}
		defer f.Close()
		data, err := io.ReadAll(io.LimitReader(f, maxLoad+1))
		if err == nil && len(data) > maxLoad {
			err = fmt.Errorf("%s has more than %d MB", f.URI().Name(), maxLoad>>20)
		}
		if err != nil {
			p.say(err)
			return
		}
		read(data)
	}, p.w.win)
	d.SetFilter(fynestorage.NewExtensionFileFilter(ends))
	d.Resize(fyne.NewSize(760, 520))
	d.Show()
}

// maxLoad bounds what is read into memory.
const maxLoad = 1 << 30

// job gives the chosen job as it is now.
func (p *bookPage) job() (job.Job, error) {
	if p.chosen == p.w.id {
		return p.w.doc.Base(), nil
	}
	return p.w.book.Get(p.chosen)
}

const asNow = "as it is now"

// revisionsPart lists the chosen job's revisions and what changed between two.
func (p *bookPage) revisionsPart() (fyne.CanvasObject, func()) {
	w, id := p.w, p.chosen
	f := newPageForm(w)
	f.add(title("Revisions"), nil)
	note := newSearchEntry(w)
	note.SetPlaceHolder("Why, such as: before moving the door")
	keep := newPageButton(w, "Keep a revision", func() {
		n, err := w.book.Revise(id, note.Text)
		if err != nil {
			p.say(err)
			return
		}
		p.turn(p.part)
		w.tell(fmt.Sprintf("Kept as revision %d", n))
	})
	note.OnSubmitted = func(string) { keep.OnTapped() }
	f.add(container.NewBorder(nil, nil, nil, keep, note), nil)
	revisions, err := w.book.Revisions(id)
	p.say(err)
	if len(revisions) == 0 {
		f.note("None yet. A revision sets the job aside as it is, to compare with later or to come back to.")
		return f.box, nil
	}
	names := []string{asNow}
	for i := len(revisions) - 1; i >= 0; i-- {
		r := revisions[i]
		text := fmt.Sprintf("%d · %s", r.Number, r.Time.Local().Format(minute))
		if r.Name != "" {
			text += " · mark " + r.Name
		}
		if r.Note != "" {
			text += " · " + r.Note
		}
		names = append(names, text)
	}
	from, to := names[1], asNow
	result := container.NewVBox()
	at := func(name string) (s revision.State, err error) {
		when := now()
		if i := slices.Index(names, name); i > 0 {
			r := revisions[len(revisions)-i]
			when = r.Time
			s.Job, err = w.book.Revision(id, r.Number)
		} else {
			s.Job, err = p.job()
		}
		if err == nil {
			s.Prices, err = w.book.PricesAt(s.Job.Units, when)
		}
		return s, err
	}
	compare := func() {
		a, err := at(from)
		if err != nil {
			p.say(err)
			return
		}
		b, err := at(to)
		if err != nil {
			p.say(err)
			return
		}
		w.pages.work.run(func() func() {
			d := revision.Compare(a, b)
			currency := b.Prices.Currency
			return func() { showDifference(result, d, currency) }
		})
	}
	f.choice("From", names, func() string { return from }, func(v string) { from = v; compare() })
	f.choice("To", names, func() string { return to }, func(v string) { to = v; compare() })
	f.buttons(newPageButton(w, "Bring the “from” state back", func() {
		was, err := at(from)
		if err != nil {
			p.say(err)
			return
		}
		p.bringBack(id, from, was.Job)
	}))
	f.add(result, nil)
	version := 0
	return f.box, func() {
		f.sync()
		if v := w.doc.Version(); v != version {
			version = v
			compare()
		}
	}
}

// bringBack makes a revision of job id its present state, as an edit that can be
// undone.
func (p *bookPage) bringBack(id storage.ID, name string, was job.Job) {
	w := p.w
	commit := func() {
		w.doc.Commit("Bring back revision "+name, was)
		w.pages.home()
		w.tell("Brought back " + name + "; Undo takes it back")
	}
	if id == w.id {
		commit()
		return
	}
	w.leave(func() {
		j, err := w.book.Get(id)
		if err != nil {
			p.say(err)
			return
		}
		w.display(j, id)
		commit()
	})
}

// showDifference lists what changed, in words, in quantities and in price.
func showDifference(box *fyne.Container, d revision.Difference, currency string) {
	box.RemoveAll()
	if d.Same() {
		box.Add(widget.NewLabel("Nothing changed."))
	}
	for _, part := range []struct {
		name    string
		changes []revision.Change
	}{{"Job", d.Job}, {"Plan", d.Plan}, {"What goes in, and how", d.Spec}, {"Pricing", d.Pricing}} {
		if len(part.changes) == 0 {
			continue
		}
		l := func() *columns { return &columns{widths: []float32{0, 0, 0}, gap: 8} }
		box.Add(headings([]string{part.name, "Was", "Is"}, l()))
		for _, c := range part.changes {
			box.Add(container.New(l(), cellText(c.Where), cellText(orDash(c.Was)), cellText(orDash(c.Is))))
		}
	}
	for _, part := range []struct {
		name    string
		amounts []revision.Amount
	}{{"Quantities", d.Quantities}, {"Price", d.Price}} {
		if len(part.amounts) == 0 {
			continue
		}
		l := func() *columns { return &columns{widths: []float32{0, 110, 110, 110, 50}, gap: 4} }
		box.Add(headings([]string{part.name, ">Was", ">Is", ">Difference", ""}, l()))
		for _, a := range part.amounts {
			diff, unit := thousands(a.Diff().String()), a.Unit
			was, is := thousands(a.Was.String()), thousands(a.Is.String())
			if unit == "" {
				unit = currency
				was, is, diff = thousands(a.Was.StringFixed(2)), thousands(a.Is.StringFixed(2)), thousands(a.Diff().StringFixed(2))
			}
			if a.Diff().IsPositive() {
				diff = "+" + diff
			}
			row := []string{a.Name, was, is, diff}
			os := make([]fyne.CanvasObject, 0, 5)
			for i, t := range row {
				align := fyne.TextAlignTrailing
				if i == 0 {
					align = fyne.TextAlignLeading
				}
				os = append(os, figure(t, align))
			}
			os = append(os, figure(unit, fyne.TextAlignLeading))
			c := l()
			c.tight = true
			box.Add(container.New(c, os...))
		}
	}
	if d.Untaken != nil {
		box.Add(grave("! Quantities and price are not compared: " + d.Untaken.Error()))
	}
	box.Refresh()
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func cellText(s string) *widget.Label {
	l := widget.NewLabel(s)
	l.Wrapping = fyne.TextWrapWord
	return l
}
