package ground

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Mesh is a region cut into triangles.
type Mesh struct {
	Points    []geometry.Point // the region's corners and the points within
	Triangles [][3]int         // by their points, counter-clockwise
}

// Triangulate cuts a region, whose rings do not cross, into the constrained Delaunay
// triangulation of its corners and of those of some points that lie in it: the sides of
// the region are sides of triangles, and the circle through the corners of a triangle
// holds no point that is seen from it. Points that are there twice count once. It is
// exact, whatever the points.
//
// Points are put in one by one, with flips (C. L. Lawson, Software for C1 surface
// interpolation, 1977), and then the sides, by flips of what crosses them (S. W. Sloan, A
// fast algorithm for generating constrained Delaunay triangulations, Computers &
// Structures 47, 1993).
func Triangulate(region plane.Region, within []geometry.Point) Mesh {
	lo, hi := region.Bounds()
	span := max(hi.X-lo.X, hi.Y-lo.Y)
	if span <= 0 {
		return Mesh{}
	}
	t := &triangulation{fixed: map[[2]int]bool{}, number: map[geometry.Point]int{}}
	// All lies in one triangle at first, which the sides of the region keep out of it.
	t.points = []geometry.Point{{X: lo.X - 2*span, Y: lo.Y - 2*span}, {X: lo.X + 5*span, Y: lo.Y - 2*span}, {X: lo.X - 2*span, Y: lo.Y + 5*span}}
	t.triangles, t.of = []triangle{{v: [3]int{0, 1, 2}, n: [3]int{-1, -1, -1}}}, []int{0, 0, 0}

	var all []geometry.Point
	for _, r := range region {
		all = append(all, r...)
	}
	sides := plane.NewSides(region)
	for _, p := range within {
		if sides.Contains(p) {
			all = append(all, p)
		}
	}
	for _, p := range snake(all, lo, span) {
		t.insert(p)
	}
	var inside []int
	for _, r := range region {
		for i, p := range r {
			inside = append(inside, t.side(t.number[p], t.number[r[(i+1)%len(r)]])...)
		}
	}
	return t.left(inside)
}

// snake orders points so that each lies near the one before: by rows, to and fro.
func snake(ps []geometry.Point, lo geometry.Point, span geometry.Length) []geometry.Point {
	row := span/geometry.Length(1+math.Sqrt(float64(len(ps)))) + 1
	key := func(p geometry.Point) (k, x geometry.Length) {
		if k = (p.Y - lo.Y) / row; k%2 == 1 {
			return k, -p.X
		}
		return k, p.X
	}
	return slices.SortedFunc(slices.Values(ps), func(a, b geometry.Point) int {
		ka, xa := key(a)
		kb, xb := key(b)
		if ka != kb {
			return int(min(max(ka-kb, -1), 1))
		}
		if xa != xb {
			return int(min(max(xa-xb, -1), 1))
		}
		return int(min(max(a.Y-b.Y, -1), 1))
	})
}

// triangle has its corners counter-clockwise; n[i] is the triangle across from v[i], or -1.
type triangle struct{ v, n [3]int }

func (t *triangle) place(v int) int { return slices.Index(t.v[:], v) }

type triangulation struct {
	points    []geometry.Point
	number    map[geometry.Point]int
	triangles []triangle
	of        []int // a triangle of each point
	last      int
	fixed     map[[2]int]bool // sides of the region
}

func (t *triangulation) turn(a, b, c int) int {
	return geometry.Orientation(t.points[a], t.points[b], t.points[c])
}

