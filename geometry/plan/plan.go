// Package plan holds what the estimator draws: the outline of a slab with the
// section of each edge, door openings, the joint with an existing slab, pads,
// strips, holes and the fall of the top.
//
// A Plan is plain data with value semantics. An edit is a function from a plan
// to a new plan; it never changes its argument. Validate names every fault with
// its field and its place. Everything computed from a plan (concrete, steel,
// bolts) lives in other packages and takes a plan that Validate passes.
//
// All depths and heights are measured from the top of the slab, down positive.
package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plane"
)

// Plan is one slab.
type Plan struct {
	Name     string          `json:"name,omitzero"`     // of the slab among others of a job: "Apron"
	Height   geometry.Length `json:"height,omitzero"`   // of its finished top over the height that the job gives
	Field    geometry.Length `json:"field"`             // thickness of the slab away from edges, pads and strips
	Sections []Section       `json:"sections,omitzero"` // the edge sections in use, by name
	Outline  Loop            `json:"outline"`           // counter-clockwise: the slab is left of each edge
	Holes    []Hole          `json:"holes,omitzero"`    // openings right through the slab
	Pads     []Pad           `json:"pads,omitzero"`     // thickenings under posts
	Strips   []Strip         `json:"strips,omitzero"`   // thickenings along bearing walls
	Top      Top             `json:"top,omitzero"`      // how the top falls
	Base     Base            `json:"base,omitzero"`     // how the ground under a falling top is cut
	Trench   Trench          `json:"trench,omitzero"`   // how far edges are dug
}

// Section is the cross-section of a haunch (a thickened edge): Depth for the
// flat width Bottom, then a straight taper over the run Taper up to the field.
// A Profile, where given, replaces all three.
type Section struct {
	Name    string          `json:"name"`
	Depth   geometry.Length `json:"depth,omitzero"`
	Bottom  geometry.Length `json:"bottom,omitzero"`
	Taper   geometry.Length `json:"taper,omitzero"`
	Profile []Station       `json:"profile,omitzero"`
}

// Station is a point of a section's underside.
type Station struct {
	Inset geometry.Length `json:"inset"` // distance from the face of the edge, inward
	Depth geometry.Length `json:"depth"` // below the top
}

// Reach gives how far from the face the section still differs from the field.
func (s Section) Reach() geometry.Length {
	if n := len(s.Profile); n > 0 {
		return s.Profile[n-1].Inset
	}
	return s.Bottom + s.Taper
}

// Deepest gives the greatest depth of the section.
func (s Section) Deepest() geometry.Length {
	d := s.Depth
	if len(s.Profile) > 0 {
		d = s.Profile[0].Depth
		for _, st := range s.Profile {
			d = max(d, st.Depth)
		}
	}
	return d
}

// Stations gives the underside from the face inward. Two stations with one
// inset are a vertical step.
func (s Section) Stations(field geometry.Length) []Station {
	if len(s.Profile) > 0 {
		return slices.Clone(s.Profile)
	}
	return []Station{{0, s.Depth}, {s.Bottom, s.Depth}, {s.Bottom + s.Taper, field}}
}

// Called gives the slab's name, or one by its number in the job, from 0.
func (p Plan) Called(k int) string {
	if p.Name != "" {
		return p.Name
	}
	return fmt.Sprintf("Slab %d", k+1)
}

// Blank tells whether nothing is drawn.
func (p Plan) Blank() bool {
	return len(p.Outline) == 0 && len(p.Holes) == 0 && len(p.Pads) == 0 && len(p.Strips) == 0
}

// Loop is a closed chain of edges; each starts at its corner and ends at the
// next one's.
type Loop []Edge

