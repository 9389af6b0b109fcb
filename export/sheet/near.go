package sheet

import (
	"cmp"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plane"
)

// mostOnKey is how many slabs a key plan shows. More are not told apart there, and in a
// job of very many each would be drawn on the sheet of each.
const mostOnKey = 60

// where gives the index of the boxes of the slabs.
func (s *set) where() *plane.Index {
	if s.boxes == nil {
		boxes := make([]plane.Box, len(s.takeoff.Slabs))
		for i := range boxes {
			boxes[i] = plane.BoxOf(s.takeoff.Slabs[i].Plan.Outline.Rim()...)
		}
		s.boxes = plane.NewIndex(boxes)
	}
	return s.boxes
}

// near gives the places in the job of the slabs that a box of the plan meets, in order.
func (s *set) near(b plane.Box) []int32 {
	at := s.where().Near(b, nil)
	slices.Sort(at)
	return slices.Compact(at)
}

// neighbors gives a slab, by its place in the job, with those nearest to it that a key
// plan shows, in their order.
func (s *set) neighbors(k int) []takeoff.Slab {
	all := s.takeoff.Slabs
	if len(all) <= mostOnKey {
		return all
	}
	own := s.where().Box(k)
	mid := plane.Vec{X: (own.MinX + own.MaxX) / 2, Y: (own.MinY + own.MaxY) / 2}
	far := func(at int32) float64 { return s.where().Box(int(at)).Distance(mid) }
	within := func(reach float64) []int32 {
		at := s.near(plane.BoxAround(mid).Grown(reach))
		slices.SortStableFunc(at, func(a, b int32) int { return cmp.Compare(far(a), far(b)) })
		return at
	}
	reach := own.MaxX - own.MinX + own.MaxY - own.MinY
	at := within(reach)
	for ; len(at) < mostOnKey; at = within(reach) { // there are as many
		reach *= 2
	}
	at = within(far(at[mostOnKey-1]) + 1) // in the corners of that box are some that are farther
	at = at[:mostOnKey]
	slices.Sort(at)
	out := make([]takeoff.Slab, len(at))
	for i, a := range at {
		out[i] = all[a]
	}
	return out
}