// insert puts a point in, if it is not there.
func (t *triangulation) insert(p geometry.Point) {
	if _, there := t.number[p]; there {
		return
	}
	v := len(t.points)
	t.points, t.number[p], t.of = append(t.points, p), v, append(t.of, 0)
	at, edge := t.find(p)
	var doubt [][2]int
	if edge < 0 { // one becomes three
		old := t.triangles[at]
		b, c := len(t.triangles), len(t.triangles)+1
		t.triangles = append(t.triangles, triangle{}, triangle{})
		t.set(at, triangle{[3]int{v, old.v[0], old.v[1]}, [3]int{old.n[2], b, c}})
		t.set(b, triangle{[3]int{v, old.v[1], old.v[2]}, [3]int{old.n[0], c, at}})
		t.set(c, triangle{[3]int{v, old.v[2], old.v[0]}, [3]int{old.n[1], at, b}})
		doubt = [][2]int{{at, 0}, {b, 0}, {c, 0}}
	} else { // on a side: two become four
		a, o := at, t.triangles[at].n[edge]
		A, O := t.triangles[a], t.triangles[o]
		i, j := edge, slices.Index(O.n[:], a)
		p0, p1, p2 := A.v[i], A.v[(i+1)%3], A.v[(i+2)%3]
		q := O.v[j]
		n1, n2 := A.n[(i+1)%3], A.n[(i+2)%3] // across from p1, from p2
		m1, m2 := O.n[slices.Index(O.v[:], p1)], O.n[slices.Index(O.v[:], p2)]
		b, c := len(t.triangles), len(t.triangles)+1
		t.triangles = append(t.triangles, triangle{}, triangle{})
		t.set(a, triangle{[3]int{v, p0, p1}, [3]int{n2, c, b}})
		t.set(b, triangle{[3]int{v, p2, p0}, [3]int{n1, a, o}})
		t.set(o, triangle{[3]int{v, q, p2}, [3]int{m1, b, c}})
		t.set(c, triangle{[3]int{v, p1, q}, [3]int{m2, o, a}})
		doubt = [][2]int{{a, 0}, {b, 0}, {o, 0}, {c, 0}}
	}
	for len(doubt) > 0 {
		k, i := doubt[len(doubt)-1][0], doubt[len(doubt)-1][1]
		doubt = doubt[:len(doubt)-1]
		if t.bad(k, i) {
			a, b := t.flip(k, i)
			doubt = append(doubt, [2]int{a, t.triangles[a].place(v)}, [2]int{b, t.triangles[b].place(v)})
		}
	}
	t.last = at
}

// set puts a triangle at its place, and tells its neighbors and corners.
func (t *triangulation) set(k int, n triangle) {
	t.triangles[k] = n
	for i, v := range n.v {
		t.of[v] = k
		if o := n.n[i]; o >= 0 {
			u, w := n.v[(i+1)%3], n.v[(i+2)%3]
			for j, x := range t.triangles[o].v {
				if x != u && x != w {
					t.triangles[o].n[j] = k
				}
			}
		}
	}
}

// find gives the triangle that a point lies in, and the number of its side where the
// point lies on one, else -1. It walks toward it (it ends in a Delaunay triangulation: H.
// Edelsbrunner, An acyclicity theorem for cell complexes in d dimensions, 1990).
func (t *triangulation) find(p geometry.Point) (at, edge int) {
	at = t.last
walk:
	for {
		tri := &t.triangles[at]
		edge = -1
		for i := range 3 {
			a, b := tri.v[(i+1)%3], tri.v[(i+2)%3]
			switch geometry.Orientation(t.points[a], t.points[b], p) {
			case -1:
				at = tri.n[i]
				continue walk
			case 0:
				edge = i
			}
		}
		return at, edge
	}
}

// bad tells whether the side of triangle k across from its corner i is to be flipped.
func (t *triangulation) bad(k, i int) bool {
	tri := t.triangles[k]
	o := tri.n[i]
	if o < 0 || t.fixed[pair(tri.v[(i+1)%3], tri.v[(i+2)%3])] {
		return false
	}
	j := slices.Index(t.triangles[o].n[:], k)
	return inCircle(t.points[tri.v[0]], t.points[tri.v[1]], t.points[tri.v[2]], t.points[t.triangles[o].v[j]])
}

// flip turns the side of triangle k across from its corner i, and gives the two triangles.
func (t *triangulation) flip(k, i int) (int, int) {
	A := t.triangles[k]
	o := A.n[i]
	O := t.triangles[o]
	j := slices.Index(O.n[:], k)
	p, a, b, q := A.v[i], A.v[(i+1)%3], A.v[(i+2)%3], O.v[j]
	pa, pb := A.n[(i+2)%3], A.n[(i+1)%3]
	qa, qb := O.n[O.place(b)], O.n[O.place(a)]
	t.triangles[k], t.triangles[o] = triangle{[3]int{p, a, q}, [3]int{qa, o, pa}}, triangle{[3]int{p, q, b}, [3]int{qb, pb, k}}
	t.set(k, t.triangles[k])
	t.set(o, t.triangles[o])
	return k, o
}

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// around calls visit with the triangles round a point, until it says stop.
func (t *triangulation) around(v int, visit func(k, i int) bool) {
	k := t.of[v]
	for range len(t.triangles) {
		i := t.triangles[k].place(v)
		if !visit(k, i) {
			return
		}
		if k = t.triangles[k].n[(i+1)%3]; k == t.of[v] || k < 0 {
			return
		}
	}
}

