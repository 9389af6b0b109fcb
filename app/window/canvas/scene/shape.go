package scene

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// Shape is a solid made ready to be drawn. It may be made beside the window.
type Shape struct {
	solid   *solid.Solid
	field   geometry.Length
	deepest geometry.Length
	faces   []solid.Face
	ridges  []solid.Line
	flats   []flat
	steep   float64 // greatest slope of the underside
	fields  []geometry.Point

	step     geometry.Length // of contours
	contours []solid.Contour // longest first
}

// flat is a level face of the underside.
type flat struct {
	at    geometry.Point
	depth geometry.Length
	size  float64 // length of its longest side in nanometers
	thick float64 // its width across that
}

// ShapeOf makes a solid ready. Field is its thickness away from thickenings.
func ShapeOf(sol *solid.Solid, field geometry.Length) *Shape {
	s := &Shape{solid: sol, field: field, deepest: field, faces: sol.Faces(), ridges: sol.Ridges()}
	for _, f := range s.faces {
		lo, hi := f.Depths[0], f.Depths[0]
		for _, d := range f.Depths {
			lo, hi = min(lo, d), max(hi, d)
		}
		s.deepest = max(s.deepest, hi)
		at, long, wide := extent(f.Corners)
		if hi-lo < geometry.Sixteenth/4 {
			s.flats = append(s.flats, flat{at, hi, long, wide})
		} else if wide > 0 {
			s.steep = max(s.steep, slope(f))
		}
	}
	slices.SortStableFunc(s.flats, func(a, b flat) int { return cmp.Compare(b.size*b.thick, a.size*a.thick) })
	return s
}

// extent gives the middle of a face, its longest side, and its width across it.
func extent(ps []geometry.Point) (at geometry.Point, long, wide float64) {
	var x, y float64
	k := 0
	for i, p := range ps {
		x, y = x+float64(p.X)/float64(len(ps)), y+float64(p.Y)/float64(len(ps))
		q := ps[(i+1)%len(ps)]
		if l := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)); l > long {
			long, k = l, i
		}
	}
	if long > 0 {
		a, b := ps[k], ps[(k+1)%len(ps)]
		ux, uy := float64(b.X-a.X)/long, float64(b.Y-a.Y)/long
		for _, p := range ps {
			wide = max(wide, math.Abs(float64(p.Y-a.Y)*ux-float64(p.X-a.X)*uy))
		}
	}
	return geometry.Point{X: geometry.Length(x), Y: geometry.Length(y)}, long, wide
}

// slope gives how steep a face is: depth over distance.
func slope(f solid.Face) float64 {
	// The plane through the corners, from the two that span it best.
	a, best, out := f.Corners[0], 0.0, 0.0
	for i := 1; i < len(f.Corners); i++ {
		for k := i + 1; k < len(f.Corners); k++ {
			ux, uy, uz := float64(f.Corners[i].X-a.X), float64(f.Corners[i].Y-a.Y), float64(f.Depths[i]-f.Depths[0])
			vx, vy, vz := float64(f.Corners[k].X-a.X), float64(f.Corners[k].Y-a.Y), float64(f.Depths[k]-f.Depths[0])
			if area := math.Abs(ux*vy - uy*vx); area > best {
				best = area
				out = math.Hypot(uz*vy-vz*uy, ux*vz-vx*uz) / area
			}
		}
	}
	return out
}

// open gives some points of the slab where it is as thick as the field, the one
// with the most room first. They are looked for once.
func (s *Shape) open(lo, hi geometry.Point) []geometry.Point {
	if s.fields != nil {
		return s.fields
	}
	const n = 9
	s.fields = []geometry.Point{}
	for _, k := range [...]int{4, 3, 5, 2, 6} {
		for _, i := range [...]int{3, 5, 2, 6, 4} {
			p := geometry.Point{
				X: lo.X + (hi.X-lo.X)/n*geometry.Length(i) + (hi.X-lo.X)/(2*n),
				Y: lo.Y + (hi.Y-lo.Y)/n*geometry.Length(k) + (hi.Y-lo.Y)/(2*n),
			}
			if d, ok := s.solid.DepthAt(p); ok && (d-s.field).Abs() < geometry.Sixteenth/4 {
				s.fields = append(s.fields, p)
			}
		}
	}
	return s.fields
}

// steps are the distances between contours to choose from.
var steps = map[geometry.Units][]geometry.Length{
	geometry.FeetInches:  {geometry.Inch / 2, geometry.Inch, 2 * geometry.Inch, 3 * geometry.Inch, 6 * geometry.Inch, 12 * geometry.Inch},
	geometry.Millimeters: {10 * geometry.Millimeter, 25 * geometry.Millimeter, 50 * geometry.Millimeter, 100 * geometry.Millimeter, 250 * geometry.Millimeter},
}

// contoursAt gives contours that lie at least 6 pixels apart and are at most a
// dozen; pixels is how many of them a nanometer takes.
func (s *Shape) contoursAt(u geometry.Units, pixels float64) []solid.Contour {
	step := geometry.Length(0)
	if s.steep > 0 {
		for _, d := range steps[u] {
			if float64(d)/s.steep*pixels >= 6 && (s.deepest-s.field)/d <= 12 {
				step = d
				break
			}
		}
	}
	if step == s.step {
		return s.contours
	}
	s.step, s.contours = step, nil
	if step == 0 {
		return nil
	}
	var depths []geometry.Length
	for d := (s.field/step + 1) * step; d < s.deepest; d += step {
		depths = append(depths, d)
	}
	s.contours = s.solid.Contours(depths...)
	long := func(c solid.Contour) float64 {
		return math.Hypot(float64(c.B.X-c.A.X), float64(c.B.Y-c.A.Y))
	}
	slices.SortStableFunc(s.contours, func(a, b solid.Contour) int { return cmp.Compare(long(b), long(a)) })
	return s.contours
}
