package plane

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Region is a part of the plane: rings counter-clockwise round it and clockwise
// round its holes, so that it lies left of every side. More than one ring runs
// round it where it has several parts. A place belongs to it where the rings wind
// round it at least once; a region that overlaps itself counts once.
type Region []geometry.Ring

// Where tells how a point lies to a region.
type Where uint8

const (
	Outside Where = iota
	Border
	Inside
)

// Area gives the area in square meters.
func (g Region) Area() float64 {
	sum := 0.0
	for _, r := range g {
		sum += r.Area()
	}
	return sum
}

// Bounds gives the least box that holds every corner; zero for none.
func (g Region) Bounds() (lo, hi geometry.Point) {
	first := true
	for _, r := range g {
		if len(r) == 0 {
			continue
		}
		l, h := r.Bounds()
		if first {
			lo, hi, first = l, h, false
			continue
		}
		lo = geometry.Point{X: min(lo.X, l.X), Y: min(lo.Y, l.Y)}
		hi = geometry.Point{X: max(hi.X, h.X), Y: max(hi.Y, h.Y)}
	}
	return lo, hi
}

// sides calls visit with the ends of every side.
func (g Region) sides(visit func(a, b geometry.Point)) {
	for _, r := range g {
		for i, a := range r {
			visit(a, r[(i+1)%len(r)])
		}
	}
}

// Locate tells how a point lies to the region. It is exact. Many questions about
// one region are for Sides.
func (g Region) Locate(p geometry.Point) Where {
	t := counter{at: p}
	for _, r := range g {
		for i, a := range r {
			t.side(a, r[(i+1)%len(r)])
		}
	}
	return t.where()
}

// Contains tells whether a point lies in the region or on its border.
func (g Region) Contains(p geometry.Point) bool { return g.Locate(p) != Outside }

// In tells whether a point lies in a ring, whichever way it runs, or on it. It is
// exact.
func In(r geometry.Ring, p geometry.Point) bool {
	t := counter{at: p}
	for i, a := range r {
		t.side(a, r[(i+1)%len(r)])
	}
	return t.on || t.winding != 0
}

// counter counts how often sides wind round a point.
type counter struct {
	at      geometry.Point
	winding int
	on      bool
}

// side counts a side that crosses the ray from the point to the right.
func (t *counter) side(a, b geometry.Point) {
	p := t.at
	if a.Y > p.Y && b.Y > p.Y || a.Y < p.Y && b.Y < p.Y || a.X < p.X && b.X < p.X {
		return
	}
	up, down := a.Y <= p.Y && b.Y > p.Y, b.Y <= p.Y && a.Y > p.Y
	if a.X > p.X && b.X > p.X {
		if up {
			t.winding++
		} else if down {
			t.winding--
		}
		return
	}
	o := geometry.Orientation(a, b, p)
	switch {
	case o == 0:
		t.on = t.on || min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X)
	case up && o > 0:
		t.winding++
	case down && o < 0:
		t.winding--
	}
}

func (t *counter) where() Where {
	switch {
	case t.on:
		return Border
	case t.winding > 0:
		return Inside
	}
	return Outside
}

// Parts gives the connected parts, each with its holes, for a region whose rings
// do not cross: as those that this package gives. Parts that touch in a point are
// apart.
func (g Region) Parts() []Region {
	var out []Region
	for _, r := range g {
		if r.CounterClockwise() {
			out = append(out, Region{r})
		}
	}
	for _, r := range g {
		if r.CounterClockwise() || len(r) < 2 {
			continue
		}
		// Of the rings round a place beside the hole, the smallest is its own.
		best, least := -1, math.Inf(1)
		for i := range out {
			if a := out[i][0].Area(); a < least && beside(out[i][:1], r[0], r[1].Sub(r[0]), true) {
				best, least = i, a
			}
		}
		if best >= 0 {
			out[best] = append(out[best], r)
		}
	}
	return out
}

// beside tells whether the region holds the places next to a point: in the
// direction d from it, and of those the ones to the left or to the right. It is
// exact: the point is moved by less than any distance along d, and by less than
// that aside.
func beside(g Region, p, d geometry.Point, left bool) bool {
	t := newBeside(p, d, left)
	g.sides(t.side)
	return t.winding > 0
}

// besider is a counter for a place next to a point.
type besider struct {
	at, d, n geometry.Point
	level    int // the sign of the place's height over the point
	winding  int
}

