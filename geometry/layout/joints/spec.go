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

// Spec is the joint with the slab that is there.
type Spec struct {
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
