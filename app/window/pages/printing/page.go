package printing

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry/plan"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Tell(text string)
	Window() fyne.Window
	App() fyne.App
	Now() time.Time // for the date on the sheets
	Base() job.Job
	Blank() bool
	Faults() plan.Faults
	Handover() (h *handover.Handover, stale bool) // as it is shown
	Current() *handover.Handover                  // as it is to be printed
	OwnPrices(label string) error
	TurnToPrices()
	Back() // to what is selected
	ShowOver(title string, o fyne.CanvasObject, keys func(*fyne.KeyEvent) bool, closed func())
}

// Page prints the job.
type Page struct {
	frame  Frame
	shelf  *shelf.Shelf
	work   *document.Scheduler
	ticked map[string]bool // what to print, by file
	paper  sheet.Paper
	part   sheet.Part
	in     string // the language of the sheets, by its code
	run    *run
}

// New gives the page.
func New(f Frame, s *shelf.Shelf, sc *document.Scheduler) *Page {
	p := &Page{frame: f, shelf: s, work: sc, ticked: map[string]bool{}, in: cmp.Or(words.Spoken().Code, language.English.Code)}
	for _, o := range outputs {
		p.ticked[o.name] = o.usual
	}
	return p
}

// Name is how the status line calls the page.
func (*Page) Name() string { return "Print sheets" }

// Key changes when the page is to be made anew.
func (p *Page) Key() string {
	_, haunched := estimate.MainSection(p.frame.Base().Slabs)
	return fmt.Sprint(p.frame.Blank(), haunched)
}

// Form makes the page.
func (p *Page) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading(p.Name())
	if p.frame.Blank() {
		f.Explain("There is nothing to print yet: draw an outline first.")
		f.Buttons(form.Do("Back", p.frame.Back))
		return f
	}
	if len(p.frame.Faults()) > 0 {
		f.Explain("The plan has faults; see Checks. Mend them first, so that what is printed can be built.")
	}
	folder := form.NewEntry()
	folder.SetText(p.folder())
	folder.SetPlaceHolder("Folder to write to")
	browse := form.NewButton("", theme.FolderOpenIcon(), func() {
		form.OpenFolder(p.frame.Window(), func(error) {}, "", filepath.Dir(folder.Text), folder.SetText)
	})
	f.Add(form.Wrapped("To the folder"), nil)
	f.Add(container.NewBorder(nil, nil, nil, browse, folder), nil)
	p.run = newRun(p, folder)
	look := form.NewButton("Preview", theme.SearchIcon(), func() { newPreview(p).open() })
	f.Buttons(form.Do("Back", p.frame.Back), look, p.run.write)
	f.Add(p.run.box, nil) // above what is ticked: in sight in a low window too
	wants := &wants{p: p, box: container.NewVBox()}
	_, haunched := estimate.MainSection(p.frame.Base().Slabs)
	for _, o := range outputs {
		if o.name == howDeepFile && !haunched {
			continue
		}
		f.Check(o.about, func() bool { return p.ticked[o.name] }, func(v bool) error {
			p.ticked[o.name] = v
			wants.show()
			return nil
		})
		if o.name == bidFile {
			f.Add(wants.box, wants.show)
		}
	}
	wants.show()
	p.papers(f)
	f.Explain(p.revisionNote())
	return f
}

// papers adds the choice of paper, of which the first leaves it to the sheets, and of
// what is printed of the set.
func (p *Page) papers(f *form.Form) {
	all := append([]sheet.Paper{{}}, sheet.AllPapers()...)
	names := []string{"chosen to fit"}
	s, err := p.shelf.Settings()
	if err != nil {
		p.frame.Say(shelf.Sentence(err))
	}
	p.paper = all[max(0, slices.IndexFunc(all, func(q sheet.Paper) bool { return q.Name == s.Paper }))]
	for _, q := range all[1:] {
		names = append(names, q.Name)
	}
	bind.OneOf(f, "Paper", names, all, func() sheet.Paper { return p.paper }, func(q sheet.Paper) error {
		p.paper = q
		return nil
	})
	parts := []sheet.Part{sheet.Whole, sheet.FirstOnly, sheet.ForForms, sheet.ForSteel, sheet.ForPour}
	said := []string{"the whole set", "the first sheet only", "stake-out and forms", "steel", "pour"}
	bind.OneOf(f, "Sheets", said, parts, func() sheet.Part { return p.part }, func(q sheet.Part) error {
		p.part = q
		return nil
	})
	p.languages(f)
}

// languages adds the choice of the sheets' language.
func (p *Page) languages(f *form.Form) {
	all, err := language.Choices()
	if err != nil {
		p.frame.Say(shelf.Sentence(err))
		return
	}
	var codes, names []string
	for _, c := range all {
		codes, names = append(codes, c.Code), append(names, c.Name)
	}
	bind.OneOf(f, "Language", names, codes, func() string { return p.in }, func(code string) error {
		p.in = code
		return nil
	})
}

// revisionNote says what is kept of a print.
func (p *Page) revisionNote() string {
	switch {
	case !p.shelf.Kept():
		return "Without a job book to write to, no revision is kept of what is printed."
	case p.ticked[bidFile]:
		return "Each print keeps a revision in the job book. A bid keeps its prices in the job, and marks it as bid."
	}
	return "Each print keeps a revision in the job book: see Job book, Revisions."
}

// FolderKey is the preference that remembers where sheets went last.
const FolderKey = "folder"

// folder is where sheets went last, with a folder for this job.
func (p *Page) folder() string {
	dir := p.frame.App().Preferences().String(FolderKey)
	if dir == "" {
		dir, _ = os.UserHomeDir() // "" where there is none: the user names one
	}
	return filepath.Join(dir, form.FileName(p.frame.Base().Name))
}

// wants lists what stands between the job and its bid, while a bid is ticked.
type wants struct {
	p     *Page
	box   *fyne.Container
	shown string
}

// show brings the list up to date.
func (w *wants) show() {
	p, text := w.p, ""
	var e estimate.Estimate
	var reasons []estimate.Reason
	if h, _ := p.frame.Handover(); h != nil && p.ticked[bidFile] {
		var err error
		if e, err = h.Estimate(context.Background()); err == nil { // its takeoff is there
			reasons = e.Draft(p.frame.Now())
		}
	}
	if len(reasons) > 0 {
		text = fmt.Sprint(reasons, notOwn(e))
	}
	if text == w.shown {
		return
	}
	w.shown = text
	var os []fyne.CanvasObject
	if text != "" {
		os = append(os, form.Grave("! The bid is a draft, and is not written, since:"))
		for _, r := range reasons {
			os = append(os, form.Caption(r.Text))
		}
		os = append(os, form.Do("Enter my prices…", p.frame.TurnToPrices))
		if names := notOwn(e); len(names) > 0 {
			os = append(os, form.Caption("Used in this job and not your own:\n· "+strings.Join(names, "\n· ")))
		}
	}
	form.Refill(w.box, os...)
}
