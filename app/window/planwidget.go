package window

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout/cover"
)

// PlanCanvas shows the plan and passes pointer and keys to the machine. What
// stays from frame to frame is drawn into one image; the few shapes that follow
// the pointer are objects above it.
type PlanCanvas struct {
	widget.BaseWidget

	Machine *tool.Machine
	Layers  scene.Layers
	Shapes  *shapes                                           // of the takeoff's solids
	Pour    *planview.Pour                                    // of the last sound job
	Under   func(s *scene.Scene, v view.View, k float64) bool // drawn under the plan: the sketch
	// Letter is called with a rune that the machine had no use for.
	Letter func(r rune) bool
	// Shortcut is called with every shortcut that reaches the plan.
	Shortcut func(fyne.Shortcut)
	// Mods gives the modifier keys that are held.
	Mods func() tool.Mods
	// Spare is called with the keys that are not for the plan.
	Spare func(*fyne.KeyEvent)

	scene   scene.Scene
	slabs   []planview.Slab
	raster  *canvas.Raster
	overlay tool.Overlay
	drawn   frame
	revised int
}

// frame is what a picture depends on.
type frame struct {
	version, revised int
	view             view.View
	layers           scene.Layers
	palette          scene.Palette
	takeoff          any
	pour             any
	slab             int
	selected         [4]int
}

