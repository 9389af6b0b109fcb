package slab

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// region answers quickly which points and lines lie on the slab. Its sides are
// kept by level, for points, and in an index of boxes, for lines.
type region struct {
	Sides []Side // of all loops, in order
	boxes []geometry.Box
	all   geometry.Box
	index *geometry.Index
	Found []int32           // room for what an index finds
	at    []geometry.Length // room for cuts

	levels levels
}

func newRegion(loops [][]Side) *region {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	g := region{Sides: make([]Side, 0, n)}
	boxes := make([]geometry.Box, 0, n)
	for _, l := range loops {
		for _, s := range l {
			g.Sides = append(g.Sides, s)
			boxes = append(boxes, geometry.BoxOf(s.A, s.B))
		}
	}
	g.index = geometry.NewIndex(boxes)
	g.boxes, g.all = boxes, boxes[0]
	extents := make([][2]float64, len(boxes))
	for i, b := range boxes {
		extents[i] = [2]float64{b.MinY, b.MaxY}
		g.all = g.all.Union(b)
	}
	g.levels = newLevels(extents)
	return &g
}

// contains tells whether a point lies on the slab, edges included. It is exact.
func (g *region) contains(p geometry.Point) bool {
	loop, in, on, onSlab := 0, false, false, false
	for _, i := range g.levels.near(float64(p.Y)) {
		s := &g.Sides[i]
		if s.Loop != loop {
			if loop == 0 {
				onSlab = in || on
			} else if in && !on {
				return false
			}
			loop, in, on = s.Loop, false, false
		}
		if s.A.Y > p.Y && s.B.Y > p.Y || s.A.Y < p.Y && s.B.Y < p.Y {
			continue
		}
		o := geometry.Orientation(s.A, s.B, p)
		on = on || o == 0 && min(s.A.X, s.B.X) <= p.X && p.X <= max(s.A.X, s.B.X)
		if (s.A.Y > p.Y) != (s.B.Y > p.Y) && (o > 0) == (s.B.Y > s.A.Y) {
			in = !in
		}
	}
	if loop == 0 {
		return in || on
	}
	return onSlab && (on || !in)
}

// through gives the stretches of the segment a-b that lie on the slab, and have
// it on both sides half away, in order and measured from a. Stretches that touch
// are one.
func (g *region) through(a, b geometry.Point, half geometry.Length) []Interval {
	s := NewSide(0, 0, a, b)
	return g.Along(s, s.Length, half, nil)
}

// Along appends to out what through gives of the first of a side, up to a reach.
func (g *region) Along(s Side, reach, half geometry.Length, out []Interval) []Interval {
	first := len(out)
	cuts := g.cuts(s, reach)
	for i := 1; i < len(cuts); i++ {
		from, to := cuts[i-1], cuts[i]
		mid := (from + to) / 2
		if to-from <= 2 || !g.contains(s.At(mid, half)) || half != 0 && !g.contains(s.At(mid, -half)) {
			continue
		}
		if n := len(out); n > first && from-out[n-1].To <= 2 {
			out[n-1].To = to
			continue
		}
		out = append(out, Interval{from, to})
	}
	return out
}

// Near finds the sides near a box. Where it covers much of the slab, a look at all
// of them is quicker than one at all cells.
func (g *region) Near(b geometry.Box) {
	g.Found = g.Found[:0]
	w, h := min(b.MaxX, g.all.MaxX)-max(b.MinX, g.all.MinX), min(b.MaxY, g.all.MaxY)-max(b.MinY, g.all.MinY)
	if w*h < (g.all.MaxX-g.all.MinX)*(g.all.MaxY-g.all.MinY)/16 {
		g.Found = g.index.Near(b, g.Found)
		return
	}
	for i := range g.boxes {
		if b.Overlaps(g.boxes[i]) {
			g.Found = append(g.Found, int32(i))
		}
	}
}

// Reaches tells whether a box comes near a side.
func (g *region) Reaches(b geometry.Box) bool {
	g.Near(b)
	return len(g.Found) > 0
}

// cuts gives where a line up to a reach meets sides of the slab, with both ends,
// in order.
// The list holds until the next call.
func (g *region) cuts(s Side, reach geometry.Length) []geometry.Length {
	cuts := append(g.at[:0], 0, reach)
	lo, hi := float64(0), float64(reach)
	add := func(at float64) {
		if at > lo && at < hi {
			cuts = append(cuts, geometry.Rounded(at))
		}
	}
	box := geometry.BoxOf(s.A, s.At(reach, 0))
	const slack = 4 // nm, for rounding
	g.Near(geometry.Box{MinX: box.MinX - slack, MinY: box.MinY - slack, MaxX: box.MaxX + slack, MaxY: box.MaxY + slack})
	for _, i := range g.Found {
		e := &g.Sides[i]
		ax, ay := float64(e.A.X-s.A.X), float64(e.A.Y-s.A.Y)
		bx, by := float64(e.B.X-s.A.X), float64(e.B.Y-s.A.Y)
		// Heights over the line, and distances along it.
		ha, hb := ay*s.Ux-ax*s.Uy, by*s.Ux-bx*s.Uy
		if ha > 1 && hb > 1 || ha < -1 && hb < -1 {
			continue
		}
		la, lb := ax*s.Ux+ay*s.Uy, bx*s.Ux+by*s.Uy
		if math.Abs(ha-hb) < 2 {
			add(la)
			add(lb)
			continue
		}
		add(la + (lb-la)*ha/(ha-hb))
	}
	slices.Sort(cuts)
	g.at = cuts
	return cuts
}
