// Package assets holds the files that are built into the programs: the icon and
// the demo job. Fonts and the starting price list are packages beside it.
package assets

import (
	"embed"
	"slices"
)

//go:generate go run ./icon icon.png
//go:generate go run ./jobfile jobfile

//go:embed icon.png
var icon []byte

//go:embed demo.json
var demo []byte

//go:embed CHANGES.md
var changes string

//go:embed samples
var samples embed.FS

// Icon gives the program's icon, a square PNG.
func Icon() []byte { return slices.Clone(icon) }

// Changes gives what changed by version, in Markdown.
func Changes() string { return changes }

// Demo gives the job file of an invented shop addition: an overhead and a walk
// door, a joint with the old slab, one inside corner, 2x6 walls.
func Demo() []byte { return slices.Clone(demo) }

// A Sample is an invented job to try the program on.
type Sample struct {
	Name string // what it shows
	Data []byte // its job file
}

// Samples gives the sample jobs: the demo job first.
func Samples() []Sample {
	all := []Sample{{"Shop addition: joint, inside corner, falls", Demo()}}
	for _, s := range [][2]string{
		{"garage", "Garage addition: joint, doors, foam, mesh"},
		{"shop", "Shop: posts on pads, falls to a drain"},
		{"house", "House, metric: bearing strip, foam, grid of bars"},
		{"workshop", "Workshop: curbs, pipes, tubing, apron, porch a step down"},
	} {
		data, err := samples.ReadFile("samples/" + s[0] + ".json")
		if err != nil {
			panic(err) // it is built in
		}
		all = append(all, Sample{s[1], data})
	}
	return all
}
