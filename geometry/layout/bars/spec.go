package bars

import "haunchbook.example/geometry"

// Setting is when steel comes to its place.
type Setting = geometry.Choice[settings]

type settings struct{}

// Names implements geometry.Named.
func (settings) Names() []string { return []string{"tied", "wet"} }

const (
	// Before is tied or held in its place before the pour.
	Before Setting = iota
	// Wet is pushed into the fresh concrete, where the inspector agrees.
	Wet
)

// Spec is the steel in the haunches.
type Spec struct {
	Size    Size              `json:"size"`    // 4, "12 mm"; see Size
	Rows    []Row             `json:"rows"`    // continuous bars round every haunch; none for no edge steel
	Seismic Seismic           `json:"seismic"` // design category of the site
	Grade   Grade             `json:"grade"`   // 40, 60, 80 or 500
	Coated  bool              `json:"coated"`  // epoxy-coated
	Lap     Lap               `json:"lap"`
	Stagger geometry.Length   `json:"stagger"` // clear distance between laps of neighboring rows
	Corner  Corner            `json:"corner"`
	Leg     geometry.Length   `json:"leg,omitzero"` // of a corner bar, outside; 0 for the lap and the bend
	Joint   JointSteel        `json:"joint"`        // what rows do along the joint
	Stock   []geometry.Length `json:"stock"`        // stock lengths on sale
	Yard    []geometry.Length `json:"yard"`         // offcuts in the yard, each one bar of Size, to use first
	Setting Setting           `json:"setting"`
	Kerf    geometry.Length   `json:"kerf"` // lost at each cut; 0 for a shear
}

// Row is one continuous bar, by clear covers. One of Bottom and Top rules; the
// other is 0.
type Row struct {
	Face   geometry.Length `json:"face"`          // clear of the edge's face
	Bottom geometry.Length `json:"bottom"`        // clear of the underside
	Top    geometry.Length `json:"top"`           // clear of the top
	Size   Size            `json:"size,omitzero"` // 0 for the size of all rows
}

// Lap is how long bars lie side by side.
type Lap struct {
	Rule   LapRule         `json:"rule"`
	Length geometry.Length `json:"length,omitzero"` // for LapByLength
}

// PadSpec is the steel in pads: bars both ways near the bottom.
type PadSpec struct {
	Size    Size            `json:"size"`    // 0 for none
	Spacing geometry.Length `json:"spacing"` // at most
	Cover   geometry.Length `json:"cover"`   // to the bottom and to the ends
}

// StripSpec is the steel in thickened strips: bars along them near the bottom.
type StripSpec struct {
	Size  Size            `json:"size"`
	Count int             `json:"count"`
	Cover geometry.Length `json:"cover"` // to the bottom, the sides and the ends
}

// CurbSpec is the steel in curbs: bars along them near the top, and upright ones with a hook
// in the slab's edge.
type CurbSpec struct {
	Count   int             `json:"count"`   // side by side near the top; 0 for none
	Size    Size            `json:"size"`    // of these
	Cover   geometry.Length `json:"cover"`   // to the top and the faces
	Upright Size            `json:"upright"` // 0 for none
	Spacing geometry.Length `json:"spacing"` // of the upright ones, at most
	Above   geometry.Length `json:"above"`   // curbs no higher than this have no upright ones
}
