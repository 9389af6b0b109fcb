package sawcuts

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// Four cells with a cut between left and right, and one that ends in the middle: two
// panels, or one that is no rectangle where a cell is missing.
func TestPanelsBetweenCuts(t *testing.T) {
	const m = 1e9
	fresh := func() *grid {
		g := &grid{[]float64{0, m, 2 * m}, []float64{0, m, 2 * m}, make([]bool, 4), make([]bool, 4), make([]bool, 4)}
		for k := range g.in {
			g.in[k] = true
		}
		return g
	}
	g := fresh()
	g.cut(slab.Vec{X: m}, slab.Vec{X: m, Y: 2 * m})
	if got := g.parts(); len(got) != 2 || got[0].w != m || got[0].h != 2*m || got[0].fill != 1 {
		t.Errorf("cut through: %+v", got)
	}
	g = fresh()
	g.cut(slab.Vec{X: m}, slab.Vec{X: m, Y: m})
	if got := g.parts(); len(got) != 1 || got[0].w != 2*m || got[0].fill != 1 {
		t.Errorf("cut half way: %+v", got)
	}
	g = fresh()
	g.in[3] = false
	if got := g.parts(); len(got) != 1 || got[0].fill != 0.75 {
		t.Errorf("an L: %+v", got)
	}
}

// Cuts 1 ft apart that run side by side for 5 ft leave a thin strip; one on the other
// side of the hole does not.
func TestThinStrips(t *testing.T) {
	cut := func(x, y0, y1 float64) Cut {
		return Cut{A: point(x, y0), B: point(x, y1)}
	}
	if !strip(cut(1, 0, 5), []Cut{cut(0, 0, 9)}) {
		t.Error("a strip of 1 ft by 5 ft is not seen")
	}
	if strip(cut(1, 0, 5), []Cut{cut(0, 6, 9)}) || strip(cut(1, 0, 5), []Cut{cut(4, 0, 9)}) || strip(cut(1, 0, 2), []Cut{cut(0, 0, 9)}) {
		t.Error("a strip is seen where there is none")
	}
}

func point(x, y float64) geometry.Point {
	return geometry.Point{X: geometry.Length(x * float64(geometry.Foot)), Y: geometry.Length(y * float64(geometry.Foot))}
}
