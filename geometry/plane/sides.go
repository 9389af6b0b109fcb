package plane

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Sides are the sides of a region with an index, for many questions about it. It
// answers from several goroutines at once and allocates nothing for an answer.
type Sides struct {
	ends  [][2]geometry.Point
	index *Index
}

// NewSides builds the index over the sides of a region, numbered through ring
// after ring.
func NewSides(g Region) *Sides {
	n := 0
	for _, r := range g {
		n += len(r)
	}
	s := &Sides{ends: make([][2]geometry.Point, 0, n)}
	boxes := make([]Box, 0, n)
	g.sides(func(a, b geometry.Point) {
		s.ends = append(s.ends, [2]geometry.Point{a, b})
		boxes = append(boxes, BoxOf(a, b))
	})
	s.index = NewIndex(boxes)
	return s
}

// Len gives how many sides there are.
func (s *Sides) Len() int { return len(s.ends) }

// Ends gives the ends of side i; the region lies left of the way from a to b.
func (s *Sides) Ends(i int) (a, b geometry.Point) { return s.ends[i][0], s.ends[i][1] }

// Near appends to dst the numbers of the sides whose box overlaps b, in ascending
// order.
func (s *Sides) Near(b Box, dst []int32) []int32 { return s.index.Near(b, dst) }

// Bounds gives the box of all sides, in nanometers.
func (s *Sides) Bounds() Box { return s.index.all }

// toTheRight calls visit for the sides that a ray from p to the right may meet.
func (s *Sides) toTheRight(p geometry.Point, visit func(a, b geometry.Point)) {
	if len(s.ends) <= fewBoxes {
		for i := range s.ends {
			visit(s.ends[i][0], s.ends[i][1])
		}
		return
	}
	var room [64]int32
	x, y := float64(p.X), float64(p.Y)
	for _, i := range s.index.Near(Box{x, y, s.index.all.MaxX, y}, room[:0]) {
		visit(s.ends[i][0], s.ends[i][1])
	}
}

// Locate tells how a point lies to the region. It is exact.
func (s *Sides) Locate(p geometry.Point) Where {
	t := counter{at: p}
	s.toTheRight(p, t.side)
	return t.where()
}

// Contains tells whether a point lies in the region or on its border. It is exact.
func (s *Sides) Contains(p geometry.Point) bool { return s.Locate(p) != Outside }

// Stretch is a part of a segment, measured from its start.
type Stretch struct{ From, To geometry.Length }

// On says how a line must lie on a region.
type On uint8

const (
	Touching On = iota // with the region on one side at least: its border counts
	Through            // with the region on both sides
)

// leastStretch is what only the rounding of its ends makes, in nanometers: a
// shorter stretch is none, and a shorter gap too.
const leastStretch = 2

// event is a place on a line where it may come onto the region or leave it.
type event struct {
	at          float64
	left, right int // by how much the winding grows on both sides
}

// Stretches appends to dst the stretches of the segment a-b that lie on the
// region, in order. Which sides the segment crosses, touches and runs along, and
// on which side of it the region is, is exact; where, is rounded to the nanometer.
func (s *Sides) Stretches(a, b geometry.Point, on On, dst []Stretch) []Stretch {
	box := BoxOf(a, b)
	if a == b || !box.Overlaps(s.index.all) {
		return dst
	}
	var room [64]int32
	var places [32]event
	near, events := room[:0], places[:0]
	d := b.Sub(a)
	long := math.Hypot(float64(d.X), float64(d.Y))
	if len(s.ends) > fewBoxes {
		near = s.index.Near(box, near)
	} else {
		for i := range s.ends {
			near = append(near, int32(i))
		}
	}
	for _, i := range near {
		if e, ok := meeting(a, b, d, long, s.ends[i][0], s.ends[i][1]); ok {
			events = append(events, e)
		}
	}
	left, right := newBeside(a, d, true), newBeside(a, d, false)
	s.toTheRight(a, func(p, q geometry.Point) {
		left.side(p, q)
		right.side(p, q)
	})
	slices.SortFunc(events, func(e, f event) int { return cmp.Compare(e.at, f.at) })
	l, r := left.winding, right.winding
	first, from := len(dst), geometry.Length(0)
	for k := 0; k <= len(events); k++ {
		to := geometry.Length(math.Round(long))
		if k < len(events) {
			to = min(to, geometry.Length(math.Round(events[k].at)))
		}
		if on == Touching && (l > 0 || r > 0) || l > 0 && r > 0 {
			switch n := len(dst); {
			case to <= from:
			case n > first && from-dst[n-1].To <= leastStretch:
				dst[n-1].To = to
			case to-from > leastStretch:
				dst = append(dst, Stretch{from, to})
			}
		}
		if k < len(events) {
			l, r, from = l+events[k].left, r+events[k].right, to
		}
	}
	return dst
}

