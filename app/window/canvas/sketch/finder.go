package sketch

import (
	"image"
	"math"

	"haunchbook.example/geometry"
)

// Sketch finds what is drawn on a picture, for the pointer to be drawn to: the
// middle of a pen's line, and where lines meet.
type Finder struct {
	img           *image.RGBA
	toImg, toPlan Map
	light         []float64 // scratch: the lightness around a place, 0 to 255
	ink           []float64 // scratch: how dark each of these is, 0 to 1
	slopes        []tensor  // scratch: the slopes of ink, summed from the upper left
	size          int       // of the side of both
	x0, y0        int       // where they begin on the picture
}

// NewSketch looks at a picture that lies with its corners at four places of the
// plan.
func NewFinder(img *image.RGBA, corners []geometry.Point) (*Finder, error) {
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	frame := [4]XY{{0, 0}, {w, 0}, {w, h}, {0, h}}
	to, err := Between(four(corners), frame)
	if err != nil {
		return nil, err
	}
	from, err := Between(frame, four(corners))
	if err != nil {
		return nil, err
	}
	return &Finder{img: img, toImg: to, toPlan: from}, nil
}

// How far is looked, in pixels of the picture: no less than a pen's line, and no
// more than can be done at every move of the pointer.
const (
	leastLook = 4
	mostLook  = 28
)

// Find gives what is drawn nearest to a place of the plan within reach: a corner
// where lines meet, else the middle of a line. False where the picture is blank
// there, or all dark.
func (s *Finder) Find(at geometry.Point, reach geometry.Length) (p geometry.Point, corner, ok bool) {
	c := s.toImg.Apply(xy(at))
	e := s.toImg.Apply(xy(at.Add(geometry.Point{X: reach})))
	n := s.toImg.Apply(xy(at.Add(geometry.Point{Y: reach})))
	r := (math.Hypot(e.X-c.X, e.Y-c.Y) + math.Hypot(n.X-c.X, n.Y-c.Y)) / 2
	if !(r >= leastLook/2) || !(c.X >= 0 && c.Y >= 0) || c.X > float64(s.img.Rect.Dx()) || c.Y > float64(s.img.Rect.Dy()) {
		return p, false, false
	}
	r = min(max(r, leastLook), mostLook)
	if !s.look(c, r) {
		return p, false, false
	}
	if q, ok := s.meeting(c, r); ok {
		return point(s.toPlan.Apply(q)), true, true
	}
	if q, ok := s.line(c, r); ok {
		return point(s.toPlan.Apply(q)), false, true
	}
	return p, false, false
}

// look takes in the picture around c, and tells whether there is something drawn
// on it: a part of it that is darker than the rest, as N. Otsu's method of 1979
// divides the two.
func (s *Finder) look(c XY, r float64) bool {
	half := int(math.Ceil(r*1.6)) + 2*leastLook
	s.size = 2*half + 1
	s.x0, s.y0 = int(c.X)-half, int(c.Y)-half
	if cap(s.light) < s.size*s.size {
		s.light, s.ink, s.slopes = make([]float64, s.size*s.size), make([]float64, s.size*s.size), make([]tensor, s.size*s.size)
	}
	s.light, s.ink, s.slopes = s.light[:s.size*s.size], s.ink[:s.size*s.size], s.slopes[:s.size*s.size]
	var counts [256]int
	w, h := s.img.Rect.Dx(), s.img.Rect.Dy()
	for y := range s.size {
		for x := range s.size {
			px, py := min(max(s.x0+x, 0), w-1), min(max(s.y0+y, 0), h-1)
			o := py*s.img.Stride + px*4
			// The weights of ITU-R BT.601.
			l := (299*int(s.img.Pix[o]) + 587*int(s.img.Pix[o+1]) + 114*int(s.img.Pix[o+2])) / 1000
			s.light[y*s.size+x] = float64(l)
			counts[l]++
		}
	}
	dark, pale, share := otsu(&counts, s.size*s.size)
	const contrast, most = 36, 0.5
	if pale-dark < contrast || share > most {
		return false
	}
	for i, l := range s.light {
		s.ink[i] = min(max((pale-l)/(pale-dark), 0), 1)
	}
	return true
}

