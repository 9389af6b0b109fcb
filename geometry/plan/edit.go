package plan

import (
	"cmp"
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

// Foot gives the running distance from a of the point on the line a-b nearest
// to q; it may be negative or beyond b.
func Foot(a, b, q geometry.Point) geometry.Length {
	d, v := b.Sub(a), q.Sub(a)
	length := math.Hypot(float64(d.X), float64(d.Y))
	if length == 0 {
		return 0
	}
	return geometry.Rounded((float64(d.X)*float64(v.X) + float64(d.Y)*float64(v.Y)) / length)
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

// Side says which end of an edge moves when its length is changed.
type Side uint8

const (
	// End moves the edge's end corner, and the edge after it along with it.
	End Side = iota
	// Start moves the edge's start corner, and the edge before it along with it.
	Start
	// Both moves each end by half of the change.
	Both
)

// Resize gives edge i of a loop a new length. The neighbor at the end that
// moves goes along, parallel to itself, so that right angles stay right; what
// lies beyond it grows or shrinks.
func (p Plan) Resize(loop, i int, length geometry.Length, side Side) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	if length <= 0 {
		return p, errors.New("a length must be more than 0")
	}
	was := l.Length(i)
	if was == 0 {
		return p, errors.New("an edge of no length has no direction; move one of its corners")
	}
	by := length - was
	switch side {
	case Start:
		return p.slideEnd(loop, i, by, true)
	case Both:
		q, err := p.slideEnd(loop, i, by/2, false)
		if err != nil {
			return p, err
		}
		return q.slideEnd(loop, i, by-by/2, true)
	}
	return p.slideEnd(loop, i, by, false)
}

// slideEnd lengthens edge i at one end by the distance by.
func (p Plan) slideEnd(loop, i int, by geometry.Length, start bool) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	n := len(l)
	fixed, moved := i, (i+1)%n
	next, beyond := (i+2)%n, (i+3)%n
	if start {
		fixed, moved = (i+1)%n, i
		next, beyond = (i+n-1)%n, (i+2*n-2)%n
	}
	to := geometry.Along(l[fixed].At, l[moved].At, geometry.Distance(l[fixed].At, l[moved].At)+by)
	corners := map[int]geometry.Point{moved: to}
	if n > 3 && next != fixed {
		// The neighbor keeps its direction: its far corner slides along the
		// line of the edge beyond.
		corners[next] = slide(l[moved].At, l[next].At, l[beyond].At, to)
	}
	return p.moveCorners(loop, corners)
}

// slide gives the point on the line next-beyond from which the direction to the
// moved corner is the same as it was from next to from.
func slide(from, next, beyond, to geometry.Point) geometry.Point {
	d, v, shift := next.Sub(from), beyond.Sub(next), to.Sub(from)
	dx, dy := float64(d.X), float64(d.Y)
	vx, vy := float64(v.X), float64(v.Y)
	det := dx*vy - dy*vx
	if math.Abs(det) < 0.02*math.Hypot(dx, dy)*math.Hypot(vx, vy) || det == 0 {
		return next.Add(shift) // beyond is in line with the neighbor
	}
	// next + f·v must lie on the line through to with direction d.
	f := (dx*float64(shift.Y) - dy*float64(shift.X)) / det
	return next.Add(geometry.Point{X: geometry.Rounded(vx * f), Y: geometry.Rounded(vy * f)})
}

// Axis is a direction of the plan.
type Axis uint8

const (
	AcrossX Axis = iota // distances are measured along X
	AcrossY             // distances are measured along Y
)

// Stretch moves every corner and thing at or beyond the coordinate at, in the
// direction of growing coordinates along the axis, by the distance by.
func (p Plan) Stretch(axis Axis, at, by geometry.Length) Plan {
	return p.mapped(func(q geometry.Point) geometry.Point {
		switch {
		case axis == AcrossX && q.X >= at:
			q.X += by
		case axis == AcrossY && q.Y >= at:
			q.Y += by
		}
		return q
	})
}

// Translate moves the whole plan.
func (p Plan) Translate(by geometry.Point) Plan {
	return p.mapped(func(q geometry.Point) geometry.Point { return q.Add(by) })
}

// Rotate turns the whole plan about a point, counter-clockwise by degrees.
// Quarter turns are exact; other turns round each corner to the nanometer.
func (p Plan) Rotate(about geometry.Point, degrees float64) Plan {
	degrees = math.Mod(degrees, 360)
	if degrees < 0 {
		degrees += 360
	}
	q := p.mapped(func(q geometry.Point) geometry.Point { return about.Add(Turn(q.Sub(about), degrees)) })
	for i := range q.Pads {
		q.Pads[i].Turn = math.Mod(q.Pads[i].Turn+degrees, 360)
	}
	return q
}

