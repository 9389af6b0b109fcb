package forms

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// BlockOuts gives the boards of the square and diamond block-outs round columns, which stand in
// them, as deep as the field: round ones are formed by a tube. No kicker is driven there.
func BlockOuts(s *slab.Slab, spec Spec) []Form {
	t := forming{Slab: s, spec: spec}
	var out []Form
	for _, b := range s.Plan.BlockOuts() {
		if b.Shape == plan.RoundOut {
			continue
		}
		ring := b.Ring()
		slices.Reverse(ring) // the slab is left of them
		for i, p := range ring {
			side := slab.NewSide(-1, -1, p, ring[(i+1)%len(ring)])
			f := Form{Loop: -1, Edge: -1, Pad: b.Pad + 1, A: side.A, B: side.B, Depth: s.Plan.Field, Length: side.Length - min(formThickness, side.Length/2)}
			t.board(&f, side)
			f.Boards = t.formBoards(f.Length)
			f.Stakes = slab.Evenly(0, f.Length, max(spec.Stakes, geometry.Inch), t.Step())
			out = append(out, f)
		}
	}
	return out
}
