package sheet

import (
	"image/color"
	"math"
)

// label is a short text of one or more lines that belongs to a place.
type label struct {
	layer  Layer
	lines  []string
	size   float64
	bold   bool // of the first line
	color  color.RGBA
	at     Point   // what it belongs to
	prefer Point   // unit vector to where it should stand; zero for anywhere
	near   float64 // from here on it gets a leader, mm; 0 for never
	limit  float64 // how far it may stand, mm
	boxed  bool    // in a frame
	left   bool    // its lines start at one left edge
	start  float64 // least distance, mm
}

// directions that a label is tried in, evenly round.
const directions = 24

// label places l as near to its place as it finds room, its preferred side
// first, with a leader when it stands off. False when there is no room.
func (d *draft) label(l label) bool {
	if !d.clip.has(l.at) {
		return true // it stands on the sheet that shows its place
	}
	w, h := l.extent()
	for r := l.start; r <= l.limit; r += max(1, r/12) {
		for k := range directions {
			turn := float64((k+1)/2) * 2 * math.Pi / directions
			if k%2 == 1 {
				turn = -turn
			}
			u := Point{0, 1}
			if l.prefer != (Point{}) {
				u = l.prefer
			}
			s, c := math.Sincos(turn)
			u = Point{u.X*c - u.Y*s, u.X*s + u.Y*c}
			// The center so far out that the label's rim is r away.
			center := l.at.toward(u, r).add(Point{u.X * w / 2, u.Y * h / 2})
			if d.attempt(func() bool { return d.labelAt(l, center, w, h, r) }) {
				return true
			}
		}
	}
	return false
}

// extent gives the label's width and height.
func (l label) extent() (w, h float64) {
	for i, s := range l.lines {
		w = max(w, textWidth(s, l.size, l.bold && i == 0))
	}
	return w, float64(len(l.lines)-1)*leading(l.size) + (capHeight+descent)*l.size*mmPerPoint
}

func (d *draft) labelAt(l label, center Point, w, h, r float64) bool {
	b := box{center, Point{1, 0}, w / 2, h / 2}
	rim := 0.2
	if l.boxed {
		rim = 1
	}
	if !d.free(b.grown(rim)) {
		return false
	}
	y := center.Y + h/2 - capHeight*l.size*mmPerPoint
	for i, s := range l.lines {
		bold := l.bold && i == 0
		x := center.X - textWidth(s, l.size, bold)/2
		if l.left {
			x = center.X - w/2
		}
		d.put(Text{Layer: l.layer, At: Point{x, y}, Size: l.size, Bold: bold, Color: l.color, Text: s})
		y -= leading(l.size)
	}
	if l.boxed {
		c := b.grown(0.8).corners()
		d.ring(l.layer, Pen{Width: 0.18, Color: l.color}, noFill, c[0], c[1], c[2], c[3])
	}
	if l.near == 0 || r < l.near {
		return true
	}
	tip := b.grown(0.8).nearest(l.at)
	v := l.at.sub(tip)
	if v.length() < 1.5 {
		return true
	}
	end := l.at.toward(v.unit(), -0.4)
	if d.obs.hit(boxOf(tip, end, 0.1), true) || d.runsAlong(tip, end) {
		return false
	}
	d.line(l.layer, Pen{Width: 0.15, Color: l.color}, tip, end)
	d.arrow(l.layer, l.color, end, v.unit())
	return true
}

// runsAlong tells whether a leader from a to b would lie on other lines for much
// of its way: it may cross them, but is lost along them.
func (d *draft) runsAlong(a, b Point) bool {
	const samples = 16
	on := 0
	for i := range samples {
		at := a.add(b.sub(a).times((float64(i) + 0.5) / samples))
		if d.obs.hit(box{at, Point{1, 0}, 0.2, 0.2}, false) {
			on++
		}
	}
	return on > samples/2
}

// arrow draws a small filled head that points along u at p.
func (d *draft) arrow(layer Layer, c color.RGBA, p, u Point) {
	back := p.toward(u, -1.5)
	d.fill(layer, c, p, back.toward(u.left(), 0.45), back.toward(u.left(), -0.45))
}
