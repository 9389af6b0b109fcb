package plane

import (
	"slices"
	"sync"

	"haunchbook.example/geometry"
)

// Intersect gives what lies in both regions.
func Intersect(g, h Region) Region {
	glo, ghi := g.Bounds()
	hlo, hhi := h.Bounds()
	if ghi.X <= hlo.X || hhi.X <= glo.X || ghi.Y <= hlo.Y || hhi.Y <= glo.Y {
		return nil
	}
	return overlay(g, h, func(g, h bool) bool { return g && h }, nil)
}

// Subtract gives what lies in g and not in h.
func Subtract(g, h Region) Region { return SubtractUntil(nil, g, h) }

// SubtractUntil is Subtract until over tells that nobody wants it any more: then it gives
// nothing.
func SubtractUntil(over func() bool, g, h Region) Region {
	return overlay(g, h, func(g, h bool) bool { return g && !h }, over)
}

// Union gives what lies in any of the regions, as rings that do not cross: of one
// region, whatever it is, the same region so.
func Union(gs ...Region) Region {
	var all Region
	for _, g := range gs {
		all = append(all, g...)
	}
	return overlay(all, nil, func(g, _ bool) bool { return g }, nil)
}

// Left gives the part of the region to the left of the line through a and b, which
// must differ. What is left of it and what is right (with a and b changed) have
// the same corners along the line, so that they cover the region once.
func (g Region) Left(a, b geometry.Point) Region { return Intersect(g, g.Half(a, b)) }

// Half gives a rectangle left of the line through a and b, which must differ, that holds
// all of the region there. Its corners lie on the line exactly: whole multiples of the way
// from a to b, and of it turned.
func (g Region) Half(a, b geometry.Point) Region {
	lo, hi := g.Bounds()
	d := b.Sub(a)
	reach := max((lo.X-a.X).Abs(), (hi.X-a.X).Abs()) + max((lo.Y-a.Y).Abs(), (hi.Y-a.Y).Abs())
	k := reach/max(d.X.Abs(), d.Y.Abs()) + 2
	far := geometry.Point{X: k * d.X, Y: k * d.Y}
	up := geometry.Point{X: -far.Y, Y: far.X}
	p, q := a.Sub(far), a.Add(far)
	return Region{{p, q, q.Add(up), p.Add(up)}}
}

// Without gives the region less what is thinner than a width, as only rounding
// makes it: spikes, and rings with no more area than a band of the width along half
// of the ring.
func (g Region) Without(width geometry.Length) Region {
	kept := make(Region, 0, len(g))
	for _, r := range g {
		r = blunt(r, float64(width))
		a := r.Area()
		if max(a, -a) >= width.Meters()*r.Perimeter().Meters()/2 && len(r) > 2 {
			kept = append(kept, r)
		}
	}
	return kept
}

// blunt takes corners off a ring at which it runs back over itself, nearer than a
// width. It gives the same ring where there is none.
func blunt(r geometry.Ring, width float64) geometry.Ring {
	cut := r
	for i := 0; i < len(cut) && len(cut) > 2; {
		n := len(cut)
		a, p, b := cut[(i+n-1)%n], cut[i], cut[(i+1)%n]
		if u, v := p.Sub(a), b.Sub(p); ahead(u, v) || min(toSegment(p, b, a), toSegment(a, p, b)) >= width {
			i++
			continue
		}
		cut = append(append(make(geometry.Ring, 0, n-1), cut[:i]...), cut[i+1:]...)
		i = max(0, i-1)
	}
	return cut
}

var arrangements = sync.Pool{New: func() any { return new(arrangement) }}

// overlay gives where keep holds, of where both regions are; nothing once over tells that
// nobody wants it. A nil over never does.
func overlay(g, h Region, keep func(g, h bool) bool, over func() bool) Region {
	m := arrangements.Get().(*arrangement)
	defer arrangements.Put(m)
	m.segments = m.segments[:0]
	m.add(g, 0)
	m.add(h, 1)
	for _, step := range [...]func(){m.node, m.wind} {
		if step(); over != nil && over() {
			return nil
		}
	}
	m.out = m.out[:0]
	for _, e := range m.edges {
		r := keep(e.right[0] > 0, e.right[1] > 0)
		l := keep(e.right[0]+e.by[0] > 0, e.right[1]+e.by[1] > 0)
		switch {
		case l == r:
			continue
		case r:
			e.u, e.v = e.v, e.u
		}
		m.out = append(m.out, e)
	}
	return m.link.rings(m.out).sorted()
}

