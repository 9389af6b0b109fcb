// Package slab is a slab as the rules of layout look at it: its sides with their
// directions, what of a line lies on it, its underside beside the edges, its frame
// turned to the longest edge, and what was found on the way.
package slab

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Slab is one slab as the rules of layout look at it.
type Slab struct {
	Name     string // where the job has several slabs: "Apron"
	Units    geometry.Units
	Concrete Concrete
	Layers   Layers     // set by who makes the slab
	Marks    mark.Names // of what is drawn

	Meetings []plan.Meeting  // of it with other slabs of the job; set by who makes the slab
	Upstands []Upstand       // curbs of slabs that it is poured against; set by who makes the slab
	Outs     []plan.BlockOut // that are left open for columns: the last of its holes; set by who makes the slab
	Curbs    plan.Curbs      // on its edges as they are drawn; set by who makes the slab
	Stopped  func() bool     // tells whether nobody wants it any more; nil where it goes on to its end

	Plan   plan.Plan // its arcs parted into chords
	Solid  *solid.Solid
	Loops  []plan.Loop
	Rings  []geometry.Ring
	Sides  [][]Side     // by loop and edge
	All    []Side       // the same, as On numbers them
	On     *plane.Sides // tells what lies on the slab
	turned []Frame      // both frames, once they are asked for

	// What is asked for again and again, of each loop and edge.
	spansOf [][][]plan.Span
	free    [][][]Interval // between the doors
	dug     map[dug][]plan.Station

	Stretches []Interval // room for what lies on a line
	Findings  []rule.Finding
}

// Side is one edge with its directions.
type Side struct {
	Loop, Edge int // of the plan whose arcs are parted
	A, B       geometry.Point
	Length     geometry.Length
	Ux, Uy     float64 // unit vector from a to b; the slab is on its left
}

// New looks at a slab, by the name it has among others of the job, "" where it has
// none. Its plan is sound, with its outline counter-clockwise and its arcs parted into chords; sol is nil where
// heights and depths beside the edges do not matter. What it finds, it says in u.
func New(name string, p plan.Plan, sol *solid.Solid, u geometry.Units, c Concrete) *Slab {
	t := &Slab{Name: name, Marks: mark.Of(p)[0], Units: u, Concrete: c, Plan: p, Solid: sol, Loops: p.Loops(), dug: map[dug][]plan.Station{}}
	for k, l := range t.Loops {
		t.Rings = append(t.Rings, l.Corners())
		sides, spans, free := make([]Side, len(l)), make([][]plan.Span, len(l)), make([][]Interval, len(l))
		for i := range l {
			a, b := l.Ends(i)
			sides[i] = NewSide(k, i, a, b)
			spans[i] = l.Spans(i)
			free[i] = between(l[i].Doors, sides[i].Length)
		}
		t.Sides, t.spansOf, t.free = append(t.Sides, sides), append(t.spansOf, spans), append(t.free, free)
		t.All = append(t.All, sides...)
	}
	t.On = plane.NewSides(t.Rings)
	return t
}

// Over tells whether nobody wants any more what is being placed: long work looks, and
// leaves what it has.
func (t *Slab) Over() bool { return t.Stopped != nil && t.Stopped() }

// between gives the stretches of an edge between its doors.
func between(doors []plan.Door, length geometry.Length) []Interval {
	if len(doors) == 0 {
		return []Interval{{To: length}}
	}
	doors = slices.Clone(doors)
	slices.SortFunc(doors, func(a, b plan.Door) int { return cmp.Compare(a.From, b.From) })
	var out []Interval
	at := geometry.Length(0)
	for _, d := range doors {
		if d.From > at {
			out = append(out, Interval{From: at, To: d.From})
		}
		at = d.From + d.Width
	}
	if at < length {
		out = append(out, Interval{From: at, To: length})
	}
	return out
}

// NewSide gives the side of an edge of a loop; the two points differ.
func NewSide(loop, edge int, a, b geometry.Point) Side {
	d := b.Sub(a)
	h := math.Hypot(float64(d.X), float64(d.Y))
	return Side{loop, edge, a, b, geometry.Distance(a, b), float64(d.X) / h, float64(d.Y) / h}
}

// At gives the point at a running distance from the start corner and an inset
// from the face, rounded to the nanometer.
func (s Side) At(along, inset geometry.Length) geometry.Point {
	return geometry.Point{
		X: s.A.X + geometry.Rounded(float64(along)*s.Ux-float64(inset)*s.Uy),
		Y: s.A.Y + geometry.Rounded(float64(along)*s.Uy+float64(inset)*s.Ux),
	}
}

// Project gives the running distance and the inset of a point.
func (s Side) Project(p geometry.Point) (along, inset geometry.Length) {
	d := p.Sub(s.A)
	x, y := float64(d.X), float64(d.Y)
	return geometry.Rounded(x*s.Ux + y*s.Uy), geometry.Rounded(y*s.Ux - x*s.Uy)
}

// Edge gives the edge that a side is of.
func (t *Slab) Edge(s Side) plan.Edge { return t.Loops[s.Loop][s.Edge] }

// Spans gives the stretches of an edge by section.
func (t *Slab) Spans(s Side) []plan.Span { return t.spansOf[s.Loop][s.Edge] }

// Before gives the side that ends where s starts.
func (t *Slab) Before(s Side) Side {
	l := t.Sides[s.Loop]
	return l[(s.Edge+len(l)-1)%len(l)]
}

