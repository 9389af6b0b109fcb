package slab

import "haunchbook.example/geometry"

// Concrete is what the rules of layout need to know of the mix.
type Concrete struct {
	Strength  int             // psi at 28 days
	Slump     geometry.Length // at the chute
	Aggregate geometry.Length // nominal maximum size
}
