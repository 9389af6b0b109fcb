// Package assets holds the files that are built into the programs: the icon and
// the demo job. Fonts and the starting price list are packages beside it.
package assets

import (
	_ "embed"
	"slices"
)

//go:generate go run ./icon icon.png
//go:generate go run ./jobfile jobfile

//go:embed icon.png
var icon []byte

//go:embed demo.json
var demo []byte

// Icon gives the program's icon, a square PNG.
func Icon() []byte { return slices.Clone(icon) }

// Demo gives the job file of an invented shop addition: an overhead and a walk
// door, a joint with the old slab, one inside corner, 2x6 walls.
func Demo() []byte { return slices.Clone(demo) }
