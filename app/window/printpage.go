package window

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // of logos
	_ "image/png"  // of logos
	"io"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

// printing is what the files are made from: a job as it is now, and what the book
// says of everyone's.
type printing struct {
	job     job.Job
	prices  estimate.PriceList
	company storage.Company
	frost   geometry.Length
	paper   sheet.Paper
}

// output is one file that is printed to the folder.
type output struct {
	name  string // of the file
	about string
	usual bool // ticked from the start
	make  func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error
}

const bidFile = "bid.pdf"

// outputs are the files, in the order they are made.
var outputs = []output{
	{"layout.pdf", "Layout sheet (PDF)", true, func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error {
		return sheet.Write(ctx, w, h, p.sheetOptions())
	}},
	{"materials.xlsx", "Materials list and prices (XLSX)", true, func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error {
		return workbook.Write(ctx, w, h, workbook.Options{Date: now(), Company: p.company.Name})
	}},
	{bidFile, "Bid for the customer (PDF, one page)", false, func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error {
		return sheet.WriteBid(ctx, w, h, p.sheetOptions())
	}},
	{"layout.dxf", "Layout for other drawing programs (DXF)", false, func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error {
		return sheet.WriteDXF(ctx, w, h)
	}},
	{"job.json", "Job file (JSON), to mail or keep", false, func(ctx context.Context, w io.Writer, h *handover.Handover, p printing) error {
		_, err := w.Write(h.Job().Encode())
		return err
	}},
}

func (p printing) sheetOptions() sheet.Options {
	lines := slices.DeleteFunc(slices.Clone(p.company.Lines), func(l string) bool { return l == "" })
	c := sheet.Company{Name: p.company.Name, Lines: lines, Logo: logoOf(p.company)}
	return sheet.Options{Date: now(), Paper: p.paper, Company: c}
}

// logoOf gives the company's picture, nil for none or one that does not read.
func logoOf(c storage.Company) image.Image {
	img, err := c.Picture()
	if err != nil {
		return nil
	}
	return img
}

// papers are what can be chosen; the first leaves it to the sheets.
var papers = append([]sheet.Paper{{Name: "chosen to fit"}}, sheet.AllPapers()...)

var errStopped = errors.New("stopped; nothing was written")

// makeFiles makes the named outputs in memory and says before each which it is.
// It stops between files when the context ends.
func makeFiles(ctx context.Context, p printing, names []string, progress func(done int, about string)) ([]wholefile.File, error) {
	progress(0, "Taking off the quantities")
	h := handover.Of(handover.From{Job: p.job, Prices: p.prices, Frost: p.frost})
	e, err := h.Estimate(ctx)
	switch {
	case ctx.Err() != nil:
		return nil, errStopped
	case err != nil:
		return nil, err
	case slices.Contains(names, bidFile) && !e.Ready():
		return nil, errOwnPrices
	}
	var files []wholefile.File
	for _, o := range outputs {
		if !slices.Contains(names, o.name) {
			continue
		}
		if ctx.Err() != nil {
			return nil, errStopped
		}
		progress(1+len(files), o.about)
		var b bytes.Buffer
		switch err := o.make(ctx, &b, h, p); {
		case ctx.Err() != nil:
			return nil, errStopped
		case err != nil:
			return nil, fmt.Errorf("%s: %w", o.name, err)
		}
		files = append(files, wholefile.File{Name: o.name, Data: b.Bytes()})
	}
	if ctx.Err() != nil {
		return nil, errStopped
	}
	return files, nil
}

var errOwnPrices = errors.New("a bid is not written with prices that are not your own: see what is missing above")

// writeFiles writes what was made into a folder: all of it, or nothing.
func writeFiles(folder string, files []wholefile.File) (written []string, err error) {
	if folder == "" {
		return nil, errors.New("name a folder to write to")
	}
	if err := wholefile.WriteAll(folder, files); err != nil {
		return nil, err
	}
	for _, f := range files {
		written = append(written, filepath.Join(folder, f.Name))
	}
	return written, nil
}

// showPrint opens the page that prints.
func (w *Window) showPrint() { w.turn(printPage) }

