package plan

import (
	"cmp"
	"errors"
	"fmt"
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
	Loop  int // of corners, edges, doors, bolt marks and holes, as Loops numbers them
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
	name(s *Site, t Thing) string
	outline(s *Site, t Thing) Outline
	move(s *Site, t Thing, by geometry.Point) (Thing, error)
	remove(s *Site, t Thing) error
	copy(s *Site, t Thing, by geometry.Point) (Thing, error)

	clone(s *Site)            // so that it shares no memory
	follow(s *Site, m motion) // where the whole slab moves
	validate(v *validator)    // adds the faults of those on the slab
	blank(s *Site) bool       // none is on the slab
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
	var out []Thing
	for _, k := range listed {
		if k.is != KindSlab {
			out = append(out, s.Of(k.is)...)
		}
	}
	slices.SortStableFunc(out, func(a, b Thing) int {
		la, lb := onEdge(a.Kind), onEdge(b.Kind)
		switch {
		case la && lb:
			return cmp.Or(cmp.Compare(a.Loop, b.Loop), cmp.Compare(a.Index, b.Index))
		case la != lb && la:
			return -1
		case la != lb:
			return 1
		}
		return 0
	})
	return out
}

// onEdge tells the kinds that belong to one edge.
func onEdge(k Kind) bool { _, ok := registry[k].kind.(ofEdges); return ok }

// Has tells whether a thing is there.
func (s Site) Has(t Thing) bool {
	k, ok := registry[t.Kind]
	return ok && k.has(&s, t)
}

// Name gives a thing as people call it: "corner 3", "door D1", "pad 2"; "" where it
// is not there.
func (s Site) Name(t Thing) string {
	if !s.Has(t) {
		return ""
	}
	return registry[t.Kind].name(&s, t)
}

// Outline gives how a thing lies on the plan; nothing where it is not there.
func (s Site) Outline(t Thing) Outline {
	if !s.Has(t) {
		return Outline{}
	}
	return registry[t.Kind].outline(&s, t)
}

var errGone = errors.New("that is no longer on the plan")

// edit changes a copy.
func (s Site) edit(t Thing, change func(k kind, s *Site) error) (Site, error) {
	if !s.Has(t) {
		return s, errGone
	}
	out := s.Clone()
	if err := change(registry[t.Kind].kind, &out); err != nil {
		return s, err
	}
	return out, nil
}

// Move moves a thing by a vector, as far as it can go that way: an edge sideways,
// a door along its edge. It names the thing as it is called then: a bolt mark that
// passes another changes places with it.
func (s Site) Move(t Thing, by geometry.Point) (Site, Thing, error) {
	now := t
	out, err := s.edit(t, func(k kind, s *Site) (err error) {
		now, err = k.move(s, t, by)
		return err
	})
	if err != nil {
		return s, t, err
	}
	return out, now, nil
}

// Remove takes a thing away.
func (s Site) Remove(t Thing) (Site, error) {
	return s.edit(t, func(k kind, s *Site) error { return k.remove(s, t) })
}

// Copy puts a copy of a thing a vector away and names it.
func (s Site) Copy(t Thing, by geometry.Point) (Site, Thing, error) {
	var made Thing
	out, err := s.edit(t, func(k kind, s *Site) (err error) {
		made, err = k.copy(s, t, by)
		return err
	})
	return out, made, err
}

// Clone gives a copy that shares no memory with s.
func (s Site) Clone() Site {
	s.Plan.Sections = slices.Clone(s.Plan.Sections)
	for i := range s.Plan.Sections {
		s.Plan.Sections[i].Profile = slices.Clone(s.Plan.Sections[i].Profile)
	}
	for _, k := range registry {
		k.clone(&s)
	}
	return s
}

// Clone gives a copy that shares no memory with p.
func (p Plan) Clone() Plan { return Site{Plan: p}.Clone().Plan }

// Clone gives a survey that shares no memory with s.
func (s Survey) Clone() Survey { return Site{Survey: s}.Clone().Survey }

