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
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/trace"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
)

// tracing keeps the picture under the plan, decoded, and as it was last drawn.
type tracing struct {
	of     string // the picture in the job that img is
	img    *image.RGBA
	failed error
	drawn  []byte // pixels of paper, grid and picture for the key
	key    tracingKey

	sketch   *trace.Sketch // what is drawn on img, where it lies at sketchAt
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

// underlay draws the traced picture, if there is one. Drawn once, it is copied
// for as long as nothing it depends on changes, as while a corner is dragged.
func (w *Window) underlay(s *scene.Scene, v view.View, _ float64) bool {
	t := w.doc.Job().Trace
	if !t.Any() || t.Hidden || len(t.Corners) != 4 {
		return false
	}
	c := &w.tracing
	if c.of != t.Image {
		c.of = t.Image
		c.img, c.failed = trace.Decode(t.Image)
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
	var corners [4]trace.XY
	for i, p := range t.Corners {
		q := v.Screen(p)
		corners[i] = trace.XY{X: q.X, Y: q.Y}
	}
	trace.Draw(dst, c.img, corners, 1-float64(t.Fade)/100, w.dark())
	c.key = key
	c.drawn = append(c.drawn[:0], dst.Pix...)
	return true
}

// trace is the page that brings a picture under the plan.
func (p *editPanel) trace() {
	f, w := p.form, p.w
	f.heading("Trace a picture")
	j := w.doc.Job()
	if !j.Trace.Any() {
		f.note("Bring in a photograph or scan of the sketch (PNG or JPEG), fit it by a length you know, and draw over it. It is kept in the job.")
		p.pictureFile()
		f.buttons(newButton("Back", func() { p.turn(selection) }), p.importButton("Browse…"))
		return
	}
	if w.tracing.failed != nil {
		f.note("! The picture cannot be shown: " + w.tracing.failed.Error())
	}
	change := func(label string, f func(*job.Trace)) {
		j := w.doc.Job()
		f(&j.Trace)
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
		newButton("Known lengths", fit(tool.NewScaleTrace())),
		newButton("Four corners", fit(tool.NewSquareTrace())),
	)
	f.buttons(
		newButton("Move it", fit(&tool.MoveTrace{})),
		newButton("Turn 90°", func() {
			if t := w.doc.Job().Trace; t.Locked {
				w.say("The picture is locked; unlock it to turn it")
				return
			}
			change("Turn the picture", func(t *job.Trace) { t.Corners = trace.Turn(t.Corners) })
		}),
	)
	f.text("Fade, %", func() string { return fmt.Sprint(w.doc.Job().Trace.Fade) }, func(s string) error {
		var n int
		if _, err := fmt.Sscanf(strings.TrimSpace(s), "%d", &n); err != nil || n < 0 || n > 100 {
			return fmt.Errorf("found %q; write a whole number from 0 to 100", s)
		}
		change("Fade the picture", func(t *job.Trace) { t.Fade = n })
		return nil
	}, nil)
	f.check("Locked", func() bool { return w.doc.Job().Trace.Locked }, func(v bool) { change("Lock the picture", func(t *job.Trace) { t.Locked = v }) })
	f.check("Hidden", func() bool { return w.doc.Job().Trace.Hidden }, func(v bool) { change("Hide the picture", func(t *job.Trace) { t.Hidden = v }) })
	f.buttons(
		newButton("Remove", func() {
			change("Remove the picture", func(t *job.Trace) { *t = job.Trace{} })
			p.turn(tracePage)
		}),
		newButton("Back", func() { p.turn(selection) }),
	)
	f.heading("Another picture")
	p.pictureFile()
	f.buttons(p.importButton("Browse…"))
}

// pictureFile is a field for the path of a picture, which Enter imports. A file
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
				p.w.importTrace(r.URI().Name(), r)
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

// importPath imports the picture of a path that was typed; ~ is the user's folder.
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
	w.importTrace(filepath.Base(path), f)
	return nil
}

// importTrace reads a picture beside the window, lays it into the view and asks
// for a length that is known on it.
func (w *Window) importTrace(name string, r io.ReadCloser) {
	v := w.machine.View
	lo, hi := v.Plan(view.XY{X: v.W * 0.08, Y: v.H * 0.92}), v.Plan(view.XY{X: v.W * 0.92, Y: v.H * 0.08})
	w.longWork("Reading "+name, func(ctx context.Context) (func(), error) {
		text, size, err := trace.Import(stoppableReader{r, ctx})
		_ = r.Close() // it was read to its end, or failed already
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		return func() {
			j := w.doc.Job()
			j.Trace = job.Trace{Image: text, Corners: trace.Place(size, lo, hi), Fade: 40}
			w.doc.Commit("Import a picture", j)
			w.edit.turn(tracePage)
			w.machine.Use(tool.NewScaleTrace())
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

// dropped takes a file that was dropped on the window: a picture to trace.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) != 1 || !slices.Contains(pictureEndings, files[0].Extension()) {
		w.say("Drop one PNG or JPEG file to trace it")
		return
	}
	w.turn(tracePage)
	if err := w.importPath(files[0].Path()); err != nil {
		w.say(err.Error())
	}
}
