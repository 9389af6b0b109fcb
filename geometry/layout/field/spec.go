package field

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// Spec is what reinforces the field. Only what its Kind names is used.
type Spec struct {
	Kind Kind `json:"kind"`

	// Mesh of ASTM A1064/A1064M.
	Style  string          `json:"style"`  // "6x6-W1.4xW1.4"
	Width  geometry.Length `json:"width"`  // of a sheet or roll
	Length geometry.Length `json:"length"` // of a sheet or roll
	Roll   bool            `json:"roll"`

	// Grid of bars.
	Size    bars.Size       `json:"size"`
	Spacing geometry.Length `json:"spacing"` // center to center, at most

	// Mesh and grid.
	Cover  geometry.Length `json:"cover"`  // ends clear of the faces
	Depth  geometry.Length `json:"depth"`  // of the steel's center below the top; 0 for the middle of the field
	Chairs geometry.Length `json:"chairs"` // apart both ways; 0 for none
}

// Kind names what reinforces the field of the slab.
type Kind = geometry.Choice[kinds]

type kinds struct{}

// Names implements geometry.Named.
func (kinds) Names() []string { return []string{"none", "mesh", "grid", "fiber"} }

const (
	// NoField leaves the field plain.
	None Kind = iota
	// Mesh is welded wire reinforcement.
	Mesh
	// Grid is bars both ways.
	Grid
	// Fiber is fibers in the mix.
	Fiber
)