// Clear appends to dst the stretches of the segment a-b that have the region on both
// sides half a width away, in order: those of a thing of that width that does not
// lie along the border. They end where the segment itself meets a side; a side or a
// corner within a nanometer of it does so too. half is at least some nanometers.
func (s *Sides) Clear(a, b geometry.Point, half geometry.Length, dst []Stretch) []Stretch {
	if a == b {
		return dst
	}
	var room [64]int32
	var places [64]float64
	d := b.Sub(a)
	long := math.Hypot(float64(d.X), float64(d.Y))
	u := Vec{float64(d.X) / long, float64(d.Y) / long}
	cuts := append(places[:0], 0, long)
	add := func(at float64) {
		if at > 0 && at < long {
			cuts = append(cuts, at)
		}
	}
	const slack = 4 // nm, for rounding
	for _, i := range s.index.Near(BoxOf(a, b).Grown(slack), room[:0]) {
		// Heights over the line, and distances along it.
		p, q := s.ends[i][0].Sub(a), s.ends[i][1].Sub(a)
		hp, hq := cross(d, p)/long, cross(d, q)/long
		if hp > 1 && hq > 1 || hp < -1 && hq < -1 {
			continue
		}
		lp, lq := u.Dot(Vec{float64(p.X), float64(p.Y)}), u.Dot(Vec{float64(q.X), float64(q.Y)})
		if math.Abs(hp-hq) < 2 {
			add(lp)
			add(lq)
			continue
		}
		add(lp + (lq-lp)*hp/(hp-hq))
	}
	slices.Sort(cuts)
	aside := u.Left().Times(float64(half))
	first := len(dst)
	for i := 1; i < len(cuts); i++ {
		from, to := geometry.Rounded(cuts[i-1]), geometry.Rounded(cuts[i])
		mid := u.Times((cuts[i-1] + cuts[i]) / 2)
		if to-from <= leastStretch || !s.Contains(moved(a, mid.Add(aside))) || !s.Contains(moved(a, mid.Sub(aside))) {
			continue
		}
		if n := len(dst); n > first && from-dst[n-1].To <= leastStretch {
			dst[n-1].To = to
			continue
		}
		dst = append(dst, Stretch{from, to})
	}
	return dst
}

// meeting gives how the winding beside the segment a-b changes where a side p-q
// crosses it, or begins or ends on it.
func meeting(a, b, d geometry.Point, long float64, p, q geometry.Point) (e event, ok bool) {
	op, oq := geometry.Orientation(a, b, p), geometry.Orientation(a, b, q)
	if op == oq {
		return e, false
	}
	// Over a side that goes from the line's left to its right one comes to that
	// side's own left, where the region is.
	by := 1
	if op < oq {
		by = -1
	}
	if op*oq < 0 {
		if geometry.Orientation(p, q, a)*geometry.Orientation(p, q, b) >= 0 {
			return e, false
		}
		return event{cross(p.Sub(a), q.Sub(p)) / cross(d, q.Sub(p)) * long, by, by}, true
	}
	// One end lies on the line: only on the other end's side is anything crossed.
	at, other := p, oq
	if oq == 0 {
		at, other = q, op
	}
	v := at.Sub(a)
	if !ahead(d, v) || !ahead(d, b.Sub(at)) {
		return e, false
	}
	e.at = (float64(v.X)*float64(d.X) + float64(v.Y)*float64(d.Y)) / long
	if other > 0 {
		e.left = by
	} else {
		e.right = by
	}
	return e, true
}

// ahead tells whether v has a part in the direction of d. It is exact.
func ahead(d, v geometry.Point) bool {
	return turn(d, geometry.Point{X: -v.Y, Y: v.X}) > 0
}
