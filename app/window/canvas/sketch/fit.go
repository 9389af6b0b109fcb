// Package sketch lays a photograph or scan of a sketch under the plan: fitting it by
// known lengths and four corners, drawing it, and finding its lines.
package sketch

import (
	"errors"
	"image"
	"math"

	"haunchbook.example/geometry"
)

// XY is a point in pixels or in any other unit.
type XY struct{ X, Y float64 }

// Map is a projective map of the plane: straight lines stay straight.
type Map [9]float64

// Apply gives where the map takes p.
func (m Map) Apply(p XY) XY {
	w := m[6]*p.X + m[7]*p.Y + m[8]
	return XY{(m[0]*p.X + m[1]*p.Y + m[2]) / w, (m[3]*p.X + m[4]*p.Y + m[5]) / w}
}

// Between gives the map that takes four points to four others, by solving for
// its eight coefficients. Three of either in a line give an error.
func Between(from, to [4]XY) (Map, error) {
	// Both are moved and scaled to about the unit square first, so that the
	// equations are well conditioned.
	nf, from := normal(from)
	nt, to := normal(to)
	if inLine(from) || inLine(to) {
		return Map{}, errInLine
	}
	var a [8][9]float64
	for i := range 4 {
		x, y, u, v := from[i].X, from[i].Y, to[i].X, to[i].Y
		a[2*i] = [9]float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u}
		a[2*i+1] = [9]float64{0, 0, 0, x, y, 1, -v * x, -v * y, v}
	}
	for c := range 8 {
		p := c
		for r := c; r < 8; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if !(math.Abs(a[p][c]) > 1e-9) {
			return Map{}, errInLine
		}
		a[c], a[p] = a[p], a[c]
		for r := range 8 {
			if r == c {
				continue
			}
			f := a[r][c] / a[c][c]
			for k := c; k < 9; k++ {
				a[r][k] -= f * a[c][k]
			}
		}
	}
	var m Map
	for i := range 8 {
		m[i] = a[i][8] / a[i][i]
	}
	m[8] = 1
	return inverseScale(nt).times(m).times(nf), nil
}

var errInLine = errors.New("three of the four points lie in a line; choose corners of a rectangle")

// inLine tells whether three of four points of about unit size lie in a line.
func inLine(p [4]XY) bool {
	for i := range p {
		a, b, c := p[i], p[(i+1)%4], p[(i+2)%4]
		if math.Abs((b.X-a.X)*(c.Y-a.Y)-(b.Y-a.Y)*(c.X-a.X)) < 1e-9 {
			return true
		}
	}
	return false
}

// normal moves the middle of four points to the origin and scales them to about
// one; it gives the map as well.
func normal(p [4]XY) (Map, [4]XY) {
	var c XY
	for _, q := range p {
		c.X += q.X / 4
		c.Y += q.Y / 4
	}
	s := 0.0
	for _, q := range p {
		s = max(s, math.Abs(q.X-c.X), math.Abs(q.Y-c.Y))
	}
	if s == 0 {
		s = 1
	}
	m := Map{1 / s, 0, -c.X / s, 0, 1 / s, -c.Y / s, 0, 0, 1}
	for i := range p {
		p[i] = m.Apply(p[i])
	}
	return m, p
}

// inverseScale inverts a map that only scales and moves.
func inverseScale(m Map) Map {
	return Map{1 / m[0], 0, -m[2] / m[0], 0, 1 / m[4], -m[5] / m[4], 0, 0, 1}
}

// times gives the map that does n first and then m.
func (m Map) times(n Map) Map {
	var out Map
	for r := range 3 {
		for c := range 3 {
			for k := range 3 {
				out[3*r+c] += m[3*r+k] * n[3*k+c]
			}
		}
	}
	return out
}

func xy(p geometry.Point) XY { return XY{float64(p.X), float64(p.Y)} }

func point(p XY) geometry.Point {
	return geometry.Point{X: geometry.Length(math.Round(p.X)), Y: geometry.Length(math.Round(p.Y))}
}

func four(ps []geometry.Point) (out [4]XY) {
	for i := range out {
		out[i] = xy(ps[i])
	}
	return out
}

// Place gives the corners of a picture of that many pixels, laid into the middle
// of a box of the plan.
func Place(size image.Point, lo, hi geometry.Point) []geometry.Point {
	w, h := float64(hi.X-lo.X), float64(hi.Y-lo.Y)
	s := min(w/float64(max(size.X, 1)), h/float64(max(size.Y, 1)))
	w, h = s*float64(size.X)/2, s*float64(size.Y)/2
	c := XY{float64(lo.X)/2 + float64(hi.X)/2, float64(lo.Y)/2 + float64(hi.Y)/2}
	return []geometry.Point{point(XY{c.X - w, c.Y + h}), point(XY{c.X + w, c.Y + h}), point(XY{c.X + w, c.Y - h}), point(XY{c.X - w, c.Y - h})}
}

// Move moves the corners.
func Move(corners []geometry.Point, by geometry.Point) []geometry.Point {
	return each(corners, func(p geometry.Point) geometry.Point { return p.Add(by) })
}

// Turn turns the corners a quarter counter-clockwise about their middle.
func Turn(corners []geometry.Point) []geometry.Point {
	var x, y geometry.Length
	for _, p := range corners {
		x, y = x+p.X/4, y+p.Y/4
	}
	return each(corners, func(p geometry.Point) geometry.Point { return geometry.Point{X: x - (p.Y - y), Y: y + (p.X - x)} })
}

func each(corners []geometry.Point, f func(geometry.Point) geometry.Point) []geometry.Point {
	out := make([]geometry.Point, len(corners))
	for i, p := range corners {
		out[i] = f(p)
	}
	return out
}

// Square takes the perspective out: four points of the picture, counter-clockwise
// from a lower left, become a rectangle of that width and length, the first of
// them held.
func Square(corners []geometry.Point, at [4]geometry.Point, width, length geometry.Length) ([]geometry.Point, error) {
	if width <= 0 || length <= 0 {
		return nil, errors.New("a length must be more than 0")
	}
	a := at[0]
	to := [4]XY{xy(a), xy(a.Add(geometry.Point{X: width})), xy(a.Add(geometry.Point{X: width, Y: length})), xy(a.Add(geometry.Point{Y: length}))}
	m, err := Between(four(at[:]), to)
	if err != nil {
		return nil, err
	}
	out := make([]geometry.Point, len(corners))
	side := 0.0
	for i, p := range corners {
		w := m[6]*float64(p.X) + m[7]*float64(p.Y) + m[8]
		q := m.Apply(xy(p))
		if side == 0 {
			side = w
		}
		if w*side <= 0 || math.Abs(q.X) > float64(geometry.MaxLength) || math.Abs(q.Y) > float64(geometry.MaxLength) {
			return nil, errors.New("these points would fold the picture over; choose the corners in order round the rectangle")
		}
		out[i] = point(q)
	}
	return out, nil
}