// NewPlanCanvas gives the widget for a machine.
func NewPlanCanvas(m *tool.Machine, fonts *paint.Fonts) *PlanCanvas {
	p := &PlanCanvas{Machine: m, Layers: scene.Usual, Shapes: &shapes{}, Mods: heldMods}
	p.scene.Brush.Fonts = fonts
	p.raster = canvas.NewRaster(p.picture)
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
func (p *PlanCanvas) Redraw() {
	p.revised++
	p.Update()
}

// Update brings the widget up to date after an event.
func (p *PlanCanvas) Update() {
	if f := p.frame(); f != p.drawn {
		p.drawn = f
		p.raster.Refresh()
	}
	p.Refresh()
}

func (p *PlanCanvas) frame() frame {
	m := p.Machine
	t, _ := m.Doc.Takeoff()
	return frame{m.Doc.Version(), p.revised, m.View, p.Layers, palette(), t, p.Pour, m.Doc.Slab(),
		[4]int{int(m.Selected.Kind), m.Selected.Loop, m.Selected.Index, m.Selected.Sub}}
}

func (p *PlanCanvas) picture(w, h int) image.Image {
	k := 1.0
	if width := p.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	p.scene.Draw(p.input(k), w, h)
	return p.scene.Brush.Img
}

// input gathers what the picture shows.
func (p *PlanCanvas) input(k float64) scene.Input {
	m := p.Machine
	j := m.Doc.Job()
	in := scene.Input{
		Input: planview.Input{Survey: j.Survey, Pour: p.Pour}, Units: m.Units(), View: m.View, Ratio: k, Sizes: m.Sizes(),
		Faults: m.Doc.Spoken(), Layers: p.Layers, Palette: palette(), Under: p.Under,
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
func (p *PlanCanvas) slab(j job.Job, k int) planview.Slab {
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
func (p *PlanCanvas) MinSize() fyne.Size { return fyne.NewSize(240, 200) }

// Resize implements fyne.CanvasObject. The whole plan is shown until the user moves
// the view.
func (p *PlanCanvas) Resize(s fyne.Size) {
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
func (p *PlanCanvas) MouseDown(e *desktop.MouseEvent) {
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
func (p *PlanCanvas) MouseUp(*desktop.MouseEvent) { p.Machine.Released() }

// MouseIn implements desktop.Hoverable.
func (p *PlanCanvas) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (p *PlanCanvas) MouseMoved(e *desktop.MouseEvent) {
	p.Machine.PointerMoved(at(e.Position), p.Mods())
}

// MouseOut implements desktop.Hoverable.
func (p *PlanCanvas) MouseOut() { p.Machine.PointerLeft() }

// Dragged implements fyne.Draggable.
func (p *PlanCanvas) Dragged(e *fyne.DragEvent) { p.Machine.PointerMoved(at(e.Position), p.Mods()) }

// DragEnd implements fyne.Draggable. It comes even where MouseUp does not.
func (p *PlanCanvas) DragEnd() { p.Machine.Released() }

// DoubleTapped implements fyne.DoubleTappable.
func (p *PlanCanvas) DoubleTapped(*fyne.PointEvent) { p.Machine.DoubleClicked() }

// Scrolled implements fyne.Scrollable: the wheel zooms at the pointer, and with
// Shift, which arrives as a sideways wheel, moves sideways.
func (p *PlanCanvas) Scrolled(e *fyne.ScrollEvent) {
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
func (p *PlanCanvas) Cursor() desktop.Cursor {
	if _, ok := p.Machine.State().(*tool.Select); ok {
		return desktop.DefaultCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained implements fyne.Focusable.
func (p *PlanCanvas) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (p *PlanCanvas) FocusLost() { p.Machine.Released() }

// AcceptsTab implements fyne.Tabbable: Tab steps through the things on the plan;
// F6 leaves it.
func (p *PlanCanvas) AcceptsTab() bool { return true }

// TypedRune implements fyne.Focusable.
func (p *PlanCanvas) TypedRune(r rune) {
	if !p.Machine.Rune(r) && p.Letter != nil {
		p.Letter(r)
	}
}

// TypedKey implements fyne.Focusable.
func (p *PlanCanvas) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyF1, fyne.KeyF6, fyne.KeyF10:
		if p.Spare != nil {
			p.Spare(e)
		}
	default:
		p.Machine.Key(string(e.Name), p.Mods())
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (p *PlanCanvas) TypedShortcut(s fyne.Shortcut) {
	if p.Shortcut != nil {
		p.Shortcut(s)
	}
}

// CreateRenderer implements fyne.Widget.
func (p *PlanCanvas) CreateRenderer() fyne.WidgetRenderer {
	r := &planRenderer{p: p}
	r.Refresh()
	return r
}

// planRenderer keeps a pool of objects for the overlay.
type planRenderer struct {
	p       *PlanCanvas
	objects []fyne.CanvasObject
	lines   []*canvas.Line
	rings   []*canvas.Circle
	labels  []*plate
}

// plate is a text on a ground of its own.
type plate struct {
	ground *canvas.Rectangle
	text   *canvas.Text
}

func (r *planRenderer) Layout(s fyne.Size) { r.p.raster.Resize(s) }

func (r *planRenderer) MinSize() fyne.Size { return r.p.MinSize() }

func (r *planRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *planRenderer) Destroy() {}

// Refresh sets the pool to the overlay.
func (r *planRenderer) Refresh() {
	o := &r.p.overlay
	r.p.Machine.Overlay(o)
	pal := palette()
	before := len(r.lines) + len(r.rings) + len(r.labels)
	for len(r.lines) < len(o.Lines) {
		r.lines = append(r.lines, canvas.NewLine(color.Transparent))
	}
	for len(r.rings) < len(o.Rings) {
		r.rings = append(r.rings, canvas.NewCircle(color.Transparent))
	}
	for len(r.labels) < len(o.Labels) {
		t := canvas.NewText("", color.Black)
		t.TextSize = scene.TextSize
		g := canvas.NewRectangle(color.Transparent)
		g.CornerRadius = 3
		r.labels = append(r.labels, &plate{g, t})
	}
	for i, l := range r.lines {
		if i >= len(o.Lines) {
			l.Hide()
			continue
		}
		c, w := stroke(o.Lines[i].Style, pal)
		l.StrokeColor, l.StrokeWidth = c, w
		l.Position1, l.Position2 = position(o.Lines[i].A), position(o.Lines[i].B)
		l.Show()
		l.Refresh()
	}
	for i, c := range r.rings {
		if i >= len(o.Rings) {
			c.Hide()
			continue
		}
		g := o.Rings[i]
		col, w := stroke(g.Style, pal)
		c.StrokeColor, c.StrokeWidth = col, max(w, 1.5)
		rad := float32(g.Radius)
		c.Move(position(g.At).SubtractXY(rad, rad))
		c.Resize(fyne.NewSize(2*rad, 2*rad))
		c.Show()
		c.Refresh()
	}
	for i, l := range r.labels {
		if i >= len(o.Labels) {
			l.ground.Hide()
			l.text.Hide()
			continue
		}
		r.label(l, o.Labels[i], pal)
	}
	if n := len(r.lines) + len(r.rings) + len(r.labels); n != before || r.objects == nil {
		r.objects = r.objects[:0]
		r.objects = append(r.objects, r.p.raster)
		for _, l := range r.lines {
			r.objects = append(r.objects, l)
		}
		for _, c := range r.rings {
			r.objects = append(r.objects, c)
		}
		for _, l := range r.labels {
			r.objects = append(r.objects, l.ground, l.text)
		}
	}
}

// label places a label, moved in so that it is not cut off.
func (r *planRenderer) label(l *plate, o tool.Label, pal scene.Palette) {
	l.text.Text = o.Text
	l.text.TextStyle.Bold = o.Style == tool.Typing || o.Style == tool.Question
	l.text.TextSize = scene.TextSize
	if o.Style == tool.Typing || o.Style == tool.Question {
		l.text.TextSize = 14
	}
	l.text.Color, l.ground.FillColor, l.ground.StrokeColor = pal.Text, pal.Paper, pal.GridBold
	l.ground.StrokeWidth = 1
	switch o.Style {
	case tool.Guide:
		l.text.Color = pal.Dim
	case tool.Typing, tool.Question:
		l.ground.StrokeColor = pal.Accent
	}
	size := l.text.MinSize()
	box := size.AddWidthHeight(10, 4)
	pos := position(o.At).SubtractXY(0, box.Height/2)
	if o.Style == tool.Question {
		pos = pos.SubtractXY(box.Width/2, 0)
	}
	limit := r.p.Size()
	pos.X = max(2, min(pos.X, limit.Width-box.Width-2))
	pos.Y = max(2, min(pos.Y, limit.Height-box.Height-2))
	l.ground.Resize(box)
	l.ground.Move(pos)
	l.text.Resize(size)
	l.text.Move(pos.AddXY(5, 2))
	l.ground.Show()
	l.text.Show()
	l.ground.Refresh()
	l.text.Refresh()
}

func position(s view.XY) fyne.Position { return fyne.NewPos(float32(s.X), float32(s.Y)) }

// stroke gives how an overlay line is drawn.
func stroke(s tool.Style, pal scene.Palette) (color.Color, float32) {
	switch s {
	case tool.Guide:
		c := pal.Accent
		c.A = 150
		return c, 1
	case tool.Hovered:
		c := pal.Accent
		c.A = 130
		return c, 4
	case tool.Chosen:
		return pal.Select, 4
	case tool.Marker:
		return pal.Accent, 2
	}
	return pal.Accent, 2
}
