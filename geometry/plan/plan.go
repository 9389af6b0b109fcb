// Package plan holds what the estimator draws: the outline of a slab with the
// section of each edge, door openings, the joint with an old slab, pads,
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
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Plan is one slab.
type Plan struct {
	Name         string          `json:"name,omitzero"`         // of the slab among others of a job: "Apron"
	Height       geometry.Length `json:"height,omitzero"`       // of its finished top over the height that the job gives
	Unheated     bool            `json:"unheated,omitzero"`     // no part of the heated building: a porch, an apron
	Field        geometry.Length `json:"field"`                 // thickness of the slab away from edges, pads and strips
	Sections     []Section       `json:"sections,omitzero"`     // the edge sections in use, by name
	Outline      Loop            `json:"outline"`               // counter-clockwise: the slab is left of each edge
	Holes        []Hole          `json:"holes,omitzero"`        // openings right through the slab
	Pads         []Pad           `json:"pads,omitzero"`         // thickenings under posts
	Strips       []Strip         `json:"strips,omitzero"`       // thickenings along bearing walls
	Embeds       []Embed         `json:"embeds,omitzero"`       // set before the pour: sleeves, drains, post bases
	Lines        []Line          `json:"lines,omitzero"`        // drain lines, trench drains, conduit, tubing
	Walls        []Wall          `json:"walls,omitzero"`        // framed walls along lines of their own
	Construction []Construction  `json:"construction,omitzero"` // where one pour ends and the next begins
	Top          Top             `json:"top,omitzero"`          // how the top falls
	Base         Base            `json:"base,omitzero"`         // how the ground under a falling top is cut
	Trench       Trench          `json:"trench,omitzero"`       // how far edges are dug
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
	blank := len(p.Outline) == 0
	keeping(func(k kept) { blank = blank && k.blank(&Site{Plan: p}) })
	return blank
}

// Joined tells whether an edge of the outline meets a slab that is there.
func (p Plan) Joined() bool {
	return slices.ContainsFunc(p.Outline, func(e Edge) bool { return e.Joint })
}

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

// Oriented gives the plan with its outline counter-clockwise and its holes
// clockwise, as everything that reads a plan expects.
func (p Plan) Oriented() Plan {
	p = p.Clone()
	if !p.Outline.Rim().CounterClockwise() {
		p.Outline = p.Outline.Reversed()
	}
	for i, h := range p.Holes {
		if h.Loop.Rim().CounterClockwise() {
			p.Holes[i].Loop = h.Loop.Reversed()
		}
	}
	return p
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
		g = append(g, l.Rim())
	}
	return g
}

// OnSide gives the edge that a place lies on, within a sixteenth of an inch, and how far
// along it; false where it lies on none.
func (p Plan) OnSide(q geometry.Point) (loop, edge int, along geometry.Length, ok bool) {
	near := geometry.Sixteenth
	for k, l := range p.Loops() {
		for i := range l {
			if share, away := l.Arc(i).Nearest(q); away < near {
				near, loop, edge, ok = away, k, i, true
				along = geometry.Rounded(share * float64(l.Length(i)))
			}
		}
	}
	return loop, edge, along, ok
}

// WithOutline gives the plan a new outline, run counter-clockwise whichever way
// the ring runs.
func (p Plan) WithOutline(l Loop) Plan {
	p = p.Clone()
	p.Outline = l.clone()
	if !l.Rim().CounterClockwise() {
		p.Outline = l.Reversed()
	}
	return p
}