// After gives the side that starts where s ends.
func (t *Slab) After(s Side) Side {
	l := t.Sides[s.Loop]
	return l[(s.Edge+1)%len(l)]
}

// Interior gives the angle of the slab, in radians from 0 to 2π, at the corner
// where s follows its predecessor r.
func Interior(r, s Side) float64 {
	turn := math.Atan2(r.Ux*s.Uy-r.Uy*s.Ux, r.Ux*s.Ux+r.Uy*s.Uy)
	return math.Pi - turn
}

// Straight tells that a corner is none: its edges run on.
func Straight(angle float64) bool { return math.Abs(angle-math.Pi) < 1e-4 }

// Outside tells that a corner is convex.
func Outside(angle float64) bool { return angle < math.Pi-1e-4 }

// SideName gives an edge as people read it: "edge 3", "edge 2 of H1".
func (t *Slab) SideName(s Side) string { return t.Marks.Edge(s.Loop, s.Edge) }

// Bent tells whether a side is a chord of an arc.
func (t *Slab) Bent(s Side) bool { return t.Loops[s.Loop].OfArc(s.Edge) }

// Text prints a length for a finding.
func (t *Slab) Text(l geometry.Length) string { return l.Text(t.Units) }

// Step is what marks and cuts are rounded to.
func (t *Slab) Step() geometry.Length {
	if t.Units == geometry.Millimeters {
		return geometry.Millimeter
	}
	return geometry.Sixteenth
}

// CutStep is what a bar is cut to.
func (t *Slab) CutStep() geometry.Length {
	if t.Units == geometry.Millimeters {
		return 5 * geometry.Millimeter
	}
	return geometry.Inch / 4
}

// Find notes what was found.
func (t *Slab) Find(r rule.Rule, how rule.Severity, at geometry.Point, format string, args ...any) {
	t.Findings = append(t.Findings, rule.Finding{Rule: r, Severity: how, At: at, Text: fmt.Sprintf(format, args...)})
}

// Frames gives the slab turned to its longest edge, and across it.
func (t *Slab) Frames() []Frame {
	if t.turned == nil {
		fs := Frames(t.Plan)
		t.turned = fs[:]
	}
	return t.turned
}

// Contains tells whether a point lies on the slab, edges included.
func (t *Slab) Contains(p geometry.Point) bool { return t.On.Contains(p) }

// Interval is a stretch of something measured from its start.
type Interval = plane.Stretch

// Within gives the stretches of the segment a-b that lie on the slab, in order,
// measured from a. Stretches that touch are one.
func (t *Slab) Within(a, b geometry.Point) []Interval {
	return t.On.Stretches(a, b, plane.Touching, nil)
}

// Through is Within for a line that must have the slab on both its sides, half its
// width away.
func (t *Slab) Through(a, b geometry.Point, half geometry.Length) []Interval {
	return t.On.Clear(a, b, half, nil)
}

// Evenly gives the positions that divide from..to into the fewest equal parts
// of at most step, both ends included, each rounded on its own. step is at least
// two grains, or 0 for one part.
func Evenly(from, to, step, grain geometry.Length) []geometry.Length {
	n := geometry.Length(1)
	if step > 0 && to > from {
		n = (to - from + step - 1) / step
	}
	if step > grain {
		// Rounding makes a gap wider by a grain at most, so this many parts will do.
		for most := (to-from)/(step-grain) + 1; n < most && !gapsWithin(from, to, n, step, grain); n++ {
		}
	}
	out := make([]geometry.Length, 0, n+1)
	for k := range n + 1 {
		out = append(out, Place(from, to, k, n, grain))
	}
	return out
}

// gapsWithin tells whether n even parts are none wider than step.
func gapsWithin(from, to, n, step, grain geometry.Length) bool {
	last := from
	for k := range n {
		at := Place(from, to, k+1, n, grain)
		if at-last > step {
			return false
		}
		last = at
	}
	return true
}

// MaxPlaced bounds how many things of a kind are placed along the edges of a slab.
const MaxPlaced = 50_000

// Fits tells whether things a spacing apart along a run are few enough to be
// placed one by one, and reports it if not.
func (t *Slab) Fits(what string, run, spacing geometry.Length) bool {
	if spacing <= 0 || run/spacing <= MaxPlaced {
		return true
	}
	t.Find(TooMany, rule.Severe, t.Home(), "%s, one for each %s of %s, are more than %d here: none is laid. Space them wider, or draw the slab in parts.",
		what, t.Text(spacing), t.Text(run), MaxPlaced)
	return false
}

// Run adds up the edges that are of a kind.
func (t *Slab) Run(of func(plan.Edge) bool) geometry.Length {
	var sum geometry.Length
	for _, l := range t.Sides {
		for _, s := range l {
			if of(t.Edge(s)) {
				sum += s.Length
			}
		}
	}
	return sum
}

// Place gives the k-th of n+1 even positions. Positions within are rounded to
// the grain, each from the start, so that rounding never adds up.
func Place(from, to, k, n, grain geometry.Length) geometry.Length {
	switch k {
	case 0:
		return from
	case n:
		return to
	}
	return (from + geometry.Rounded(float64(to-from)*float64(k)/float64(n))).Round(grain)
}

// TooMany is the rule that bounds how much of a kind is placed.
var TooMany = rule.Rule{Name: "Size of the job", Source: "limit of this program"}