func newBeside(p, d geometry.Point, left bool) besider {
	n := geometry.Point{X: d.Y, Y: -d.X}
	if left {
		n = geometry.Point{X: -d.Y, Y: d.X}
	}
	level := cmp.Compare(d.Y, 0)
	if level == 0 {
		level = cmp.Compare(n.Y, 0)
	}
	return besider{at: p, d: d, n: n, level: level}
}

// side counts a side that crosses the ray from the place to the right.
func (t *besider) side(a, b geometry.Point) {
	below := func(q geometry.Point) bool { return q.Y < t.at.Y || q.Y == t.at.Y && t.level > 0 }
	up := below(a)
	if up == below(b) {
		return
	}
	o := geometry.Orientation(a, b, t.at)
	for _, v := range [...]geometry.Point{t.d, t.n} {
		if o != 0 {
			break
		}
		o = turn(b.Sub(a), v)
	}
	switch {
	case up && o > 0:
		t.winding++
	case !up && o < 0:
		t.winding--
	}
}

// turn gives the way that v turns from u: 1 left, -1 right, 0 neither. It is exact.
func turn(u, v geometry.Point) int { return geometry.Orientation(geometry.Point{}, u, v) }

// Distance gives how far p lies from the region, rounded to the nanometer; 0
// within.
func (g Region) Distance(p geometry.Point) geometry.Length {
	if g.Contains(p) {
		return 0
	}
	least := math.Inf(1)
	g.sides(func(a, b geometry.Point) { least = min(least, toSegment(a, b, p)) })
	if math.IsInf(least, 1) {
		return geometry.MaxLength * 10
	}
	return geometry.Length(math.Round(least))
}

// toSegment gives the distance from p to the segment a-b, in nanometers.
func toSegment(a, b, p geometry.Point) float64 {
	d, v := b.Sub(a), p.Sub(a)
	dx, dy, vx, vy := float64(d.X), float64(d.Y), float64(v.X), float64(v.Y)
	t := 0.0
	if l2 := dx*dx + dy*dy; l2 > 0 {
		t = min(max((vx*dx+vy*dy)/l2, 0), 1)
	}
	return math.Hypot(vx-t*dx, vy-t*dy)
}

// Middle gives a place well inside the largest part, as for its name; false for
// an empty region.
func (g Region) Middle() (geometry.Point, bool) {
	lo, _ := g.Bounds()
	a, b, ok := g.Widest(NewFrame(lo, 0))
	return geometry.Point{X: a.X + (b.X-a.X)/2, Y: a.Y + (b.Y-a.Y)/2}, ok
}

// Widest gives the ends of a stretch of the largest part along a frame's X axis:
// the one in its middle, unless another is much wider; false for an empty region.
func (g Region) Widest(f Frame) (a, b geometry.Point, ok bool) {
	var part Region
	for _, p := range g.Parts() {
		if part == nil || p.Area() > part.Area() {
			part = p
		}
	}
	if part == nil {
		return a, b, false
	}
	sides, box := NewSides(part), f.Bounds(part)
	widest := 0.0
	look := func(y float64) {
		p, q := f.Out(Vec{box.MinX - 1, y}), f.Out(Vec{box.MaxX + 1, y})
		for _, s := range sides.Stretches(p, q, Through, nil) {
			if w := float64(s.To - s.From); w > 1.3*widest {
				widest, a, b = w, geometry.Along(p, q, s.From), geometry.Along(p, q, s.To)
			}
		}
	}
	for _, share := range [...]float64{0.5, 0.3, 0.7} {
		look(box.MinY + share*(box.MaxY-box.MinY))
	}
	if widest == 0 { // there are but spikes: between any two corners, then
		var heights []float64
		for _, p := range part[0] {
			heights = append(heights, f.In(p).Y)
		}
		slices.Sort(heights)
		for i := 1; i < len(heights); i++ {
			look((heights[i-1] + heights[i]) / 2)
		}
	}
	return a, b, widest > 0
}

// sorted puts the rings in order of their lowest leftmost corner, and each ring
// to start there.
func (g Region) sorted() Region {
	for i, r := range g {
		k := 0
		for j, p := range r {
			if compare(p, r[k]) < 0 {
				k = j
			}
		}
		if k > 0 {
			g[i] = append(append(make(geometry.Ring, 0, len(r)), r[k:]...), r[:k]...)
		}
	}
	slices.SortStableFunc(g, func(a, b geometry.Ring) int { return compare(a[0], b[0]) })
	return g
}

// compare orders points by X and then by Y.
func compare(p, q geometry.Point) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) }
