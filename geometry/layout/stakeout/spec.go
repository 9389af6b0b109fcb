package stakeout

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Diagonal is a check measure between two corners of the outline.
type Diagonal struct {
	I, J   int
	Length geometry.Length
}

// Square is a 3-4-5 check at a right-angled corner: Unit times 3 along one edge
// and times 4 along the other make Unit times 5 across.
type Square struct {
	Corner      int
	Unit        geometry.Length
	Back, Forth geometry.Length // legs on the edge that ends at the corner, and on the one that begins there
	A, B        geometry.Point  // the ends of the legs
}

// StringLine is a line stretched along an edge of the outline between stakes
// beyond its corners.
type StringLine struct {
	Edge         int
	A, B         geometry.Point
	Before, Past geometry.Length // how far its stakes stand beyond the edge's ends
}

// Grade is the height of a corner over the site's benchmark.
type Grade struct {
	Corner      int
	At          geometry.Point
	Top, Bottom geometry.Length // of the slab
	Dig         geometry.Length // of the ground to dig to, under base and foam
}

// Spec is what the stake-out needs.
type Spec struct {
	Offset    geometry.Length `json:"offset"`    // of the string-line stakes beyond the corners
	Benchmark geometry.Length `json:"benchmark"` // height of the lowest point of the slab's top over the site's benchmark
}

// Top gives the height of the lowest place of a slab's finished top over the datum.
func (s Spec) Top(p plan.Plan) geometry.Length { return s.Benchmark + p.Height }