// otsu divides lightnesses into a dark and a pale class so that the variance
// between them is greatest; it gives their means and the dark one's share.
func otsu(counts *[256]int, n int) (dark, pale, share float64) {
	total := 0.0
	for l, k := range counts {
		total += float64(l * k)
	}
	best, below, sum := -1.0, 0, 0.0
	for l, k := range counts {
		below += k
		sum += float64(l * k)
		if below == 0 || below == n {
			continue
		}
		a, b := sum/float64(below), (total-sum)/float64(n-below)
		if v := float64(below) * float64(n-below) * (a - b) * (a - b); v > best {
			best, dark, pale, share = v, a, b, float64(below)/float64(n)
		}
	}
	return dark, pale, share
}

// tensor is the structure tensor around a place: what the slopes of ink are there,
// and the sums for the point that all lines across them go through.
type tensor struct{ xx, xy, yy, bx, by float64 }

// around sums the slopes of ink within a radius of c.
func (s *Finder) around(c XY, radius float64) tensor {
	var t tensor
	cx, cy := c.X-float64(s.x0)-0.5, c.Y-float64(s.y0)-0.5
	lo := func(f float64) int { return max(int(f-radius), 1) }
	hi := func(f float64) int { return min(int(f+radius)+1, s.size-2) }
	for y := lo(cy); y <= hi(cy); y++ {
		for x := lo(cx); x <= hi(cx); x++ {
			dx, dy := float64(x)-cx, float64(y)-cy
			if dx*dx+dy*dy > radius*radius {
				continue
			}
			i := y*s.size + x
			gx, gy := s.ink[i+1]-s.ink[i-1], s.ink[i+s.size]-s.ink[i-s.size]
			t.xx += gx * gx
			t.xy += gx * gy
			t.yy += gy * gy
			t.bx += gx*gx*dx + gx*gy*dy
			t.by += gx*gy*dx + gy*gy*dy
		}
	}
	return t
}

// spread gives the lesser and the greater eigenvalue.
func (t tensor) spread() (lesser, greater float64) {
	m, d := (t.xx+t.yy)/2, math.Hypot((t.xx-t.yy)/2, t.xy)
	return m - d, m + d
}

// gather sums the slopes of ink over every rectangle that begins in the upper left.
func (s *Finder) gather() {
	n := s.size
	for y := range n {
		var row tensor
		for x := range n {
			i := y*n + x
			if x > 0 && y > 0 && x < n-1 && y < n-1 {
				gx, gy := s.ink[i+1]-s.ink[i-1], s.ink[i+n]-s.ink[i-n]
				row.xx += gx * gx
				row.xy += gx * gy
				row.yy += gy * gy
			}
			t := row
			if y > 0 {
				u := s.slopes[i-n]
				t.xx, t.xy, t.yy = t.xx+u.xx, t.xy+u.xy, t.yy+u.yy
			}
			s.slopes[i] = t
		}
	}
}

// square gives the slopes of ink in a square about a pixel.
func (s *Finder) square(x, y, half int) tensor {
	at := func(x, y int) tensor { return s.slopes[min(max(y, 0), s.size-1)*s.size+min(max(x, 0), s.size-1)] }
	a, b, c, d := at(x-half-1, y-half-1), at(x+half, y-half-1), at(x-half-1, y+half), at(x+half, y+half)
	return tensor{xx: d.xx - b.xx - c.xx + a.xx, xy: d.xy - b.xy - c.xy + a.xy, yy: d.yy - b.yy - c.yy + a.yy}
}

// least is how strong, of the slopes across the strongest line, those along it are
// where lines meet.
const least = 0.15

