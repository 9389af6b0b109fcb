package ground

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Class is a kind of ground, dug in one go.
type Class = geometry.Choice[classes]

type classes struct{}

// Names implements geometry.Named.
func (classes) Names() []string {
	return []string{"field", "trench bottoms", "pads and strips", "slopes"}
}

// The classes.
const (
	Field  Class = iota // under the field
	Trench              // the flat bottoms of haunches
	Pad                 // those of pads and thickened strips
	Slope               // from the field down to any of these
)

// Zone is all the ground of a class under a slab.
type Zone struct {
	Class  Class
	Region plane.Region
	Area   float64 // m² in plan
}

// sliver is what rounding leaves between faces.
const sliver = 10 * geometry.Micrometer

// Zones gives the ground under a slab, of which region is the plan, by classes; of those
// that it has none of, none.
func Zones(s *solid.Solid, region plane.Region) []Zone {
	var regions [4]plane.Region
	var all plane.Region
	for _, f := range s.Faces() {
		c := classOf(f)
		regions[c] = append(regions[c], f.Corners)
		all = append(all, f.Corners)
	}
	var out []Zone
	for c := range Class(4) {
		g := plane.Union(regions[c])
		if c == Field {
			g = plane.Subtract(region, plane.Union(all))
		} else {
			g = plane.Intersect(region, g)
		}
		if g = g.Without(sliver); len(g) > 0 {
			out = append(out, Zone{c, g, g.Area()})
		}
	}
	return out
}

// flat is how much the depths of a flat bottom differ by rounding.
const flat = geometry.Micrometer

func classOf(f solid.Face) Class {
	lo, hi := depths(f)
	switch {
	case hi-lo > flat:
		return Slope
	case f.Part.Kind == solid.PadPart || f.Part.Kind == solid.StripPart:
		return Pad
	}
	return Trench
}

func depths(f solid.Face) (lo, hi geometry.Length) {
	lo, hi = f.Depths[0], f.Depths[0]
	for _, d := range f.Depths {
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}

// slopes are the faces that slope, with how far down each place of them is.
type slopes struct {
	faces []slope
	index *plane.Index
	frame plane.Frame
}

type slope struct {
	corners []plane.Vec
	share   []float64 // at each corner: 0 at the field, 1 at the bottom
	bottom  Class     // what it goes down to
}

type partKey struct {
	kind             solid.Kind
	loop, edge, span int
}

func slopesOf(s *solid.Solid, field geometry.Length, frame plane.Frame) *slopes {
	deepest := map[partKey]geometry.Length{}
	key := func(f solid.Face) partKey { return partKey{f.Part.Kind, f.Part.Loop, f.Part.Edge, f.Part.Span} }
	for _, f := range s.Faces() {
		_, hi := depths(f)
		deepest[key(f)] = max(deepest[key(f)], hi)
	}
	out := &slopes{frame: frame}
	var boxes []plane.Box
	for _, f := range s.Faces() {
		if classOf(f) != Slope {
			continue
		}
		n := slope{bottom: Trench}
		if f.Part.Kind == solid.PadPart || f.Part.Kind == solid.StripPart {
			n.bottom = Pad
		}
		for i, p := range f.Corners {
			n.corners = append(n.corners, frame.In(p))
			n.share = append(n.share, min(1, max(0, float64(f.Depths[i]-field)/float64(max(1, deepest[key(f)]-field)))))
		}
		out.faces, boxes = append(out.faces, n), append(boxes, plane.BoxAround(n.corners...))
	}
	out.index = plane.NewIndex(boxes)
	return out
}

// at gives how far down a place is on a slope, and to what; false on none.
func (s *slopes) at(v plane.Vec) (share float64, bottom Class, ok bool) {
	s.index.Visit(plane.BoxAround(v).Grown(1e-6), func(i int32) bool {
		f := &s.faces[i]
		if !plane.InConvex(f.corners, v, 1e-6) {
			return true
		}
		share, bottom, ok = f.at(v), f.bottom, true
		return false
	})
	return share, bottom, ok
}

// at gives the share at a place of a slope: of the widest triangle of its corners, the
// plane.
func (f *slope) at(v plane.Vec) float64 {
	o, best, at := f.corners[0], 0.0, 1
	for i := 1; i+1 < len(f.corners); i++ {
		if d := f.corners[i].Sub(o).Cross(f.corners[i+1].Sub(o)); d > best {
			best, at = d, i
		}
	}
	if best == 0 {
		return f.share[0]
	}
	u, w, p := f.corners[at].Sub(o), f.corners[at+1].Sub(o), v.Sub(o)
	a, b := p.Cross(w)/best, u.Cross(p)/best
	return min(1, max(0, f.share[0]*(1-a-b)+f.share[at]*a+f.share[at+1]*b))
}

// node is a place that stands for a little area.
type node struct {
	at plane.Vec
	m2 float64
}

// nodes cuts a convex polygon into pieces no longer than a length, and gives their middles.
func nodes(dst []node, p []plane.Vec, size float64) []node {
	for i := 1; i+1 < len(p); i++ {
		dst = halve(dst, [3]plane.Vec{p[0], p[i], p[i+1]}, size, 0)
	}
	return dst
}

func halve(dst []node, t [3]plane.Vec, size float64, deep int) []node {
	long, at := 0.0, 0
	for i := range t {
		if l := t[(i+1)%3].Sub(t[i]).Length(); l > long {
			long, at = l, i
		}
	}
	if long <= size || deep == 24 {
		if m2 := t[1].Sub(t[0]).Cross(t[2].Sub(t[0])) / 2; m2 > 1e-12 {
			dst = append(dst, node{t[0].Add(t[1]).Add(t[2]).Times(1. / 3), m2})
		}
		return dst
	}
	a, b, c := t[at], t[(at+1)%3], t[(at+2)%3]
	m := plane.Lerp(a, b, 0.5)
	return halve(halve(dst, [3]plane.Vec{a, m, c}, size, deep+1), [3]plane.Vec{m, b, c}, size, deep+1)
}

// spread covers a mesh by about so many nodes.
func (m Mesh) spread(frame plane.Frame, about float64) []node {
	area, around := 0.0, 0.0
	sides := map[[2]int]int{}
	for _, t := range m.Triangles {
		area += m.area(t)
		for i := range 3 {
			sides[pair(t[i], t[(i+1)%3])]++
		}
	}
	for s, n := range sides {
		if n == 1 {
			around += geometry.Distance(m.Points[s[0]], m.Points[s[1]]).Meters()
		}
	}
	// Of a long strip the length counts, of a wide field the area.
	size := math.Max(math.Sqrt(2.5*area/about), around/about)
	var out []node
	for _, t := range m.Triangles {
		out = nodes(out, []plane.Vec{frame.In(m.Points[t[0]]), frame.In(m.Points[t[1]]), frame.In(m.Points[t[2]])}, size)
	}
	return out
}
