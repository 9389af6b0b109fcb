package joints

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// Dowel is a bar or plate set into the slab that is already there.
type Dowel struct {
	Number int             // along its edge, from 1
	Edge   int             // of the outline
	Along  geometry.Length // running distance from the edge's start corner
	At     geometry.Point  // on the joint
	Outer  geometry.Point  // its end in the old slab
	Inner  geometry.Point  // its end in the new slab
	Depth  geometry.Length // of its center below the top
	Width  geometry.Length // along the joint
	Old    geometry.Length // how deep the old slab reaches there, below this one's top
}

// Kind is what dowels do at the joint.
type Kind = geometry.Choice[kinds]

type kinds struct{}

// Names implements geometry.Named.
func (kinds) Names() []string { return []string{"tied", "sliding", "plates"} }

const (
	// Tied dowels are deformed bars, held at both ends: the joint stays level and shut.
	Tied Kind = iota
	// Sliding dowels are smooth, with one half sleeved or greased: it stays level, and
	// opens and closes (ACI 302.1R; UFC 3-320-06A).
	Sliding
	// Plates are flat and smooth, set in slots of the old slab: it stays level, opens and
	// closes, and the slabs move along it too where they are sleeved (ACI 360R).
	Plates
)

// Spec is the joint with the slab that is there.
type Spec struct {
	Kind      Kind            `json:"kind"`
	Size      bars.Size       `json:"size"` // 0 for no dowels
	Length    geometry.Length `json:"length"`
	Embed     geometry.Length `json:"embed"`      // in the old slab
	Spacing   geometry.Length `json:"spacing"`    // at most
	End       geometry.Length `json:"end"`        // first and last clear of the joint's ends
	Doors     bool            `json:"cleardoors"` // none in a door opening
	OldSlab   geometry.Length `json:"oldslab"`    // thickness of the old slab
	Clearance geometry.Length `json:"clearance"`  // hole or slot over bar or plate
	Waste     int             `json:"waste"`      // percent of adhesive over the holes' volume

	// Of plates, which lie flat in the slab.
	Thickness    geometry.Length `json:"thickness"`
	Width        geometry.Length `json:"width"` // along the joint
	PlateLength  geometry.Length `json:"platelength"`
	PlateEmbed   geometry.Length `json:"plateembed"`   // in the old slab
	PlateSpacing geometry.Length `json:"platespacing"` // at most
}

// Used gives the joint with the length, embedment and spacing of the dowels it has: those
// of the plates where they are plates.
func (d Spec) Used() Spec {
	if d.Kind == Plates {
		d.Length, d.Embed, d.Spacing = d.PlateLength, d.PlateEmbed, d.PlateSpacing
	}
	return d
}

// None tells that a joint has no dowels.
func (d Spec) None() bool { return d.Size == 0 }

// Thick gives how thick a dowel is, from its top to its underside.
func (d Spec) Thick() geometry.Length {
	if d.Kind == Plates {
		return d.Thickness
	}
	return d.Size.Diameter()
}

// Wide gives how wide a dowel is along the joint.
func (d Spec) Wide() geometry.Length {
	if d.Kind == Plates {
		return d.Width
	}
	return d.Size.Diameter()
}

// HoleVolume gives the volume to fill round one dowel, in m³: the hole or slot less the
// dowel.
func (d Spec) HoleVolume() float64 {
	d = d.Used()
	thick, wide, clear := d.Thick().Meters(), d.Wide().Meters(), d.Clearance.Meters()
	area := (thick+clear)*(wide+clear) - thick*wide
	if d.Kind != Plates {
		area *= math.Pi / 4
	}
	return area * d.Embed.Meters()
}
