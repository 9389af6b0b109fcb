package drawing

import "strings"

// Layer groups what is drawn by what it shows. A drawing file has the same layers.
type Layer uint8

// The layers. Each but the last few is a choice of whoever draws a plan.
const (
	Outline   Layer = iota // edges of the slab and its holes
	Haunch                 // bends of the underside
	Depth                  // shades, contours and depths of the underside
	Pads                   // pads and thickened strips
	BlockOuts              // left open round columns
	Curbs                  // raised walls on edges
	Embeds                 // sleeves, drains, post bases
	Lines                  // drain lines, conduit, tubing
	Openings               // doors
	Joint                  // with the slab that is there
	Walls                  // faces of framed walls
	Plates
	Bolts
	Dowels
	Steel
	Mesh
	SawCuts
	Construction // joints between two pours
	Forms
	Foam
	Frost // insulation of the edges
	Retarder
	StakeOut // string lines, diagonals, 3-4-5 checks
	Heights  // of the top and of what is dug, at their places
	Falls
	Pour
	Survey // benchmarks
	Notes
	Dimensions
	Corners // their numbers
	Names   // of slabs
	Sections
	Details // of a section, a bend, a cutting diagram: what has no layer of a plan
	Frame
	layerCount
)

var layerNames = [layerCount]string{
	Outline: "SLAB", Haunch: "HAUNCH", Depth: "DEPTH", Pads: "PAD", BlockOuts: "BLOCKOUT", Curbs: "CURB", Embeds: "EMBED", Lines: "LINE", Openings: "OPENING", Joint: "JOINT",
	Walls: "WALL", Plates: "PLATE", Bolts: "BOLT", Dowels: "DOWEL", Steel: "STEEL", Mesh: "MESH", SawCuts: "SAWCUT", Construction: "CONSTRUCTION",
	Forms: "FORM", Foam: "FOAM", Frost: "FROST", Retarder: "RETARDER", StakeOut: "STAKE", Heights: "HEIGHT", Falls: "FALL",
	Pour: "POUR", Survey: "SURVEY", Notes: "NOTE", Dimensions: "DIMENSION", Corners: "CORNER", Names: "NAME",
	Sections: "SECTION", Details: "DETAIL", Frame: "FRAME",
}

// String gives the layer's name in a drawing file: "SLAB".
func (l Layer) String() string { return layerNames[l] }

// Layers is a choice of layers.
type Layers uint64

// LayersOf gives the choice of some layers.
func LayersOf(ls ...Layer) (s Layers) {
	for _, l := range ls {
		s |= 1 << l
	}
	return s
}

// AllLayers is every layer.
const AllLayers Layers = 1<<layerCount - 1

// Has tells whether a layer is among them.
func (s Layers) Has(l Layer) bool { return s>>l&1 == 1 }

// With gives the layers with others added.
func (s Layers) With(ls ...Layer) Layers { return s | LayersOf(ls...) }

// Without gives the layers with some taken off.
func (s Layers) Without(ls ...Layer) Layers { return s &^ LayersOf(ls...) }

// List gives the layers in order.
func (s Layers) List() (out []Layer) {
	for l := range layerCount {
		if s.Has(l) {
			out = append(out, l)
		}
	}
	return out
}

// String lists the names of the layers.
func (s Layers) String() string {
	var names []string
	for _, l := range s.List() {
		names = append(names, l.String())
	}
	return strings.Join(names, " ")
}
