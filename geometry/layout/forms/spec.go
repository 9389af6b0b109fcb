package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/mark"
)

// Form is a run of form boards on one free edge.
type Form struct {
	Mark       mark.Mark      // counted through all slabs; boards are its pieces
	Loop, Edge int            // of an edge; -1 of a bulkhead and of a block-out
	Joint      int            // of a bulkhead: the construction joint, from 1; 0 of an edge
	Pad        int            // of a block-out: the pad under its column, from 1; 0 of others
	Curb       Curb           // of a curb on an edge: the side that it stands at; 0 of others
	Step       bool           // of a step down to a lower slab, hung over it
	A, B       geometry.Point // the ends of the edge, or of the stretch of a joint; the slab is on the left
	Board      lumber.Board
	Depth      geometry.Length   // of the slab at the face; how high the concrete stands behind the boards of a curb or a step
	Fall       geometry.Length   // how much lower the concrete stands behind a curb's boards at B than at A, less than 0 for higher: Depth is at the higher end
	Up         geometry.Length   // of the boards of a curb or a step: their bottom above the slab's top, at the higher end
	Below      geometry.Length   // of the trench, with base and foam, below the board
	Ripped     geometry.Length   // off the board's width, or set into the ground
	Length     geometry.Length   // of the boards: past an outside corner by a board's thickness
	Boards     []geometry.Length // stock pieces, in order
	Stakes     []geometry.Length // running distances
	Kickers    []geometry.Length
	Hangers    []geometry.Length // what holds boards that hang over a slab

	// Middle is the middle ordinate of an arc, along which all lengths are then measured: out
	// of the slab, or into it where it is negative; 0 for a straight form.
	Middle geometry.Length
}

// Arc gives the face of the slab that the form stands along.
func (f Form) Arc() arc.Arc { return arc.Arc{A: f.A, B: f.B, Middle: f.Middle} }

// Ends gives how high the concrete stands behind the boards at both ends: alike but at boards of
// curbs with a level top over a slab that falls.
func (f Form) Ends() (a, b geometry.Length) {
	return f.Depth + min(0, f.Fall), f.Depth - max(0, f.Fall)
}

// Spec is the boards.
type Spec struct {
	Board   string            `json:"board,omitzero"` // one size for all, "2x12"; "" to go by the depth
	Stock   []geometry.Length `json:"stock"`
	Rip     bool              `json:"rip"`     // rip the next wider board to depth instead of digging below a narrower one
	Stakes  geometry.Length   `json:"stakes"`  // apart, at most
	Kickers geometry.Length   `json:"kickers"` // apart, at most
}
