package window

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/estimate"
	"haunchbook/app/job"
	"haunchbook/export/sheet"
	"haunchbook/export/workbook"
)

// output is one file that is printed to the folder.
type output struct {
	name  string // of the file
	about string
	make  func(w io.Writer, j job.Job, paper sheet.Paper) error
}

func outputs(prices estimate.PriceList) []output {
	return []output{
		{"layout.pdf", "Layout sheet (PDF)", func(w io.Writer, j job.Job, paper sheet.Paper) error {
			t, err := compute(j)
			if err != nil {
				return err
			}
			return sheet.Write(w, j, *t, sheet.Options{Date: now(), Paper: paper})
		}},
		{"materials.xlsx", "Materials list and prices (XLSX)", func(w io.Writer, j job.Job, _ sheet.Paper) error {
			t, err := compute(j)
			if err != nil {
				return err
			}
			e := estimate.Of(*t, j.Spec.Order, j.Price, prices)
			return workbook.Write(w, j, *t, e, workbook.Options{Date: now()})
		}},
		{"job.json", "Job file (JSON), to mail or keep", func(w io.Writer, j job.Job, _ sheet.Paper) error {
			_, err := w.Write(j.Encode())
			return err
		}},
	}
}

var papers = []sheet.Paper{{Name: "chosen to fit"}, sheet.Letter, sheet.Tabloid, sheet.A4, sheet.A3}

// Print writes the named outputs of a job into a folder, and says before each
// which it is. A file that is there is replaced only by a whole one. It stops
// between files when the context ends.
func Print(ctx context.Context, folder string, j job.Job, prices estimate.PriceList, paper sheet.Paper, names []string, progress func(done int, name string)) ([]string, error) {
	if folder == "" {
		return nil, errors.New("name a folder to write to")
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, err
	}
	var written []string
	for i, o := range outputs(prices) {
		if !slices.Contains(names, o.name) {
			continue
		}
		if err := ctx.Err(); err != nil {
			return written, errors.New("stopped")
		}
		progress(i, o.about)
		var b bytes.Buffer
		if err := o.make(&b, j, paper); err != nil {
			return written, fmt.Errorf("%s: %w", o.name, err)
		}
		path := filepath.Join(folder, o.name)
		if err := replaceFile(path, b.Bytes()); err != nil {
			return written, err
		}
		written = append(written, path)
	}
	return written, nil
}

// replaceFile puts a whole file under a name.
func replaceFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".haunchbook-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(0o644), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name()) // the first error is the one to tell
	}
	return err
}

// showPrint opens the page that prints.
func (w *Window) showPrint() { w.turn(printPage) }

// print is the page that writes the sheets to a folder.
func (p *editPanel) print() {
	f, w := p.form, p.w
	f.heading("Print sheets")
	if w.doc.Blank() {
		f.note("There is nothing to print yet: draw an outline first.")
		f.buttons(widget.NewButton("Back", func() { p.turn(selection) }))
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
	all := outputs(w.prices())
	chosen := map[string]bool{}
	for _, o := range all {
		chosen[o.name] = o.name != "job.json"
		f.check(o.about, func() bool { return chosen[o.name] }, func(v bool) { chosen[o.name] = v })
	}
	paper := 0
	var names []string
	for _, s := range papers {
		names = append(names, s.Name)
	}
	f.choice("Paper", func() []string { return names }, func() string { return names[paper] }, func(v string) {
		for i, n := range names {
			if n == v {
				paper = i
			}
		}
	})
	bar := widget.NewProgressBar()
	bar.Max = float64(len(all))
	said := widget.NewLabel("")
	said.Wrapping = fyne.TextWrapBreak
	bar.Hide()
	open := widget.NewButtonWithIcon("Open the folder", theme.FolderOpenIcon(), func() {
		_ = w.app.OpenURL(&url.URL{Scheme: "file", Path: folder.Text}) // the path is shown as well
	})
	open.Hide()
	var cancel context.CancelFunc
	stop := widget.NewButton("Stop", func() { cancel() })
	stop.Hide()
	var write *widget.Button
	write = widget.NewButtonWithIcon("Write", theme.DocumentPrintIcon(), func() {
		var files []string
		for _, o := range all {
			if chosen[o.name] {
				files = append(files, o.name)
			}
		}
		ctx, end := context.WithCancel(context.Background())
		cancel = end
		w.app.Preferences().SetString("folder", filepath.Dir(folder.Text))
		write.Disable()
		open.Hide()
		bar.SetValue(0)
		bar.Show()
		stop.Show()
		said.SetText("")
		j, prices, to, size := w.doc.Job(), w.prices(), folder.Text, papers[paper]
		if size.Width == 0 {
			size.Name = ""
		}
		w.scheduler.Work(func() {
			paths, err := Print(ctx, to, j, prices, size, files, func(done int, name string) {
				w.scheduler.Result(func() {
					bar.SetValue(float64(done) + 0.5)
					said.SetText("Writing: " + name)
				})
			})
			w.scheduler.Result(func() {
				end()
				bar.Hide()
				stop.Hide()
				write.Enable()
				text := "Written:"
				for _, path := range paths {
					text += "\n" + path
				}
				said.Importance = widget.MediumImportance
				if err != nil {
					said.Importance = widget.DangerImportance
					text = "! " + err.Error()
				} else {
					open.Show()
					w.tell("Written to " + to)
				}
				said.SetText(text)
			})
		})
	})
	write.Importance = widget.HighImportance
	f.buttons(widget.NewButton("Back", func() { p.turn(selection) }), write)
	f.add(bar, nil)
	f.add(stop, nil)
	f.add(said, nil)
	f.add(open, nil)
	w.written = write
}

// printFolder is where sheets went last, with a folder for this job.
func (w *Window) printFolder() string {
	dir := w.app.Preferences().String("folder")
	if dir == "" {
		dir, _ = os.UserHomeDir() // "" where there is none: the user names one
	}
	return filepath.Join(dir, fileName(w.doc.Job().Name))
}
