package detail

import (
	"math"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bars"
)

// mm is a millimeter on paper of a detail that is drawn in shape only.
const mm = geometry.Millimeter

// Bend draws a bent bar in shape, to be placed at a ratio of 1: its legs measured
// over the outside of its bends, as bent bars are by common practice (no source),
// the angle of each bend, and the pin. A bar that steps in height as well as it
// turns is drawn from above and from the side. Width is how much room there is
// across, in millimeters on paper.
func Bend(u geometry.Units, b bars.Bar, pin geometry.Length, width float64) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	if len(b.Path) < 2 {
		return d
	}
	above, side := views(b)
	captions := turns(above) && turns(side)
	room := geometry.Length(width) * mm
	if turns(above) || !turns(side) {
		shape(d, b, above, room, geometry.Point{}, pin, caption(captions, "from above"))
	}
	if turns(side) {
		origin := geometry.Point{}
		if lo, hi, ok := d.Bounds(); ok {
			origin.Y = lo.Y - 22*mm
			_ = hi
		}
		shape(d, b, side, room, origin, pin, caption(captions, "from the side"))
	}
	return d
}

func caption(on bool, text string) string {
	if on {
		return text
	}
	return ""
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
		if len(b.Depths) == len(b.Path) {
			depth = b.Depths[i]
		}
		side = append(side, drawing.Vec{X: run, Y: -float64(depth)})
	}
	return above, side
}

// bendAt gives the angle by which a path turns at an inner point, left positive,
// in degrees.
func bendAt(ps []drawing.Vec, i int) float64 {
	u, v := ps[i].Sub(ps[i-1]), ps[i+1].Sub(ps[i])
	return math.Atan2(u.Cross(v), u.Dot(v)) * 180 / math.Pi
}

// turns tells whether a path is bent at all.
func turns(ps []drawing.Vec) bool {
	for i := 1; i+1 < len(ps); i++ {
		if math.Abs(bendAt(ps, i)) > 0.5 {
			return true
		}
	}
	return false
}

// shape draws one view of a bar, its legs within bounds of length, with its first
// corner at the left.
func shape(d *drawing.Drawing, b bars.Bar, ps []drawing.Vec, room geometry.Length, origin geometry.Point, pin geometry.Length, caption string) {
	pts := fitted(ps, float64(room), origin)
	for _, p := range pts {
		d.Point(p)
	}
	d.StrokePath(drawing.Pencil{Layer: drawing.Steel, Style: drawing.BentLine}, false)
	mid := geometry.Ring(pts)
	lo, hi := mid.Bounds()
	center := drawing.Between(lo, hi, 0.5)
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		left := geometry.Orientation(p, q, center) <= 0 // outside of the shape
		m := drawing.Dimension{Of: "leg " + string(rune('A'+i-1)), A: p, B: q, Left: left, First: 4, Most: 14, Weight: mainWeight}
		d.Dimension(m, drawing.Chain{Stops: []geometry.Length{0, geometry.Distance(p, q)}, Texts: []string{d.Text(leg(b, i-1))}})
		if rise := leaning(ps[i-1], ps[i]); rise != (drawing.Vec{}) && len(b.Depths) == len(b.Path) {
			riseAndRun(d, p, q, rise)
		}
	}
	for i := 1; i+1 < len(pts); i++ {
		turn := bendAt(ps, i)
		if math.Abs(turn) < 0.5 {
			continue
		}
		inside := pts[i-1].Sub(pts[i]).Add(pts[i+1].Sub(pts[i]))
		d.Label(drawing.Label{
			Layer: drawing.Steel, Style: drawing.NoteText, Type: drawing.Small, Of: "bend " + strconv.Itoa(i), At: pts[i], Prefer: inside,
			Start: 1.5, Near: 4, Reach: 20, Weight: nameWeight,
		}, []string{degrees(math.Abs(turn))})
	}
	low := geometry.Point{X: center.X, Y: lo.Y}
	said := caption
	if pin > 0 {
		if said != "" {
			said += ", "
		}
		said += "pin " + d.Text(pin)
	}
	if said != "" {
		d.Label(drawing.Label{Layer: drawing.Steel, Style: drawing.NoteText, Type: drawing.Small, Of: "view", At: low, Prefer: geometry.Point{Y: -1}, Start: 3, Reach: 40, Weight: nameWeight - 1}, []string{said})
	}
}

// leaning gives the rise and the run of a leg that is neither level nor plumb.
func leaning(p, q drawing.Vec) drawing.Vec {
	v := q.Sub(p)
	if math.Abs(v.X) < 1 || math.Abs(v.Y) < 1 {
		return drawing.Vec{}
	}
	return drawing.Vec{X: math.Abs(v.X), Y: math.Abs(v.Y)}
}

// riseAndRun writes how far a leg goes along and up.
func riseAndRun(d *drawing.Drawing, p, q geometry.Point, v drawing.Vec) {
	d.Label(drawing.Label{Layer: drawing.Steel, Style: drawing.NoteText, Type: drawing.Fine, Of: "rise and run", At: drawing.Between(p, q, 0.5), Prefer: geometry.Point{Y: -1}, Start: 1.5, Near: 5, Reach: 24, Weight: nameWeight},
		[]string{"rise " + d.Text(geometry.Length(v.Y)), "run " + d.Text(geometry.Length(v.X))})
}

// degrees writes an angle, to half a degree.
func degrees(a float64) string {
	return strconv.FormatFloat(math.Round(a*2)/2, 'f', -1, 64) + "°"
}

// leg gives a leg's length over the outside of its bends.
func leg(b bars.Bar, i int) geometry.Length {
	if len(b.Legs) == len(b.Path)-1 {
		return b.Legs[i]
	}
	return geometry.Distance(b.Path[i], b.Path[i+1])
}

// fitted gives a path in shape: its legs at least a fingernail and at most a
// quarter of the room long, the longest three times the shortest at most, so that
// each can be read.
func fitted(ps []drawing.Vec, room float64, origin geometry.Point) []geometry.Point {
	longest := 0.0
	for i := 1; i < len(ps); i++ {
		longest = max(longest, ps[i].Sub(ps[i-1]).Length())
	}
	const least, most = 9e6, 26e6 // nanometers on paper
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
	f := min(1, 0.6*room/max(hi.X-lo.X, 1))
	out := make([]geometry.Point, len(at))
	for i, p := range at {
		out[i] = origin.Add(geometry.Point{X: geometry.Length((p.X - lo.X) * f), Y: geometry.Length((p.Y - hi.Y) * f)})
	}
	return out
}
