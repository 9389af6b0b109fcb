package bolts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/mark"
)

// Wall is a framed wall on one edge, or along a line of its own: its plates and the bolts
// that hold them.
type Wall struct {
	Loop, Edge int             // of the edge; -1 of a wall along a line of its own
	Own        int             // among the plan's walls along lines of their own, from 1; 0 of one on an edge
	Side       slab.Side       // the line that its plate lies left of
	Offset     geometry.Length // of its bolts from that line
	Backward   bool            // the slab is to the right of its line: it runs back along an edge
	Plate      lumber.Board
	Mark       mark.Mark
	Length     geometry.Length // of the edge or the line
	Pieces     []Plate
	Bolts      []Bolt
}

// Name gives a wall as people read it: "Wall W1".
func (w *Wall) Name() string { return "Wall " + w.Mark.String() }

// Where tells where a wall stands: "edge 3", "on the slab".
func (w *Wall) Where(m mark.Names) string {
	if w.Own > 0 {
		return "on the slab"
	}
	return m.Edge(w.Loop, w.Edge)
}

// Plate is one piece of sill plate. From and To are the running distances of its
// longest points from the wall's start corner. One that runs through at an inside
// corner ends past it: To is then more than the wall's length.
type Plate struct {
	From, To geometry.Length
	Outline  []geometry.Point // on the plan, counter-clockwise: square ends but where it is mitered
}

// Bolt is one anchor bolt.
type Bolt struct {
	Mark  mark.Mark       // counted through all walls of all slabs
	Along geometry.Length // running distance from the wall's start corner
	Back  geometry.Length // running distance from its end corner: the same tape hooked there
	At    geometry.Point
	Rise  geometry.Length // of the top of the curb that it stands in above the slab's; 0 for none
	Wide  geometry.Length // of that curb

	Builder  bool // given by the builder
	HoldDown bool // of a hold-down: not counted as an anchor bolt of the plate
}
