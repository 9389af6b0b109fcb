package printing

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/field"
	"haunchbook.example/app/language"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage/wholefile"
)

// run makes and writes the files, with its progress.
type run struct {
	p                 *Page
	folder            *form.Entry
	write, stop, open *form.Button
	view, print       *form.Button    // the sheets, where the system has such a thing
	replace, anew     *form.Button    // what to do with files that are there
	first             string          // of the sheets that were written
	decide            func(anew bool) // what is done once that is answered
	bar               *widget.ProgressBar
	said              *widget.Label
	box               *fyne.Container
	cancel            context.CancelFunc // of the run that is on; nil for none
}

func newRun(p *Page, folder *form.Entry) *run {
	r := &run{p: p, folder: folder, bar: widget.NewProgressBar(), said: widget.NewLabel("")}
	r.said.Wrapping = fyne.TextWrapBreak
	r.open = form.NewButton("Open the folder", theme.FolderOpenIcon(), func() {
		_ = p.frame.App().OpenURL(fileURL(folder.Text)) // the path is shown as well
	})
	r.view = form.NewButton("Open", theme.FileIcon(), func() {
		if err := p.frame.App().OpenURL(fileURL(r.first)); err != nil {
			p.frame.Say(err.Error())
		}
	})
	label := "Print at 100 %"
	if runtime.GOOS == "windows" {
		label = "Print (choose 100 %)"
	}
	r.print = form.NewButton(label, theme.DocumentPrintIcon(), r.toPrinter)
	r.replace = form.Do("Replace", func() { r.answer(false) })
	r.anew = form.Do("Write under a new name", func() { r.answer(true) })
	r.stop = form.NewButton("Stop", theme.CancelIcon(), func() {
		if r.cancel != nil {
			r.cancel()
			r.finish(nil, errStopped) // what is under way is let go of
		}
	})
	r.write = form.NewButton("Write", theme.DocumentPrintIcon(), r.start).Strong()
	r.box = container.NewVBox(r.bar, r.stop, r.said, r.replace, r.anew, r.view, r.print, r.open)
	for _, o := range r.box.Objects {
		o.Hide()
	}
	return r
}

// names gives the files that are ticked.
func (p *Page) names() (names []string) {
	for _, o := range outputs {
		if p.ticked[o.name] {
			names = append(names, o.name)
		}
	}
	return names
}

// source gives what the files are made from now.
func (p *Page) source() (source, error) {
	s, err := p.shelf.Settings()
	if err != nil {
		return source{}, err
	}
	in, err := language.Chosen(p.in)
	return source{p.frame.Current(), s.Company, p.paper, p.part, in, p.frame.Now(), p.marks()}, err
}

// start makes the files beside the window, and then writes them.
func (r *run) start() {
	p, names, to := r.p, r.p.names(), r.folder.Text
	from, err := p.source()
	if len(names) == 0 {
		err = errors.New("tick what to write")
	}
	if err != nil {
		r.finish(nil, err)
		return
	}
	ctx, end := context.WithCancel(context.Background())
	r.rest()
	r.cancel, r.decide = end, nil
	r.write.Disable()
	r.bar.Max = float64(len(names) + 1)
	r.bar.SetValue(0)
	r.bar.Show()
	r.stop.Show()
	form.Weigh(r.said, "", widget.MediumImportance)
	r.said.Show()
	var files []wholefile.File
	p.work.Do("making the files", func() (err error) {
		files, err = makeFiles(ctx, from, names, func(done int, about string) {
			p.work.Result(func() {
				if ctx.Err() == nil {
					r.bar.SetValue(float64(done))
					form.Set(r.said, about)
				}
			})
		})
		return err
	}, func(err error) {
		if ctx.Err() != nil {
			return // stopped, and told so
		}
		end()
		if err != nil {
			r.finish(nil, err)
			return
		}
		r.settle(from, to, files)
	})
}

