// Package scene draws a job's slabs into an image: the grid, the drawing of the
// plan with its labels, the dimensions, what stands around the slabs, and faults at
// their place.
package scene

import (
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// Input is what a picture depends on.
type Input struct {
	planview.Input
	Worked  int // the slab being worked on, by its place; the others are drawn quieter
	Units   geometry.Units
	View    view.View    // in logical pixels
	Ratio   float64      // device pixels per logical one
	Sizes   *size.Placed // the dimensions; nil for none
	Faults  plan.Faults
	Layers  Layers
	Palette Palette
	// Under gives the brush its ground if anything lies under the plan, and tells
	// whether anything does: then it shines through the slab. Paper draws what lies
	// beneath that.
	Under func(b *paint.Brush, paper func(*paint.Brush)) bool
}

// TextSize is the size of labels in logical pixels.
const TextSize = 12

// thin is how close marks of one kind may lie, logical pixels.
const thin = 3

// Scene draws pictures, and keeps what it needs from one to the next.
type Scene struct {
	Brush paint.Brush
	// Thinned is how many labels and numbers the last picture left out, for want of
	// room, until one zooms in.
	Thinned int

	in     Input
	k      float64
	grids  [2]paint.Ruling
	d      drawing.Drawing
	maker  planview.Maker
	placed drawing.Placed
	taken  []drawing.Box
	over   [1]*drawing.Placed
	screen screen
	notes  map[string][]string
	path   []paint.Point
	rings  [1][]paint.Point
}

// Draw draws a picture of w by h device pixels into the brush's image.
func (s *Scene) Draw(in Input, w, h int) {
	s.in, s.k = in, in.Ratio
	s.Brush.Begin(w, h)
	through := in.Under != nil && in.Under(&s.Brush, func(b *paint.Brush) { s.paper(b, w, h) })
	if !through {
		s.paper(&s.Brush, w, h)
	}
	s.screen.use(&s.Brush, in, through)
	s.make(through)
	s.lay(w, h)
	s.placed.DrawUnder(&s.screen)
	s.Brush.Go() // beside finding places for the labels
	s.settle()
	s.placed.DrawPlaced(&s.screen)
	if s.sizes() {
		in.Sizes.DrawPlaced(&s.screen)
	}
	s.drawNotes()
	s.drawNorth()
	s.drawFaults()
	s.Brush.End()
}

// sizes tells whether dimensions are drawn.
func (s *Scene) sizes() bool { return s.in.Layers.Sizes && s.in.Sizes != nil }

// make draws the plan into the drawing.
func (s *Scene) make(through bool) {
	v := s.in.View
	on := s.in.Layers.drawn()
	if through {
		on = on.Without(drawing.Haunch)
	}
	s.d.Units = s.in.Units
	const margin = 24 // pixels: more than anything stands off its place
	s.maker.Make(&s.d, s.in.Input, planview.Options{
		Draw: on, Names: on, Worked: s.in.Worked, Screen: true, Selected: planview.Selected{Edge: -1, Bolt: -1},
		Sound: len(s.in.Faults) == 0, Detail: v.Length(thin), Through: through,
		Lo: v.Plan(view.XY{X: -margin, Y: v.H + margin}), Hi: v.Plan(view.XY{X: v.W + margin, Y: -margin}),
	})
	s.d.Say(words.Say)
}

// lay lays the drawing on the screen, with what its labels keep off.
func (s *Scene) lay(w, h int) {
	v := s.in.View
	s.taken = s.taken[:0]
	s.placeNotes()
	s.placeNorth()
	s.placeFaults()
	o := drawing.Options{
		View: size.ViewOf(v), Area: drawing.Rect{X1: float64(w) / s.k, Y1: float64(h) / s.k}, Fonts: &s.screen,
		Pens: &size.Pens, Manner: &size.Manner, Unit: size.PerMM, Taken: s.taken,
	}
	if s.sizes() {
		s.over[0] = &s.in.Sizes.Placed
		o.Over = s.over[:]
	}
	s.placed.Lay(&s.d, o)
}

// settle places the labels beside the dimensions and what stands on the screen.
func (s *Scene) settle() {
	s.placed.Settle()
	s.Thinned = 0
	for _, n := range s.placed.Thinned {
		s.Thinned += n
	}
	if s.sizes() {
		for _, n := range s.in.Sizes.Thinned {
			s.Thinned += n
		}
	}
}

// paper draws the sheet with its grid.
func (s *Scene) paper(b *paint.Brush, w, h int) {
	pal := &s.in.Palette
	if !s.in.Layers.Grid {
		b.Reset(w, h, pal.Paper)
		return
	}
	v := s.in.View.Times(s.k)
	lo, hi := v.Plan(view.XY{Y: float64(h)}), v.Plan(view.XY{X: float64(w)})
	fine, coarse := s.in.View.Grid(s.in.Units)
	for i, step := range [2]geometry.Length{fine, coarse} {
		g := &s.grids[i]
		g.Columns, g.Rows, g.Color = g.Columns[:0], g.Rows[:0], pal.Grid
		if i == 1 {
			g.Color = pal.GridBold
		}
		for x := lo.X/step*step - step; x <= hi.X; x += step {
			g.Columns = append(g.Columns, int(math.Floor(v.Screen(geometry.Point{X: x}).X)))
		}
		for y := lo.Y/step*step - step; y <= hi.Y; y += step {
			g.Rows = append(g.Rows, int(math.Floor(v.Screen(geometry.Point{Y: y}).Y)))
		}
	}
	b.Ruled(w, h, pal.Paper, s.grids[:]...)
}

// Detail draws a drawing of something else, as a section, in the middle of a
// picture of w by h device pixels, as large as there is room.
func Detail(b *paint.Brush, d *drawing.Drawing, pal Palette, k float64, w, h int) {
	lo, hi, _ := d.Bounds()
	DetailIn(b, d, pal, k, w, h, 56, lo, hi) // room for the numbers
}

// DetailIn draws it so large that what reaches from lo to hi stands in the middle, so
// many pixels from the rim.
func DetailIn(b *paint.Brush, d *drawing.Drawing, pal Palette, k float64, w, h int, rim float64, lo, hi geometry.Point) {
	d.Say(words.Say)
	b.Reset(w, h, pal.Paper)
	area := drawing.Rect{X1: float64(w) / k, Y1: float64(h) / k}
	inner := area.Inset(rim)
	if _, _, ok := d.Bounds(); !ok || hi == lo || inner.Width() <= 0 || inner.Height() <= 0 {
		return
	}
	var s screen
	s.use(b, Input{Palette: pal, Ratio: k, View: view.View{W: float64(w) / k, H: float64(h) / k}}, false)
	scale := min(inner.Width()/float64(max(hi.X-lo.X, 1)), inner.Height()/float64(max(hi.Y-lo.Y, 1)))
	p := drawing.Place(d, drawing.Options{View: drawing.ViewIn(scale, lo, hi, area), Area: area, Fonts: &s, Pens: &size.Pens, Manner: &size.Manner, Unit: size.PerMM})
	p.Draw(&s)
}