// Edge is one side of the outline or of a hole.
type Edge struct {
	At      geometry.Point `json:"at"`               // the corner where the edge starts
	Section string         `json:"section,omitzero"` // name of its section; "" for no haunch
	Joint   bool           `json:"joint,omitzero"`   // meets a slab that is already there: doweled, not formed
	Wall    string         `json:"wall,omitzero"`    // the plate of a framed wall on it, such as "2x6"; "" for none
	Doors   []Door         `json:"doors,omitzero"`
	Bolts   []BoltMark     `json:"bolts,omitzero"` // given by the builder

	// RunOut matters where the edge goes straight on from the one before: from
	// their corner, the deeper of the two sections ramps up over this length into
	// the other edge; 0 is square.
	RunOut geometry.Length `json:"runout,omitzero"`
}

// BoltMark is an anchor bolt position that the builder gives on an edge's wall.
// Where a wall has one that is no hold-down, all its bolts are the builder's.
type BoltMark struct {
	Along    geometry.Length `json:"along"` // from the edge's start corner
	HoldDown bool            `json:"holddown,omitzero"`
}

// SetJoint makes the edge a joint with a slab that is already there, or a free
// edge. The wall that stands on a joint is the old building's: none is framed.
func (e *Edge) SetJoint(on bool) {
	e.Joint = on
	if on {
		e.Wall = ""
	}
}

// shift moves what stands on the edge along it.
func (e *Edge) shift(by geometry.Length) {
	for k := range e.Doors {
		e.Doors[k].From += by
	}
	for k := range e.Bolts {
		e.Bolts[k].Along += by
	}
}

// Door is an opening in the wall on an edge.
type Door struct {
	Name    string          `json:"name,omitzero"`
	Kind    DoorKind        `json:"kind"`
	From    geometry.Length `json:"from"`             // from the edge's corner to the near jamb of the rough opening
	Width   geometry.Length `json:"width"`            // of the rough opening
	Section string          `json:"section,omitzero"` // section under it; "" for the edge's own
	RunOut  geometry.Length `json:"runout,omitzero"`  // beyond each jamb, the deeper section ramps up over this length; 0 is square
	Lip     Lip             `json:"lip,omitzero"`
}

// DoorKind tells who goes through.
type DoorKind = geometry.Choice[doorKinds]

type doorKinds struct{}

// Names implements geometry.Named.
func (doorKinds) Names() []string { return []string{"overhead", "walk"} }

const (
	Overhead DoorKind = iota // vehicles
	Walk                     // people
)

// Lip is a strip of the top under a door, lower than the rest so that rain
// stays out. Its underside stays where it is. The zero Lip is none.
type Lip struct {
	Inset geometry.Length `json:"inset"` // how far in from the face it reaches
	Drop  geometry.Length `json:"drop"`  // how far it lies below the top
}

// Hole is an opening right through the slab: a block-out, a pit, a pier. Its
// edges run clockwise, so that the slab is left of them too, and may carry
// sections of their own.
type Hole struct {
	Name string `json:"name,omitzero"`
	Loop Loop   `json:"edges"`
}

// Pad is a rectangular thickening: Depth over Width by Length, with sides that
// taper outward over Taper up to the field.
type Pad struct {
	Name   string          `json:"name,omitzero"`
	Center geometry.Point  `json:"center"`
	Width  geometry.Length `json:"width"`         // across, along X before turning
	Length geometry.Length `json:"length"`        // along Y before turning
	Turn   float64         `json:"turn,omitzero"` // degrees, counter-clockwise
	Depth  geometry.Length `json:"depth"`
	Taper  geometry.Length `json:"taper,omitzero"`
}

// Strip is a thickening along a line: Depth over the width Bottom, with sides
// that taper outward over Taper up to the field.
type Strip struct {
	Name   string           `json:"name,omitzero"`
	Path   []geometry.Point `json:"path"`
	Bottom geometry.Length  `json:"bottom"`
	Depth  geometry.Length  `json:"depth"`
	Taper  geometry.Length  `json:"taper,omitzero"`
}

// Top is the shape of the finished surface: the falls that meet in it. No fall
// is a level top.
type Top struct {
	Falls []Fall `json:"falls"`
	Meet  Meet   `json:"meet"`
}

