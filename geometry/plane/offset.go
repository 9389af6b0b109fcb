package plane

import (
	"math"

	"haunchbook.example/geometry"
)

// sharpest is the greatest turn of a corner, by its cosine, that an offset keeps
// pointed: its tip is then four times the offset away. Sharper ones, of less than
// 29 degrees, are cut off square at the offset's distance.
const sharpest = -7.0 / 8

// Offset gives the region with its border moved outward by a distance, or inward
// where that is negative, parallel to every side. Corners stay corners, as with
// boards and trenches, unless they are sharper than 29 degrees. Parts that meet
// become one and what is too narrow goes.
func (g Region) Offset(by geometry.Length) Region {
	if by == 0 {
		return Union(g)
	}
	d := math.Abs(float64(by))
	var band Region // what the border sweeps over
	for _, r := range g {
		n := len(r)
		for i, b := range r {
			a, c := r[(i+n-1)%n], r[(i+1)%n]
			if a == b || b == c {
				continue
			}
			u, w := direction(a, b), direction(b, c)
			m, k := u.Left().Times(d), w.Left().Times(d)
			if by > 0 {
				m, k = m.Times(-1), k.Times(-1)
				band = append(band, geometry.Ring{moved(b, k), moved(c, k), c, b})
			} else {
				band = append(band, geometry.Ring{b, c, moved(c, k), moved(b, k)})
			}
			if o := geometry.Orientation(a, b, c); o > 0 && by > 0 {
				band = append(band, append(tip(b, u, w, m, k, d), b))
			} else if o < 0 && by < 0 {
				band = append(band, append(tip(b, w.Times(-1), u.Times(-1), k, m, d), b))
			}
		}
	}
	if by > 0 {
		return Union(g, band)
	}
	return Subtract(g, band)
}

// tip gives the outer corners at corner b of a band, from the side along u, moved
// by m, to the side along w, moved by k.
func tip(b geometry.Point, u, w, m, k Vec, d float64) geometry.Ring {
	cos := u.Dot(w)
	if cos >= sharpest {
		return geometry.Ring{moved(b, m), moved(b, m.Add(k).Times(1/(1+cos))), moved(b, k)}
	}
	on := d * math.Tan(math.Acos(max(cos, -1))/4)
	return geometry.Ring{moved(b, m), moved(b, m.Add(u.Times(on))), moved(b, k.Sub(w.Times(on))), moved(b, k)}
}

// direction gives the unit vector from a to b.
func direction(a, b geometry.Point) Vec {
	d := b.Sub(a)
	return Vec{float64(d.X), float64(d.Y)}.Unit()
}

// moved gives p moved by nanometers, rounded.
func moved(p geometry.Point, by Vec) geometry.Point {
	return p.Add(geometry.Point{X: geometry.Length(math.Round(by.X)), Y: geometry.Length(math.Round(by.Y))})
}
