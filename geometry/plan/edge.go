package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Edits are functions from a plan to a new plan. An edit refuses only what has
// no meaning (an edge that is not there, a length of zero), with the reason as
// its error; a result that is unsound, such as an outline that crosses itself,
// is returned all the same, so that Validate can place its faults while the
// user is on the way from one sound plan to the next.
//
// Loops are numbered as Loops gives them: 0 is the outline, k+1 is Holes[k].
//
// When a corner moves, a door or a bolt mark keeps its distance from the corner
// of its edge that stays.

// KindCorner and KindEdge are the kinds of corners and edges of all loops.
const (
	KindCorner Kind = "corner"
	KindEdge   Kind = "edge"
)

func init() {
	register(KindCorner, 10, 1, corners{})
	register(KindEdge, 31, 2, edges{})
}

// ofEdges is the part of a kind that each edge has.
type ofEdges interface{ ofEdges() }

// perEdge is the part that corners and edges share.
type perEdge struct{ still }

func (perEdge) ofEdges() {}

func (perEdge) has(s *Site, t Thing) bool {
	_, err := s.Plan.edge(t.Loop, t.Index)
	return err == nil
}

func (perEdge) copy(*Site, Thing, geometry.Point) (Thing, error) {
	return Thing{}, errors.New("a corner or an edge is a part of its outline; copy the slab or the hole")
}

// eachEdge calls visit with every edge of every loop.
func eachEdge(s *Site, visit func(loop, edge int, e *Edge)) {
	for k := range 1 + len(s.Plan.Holes) {
		l, _ := s.Plan.loopAt(k)
		for i := range *l {
			visit(k, i, &(*l)[i])
		}
	}
}

// inLoop names what is on a loop.
func inLoop(what string, loop, i int) string {
	if loop > 0 {
		return fmt.Sprintf("%s %d of hole %d", what, i+1, loop)
	}
	return fmt.Sprintf("%s %d", what, i+1)
}

type corners struct{ perEdge }

func (corners) each(s *Site, visit func(Thing)) {
	eachEdge(s, func(k, i int, _ *Edge) { visit(Thing{Kind: KindCorner, Loop: k, Index: i}) })
}

func (corners) name(_ *Site, t Thing) string { return inLoop("corner", t.Loop, t.Index) }

func (corners) outline(s *Site, t Thing) Outline {
	l, _ := s.Plan.loopAt(t.Loop)
	at := (*l)[t.Index].At
	return Outline{At: at, Grips: []Grip{{At: at}}}
}

func (c corners) move(s *Site, t Thing, by geometry.Point) (_ Thing, err error) {
	s.Plan, err = s.Plan.MoveCorner(t.Loop, t.Index, c.outline(s, t).At.Add(by))
	return t, err
}

func (corners) remove(s *Site, t Thing) (err error) {
	s.Plan, err = s.Plan.RemoveCorner(t.Loop, t.Index)
	return err
}

type edges struct{ perEdge }

func (edges) each(s *Site, visit func(Thing)) {
	eachEdge(s, func(k, i int, _ *Edge) { visit(Thing{Kind: KindEdge, Loop: k, Index: i}) })
}

func (edges) name(_ *Site, t Thing) string { return inLoop("edge", t.Loop, t.Index) }

func (edges) outline(s *Site, t Thing) Outline {
	l, _ := s.Plan.loopAt(t.Loop)
	a, b := l.Ends(t.Index)
	return Outline{At: a, Lines: [][2]geometry.Point{{a, b}}}
}

func (edges) move(s *Site, t Thing, by geometry.Point) (_ Thing, err error) {
	l, _ := s.Plan.loopAt(t.Loop)
	a, b := l.Ends(t.Index)
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
	kind   Kind
	noun   string
	in     func(*Edge) *[]T
	called func(T) string
	along  func(*T) *geometry.Length // from the edge's start corner
	sorted bool                      // they stand in order along the edge
	lies   func(l Loop, i int, x T) Outline
}

func (k edgeList[T]) of(s *Site, t Thing) (Loop, *[]T) {
	l, _ := s.Plan.loopAt(t.Loop)
	return *l, k.in(&(*l)[t.Index])
}