// Fall is a plane that drops by Drop on the straight way From, To, and stays
// level across it. It has height zero at To.
type Fall struct {
	From, To geometry.Point
	Drop     geometry.Length `json:"drop"`
}

// Meet tells which of several falls counts at a point.
type Meet = geometry.Choice[meets]

type meets struct{}

// Names implements geometry.Named.
func (meets) Names() []string { return []string{"valley", "ridge"} }

const (
	// Valley takes the higher: falls that meet in a low point, as at a drain.
	Valley Meet = iota
	// Ridge takes the lower: falls that part at a high line, as between two doors.
	Ridge
)

// Base tells how the ground is cut under a top that falls.
type Base = geometry.Choice[bases]

type bases struct{}

// Names implements geometry.Named.
func (bases) Names() []string { return []string{"graded", "level"} }

const (
	// Graded ground is parallel to the top: thickness is the same everywhere.
	Graded Base = iota
	// Level ground keeps the design depths at the lowest point of the top, so
	// that a wedge of concrete comes on everywhere else.
	Level
)

// Trench tells how deep an edge is that is named for its form board.
type Trench = geometry.Choice[trenches]

type trenches struct{}

// Names implements geometry.Named.
func (trenches) Names() []string { return []string{"depth", "board"} }

const (
	// ToDepth trenches reach the section's depth, below the board if need be.
	ToDepth Trench = iota
	// ToBoard trenches end at the bottom of the board set to grade, whose
	// dressed width is less than its name.
	ToBoard
)

// Corners gives the corners of the loop.
func (l Loop) Corners() geometry.Ring {
	r := make(geometry.Ring, len(l))
	for i, e := range l {
		r[i] = e.At
	}
	return r
}

// Ends gives the two corners of edge i.
func (l Loop) Ends(i int) (a, b geometry.Point) {
	return l[i].At, l[(i+1)%len(l)].At
}

// Length gives the length of edge i.
func (l Loop) Length(i int) geometry.Length {
	a, b := l.Ends(i)
	return geometry.Distance(a, b)
}

// straight is the sine of the greatest turn between two edges that count as one
// straight line; rounding a corner to the nanometer turns far less.
const straight = 1e-6

// StraightOn tells whether edge i goes straight on from the one before.
func (l Loop) StraightOn(i int) bool {
	a, b := l.Ends((i + len(l) - 1) % len(l))
	_, c := l.Ends(i)
	ux, uy := b.Sub(a).X.Meters(), b.Sub(a).Y.Meters()
	wx, wy := c.Sub(b).X.Meters(), c.Sub(b).Y.Meters()
	return ux*wx+uy*wy > 0 && math.Abs(ux*wy-uy*wx) <= straight*math.Hypot(ux, uy)*math.Hypot(wx, wy)
}

// Reversed gives the same loop run the other way round: every edge keeps its
// section, joint, wall, doors and bolts, and every corner its run-out.
func (l Loop) Reversed() Loop {
	n := len(l)
	out := make(Loop, n)
	for i := range l {
		// Edge i runs from corner i to i+1; reversed it starts at corner i+1.
		length := l.Length(i)
		e := l[i]
		e.At, e.RunOut = l[(i+1)%n].At, l[(i+1)%n].RunOut
		e.Doors = slices.Clone(e.Doors)
		for k := range e.Doors {
			e.Doors[k].From = length - e.Doors[k].From - e.Doors[k].Width
		}
		slices.Reverse(e.Doors)
		e.Bolts = slices.Clone(e.Bolts)
		for k := range e.Bolts {
			e.Bolts[k].Along = length - e.Bolts[k].Along
		}
		slices.Reverse(e.Bolts)
		out[n-1-i] = e
	}
	return out
}

// Oriented gives the plan with its outline counter-clockwise and its holes
// clockwise, as everything that reads a plan expects.
func (p Plan) Oriented() Plan {
	p = p.Clone()
	if !p.Outline.Corners().CounterClockwise() {
		p.Outline = p.Outline.Reversed()
	}
	for i, h := range p.Holes {
		if h.Loop.Corners().CounterClockwise() {
			p.Holes[i].Loop = h.Loop.Reversed()
		}
	}
	return p
}

