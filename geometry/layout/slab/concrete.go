package slab

import "haunchbook.example/geometry"

// Concrete is what the rules of layout need to know of the mix.
type Concrete struct {
	Strength  int             // psi at 28 days
	Slump     geometry.Length // at the chute
	Aggregate geometry.Length // nominal maximum size
}

// Layers is how thick base and foam are together, which a slab lies on.
type Layers struct {
	Field geometry.Length // under the field
	Thick geometry.Length // under haunches, pads and thickened strips
}

// Under gives their thickness under a place where the slab is so deep.
func (t *Slab) Under(depth geometry.Length) geometry.Length {
	if depth > t.Plan.Field {
		return t.Layers.Thick
	}
	return t.Layers.Field
}
