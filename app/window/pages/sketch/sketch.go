// Package sketch has the page that brings a picture under the plan, to draw over it.
package sketch

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/picture/pdf"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/form"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Job() job.Job
	Commit(label string, j job.Job)
	Blank() bool
	Failed() error // why the picture cannot be shown
	Draw(s tool.State)
	// Stoppable does work beside the window that the user can stop; done runs on the
	// window's goroutine unless there was an error.
	Stoppable(what string, work func(context.Context) (done func(), err error))
	Turn() // to this page
	Back() // to what is selected
	Tell(text string)
	Window() fyne.Window
}

// ends are how the names of files end that can be drawn over.
var ends = append(slices.Clone(form.Pictures), ".pdf", ".PDF")

// Page brings in a picture and fits it.
type Page struct {
	frame   Frame
	machine *tool.Machine
	pdf     pdfFile // the picture is a page of; none where it is not
	page    int     // which, from 0
	text    string  // what became of it
}

// New gives the page.
func New(f Frame, m *tool.Machine) *Page { return &Page{frame: f, machine: m} }

// Name is how the status line calls the page.
func (*Page) Name() string { return "Draw over a sketch" }

// Key changes when the page is to be made anew.
func (p *Page) Key() string {
	return fmt.Sprint(p.frame.Job().Sketch.Any(), p.frame.Failed(), p.several())
}

// change changes the picture.
func (p *Page) change(label string, change func(*job.Sketch)) {
	j := p.frame.Job()
	change(&j.Sketch)
	p.frame.Commit(label, j)
}

// Form makes the page.
func (p *Page) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading(p.Name())
	if !p.frame.Job().Sketch.Any() {
		f.Explain("Bring in a photograph or scan of the sketch (PNG, JPEG, or a page of a PDF file), fit it by a length you know, and draw over it. It is kept in the job.")
		p.file(f)
		f.Buttons(form.Do("Back", p.frame.Back), p.browse())
		return f
	}
	if err := p.frame.Failed(); err != nil {
		f.Explain("! The sketch cannot be shown: " + err.Error())
	}
	p.another(f)
	f.Explain("Fit it: a length you know sets the scale (type 24' right to turn it level as well), a second one in another direction sets it across and up. For a photograph taken at an angle, the four corners of a rectangle you know.")
	f.Buttons(
		form.Do("Known lengths", func() { p.frame.Draw(tool.NewScaleSketch()) }),
		form.Do("Four corners", func() { p.frame.Draw(tool.NewSquareSketch()) }),
	)
	f.Buttons(
		form.Do("Move it", func() { p.frame.Draw(&tool.MoveSketch{}) }),
		form.Do("Turn 90°", f.Act(func() error {
			if p.frame.Job().Sketch.Locked {
				return errors.New("the sketch is locked; unlock it to turn it")
			}
			p.change("Turn the sketch", func(s *job.Sketch) { s.Corners = sketch.Turn(s.Corners) })
			return nil
		})),
	)
	picture := bind.Of(f, func() job.Sketch { return p.frame.Job().Sketch }, func(what string, change func(*job.Sketch)) error {
		p.change(what+" of the sketch", change)
		return nil
	})
	picture.At("sketch").Rows("fade", "locked", "hidden")
	f.Buttons(
		form.Do("Remove", func() { p.change("Remove the sketch", func(s *job.Sketch) { *s = job.Sketch{} }) }),
		form.Do("Back", p.frame.Back),
	)
	f.Heading("Another sketch")
	p.file(f)
	f.Buttons(p.browse())
	return f
}

// file is a field for the path of a picture, which Enter imports. A file dropped on
// the window does as well.
func (p *Page) file(f *form.Form) {
	e := form.NewEntry()
	e.SetPlaceHolder("Type its path, Enter; or drop it here")
	note := form.Grave("")
	note.Hide()
	e.OnSubmitted = func(path string) {
		err := p.Import(path)
		if err != nil {
			form.Set(note, "! "+err.Error())
		}
		form.Seen(note, err != nil)
	}
	e.Back = func() bool {
		was := e.Text
		e.SetText("")
		note.Hide()
		return was != ""
	}
	f.Add(container.NewVBox(e, note), nil)
}

func (p *Page) browse() *form.Button {
	return form.NewButton("Browse…", theme.FileImageIcon(), func() {
		form.OpenFile(p.frame.Window(), p.say, ends, func(r fyne.URIReadCloser) { p.read(r.URI().Name(), r) })
	}).Strong()
}

func (p *Page) say(err error) {
	if err != nil {
		p.frame.Say(err.Error())
	}
}

