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
	Path   []geometry.Point  // along its center line, bends as corners and arcs as chords
	Depth  geometry.Length   // of its center below the top, the least
	Depths []geometry.Length // at each point of Path; nil where all are Depth
	Cut    geometry.Length   // length to cut, bend deductions made
	Bends  []Bend            // at inner points of Path, in order; at all of them where no arc is
	Legs   []geometry.Length // of a bent bar, over the outside of its bends, along arcs
	Flat   bool              // straight up and down: its depths differ only as the slab's top falls
	Radius geometry.Length   // to which it is bent along an arc, the least of several; 0 of another
}

// Bend is one bend of a bar.
type Bend struct {
	Turn float64 // degrees
	At   int     // its point of the bar's path
}

// Turned gives the bar with its path from bend to bend, as its legs are measured.
func (b Bar) Turned() Bar {
	if b.Radius == 0 || len(b.Path) < 2 {
		return b
	}
	at := []int{0}
	for _, e := range b.Bends {
		at = append(at, e.At)
	}
	at = append(at, len(b.Path)-1)
	path, depths := b.Path, b.Depths
	b.Path, b.Depths = nil, nil
	for _, i := range at {
		b.Path = append(b.Path, path[i])
		if depths != nil {
			b.Depths = append(b.Depths, depths[i])
		}
	}
	return b
}

// LaidLap is how long bars that run on from piece to piece lie side by side, as
// they are laid.
type LaidLap struct {
	Of      Lapped
	Row     int // of edge bars and of bars of curbs, from 1
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
	CurbLaps                // the bars along curbs
)
