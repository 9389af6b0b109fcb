package handover

import (
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// EdgeFoam is the insulation of an edge against frost, as its section shows it.
type EdgeFoam struct {
	Upright, Height geometry.Length // thickness, and from the top of the slab down
	Wing, Width     geometry.Length // thickness, and out from the upright foam; 0 for none
	Over            geometry.Length // from the top of the slab down to the top of the wing
	Ground          geometry.Length // below the top of the slab
}

// edgeFoam gives it for edges of a slab that are free somewhere; nil for none.
func edgeFoam(on use, slab takeoff.Slab, b takeoff.Base) *EdgeFoam {
	f := b.Frost()
	if f.Upright == 0 || !on.free {
		return nil
	}
	out := &EdgeFoam{Upright: f.Upright, Height: f.Height, Ground: b.Above + slab.Plan.Height}
	if f.Lies() {
		out.Wing, out.Width, out.Over = f.Wing, f.Width, out.Ground+b.WingDeep
	}
	return out
}
