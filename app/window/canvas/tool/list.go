package tool

import (
	"fmt"
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
)

// list is a kind of things that stand in a list of the job, each by itself: it is
// moved by its points.
type list[T any] struct {
	called string // "pad"
	help   string
	rank   int // of its points
	// in gives the list. What is put into it is not shared with another job.
	in func(j *job.Job, slab int) *[]T
	// own gives one lists of its own; nil where it has none.
	own func(*T)
	// whole gives the points that are moved with it.
	whole func(*T) []*geometry.Point
	// points gives those that can be taken by themselves; nil for none.
	points func(*T) []*geometry.Point
	// shown tells whether it can be seen; nil for always.
	shown func(o On) bool
	// placed tells whether one stands on the plan; nil for always.
	placed func(T) bool
	// off takes one off the plan and leaves it in its list; nil takes it out.
	off func(*T)
	// near offers one, but for its points.
	near func(o On, v T, r *Reach, t Target)
	// outline shows one, or with a point of 0 and on that one of its points.
	outline func(m *Machine, o *Overlay, v T, point int, s Style)
	// clear gives what the distances of one, or of its point, from the edges are measured
	// from; nil where none are shown.
	clear func(v T, point int) geometry.Ring
	// describe gives its fields.
	describe func(m *Machine, f bind.Fields[T], s Sheet)
	// part takes a point away from one, for those of which that can be done.
	part func(v *T, point int)
}

func (l *list[T]) Called(_ On, t Target) string { return fmt.Sprintf("%s %d", l.called, t.Index+1) }

func (l *list[T]) Help(Target) string { return l.help }

func (l *list[T]) all(o On) []T {
	if l.shown != nil && !l.shown(o) {
		return nil
	}
	return *l.in(&o.Job, o.Slab)
}

// subs gives how many points of one can be taken by themselves.
func (l *list[T]) subs(v T) []*geometry.Point {
	if l.points == nil {
		return nil
	}
	return l.points(&v)
}

func (l *list[T]) All(o On) (ts []Target) {
	for i, v := range l.all(o) {
		if l.placed != nil && !l.placed(v) {
			continue
		}
		ts = append(ts, Target{Kind: l, Index: i})
		if l.part != nil {
			for k := range l.subs(v) {
				ts = append(ts, Target{Kind: l, Index: i, Sub: k + 1})
			}
		}
	}
	return ts
}

func (l *list[T]) Has(o On, t Target) bool {
	all := l.all(o)
	return t.Index < len(all) && t.Sub <= len(l.subs(all[t.Index])) && (l.placed == nil || l.placed(all[t.Index]))
}

func (l *list[T]) Near(o On, r *Reach) {
	for i, v := range l.all(o) {
		if l.placed != nil && !l.placed(v) {
			continue
		}
		for k, p := range l.subs(v) {
			r.Point(o, l.rank, *p, Target{Kind: l, Index: i, Sub: k + 1})
		}
		l.near(o, v, r, Target{Kind: l, Index: i})
	}
}

// moved gives the points that move with a target.
func (l *list[T]) moved(v *T, sub int) []*geometry.Point {
	if sub == 0 {
		return l.whole(v)
	}
	return l.points(v)[sub-1 : sub]
}

func (l *list[T]) Anchor(o On, t Target, from geometry.Point) geometry.Point {
	if !l.Has(o, t) {
		return from
	}
	return *l.moved(&l.all(o)[t.Index], t.Sub)[0]
}

// changed gives the job with one changed.
func (l *list[T]) changed(o On, t Target, change func(all *[]T)) (job.Job, error) {
	if !l.Has(o, t) {
		return o.Job, errGone
	}
	j := o.Job
	j.Slabs = slices.Clone(j.Slabs)
	all := l.in(&j, o.Slab)
	*all = slices.Clone(*all)
	change(all)
	return j, nil
}

func (l *list[T]) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	j, err := l.changed(o, t, func(all *[]T) {
		v := &(*all)[t.Index]
		if l.own != nil {
			l.own(v)
		}
		for _, p := range l.moved(v, t.Sub) {
			*p = p.Add(by)
		}
	})
	return j, t, err
}

func (l *list[T]) Remove(o On, t Target) (job.Job, error) {
	return l.changed(o, t, func(all *[]T) {
		switch {
		case t.Sub > 0 && l.part != nil:
			l.part(&(*all)[t.Index], t.Sub-1)
		case l.off != nil:
			l.off(&(*all)[t.Index])
		default:
			*all = slices.Delete(*all, t.Index, t.Index+1)
		}
	})
}

func (l *list[T]) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if l.Has(m.on(), t) {
		l.outline(m, o, l.all(m.on())[t.Index], t.Sub-1, s)
	}
}

// Clear implements cleared.
func (l *list[T]) Clear(o On, t Target) geometry.Ring {
	if l.clear == nil {
		return nil
	}
	return l.clear(l.all(o)[t.Index], t.Sub-1)
}

func (l *list[T]) Describe(m *Machine, t Target, s Sheet) {
	label := "Change " + l.Called(m.on(), t)
	s.Heading(title(l.Called(m.on(), t)))
	l.describe(m, bind.Of(s, func() (v T) {
		if all := l.all(m.on()); t.Index < len(all) {
			v = all[t.Index]
		}
		return v
	}, func(_ string, change func(*T)) error {
		j, err := l.changed(m.base(), t, func(all *[]T) {
			if l.own != nil {
				l.own(&(*all)[t.Index])
			}
			change(&(*all)[t.Index])
		})
		if err == nil {
			m.Doc.Commit(label, j)
		}
		return err
	}).From(m.measured()).Used(), s)
	remove := "Remove " + l.called
	if l.off != nil {
		remove = "Take it off the plan"
	}
	s.Buttons(m.removal(remove))
}

// put adds one at the end of the list, and selects it.
func (l *list[T]) put(m *Machine, label string, v T) {
	j := m.Doc.Base()
	j.Slabs = slices.Clone(j.Slabs)
	all := l.in(&j, m.Doc.Slab())
	*all = append(slices.Clip(*all), v)
	m.Doc.Commit(label, j)
	m.Use(&Select{})
	m.Selected = Target{Kind: l, Index: len(*all) - 1}
}