// print is the page that writes the sheets to a folder.
func (p *editPanel) print() {
	f, w := p.form, p.w
	f.heading("Print sheets")
	if w.doc.Blank() {
		f.note("There is nothing to print yet: draw an outline first.")
		f.buttons(newButton("Back", func() { p.turn(selection) }))
		return
	}
	if len(w.doc.Faults()) > 0 {
		f.note("The plan has faults; see Checks. Mend them first, so that what is printed can be built.")
	}
	folder := widget.NewEntry()
	folder.SetText(w.printFolder())
	folder.SetPlaceHolder("Folder to write to")
	browse := widget.NewButtonWithIcon("", theme.FolderOpenIcon(), func() {
		d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
			if err == nil && u != nil {
				folder.SetText(u.Path())
			}
		}, w.win)
		if u, err := fynestorage.ListerForURI(fynestorage.NewFileURI(filepath.Dir(folder.Text))); err == nil {
			d.SetLocation(u)
		}
		d.Resize(fyne.NewSize(760, 520))
		d.Show()
	})
	f.add(widget.NewLabel("To the folder"), nil)
	f.add(container.NewBorder(nil, nil, nil, browse, folder), nil)
	if w.ticked == nil {
		w.ticked = map[string]bool{}
		for _, o := range outputs {
			w.ticked[o.name] = o.usual
		}
	}
	wants := newBidWants(w)
	for _, o := range outputs {
		f.check(o.about, func() bool { return w.ticked[o.name] }, func(v bool) {
			w.ticked[o.name] = v
			wants.show()
		})
		if o.name == bidFile {
			f.add(wants.box, wants.show)
			wants.show()
		}
	}
	paper := w.usualPaper()
	var names []string
	for _, s := range papers {
		names = append(names, s.Name)
	}
	f.choice("Paper", func() []string { return names }, func() string { return names[paper] }, func(v string) {
		paper = max(0, slices.Index(names, v))
	})
	run := &printRun{w: w, folder: folder}
	run.build()
	run.write.OnTapped = func() { run.start(papers[paper]) }
	f.buttons(newButton("Back", func() { p.turn(selection) }), run.write)
	f.add(run.box, nil)
	f.note(w.revisionNote())
	w.written = run.write
}

// usualPaper gives the place among papers of the one in the book's settings.
func (w *Window) usualPaper() int {
	if w.book == nil {
		return 0
	}
	s, err := w.book.Settings()
	if err != nil {
		w.say(sentence(err))
	}
	return max(0, slices.IndexFunc(papers, func(p sheet.Paper) bool { return s.Paper != "" && p.Name == s.Paper }))
}

// revisionNote says what is kept of a print.
func (w *Window) revisionNote() string {
	switch {
	case w.history == nil:
		return "Without a job book to write to, no revision is kept of what is printed."
	case w.ticked[bidFile]:
		return "Each print keeps a revision in the job book. A bid keeps its prices in the job, and marks it as bid."
	}
	return "Each print keeps a revision in the job book: see Job book, Revisions."
}

// printRun makes and writes the files, with its progress.
type printRun struct {
	w           *Window
	folder      *widget.Entry
	write, stop *widget.Button
	open        *widget.Button
	bar         *widget.ProgressBar
	said        *widget.Label
	box         *fyne.Container
	cancel      context.CancelFunc // of the run that is on; nil for none
}

func (r *printRun) build() {
	r.bar = widget.NewProgressBar()
	r.bar.Hide()
	r.said = widget.NewLabel("")
	r.said.Wrapping = fyne.TextWrapBreak
	r.said.Hide()
	r.open = widget.NewButtonWithIcon("Open the folder", theme.FolderOpenIcon(), func() {
		_ = r.w.app.OpenURL(&url.URL{Scheme: "file", Path: r.folder.Text}) // the path is shown as well
	})
	r.open.Hide()
	r.stop = widget.NewButtonWithIcon("Stop", theme.CancelIcon(), func() {
		if r.cancel != nil {
			r.cancel()
			r.finish(nil, errStopped) // what is under way is let go of
		}
	})
	r.stop.Hide()
	r.write = widget.NewButtonWithIcon("Write", theme.DocumentPrintIcon(), nil)
	r.write.Importance = widget.HighImportance
	r.box = container.NewVBox(r.bar, r.stop, r.said, r.open)
}

// start makes the files beside the window, and then writes them.
func (r *printRun) start(paper sheet.Paper) {
	w := r.w
	var names []string
	for _, o := range outputs {
		if w.ticked[o.name] {
			names = append(names, o.name)
		}
	}
	if len(names) == 0 {
		r.finish(nil, errors.New("tick what to write"))
		return
	}
	if paper.Width == 0 {
		paper.Name = ""
	}
	from := printing{job: w.doc.Base(), prices: w.prices(), paper: paper}
	if w.book != nil {
		s, err := w.book.Settings()
		if err != nil {
			r.finish(nil, err)
			return
		}
		from.company, from.frost = s.Company, s.Frost
	}
	ctx, end := context.WithCancel(context.Background())
	r.cancel = end
	w.app.Preferences().SetString("folder", filepath.Dir(r.folder.Text))
	to := r.folder.Text
	r.write.Disable()
	r.open.Hide()
	r.bar.Max = float64(len(names) + 1)
	r.bar.SetValue(0)
	r.bar.Show()
	r.stop.Show()
	r.said.Importance = widget.MediumImportance
	set(r.said, "")
	r.said.Show()
	w.scheduler.Work(func() {
		files, err := makeFiles(ctx, from, names, func(done int, about string) {
			w.scheduler.Result(func() {
				if ctx.Err() == nil {
					r.bar.SetValue(float64(done))
					set(r.said, about)
				}
			})
		})
		w.scheduler.Result(func() {
			if ctx.Err() != nil {
				return // stopped, and told so
			}
			var written []string
			if err == nil {
				if err = w.keepPrinted(from, names); err == nil {
					written, err = writeFiles(to, files)
				}
			}
			end()
			r.finish(written, err)
		})
	})
}

