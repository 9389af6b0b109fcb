package plan

import (
	"cmp"
	"errors"
	"maps"
	"slices"

	"haunchbook.example/geometry"
)

// Kind tells what a thing on the drawing is. All that the program must know of a
// kind, to list, find, move, copy and remove its things, is in the file of its
// type, where it is registered; "" is nothing.
type Kind string

// Thing names a thing on the drawing of a slab.
type Thing struct {
	Kind  Kind
	Loop  int // of corners, edges, doors and bolt marks, as Loops numbers them
	Index int // of the corner or edge in its loop; of other things among their kind
	Sub   int // of the door or bolt mark on its edge
	Part  int // 0 for the whole; k for the k-th of the points by which it is taken
}

// Site is a slab with what stands around it: what things are on.
type Site struct {
	Plan   Plan
	Survey Survey
}

// Outline is how a thing lies on the plan.
type Outline struct {
	At    geometry.Point // the place by which it is moved
	Grips []Grip
	Lines [][2]geometry.Point
	Half  geometry.Length // of the width that its lines have
	Ring  geometry.Ring   // its rim, where it has an area
}

// Grip is a point by which a thing, or a part of it, can be taken.
type Grip struct {
	At   geometry.Point
	Part int
}

// kind is what is done with the things of one kind. Things that it is given are
// there, and what it changes is the caller's own.
type kind interface {
	each(s *Site, visit func(Thing))
	has(s *Site, t Thing) bool
	outline(s *Site, t Thing) Outline
	move(s *Site, t Thing, by geometry.Point) (Thing, error)
	remove(s *Site, t Thing) error
}

// copied is a kind whose things can be copied.
type copied interface {
	copy(s *Site, t Thing, by geometry.Point) (Thing, error)
}

// kept is a kind whose things are kept apart from the outline.
type kept interface {
	clone(s *Site)            // so that it shares no memory
	follow(s *Site, m motion) // where the whole slab moves
	validate(v *validator)    // adds the faults of those on the slab
	blank(s *Site) bool       // there is none
}

// motion takes all of a slab's points elsewhere.
type motion struct {
	to   func(geometry.Point) geometry.Point
	turn float64 // degrees, counter-clockwise
	flip bool    // mirrored, before it is turned
}

// registered is a kind with its place: of things over each other, the one of the
// lower rank is taken; they are listed by tab.
type registered struct {
	kind
	is        Kind
	rank, tab int
}

var (
	registry = map[Kind]registered{}
	listed   []registered // in order of tab
)

// register makes a kind known.
func register(k Kind, rank, tab int, of kind) {
	registry[k] = registered{of, k, rank, tab}
	listed = slices.SortedFunc(maps.Values(registry), func(a, b registered) int { return cmp.Compare(a.tab, b.tab) })
}

// Kinds gives all kinds of things, those first that are taken before others under
// them.
func Kinds() []Kind {
	var out []Kind
	for _, k := range slices.SortedFunc(maps.Values(registry), func(a, b registered) int { return cmp.Compare(a.rank, b.rank) }) {
		out = append(out, k.is)
	}
	return out
}

// Of gives the things of a kind, in order.
func (s Site) Of(k Kind) []Thing {
	var out []Thing
	if of, ok := registry[k]; ok {
		of.each(&s, func(t Thing) { out = append(out, t) })
	}
	return out
}

// Things lists all things: edge by edge what is on it, then the others kind by
// kind. The slab as a whole is not among them.
func (s Site) Things() []Thing {
	var edged, out []Thing
	for _, k := range listed {
		switch _, onEdges := k.kind.(ofEdges); {
		case onEdges:
			edged = append(edged, s.Of(k.is)...)
		case k.is != KindSlab:
			out = append(out, s.Of(k.is)...)
		}
	}
	slices.SortStableFunc(edged, func(a, b Thing) int {
		return cmp.Or(cmp.Compare(a.Loop, b.Loop), cmp.Compare(a.Index, b.Index))
	})
	return append(edged, out...)
}

// Has tells whether a thing is there.
func (s Site) Has(t Thing) bool {
	k, ok := registry[t.Kind]
	return ok && k.has(&s, t)
}

// Outline gives how a thing lies on the plan; nothing where it is not there.
func (s Site) Outline(t Thing) Outline {
	if !s.Has(t) {
		return Outline{}
	}
	return registry[t.Kind].outline(&s, t)
}

// edit changes a copy.
func (s Site) edit(t Thing, change func(k kind, s *Site) (Thing, error)) (Site, Thing, error) {
	if !s.Has(t) {
		return s, t, errors.New("that is no longer on the plan")
	}
	out := s.Clone()
	now, err := change(registry[t.Kind].kind, &out)
	if err != nil {
		return s, t, err
	}
	return out, now, nil
}

// Move moves a thing by a vector, as far as it can go that way: an edge sideways,
// a door along its edge. It names the thing as it is called then: a bolt mark that
// passes another changes places with it.
func (s Site) Move(t Thing, by geometry.Point) (Site, Thing, error) {
	return s.edit(t, func(k kind, s *Site) (Thing, error) { return k.move(s, t, by) })
}

// Remove takes a thing away.
func (s Site) Remove(t Thing) (Site, error) {
	out, _, err := s.edit(t, func(k kind, s *Site) (Thing, error) { return t, k.remove(s, t) })
	return out, err
}

// Copy puts a copy of a thing a vector away and names it.
func (s Site) Copy(t Thing, by geometry.Point) (Site, Thing, error) {
	return s.edit(t, func(k kind, s *Site) (Thing, error) {
		if c, ok := k.(copied); ok {
			return c.copy(s, t, by)
		}
		return t, errors.New("this is not copied by itself")
	})
}

// keeping calls visit for the kinds that are kept apart from the outline.
func keeping(visit func(kept)) {
	for _, k := range listed {
		if k, ok := k.kind.(kept); ok {
			visit(k)
		}
	}
}

// Clone gives a copy that shares no memory with s.
func (s Site) Clone() Site {
	s.Plan.Sections = slices.Clone(s.Plan.Sections)
	for i := range s.Plan.Sections {
		s.Plan.Sections[i].Profile = slices.Clone(s.Plan.Sections[i].Profile)
	}
	s.Plan.Outline = s.Plan.Outline.clone()
	keeping(func(k kept) { k.clone(&s) })
	return s
}

// Clone gives a copy that shares no memory with p.
func (p Plan) Clone() Plan { return Site{Plan: p}.Clone().Plan }

// Clone gives a survey that shares no memory with s.
func (s Survey) Clone() Survey { return Site{Survey: s}.Clone().Survey }
