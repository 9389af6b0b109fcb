package bars

import (
	"fmt"

	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// Part is what a bar belongs to.
type Part struct {
	Kind PartKind
	N    int // row of the edges, from 1; pad or thickened strip of the plan, from 0; bar of curbs, from 1, 0 for an upright one
}

// PartKind is a kind of what bars belong to.
type PartKind uint8

const (
	EdgeRow   PartKind = iota // a row round the haunches
	InPad                     // a pad
	InStrip                   // a thickened strip
	FieldGrid                 // the grid of the field
	InJoint                   // the joint with the old slab: dowels
	InCurb                    // a curb on an edge
)

// Text names a part of a slab of that plan for people: "edge row 1", "pad P2 Post".
func (p Part) Text(of plan.Plan, names mark.Names) string {
	switch p.Kind {
	case EdgeRow:
		return fmt.Sprintf("edge row %d", p.N)
	case InPad:
		return "pad " + names.Pad(p.N).Called(of.Pads[p.N].Name)
	case InStrip:
		return "thickened strip " + names.Strip(p.N).Called(of.Strips[p.N].Name)
	case FieldGrid:
		return "field grid"
	case InCurb:
		if p.N == 0 {
			return "upright in curbs"
		}
		return fmt.Sprintf("curb bar %d", p.N)
	}
	return "dowels"
}
