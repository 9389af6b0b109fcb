package sheet

import (
	"math"

	"haunchbook.example/geometry/drawing"
)

// Line types of the file, with their dashes on paper in millimeters; a negative
// length is a gap.
var lineTypes = []struct {
	name, text string
	dashes     []float64
}{
	{"CONTINUOUS", "Solid line", nil},
	{"DASHED", "__ __ __", []float64{2, -1.2}},
	{"DASHDOT", "____ _ ____ _", []float64{6, -1.4, 1.4, -1.4}},
}

func lineType(p Pen) string {
	switch len(p.Dash) {
	case 0:
		return "CONTINUOUS"
	case 2:
		return "DASHED"
	}
	return "DASHDOT"
}

// layerColor gives the color number that the form has for a layer: 7 is black or
// white, 1 red, 5 blue, 8 gray.
func layerColor(l Layer) int {
	switch l {
	case drawing.Dimensions, drawing.Foam, drawing.Frost, drawing.Retarder, drawing.Mesh, drawing.Pour:
		return 5
	case drawing.Bolts, drawing.Embeds, drawing.Lines, drawing.Construction, drawing.Steel, drawing.Dowels:
		return 1
	case drawing.Haunch, drawing.Depth, drawing.Plates, drawing.StakeOut:
		return 8
	}
	return 7
}

func (d dxf) tables() {
	d.pair(0, "SECTION")
	d.pair(2, "TABLES")
	d.pair(0, "TABLE")
	d.pair(2, "LTYPE")
	d.pair(70, len(lineTypes))
	for _, t := range lineTypes {
		d.pair(0, "LTYPE")
		d.pair(2, t.name)
		d.pair(70, 0)
		d.pair(3, t.text)
		d.pair(72, 65)
		d.pair(73, len(t.dashes))
		sum := 0.0
		for _, v := range t.dashes {
			sum += math.Abs(v)
		}
		d.pair(40, d.size(sum))
		for _, v := range t.dashes {
			d.pair(49, d.size(v))
		}
	}
	d.pair(0, "ENDTAB")
	d.pair(0, "TABLE")
	d.pair(2, "LAYER")
	layers := drawing.AllLayers.List()
	d.pair(70, len(layers)+1)
	layer := func(name string, color int) {
		d.pair(0, "LAYER")
		d.pair(2, name)
		d.pair(70, 0)
		d.pair(62, color)
		d.pair(6, "CONTINUOUS")
	}
	layer("0", 7)
	for _, l := range layers {
		layer(l.String(), layerColor(l))
	}
	d.pair(0, "ENDTAB")
	d.pair(0, "TABLE")
	d.pair(2, "STYLE")
	d.pair(70, 1)
	d.pair(0, "STYLE")
	d.pair(2, "STANDARD")
	d.pair(70, 0)
	d.pair(40, 0.0)
	d.pair(41, 1.0)
	d.pair(50, 0.0)
	d.pair(71, 0)
	d.pair(42, d.size(3))
	d.pair(3, "txt")
	d.pair(4, "")
	d.pair(0, "ENDTAB")
	d.pair(0, "TABLE")
	d.pair(2, "DIMSTYLE")
	d.pair(70, 1)
	d.pair(0, "DIMSTYLE")
	d.pair(2, "STANDARD")
	d.pair(70, 0)
	d.pair(40, 1.0)
	d.pair(41, d.size(2))
	d.pair(140, d.size(sizeBody*mmPerPoint*0.729))
	d.pair(0, "ENDTAB")
	d.pair(0, "ENDSEC")
}