// Import imports the picture of a path that was typed; ~ is the user's folder.
func (p *Page) Import(path string) error {
	path = strings.TrimSpace(path)
	if path == "" {
		return errors.New("type the path of a PNG, JPEG or PDF file")
	}
	if rest, ok := strings.CutPrefix(path, "~"); ok {
		home, err := os.UserHomeDir()
		if err != nil {
			return err
		}
		path = filepath.Join(home, rest)
	}
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no file %s", path)
	}
	if err != nil {
		return err
	}
	p.read(filepath.Base(path), f)
	return nil
}

// Dropped takes files that were dropped on the window: a sketch to draw over.
func (p *Page) Dropped(files []fyne.URI) {
	if len(files) != 1 || !slices.Contains(ends, files[0].Extension()) {
		p.frame.Say("Drop one PNG, JPEG or PDF file to draw over it, or one job file to open it")
		return
	}
	p.frame.Turn()
	p.say(p.Import(files[0].Path()))
}

// read reads a picture or a PDF file beside the window, lays it into the view and asks
// for a length that is known on it.
func (p *Page) read(name string, r io.ReadCloser) {
	lay := p.laid()
	p.frame.Stoppable("Reading "+name, func(ctx context.Context) (done func(), err error) {
		defer func() {
			if err == nil {
				err = ctx.Err()
			}
			if err != nil {
				err = fmt.Errorf("%s: %w", name, err)
			}
		}()
		data, err := picture.Load(stoppable{r, ctx})
		_ = r.Close() // it was read to its end, or failed already
		switch {
		case err != nil:
			return nil, err
		case pdf.Is(data):
			return p.open(ctx, pdfFile{name: name, data: data}, 0, lay)
		}
		text, size, err := picture.Import(bytes.NewReader(data), picture.Sketch)
		return func() {
			p.pdf, p.text = pdfFile{}, ""
			lay(text, size)
		}, err
	})
}

// pdfFile is a PDF file that was brought in, so that another page of it can be.
type pdfFile struct {
	name  string
	data  []byte
	pages int
}

// open lays a page of a PDF file into the view, from 0; of several the file is kept, so
// that another can be chosen.
func (p *Page) open(ctx context.Context, of pdfFile, page int, lay func(string, image.Point)) (done func(), err error) {
	if len(of.data) > picture.MaxBytes {
		return nil, fmt.Errorf("found a file of more than %d MB; use one with fewer pages", picture.MaxBytes>>20)
	}
	cache, err := os.UserCacheDir()
	if err == nil {
		cache = filepath.Join(cache, "haunchbook", "pdf")
	}
	f, err := pdf.Open(ctx, of.data, cache)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := f.Page(page, int(picture.Sketch))
	if err != nil {
		return nil, err
	}
	of.pages = f.Pages()
	text, size, err := picture.Keep(img, picture.Sketch)
	return func() {
		p.pdf, p.page, p.text = of, page, text
		lay(text, size)
	}, err
}

// several tells whether the picture is one of the pages of a PDF file.
func (p *Page) several() bool { return p.pdf.pages > 1 && p.text == p.frame.Job().Sketch.Image }

// another lets another page of the PDF file be laid in the place of the one there.
func (p *Page) another(f *form.Form) {
	of := p.pdf
	if !p.several() {
		return
	}
	pages := make([]string, of.pages)
	for i := range pages {
		pages[i] = fmt.Sprintf("%d of %d", i+1, of.pages)
	}
	f.Choice("Page", func() []string { return pages }, func() string { return pages[p.page] }, func(v string) error {
		page, lay := slices.Index(pages, v), p.laid()
		p.frame.Stoppable("Reading page "+v, func(ctx context.Context) (func(), error) { return p.open(ctx, of, page, lay) })
		return nil
	})
}

// laid gives what lays a picture into the part of the plan that is in view now.
func (p *Page) laid() func(text string, size image.Point) {
	v := p.machine.View
	lo, hi := v.Plan(view.XY{X: v.W * 0.08, Y: v.H * 0.92}), v.Plan(view.XY{X: v.W * 0.92, Y: v.H * 0.08})
	return func(text string, size image.Point) {
		p.change("Import a sketch", func(s *job.Sketch) {
			*s = job.Sketch{Image: text, Corners: sketch.Place(size, lo, hi), Fade: 40}
		})
		p.frame.Turn()
		p.frame.Draw(tool.NewScaleSketch())
		if p.frame.Blank() {
			p.machine.Fit()
		}
		p.frame.Tell("Click the two ends of a length you know; Esc, then Four corners, for a photograph at an angle")
	}
}

// stoppable reads until the context ends.
type stoppable struct {
	io.Reader
	ctx context.Context
}

func (s stoppable) Read(b []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.Reader.Read(b)
}
