package solid

import (
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

// Solid is the concrete of one plan.
type Solid struct {
	Volume    float64 // m³, in the slab: no waste
	Area      float64 // m², of the slab in plan, holes out
	Perimeter geometry.Length
	Parts     []Part  // they add up to Volume
	Naive     float64 // m³: field plus length times section, corners ignored
}

// Part is one summand of the volume.
type Part struct {
	Kind       Kind
	Loop, Edge int // of an edge's part, as plan.Loops numbers them; else -1
	Span       int // of the edge's spans
	Name       string
	Volume     float64 // m³; negative where it is given back
	Work       string  // how it was computed, in m
}

// Kind tells what a part is.
type Kind uint8

const (
	Field   Kind = iota // field thickness over the slab's area
	Haunch              // an edge's length times its section beyond the field
	Fill                // what a haunch runs on to the mitre of an inside corner
	Outside             // what of a haunch would lie off the slab; negative
	Overlap             // where thickenings overlap, counted once; negative
	PadPart
	StripPart
	RunOut
	Wedge // level ground under a falling top
	LipPart
)

// Of computes the solid. The error is a plan.Faults.
func Of(p plan.Plan) (*Solid, error) { return nil, nil }

// DepthAt gives the depth of the underside below the top at q, 0 off the slab.
func (s *Solid) DepthAt(q geometry.Point) geometry.Length { return 0 }
