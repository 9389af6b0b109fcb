package bars

import (
	"fmt"

	"haunchbook.example/geometry/plan"
)

// Part is what a bar belongs to.
type Part struct {
	Kind PartKind
	N    int // row of the edges, from 1; pad or thickened strip of the plan, from 0
}

// PartKind is a kind of what bars belong to.
type PartKind uint8

const (
	EdgeRow   PartKind = iota // a row round the haunches
	InPad                     // a pad
	InStrip                   // a thickened strip
	FieldGrid                 // the grid of the field
	InJoint                   // the joint with the old slab: dowels
)

// Text names a part of a slab of that plan for people: "edge row 1", "pad Post".
func (p Part) Text(of plan.Plan) string {
	switch p.Kind {
	case EdgeRow:
		return fmt.Sprintf("edge row %d", p.N)
	case InPad:
		return "pad " + named(of.Pads[p.N].Name, "P", p.N)
	case InStrip:
		return "strip " + named(of.Strips[p.N].Name, "S", p.N)
	case FieldGrid:
		return "field grid"
	}
	return "dowels"
}

func named(name, letter string, i int) string {
	if name != "" {
		return name
	}
	return fmt.Sprintf("%s%d", letter, i+1)
}
