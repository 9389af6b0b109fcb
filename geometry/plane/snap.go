package plane

import (
	"math"
	"math/big"
	"slices"

	"haunchbook.example/geometry"
)

// cross gives the vector product of u and v with the right sign and to one and a
// half units of its last place (Jeannerod, Louvet and Muller, Further analysis of
// Kahan's algorithm for the accurate computation of 2x2 determinants, Mathematics
// of Computation 82, 2013).
func cross(u, v geometry.Point) float64 {
	a, b, c, d := float64(u.X), float64(v.Y), float64(u.Y), float64(v.X)
	w := c * d
	return math.FMA(a, b, -w) + math.FMA(-c, d, w)
}

// crossing gives where a-b and c-d, which must cross, do so: rounded to the
// nanometer, halves up, exactly.
func crossing(a, b, c, d geometry.Point) geometry.Point {
	u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
	num, den := cross(w, v), cross(u, v)
	t := num / den
	x, okX := nearest(t*float64(u.X), float64(u.X))
	y, okY := nearest(t*float64(u.Y), float64(u.Y))
	if okX && okY {
		return a.Add(geometry.Point{X: x, Y: y})
	}
	det := func(p, q geometry.Point) *big.Int {
		f := func(l geometry.Length) *big.Int { return big.NewInt(int64(l)) }
		x, y := new(big.Int).Mul(f(p.X), f(q.Y)), new(big.Int).Mul(f(p.Y), f(q.X))
		return x.Sub(x, y)
	}
	n, m := det(w, v), det(u, v)
	part := func(l geometry.Length) geometry.Length {
		// floor(l n/m + 1/2) = floor((2 l n + m) / 2 m); Euclid's division by a
		// positive number is a floor.
		num, den := new(big.Int).Mul(n, big.NewInt(2*int64(l))), new(big.Int).Lsh(m, 1)
		num.Add(num, m)
		if den.Sign() < 0 {
			num.Neg(num)
			den.Neg(den)
		}
		return geometry.Length(num.Div(num, den).Int64())
	}
	return a.Add(geometry.Point{X: part(u.X), Y: part(u.Y)})
}

// nearest rounds f, which is off by a few units in the last place of size at most;
// false where that could matter.
func nearest(f, size float64) (geometry.Length, bool) {
	r := math.Floor(f + 0.5)
	off := f + 0.5 - r // from 0 to 1
	slack := math.Abs(size)*0x1p-49 + 0x1p-40
	return geometry.Length(r), off > slack && off < 1-slack
}

// passes tells whether the segment a-b comes through the square of side 1 nm round
// p, of which the left and lower sides count and the right and upper do not. It is
// exact.
func passes(a, b, p geometry.Point) bool {
	if a.X > b.X {
		a, b = b, a
	}
	// Doubled, all is whole.
	dx, dy := 2*(b.X-a.X), 2*(b.Y-a.Y)
	l, r := 2*(p.X-a.X)-1, 2*(p.X-a.X)+1 // the square's sides from a
	lo, hi := 2*(p.Y-a.Y)-1, 2*(p.Y-a.Y)+1
	// The segment is there where it lies within the square's extent along X and
	// along Y at once: at fractions t of its way from l/dx, r/dx excluded, and
	// likewise along Y.
	if r <= 0 || l > dx {
		return false
	}
	switch {
	case dy >= 0:
		return hi > 0 && lo <= dy && less(l, dy, hi, dx) && less(lo, dx, r, dy)
	default:
		return lo <= 0 && hi > dy && !less(-lo, dx, l, -dy) && less(-hi, dx, r, -dy)
	}
}

// less tells whether a*b < c*d, exactly.
func less(a, b, c, d geometry.Length) bool {
	return geometry.Orientation(geometry.Point{}, geometry.Point{X: a, Y: c}, geometry.Point{X: d, Y: b}) < 0
}

// segment is a side of a region on its way through an overlay.
type segment struct {
	a, b geometry.Point
	of   uint8 // which of the two regions it belongs to
}

// noded is a piece of sides between two neighboring corners of an arrangement,
// with u before v. by tells, for each of the two regions, by how much it winds
// round the places left of the way from u to v more often than round those right
// of it; right, how often it winds round those.
type noded struct {
	u, v      geometry.Point
	by, right [2]int32
}