// side makes a-b a side of triangles, in parts where points lie on it, and gives the
// ends of the parts.
func (t *triangulation) side(a, b int) []int {
	var out []int
	for a != b {
		end, crossed := t.toward(a, b)
		var turned [][2]int
		for len(crossed) > 0 {
			e := crossed[0]
			crossed = crossed[1:]
			k, i := t.edge(e)
			o := t.triangles[k].n[i]
			p, q := t.triangles[k].v[i], t.triangles[o].v[slices.Index(t.triangles[o].n[:], k)]
			if t.turn(p, q, e[0])*t.turn(p, q, e[1]) >= 0 { // flipped, it would fold
				crossed = append(crossed, e)
				continue
			}
			t.flip(k, i)
			if n := pair(p, q); t.turn(a, end, p)*t.turn(a, end, q) < 0 {
				crossed = append(crossed, n)
			} else {
				turned = append(turned, n)
			}
		}
		t.fixed[pair(a, end)] = true
		for flipped := true; flipped; {
			flipped = false
			for n, e := range turned {
				if k, i := t.edge(e); t.bad(k, i) {
					o := t.triangles[k].n[i]
					p, q := t.triangles[k].v[i], t.triangles[o].v[slices.Index(t.triangles[o].n[:], k)]
					t.flip(k, i)
					turned[n], flipped = pair(p, q), true
				}
			}
		}
		out = append(out, a, end)
		a = end
	}
	return out
}

// toward gives where the way from a to b first meets a point, and the sides that it
// crosses before.
func (t *triangulation) toward(a, b int) (end int, crossed [][2]int) {
	end = -1
	k, i := -1, 0
	t.around(a, func(at, place int) bool {
		u, w := t.triangles[at].v[(place+1)%3], t.triangles[at].v[(place+2)%3]
		tu, tw := t.turn(a, b, u), t.turn(a, b, w)
		if tu == 0 && t.ahead(a, b, u) {
			end = u
			return false
		}
		if tu < 0 && tw > 0 {
			k, i = at, place
		}
		return true
	})
	if end >= 0 {
		return end, nil
	}
	for {
		tri := t.triangles[k]
		u, w := tri.v[(i+1)%3], tri.v[(i+2)%3]
		crossed = append(crossed, pair(u, w))
		o := tri.n[i]
		j := slices.Index(t.triangles[o].n[:], k)
		x := t.triangles[o].v[j]
		k = o
		switch t.turn(a, b, x) {
		case 0:
			return x, crossed
		case 1: // it goes out between u and x
			i = t.triangles[k].place(w)
		default:
			i = t.triangles[k].place(u)
		}
	}
}

// ahead tells whether c, on the line through a and b, lies on b's side of a.
func (t *triangulation) ahead(a, b, c int) bool {
	u, v := t.points[b].Sub(t.points[a]), t.points[c].Sub(t.points[a])
	return u.X > 0 && v.X > 0 || u.X < 0 && v.X < 0 || u.Y > 0 && v.Y > 0 || u.Y < 0 && v.Y < 0
}

// edge gives a triangle that has a side, and the number of the side. It looks round the
// later of its ends: round the first three points, the triangles do not close.
func (t *triangulation) edge(e [2]int) (k, i int) {
	t.around(e[1], func(at, place int) bool {
		tri := t.triangles[at]
		switch e[0] {
		case tri.v[(place+1)%3]:
			k, i = at, (place+2)%3
			return false
		case tri.v[(place+2)%3]:
			k, i = at, (place+1)%3
			return false
		}
		return true
	})
	return k, i
}

// left gives the triangles left of sides, which are pairs of points, and what hangs
// together with them.
func (t *triangulation) left(sides []int) Mesh {
	seen := make([]bool, len(t.triangles))
	var queue []int
	visit := func(k int) {
		if k >= 0 && !seen[k] {
			seen[k] = true
			queue = append(queue, k)
		}
	}
	for s := 0; s < len(sides); s += 2 {
		t.around(sides[s], func(k, i int) bool {
			if t.triangles[k].v[(i+1)%3] == sides[s+1] {
				visit(k)
				return false
			}
			return true
		})
	}
	out := Mesh{Points: t.points[3:]}
	for len(queue) > 0 {
		tri := t.triangles[queue[len(queue)-1]]
		queue = queue[:len(queue)-1]
		out.Triangles = append(out.Triangles, [3]int{tri.v[0] - 3, tri.v[1] - 3, tri.v[2] - 3})
		for i, n := range tri.n {
			if !t.fixed[pair(tri.v[(i+1)%3], tri.v[(i+2)%3])] {
				visit(n)
			}
		}
	}
	return out
}
