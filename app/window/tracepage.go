package window

import (
	"fmt"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/job"
	"haunchbook/app/window/canvas/scene"
	"haunchbook/app/window/canvas/tool"
	"haunchbook/app/window/canvas/trace"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
)

// tracing keeps the picture under the plan, decoded, and as it was last drawn.
type tracing struct {
	of     string // the picture in the job that img is
	img    *image.RGBA
	failed error
	drawn  []byte // pixels of paper, grid and picture for the key
	key    tracingKey
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
	trace.Draw(dst, c.img, corners, 1-float64(t.Fade)/100)
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
		f.buttons(newButton("Back", func() { p.turn(selection) }), p.importButton("Import…"))
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
	f.note("Fit it: a length you know sets the scale (type 24' < 0 to turn it level as well). For a photograph taken at an angle, the four corners of a rectangle you know.")
	f.buttons(
		newButton("Known length", fit(tool.NewScaleTrace())),
		newButton("Four corners", fit(tool.NewSquareTrace())),
	)
	f.buttons(
		newButton("Move it", fit(&tool.MoveTrace{})),
		newButton("Turn 90°", func() {
			j := w.doc.Job()
			c := j.Trace.Corners
			j.Trace.Corners = []geometry.Point{c[3], c[0], c[1], c[2]}
			w.doc.Commit("Turn the picture", j)
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
		p.importButton("Other…"),
	)
	f.buttons(newButton("Back", func() { p.turn(selection) }))
}

func (p *editPanel) importButton(text string) *widget.Button {
	b := widget.NewButtonWithIcon(text, theme.FileImageIcon(), func() {
		d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
			if err != nil {
				p.w.say(err.Error())
				return
			}
			if r != nil {
				p.w.importTrace(r)
			}
		}, p.w.win)
		d.SetFilter(fynestorage.NewExtensionFileFilter([]string{".png", ".jpg", ".jpeg", ".PNG", ".JPG", ".JPEG"}))
		d.Resize(fyne.NewSize(760, 520))
		d.Show()
	})
	b.Importance = widget.HighImportance
	return b
}

// importTrace reads a picture beside the window and lays it into the view.
func (w *Window) importTrace(r fyne.URIReadCloser) {
	w.tell("Reading " + r.URI().Name() + "…")
	v := w.machine.View
	lo, hi := v.Plan(view.XY{X: v.W * 0.08, Y: v.H * 0.92}), v.Plan(view.XY{X: v.W * 0.92, Y: v.H * 0.08})
	w.scheduler.Work(func() {
		text, size, err := trace.Import(r)
		_ = r.Close() // it was read to its end, or failed already
		w.scheduler.Result(func() {
			if err != nil {
				w.say(r.URI().Name() + ": " + err.Error())
				return
			}
			j := w.doc.Job()
			j.Trace = job.Trace{Image: text, Corners: trace.Place(size, lo, hi), Fade: 40}
			w.doc.Commit("Import a picture", j)
			w.edit.turn(tracePage)
			w.tell("Now fit the picture: Known length, or Four corners for a photograph at an angle")
		})
	})
}
