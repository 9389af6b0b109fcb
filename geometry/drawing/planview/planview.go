// Package planview draws slabs from above: their outlines with all that is placed
// on them, and their dimensions. It draws what it is handed and computes no figure.
//
// Each kind of thing on the plan is one file that adds itself to the kinds; what
// it draws, in which order, and what it writes are there and nowhere else.
package planview

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/frost"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Slab is one slab with all that is placed on it. What is not known is nil.
type Slab struct {
	Number    int    // in the job, from 0
	Name      string // written on it; "" for none
	Plan      plan.Plan
	Underside *Underside
	Surface   *solid.Surface // the finished top; nil where it is not known how it lies
	Layout    *layout.Layout
	Foam      *Cover
	Retarder  *Cover
	Mesh      *Cover
	Frost     *frost.Placed
	Wires     geometry.Length // apart, of the mesh; 0 to draw none

	Letters map[string]string // of the edge sections by name; nil to write none
	Beyond  map[int]string    // what is on the far side of a joint, by the outline's edge; "" for "joint with old slab"
	Title   []string          // what is written of the whole slab; nil for its thickness alone
}

// Input is what a plan is drawn from.
type Input struct {
	Slabs  []Slab
	Survey plan.Survey
	Pour   *Pour // nil where none is planned
	Photos []Photo
	Beside []Slab // other slabs, of which the outlines and the names are drawn
}

// Photo is a photograph of the site, at where it was taken from.
type Photo struct {
	Mark string
	At   geometry.Point
}

// Options say what of a plan is drawn, and how finely.
type Options struct {
	Draw  drawing.Layers // what is drawn
	Names drawing.Layers // of what the labels are written

	// Worked is the slab, by its place among the slabs, that the others stand
	// round, fainter; -1 where none does.
	Worked int
	// Screen draws as on a screen: edges are left open at doors, sides are measured
	// one by one, the doors and bolts of Selected only.
	Screen   bool
	Selected Selected
	// Sound tells that the plan has no fault: what is placed on it is drawn.
	Sound bool

	// Again tells that the corners' numbers stand on another drawing too: here they
	// may be left out.
	Again bool

	// Detail is what is too small on the sheet to be told apart; 0 draws everything.
	Detail geometry.Length
	// Lo and Hi are what of the plan is seen; all of it where they are equal.
	Lo, Hi geometry.Point
	// Through tells that a picture shines through the slabs.
	Through bool
}

// Selected is the edge whose doors are measured on a screen, and the bolt on it.
type Selected struct{ Loop, Edge, Bolt int } // Edge, Bolt -1 for none

// Maker makes drawings of plans, and keeps what it needs from one to the next.
type Maker struct {
	Measures []Measure // what the dimensions of the last drawing measure, by their keys

	d     *drawing.Drawing
	in    *Input
	o     *Options
	s     *Slab // the one that is drawn
	quiet bool  // it is not the one that is worked on
	loops []plan.Loop
	sides []side
	picks []stakeout.Diagonal
	parts []plane.Stretch
	ring  []plane.Vec
	clip  plane.Clipper
	lines []string
	stops []geometry.Length // of one
	texts []string
	keys  []int
}

// Plan gives a drawing of slabs.
func Plan(u geometry.Units, in Input, o Options) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	var m Maker
	m.Make(d, in, o)
	return d
}

// Make draws slabs into a drawing, which it empties first.
func (m *Maker) Make(d *drawing.Drawing, in Input, o Options) {
	d.Reset()
	m.d, m.in, m.o, m.Measures = d, &in, &o, m.Measures[:0]
	m.beside()
	for _, st := range [...]stage{ground, placed, lines} {
		m.each(func() { m.paint(st) })
		if st == placed && m.on(drawing.Pour) && in.Pour != nil {
			m.pour(in.Pour)
		}
	}
	m.each(m.names)
	if m.on(drawing.Dimensions) && o.Worked < len(in.Slabs) {
		m.dimensions()
	}
	m.survey()
}

// each calls f for each slab, the one that is worked on last.
func (m *Maker) each(f func()) {
	for i := range m.in.Slabs {
		if i != m.o.Worked {
			m.turnTo(i)
			f()
		}
	}
	if m.o.Worked >= 0 && m.o.Worked < len(m.in.Slabs) {
		m.turnTo(m.o.Worked)
		f()
	}
	m.d.Quiet = false
}

// turnTo makes a slab the one that is drawn.
func (m *Maker) turnTo(i int) {
	m.s = &m.in.Slabs[i]
	m.quiet = m.o.Worked >= 0 && i != m.o.Worked
	m.d.Quiet = m.quiet
	m.loops = append(m.loops[:0], m.s.Plan.Outline)
	for _, h := range m.s.Plan.Holes {
		m.loops = append(m.loops, h.Loop)
	}
}

// stage is when a kind is drawn.
type stage uint8

const (
	ground stage = iota // in and under the slab
	placed              // what the crew places
	lines               // the slab's own edges, and what must be seen on top
)

// kind is one kind of thing on the plan.
type kind struct {
	layer drawing.Layer
	stage stage
	order int  // among those of its stage
	sound bool // it is drawn on plans without faults only
	draw  func(*Maker)
	write func(*Maker) // its labels; nil for none
}

var kinds []kind

// add adds a kind; each file of a kind does so once.
func add(k kind) bool {
	kinds = append(kinds, k)
	slices.SortStableFunc(kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(a.stage, b.stage), cmp.Compare(a.order, b.order))
	})
	return true
}

// shows tells whether a kind is drawn of the slab in turn.
func (m *Maker) shows(k *kind) bool {
	return m.on(k.layer) && (!k.sound || m.quiet || m.o.Sound)
}

func (m *Maker) on(l drawing.Layer) bool { return m.o.Draw.Has(l) }

func (m *Maker) paint(st stage) {
	for i := range kinds {
		if k := &kinds[i]; k.stage == st && k.draw != nil && m.shows(k) {
			k.draw(m)
		}
	}
}

func (m *Maker) names() {
	for i := range kinds {
		if k := &kinds[i]; k.write != nil && m.shows(k) && m.o.Names.Has(k.layer) {
			k.write(m)
		}
	}
}

// seen tells whether any of the box of some points is seen.
func (m *Maker) seen(ps ...geometry.Point) bool {
	if m.o.Lo == m.o.Hi {
		return true
	}
	lo, hi := ps[0], ps[0]
	for _, p := range ps[1:] {
		lo = geometry.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geometry.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo.X <= m.o.Hi.X && hi.X >= m.o.Lo.X && lo.Y <= m.o.Hi.Y && hi.Y >= m.o.Lo.Y
}

// small tells whether a length is less than so many times what can be told apart.
func (m *Maker) small(l geometry.Length, times float64) bool {
	return float64(l) < times*float64(m.o.Detail)
}

// weights of labels, heaviest first.
const (
	fixedWeight   = 100
	cornerWeight  = 90
	dimWeight     = 80
	placeWeight   = 70 // of what stands at a place: doors, benchmarks, pads
	slabWeight    = 60
	markWeight    = 50 // of bolts, bars
	heightWeight  = 45
	measureWeight = 40 // of diagonals
	depthWeight   = 30
	coverWeight   = 20
	againWeight   = 10 // what is said again
)
