package scene

import (
	"math"
	"slices"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// stretch is a part of a line, from 0 to 1.
type stretch struct{ from, to float64 }

// onSlab gives the parts of the line a-b that lie on the slab or on its border.
func onSlab(loops []plan.Loop, a, b geometry.Point, cuts []float64, out []stretch) ([]float64, []stretch) {
	ax, ay := float64(a.X), float64(a.Y)
	dx, dy := float64(b.X)-ax, float64(b.Y)-ay
	long := math.Hypot(dx, dy)
	cuts, out = append(cuts[:0], 0, 1), out[:0]
	if long == 0 {
		return cuts, out
	}
	for _, l := range loops {
		for i := range l {
			p, q := l.Ends(i)
			px, py := float64(p.X)-ax, float64(p.Y)-ay
			qx, qy := float64(q.X)-ax, float64(q.Y)-ay
			// Heights over the line a-b.
			hp, hq := (dx*py-dy*px)/long, (dx*qy-dy*qx)/long
			if hp > 1 && hq > 1 || hp < -1 && hq < -1 {
				continue
			}
			tp, tq := (px*dx+py*dy)/(long*long), (qx*dx+qy*dy)/(long*long)
			if math.Abs(hp-hq) < 2 {
				cuts = append(cuts, tp, tq)
			} else {
				cuts = append(cuts, tp+(tq-tp)*hp/(hp-hq))
			}
		}
	}
	slices.Sort(cuts)
	// A stretch along the border has the slab on one side.
	const aside = float64(geometry.Millimeter)
	nx, ny := -dy/long*aside, dx/long*aside
	for i := 1; i < len(cuts); i++ {
		from, to := max(cuts[i-1], 0), min(cuts[i], 1)
		if (to-from)*long < aside {
			continue
		}
		x, y := ax+dx*(from+to)/2, ay+dy*(from+to)/2
		if !contains(loops, x+nx, y+ny) && !contains(loops, x-nx, y-ny) {
			continue
		}
		if n := len(out); n > 0 && (from-out[n-1].to)*long < aside {
			out[n-1].to = to
		} else {
			out = append(out, stretch{from, to})
		}
	}
	return cuts, out
}

// contains tells whether a point is on the slab, by the even-odd rule.
func contains(loops []plan.Loop, x, y float64) bool {
	in := false
	for _, l := range loops {
		for i := range l {
			p, q := l.Ends(i)
			py, qy := float64(p.Y), float64(q.Y)
			if (py > y) != (qy > y) && x < float64(p.X)+(float64(q.X)-float64(p.X))*(y-py)/(qy-py) {
				in = !in
			}
		}
	}
	return in
}

// trimmed gives the parts of some lines that lie on the slab.
func trimmed(loops []plan.Loop, lines []border) []border {
	var out []border
	var cuts []float64
	var parts []stretch
	for _, l := range lines {
		cuts, parts = onSlab(loops, l.A, l.B, cuts, parts)
		for _, p := range parts {
			out = append(out, border{solid.Line{A: pointOn(l.A, l.B, p.from), B: pointOn(l.A, l.B, p.to)}, l.at})
		}
	}
	return out
}

func pointOn(a, b geometry.Point, t float64) geometry.Point {
	return geometry.Point{
		X: a.X + geometry.Length(math.Round(float64(b.X-a.X)*t)),
		Y: a.Y + geometry.Length(math.Round(float64(b.Y-a.Y)*t)),
	}
}

// trimmedLine draws what of a line lies on the slab.
func (s *Scene) trimmedLine(a, b geometry.Point, c shade) {
	s.cuts, s.parts = onSlab(s.loops, a, b, s.cuts, s.parts)
	p, q := s.pt(a), s.pt(b)
	for _, t := range s.parts {
		s.Brush.Line(paint.Point{X: p.X + (q.X-p.X)*t.from, Y: p.Y + (q.Y-p.Y)*t.from}, paint.Point{X: p.X + (q.X-p.X)*t.to, Y: p.Y + (q.Y-p.Y)*t.to}, s.k, c)
	}
}

// clipped cuts a ring of device points to a convex one, by the method of
// Sutherland and Hodgman (Communications of the ACM 17(1), 1974): what is cut in
// parts stays joined along the cuts, where it has no area.
func (s *Scene) clipped(ring, convex []paint.Point, out []paint.Point) []paint.Point {
	area := 0.0
	for i, p := range convex {
		q := convex[(i+1)%len(convex)]
		area += p.X*q.Y - q.X*p.Y
	}
	way := 1.0
	if area < 0 {
		way = -1
	}
	out = append(out[:0], ring...)
	for i, a := range convex {
		b := convex[(i+1)%len(convex)]
		side := func(p paint.Point) float64 { return way * ((b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X)) }
		s.path = append(s.path[:0], out...)
		out = out[:0]
		for k, p := range s.path {
			q := s.path[(k+1)%len(s.path)]
			fp, fq := side(p), side(q)
			if fp >= 0 {
				out = append(out, p)
			}
			if fp > 0 && fq < 0 || fp < 0 && fq > 0 {
				t := fp / (fp - fq)
				out = append(out, paint.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)})
			}
		}
	}
	return out
}
