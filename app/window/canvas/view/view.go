// Package view maps the plan to the screen and back.
//
// Screen coordinates are in logical pixels, X right and Y down, from the top
// left corner of the canvas; plan coordinates are lengths, Y up.
package view

import (
	"math"

	"haunchbook.example/geometry"
)

// View is what part of the plan is seen, and how large. It is a value: panning
// and zooming give a new one.
type View struct {
	Scale float64        // pixels per nanometer
	At    geometry.Point // the plan point in the top left corner of the screen
	W, H  float64        // size of the screen, pixels
}

// The scales between which zooming stays: 10 km across a small window, and a
// sixteenth of an inch as 40 pixels.
const (
	minScale = 400 / float64(geometry.MaxLength)
	maxScale = 40 / float64(geometry.Sixteenth)
)

// XY is a place on the screen.
type XY struct{ X, Y float64 }

// Distance gives the pixels from p to q.
func Distance(p, q XY) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Screen gives where a point of the plan is seen.
func (v View) Screen(p geometry.Point) XY {
	return XY{float64(p.X-v.At.X) * v.Scale, float64(v.At.Y-p.Y) * v.Scale}
}

// Plan gives the point of the plan seen at s, to the nanometer.
func (v View) Plan(s XY) geometry.Point {
	return geometry.Point{X: v.At.X + nm(s.X/v.Scale), Y: v.At.Y - nm(s.Y/v.Scale)}
}

func nm(f float64) geometry.Length { return geometry.Length(math.Round(f)) }

// Pixels gives how long l is on the screen.
func (v View) Pixels(l geometry.Length) float64 { return float64(l) * v.Scale }

// Length gives the length on the plan that px pixels show.
func (v View) Length(px float64) geometry.Length { return nm(px / v.Scale) }

// Pan moves the plan on the screen by dx, dy pixels.
func (v View) Pan(dx, dy float64) View {
	v.At.X = clamp(v.At.X - nm(dx/v.Scale))
	v.At.Y = clamp(v.At.Y + nm(dy/v.Scale))
	return v
}

// clamp keeps the view near the plans that are allowed.
func clamp(l geometry.Length) geometry.Length {
	return min(max(l, -4*geometry.MaxLength), 4*geometry.MaxLength)
}

// Zoom makes everything larger by the factor and keeps the plan point under s
// where it is.
func (v View) Zoom(s XY, factor float64) View {
	if !(factor > 0) || math.IsInf(factor, 0) {
		return v
	}
	held := v.Plan(s)
	v.Scale = min(max(v.Scale*factor, minScale), maxScale)
	v.At = geometry.Point{X: clamp(held.X - nm(s.X/v.Scale)), Y: clamp(held.Y + nm(s.Y/v.Scale))}
	return v
}

// Sized gives the same view, its center kept, on a screen of another size.
func (v View) Sized(w, h float64) View {
	if v.W > 0 && v.H > 0 {
		v = v.Pan((w-v.W)/2, (h-v.H)/2)
	}
	v.W, v.H = w, h
	return v
}

// Fit gives the view on a screen of w by h pixels that shows the box from lo to
// hi with a margin of that many pixels all round.
func Fit(lo, hi geometry.Point, w, h, margin float64) View {
	dx, dy := max(float64(hi.X-lo.X), float64(geometry.Foot)), max(float64(hi.Y-lo.Y), float64(geometry.Foot))
	margin = min(margin, w/3, h/3)
	scale := min((w-2*margin)/dx, (h-2*margin)/dy)
	if !(scale > 0) {
		scale = 1 / float64(geometry.Inch)
	}
	v := View{Scale: min(max(scale, minScale), maxScale), W: w, H: h}
	v.At = geometry.Point{
		X: lo.X/2 + hi.X/2 - nm(w/2/v.Scale),
		Y: lo.Y/2 + hi.Y/2 + nm(h/2/v.Scale),
	}
	return v
}

// Times gives the view for a screen of k device pixels per logical one.
func (v View) Times(k float64) View {
	v.Scale, v.W, v.H = v.Scale*k, v.W*k, v.H*k
	return v
}

// Grid gives the distances between fine and coarse grid lines that are easy to
// read at this scale: fine lines are at least 9 pixels apart.
func (v View) Grid(u geometry.Units) (fine, coarse geometry.Length) {
	const in, ft, mm = geometry.Inch, geometry.Foot, geometry.Millimeter
	steps := []geometry.Length{in / 16, in / 4, in, 3 * in, 6 * in, ft, 2 * ft, 4 * ft, 10 * ft, 20 * ft, 100 * ft, 200 * ft, 1000 * ft}
	every := []geometry.Length{in / 4, in, 6 * in, ft, 2 * ft, 4 * ft, 10 * ft, 20 * ft, 50 * ft, 100 * ft, 500 * ft, 1000 * ft, 5000 * ft}
	if u == geometry.Millimeters {
		steps = []geometry.Length{mm, 5 * mm, 10 * mm, 50 * mm, 100 * mm, 250 * mm, 500 * mm, 1000 * mm, 5000 * mm, 10000 * mm, 50000 * mm, 100000 * mm, 500000 * mm}
		every = []geometry.Length{5 * mm, 50 * mm, 100 * mm, 250 * mm, 500 * mm, 1000 * mm, 2000 * mm, 5000 * mm, 10000 * mm, 50000 * mm, 100000 * mm, 500000 * mm, 1000000 * mm}
	}
	for i, s := range steps {
		if v.Pixels(s) >= 9 {
			return s, every[i]
		}
	}
	return steps[len(steps)-1], every[len(every)-1]
}