// Turn turns a vector counter-clockwise by degrees; quarter turns are exact.
func Turn(v geometry.Point, degrees float64) geometry.Point {
	switch degrees = math.Mod(math.Mod(degrees, 360)+360, 360); degrees {
	case 0:
		return v
	case 90:
		return geometry.Point{X: -v.Y, Y: v.X}
	case 180:
		return geometry.Point{X: -v.X, Y: -v.Y}
	case 270:
		return geometry.Point{X: v.Y, Y: -v.X}
	}
	s, c := math.Sincos(degrees * math.Pi / 180)
	x, y := float64(v.X), float64(v.Y)
	return geometry.Point{X: geometry.Rounded(x*c - y*s), Y: geometry.Rounded(x*s + y*c)}
}

// Mirror reflects the whole plan: AcrossX swaps left and right about the
// coordinate at, AcrossY swaps up and down.
func (p Plan) Mirror(axis Axis, at geometry.Length) Plan {
	q := p.mapped(func(q geometry.Point) geometry.Point {
		if axis == AcrossX {
			q.X = 2*at - q.X
		} else {
			q.Y = 2*at - q.Y
		}
		return q
	})
	for i := range q.Pads {
		q.Pads[i].Turn = -q.Pads[i].Turn
	}
	q.Outline = q.Outline.Reversed()
	for i := range q.Holes {
		q.Holes[i].Loop = q.Holes[i].Loop.Reversed()
	}
	return q
}

// mapped applies f to every point of the plan. Doors keep their distance from
// the corner that f leaves in place, if there is one.
func (p Plan) mapped(f func(geometry.Point) geometry.Point) Plan {
	q := p.Clone()
	for k := range 1 + len(q.Holes) {
		l, _ := q.loopAt(k)
		old := l.Corners()
		for i := range *l {
			(*l)[i].At = f(old[i])
		}
		for i := range *l {
			j := (i + 1) % len(*l)
			if old[i] != (*l)[i].At && old[j] == (*l)[j].At {
				by := l.Length(i) - geometry.Distance(old[i], old[j])
				(*l)[i].shift(by)
			}
		}
	}
	for i := range q.Pads {
		q.Pads[i].Center = f(q.Pads[i].Center)
	}
	for i := range q.Strips {
		for k := range q.Strips[i].Path {
			q.Strips[i].Path[k] = f(q.Strips[i].Path[k])
		}
	}
	for i := range q.Top.Falls {
		q.Top.Falls[i].From, q.Top.Falls[i].To = f(q.Top.Falls[i].From), f(q.Top.Falls[i].To)
	}
	return q
}

// Like makes edges of a new loop: one per corner of the ring, each with the
// section and wall of the edge e.
func Like(ring geometry.Ring, e Edge) Loop {
	l := make(Loop, len(ring))
	for i, at := range ring {
		l[i] = Edge{At: at, Section: e.Section, Wall: e.Wall}
	}
	return l
}

// WithOutline gives the plan a new outline, run counter-clockwise whichever way
// the ring runs.
func (p Plan) WithOutline(l Loop) Plan {
	p = p.Clone()
	p.Outline = l.clone()
	if !l.Corners().CounterClockwise() {
		p.Outline = l.Reversed()
	}
	return p
}

// AddHole cuts a hole, run clockwise whichever way the loop runs.
func (p Plan) AddHole(name string, l Loop) Plan {
	p = p.Clone()
	if l.Corners().CounterClockwise() {
		l = l.Reversed()
	}
	p.Holes = append(p.Holes, Hole{Name: name, Loop: l.clone()})
	return p
}