func (k edgeList[T]) each(s *Site, visit func(Thing)) {
	eachEdge(s, func(loop, i int, e *Edge) {
		for sub := range *k.in(e) {
			visit(Thing{Kind: k.kind, Loop: loop, Index: i, Sub: sub})
		}
	})
}

func (k edgeList[T]) has(s *Site, t Thing) bool {
	if !k.perEdge.has(s, t) {
		return false
	}
	_, all := k.of(s, t)
	return t.Sub >= 0 && t.Sub < len(*all)
}

func (k edgeList[T]) name(s *Site, t Thing) string {
	_, all := k.of(s, t)
	if k.called != nil {
		if own := k.called((*all)[t.Sub]); own != "" {
			return k.noun + " " + own
		}
	}
	return fmt.Sprintf("%s %d of %s", k.noun, t.Sub+1, inLoop("edge", t.Loop, t.Index))
}

func (k edgeList[T]) outline(s *Site, t Thing) Outline {
	l, all := k.of(s, t)
	out := k.lies(l, t.Index, (*all)[t.Sub])
	if len(out.Lines) > 0 {
		out.At = out.Lines[0][0]
	}
	return out
}

func (k edgeList[T]) move(s *Site, t Thing, by geometry.Point) (Thing, error) {
	l, all := k.of(s, t)
	a, b := l.Ends(t.Index)
	x := (*all)[t.Sub]
	*k.along(&x) += Foot(a, b, a.Add(by))
	if k.sorted {
		*all = slices.Delete(*all, t.Sub, t.Sub+1)
		t.Sub = 0
		for t.Sub < len(*all) && *k.along(&(*all)[t.Sub]) <= *k.along(&x) {
			t.Sub++
		}
		*all = slices.Insert(*all, t.Sub, x)
		return t, nil
	}
	(*all)[t.Sub] = x
	return t, nil
}

func (k edgeList[T]) remove(s *Site, t Thing) error {
	_, all := k.of(s, t)
	*all = slices.Delete(*all, t.Sub, t.Sub+1)
	return nil
}

func (k edgeList[T]) copy(s *Site, t Thing, by geometry.Point) (Thing, error) {
	_, all := k.of(s, t)
	*all = append(*all, (*all)[t.Sub])
	t.Sub = len(*all) - 1
	return k.move(s, t, by)
}

// MoveCorner puts corner i of a loop at the point to.
func (p Plan) MoveCorner(loop, i int, to geometry.Point) (Plan, error) {
	return p.moveCorners(loop, map[int]geometry.Point{i: to})
}

// moveCorners puts several corners of one loop at new points.
func (p Plan) moveCorners(loop int, to map[int]geometry.Point) (Plan, error) {
	q := p.Clone()
	l, err := q.loopAt(loop)
	if err != nil {
		return p, err
	}
	n := len(*l)
	old := l.Corners()
	for i, at := range to {
		if i < 0 || i >= n {
			return p, noSuch("corner", i, n)
		}
		(*l)[i].At = at
	}
	for i := range *l {
		_, start := to[i]
		_, end := to[(i+1)%n]
		if start && !end {
			by := l.Length(i) - geometry.Distance(old[i], old[(i+1)%n])
			(*l)[i].shift(by)
		}
	}
	return q, nil
}

// MoveEdge pushes edge i of a loop sideways by the distance by, positive away
// from the slab. It stays parallel to itself, and its two neighbors grow or
// shrink along their own lines; a neighbor in line with it is sheared instead.
func (p Plan) MoveEdge(loop, i int, by geometry.Length) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	n := len(l)
	a, b := l.Ends(i)
	if a == b {
		return p, errors.New("an edge of no length has no side to move to")
	}
	before, after := l[(i+n-1)%n].At, l[(i+2)%n].At
	return p.moveCorners(loop, map[int]geometry.Point{
		i:           push(a, b, a, before, by),
		(i + 1) % n: push(a, b, b, after, by),
	})
}