// arrangement makes sides that meet in corners only out of segments that cross.
// It keeps its memory from one to the next.
type arrangement struct {
	segments []segment
	boxes    []Box
	pixels   []geometry.Point // corners, and where segments cross
	on       []geometry.Point // those that one segment passes
	edges    []noded
	ends     []end
	known    []bool
	stack    []int32
	out      []noded
	link     linker
}

// add adds the sides of a region.
func (m *arrangement) add(g Region, of uint8) {
	g.sides(func(a, b geometry.Point) {
		if a != b {
			m.segments = append(m.segments, segment{a, b, of})
		}
	})
}

// node fills edges.
func (m *arrangement) node() {
	m.boxes, m.pixels, m.edges = m.boxes[:0], m.pixels[:0], m.edges[:0]
	for _, s := range m.segments {
		m.boxes = append(m.boxes, BoxOf(s.a, s.b))
		m.pixels = append(m.pixels, s.a, s.b)
	}
	m.pairs(func(i, j int) {
		s, t := &m.segments[i], &m.segments[j]
		if crosses(s.a, s.b, t.a, t.b) {
			m.pixels = append(m.pixels, crossing(s.a, s.b, t.a, t.b))
		}
	})
	slices.SortFunc(m.pixels, compare)
	m.pixels = slices.Compact(m.pixels)
	for i := range m.segments {
		m.cut(&m.segments[i], m.boxes[i])
	}
	m.merge()
}

// pairs calls visit for every two segments whose boxes overlap.
func (m *arrangement) pairs(visit func(i, j int)) {
	const few = 64
	if len(m.boxes) > few {
		NewIndex(m.boxes).Pairs(visit)
		return
	}
	for i := range m.boxes {
		for j := i + 1; j < len(m.boxes); j++ {
			if m.boxes[i].Overlaps(m.boxes[j]) {
				visit(i, j)
			}
		}
	}
}

// crosses tells whether a-b and c-d cross in a point inside both.
func crosses(a, b, c, d geometry.Point) bool {
	return geometry.Orientation(a, b, c)*geometry.Orientation(a, b, d) < 0 &&
		geometry.Orientation(c, d, a)*geometry.Orientation(c, d, b) < 0
}

// cut books a segment as edges from pixel to pixel that it passes.
func (m *arrangement) cut(s *segment, box Box) {
	m.on = append(m.on[:0], s.a, s.b)
	d := s.b.Sub(s.a)
	long := math.Hypot(float64(d.X), float64(d.Y))
	box = box.Grown(1)
	// The pixels are in order of X.
	first, _ := slices.BinarySearchFunc(m.pixels, geometry.Point{X: geometry.Length(box.MinX), Y: math.MinInt64}, compare)
	for _, p := range m.pixels[first:] {
		if float64(p.X) > box.MaxX {
			break
		}
		if y := float64(p.Y); y < box.MinY || y > box.MaxY || p == s.a || p == s.b {
			continue
		}
		if math.Abs(cross(d, p.Sub(s.a))) < long && passes(s.a, s.b, p) {
			m.on = append(m.on, p)
		}
	}
	if len(m.on) > 2 {
		slices.SortFunc(m.on, func(p, q geometry.Point) int {
			switch {
			case ahead(d, q.Sub(p)):
				return -1
			case ahead(d, p.Sub(q)):
				return 1
			}
			return 0
		})
	}
	for i := 1; i < len(m.on); i++ {
		m.edge(m.on[i-1], m.on[i], s.of)
	}
}

func (m *arrangement) edge(a, b geometry.Point, of uint8) {
	e := noded{u: a, v: b}
	switch c := compare(a, b); {
	case c == 0:
		return
	case c < 0:
		e.by[of] = 1
	default:
		e.u, e.v, e.by[of] = b, a, -1
	}
	m.edges = append(m.edges, e)
}

// merge joins edges that lie on each other and drops those that cancel out.
func (m *arrangement) merge() {
	slices.SortFunc(m.edges, func(e, f noded) int {
		if c := compare(e.u, f.u); c != 0 {
			return c
		}
		return compare(e.v, f.v)
	})
	kept := m.edges[:0]
	for i := 0; i < len(m.edges); {
		e := m.edges[i]
		for i++; i < len(m.edges) && m.edges[i].u == e.u && m.edges[i].v == e.v; i++ {
			e.by[0] += m.edges[i].by[0]
			e.by[1] += m.edges[i].by[1]
		}
		if e.by != ([2]int32{}) {
			kept = append(kept, e)
		}
	}
	m.edges = kept
}