// list is a kind whose things are kept in one list.
type list[T any] struct {
	kind   Kind
	noun   string
	path   string // of the list, as in a job file
	around bool   // it stands around the slabs and does not move with one
	in     func(*Site) *[]T
	called func(*T) string            // a name of its own, or ""; nil for none
	body   func(*T) []*geometry.Point // what moves with it
	ends   func(*T) []*geometry.Point // what can be moved alone; nil for nothing
	apart  bool                       // its ends are no part of its body: they are listed beside it
	lies   func(T) Outline            // but for its place and its ends
	turned func(*T, motion)           // what else is changed as the slab moves; nil for nothing
	drop   func(t *T, end int)        // takes one of its ends away; nil to take all
	deep   func(*T)                   // makes memory that it shares its own; nil for none
	check  func(v *validator, path string, t *T)
}

func (l list[T]) item(s *Site, t Thing) *T { return &(*l.in(s))[t.Index] }

func (l list[T]) endsOf(x *T) []*geometry.Point {
	if l.ends == nil {
		return nil
	}
	return l.ends(x)
}

func (l list[T]) each(s *Site, visit func(Thing)) {
	all := *l.in(s)
	for i := range all {
		visit(Thing{Kind: l.kind, Index: i})
		if l.apart {
			for k := range l.endsOf(&all[i]) {
				visit(Thing{Kind: l.kind, Index: i, Part: k + 1})
			}
		}
	}
}

func (l list[T]) has(s *Site, t Thing) bool {
	return t.Index >= 0 && t.Index < len(*l.in(s)) && t.Part >= 0 && t.Part <= len(l.endsOf(l.item(s, t)))
}

func (l list[T]) name(s *Site, t Thing) string {
	if l.called != nil {
		if own := l.called(l.item(s, t)); own != "" {
			return l.noun + " " + own
		}
	}
	return fmt.Sprintf("%s %d", l.noun, t.Index+1)
}

func (l list[T]) outline(s *Site, t Thing) Outline {
	x := l.item(s, t)
	out := l.lies(*x)
	for k, p := range l.endsOf(x) {
		out.Grips = append(out.Grips, Grip{*p, k + 1})
	}
	if ps := l.points(x, t); len(ps) > 0 {
		out.At = *ps[0]
	}
	return out
}

// points gives what a move of a thing moves.
func (l list[T]) points(x *T, t Thing) []*geometry.Point {
	if t.Part > 0 {
		return l.endsOf(x)[t.Part-1 : t.Part]
	}
	return l.body(x)
}

func (l list[T]) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	for _, p := range l.points(l.item(s, t), t) {
		*p = p.Add(by)
	}
	return t, nil
}

func (l list[T]) remove(s *Site, t Thing) error {
	if t.Part > 0 && l.drop != nil {
		l.drop(l.item(s, t), t.Part-1)
		return nil
	}
	all := l.in(s)
	*all = slices.Delete(*all, t.Index, t.Index+1)
	return nil
}

func (l list[T]) copy(s *Site, t Thing, by geometry.Point) (Thing, error) {
	all := l.in(s)
	*all = append(*all, *l.item(s, t))
	made := Thing{Kind: l.kind, Index: len(*all) - 1}
	if l.deep != nil {
		l.deep(l.item(s, made))
	}
	return l.move(s, made, by)
}

func (l list[T]) clone(s *Site) {
	all := l.in(s)
	*all = slices.Clone(*all)
	for i := range *all {
		if l.deep != nil {
			l.deep(&(*all)[i])
		}
	}
}

func (l list[T]) follow(s *Site, m motion) {
	if l.around {
		return
	}
	all := *l.in(s)
	for i := range all {
		for _, p := range l.body(&all[i]) {
			*p = m.to(*p)
		}
		if l.turned != nil {
			l.turned(&all[i], m)
		}
	}
}

func (l list[T]) validate(v *validator) {
	if l.around || l.check == nil {
		return
	}
	all := *l.in(&Site{Plan: v.p})
	for i := range all {
		l.check(v, fmt.Sprintf("%s[%d]", l.path, i), &all[i])
	}
}

func (l list[T]) blank(s *Site) bool { return l.around || len(*l.in(s)) == 0 }
