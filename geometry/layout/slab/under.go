package slab

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// dug is what the underside of a section depends on.
type dug struct {
	section string
	joint   bool // no form board is set there
}

// Stations gives the underside of a named section on an edge, from the face
// inward, as it is dug.
func (t *Slab) Stations(e plan.Edge, name string) []plan.Station {
	key := dug{name, e.Joint}
	st, ok := t.dug[key]
	if !ok {
		if s, ok := t.Plan.SectionOn(e, name); ok {
			st = s.Stations(t.Plan.Field)
		}
		t.dug[key] = st
	}
	return st
}

// DepthAt gives the depth of an underside at an inset, the lesser one at a step.
func DepthAt(st []plan.Station, inset, field geometry.Length) geometry.Length {
	depth := field
	for i := 1; i < len(st); i++ {
		a, b := st[i-1], st[i]
		if inset < a.Inset || inset > b.Inset {
			continue
		}
		d := min(a.Depth, b.Depth)
		if b.Inset > a.Inset {
			d = a.Depth + geometry.Rounded(float64(b.Depth-a.Depth)*float64(inset-a.Inset)/float64(b.Inset-a.Inset))
		}
		return d
	}
	return depth
}

// DepthUnder gives the slab's depth under a place on an edge, as its section there
// has it.
func (t *Slab) DepthUnder(s Side, along, inset geometry.Length) geometry.Length {
	e := t.Edge(s)
	name := e.Section
	for _, sp := range t.Spans(s) {
		if along >= sp.From && along <= sp.To {
			name = sp.Section
			break
		}
	}
	return DepthAt(t.Stations(e, name), max(inset, 0), t.Plan.Field)
}

// DepthAtFace gives the slab's depth at the middle of an edge, at its face.
func (t *Slab) DepthAtFace(s Side) geometry.Length {
	e := t.Edge(s)
	if st := t.Stations(e, e.Section); st != nil {
		return st[0].Depth
	}
	return t.Plan.Field
}

// FreeOfDoors gives the stretches of an edge between its doors, or all of it.
func (t *Slab) FreeOfDoors(s Side, clear bool) []Interval {
	if !clear {
		return []Interval{{To: s.Length}}
	}
	return t.free[s.Loop][s.Edge]
}

// Across gives the diagonal of the slab's extent.
func (t *Slab) Across() geometry.Length {
	b := t.On.Bounds()
	return geometry.Distance(geometry.Point{X: geometry.Length(b.MinX), Y: geometry.Length(b.MinY)}, geometry.Point{X: geometry.Length(b.MaxX), Y: geometry.Length(b.MaxY)})
}

// DepthAtCorner gives the slab's depth where s starts: the deeper of what meets
// there, doors included.
func (t *Slab) DepthAtCorner(s Side) geometry.Length {
	if t.Solid != nil {
		if d, ok := t.Solid.DepthAt(s.A); ok {
			return d
		}
	}
	return max(t.DepthAtFace(t.Before(s)), t.DepthAtFace(s))
}

// Home is where findings about the whole slab are shown.
func (t *Slab) Home() geometry.Point { return t.Plan.Outline[0].At }

// RoundUp gives the least multiple of grain that is no shorter.
func RoundUp(l, grain geometry.Length) geometry.Length {
	return (l + grain - 1) / grain * grain
}
