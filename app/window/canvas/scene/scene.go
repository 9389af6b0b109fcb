// Package scene draws a job's slabs into an image: grid, concrete with its
// underside, edges, doors, everything the crew places, dimensions, what stands
// around the slabs, and faults at their place.
//
// Lines and areas are drawn first and labels last, the weightiest first; a label
// that finds no room is left out. Marks that would lie closer than some pixels
// are thinned, and return on zooming in.
package scene

import (
	"image/color"
	"math"

	"haunchbook.example/app/window/canvas/dim"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/room"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/plan"
)

// Input is what a picture depends on.
type Input struct {
	Slab    Slab   // the one being worked on
	Others  []Slab // the job's other slabs, drawn quieter
	Survey  plan.Survey
	Pour    *Pour // nil where none is planned
	Units   geometry.Units
	View    view.View // in logical pixels
	Ratio   float64   // device pixels per logical one
	Dims    []dim.Dim // of Slab
	Faults  plan.Faults
	Layers  Layers
	Palette Palette
	// Under draws what lies under the plan and tells whether anything does: then
	// it shines through the slab.
	Under func(s *Scene, v view.View, k float64) bool
}

// Slab is one slab with all that is placed on it. What is not known is nil.
type Slab struct {
	Name     string // shown on the slabs that are not being worked on
	Plan     plan.Plan
	Shape    *Shape
	Layout   *layout.Layout
	Foam     *Cover
	Retarder *Cover
	Mesh     *Cover
	Wires    geometry.Length // apart, of the mesh
}

// Pour is the day of the pour as positions.
type Pour struct {
	Lines  []Line // of lanes and bays, each once
	Bays   []Bay
	Pads   []Spot
	Trucks []Spot
	Reach  geometry.Length // of the chute or hose from a truck's place; 0 for anywhere
}

// Line is a border between lanes, or between the bays of one.
type Line struct {
	A, B geometry.Point
	Lane bool
}

// Bay is what is placed in one go.
type Bay struct {
	Middle geometry.Point  // a place in it
	Size   geometry.Length // how wide it is there, about
	Name   string          // its number in the order of placing: "3"
	Text   string          // the same with what is to be said of it
	Used   string          // concrete used when it is done
}

// Spot is a named place.
type Spot struct {
	Name string
	At   geometry.Point
}

// TextSize is the size of labels in logical pixels.
const TextSize = 12

// Scene draws pictures, and keeps what it needs from one to the next.
type Scene struct {
	Brush paint.Brush

	in    Input
	cur   *Slab // the slab being drawn
	loops []plan.Loop
	pal   Palette // its colors
	v     view.View
	k     float64
	w, h  float64 // device pixels
	lo    geometry.Point
	hi    geometry.Point // what of the plan is seen
	rings [][]paint.Point
	path  []paint.Point
	grids [2]paint.Ruling
	texts texts
	room  room.Room
	picks []pick
	cuts  []float64
	parts []stretch
	// through tells whether a picture shines through the slab.
	through bool
}

// Draw draws a picture of w by h device pixels into the brush's image.
func (s *Scene) Draw(in Input, w, h int) {
	s.in, s.k = in, in.Ratio
	s.v = in.View.Times(in.Ratio)
	s.w, s.h = float64(w), float64(h)
	lo, hi := s.v.Plan(view.XY{X: 0, Y: s.h}), s.v.Plan(view.XY{X: s.w, Y: 0})
	s.lo, s.hi = lo, hi
	s.texts.of(in.Units)
	s.room.Reset()
	s.pal = in.Palette
	s.paper(w, h)
	s.through = in.Under != nil && in.Under(s, s.v, s.k)
	s.Brush.Begin()
	for i := range in.Others {
		s.turnTo(&in.Others[i], true)
		s.ground(true)
	}
	s.turnTo(&in.Slab, false)
	sound := len(in.Faults) == 0 && len(in.Slab.Plan.Outline) > 2
	s.ground(sound)
	for i := range in.Others {
		s.turnTo(&in.Others[i], true)
		s.works(true)
		s.edges()
	}
	s.turnTo(&in.Slab, false)
	s.works(sound)
	if in.Layers.Pour && in.Pour != nil {
		s.pour()
	}
	s.edges()
	if in.Layers.Sizes {
		s.dims()
	}
	s.survey()
	s.labels(sound)
	s.Brush.End()
}

// labels writes everything, the weightiest first.
func (s *Scene) labels(sound bool) {
	in := &s.in
	s.north()
	s.keepMarks()
	if in.Layers.Sizes {
		s.dimTexts()
	}
	s.faults()
	s.edgeTexts()
	s.surveyTexts()
	if in.Layers.Pour && in.Pour != nil {
		s.pourTexts()
	}
	for i := range in.Others {
		s.turnTo(&in.Others[i], false)
		s.name()
	}
	s.turnTo(&in.Slab, false)
	s.workTexts(sound)
	for i := range in.Others {
		s.turnTo(&in.Others[i], false)
		s.edgeTexts()
		s.workTexts(true)
	}
	s.turnTo(&in.Slab, false)
}

// keepMarks keeps labels off marks that stand for themselves.
func (s *Scene) keepMarks() {
	keep := func(at geometry.Point, px float64) {
		if p := s.pt(at); s.onScreen(p) {
			s.room.Take(room.Around(p.X, p.Y, px*s.k, px*s.k))
		}
	}
	for i := range s.in.Survey.Benchmarks {
		keep(s.in.Survey.Benchmarks[i].At, 17)
	}
	if s.in.Layers.Pour && s.in.Pour != nil {
		for i := range s.in.Pour.Pads {
			keep(s.in.Pour.Pads[i].At, 11)
		}
	}
}

