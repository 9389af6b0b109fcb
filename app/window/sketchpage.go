package window

import (
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
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
)

// underSketch keeps the sketch under the plan, decoded, and as it was last drawn.
type underSketch struct {
	of     string // the sketch in the job that img is
	img    *image.RGBA
	failed error
	drawn  []byte // pixels of paper, grid and sketch for the key
	key    tracingKey

	sketch   *sketch.Finder // what is drawn on img, where it lies at sketchAt
	sketchOf *image.RGBA
	sketchAt [4]geometry.Point
	asked    sketchAsked
}

type tracingKey struct {
	view    view.View
	w, h    int
	of      *image.RGBA
	corners [4]geometry.Point
	fade    int
	layers  scene.Layers
	palette scene.Palette
	units   geometry.Units
}

// underlay draws the sketch, if there is one. Drawn once, it is copied
// for as long as nothing it depends on changes, as while a corner is dragged.
func (w *Window) underlay(s *scene.Scene, v view.View, _ float64) bool {
	t := w.doc.Job().Sketch
	if !t.Any() || t.Hidden || len(t.Corners) != 4 {
		return false
	}
	c := &w.under
	if c.of != t.Image {
		c.of = t.Image
		c.img, c.failed = sketch.Decode(t.Image)
	}
	if c.img == nil {
		return false
	}
	dst := s.Brush.Img
	key := tracingKey{v, dst.Rect.Dx(), dst.Rect.Dy(), c.img, [4]geometry.Point(t.Corners), t.Fade, w.plan.Layers, palette(), w.doc.Units()}
	if key == c.key && len(c.drawn) == len(dst.Pix) {
		copy(dst.Pix, c.drawn)
		return true
	}
	var corners [4]sketch.XY
	for i, p := range t.Corners {
		q := v.Screen(p)
		corners[i] = sketch.XY{X: q.X, Y: q.Y}
	}
	sketch.Draw(dst, c.img, corners, 1-float64(t.Fade)/100, w.dark())
	c.key = key
	c.drawn = append(c.drawn[:0], dst.Pix...)
	return true
}

// sketch is the page that brings a sketch under the plan.
func (p *editPanel) sketch() {
	f, w := p.form, p.w
	f.heading("Draw over a sketch")
	j := w.doc.Job()
	if !j.Sketch.Any() {
		f.note("Bring in a photograph or scan of the sketch (PNG or JPEG), fit it by a length you know, and draw over it. It is kept in the job.")
		p.pictureFile()
		f.buttons(newButton("Back", func() { p.turn(selection) }), p.importButton("Browse…"))
		return
	}
	if w.under.failed != nil {
		f.note("! The sketch cannot be shown: " + w.under.failed.Error())
	}
	change := func(label string, f func(*job.Sketch)) {
		j := w.doc.Job()
		f(&j.Sketch)
		w.doc.Commit(label, j)
	}
	fit := func(s tool.State) func() {
		return func() {
			w.machine.Use(s)
			w.win.Canvas().Focus(w.plan)
		}
	}
	f.note("Fit it: a length you know sets the scale (type 24' < 0 to turn it level as well), a second one in another direction sets it across and up. For a photograph taken at an angle, the four corners of a rectangle you know.")
	f.buttons(
		newButton("Known lengths", fit(tool.NewScaleSketch())),
		newButton("Four corners", fit(tool.NewSquareSketch())),
	)
	f.buttons(
		newButton("Move it", fit(&tool.MoveSketch{})),
		newButton("Turn 90°", func() {
			if t := w.doc.Job().Sketch; t.Locked {
				w.say("The sketch is locked; unlock it to turn it")
				return
			}
			change("Turn the sketch", func(t *job.Sketch) { t.Corners = sketch.Turn(t.Corners) })
		}),
	)
	f.text("Fade, %", func() string { return fmt.Sprint(w.doc.Job().Sketch.Fade) }, func(s string) error {
		var n int
		if _, err := fmt.Sscanf(strings.TrimSpace(s), "%d", &n); err != nil || n < 0 || n > 100 {
			return fmt.Errorf("found %q; write a whole number from 0 to 100", s)
		}
		change("Fade the sketch", func(t *job.Sketch) { t.Fade = n })
		return nil
	}, nil)
	f.check("Locked", func() bool { return w.doc.Job().Sketch.Locked }, func(v bool) { change("Lock the sketch", func(t *job.Sketch) { t.Locked = v }) })
	f.check("Hidden", func() bool { return w.doc.Job().Sketch.Hidden }, func(v bool) { change("Hide the sketch", func(t *job.Sketch) { t.Hidden = v }) })
	f.buttons(
		newButton("Remove", func() {
			change("Remove the sketch", func(t *job.Sketch) { *t = job.Sketch{} })
			p.turn(sketchPage)
		}),
		newButton("Back", func() { p.turn(selection) }),
	)
	f.heading("Another sketch")
	p.pictureFile()
	f.buttons(p.importButton("Browse…"))
}

