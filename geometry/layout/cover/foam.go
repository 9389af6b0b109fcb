package cover

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// LeastFoam is the narrowest piece of foam that is cut: common practice, no source. What
// is narrower is filled with trimmings or foam from a can.
const LeastFoam = 2 * geometry.Inch

// Foam lays sheets under a slab as a crew does: flat and whole where the field
// is, and cut pieces on the flats and slopes that are dug for haunches, pads and
// strips, if what is thickened is to have any. Steps get none. Each flat and slope
// is covered in its true size, along its level lines, and all pieces are cut from
// the same sheets.
func Foam(p plan.Plan, sol *solid.Solid, width, length geometry.Length, thick bool) Laid {
	y := Ply{Width: width, Length: length, Least: min(LeastFoam, width/4, length/4)}
	if width <= 0 || length <= 0 {
		return Laid{}
	}
	var cut, filled []Sheet
	var dug, cutArea float64
	sides := slab.Outlines(p)
	for _, b := range beds(sol.Faces()) {
		sides = append(sides, b.sides...)
		dug += b.plan
		if !thick {
			continue
		}
		sheets, gaps, tooMany := bands(slab.NewFrame(b.sides, b.along, b.slope), y)
		if tooMany || len(cut)+len(sheets) > MaxSheets {
			return Laid{TooMany: true}
		}
		cut, filled = append(cut, sheets...), append(filled, gaps...)
		cutArea += b.area
	}
	along := slab.Longest(p)
	field := border(sides)
	c := layEither([2]slab.Frame{slab.NewFrame(field, along, 1).Tight(), slab.NewFrame(field, along.Left(), 1).Tight()}, y, cut)
	c.Area, c.Cut, c.Filled = sol.Area-dug, cutArea, append(c.Filled, filled...)
	return c
}

// bed is a flat or a slope of the dug underside: what of one thickening lies in
// one plane.
type bed struct {
	along slab.Vec // along its level lines, or its longest side where it is flat
	slope float64  // its area over that in plan
	plane plane
	plan  float64 // area in plan, m²
	area  float64 // m²
	sides [][2]geometry.Point
}

// plane gives depths, in meters: at one place, and by how much they grow along X
// and Y.
type plane struct {
	at            geometry.Point
	depth, dx, dy float64
}

// beds gathers the faces of the underside, the largest first: the planes of small
// ones are known less well.
func beds(faces []solid.Face) []bed {
	var all []planed
	for _, f := range faces {
		if p := planeOf(f); p.plan >= leastBed {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b planed) int { return cmp.Compare(b.plan, a.plan) })
	var out []bed
	of := map[solid.Part][]int{} // the beds of each thickening
	for _, f := range all {
		known := of[f.Part]
		i := slices.IndexFunc(known, func(k int) bool { return out[k].continues(f) })
		if i < 0 {
			i, known = len(known), append(known, len(out))
			of[f.Part] = known
			out = append(out, newBed(f))
		}
		out[known[i]].add(f)
	}
	for i := range out {
		out[i].sides = border(out[i].sides)
	}
	return out
}

func (b *bed) add(f planed) {
	b.plan += f.plan
	b.area += f.plan * f.slope()
	for i, c := range f.Corners {
		b.sides = append(b.sides, [2]geometry.Point{c, f.Corners[(i+1)%len(f.Corners)]})
	}
}

// leastBed is an area, in m², that only rounding makes.
const leastBed = 1e-8

// planed is a face with its plane and its area in plan, in m².
type planed struct {
	solid.Face
	plane
	plan float64
}

func planeOf(f solid.Face) planed {
	// Newell's normal, about the first corner.
	var nx, ny, nz float64
	at := func(i int) (x, y, d float64) {
		q := f.Corners[i%len(f.Corners)].Sub(f.Corners[0])
		return q.X.Meters(), q.Y.Meters(), f.Depths[i%len(f.Depths)].Meters()
	}
	for i := range f.Corners {
		ax, ay, ad := at(i)
		bx, by, bd := at(i + 1)
		nx += (ay - by) * (ad + bd)
		ny += (ad - bd) * (ax + bx)
		nz += (ax - bx) * (ay + by)
	}
	if nz == 0 {
		return planed{Face: f}
	}
	return planed{f, plane{f.Corners[0], f.Depths[0].Meters(), -nx / nz, -ny / nz}, math.Abs(nz) / 2}
}

// slope gives the area of a plane over that in plan.
func (p plane) slope() float64 { return math.Sqrt(1 + p.dx*p.dx + p.dy*p.dy) }

// flat is a fall per length that only rounding makes.
const flat = 1e-4

func (p plane) flat() bool { return math.Hypot(p.dx, p.dy) < flat }

func newBed(f planed) bed {
	b := bed{plane: f.plane, slope: 1}
	if !f.flat() {
		h := math.Hypot(f.dx, f.dy)
		b.along, b.slope = slab.Vec{X: -f.dy / h, Y: f.dx / h}, f.slope()
		return b
	}
	var long geometry.Length
	for i, c := range f.Corners {
		next := f.Corners[(i+1)%len(f.Corners)]
		if c == next {
			continue
		}
		if s := slab.NewSide(0, 0, c, next); s.Length > long {
			long, b.along = s.Length, slab.Vec{X: s.Ux, Y: s.Uy}
		}
	}
	return b
}

// continues tells whether a face of the same thickening lies in the bed's plane.
func (b *bed) continues(f planed) bool {
	q := f.at.Sub(b.plane.at)
	there := b.plane.depth + b.plane.dx*q.X.Meters() + b.plane.dy*q.Y.Meters()
	return math.Hypot(b.plane.dx-f.dx, b.plane.dy-f.dy) < flat && math.Abs(there-f.depth) < flat
}

// border gives the sides that belong to one polygon only: those that two share
// bound nothing.
func border(sides [][2]geometry.Point) [][2]geometry.Point {
	key := func(s [2]geometry.Point) [2]geometry.Point {
		if a, b := s[0], s[1]; a.X > b.X || a.X == b.X && a.Y > b.Y {
			return [2]geometry.Point{b, a}
		}
		return s
	}
	count := make(map[[2]geometry.Point]int, len(sides))
	for _, s := range sides {
		count[key(s)]++
	}
	var out [][2]geometry.Point
	for _, s := range sides {
		if s[0] != s[1] && count[key(s)]%2 == 1 {
			out = append(out, s)
			count[key(s)] = 0
		}
	}
	return out
}

// Drape gives by how much a sheet that follows the underside across a haunch is
// longer than in plan, at the edge where that is most.
func Drape(p plan.Plan) geometry.Length {
	var most geometry.Length
	for _, l := range p.Loops() {
		for i, e := range l {
			for _, span := range l.Spans(i) {
				sec, ok := p.SectionOn(e, span.Section)
				if !ok {
					continue
				}
				st := sec.Stations(p.Field)
				more := geometry.Length(0)
				for k := 1; k < len(st); k++ {
					across, down := st[k].Inset-st[k-1].Inset, st[k].Depth-st[k-1].Depth
					more += geometry.Rounded(math.Hypot(float64(across), float64(down))) - across
				}
				most = max(most, more)
			}
		}
	}
	return most
}