// settle writes the files, once it is settled under which names.
func (r *run) settle(from source, to string, files []wholefile.File) {
	prefix := r.p.prefix(from)
	names := there(to, named(prefix, files))
	if to == "" || len(names) == 0 || r.p.printedSo(from, names) {
		r.put(from, to, named(prefix, files))
		return
	}
	r.decide = func(anew bool) {
		if anew {
			prefix = free(to, prefix, files)
		}
		r.put(from, to, named(prefix, files))
	}
	r.rest()
	r.said.Show()
	r.replace.Show()
	r.anew.Show()
	form.Weigh(r.said, standing(to, names), widget.WarningImportance)
	r.box.Refresh() // the text takes more lines than the one before
	r.p.frame.Window().Canvas().Focus(r.anew)
	r.p.frame.Say("Not written yet: " + names[0] + " is there already. Replace it, or write under a new name?")
}

// answer does with the files that are there what was chosen.
func (r *run) answer(anew bool) {
	if decide := r.decide; decide != nil {
		r.decide = nil
		decide(anew)
	}
}

// put keeps a revision and writes the files under their names.
func (r *run) put(from source, to string, files []wholefile.File) {
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	r.rest()
	r.write.Disable()
	r.said.Show()
	form.Weigh(r.said, "keeping a revision in the job book", widget.MediumImportance)
	r.p.keep(from, names, func(err error) {
		var written []string
		if err == nil {
			written, err = writeFiles(to, files)
		}
		r.finish(written, err)
	})
}

// toPrinter prints the sheets.
func (r *run) toPrinter() {
	path := r.first
	r.print.Disable()
	r.p.work.Do("printing", func() error { return printFile(path) }, func(err error) {
		r.print.Enable()
		if err != nil {
			r.p.frame.Say(err.Error())
			return
		}
		r.p.frame.Tell("Sent to the printer: " + filepath.Base(path))
	})
}

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

// rest puts away what belongs to a run that is on, and what followed another.
func (r *run) rest() {
	r.cancel = nil
	for _, o := range r.box.Objects {
		o.Hide()
	}
	r.write.Enable()
}

// finish tells how it ended.
func (r *run) finish(written []string, err error) {
	r.rest()
	r.said.Show()
	if err != nil {
		form.Weigh(r.said, "! "+field.Upper(shelf.Sentence(err))+".", widget.DangerImportance)
		r.box.Refresh() // the text takes more lines than the one before
		return
	}
	r.p.frame.App().Preferences().SetString(FolderKey, filepath.Dir(r.folder.Text))
	r.open.Show()
	if i := slices.IndexFunc(written, func(w string) bool { return filepath.Ext(w) == ".pdf" }); i >= 0 {
		r.first = written[i]
		form.Seen(r.view, opens())
		form.Seen(r.print, prints())
	}
	form.Weigh(r.said, "Written:\n"+strings.Join(written, "\n"), widget.MediumImportance)
	r.box.Refresh()
	r.p.frame.Tell("Written to " + r.folder.Text)
}

// printedAs begins the notes of revisions that were kept because they were printed.
const printedAs = "printed: "

// keep keeps a revision of what is about to be written; of a bid its prices too. The
// job must be the one that the files were made from.
func (p *Page) keep(from source, names []string, then func(error)) {
	if !p.shelf.Kept() {
		then(nil)
		return
	}
	if !bytes.Equal(p.frame.Base().Encode(), from.Job().Encode()) {
		then(errors.New("the job was changed while its files were made: write them again"))
		return
	}
	bid := slices.ContainsFunc(names, func(n string) bool { return strings.HasSuffix(n, "-"+bidFile) })
	if bid {
		if err := p.frame.OwnPrices("Keep the prices of the bid"); err != nil {
			then(err)
			return
		}
	}
	p.shelf.Revise(printedAs+strings.Join(names, ", "), func(_ int, err error) {
		if err == nil && bid {
			p.shelf.Bid(then)
			return
		}
		then(err)
	})
}
