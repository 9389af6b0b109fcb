package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// list is a kind whose things are kept in one list.
type list[T any] struct {
	kind   Kind
	path   string // of the list, as in a job file
	in     func(*Site) *[]T
	body   func(*T) []*geometry.Point // what moves with it
	ends   func(*T) []*geometry.Point // what can be moved alone; nil for nothing
	drop   func(t *T)                 // takes an end away, which is then listed beside it; nil to take all
	lies   func(T) Outline            // but for its place and its ends
	turned func(*T, motion)           // what else is changed as the slab moves; nil for nothing
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
		if l.drop != nil {
			for k := range l.endsOf(&all[i]) {
				visit(Thing{Kind: l.kind, Index: i, Part: k + 1})
			}
		}
	}
}

func (l list[T]) has(s *Site, t Thing) bool {
	return t.Index >= 0 && t.Index < len(*l.in(s)) && t.Part >= 0 && t.Part <= len(l.endsOf(l.item(s, t)))
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
		l.drop(l.item(s, t))
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
	all := *l.in(&Site{Plan: v.p})
	for i := range all {
		if l.check != nil {
			l.check(v, fmt.Sprintf("%s[%d]", l.path, i), &all[i])
		}
	}
}

func (l list[T]) blank(s *Site) bool { return len(*l.in(s)) == 0 }
