package plan

import (
	"cmp"
	"errors"
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

// MoveCorner puts corner i of a loop at the point to.
func (p Plan) MoveCorner(loop, i int, to geometry.Point) (Plan, error) {
	return p.moveCorners(loop, map[int]geometry.Point{i: to})
}

// moveCorners puts several corners of one loop at new points.
func (p Plan) moveCorners(loop int, to map[int]geometry.Point) (Plan, error) {
	was, err := p.loopAt(loop)
	if err != nil {
		return p, err
	}
	q := p.Clone()
	l, _ := q.loopAt(loop)
	for i, at := range to {
		if i < 0 || i >= len(*l) {
			return p, noSuch("corner", i, len(*l))
		}
		(*l)[i].At = at
	}
	l.keep(*was)
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

// edit changes a copy of a loop that has an edge i.
func (p Plan) edit(loop, i int, change func(l *Loop) error) (Plan, error) {
	if _, err := p.edge(loop, i); err != nil {
		return p, err
	}
	q := p.Clone()
	l, _ := q.loopAt(loop)
	if err := change(l); err != nil {
		return p, err
	}
	return q, nil
}

// SplitEdge puts a new corner on edge i of a loop at the distance along from its
// start. Both halves keep the edge's section, joint and wall.
func (p Plan) SplitEdge(loop, i int, along geometry.Length) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		if (*l)[i].Middle != 0 {
			return errors.New("an arc is not split: straighten it first, with a middle ordinate of 0, or round a corner beside it")
		}
		if along <= 0 || along >= l.Length(i) {
			return errors.New("a new corner must lie between the two that are there")
		}
		e := (*l)[i]
		a, b := l.Ends(i)
		first, half := e, e
		half.At = geometry.Along(a, b, along)
		half.Datum = false
		first.Doors, first.Bolts, half.Doors, half.Bolts = nil, nil, nil, nil
		first.OldCuts, half.OldCuts = nil, nil
		for _, d := range e.Doors {
			switch {
			case d.From+d.Width <= along:
				first.Doors = append(first.Doors, d)
			case d.From >= along:
				d.From -= along
				half.Doors = append(half.Doors, d)
			default:
				return errors.New("a door is in the way; split beside it")
			}
		}
		for _, m := range e.Bolts {
			if m.Along < along {
				first.Bolts = append(first.Bolts, m)
				continue
			}
			m.Along -= along
			half.Bolts = append(half.Bolts, m)
		}
		for _, old := range e.OldCuts {
			if old < along {
				first.OldCuts = append(first.OldCuts, old)
				continue
			}
			half.OldCuts = append(half.OldCuts, old-along)
		}
		(*l)[i] = first
		*l = slices.Insert(*l, i+1, half)
		return nil
	})
}

// RemoveCorner joins the two edges that meet in corner i of a loop into one,
// which takes the section, joint and wall of the first and is straight. Doors and bolts stay
// where they are on the plan, as near as the new edge allows.
func (p Plan) RemoveCorner(loop, i int) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		n := len(*l)
		if n <= 3 {
			return errors.New("a slab needs at least three corners")
		}
		first := (i + n - 1) % n
		a, b := (*l)[first].At, (*l)[(i+1)%n].At
		var doors []Door
		var bolts []BoltMark
		var old []geometry.Length
		for _, e := range []int{first, i} {
			s, t := l.Ends(e)
			stay := func(along *geometry.Length) {
				if a != b && s != t {
					*along = max(0, Foot(a, b, geometry.Along(s, t, *along)))
				}
			}
			for _, d := range (*l)[e].Doors {
				stay(&d.From)
				doors = append(doors, d)
			}
			for _, m := range (*l)[e].Bolts {
				stay(&m.Along)
				bolts = append(bolts, m)
			}
			for _, cut := range (*l)[e].OldCuts {
				stay(&cut)
				old = append(old, cut)
			}
		}
		(*l)[first].Doors, (*l)[first].Bolts, (*l)[first].OldCuts = doors, bolts, old
		(*l)[first].Middle = 0
		*l = slices.Delete(*l, i, i+1)
		return nil
	})
}

// SetEdge changes edge i of a loop by the given function; its corner stays, and its
// bolts are put in order along it.
func (p Plan) SetEdge(loop, i int, change func(*Edge)) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		e := &(*l)[i]
		at := e.At
		change(e)
		e.At = at
		slices.SortStableFunc(e.Bolts, func(a, b BoltMark) int { return cmp.Compare(a.Along, b.Along) })
		slices.Sort(e.OldCuts)
		return nil
	})
}
