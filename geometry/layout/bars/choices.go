package bars

import "haunchbook.example/geometry"

// LapRule names how a lap is found.
type LapRule uint8

const (
	// LapByACI is a Class B tension lap of ACI 318-19, see LapLength.
	LapByACI LapRule = iota
	// LapByDiameters is 40 bar diameters: common practice, no source.
	LapByDiameters
	// LapByLength is a typed length.
	LapByLength
)

var lapRuleNames = [...]string{LapByACI: "aci", LapByDiameters: "diameters", LapByLength: "length"}

// String gives the name used in job files: "aci", "diameters" or "length".
func (r LapRule) String() string { return lapRuleNames[r] }

// MarshalText gives the name that String gives.
func (r LapRule) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText reads the name that String gives.
func (r *LapRule) UnmarshalText(text []byte) error { return geometry.Choose(r, lapRuleNames[:], text) }

// Corner names how bars turn a corner.
type Corner uint8

const (
	// CornerBars are bent bars with a leg along each edge, lapped with the
	// straight bars.
	CornerBars Corner = iota
	// Wrapped bars are bent in place and run on round the corner.
	Wrapped
	// Crossed bars run straight to the far face and cross at the corner.
	Crossed
)

var cornerNames = [...]string{CornerBars: "bent", Wrapped: "wrapped", Crossed: "crossed"}

// String gives the name used in job files: "bent", "wrapped" or "crossed".
func (c Corner) String() string { return cornerNames[c] }

// MarshalText gives the name that String gives.
func (c Corner) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads the name that String gives.
func (c *Corner) UnmarshalText(text []byte) error { return geometry.Choose(c, cornerNames[:], text) }

// JointSteel names what the rows do along a joint with a slab that is there.
type JointSteel uint8

const (
	// StopAtJoint ends the rows at the joint, with cover.
	StopAtJoint JointSteel = iota
	// PassAtJoint carries them on along a joint edge that is thickened.
	PassAtJoint
)

var jointSteelNames = [...]string{StopAtJoint: "stop", PassAtJoint: "pass"}

// String gives the name used in job files: "stop" or "pass".
func (j JointSteel) String() string { return jointSteelNames[j] }

// MarshalText gives the name that String gives.
func (j JointSteel) MarshalText() ([]byte, error) { return []byte(j.String()), nil }

// UnmarshalText reads the name that String gives.
func (j *JointSteel) UnmarshalText(text []byte) error {
	return geometry.Choose(j, jointSteelNames[:], text)
}
