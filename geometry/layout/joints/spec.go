package joints

import "haunchbook.example/geometry"

// Dowel is a bar drilled into the slab that is already there.
type Dowel struct {
	Number int             // along its edge, from 1
	Edge   int             // of the outline
	Along  geometry.Length // running distance from the edge's start corner
	At     geometry.Point  // on the joint
	Outer  geometry.Point  // its end in the old slab
	Inner  geometry.Point  // its end in the new slab
	Depth  geometry.Length // of its center below the top
}

// Kind is what dowels do at the joint.
type Kind = geometry.Choice[kinds]

type kinds struct{}

// Names implements geometry.Named.
func (kinds) Names() []string { return []string{"tied", "sliding"} }

const (
	// Tied dowels are deformed bars, held at both ends: the joint stays level and shut.
	Tied Kind = iota
	// Sliding dowels are smooth, with one half sleeved or greased: it stays level, and
	// opens and closes (ACI 302.1R; UFC 3-320-06A).
	Sliding
)

// Spec is the joint with the slab that is there.
type Spec struct {
	Kind      Kind            `json:"kind"`
	Size      int             `json:"size"` // bar number; 0 for no dowels
	Length    geometry.Length `json:"length"`
	Embed     geometry.Length `json:"embed"`      // in the old slab
	Spacing   geometry.Length `json:"spacing"`    // at most
	End       geometry.Length `json:"end"`        // first and last clear of the joint's ends
	Doors     bool            `json:"cleardoors"` // none in a door opening
	OldSlab   geometry.Length `json:"oldslab"`    // thickness of the old slab
	Clearance geometry.Length `json:"clearance"`  // hole over bar diameter
	Waste     int             `json:"waste"`      // percent of adhesive over the holes' volume
}
