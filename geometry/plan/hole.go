package plan

import (
	"errors"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// Hole is an opening right through the slab: a block-out, a pit, a pier. Its
// edges run clockwise, so that the slab is left of them too, and may carry
// sections of their own.
type Hole struct {
	Name string `json:"name,omitzero"`
	Loop Loop   `json:"edges"`
}

// KindHole is the kind of holes, named by their loop, and KindSlab the kind of the
// slab as a whole.
const (
	KindHole Kind = "hole"
	KindSlab Kind = "slab"
)

func init() {
	register(KindHole, 60, 8, holes{})
	register(KindSlab, 61, 9, whole{})
}

// holes are listed by their loop; their edges are things of their own.
type holes struct{ still }

func (holes) each(s *Site, visit func(Thing)) {
	for i := range s.Plan.Holes {
		visit(Thing{Kind: KindHole, Loop: i + 1})
	}
}

func (holes) has(s *Site, t Thing) bool { return t.Loop > 0 && t.Loop <= len(s.Plan.Holes) }

func (holes) name(s *Site, t Thing) string {
	if own := s.Plan.Holes[t.Loop-1].Name; own != "" {
		return "hole " + own
	}
	return fmt.Sprintf("hole %d", t.Loop)
}

func (holes) outline(s *Site, t Thing) Outline { return rim(s.Plan.Holes[t.Loop-1].Loop) }

// rim is the outline of what a loop bounds.
func rim(l Loop) Outline {
	out := Outline{Ring: l.Corners()}
	if len(l) > 0 {
		out.At = l[0].At
	}
	return out
}

func (holes) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	l := s.Plan.Holes[t.Loop-1].Loop
	for i := range l {
		l[i].At = l[i].At.Add(by)
	}
	return t, nil
}

func (holes) remove(s *Site, t Thing) error {
	s.Plan.Holes = slices.Delete(s.Plan.Holes, t.Loop-1, t.Loop)
	return nil
}

func (h holes) copy(s *Site, t Thing, by geometry.Point) (Thing, error) {
	made := s.Plan.Holes[t.Loop-1]
	made.Loop = made.Loop.clone()
	s.Plan.Holes = append(s.Plan.Holes, made)
	t = Thing{Kind: KindHole, Loop: len(s.Plan.Holes)}
	return h.move(s, t, by)
}

func (holes) clone(s *Site) {
	s.Plan.Holes = slices.Clone(s.Plan.Holes)
	for i := range s.Plan.Holes {
		s.Plan.Holes[i].Loop = s.Plan.Holes[i].Loop.clone()
	}
}

func (holes) blank(s *Site) bool { return len(s.Plan.Holes) == 0 }

// whole is the slab with all that is on it.
type whole struct{ still }

func (whole) each(s *Site, visit func(Thing)) {
	if len(s.Plan.Outline) > 0 {
		visit(Thing{Kind: KindSlab})
	}
}

func (whole) has(s *Site, t Thing) bool        { return len(s.Plan.Outline) > 0 }
func (whole) name(*Site, Thing) string         { return "the slab" }
func (whole) outline(s *Site, _ Thing) Outline { return rim(s.Plan.Outline) }

func (whole) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	s.Plan = s.Plan.Translate(by)
	return t, nil
}

func (whole) remove(*Site, Thing) error { return errors.New("a slab is removed from its job") }

func (whole) copy(*Site, Thing, geometry.Point) (Thing, error) {
	return Thing{}, errors.New("a slab is copied in its job")
}

func (whole) clone(s *Site) { s.Plan.Outline = s.Plan.Outline.clone() }

func (whole) blank(s *Site) bool { return len(s.Plan.Outline) == 0 }

// still is the part of a kind whose things are their loops' own: loops are copied,
// moved and checked as a whole.
type still struct{}

func (still) clone(*Site)          {}
func (still) follow(*Site, motion) {}
func (still) validate(*validator)  {}
func (still) blank(*Site) bool     { return true }

// AddHole cuts a hole, run clockwise whichever way the loop runs.
func (p Plan) AddHole(name string, l Loop) Plan {
	p = p.Clone()
	if l.Corners().CounterClockwise() {
		l = l.Reversed()
	}
	p.Holes = append(p.Holes, Hole{Name: name, Loop: l.clone()})
	return p
}
