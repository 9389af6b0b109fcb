package layout

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// region answers quickly which points and lines lie on the slab. Its sides are
// kept by level, for points, and in an index of boxes, for lines.
type region struct {
	sides []side // of all loops, in order
	boxes []geometry.Box
	all   geometry.Box
	index *geometry.Index
	found []int32           // room for what an index finds
	at    []geometry.Length // room for cuts

	levels levels
}

func newRegion(loops [][]side) *region {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	g := region{sides: make([]side, 0, n)}
	boxes := make([]geometry.Box, 0, n)
	for _, l := range loops {
		for _, s := range l {
			g.sides = append(g.sides, s)
			boxes = append(boxes, geometry.BoxOf(s.a, s.b))
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
		s := &g.sides[i]
		if s.loop != loop {
			if loop == 0 {
				onSlab = in || on
			} else if in && !on {
				return false
			}
			loop, in, on = s.loop, false, false
		}
		if s.a.Y > p.Y && s.b.Y > p.Y || s.a.Y < p.Y && s.b.Y < p.Y {
			continue
		}
		o := geometry.Orientation(s.a, s.b, p)
		on = on || o == 0 && min(s.a.X, s.b.X) <= p.X && p.X <= max(s.a.X, s.b.X)
		if (s.a.Y > p.Y) != (s.b.Y > p.Y) && (o > 0) == (s.b.Y > s.a.Y) {
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
func (g *region) through(a, b geometry.Point, half geometry.Length) []interval {
	s := newSide(0, 0, a, b)
	return g.along(s, s.length, half, nil)
}

// along appends to out what through gives of the first of a side, up to a reach.
func (g *region) along(s side, reach, half geometry.Length, out []interval) []interval {
	first := len(out)
	cuts := g.cuts(s, reach)
	for i := 1; i < len(cuts); i++ {
		from, to := cuts[i-1], cuts[i]
		mid := (from + to) / 2
		if to-from <= 2 || !g.contains(s.at(mid, half)) || half != 0 && !g.contains(s.at(mid, -half)) {
			continue
		}
		if n := len(out); n > first && from-out[n-1].to <= 2 {
			out[n-1].to = to
			continue
		}
		out = append(out, interval{from, to})
	}
	return out
}

// near finds the sides near a box. Where it covers much of the slab, a look at all
// of them is quicker than one at all cells.
func (g *region) near(b geometry.Box) {
	g.found = g.found[:0]
	w, h := min(b.MaxX, g.all.MaxX)-max(b.MinX, g.all.MinX), min(b.MaxY, g.all.MaxY)-max(b.MinY, g.all.MinY)
	if w*h < (g.all.MaxX-g.all.MinX)*(g.all.MaxY-g.all.MinY)/16 {
		g.found = g.index.Near(b, g.found)
		return
	}
	for i := range g.boxes {
		if b.Overlaps(g.boxes[i]) {
			g.found = append(g.found, int32(i))
		}
	}
}

// reaches tells whether a box comes near a side.
func (g *region) reaches(b geometry.Box) bool {
	g.near(b)
	return len(g.found) > 0
}

// cuts gives where a line up to a reach meets sides of the slab, with both ends,
// in order.
// The list holds until the next call.
func (g *region) cuts(s side, reach geometry.Length) []geometry.Length {
	cuts := append(g.at[:0], 0, reach)
	lo, hi := float64(0), float64(reach)
	add := func(at float64) {
		if at > lo && at < hi {
			cuts = append(cuts, round(at))
		}
	}
	box := geometry.BoxOf(s.a, s.at(reach, 0))
	const slack = 4 // nm, for rounding
	g.near(geometry.Box{MinX: box.MinX - slack, MinY: box.MinY - slack, MaxX: box.MaxX + slack, MaxY: box.MaxY + slack})
	for _, i := range g.found {
		e := &g.sides[i]
		ax, ay := float64(e.a.X-s.a.X), float64(e.a.Y-s.a.Y)
		bx, by := float64(e.b.X-s.a.X), float64(e.b.Y-s.a.Y)
		// Heights over the line, and distances along it.
		ha, hb := ay*s.ux-ax*s.uy, by*s.ux-bx*s.uy
		if ha > 1 && hb > 1 || ha < -1 && hb < -1 {
			continue
		}
		la, lb := ax*s.ux+ay*s.uy, bx*s.ux+by*s.uy
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
