package bars

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// Bar is one piece of reinforcing bar as it lies in the slab, laps included.
type Bar struct {
	Mark   mark.Mark         // the same for bars that are cut and bent alike
	Size   Size              // none is 0
	Of     Part              // what it belongs to
	Path   []geometry.Point  // along its center line, bends as corners
	Depth  geometry.Length   // of its center below the top, the least
	Depths []geometry.Length // at each point of Path; nil where all are Depth
	Cut    geometry.Length   // length to cut, bend deductions made
	Bends  []Bend            // at the inner points of Path, in order
	Legs   []geometry.Length // of a bent bar, over the outside of its bends
}

// Bend is one bend of a bar.
type Bend struct {
	Turn float64 // degrees
}

// LaidLap is how long bars that run on from piece to piece lie side by side, as
// they are laid.
type LaidLap struct {
	Of      Lapped
	Row     int // of edge bars, from 1
	Size    Size
	Length  geometry.Length
	TopCast bool // longer, since more than 12 in of concrete is cast below them: ACI 318-19 table 25.4.2.5
}

// Lapped tells what laps belong to.
type Lapped uint8

const (
	EdgeLaps  Lapped = iota // a row of edge bars
	StripLaps               // the bars of thickened strips
	FieldLaps               // the grid of the field
)
