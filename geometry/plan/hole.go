package plan

import (
	"errors"

	"haunchbook.example/geometry"
)

// Hole is an opening right through the slab: a block-out, a pit, a pier. Its
// edges run clockwise, so that the slab is left of them too, and may carry
// sections of their own.
type Hole struct {
	Name string `json:"name,omitzero"`
	Loop Loop   `json:"edges"`
}

// KindHole is the kind of holes, and KindSlab that of the slab as a whole. The edges
// of both are things of their own.
const (
	KindHole Kind = "hole"
	KindSlab Kind = "slab"
)

func init() {
	register(KindHole, 60, 8, list[Hole]{
		kind: KindHole,
		in:   func(s *Site) *[]Hole { return &s.Plan.Holes },
		body: func(h *Hole) []*geometry.Point {
			out := make([]*geometry.Point, len(h.Loop))
			for i := range h.Loop {
				out[i] = &h.Loop[i].At
			}
			return out
		},
		lies: func(h Hole) Outline { return Outline{Ring: h.Loop.Rim()} },
		deep: func(h *Hole) { h.Loop = h.Loop.clone() },
	})
	register(KindSlab, 61, 9, whole{})
}

// whole is the slab with all that is on it.
type whole struct{}

func (whole) each(s *Site, visit func(Thing)) {
	if len(s.Plan.Outline) > 0 {
		visit(Thing{Kind: KindSlab})
	}
}

func (whole) has(s *Site, t Thing) bool { return t == Thing{Kind: KindSlab} && len(s.Plan.Outline) > 0 }

func (whole) outline(s *Site, _ Thing) Outline {
	return Outline{At: s.Plan.Outline[0].At, Ring: s.Plan.Outline.Rim()}
}

func (whole) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	s.Plan = s.Plan.Translate(by)
	return t, nil
}

func (whole) remove(*Site, Thing) error { return errors.New("a slab is removed from its job") }

// AddHole cuts a hole, run clockwise whichever way the loop runs.
func (p Plan) AddHole(name string, l Loop) Plan {
	p = p.Clone()
	if l.Rim().CounterClockwise() {
		l = l.Reversed()
	}
	p.Holes = append(p.Holes, Hole{Name: name, Loop: l.clone()})
	return p
}
