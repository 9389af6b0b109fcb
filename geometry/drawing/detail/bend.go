package detail

import (
	"fmt"
	"math"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bars"
)

// mm is a millimeter on paper of a detail that is drawn in shape only.
const mm = geometry.Millimeter

// Bend draws a bent bar in shape, to be placed at a ratio of 1: its legs, measured
// over the outside of its bends as bent bars are by common practice (no source), and
// the angle of each bend that is not square. Lettered legs have their letters, A, B,
// …, in place of their lengths. A bar that steps in height as well as it turns is
// drawn from above and from the side. Of one that is bent along an arc too, its legs are
// drawn straight, and the radius stands beside.
func Bend(u geometry.Units, b bars.Bar, lettered bool) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	if len(b.Path) < 2 {
		return d
	}
	b = b.Turned()
	m := bent{d, b, lettered}
	above, side := views(b)
	switch {
	case turns(above) && turns(side):
		m.view(above, geometry.Point{}, "from above")
		lo, _, _ := d.Bounds()
		m.view(side, geometry.Point{Y: lo.Y - 20*mm}, "from the side")
	case turns(side):
		m.view(side, geometry.Point{}, "")
	default:
		m.view(above, geometry.Point{}, "")
	}
	return d
}

// Alike gives a text that is the same for bars of one shape: those that one drawing
// shows, whatever their legs measure.
func Alike(b bars.Bar) string {
	above, side := views(b.Turned())
	flip, bent, out := 1.0, false, ""
	if b.Radius > 0 {
		out = fmt.Sprintf("R %d ", b.Radius)
	}
	for _, ps := range [2][]drawing.Vec{above, side} {
		for i := 1; i < len(ps); i++ {
			if i+1 < len(ps) {
				turn := bendAt(ps, i)
				if !bent && turn < 0 && !(turns(above) && turns(side)) {
					flip = -1 // a flat bar is turned over
				}
				bent = bent || turn != 0
				out += degrees(turn*flip) + " "
			}
			if v := leaning(ps[i-1], ps[i]); turns(side) {
				out += fmt.Sprint(math.Round(v.Y/float64(mm))) + " "
			}
		}
		out += "/ "
	}
	return out
}

// Letter gives the letter of a leg, from 0: A, B, …
func Letter(leg int) string { return string(rune('A' + leg)) }

// bent is a drawing of a bent bar in the making.
type bent struct {
	d        *drawing.Drawing
	bar      bars.Bar
	lettered bool
}

// views gives the bar's path from above, and its way along over its height.
func views(b bars.Bar) (above, side []drawing.Vec) {
	run := 0.0
	for i, p := range b.Path {
		above = append(above, drawing.Vec{X: float64(p.X), Y: float64(p.Y)})
		if i > 0 {
			run += above[i].Sub(above[i-1]).Length()
		}
		depth := b.Depth
		if len(b.Depths) == len(b.Path) && !b.Flat {
			depth = b.Depths[i]
		}
		side = append(side, drawing.Vec{X: run, Y: -float64(depth)})
	}
	return above, side
}

// bendAt gives the angle by which a path turns at an inner point, left positive, in
// degrees; 0 where it is straight or ends.
func bendAt(ps []drawing.Vec, i int) float64 {
	if i < 1 || i+1 >= len(ps) {
		return 0
	}
	u, v := ps[i].Sub(ps[i-1]), ps[i+1].Sub(ps[i])
	turn := math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi
	if math.Abs(turn) < 0.5 {
		return 0
	}
	return turn
}

// turns tells whether a path is bent at all.
func turns(ps []drawing.Vec) bool {
	for i := range ps {
		if bendAt(ps, i) != 0 {
			return true
		}
	}
	return false
}

// wire is half as thick as a bent bar is drawn.
const wire = 400 * geometry.Micrometer

// view draws one view of the bar with its upper left at a place.
func (m bent) view(ps []drawing.Vec, origin geometry.Point, caption string) {
	pts, d := fitted(ps, origin), m.d
	d.Stroke(drawing.Pencil{Layer: drawing.Steel, Style: drawing.BentLine}, pts...)
	lo, hi := geometry.Ring(pts).Bounds()
	center := drawing.Between(lo, hi, 0.5)
	write := func(of string, kind drawing.Type, p, prefer geometry.Point, near float32, lines ...string) {
		d.Label(drawing.Label{Layer: drawing.Steel, Style: drawing.NoteText, Type: kind, Of: of, At: p, Prefer: prefer, Start: 1.5, Near: near, Reach: 30, Weight: nameWeight}, lines)
	}
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		if caption == "" || bendAt(ps, i-1) != 0 || bendAt(ps, i) != 0 { // else the other view has it
			if left := geometry.Orientation(p, q, center) <= 0; m.lettered && len(pts) > 5 { // so many that letters alone find room
				write("leg", drawing.Body, drawing.Between(p, q, 0.5), sideways(p, q, left), 6, Letter(i-1))
			} else {
				m.leg(pts, i, left, bendAt(ps, i-1), bendAt(ps, i))
			}
		}
		if v := leaning(ps[i-1], ps[i]); v != (drawing.Vec{}) && caption != "from above" && len(m.bar.Depths) > 0 && !m.bar.Flat {
			write("rise and run", drawing.Fine, drawing.Between(p, q, 0.5), geometry.Point{Y: -1}, 5, "rise "+d.Text(geometry.Length(v.Y)), "run "+d.Text(geometry.Length(v.X)))
		}
	}
	for i := range pts {
		if turn := bendAt(ps, i); turn != 0 && math.Abs(math.Abs(turn)-90) > 0.5 {
			write("bend", drawing.Small, pts[i], pts[i-1].Sub(pts[i]).Add(pts[i+1].Sub(pts[i])), 4, degrees(math.Abs(turn)))
		}
	}
	if m.bar.Radius > 0 {
		write("radius", drawing.Small, center, geometry.Point{Y: -1}, 0, "also to R "+d.Text(m.bar.Radius))
	}
	if caption != "" {
		write("view", drawing.Small, geometry.Point{X: center.X, Y: lo.Y}, geometry.Point{Y: -1}, 0, caption)
	}
}

