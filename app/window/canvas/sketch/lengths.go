package sketch

import (
	"errors"
	"math"

	"haunchbook.example/geometry"
)

// Known is a length known on the picture.
type Known struct {
	A, B   XY // its ends on the picture, as parts of its width and height, Y down
	Length geometry.Length
	// Degrees is the direction from A to B, counter-clockwise from right, where
	// Turned is set.
	Turned  bool
	Degrees float64
}

var unit = [4]XY{{0, 0}, {1, 0}, {1, 1}, {0, 1}}

// On gives the place on the picture that a place of the plan shows.
func On(corners []geometry.Point, p geometry.Point) (XY, error) {
	m, err := Between(four(corners), unit)
	return m.Apply(xy(p)), err
}

// At gives the place of the plan where a place on the picture lies.
func At(corners []geometry.Point, on XY) (geometry.Point, error) {
	m, err := Between(unit, four(corners))
	return point(m.Apply(on)), err
}

// Fit gives the corners of the picture so that lengths known on it come out, with
// the first end of the first held, and how far each then is from what it should
// be. One length sets the scale. Two in different directions set the scale across
// and up, a third checks it, and four or more set a slant as well, which a camera
// held at an angle makes; what is left over is shared out by least squares, each
// length by its part.
// Directions turn the picture. It is an error where the lengths contradict each
// other.
func Fit(corners []geometry.Point, known []Known) (fitted []geometry.Point, off []geometry.Length, err error) {
	m, err := Between(unit, four(corners))
	if err != nil {
		return nil, nil, err
	}
	if len(known) == 0 {
		return nil, nil, errors.New("give a length that is known")
	}
	hold := m.Apply(known[0].A)
	spans := make([]XY, len(known))
	for i, k := range known {
		a, b := m.Apply(k.A), m.Apply(k.B)
		spans[i] = XY{b.X - a.X, b.Y - a.Y}
		if spans[i] == (XY{}) || k.Length <= 0 {
			return nil, nil, errors.New("choose two different points, and give a length of more than 0")
		}
	}
	g, err := metric(spans, known)
	if err != nil {
		return nil, nil, err
	}
	l := g.root()
	l = rotation(l, spans, known).times(l)
	for i, k := range known {
		s := l.apply(spans[i])
		off = append(off, geometry.Length(math.Round(math.Hypot(s.X, s.Y)-float64(k.Length))))
	}
	for _, c := range corners {
		p := xy(c)
		v := l.apply(XY{p.X - hold.X, p.Y - hold.Y})
		q := XY{hold.X + v.X, hold.Y + v.Y}
		if math.Abs(q.X) > float64(geometry.MaxLength) || math.Abs(q.Y) > float64(geometry.MaxLength) {
			return nil, nil, errors.New("the picture would be larger than any plan; check the length")
		}
		fitted = append(fitted, point(q))
	}
	return fitted, off, nil
}

// linear is a linear map of the plane, by rows.
type linear [4]float64

func (l linear) apply(p XY) XY { return XY{l[0]*p.X + l[1]*p.Y, l[2]*p.X + l[3]*p.Y} }

func (l linear) times(k linear) linear {
	return linear{l[0]*k[0] + l[1]*k[2], l[0]*k[1] + l[1]*k[3], l[2]*k[0] + l[3]*k[2], l[2]*k[1] + l[3]*k[3]}
}

// form is the symmetric matrix that gives the square of a length: xx, xy, yy.
type form [3]float64

// root gives the map that stretches the plane so that lengths come out as the form
// has them, and turns nothing.
func (g form) root() linear {
	d := math.Sqrt(g[0]*g[2] - g[1]*g[1])
	t := math.Sqrt(g[0] + g[2] + 2*d)
	return linear{(g[0] + d) / t, g[1] / t, g[1] / t, (g[2] + d) / t}
}

// metric finds the form from the lengths.
func metric(spans []XY, known []Known) (form, error) {
	// Of unit vectors, with their squares of how much longer they should be.
	type row struct{ x, y, square float64 }
	rows := make([]row, len(spans))
	for i, s := range spans {
		l := math.Hypot(s.X, s.Y)
		f := float64(known[i].Length) / l
		rows[i] = row{s.X / l, s.Y / l, f * f}
	}
	if len(rows) >= 4 { // all of the form
		var a [3][4]float64
		for _, r := range rows {
			v := [3]float64{r.x * r.x, 2 * r.x * r.y, r.y * r.y}
			for i := range 3 {
				for j := range 3 {
					a[i][j] += v[i] * v[j] / (r.square * r.square)
				}
				a[i][3] += v[i] / r.square
			}
		}
		if g, ok := solve3(a); ok && g.sane() {
			return g, nil
		} else if ok && !g.sane() {
			return form{}, errContradict
		}
	}
	// Across and up alone.
	var xx, xy, yy, bx, by float64
	for _, r := range rows {
		u, v := r.x*r.x/r.square, r.y*r.y/r.square
		xx, xy, yy, bx, by = xx+u*u, xy+u*v, yy+v*v, bx+u, by+v
	}
	if det := xx*yy - xy*xy; len(rows) > 1 && det > 0.05*xx*yy && xx*yy > 0 {
		g := form{(yy*bx - xy*by) / det, 0, (xx*by - xy*bx) / det}
		if !g.sane() {
			return form{}, errContradict
		}
		return g, nil
	}
	// One scale.
	sum, n := 0.0, 0.0
	for _, r := range rows {
		sum, n = sum+1/r.square, n+1/(r.square*r.square)
	}
	return form{sum / n, 0, sum / n}, nil
}

var errContradict = errors.New("these lengths contradict each other; check them, or fit the picture by four corners")

// sane tells whether the form has lengths in all directions, none more than twice
// as long as another: a picture is not slanted more than that.
func (g form) sane() bool {
	m, d := (g[0]+g[2])/2, math.Hypot((g[0]-g[2])/2, g[1])
	return m-d > 0 && m+d < 4*(m-d)
}

// solve3 solves three equations; false where they hang together.
func solve3(a [3][4]float64) (form, bool) {
	scale := math.Max(a[0][0], math.Max(a[1][1], a[2][2]))
	for c := range 3 {
		p := c
		for r := c; r < 3; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if !(math.Abs(a[p][c]) > 0.02*scale) {
			return form{}, false
		}
		a[c], a[p] = a[p], a[c]
		for r := range 3 {
			if r != c {
				f := a[r][c] / a[c][c]
				for k := c; k < 4; k++ {
					a[r][k] -= f * a[c][k]
				}
			}
		}
	}
	return form{a[0][3] / a[0][0], a[1][3] / a[1][1], a[2][3] / a[2][2]}, true
}

// rotation gives the turn that brings the lengths whose direction is known into it,
// longer ones counting for more.
func rotation(l linear, spans []XY, known []Known) linear {
	var sin, cos float64
	for i, k := range known {
		if !k.Turned {
			continue
		}
		s := l.apply(spans[i])
		turn := k.Degrees*math.Pi/180 - math.Atan2(s.Y, s.X)
		sin += float64(k.Length) * math.Sin(turn)
		cos += float64(k.Length) * math.Cos(turn)
	}
	h := math.Hypot(sin, cos)
	if h == 0 {
		return linear{1, 0, 0, 1}
	}
	sin, cos = sin/h, cos/h
	return linear{cos, -sin, sin, cos}
}
