package layout

import (
	"math"

	"haunchbook.example/geometry"
)

// segments are the straight pieces of bars, to find those that something meets.
type segments struct {
	all   []segment
	index *geometry.Index
	found []int32
}

type segment struct {
	a, b spot
	db   geometry.Length
}

// spot is a place in the slab.
type spot struct {
	at    geometry.Point
	depth geometry.Length
}

func newSegments(bars []Bar) *segments {
	n := 0
	for _, b := range bars {
		n += len(b.Path) - 1
	}
	s := segments{all: make([]segment, 0, n)}
	boxes := make([]geometry.Box, 0, n)
	for k := range bars {
		b := &bars[k]
		db := diameter(b.Size)
		for i := 1; i < len(b.Path); i++ {
			s.all = append(s.all, segment{b.spot(i - 1), b.spot(i), db})
			boxes = append(boxes, geometry.BoxOf(b.Path[i-1], b.Path[i]))
		}
	}
	s.index = geometry.NewIndex(boxes)
	return &s
}

// nearEdges gives the bars that dowels and bolts can reach: of a grid, a few.
func (t *site) nearEdges(bars []Bar) []Bar {
	if len(bars) < manyBars {
		return bars
	}
	b := t.spec.Bolts
	reach := float64(max(t.spec.Dowels.Length, max(b.Offset, foot)+b.Hook+b.Diameter) + foot)
	var out []Bar
	for i := range bars {
		box := geometry.BoxOf(bars[i].Path[0], bars[i].Path[len(bars[i].Path)-1])
		for _, p := range bars[i].Path {
			box = box.Union(geometry.BoxOf(p, p))
		}
		if t.region.reaches(geometry.Box{MinX: box.MinX - reach, MinY: box.MinY - reach, MaxX: box.MaxX + reach, MaxY: box.MaxY + reach}) {
			out = append(out, bars[i])
		}
	}
	return out
}

// manyBars is from how many bars it pays to leave out those in the middle.
const manyBars = 2000

// near gives the numbers of the segments whose box comes near the segment p-q;
// the list holds until the next call.
func (s *segments) near(p, q geometry.Point, reach geometry.Length) []int32 {
	m := float64(reach + inch)
	b := geometry.BoxOf(p, q)
	s.found = s.index.Near(geometry.Box{MinX: b.MinX - m, MinY: b.MinY - m, MaxX: b.MaxX + m, MaxY: b.MaxY + m}, s.found[:0])
	return s.found
}

// meets tells whether a dowel touches a bar that runs along it, and whether it
// touches one that runs across.
func (s *segments) meets(w Dowel, size int) (along, across bool) {
	r := diameter(size)
	for _, k := range s.near(w.At, w.Inner, r) {
		bar := s.all[k]
		if !touches(w.Outer, w.Inner, w.Depth, bar, (r+bar.db)/2) {
			continue
		}
		u, v := w.Inner.Sub(w.Outer), bar.b.at.Sub(bar.a.at)
		dot := float64(u.X)*float64(v.X) + float64(u.Y)*float64(v.Y)
		cross := float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
		if math.Abs(dot) > math.Abs(cross) {
			along = true
		} else {
			across = true
		}
	}
	return along, across
}

// touches tells whether a level rod from p to q and a bar are nearer than clear,
// in plan and in depth. Segments that do not cross are nearest at an end of one.
func touches(p, q geometry.Point, depth geometry.Length, bar segment, clear geometry.Length) bool {
	if at, ok := geometry.Meet(p, q, bar.a.at, bar.b.at); ok {
		_, d := toSegment(at, bar.a, bar.b)
		return (d - depth).Abs() < clear
	}
	from, to := spot{p, depth}, spot{q, depth}
	for _, end := range [...]spot{bar.a, bar.b} {
		if d, _ := toSegment(end.at, from, to); d < clear && (end.depth-depth).Abs() < clear {
			return true
		}
	}
	for _, end := range [...]spot{from, to} {
		if d, at := toSegment(end.at, bar.a, bar.b); d < clear && (at-depth).Abs() < clear {
			return true
		}
	}
	return false
}

// toSegment gives how far p is from a-b in plan, and the depth there.
func toSegment(p geometry.Point, a, b spot) (geometry.Length, geometry.Length) {
	d, w := b.at.Sub(a.at), p.Sub(a.at)
	dx, dy := float64(d.X), float64(d.Y)
	f := 0.0
	if h := dx*dx + dy*dy; h > 0 {
		f = math.Min(math.Max((float64(w.X)*dx+float64(w.Y)*dy)/h, 0), 1)
	}
	return round(math.Hypot(float64(w.X)-f*dx, float64(w.Y)-f*dy)), a.depth + round(f*float64(b.depth-a.depth))
}
