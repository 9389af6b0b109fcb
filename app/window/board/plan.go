// Package board is the plan as a widget: the picture of the slabs with their layers,
// what follows the pointer above it, and the sketch under it.
package board

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout/cover"
)

// Plan shows the plan and passes pointer and keys to the machine. What
// stays from frame to frame is drawn into one image; the few shapes that follow
// the pointer are objects above it.
type Plan struct {
	widget.BaseWidget

	Machine *tool.Machine
	Layers  scene.Layers
	Shapes  *Shapes        // of the takeoff's solids
	Pour    *planview.Pour // of the last sound job
	Sketch  *Sketch        // drawn under the plan
	// Letter is called with a rune that the machine had no use for.
	Letter func(r rune) bool
	// Mods gives the modifier keys that are held.
	Mods func() tool.Mods
	// Spare is called with the keys that are not for the plan.
	Spare func(*fyne.KeyEvent)

	scene   scene.Scene
	slabs   []planview.Slab
	raster  *canvas.Raster
	overlay tool.Overlay
	drawn   Frame
	revised int
}

// Frame is what a picture depends on.
type Frame struct {
	version, revised int
	view             view.View
	layers           scene.Layers
	palette          scene.Palette
	takeoff          any
	pour             any
	slab             int
	selected         tool.Target
}

// New gives the widget for a machine.
func New(m *tool.Machine, fonts *paint.Fonts) *Plan {
	p := &Plan{Machine: m, Layers: scene.Usual, Shapes: &Shapes{}, Mods: heldMods}
	p.scene.Brush.Fonts = fonts
	p.raster = canvas.NewRaster(p.Picture)
	p.ExtendBaseWidget(p)
	return p
}

// heldMods asks the desktop which modifier keys are held.
func heldMods() tool.Mods {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	if !ok {
		return tool.Mods{}
	}
	k := d.CurrentKeyModifiers()
	return tool.Mods{
		Shift: k&fyne.KeyModifierShift != 0,
		Ctrl:  k&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0,
		Alt:   k&fyne.KeyModifierAlt != 0,
	}
}

// Redraw draws the picture anew though nothing it is known to depend on changed.
func (p *Plan) Redraw() {
	p.revised++
	p.Update()
}

// Update brings the widget up to date after an event.
func (p *Plan) Update() {
	if f := p.Frame(); f != p.drawn {
		p.drawn = f
		p.raster.Refresh()
	}
	p.Refresh()
}

func (p *Plan) Frame() Frame {
	m := p.Machine
	t, _ := m.Doc.Takeoff()
	return Frame{m.Doc.Version(), p.revised, m.View, p.Layers, look.Palette(), t, p.Pour, m.Doc.Slab(), m.Selected}
}

func (p *Plan) Picture(w, h int) image.Image {
	k := 1.0
	if width := p.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	if err := guard.Try("drawing the plan", func() error { p.scene.Draw(p.input(k), w, h); return nil }); err != nil {
		p.Machine.Notice = err.Error()
	}
	return p.scene.Brush.Img
}

// input gathers what the picture shows.
func (p *Plan) input(k float64) scene.Input {
	m := p.Machine
	j := m.Doc.Job()
	in := scene.Input{
		Input: planview.Input{Survey: j.Survey, Photos: handover.Photos(j.Visit), Pour: p.Pour}, Units: m.Units(), View: m.View, Ratio: k, Sizes: m.Sizes(),
		Faults: m.Doc.Spoken(), Layers: p.Layers, Palette: look.Palette(),
	}
	if p.Sketch != nil {
		in.Under = func(b *paint.Brush, paper func(*paint.Brush)) bool {
			return p.Sketch.Draw(b, paper, m.View.Times(k), p.Layers)
		}
	}
	p.slabs = p.slabs[:0]
	for i := range j.Slabs {
		if i == m.Doc.Slab() {
			in.Worked = len(p.slabs)
		} else if j.Slabs[i].Blank() {
			continue
		}
		p.slabs = append(p.slabs, p.slab(j, i))
	}
	in.Slabs = p.slabs
	return in
}