// Clone gives a copy that shares no memory with p.
func (p Plan) Clone() Plan {
	p.Sections = slices.Clone(p.Sections)
	for i := range p.Sections {
		p.Sections[i].Profile = slices.Clone(p.Sections[i].Profile)
	}
	p.Outline = p.Outline.clone()
	p.Holes = slices.Clone(p.Holes)
	for i := range p.Holes {
		p.Holes[i].Loop = p.Holes[i].Loop.clone()
	}
	p.Pads = slices.Clone(p.Pads)
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		p.Strips[i].Path = slices.Clone(p.Strips[i].Path)
	}
	p.Top.Falls = slices.Clone(p.Top.Falls)
	return p
}

func (l Loop) clone() Loop {
	l = slices.Clone(l)
	for i := range l {
		l[i].Doors = slices.Clone(l[i].Doors)
		l[i].Bolts = slices.Clone(l[i].Bolts)
	}
	return l
}

// SectionNamed gives the section called name; false for "" and unknown names.
func (p Plan) SectionNamed(name string) (Section, bool) {
	if name != "" {
		for _, s := range p.Sections {
			if s.Name == name {
				return s, true
			}
		}
	}
	return Section{}, false
}

// SectionOn gives the section called name as it is dug on edge e: a trench that
// ends at the board is no deeper than the dressed width of the form board, on an
// edge that is formed. False where there is none.
func (p Plan) SectionOn(e Edge, name string) (Section, bool) {
	s, ok := p.SectionNamed(name)
	if !ok || p.Trench != ToBoard || e.Joint || len(s.Profile) > 0 {
		return s, ok
	}
	if board, fits := lumber.ForDepth(s.Depth); fits {
		s.Depth = max(min(s.Depth, board.Width), p.Field)
	}
	return s, true
}

// Loops gives the outline and then the holes.
func (p Plan) Loops() []Loop {
	loops := make([]Loop, 0, 1+len(p.Holes))
	loops = append(loops, p.Outline)
	for _, h := range p.Holes {
		loops = append(loops, h.Loop)
	}
	return loops
}

// Region gives the slab in plan: the outline less the holes.
func (p Plan) Region() plane.Region {
	g := make(plane.Region, 0, 1+len(p.Holes))
	for _, l := range p.Loops() {
		g = append(g, l.Corners())
	}
	return g
}

// SetOut gives where a place lies as it is measured on the ground: from corner 1,
// X along the first side of the outline and Y square off it, to the slab's side.
func (p Plan) SetOut(q geometry.Point) geometry.Point {
	a, b := p.Outline.Ends(0)
	v := plane.FrameAlong(a, b).In(q)
	return geometry.Point{X: geometry.FromMeters(v.X), Y: geometry.FromMeters(v.Y)}
}

// Span is a stretch of an edge with one section.
type Span struct {
	From, To geometry.Length // from the edge's start corner
	Section  string          // "" for none
	Door     int             // number of the door over it, or -1
}

// Spans cuts edge i of the loop at its door jambs, from start to end.
func (l Loop) Spans(i int) []Span {
	e, length := l[i], l.Length(i)
	doors := make([]int, len(e.Doors))
	for k := range doors {
		doors[k] = k
	}
	slices.SortStableFunc(doors, func(a, b int) int { return cmp.Compare(e.Doors[a].From, e.Doors[b].From) })
	var spans []Span
	at := geometry.Length(0)
	for _, k := range doors {
		d := e.Doors[k]
		if d.From > at {
			spans = append(spans, Span{at, d.From, e.Section, -1})
		}
		section := d.Section
		if section == "" {
			section = e.Section
		}
		spans = append(spans, Span{d.From, d.From + d.Width, section, k})
		at = d.From + d.Width
	}
	if at < length || len(spans) == 0 {
		spans = append(spans, Span{at, length, e.Section, -1})
	}
	return spans
}