// sideways gives the way square to p-q, to its left or its right.
func sideways(p, q geometry.Point, left bool) geometry.Point {
	v := q.Sub(p)
	if left {
		return geometry.Point{X: -v.Y, Y: v.X}
	}
	return geometry.Point{X: v.Y, Y: -v.X}
}

// leg measures the leg that ends at a point on its left or its right, over the
// outside of the bends before and after it, or over the inside where these turn the
// other way.
func (m bent) leg(pts []geometry.Point, at int, left bool, before, after float64) {
	p, q := pts[at-1], pts[at]
	side := 1.0 // left turns have the left inside
	if !left {
		side = -1
	}
	vec := func(p geometry.Point) drawing.Vec { return drawing.Vec{X: float64(p.X), Y: float64(p.Y)} }
	to := func(p geometry.Point, v drawing.Vec) geometry.Point {
		return p.Add(geometry.Point{X: geometry.Length(math.Round(v.X)), Y: geometry.Length(math.Round(v.Y))})
	}
	u, out := vec(q.Sub(p)).Unit(), vec(sideways(p, q, left)).Unit()
	n := out.Times(float64(wire))
	past := func(turn float64) float64 { return -side * float64(wire) * math.Tan(turn/2*math.Pi/180) }
	a, b := to(p, n.Sub(u.Times(past(before)))), to(q, n.Add(u.Times(past(after))))
	// A leg that runs that way serves as the extension line; on the other side these
	// begin beyond the bar.
	beside := [2]geometry.Point{to(geometry.Point{}, n.Times(-2)), to(geometry.Point{}, n.Times(-2))}
	for k, next := range [2]int{at - 2, at + 1} {
		if next >= 0 && next < len(pts) {
			if v := pts[next].Sub(pts[at-1+k]); vec(v).Unit().Dot(out) > 0.9999 {
				beside[k] = v
			}
		}
	}
	text := Letter(at - 1)
	if !m.lettered {
		text = m.d.Text(m.bar.Legs[at-1])
	}
	m.d.Dimension(drawing.Dimension{Of: "leg", A: a, B: b, Left: left, Before: beside[0], After: beside[1], First: 3, Most: 14, Weight: mainWeight},
		drawing.Chain{Stops: []geometry.Length{0, geometry.Distance(a, b)}, Texts: []string{text}})
}

// leaning gives the rise and the run of a leg that is neither level nor plumb.
func leaning(p, q drawing.Vec) drawing.Vec {
	v := q.Sub(p)
	if math.Abs(v.X) < 1 || math.Abs(v.Y) < 1 {
		return drawing.Vec{}
	}
	return drawing.Vec{X: math.Abs(v.X), Y: math.Abs(v.Y)}
}

// degrees writes an angle, to a quarter of a degree.
func degrees(a float64) string {
	return strconv.FormatFloat(math.Round(a*4)/4+0, 'f', -1, 64) + "°" // no -0
}

// fitted gives a path in shape: its legs at least a fingernail and at most a thumb's
// width long, so that each can be read, and all of it no larger than a column holds.
func fitted(ps []drawing.Vec, origin geometry.Point) []geometry.Point {
	longest := 0.0
	for i := 1; i < len(ps); i++ {
		longest = max(longest, ps[i].Sub(ps[i-1]).Length())
	}
	const least, most, wide, high = 8e6, 16e6, 44e6, 28e6 // nanometers on paper
	at := []drawing.Vec{{}}
	first := ps[1].Sub(ps[0])
	if first.Length() == 0 {
		first = drawing.Vec{X: 1}
	}
	u := first.Unit()
	for i := 1; i < len(ps); i++ {
		v := ps[i].Sub(ps[i-1])
		l := v.Length()
		if l == 0 {
			at = append(at, at[len(at)-1])
			continue
		}
		w := v.Times(max(least, most*l/longest) / l)
		// Turned so that the first leg lies level, to the right.
		at = append(at, at[len(at)-1].Add(drawing.Vec{X: w.Dot(u), Y: u.Cross(w)}))
	}
	lo, hi := at[0], at[0]
	for _, p := range at {
		lo, hi = drawing.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, drawing.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	f := min(1, wide/max(hi.X-lo.X, 1), high/max(hi.Y-lo.Y, 1))
	out := make([]geometry.Point, len(at))
	for i, p := range at {
		out[i] = origin.Add(geometry.Point{X: geometry.Length((p.X - lo.X) * f), Y: geometry.Length((p.Y - hi.Y) * f)})
	}
	return out
}