// pictureFile is a field for the path of a sketch, which Enter imports. A file
// dropped on the window does as well.
func (p *editPanel) pictureFile() {
	e := newEntry()
	e.SetPlaceHolder("Type its path, Enter; or drop it here")
	note := faultNote()
	e.OnSubmitted = func(path string) {
		note.Hide()
		if err := p.w.importPath(path); err != nil {
			note.SetText("! " + err.Error())
			note.Show()
		}
	}
	e.back = func() {
		e.SetText("")
		note.Hide()
	}
	p.form.add(container.NewVBox(e, note), nil)
}

func (p *editPanel) importButton(text string) *keyButton {
	b := newIconButton(text, theme.FileImageIcon(), func() {
		d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
			if err != nil {
				p.w.say(err.Error())
				return
			}
			if r != nil {
				p.w.importSketch(r.URI().Name(), r)
			}
		}, p.w.win)
		d.SetFilter(fynestorage.NewExtensionFileFilter(pictureEndings))
		d.Resize(fyne.NewSize(760, 520))
		d.Show()
	})
	b.Importance = widget.HighImportance
	return b
}

// pictureEndings are how the names of pictures end.
var pictureEndings = []string{".png", ".jpg", ".jpeg", ".PNG", ".JPG", ".JPEG"}

// importPath imports the sketch of a path that was typed; ~ is the user's folder.
func (w *Window) importPath(path string) error {
	path = strings.TrimSpace(path)
	if path == "" {
		return errors.New("type the path of a PNG or JPEG file")
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
	w.importSketch(filepath.Base(path), f)
	return nil
}

// importSketch reads a sketch beside the window, lays it into the view and asks
// for a length that is known on it.
func (w *Window) importSketch(name string, r io.ReadCloser) {
	v := w.machine.View
	lo, hi := v.Plan(view.XY{X: v.W * 0.08, Y: v.H * 0.92}), v.Plan(view.XY{X: v.W * 0.92, Y: v.H * 0.08})
	w.longWork("Reading "+name, func(ctx context.Context) (func(), error) {
		text, size, err := sketch.Import(stoppableReader{r, ctx})
		_ = r.Close() // it was read to its end, or failed already
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		return func() {
			j := w.doc.Job()
			j.Sketch = job.Sketch{Image: text, Corners: sketch.Place(size, lo, hi), Fade: 40}
			w.doc.Commit("Import a sketch", j)
			w.edit.turn(sketchPage)
			w.machine.Use(tool.NewScaleSketch())
			if w.doc.Blank() {
				w.machine.Fit()
			}
			w.win.Canvas().Focus(w.plan)
			w.tell("Click the two ends of a length you know; Esc, then Four corners, for a photograph at an angle")
		}, nil
	})
}

// stoppableReader reads until the context ends.
type stoppableReader struct {
	io.Reader
	ctx context.Context
}

func (s stoppableReader) Read(b []byte) (int, error) {
	if s.ctx.Err() != nil {
		return 0, errStop
	}
	return s.Reader.Read(b)
}

// dropped takes a file that was dropped on the window: a sketch to draw over.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) != 1 || !slices.Contains(pictureEndings, files[0].Extension()) {
		w.say("Drop one PNG or JPEG file to draw over it")
		return
	}
	w.turn(sketchPage)
	if err := w.importPath(files[0].Path()); err != nil {
		w.say(err.Error())
	}
}
