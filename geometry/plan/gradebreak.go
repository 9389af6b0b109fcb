package plan

import (
	"slices"

	"haunchbook.example/geometry"
)

// Break bends the top along a line, which reaches as far as the slab does: left of the way
// From, To the top drops by Drop for each Over that it leads away from the line, against the
// plane that it is of to its right. A negative Drop rises. Beyond the line the one makes an
// apron, the other a ramp. Along it the top is as high as that plane.
type Break struct {
	From geometry.Point  `json:"from"`
	To   geometry.Point  `json:"to"`
	Drop geometry.Length `json:"drop"`
	Over geometry.Length `json:"over"` // measured square to the line
}

// KindBreak is the kind of breaks of the top. Both ends can be taken alone.
const KindBreak Kind = "break"

func init() {
	ends := func(b *Break) []*geometry.Point { return []*geometry.Point{&b.From, &b.To} }
	register(KindBreak, 45, 14, list[Break]{
		kind: KindBreak, path: "top.breaks",
		in:   func(s *Site) *[]Break { return &s.Plan.Top.Breaks },
		body: ends, ends: ends,
		lies: func(b Break) Outline { return Outline{Lines: [][2]geometry.Point{{b.From, b.To}}} },
		turned: func(b *Break, m motion) {
			if m.flip { // what was left of it is right
				b.From, b.To = b.To, b.From
			}
		},
		check: (*validator).breaks,
	})
}

// Level tells whether neither a fall nor a break makes the top other than level.
func (t Top) Level() bool { return len(t.Falls)+len(t.Breaks) == 0 }

// Lower tells whether the lowest of the planes of a top is the top: of falls that meet in a
// ridge, and where aprons drop away. Else the highest is.
func (t Top) Lower() bool {
	if len(t.Breaks) > 0 {
		return t.Breaks[0].Drop > 0
	}
	return t.Meet == Ridge
}

// breaks faults what bends the top so that neither the lowest nor the highest of its planes
// is the top everywhere.
func (v *validator) breaks(path string, b *Break) {
	const apart = "draw what lies beyond the line as a slab of its own"
	for _, p := range [...]geometry.Point{b.From, b.To} {
		if tooFar(p.X) || tooFar(p.Y) {
			v.fault(path, v.home, v.place(p), "must lie within 10 km of the origin")
			return
		}
	}
	of := v.p.Top
	other := slices.IndexFunc(of.Breaks, func(o Break) bool { return o.Drop != 0 && o.Drop < 0 != (b.Drop < 0) })
	switch {
	case b.From == b.To:
		v.fault(path+".to", b.To, "the point that its line runs from", "give two different points, from one edge to another")
	case b.Over <= 0:
		v.fault(path+".over", b.From, v.text(b.Over), "give how far from the line it drops by that much: more than 0")
	case len(of.Falls) > 1:
		v.fault(path, b.From, "an apron or a ramp on a top of "+count(len(of.Falls), "fall"), "it bends a level top, or one with a single fall: "+apart)
	case other >= 0 && b.Drop < 0:
		v.fault(path+".drop", b.From, "a ramp on a slab that has an apron", "a slab has aprons or ramps, not both: "+apart)
	}
}