// turnTo makes a slab the one that is drawn, in quiet colors where it is one of
// the others. Labels are written in full colors, to be read.
func (s *Scene) turnTo(slab *Slab, quiet bool) {
	s.cur = slab
	s.loops = append(s.loops[:0], slab.Plan.Outline)
	for _, h := range slab.Plan.Holes {
		s.loops = append(s.loops, h.Loop)
	}
	if s.pal = s.in.Palette; quiet {
		s.pal = s.pal.quiet()
	}
}

// ground draws what lies in and under the slab.
func (s *Scene) ground(sound bool) {
	s.slab(sound)
	if sound {
		if s.in.Layers.Foam {
			s.foam()
		}
		if s.in.Layers.Retarder {
			s.retarder()
		}
	}
	s.thickenings()
}

// works draws what the crew places.
func (s *Scene) works(sound bool) {
	l, on := s.cur.Layout, s.in.Layers
	if l == nil || !sound {
		return
	}
	if on.Steel {
		s.mesh()
		s.bars(l)
	}
	if on.SawCuts {
		for _, j := range l.SawCuts {
			s.dashes(j.A, j.B, 14, 5, 1.2, s.pal.Saw)
		}
		for _, i := range l.Isolation {
			s.dashes(i.A, i.B, 3, 2, 4, s.pal.Saw)
		}
	}
	if on.Forms {
		for _, f := range l.Forms {
			s.form(f)
		}
	}
	if on.Dowels {
		for _, d := range l.Dowels {
			s.dowel(d)
		}
	}
	if on.Bolts {
		s.bolts(l)
	}
	if on.StakeOut {
		s.stakeOut(l)
	}
}

// workTexts writes what belongs to the layers.
func (s *Scene) workTexts(sound bool) {
	if !sound {
		return
	}
	on := s.in.Layers
	if l := s.cur.Layout; l != nil {
		if on.StakeOut {
			s.stakeTexts(l)
		}
		if on.Bolts {
			s.boltTexts(l)
		}
	}
	if on.Underside && !s.through {
		s.depthTexts()
	}
	if on.Foam {
		s.foamText()
	}
	if on.Retarder {
		s.retarderText()
	}
	if l := s.cur.Layout; l != nil && on.SawCuts {
		s.isolationTexts(l)
	}
	if l := s.cur.Layout; l != nil && on.Steel {
		s.steelTexts(l)
	}
}

func (s *Scene) pt(p geometry.Point) paint.Point {
	q := s.v.Screen(p)
	return paint.Point{X: q.X, Y: q.Y}
}

func (s *Scene) xy(p view.XY) paint.Point { return paint.Point{X: p.X * s.k, Y: p.Y * s.k} }

func (s *Scene) line(a, b geometry.Point, width float64, c color.NRGBA) {
	s.Brush.Line(s.pt(a), s.pt(b), width*s.k, c)
}

func (s *Scene) dashes(a, b geometry.Point, on, off, width float64, c color.NRGBA) {
	s.Brush.Dashes(s.pt(a), s.pt(b), on*s.k, off*s.k, width*s.k, c)
}

// pixels gives how many logical pixels a length takes.
func (s *Scene) pixels(l geometry.Length) float64 { return s.in.View.Pixels(l) }

// seen tells whether any of a box that holds some points is on the screen.
func (s *Scene) seen(ps ...geometry.Point) bool {
	lo, hi := ps[0], ps[0]
	for _, p := range ps[1:] {
		lo = geometry.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geometry.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo.X <= s.hi.X && hi.X >= s.lo.X && lo.Y <= s.hi.Y && hi.Y >= s.lo.Y
}

// paper draws the sheet with its grid.
func (s *Scene) paper(w, h int) {
	if !s.in.Layers.Grid {
		s.Brush.Reset(w, h, s.pal.Paper)
		return
	}
	fine, coarse := s.in.View.Grid(s.in.Units)
	for i, step := range [2]geometry.Length{fine, coarse} {
		g := &s.grids[i]
		g.Columns, g.Rows, g.Color = g.Columns[:0], g.Rows[:0], s.pal.Grid
		if i == 1 {
			g.Color = s.pal.GridBold
		}
		for x := s.lo.X/step*step - step; x <= s.hi.X; x += step {
			g.Columns = append(g.Columns, int(math.Floor(s.v.Screen(geometry.Point{X: x}).X)))
		}
		for y := s.lo.Y/step*step - step; y <= s.hi.Y; y += step {
			g.Rows = append(g.Rows, int(math.Floor(s.v.Screen(geometry.Point{Y: y}).Y)))
		}
	}
	s.Brush.Ruled(w, h, s.pal.Paper, s.grids[:]...)
}

// ring fills scratch ring i with the corners of a loop.
func (s *Scene) ring(i int, n int, at func(k int) geometry.Point) {
	for len(s.rings) <= i {
		s.rings = append(s.rings, nil)
	}
	r := s.rings[i][:0]
	for k := range n {
		r = append(r, s.pt(at(k)))
	}
	s.rings[i] = r
}

// inward gives a vector of px logical pixels to the left of a-b.
func (s *Scene) inward(a, b geometry.Point, px float64) paint.Point {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	l := math.Sqrt(x*x + y*y)
	if l == 0 {
		return paint.Point{}
	}
	// Left of the direction, with Y down on the screen.
	return paint.Point{X: -y / l * px * s.k, Y: -x / l * px * s.k}
}

func plus(a, b paint.Point) paint.Point { return paint.Point{X: a.X + b.X, Y: a.Y + b.Y} }

func middle(a, b paint.Point) paint.Point {
	return paint.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
}

// upright tells whether text along a-b is turned to be read from the right.
func (s *Scene) upright(a, b geometry.Point) bool {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	return math.Abs(x) < 0.2*math.Sqrt(x*x+y*y)
}
