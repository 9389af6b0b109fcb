package layout

import (
	"errors"
	"slices"
	"strings"
)

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
func (r *LapRule) UnmarshalText(text []byte) error { return choose(r, lapRuleNames[:], text) }

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
func (c *Corner) UnmarshalText(text []byte) error { return choose(c, cornerNames[:], text) }

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
func (j *JointSteel) UnmarshalText(text []byte) error { return choose(j, jointSteelNames[:], text) }

// BoltShape names how an anchor bolt holds in the concrete (ASTM F1554).
type BoltShape uint8

const (
	// Bent bolts have a hook at their lower end.
	Bent BoltShape = iota
	// Headed bolts have a head, or a nut and washer, there.
	Headed
)

var boltShapeNames = [...]string{Bent: "bent", Headed: "headed"}

// String gives the name used in job files: "bent" or "headed".
func (b BoltShape) String() string { return boltShapeNames[b] }

// MarshalText gives the name that String gives.
func (b BoltShape) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

// UnmarshalText reads the name that String gives.
func (b *BoltShape) UnmarshalText(text []byte) error { return choose(b, boltShapeNames[:], text) }

// FieldKind names what reinforces the field of the slab.
type FieldKind uint8

const (
	// NoField leaves the field plain.
	NoField FieldKind = iota
	// Mesh is welded wire reinforcement.
	Mesh
	// Grid is bars both ways.
	Grid
	// Fiber is fibers in the mix.
	Fiber
)

var fieldKindNames = [...]string{NoField: "none", Mesh: "mesh", Grid: "grid", Fiber: "fiber"}

// String gives the name used in job files: "none", "mesh", "grid" or "fiber".
func (k FieldKind) String() string { return fieldKindNames[k] }

// MarshalText gives the name that String gives.
func (k FieldKind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// UnmarshalText reads the name that String gives.
func (k *FieldKind) UnmarshalText(text []byte) error { return choose(k, fieldKindNames[:], text) }

// choose sets *v to the place of text among names.
func choose[T ~uint8](v *T, names []string, text []byte) error {
	i := slices.Index(names, string(text))
	if i < 0 {
		last := len(names) - 1
		return errors.New("write " + strings.Join(names[:last], ", ") + " or " + names[last])
	}
	*v = T(i)
	return nil
}