// meeting finds where lines meet: the place where the lesser slopes are greatest,
// near ones before far ones, and from there by W. Förstner's and E. Gülch's operator
// of 1987: the point nearest to all lines square to the slopes around it.
func (s *Finder) meeting(c XY, r float64) (XY, bool) {
	s.gather()
	cx, cy := int(c.X)-s.x0, int(c.Y)-s.y0
	half := int(max(leastLook+1, r*0.35))
	bx, by, best := 0, 0, 0.0
	for y := cy - int(r); y <= cy+int(r); y++ {
		for x := cx - int(r); x <= cx+int(r); x++ {
			away := float64((x-cx)*(x-cx)+(y-cy)*(y-cy)) / (r * r)
			if away > 1 || s.ink[y*s.size+x] < 0.5 {
				continue
			}
			lesser, greater := s.square(x, y, half).spread()
			if score := lesser * (1 - 0.6*away); lesser > least*greater && greater > 1 && score > best {
				bx, by, best = x, y, score
			}
		}
	}
	if best == 0 {
		return XY{}, false
	}
	from := XY{float64(s.x0+bx) + 0.5, float64(s.y0+by) + 0.5}
	at, radius := from, float64(half)*1.8
	for range 6 {
		t := s.around(at, radius)
		lesser, greater := t.spread()
		det := t.xx*t.yy - t.xy*t.xy
		if !(lesser > least/2*greater) || det <= 0 {
			return from, true
		}
		at = XY{at.X + (t.yy*t.bx-t.xy*t.by)/det, at.Y + (t.xx*t.by-t.xy*t.bx)/det}
		if math.Hypot(at.X-from.X, at.Y-from.Y) > radius {
			return from, true
		}
	}
	if s.darkest(at) < 0.5 {
		return from, true
	}
	return at, true
}

// darkest gives the most ink beside a place.
func (s *Finder) darkest(c XY) float64 {
	x, y := int(c.X)-s.x0, int(c.Y)-s.y0
	most := 0.0
	for dy := -2; dy <= 2; dy++ {
		for dx := -2; dx <= 2; dx++ {
			if px, py := x+dx, y+dy; px >= 0 && py >= 0 && px < s.size && py < s.size {
				most = max(most, s.ink[py*s.size+px])
			}
		}
	}
	return most
}

// line finds the middle of the line nearest to c, straight across it.
func (s *Finder) line(c XY, r float64) (XY, bool) {
	t := s.around(c, r)
	if _, greater := t.spread(); greater < 1 {
		return XY{}, false
	}
	// Across the line is the direction of the greater eigenvalue.
	angle := math.Atan2(2*t.xy, t.xx-t.yy) / 2
	ny, nx := math.Sincos(angle)
	best, near := 0.0, math.Inf(1)
	start, weight, moment := 0.0, 0.0, 0.0
	const enough, step = 0.4, 0.5
	for d := -r; d <= r+step; d += step {
		ink := 0.0
		if d <= r {
			ink = s.across(c, nx, ny, d)
		}
		if ink > enough {
			if weight == 0 {
				start = d
			}
			weight += ink
			moment += ink * d
			continue
		}
		if weight > 0 && d-start < r { // a line, no dark field
			if mid := moment / weight; math.Abs(mid) < near {
				best, near = mid, math.Abs(mid)
			}
		}
		weight, moment = 0, 0
	}
	if near > r {
		return XY{}, false
	}
	return XY{c.X + nx*best, c.Y + ny*best}, true
}

// across gives the ink at a distance across a line, on average over a short
// stretch along it.
func (s *Finder) across(c XY, nx, ny, d float64) float64 {
	sum := 0.0
	for k := -2; k <= 2; k++ {
		x, y := c.X+nx*d-ny*float64(k), c.Y+ny*d+nx*float64(k)
		sum += s.at(x-float64(s.x0)-0.5, y-float64(s.y0)-0.5)
	}
	return sum / 5
}

// at gives the ink between the middles of four pixels.
func (s *Finder) at(x, y float64) float64 {
	x, y = min(max(x, 0), float64(s.size-2)), min(max(y, 0), float64(s.size-2))
	ix, iy := int(x), int(y)
	fx, fy := x-float64(ix), y-float64(iy)
	i := iy*s.size + ix
	return (s.ink[i]*(1-fx)+s.ink[i+1]*fx)*(1-fy) + (s.ink[i+s.size]*(1-fx)+s.ink[i+s.size+1]*fx)*fy
}
