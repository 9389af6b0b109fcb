package handover

import (
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/drawing/detail"
)

// edgeFoam gives the insulation against frost, as its section shows it, of edges of a slab that are free somewhere; nil for none.
func edgeFoam(on use, slab takeoff.Slab, b takeoff.Base) *detail.Frost {
	if !on.free || !b.Insulates(slab.Plan) {
		return nil
	}
	f := b.Frost()
	out := &detail.Frost{Upright: f.Upright, Height: f.Height, Ground: b.Above + slab.Plan.Height}
	if f.Lies() {
		out.Wing, out.Width, out.Over = f.Wing, f.Width, out.Ground+b.WingDeep
	}
	return out
}
