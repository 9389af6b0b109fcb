package bars

import "haunchbook.example/geometry"

// LapRule names how a lap is found.
type LapRule = geometry.Choice[lapRules]

type lapRules struct{}

// Names implements geometry.Named.
func (lapRules) Names() []string { return []string{"aci", "diameters", "length"} }

const (
	// LapByACI is a Class B tension lap of ACI 318-19, see LapLength.
	LapByACI LapRule = iota
	// LapByDiameters is 40 bar diameters: common practice, no source.
	LapByDiameters
	// LapByLength is a typed length.
	LapByLength
)

// Corner names how bars turn a corner.
type Corner = geometry.Choice[corners]

type corners struct{}

// Names implements geometry.Named.
func (corners) Names() []string { return []string{"bent", "wrapped", "crossed"} }

const (
	// CornerBars are bent bars with a leg along each edge, lapped with the
	// straight bars.
	CornerBars Corner = iota
	// Wrapped bars are bent in place and run on round the corner.
	Wrapped
	// Crossed bars run straight to the far face and cross at the corner.
	Crossed
)

// JointSteel names what the rows do along a joint with a slab that is there.
type JointSteel = geometry.Choice[jointSteels]

type jointSteels struct{}

// Names implements geometry.Named.
func (jointSteels) Names() []string { return []string{"stop", "pass"} }

const (
	// StopAtJoint ends the rows at the joint, with cover.
	StopAtJoint JointSteel = iota
	// PassAtJoint carries them on along a joint edge that is thickened.
	PassAtJoint
)

// Seismic is the seismic design category of the site, as far as the rules tell them
// apart.
type Seismic = geometry.Choice[seismics]

type seismics struct{}

// Names implements geometry.Named.
func (seismics) Names() []string { return []string{"unstated", "A to C", "D0 to D2"} }

const (
	AnySeismic  Seismic = iota // not stated
	LowSeismic                 // A to C
	HighSeismic                // D0 to D2
)
