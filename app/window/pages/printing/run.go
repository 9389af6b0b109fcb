package printing

import (
	"bytes"
	"context"
	"errors"
	"net/url"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage/wholefile"
)

// run makes and writes the files, with its progress.
type run struct {
	p                 *Page
	folder            *form.Entry
	write, stop, open *form.Button
	bar               *widget.ProgressBar
	said              *widget.Label
	box               *fyne.Container
	cancel            context.CancelFunc // of the run that is on; nil for none
}

func newRun(p *Page, folder *form.Entry) *run {
	r := &run{p: p, folder: folder, bar: widget.NewProgressBar(), said: widget.NewLabel("")}
	r.said.Wrapping = fyne.TextWrapBreak
	r.open = form.NewButton("Open the folder", theme.FolderOpenIcon(), func() {
		_ = p.frame.App().OpenURL(&url.URL{Scheme: "file", Path: folder.Text}) // the path is shown as well
	})
	r.stop = form.NewButton("Stop", theme.CancelIcon(), func() {
		if r.cancel != nil {
			r.cancel()
			r.finish(nil, errStopped) // what is under way is let go of
		}
	})
	r.write = form.NewButton("Write", theme.DocumentPrintIcon(), r.start).Strong()
	r.box = container.NewVBox(r.bar, r.stop, r.said, r.open)
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

// start makes the files beside the window, and then writes them.
func (r *run) start() {
	p, names, to := r.p, r.p.names(), r.folder.Text
	s, err := p.shelf.Settings()
	if len(names) == 0 {
		err = errors.New("tick what to write")
	}
	if err != nil {
		r.finish(nil, err)
		return
	}
	from := source{p.frame.Current(), s.Company, p.paper, p.part, p.frame.Now()}
	p.frame.App().Preferences().SetString(folderKey, filepath.Dir(to))
	ctx, end := context.WithCancel(context.Background())
	r.cancel = end
	r.write.Disable()
	r.open.Hide()
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
		var written []string
		if err == nil {
			if err = p.keep(from, names); err == nil {
				written, err = writeFiles(to, files)
			}
		}
		end()
		r.finish(written, err)
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

// finish tells how it ended.
func (r *run) finish(written []string, err error) {
	r.cancel = nil
	r.bar.Hide()
	r.stop.Hide()
	r.write.Enable()
	r.said.Show()
	if err != nil {
		form.Weigh(r.said, "! "+words.Capital(shelf.Sentence(err))+".", widget.DangerImportance)
		return
	}
	r.open.Show()
	form.Weigh(r.said, "Written:\n"+strings.Join(written, "\n"), widget.MediumImportance)
	r.p.frame.Tell("Written to " + r.folder.Text)
}

// keep keeps a revision of what is about to be written; of a bid its prices too. The
// job must be the one that the files were made from.
func (p *Page) keep(from source, names []string) error {
	if !p.shelf.Kept() {
		return nil
	}
	if !bytes.Equal(p.frame.Base().Encode(), from.Job().Encode()) {
		return errors.New("the job was changed while its files were made: write them again")
	}
	bid := slices.Contains(names, bidFile)
	if bid {
		if err := p.frame.OwnPrices("Keep the prices of the bid"); err != nil {
			return err
		}
	}
	_, err := p.shelf.Revise("printed: " + strings.Join(names, ", "))
	if err == nil && bid {
		err = p.shelf.Bid()
	}
	return err
}