// push gives where the line from-to, moved right by the distance by, meets the
// line through its own point at and a neighbor's far corner.
func push(from, to, at, far geometry.Point, by geometry.Length) geometry.Point {
	d, v := to.Sub(from), far.Sub(at)
	length := math.Hypot(float64(d.X), float64(d.Y))
	nx, ny := float64(d.Y)/length, -float64(d.X)/length // right of the edge
	vl := math.Hypot(float64(v.X), float64(v.Y))
	cos := 0.0
	if vl > 0 {
		cos = (nx*float64(v.X) + ny*float64(v.Y)) / vl
	}
	if math.Abs(cos) < 0.02 { // in line, or nearly: no useful crossing
		return at.Add(geometry.Point{X: geometry.Rounded(nx * float64(by)), Y: geometry.Rounded(ny * float64(by))})
	}
	f := float64(by) / cos / vl
	return at.Add(geometry.Point{X: geometry.Rounded(float64(v.X) * f), Y: geometry.Rounded(float64(v.Y) * f)})
}

// SplitEdge puts a new corner on edge i of a loop at the distance along from its
// start. Both halves keep the edge's section, joint and wall.
func (p Plan) SplitEdge(loop, i int, along geometry.Length) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	if along <= 0 || along >= l.Length(i) {
		return p, errors.New("a new corner must lie between the two that are there")
	}
	q := p.Clone()
	r, _ := q.loopAt(loop)
	e := (*r)[i]
	half := e
	half.At = geometry.Along(e.At, (*r)[(i+1)%len(*r)].At, along)
	e.Doors, half.Doors = nil, nil
	for _, d := range (*r)[i].Doors {
		switch {
		case d.From+d.Width <= along:
			e.Doors = append(e.Doors, d)
		case d.From >= along:
			d.From -= along
			half.Doors = append(half.Doors, d)
		default:
			return p, errors.New("a door is in the way; split beside it")
		}
	}
	e.Bolts, half.Bolts = nil, nil
	for _, m := range (*r)[i].Bolts {
		if m.Along < along {
			e.Bolts = append(e.Bolts, m)
			continue
		}
		m.Along -= along
		half.Bolts = append(half.Bolts, m)
	}
	(*r)[i] = e
	*r = slices.Insert(*r, i+1, half)
	return q, nil
}

// InsertCorner splits edge i of a loop in two that meet at the point at, which
// need not lie on it. Doors go to the half they are nearer to.
func (p Plan) InsertCorner(loop, i int, at geometry.Point) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	a, b := l.Ends(i)
	if a == b || at == a || at == b {
		return p, errors.New("a new corner must lie apart from the two that are there")
	}
	along := min(max(Foot(a, b, at), 1), l.Length(i)-1)
	q, err := p.SplitEdge(loop, i, along)
	if err != nil {
		return p, err
	}
	return q.MoveCorner(loop, i+1, at)
}

// RemoveCorner joins the two edges that meet in corner i of a loop into one,
// which takes the section, joint and wall of the first. Doors and bolts stay
// where they are on the plan, as near as the new edge allows.
func (p Plan) RemoveCorner(loop, i int) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	n := len(l)
	if n <= 3 {
		return p, errors.New("a slab needs at least three corners")
	}
	q := p.Clone()
	r, _ := q.loopAt(loop)
	first := (i + n - 1) % n
	a, b := (*r)[first].At, (*r)[(i+1)%n].At
	var doors []Door
	var bolts []BoltMark
	for _, e := range []int{first, i} {
		s, t := l.Ends(e)
		for _, d := range (*r)[e].Doors {
			if a != b && s != t {
				d.From = max(0, Foot(a, b, geometry.Along(s, t, d.From)))
			}
			doors = append(doors, d)
		}
		for _, m := range (*r)[e].Bolts {
			if a != b && s != t {
				m.Along = max(0, Foot(a, b, geometry.Along(s, t, m.Along)))
			}
			bolts = append(bolts, m)
		}
	}
	(*r)[first].Doors, (*r)[first].Bolts = doors, bolts
	*r = slices.Delete(*r, i, i+1)
	return q, nil
}

// SetEdge changes the section, joint and wall of edge i of a loop by the given
// function; its corner, doors and bolts stay.
func (p Plan) SetEdge(loop, i int, change func(*Edge)) (Plan, error) {
	if _, err := p.edge(loop, i); err != nil {
		return p, err
	}
	q := p.Clone()
	l, _ := q.loopAt(loop)
	e := (*l)[i]
	change(&e)
	e.At, e.Doors, e.Bolts = (*l)[i].At, (*l)[i].Doors, (*l)[i].Bolts
	(*l)[i] = e
	return q, nil
}