// finish tells how it ended.
func (r *printRun) finish(written []string, err error) {
	r.cancel = nil
	r.bar.Hide()
	r.stop.Hide()
	r.write.Enable()
	text := "Written:\n" + strings.Join(written, "\n")
	r.said.Importance = widget.MediumImportance
	if err != nil {
		r.said.Importance = widget.DangerImportance
		text = "! " + capitalized(sentence(err)) + "."
	} else {
		r.open.Show()
		r.w.tell("Written to " + r.folder.Text)
	}
	r.said.SetText(text)
	r.said.Show()
}

// keepPrinted keeps a revision of what is about to be written; of a bid its
// prices too. The job must be the one that the files were made from.
func (w *Window) keepPrinted(from printing, names []string) error {
	h := w.history
	if h == nil {
		return nil
	}
	if !bytes.Equal(w.doc.Base().Encode(), from.job.Encode()) {
		return errors.New("the job was changed while its files were made: write them again")
	}
	note := "printed: " + strings.Join(names, ", ")
	bid := slices.Contains(names, bidFile)
	if bid {
		if err := w.keepBidPrices(); err != nil {
			return err
		}
	}
	if n, err := h.unsaved(); n > 0 {
		return fmt.Errorf("the job is not saved, so no revision can be kept of this print: %w", err)
	}
	if _, err := w.book.Revise(h.id, note); err != nil {
		return err
	}
	if !bid {
		return nil
	}
	s, err := w.book.Summary(h.id)
	if err == nil && s.State == storage.Draft {
		err = w.book.SetState(h.id, storage.Bid)
	}
	return err
}

// bidWants lists what stands between the job and its bid, while a bid is ticked.
type bidWants struct {
	w     *Window
	box   *fyne.Container
	shown string
}

func newBidWants(w *Window) *bidWants { return &bidWants{w: w, box: container.NewVBox()} }

// show brings the list up to date.
func (b *bidWants) show() {
	w := b.w
	text := ""
	var e estimate.Estimate
	if t, _ := w.doc.Takeoff(); t != nil && w.ticked[bidFile] {
		j := w.doc.Job()
		e = estimate.Of(*t, j.Price, w.prices())
		if !e.Ready() {
			text = fmt.Sprint(e.Wants, notOwn(e))
		}
	}
	if text == b.shown {
		return
	}
	b.shown = text
	b.box.RemoveAll()
	if text != "" {
		b.box.Add(grave("! Before a bid is written, the prices must be your own:"))
		for _, want := range e.Wants {
			b.box.Add(caption(want.Text, false))
		}
		b.box.Add(newButton("Enter my prices…", func() { w.pages.turn(priceView) }))
		if names := notOwn(e); len(names) > 0 {
			b.box.Add(caption("Used in this job and not your own:\n· "+strings.Join(names, "\n· "), false))
		}
	}
	b.box.Refresh()
}

// notOwn lists the invented prices that an estimate uses, with what they are.
func notOwn(e estimate.Estimate) []string {
	if !e.Prices.Invented {
		return nil
	}
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	labor := false
	for _, l := range e.Lines {
		if l.ByOthers || l.Unpriced || l.Kind == estimate.Other {
			continue
		}
		if l.Kind == estimate.Labor {
			labor = true
			continue
		}
		add(fmt.Sprintf("%s: %s per %s", l.Name, e.Money(l.Price), l.Unit))
	}
	if labor {
		add("Wage: " + e.Money(e.Prices.Wage) + " per hour, and the production rates")
	}
	return out
}

// printFolder is where sheets went last, with a folder for this job.
func (w *Window) printFolder() string {
	dir := w.app.Preferences().String("folder")
	if dir == "" {
		dir, _ = os.UserHomeDir() // "" where there is none: the user names one
	}
	return filepath.Join(dir, fileName(w.doc.Job().Name))
}
