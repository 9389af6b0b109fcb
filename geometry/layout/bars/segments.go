package bars

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// Segments are the straight pieces of bars, to find those that something meets.
type Segments struct {
	All   []Segment
	index *plane.Index
	found []int32
}

// Segment is a straight piece of a bar, Db thick.
type Segment struct {
	A, B Spot
	Db   geometry.Length
}

// Spot is a place in the slab.
type Spot struct {
	At    geometry.Point
	Depth geometry.Length
}

// NewSegments gives the straight pieces of bars.
func NewSegments(bars []Bar) *Segments {
	n := 0
	for _, b := range bars {
		n += len(b.Path) - 1
	}
	s := Segments{All: make([]Segment, 0, n)}
	boxes := make([]plane.Box, 0, n)
	for k := range bars {
		b := &bars[k]
		db := b.Size.Diameter()
		for i := 1; i < len(b.Path); i++ {
			s.All = append(s.All, Segment{b.spot(i - 1), b.spot(i), db})
			boxes = append(boxes, plane.BoxOf(b.Path[i-1], b.Path[i]))
		}
	}
	s.index = plane.NewIndex(boxes)
	return &s
}

// NearEdges gives the bars that what stands at the edges can reach, of a grid a few.
func NearEdges(s *slab.Slab, bars []Bar, beyond geometry.Length) []Bar {
	if len(bars) < manyBars {
		return bars
	}
	reach := float64(beyond + foot)
	var room [64]int32
	var out []Bar
	for i := range bars {
		if len(s.On.Near(plane.BoxOf(bars[i].Path...).Grown(reach), room[:0])) > 0 {
			out = append(out, bars[i])
		}
	}
	return out
}

// manyBars is from how many bars it pays to leave out those in the middle.
const manyBars = 2000

// Near gives the numbers of the segments whose box comes near the segment p-q;
// the list holds until the next call.
func (s *Segments) Near(p, q geometry.Point, reach geometry.Length) []int32 {
	s.found = s.index.Near(plane.BoxOf(p, q).Grown(float64(reach+inch)), s.found[:0])
	return s.found
}

// Touches tells whether a level rod from p to q and a bar are nearer than clear,
// in plan and in depth. Segments that do not cross are nearest at an end of one.
func Touches(p, q geometry.Point, depth geometry.Length, bar Segment, clear geometry.Length) bool {
	if at, ok := geometry.Meet(p, q, bar.A.At, bar.B.At); ok {
		_, d := ToSegment(at, bar.A, bar.B)
		return (d - depth).Abs() < clear
	}
	from, to := Spot{p, depth}, Spot{q, depth}
	for _, end := range [...]Spot{bar.A, bar.B} {
		if d, _ := ToSegment(end.At, from, to); d < clear && (end.Depth-depth).Abs() < clear {
			return true
		}
	}
	for _, end := range [...]Spot{from, to} {
		if d, at := ToSegment(end.At, bar.A, bar.B); d < clear && (at-depth).Abs() < clear {
			return true
		}
	}
	return false
}

// ToSegment gives how far p is from a-b in plan, and the depth there.
func ToSegment(p geometry.Point, a, b Spot) (geometry.Length, geometry.Length) {
	f, away := geometry.Nearest(p, a.At, b.At)
	return away, a.Depth + geometry.Rounded(f*float64(b.Depth-a.Depth))
}
