package scene

import (
	"strings"

	"haunchbook.example/geometry/drawing"
)

// Layers says what is drawn besides the slabs themselves.
type Layers struct {
	Grid, Sizes, Underside, Steel, Bolts, Dowels, SawCuts, Forms, Foam, Retarder, StakeOut, Pour bool
}

// always are the layers of a drawing that are drawn whatever is chosen.
var always = drawing.LayersOf(drawing.Outline, drawing.Joint, drawing.Walls, drawing.Openings, drawing.Corners, drawing.Pads, drawing.BlockOuts, drawing.Curbs, drawing.Embeds, drawing.Lines, drawing.Construction, drawing.Falls, drawing.Survey, drawing.Names)

// drawn gives the layers of a drawing that are drawn.
func (l Layers) drawn() drawing.Layers {
	on := always
	for _, k := range [...]struct {
		on    bool
		shows drawing.Layers
	}{
		{l.Underside, drawing.LayersOf(drawing.Depth)}, {l.Steel, drawing.LayersOf(drawing.Steel, drawing.Mesh)}, {l.Bolts, drawing.LayersOf(drawing.Bolts, drawing.Plates)},
		{l.Dowels, drawing.LayersOf(drawing.Dowels)}, {l.SawCuts, drawing.LayersOf(drawing.SawCuts)}, {l.Forms, drawing.LayersOf(drawing.Forms)},
		{l.Foam, drawing.LayersOf(drawing.Foam, drawing.Frost)}, {l.Retarder, drawing.LayersOf(drawing.Retarder)},
		{l.StakeOut, drawing.LayersOf(drawing.StakeOut, drawing.Heights)}, {l.Pour, drawing.LayersOf(drawing.Pour)},
	} {
		if k.on {
			on |= k.shows
		}
	}
	return on
}

// Usual are the layers that are on at first.
var Usual = Layers{Grid: true, Sizes: true, Underside: true, Bolts: true, Dowels: true, SawCuts: true}

// All are all layers on.
var All = Layers{true, true, true, true, true, true, true, true, true, true, true, true}

// Layer is one layer with its switch.
type Layer struct {
	Name string // as people know it
	Text string // what it shows
	On   *bool
}

// List gives the layers in the order they are offered.
func (l *Layers) List() []Layer {
	return []Layer{
		{"Grid", "squares to draw on", &l.Grid},
		{"Sizes", "dimensions to read and to change", &l.Sizes},
		{"Underside", "depths of the concrete: shades and contours", &l.Underside},
		{"Steel", "bars and mesh with their laps", &l.Steel},
		{"Bolts", "plates, and anchor bolts with their numbers", &l.Bolts},
		{"Dowels", "bars into the old slab", &l.Dowels},
		{"Saw cuts", "and isolation strips", &l.SawCuts},
		{"Forms", "boards, stakes and kickers", &l.Forms},
		{"Foam", "sheets under the slab", &l.Foam},
		{"Retarder", "vapor retarder with its laps", &l.Retarder},
		{"Stake-out", "string lines, diagonals, 3-4-5 squares, heights", &l.StakeOut},
		{"Pour", "bays in order, wet pads, trucks and their reach", &l.Pour},
	}
}

// String lists the layers that are on by name, for ReadLayers.
func (l Layers) String() string {
	var on []string
	for _, k := range l.List() {
		if *k.On {
			on = append(on, k.Name)
		}
	}
	return strings.Join(on, ",")
}

// ReadLayers reads what String gives. Names it does not know are passed over.
func ReadLayers(text string) Layers {
	var l Layers
	for _, name := range strings.Split(text, ",") {
		for _, k := range l.List() {
			if k.Name == strings.TrimSpace(name) {
				*k.On = true
			}
		}
	}
	return l
}