// slab gives a slab as it is drawn and what is placed on it.
func (p *Plan) slab(j job.Job, k int) planview.Slab {
	var s planview.Slab
	if t, _ := p.Machine.Doc.Takeoff(); t != nil {
		for i := range t.Slabs {
			if l := &t.Slabs[i]; l.Number == k {
				s = p.Shapes.of(l)
			}
		}
	}
	s.Number, s.Plan = k, j.Slabs[k]
	if len(j.Slabs) > 1 {
		s.Name = s.Plan.Called(k)
	}
	if style, ok := cover.MeshNamed(j.Spec.Place.Field.Style); ok {
		s.Wires = style.Spacing
	}
	return s
}

// MinSize keeps the plan usable in a small window.
func (p *Plan) MinSize() fyne.Size { return fyne.NewSize(240, 200) }

// Resize implements fyne.CanvasObject. The whole plan is shown until the user moves
// the view.
func (p *Plan) Resize(s fyne.Size) {
	p.BaseWidget.Resize(s)
	if s.Width < 1 || s.Height < 1 {
		return
	}
	m := p.Machine
	m.View = m.View.Sized(float64(s.Width), float64(s.Height))
	if !m.Moved {
		m.Fit()
	}
	p.Update()
}

func at(pos fyne.Position) view.XY { return view.XY{X: float64(pos.X), Y: float64(pos.Y)} }

// MouseDown implements desktop.Mouseable.
func (p *Plan) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p); c != nil {
		c.Focus(p)
	}
	b := tool.Primary
	switch e.Button {
	case desktop.MouseButtonTertiary:
		b = tool.Middle
	case desktop.MouseButtonSecondary:
		b = tool.Secondary
	}
	p.Machine.Pressed(at(e.Position), b, p.Mods())
}

// MouseUp implements desktop.Mouseable.
func (p *Plan) MouseUp(*desktop.MouseEvent) { p.Machine.Released() }

// MouseIn implements desktop.Hoverable.
func (p *Plan) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (p *Plan) MouseMoved(e *desktop.MouseEvent) {
	p.Machine.PointerMoved(at(e.Position), p.Mods())
}

// MouseOut implements desktop.Hoverable.
func (p *Plan) MouseOut() { p.Machine.PointerLeft() }

// Dragged implements fyne.Draggable.
func (p *Plan) Dragged(e *fyne.DragEvent) { p.Machine.PointerMoved(at(e.Position), p.Mods()) }

// DragEnd implements fyne.Draggable. It comes even where MouseUp does not.
func (p *Plan) DragEnd() { p.Machine.Released() }

// DoubleTapped implements fyne.DoubleTappable.
func (p *Plan) DoubleTapped(*fyne.PointEvent) { p.Machine.DoubleClicked() }

// Scrolled implements fyne.Scrollable: the wheel zooms at the pointer, and with
// Shift, which arrives as a sideways wheel, moves sideways.
func (p *Plan) Scrolled(e *fyne.ScrollEvent) {
	p.Machine.Pointer, p.Machine.Inside = at(e.Position), true
	clamp := func(f float32) float64 { return math.Max(-250, math.Min(250, float64(f))) }
	if e.Scrolled.DX != 0 {
		p.Machine.Pan(clamp(e.Scrolled.DX)*1.6, 0)
	}
	if e.Scrolled.DY != 0 {
		p.Machine.Zoom(math.Exp(clamp(e.Scrolled.DY) / 25 * 0.16))
	}
}

// Cursor implements desktop.Cursorable.
func (p *Plan) Cursor() desktop.Cursor {
	if _, ok := p.Machine.State().(*tool.Select); ok {
		return desktop.DefaultCursor
	}
	return pencil{}
}

// FocusGained implements fyne.Focusable.
func (p *Plan) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (p *Plan) FocusLost() { p.Machine.Released() }

// AcceptsTab implements fyne.Tabbable: Tab steps through the things on the plan;
// F6 leaves it.
func (p *Plan) AcceptsTab() bool { return true }

// TypedRune implements fyne.Focusable.
func (p *Plan) TypedRune(r rune) {
	if !p.Machine.Rune(r) && p.Letter != nil {
		p.Letter(r)
	}
}

// TypedKey implements fyne.Focusable.
func (p *Plan) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyF1, fyne.KeyF6, fyne.KeyF10:
		if p.Spare != nil {
			p.Spare(e)
		}
	default:
		p.Machine.Key(string(e.Name), p.Mods())
	}
}