// wind fills in how often each region winds round the places right of each edge.
// As no two edges cross, all places right of one are alike. They are counted for
// one edge, and from it follow round its corners for all that hang together.
func (m *arrangement) wind() {
	m.meet()
	m.known = append(m.known[:0], make([]bool, len(m.edges))...)
	for i := range m.edges {
		if m.known[i] {
			continue
		}
		m.cast(i)
		m.stack = append(m.stack[:0], int32(i))
		for n := 1; n > 0; n = len(m.stack) {
			k := m.stack[n-1]
			m.stack = m.stack[:n-1]
			m.round(k, m.edges[k].u)
			m.round(k, m.edges[k].v)
		}
	}
}

// end is where an edge begins or ends.
type end struct {
	at   geometry.Point
	edge int32
}

// meet brings together the ends that meet in a corner.
func (m *arrangement) meet() {
	m.ends = m.ends[:0]
	for i, e := range m.edges {
		m.ends = append(m.ends, end{e.u, int32(i)}, end{e.v, int32(i)})
	}
	slices.SortFunc(m.ends, func(a, b end) int { return compare(a.at, b.at) })
}

// round hands on what is beside edge i to the others at its corner p, clockwise.
func (m *arrangement) round(i int32, p geometry.Point) {
	from, _ := slices.BinarySearchFunc(m.ends, p, func(e end, p geometry.Point) int { return compare(e.at, p) })
	to, open := from, false
	for ; to < len(m.ends) && m.ends[to].at == p; to++ {
		k := m.ends[to].edge
		open = open || !m.known[k]
		if k == i {
			m.ends[from], m.ends[to] = m.ends[to], m.ends[from]
		}
	}
	if !open {
		return
	}
	way := func(k int32) geometry.Point {
		if e := &m.edges[k]; e.u != p {
			return e.u.Sub(p)
		}
		return m.edges[k].v.Sub(p)
	}
	back, others := way(i), m.ends[from+1:to]
	if len(others) > 1 {
		slices.SortFunc(others, func(a, b end) int {
			if clockwise(back, way(a.edge), way(b.edge)) {
				return -1
			}
			return 1
		})
	}
	// Clockwise of an edge that leaves p lies its right.
	after := func(e *noded) [2]int32 {
		if e.u == p {
			return e.right
		}
		return [2]int32{e.right[0] + e.by[0], e.right[1] + e.by[1]}
	}
	between := after(&m.edges[i])
	for _, o := range others {
		f := &m.edges[o.edge]
		if !m.known[o.edge] {
			f.right = between
			if f.u == p {
				f.right = [2]int32{between[0] - f.by[0], between[1] - f.by[1]}
			}
			m.known[o.edge] = true
			m.stack = append(m.stack, o.edge)
		}
		between = after(f)
	}
}

// cast counts what is right of edge i along a ray from its middle, to the left or,
// from a level edge, down.
func (m *arrangement) cast(i int) {
	e := &m.edges[i]
	// Twice the middle is whole.
	mid, level := e.u.Add(e.v), e.u.Y == e.v.Y
	if level {
		mid = mirrored(mid)
	}
	var far [2]int32
	for k := range m.edges {
		f := &m.edges[k]
		p, q := f.u.Add(f.u), f.v.Add(f.v)
		if level {
			p, q = mirrored(p), mirrored(q)
		}
		by := int32(1)
		if p.Y > q.Y {
			p, q, by = q, p, -1
		}
		if k == i || p.Y > mid.Y || q.Y <= mid.Y || p.X > mid.X && q.X > mid.X {
			continue
		}
		// Coming to the edge from far off, one crosses f from its left to its
		// right, or where all is mirrored, from its right to its left.
		if geometry.Orientation(p, q, mid) < 0 {
			if !level {
				by = -by
			}
			far[0] += by * f.by[0]
			far[1] += by * f.by[1]
		}
	}
	// The ray comes from the left where an edge goes up, else from the right.
	if e.v.Y > e.u.Y {
		far[0] -= e.by[0]
		far[1] -= e.by[1]
	}
	e.right, m.known[i] = far, true
}

// mirrored gives p with its coordinates changed over.
func mirrored(p geometry.Point) geometry.Point { return geometry.Point{X: p.Y, Y: p.X} }
