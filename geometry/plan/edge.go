package plan

import (
	"errors"
	"slices"

	"haunchbook.example/geometry"
)

// KindCorner and KindEdge are the kinds of corners and edges of all loops.
const (
	KindCorner Kind = "corner"
	KindEdge   Kind = "edge"
)

func init() {
	register(KindCorner, 10, 1, corners{perEdge{KindCorner}})
	register(KindEdge, 31, 2, edges{perEdge{KindEdge}})
}

// ofEdges is the part of a kind that each edge has.
type ofEdges interface{ ofEdges() }

// perEdge is the part that corners and edges share.
type perEdge struct{ kind Kind }

func (perEdge) ofEdges() {}

func (k perEdge) each(s *Site, visit func(Thing)) {
	for loop, l := range s.Plan.Loops() {
		for i := range l {
			visit(Thing{Kind: k.kind, Loop: loop, Index: i})
		}
	}
}

func (perEdge) has(s *Site, t Thing) bool {
	_, err := s.Plan.edge(t.Loop, t.Index)
	return err == nil
}

// at gives the loop that a thing is on and the ends of its edge.
func (perEdge) at(s *Site, t Thing) (l Loop, a, b geometry.Point) {
	l, _ = s.Plan.edge(t.Loop, t.Index)
	a, b = l.Ends(t.Index)
	return l, a, b
}

type corners struct{ perEdge }

func (c corners) outline(s *Site, t Thing) Outline {
	_, at, _ := c.at(s, t)
	return Outline{At: at, Grips: []Grip{{At: at}}}
}

func (c corners) move(s *Site, t Thing, by geometry.Point) (_ Thing, err error) {
	_, at, _ := c.at(s, t)
	s.Plan, err = s.Plan.MoveCorner(t.Loop, t.Index, at.Add(by))
	return t, err
}

func (corners) remove(s *Site, t Thing) (err error) {
	s.Plan, err = s.Plan.RemoveCorner(t.Loop, t.Index)
	return err
}

type edges struct{ perEdge }

func (e edges) outline(s *Site, t Thing) Outline {
	l, a, b := e.at(s, t)
	if l[t.Index].Middle == 0 {
		return Outline{At: a, Lines: [][2]geometry.Point{{a, b}}}
	}
	out, ps := Outline{At: a}, l.Chords(t.Index)
	for k := 1; k < len(ps); k++ {
		out.Lines = append(out.Lines, [2]geometry.Point{ps[k-1], ps[k]})
	}
	return out
}

func (e edges) move(s *Site, t Thing, by geometry.Point) (_ Thing, err error) {
	_, a, b := e.at(s, t)
	s.Plan, err = s.Plan.MoveEdge(t.Loop, t.Index, Sideways(a, b, by))
	return t, err
}

func (edges) remove(*Site, Thing) error {
	return errors.New("an edge goes with one of its corners: remove that")
}

// Sideways gives how far a vector leads away from the slab across the edge from a
// to b.
func Sideways(a, b, by geometry.Point) geometry.Length {
	return -Foot(a, a.Add(Turn(b.Sub(a), 90)), a.Add(by))
}

// edgeList is a kind whose things stand on edges, each in a list of its edge.
type edgeList[T any] struct {
	perEdge
	in     func(*Edge) *[]T
	along  func(*T) *geometry.Length // from the edge's start corner
	sorted bool                      // they stand in order along the edge
	lies   func(l Loop, i int, x T) Outline
}

// of gives the list that a thing is in.
func (k edgeList[T]) of(s *Site, t Thing) *[]T {
	l, _, _ := k.at(s, t)
	return k.in(&l[t.Index])
}

func (k edgeList[T]) each(s *Site, visit func(Thing)) {
	k.perEdge.each(s, func(t Thing) {
		for t.Sub = range *k.of(s, t) {
			visit(t)
		}
	})
}

func (k edgeList[T]) has(s *Site, t Thing) bool {
	return k.perEdge.has(s, t) && t.Sub >= 0 && t.Sub < len(*k.of(s, t))
}

func (k edgeList[T]) outline(s *Site, t Thing) Outline {
	l, _, _ := k.at(s, t)
	out := k.lies(l, t.Index, (*k.of(s, t))[t.Sub])
	if len(out.Lines) > 0 {
		out.At = out.Lines[0][0]
	}
	return out
}

func (k edgeList[T]) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	_, a, b := k.at(s, t)
	all := k.of(s, t)
	x := (*all)[t.Sub]
	*k.along(&x) += Foot(a, b, a.Add(by))
	if k.sorted {
		*all = slices.Delete(*all, t.Sub, t.Sub+1)
		t.Sub = slices.IndexFunc(*all, func(y T) bool { return *k.along(&y) > *k.along(&x) })
		if t.Sub < 0 {
			t.Sub = len(*all)
		}
		*all = slices.Insert(*all, t.Sub, x)
	}
	(*all)[t.Sub] = x
	return t, nil
}

func (k edgeList[T]) remove(s *Site, t Thing) error {
	all := k.of(s, t)
	*all = slices.Delete(*all, t.Sub, t.Sub+1)
	return nil
}

func (k edgeList[T]) copy(s *Site, t Thing, by geometry.Point) (Thing, error) {
	all := k.of(s, t)
	*all = append(*all, (*all)[t.Sub])
	t.Sub = len(*all) - 1
	return k.move(s, t, by)
}