// RemoveHole fills hole i.
func (p Plan) RemoveHole(i int) (Plan, error) {
	if i < 0 || i >= len(p.Holes) {
		return p, noSuch("hole", i, len(p.Holes))
	}
	p = p.Clone()
	p.Holes = slices.Delete(p.Holes, i, i+1)
	return p, nil
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

// SetSection gives edge i of a loop the section called name, "" for none.
func (p Plan) SetSection(loop, i int, name string) (Plan, error) {
	return p.SetEdge(loop, i, func(e *Edge) { e.Section = name })
}

// SetAllSections gives every edge of the outline that is no joint the section
// called name.
func (p Plan) SetAllSections(name string) Plan {
	p = p.Clone()
	for i := range p.Outline {
		if !p.Outline[i].Joint {
			p.Outline[i].Section = name
		}
	}
	return p
}

// PutSection puts a section into the plan's library in place of the one called
// old, or as a new one where there is none. Edges and doors follow a new name.
func (p Plan) PutSection(old string, s Section) (Plan, error) {
	if s.Name == "" {
		return p, errors.New("give the section a name")
	}
	if s.Name != old {
		if _, taken := p.SectionNamed(s.Name); taken {
			return p, fmt.Errorf("there is a section %q already; choose another name", s.Name)
		}
	}
	p = p.Clone()
	i := slices.IndexFunc(p.Sections, func(t Section) bool { return t.Name == old })
	if i < 0 {
		p.Sections = append(p.Sections, s)
		return p, nil
	}
	p.Sections[i] = s
	p.eachSectionName(func(name *string) {
		if *name == old {
			*name = s.Name
		}
	})
	return p, nil
}

// RemoveSection takes the section called name out of the library. It is refused
// while an edge or a door uses it.
func (p Plan) RemoveSection(name string) (Plan, error) {
	used := 0
	q := p.Clone()
	q.eachSectionName(func(n *string) {
		if *n == name {
			used++
		}
	})
	if used > 0 {
		return p, fmt.Errorf("section %q is in use in %d places; give those edges and doors another first", name, used)
	}
	i := slices.IndexFunc(q.Sections, func(t Section) bool { return t.Name == name })
	if i < 0 {
		return p, fmt.Errorf("there is no section %q", name)
	}
	q.Sections = slices.Delete(q.Sections, i, i+1)
	return q, nil
}

func (p *Plan) eachSectionName(visit func(*string)) {
	for k := range 1 + len(p.Holes) {
		l, _ := p.loopAt(k)
		for i := range *l {
			visit(&(*l)[i].Section)
			for d := range (*l)[i].Doors {
				visit(&(*l)[i].Doors[d].Section)
			}
		}
	}
}

// SetBolts gives edge i of a loop the builder's bolt marks, in order along it.
func (p Plan) SetBolts(loop, i int, marks []BoltMark) (Plan, error) {
	if _, err := p.edge(loop, i); err != nil {
		return p, err
	}
	p = p.Clone()
	l, _ := p.loopAt(loop)
	marks = slices.Clone(marks)
	slices.SortStableFunc(marks, func(a, b BoltMark) int { return cmp.Compare(a.Along, b.Along) })
	(*l)[i].Bolts = marks
	return p, nil
}

// AddDoor puts a door on edge i of a loop, after those that are there.
func (p Plan) AddDoor(loop, i int, d Door) (Plan, error) {
	if _, err := p.edge(loop, i); err != nil {
		return p, err
	}
	p = p.Clone()
	l, _ := p.loopAt(loop)
	(*l)[i].Doors = append((*l)[i].Doors, d)
	return p, nil
}

// SetDoor replaces door k of edge i of a loop.
func (p Plan) SetDoor(loop, i, k int, d Door) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	if k < 0 || k >= len(l[i].Doors) {
		return p, noSuch("door", k, len(l[i].Doors))
	}
	p = p.Clone()
	r, _ := p.loopAt(loop)
	(*r)[i].Doors[k] = d
	return p, nil
}

// RemoveDoor takes door k off edge i of a loop.
func (p Plan) RemoveDoor(loop, i, k int) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	if k < 0 || k >= len(l[i].Doors) {
		return p, noSuch("door", k, len(l[i].Doors))
	}
	p = p.Clone()
	r, _ := p.loopAt(loop)
	(*r)[i].Doors = slices.Delete((*r)[i].Doors, k, k+1)
	return p, nil
}

// loopAt gives the loop numbered k for changing in place.
func (p *Plan) loopAt(k int) (*Loop, error) {
	switch {
	case k == 0:
		return &p.Outline, nil
	case k > 0 && k <= len(p.Holes):
		return &p.Holes[k-1].Loop, nil
	}
	return nil, noSuch("loop", k, 1+len(p.Holes))
}

// edge gives the loop numbered k if it has an edge i.
func (p Plan) edge(k, i int) (Loop, error) {
	l, err := p.loopAt(k)
	if err != nil {
		return nil, err
	}
	if i < 0 || i >= len(*l) {
		return nil, noSuch("edge", i, len(*l))
	}
	return *l, nil
}

func noSuch(what string, i, n int) error {
	return fmt.Errorf("there is no %s %d; there are %d, counted from 0", what, i, n)
}
