// Package scene draws a plan into an image: grid, slab with its underside,
// edges, doors, steel, bolts, dimensions, and faults at their place.
package scene

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"haunchbook/app/takeoff"
	"haunchbook/app/window/canvas/dim"
	"haunchbook/app/window/canvas/hit"
	"haunchbook/app/window/canvas/paint"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Layers says what is drawn besides the outline.
type Layers struct {
	Grid, Dims, Underside, Steel, Bolts, Dowels, Joints, Forms bool
}

// Usual are the layers that are on at first.
var Usual = Layers{Grid: true, Dims: true, Underside: true, Bolts: true, Dowels: true, Joints: true}

// Input is what a picture depends on.
type Input struct {
	Plan    plan.Plan
	Units   geometry.Units
	View    view.View // in logical pixels
	Ratio   float64   // device pixels per logical one
	Dims    []dim.Dim
	Takeoff *takeoff.Takeoff
	Slab    int // number of the slab that Plan is
	Faults  plan.Faults
	Layers  Layers
	Palette Palette
	// Under draws what lies under the plan and tells whether anything does: then
	// it shines through the slab.
	Under func(s *Scene, v view.View, k float64) bool
}

// TextSize is the size of labels in logical pixels.
const TextSize = 12

// Scene draws pictures, and keeps what it needs from one to the next.
type Scene struct {
	Brush paint.Brush

	in     Input
	v      view.View
	k      float64
	rings  [][]paint.Point
	solid  *solid.Solid
	faces  []solid.Face
	ridges []solid.Line
	// through tells whether a picture shines through the slab.
	through bool
}

// Draw draws a picture of w by h device pixels into the brush's image.
func (s *Scene) Draw(in Input, w, h int) {
	s.in, s.k = in, in.Ratio
	s.v = in.View.Times(in.Ratio)
	s.Brush.Reset(w, h, in.Palette.Paper)
	if in.Layers.Grid {
		s.grid(w, h)
	}
	s.through = in.Under != nil && in.Under(s, s.v, s.k)
	sound := len(in.Faults) == 0 && len(in.Plan.Outline) > 2
	s.slab(sound)
	s.thickenings()
	if t, ok := s.taken(); ok && sound {
		s.layout(t.Layout)
	}
	for k, l := range in.Plan.Loops() {
		s.loop(k, l)
	}
	s.falls()
	if in.Layers.Dims {
		s.dims()
	}
	s.faults()
}

// taken gives what is taken off of the slab that is drawn.
func (s *Scene) taken() (takeoff.Slab, bool) {
	if s.in.Takeoff == nil {
		return takeoff.Slab{}, false
	}
	return s.in.Takeoff.Slab(s.in.Slab)
}

func (s *Scene) pt(p geometry.Point) paint.Point {
	q := s.v.Screen(p)
	return paint.Point{X: q.X, Y: q.Y}
}

func (s *Scene) xy(p view.XY) paint.Point { return paint.Point{X: p.X * s.k, Y: p.Y * s.k} }

func (s *Scene) line(a, b geometry.Point, width float64, c color.NRGBA) {
	s.Brush.Line(s.pt(a), s.pt(b), width*s.k, c)
}

func (s *Scene) dashes(a, b geometry.Point, on, off, width float64, c color.NRGBA) {
	s.Brush.Dashes(s.pt(a), s.pt(b), on*s.k, off*s.k, width*s.k, c)
}

func (s *Scene) grid(w, h int) {
	fine, coarse := s.in.View.Grid(s.in.Units)
	for _, g := range []struct {
		step geometry.Length
		c    color.NRGBA
	}{{fine, s.in.Palette.Grid}, {coarse, s.in.Palette.GridBold}} {
		lo, hi := s.v.Plan(view.XY{X: 0, Y: float64(h)}), s.v.Plan(view.XY{X: float64(w), Y: 0})
		for x := lo.X/g.step*g.step - g.step; x <= hi.X; x += g.step {
			px := math.Floor(s.v.Screen(geometry.Point{X: x}).X)
			s.Brush.Rect(px, 0, px+1, float64(h), g.c)
		}
		for y := lo.Y/g.step*g.step - g.step; y <= hi.Y; y += g.step {
			py := math.Floor(s.v.Screen(geometry.Point{Y: y}).Y)
			s.Brush.Rect(0, py, float64(w), py+1, g.c)
		}
	}
}

// ring fills scratch ring i with the corners of a loop.
func (s *Scene) ring(i int, n int, at func(k int) geometry.Point) {
	for len(s.rings) <= i {
		s.rings = append(s.rings, nil)
	}
	r := s.rings[i][:0]
	for k := range n {
		r = append(r, s.pt(at(k)))
	}
	s.rings[i] = r
}

func (s *Scene) slab(sound bool) {
	p := s.in.Plan
	if len(p.Outline) < 3 {
		return
	}
	s.ring(0, len(p.Outline), func(k int) geometry.Point { return p.Outline[k].At })
	for i, h := range p.Holes {
		s.ring(i+1, len(h.Loop), func(k int) geometry.Point { return h.Loop[k].At })
	}
	s.Brush.Fill(s.rings[:1+len(p.Holes)], s.glass(s.in.Palette.Slab))
	if t, ok := s.taken(); ok && s.in.Layers.Underside && sound {
		s.underside(t.Solid)
	}
}

// glass makes a colour see-through over a picture.
func (s *Scene) glass(c color.NRGBA) color.NRGBA {
	if s.through {
		c.A = 90
	}
	return c
}

// underside shades each face by its depth and draws the lines where it bends.
func (s *Scene) underside(sol *solid.Solid) {
	if sol != s.solid {
		s.solid, s.faces, s.ridges = sol, sol.Faces(), sol.Ridges()
	}
	field, deepest := s.in.Plan.Field, s.in.Plan.Field
	for _, f := range s.faces {
		for _, d := range f.Depths {
			deepest = max(deepest, d)
		}
	}
	if deepest == field {
		return
	}
	for _, f := range s.faces {
		if len(f.Corners) < 3 {
			continue
		}
		lo, hi := f.Depths[0], f.Depths[0]
		for _, d := range f.Depths {
			lo, hi = min(lo, d), max(hi, d)
		}
		t := (float64(lo)+float64(hi))/2 - float64(field)
		c := between(s.in.Palette.Slab, s.in.Palette.Deep, t/float64(deepest-field))
		s.ring(0, len(f.Corners), func(k int) geometry.Point { return f.Corners[k] })
		s.Brush.Fill(s.rings[:1], s.glass(c))
	}
	for _, l := range s.ridges {
		s.line(l.A, l.B, 1, s.in.Palette.Ridge)
	}
}

// thickenings outlines pads and strips, which are the user's own things.
func (s *Scene) thickenings() {
	pal := s.in.Palette
	for i, pad := range s.in.Plan.Pads {
		r := hit.PadRing(pad)
		for k := range r {
			s.dashes(r[k], r[(k+1)%len(r)], 7, 4, 1.5, pal.Ink)
		}
		name := pad.Name
		if name == "" {
			name = fmt.Sprintf("Pad %d", i+1)
		}
		s.tag(name, s.pt(pad.Centre), pal.Text)
	}
	for i, st := range s.in.Plan.Strips {
		for k := 1; k < len(st.Path); k++ {
			a, b := st.Path[k-1], st.Path[k]
			if a == b {
				continue
			}
			for _, side := range []geometry.Length{st.Bottom / 2, -st.Bottom / 2} {
				v := plan.Turn(geometry.Along(a, b, side).Sub(a), 90)
				s.dashes(a.Add(v), b.Add(v), 7, 4, 1.5, pal.Ink)
			}
			s.dashes(a, b, 12, 4, 1, pal.Faint)
		}
		if len(st.Path) > 1 {
			a, b := s.pt(st.Path[0]), s.pt(st.Path[1])
			name := st.Name
			if name == "" {
				name = fmt.Sprintf("Strip %d", i+1)
			}
			s.tag(name, paint.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, pal.Text)
		}
	}
}

// tag writes a label on a plate, so that it can be read on anything.
func (s *Scene) tag(text string, at paint.Point, c color.NRGBA) {
	size := TextSize * s.k
	w, h := s.Brush.Fonts.Width(text, size)/2+3*s.k, s.Brush.Fonts.Height(size)/2
	s.Brush.Rect(at.X-w, at.Y-h, at.X+w, at.Y+h, s.in.Palette.Plate)
	s.Brush.Text(text, at, size, false, c)
}

// inward gives a vector of px logical pixels to the left of a-b.
func (s *Scene) inward(a, b geometry.Point, px float64) paint.Point {
	p, q := s.pt(a), s.pt(b)
	l := math.Hypot(q.X-p.X, q.Y-p.Y)
	if l == 0 {
		return paint.Point{}
	}
	// Left of the direction, with Y down.
	return paint.Point{X: (q.Y - p.Y) / l * px * s.k, Y: -(q.X - p.X) / l * px * s.k}
}

func plus(a, b paint.Point) paint.Point { return paint.Point{X: a.X + b.X, Y: a.Y + b.Y} }

func (s *Scene) loop(k int, l plan.Loop) {
	pal := s.in.Palette
	for i, e := range l {
		a, b := l.Ends(i)
		if a == b {
			continue
		}
		if e.Joint {
			s.joint(a, b)
		}
		if e.Wall != "" {
			s.wall(l, i)
		}
		at := geometry.Length(0)
		length := l.Length(i)
		for _, span := range l.Spans(i) {
			if span.Door < 0 || span.From < at || span.To > length {
				continue
			}
			s.line(geometry.Along(a, b, at), geometry.Along(a, b, span.From), 2.4, pal.Ink)
			at = span.To
		}
		if at < length {
			s.line(geometry.Along(a, b, at), b, 2.4, pal.Ink)
		}
		for _, d := range e.Doors {
			s.door(a, b, length, d)
		}
	}
	for i, e := range l {
		if k == 0 || len(l) < 40 {
			p := s.pt(e.At)
			r := 2.5 * s.k
			s.Brush.Rect(p.X-r, p.Y-r, p.X+r, p.Y+r, pal.Ink)
		}
		_ = i
	}
}

// joint draws the old slab's side of a joint: a second line and hatching.
func (s *Scene) joint(a, b geometry.Point) {
	pal := s.in.Palette
	out := s.inward(a, b, -5)
	p, q := plus(s.pt(a), out), plus(s.pt(b), out)
	s.Brush.Line(p, q, 1.6*s.k, pal.Joint)
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	if length < 1 || length > 1e5 {
		return
	}
	far := s.inward(a, b, -9)
	step := 9 * s.k
	for t := step / 2; t < length; t += step {
		f := t / length
		from := paint.Point{X: p.X + (q.X-p.X)*f, Y: p.Y + (q.Y-p.Y)*f}
		g := (t + 6*s.k) / length
		to := paint.Point{X: p.X + (q.X-p.X)*g + far.X, Y: p.Y + (q.Y-p.Y)*g + far.Y}
		s.Brush.Line(from, to, 1*s.k, pal.OldSlab)
	}
	if length > 140*s.k {
		mid := paint.Point{X: (s.pt(a).X+s.pt(b).X)/2 - out.X*3.2, Y: (s.pt(a).Y+s.pt(b).Y)/2 - out.Y*3.2}
		s.label("joint with old slab", mid, s.upright(a, b), pal.Joint)
	}
}

// upright tells whether text along a-b is turned to be read from the right.
func (s *Scene) upright(a, b geometry.Point) bool {
	p, q := s.pt(a), s.pt(b)
	return math.Abs(q.X-p.X) < 0.2*math.Hypot(q.X-p.X, q.Y-p.Y)
}

// label writes along a line, on a plate.
func (s *Scene) label(text string, at paint.Point, turn bool, c color.NRGBA) {
	size := TextSize * s.k
	w, h := s.Brush.Fonts.Width(text, size)/2+2*s.k, s.Brush.Fonts.Height(size)/2
	if turn {
		w, h = h, w
	}
	s.Brush.Rect(at.X-w, at.Y-h, at.X+w, at.Y+h, s.in.Palette.Plate)
	s.Brush.Text(text, at, size, turn, c)
}

// wall draws a framed wall's inner face, left open at the doors.
func (s *Scene) wall(l plan.Loop, i int) {
	a, b := l.Ends(i)
	in := s.inward(a, b, 4.5)
	for _, span := range l.Spans(i) {
		if span.Door >= 0 {
			continue
		}
		p, q := s.pt(geometry.Along(a, b, span.From)), s.pt(geometry.Along(a, b, span.To))
		s.Brush.Line(plus(p, in), plus(q, in), 1.2*s.k, s.in.Palette.Wall)
	}
}

// door draws an opening: jambs, a thin sill, and a label.
func (s *Scene) door(a, b geometry.Point, length geometry.Length, d plan.Door) {
	pal := s.in.Palette
	if d.From < 0 || d.Width <= 0 || d.From+d.Width > length {
		return
	}
	near, far := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
	for _, p := range []geometry.Point{near, far} {
		q := s.pt(p)
		s.Brush.Line(plus(q, s.inward(a, b, 8)), plus(q, s.inward(a, b, -5)), 2*s.k, pal.Door)
	}
	s.dashes(near, far, 6, 3, 1.6, pal.Door)
	if d.Lip.Inset > 0 {
		in := s.pt(geometry.Along(near, far, 0))
		v := plan.Turn(geometry.Along(a, b, d.Lip.Inset).Sub(a), 90)
		s.line(near.Add(v), far.Add(v), 1, pal.Door)
		_ = in
	}
	name := d.Name
	if name == "" {
		name = "Door"
	}
	text := name + " " + d.Kind.String()
	mid := paint.Point{X: (s.pt(near).X + s.pt(far).X) / 2, Y: (s.pt(near).Y + s.pt(far).Y) / 2}
	turn := s.upright(a, b)
	at := plus(mid, s.inward(a, b, 46))
	if room := s.v.Pixels(d.Width); room < 22*s.k {
		return
	} else if room < s.Brush.Fonts.Width(text, TextSize*s.k) && turn == s.upright(a, b) {
		text = name
	}
	s.label(text, at, turn, pal.Door)
}

// layout draws what the crew places.
func (s *Scene) layout(l layout.Layout) {
	pal, on := s.in.Palette, s.in.Layers
	if on.Joints {
		for _, j := range l.Joints {
			s.dashes(j.A, j.B, 14, 5, 1.2, pal.Saw)
		}
	}
	if on.Forms {
		for _, f := range l.Forms {
			s.form(f)
		}
	}
	if on.Steel {
		for _, m := range l.Mesh {
			for i := range m.Corners {
				s.dashes(m.Corners[i], m.Corners[(i+1)%4], 3, 5, 1, pal.Steel)
			}
		}
		for _, b := range l.Bars {
			for i := 1; i < len(b.Path); i++ {
				s.line(b.Path[i-1], b.Path[i], 1.3, pal.Steel)
			}
		}
	}
	if on.Dowels {
		for _, d := range l.Dowels {
			s.dowel(d)
		}
	}
	if on.Bolts {
		r := max(2.2*s.k, min(5*s.k, s.v.Pixels(2*geometry.Inch)))
		for _, w := range l.Walls {
			for _, b := range w.Bolts {
				at := s.pt(b.At)
				s.Brush.Circle(at, r, 1.2*s.k, pal.Bolt)
				s.Brush.Line(paint.Point{X: at.X - r*1.6, Y: at.Y}, paint.Point{X: at.X + r*1.6, Y: at.Y}, s.k, pal.Bolt)
				s.Brush.Line(paint.Point{X: at.X, Y: at.Y - r*1.6}, paint.Point{X: at.X, Y: at.Y + r*1.6}, s.k, pal.Bolt)
			}
		}
	}
}

func (s *Scene) form(f layout.Form) {
	loops := s.in.Plan.Loops()
	if f.Loop >= len(loops) || f.Edge >= len(loops[f.Loop]) {
		return
	}
	a, b := loops[f.Loop].Ends(f.Edge)
	if a == b {
		return
	}
	out := s.inward(a, b, -4)
	s.Brush.Line(plus(s.pt(a), out), plus(s.pt(b), out), 2.4*s.k, s.in.Palette.Form)
	for _, at := range f.Stakes {
		p := s.pt(geometry.Along(a, b, at))
		far := s.inward(a, b, -10)
		s.Brush.Line(plus(p, out), plus(p, far), 2*s.k, s.in.Palette.Form)
	}
}

func (s *Scene) dowel(d layout.Dowel) {
	o := s.in.Plan.Outline
	if d.Edge >= len(o) {
		return
	}
	a, b := o.Ends(d.Edge)
	if a == b {
		return
	}
	v := plan.Turn(geometry.Along(a, b, 8*geometry.Inch).Sub(a), 90)
	s.line(d.At.Add(v), d.At.Sub(v), 1.6, s.in.Palette.Dowel)
}

// falls draws the slope of the top as arrows down the fall.
func (s *Scene) falls() {
	pal := s.in.Palette
	for _, f := range s.in.Plan.Top.Falls {
		a, b := s.pt(f.From), s.pt(f.To)
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length < 4 {
			continue
		}
		// Aside from the edge it may lie on, so that both can be seen.
		s.Brush.Dashes(a, b, 10*s.k, 5*s.k, 1.4*s.k, pal.Accent)
		ux, uy := (b.X-a.X)/length, (b.Y-a.Y)/length
		h := 9 * s.k
		for _, t := range []float64{0.5, 1} {
			tip := paint.Point{X: a.X + ux*length*t, Y: a.Y + uy*length*t}
			s.Brush.Line(tip, paint.Point{X: tip.X - ux*h - uy*h/2, Y: tip.Y - uy*h + ux*h/2}, 1.6*s.k, pal.Accent)
			s.Brush.Line(tip, paint.Point{X: tip.X - ux*h + uy*h/2, Y: tip.Y - uy*h - ux*h/2}, 1.6*s.k, pal.Accent)
		}
		at := paint.Point{X: a.X + ux*length*0.75, Y: a.Y + uy*length*0.75}
		side := 13 * s.k // beside the line, over the slab
		if c := s.middle(); (c.X-a.X)*-uy+(c.Y-a.Y)*ux < 0 {
			side = -side
		}
		at = plus(at, paint.Point{X: -uy * side, Y: ux * side})
		s.label("falls "+f.Drop.Text(s.in.Units), at, math.Abs(ux) < 0.2, pal.Accent)
	}
}

// middle gives the middle of the outline's box.
func (s *Scene) middle() paint.Point {
	lo, hi := s.in.Plan.Outline.Corners().Bounds()
	return s.pt(geometry.Point{X: lo.X/2 + hi.X/2, Y: lo.Y/2 + hi.Y/2})
}

func (s *Scene) dims() {
	pal := s.in.Palette
	for _, d := range s.in.Dims {
		a, b := s.xy(d.A), s.xy(d.B)
		s.Brush.Line(s.xy(d.FromA), a, s.k, between(pal.Dim, pal.Paper, 0.5))
		s.Brush.Line(s.xy(d.FromB), b, s.k, between(pal.Dim, pal.Paper, 0.5))
		s.Brush.Line(a, b, s.k, pal.Dim)
		for _, p := range []paint.Point{a, b} { // slashes at the ends
			t := 3.5 * s.k
			s.Brush.Line(paint.Point{X: p.X - t, Y: p.Y + t}, paint.Point{X: p.X + t, Y: p.Y - t}, 1.4*s.k, pal.Dim)
		}
		at := s.xy(d.At)
		w, h := d.W/2*s.k+2*s.k, d.H/2*s.k
		if d.Turn {
			w, h = d.W/2*s.k, d.H/2*s.k+2*s.k
		}
		s.Brush.Rect(at.X-w, at.Y-h, at.X+w, at.Y+h, pal.Paper)
		s.Brush.Text(d.Text, at, TextSize*s.k, d.Turn, pal.Text)
	}
}

// faults marks each fault at its place with a sign, and says the first few; the
// list beside the plan has them all.
func (s *Scene) faults() {
	pal := s.in.Palette
	below := 0.0
	for i, f := range s.in.Faults {
		if i < 3 {
			below = s.note(wrap(f.Found+": "+f.Want, 44), s.pt(f.At), below)
		}
	}
	for _, f := range s.in.Faults {
		p := s.pt(f.At)
		t := 11 * s.k
		c := paint.Point{X: p.X, Y: p.Y - t*0.2}
		s.ringAt([]paint.Point{{X: c.X, Y: c.Y - t}, {X: c.X + t, Y: c.Y + t*0.8}, {X: c.X - t, Y: c.Y + t*0.8}}, pal.Fault)
		s.Brush.Text("!", paint.Point{X: c.X, Y: c.Y + t*0.12}, 13*s.k, false, pal.FaultInk)
	}
}

// note writes lines beside a place, below what is written there already, and
// gives where it ends.
func (s *Scene) note(lines []string, p paint.Point, below float64) float64 {
	pal, size := s.in.Palette, TextSize*s.k
	w, h := 0.0, s.Brush.Fonts.Height(size)
	for _, l := range lines {
		w = max(w, s.Brush.Fonts.Width(l, size))
	}
	tall := h*float64(len(lines)) + 4*s.k
	x, room := p.X+22*s.k, float64(s.Brush.Img.Rect.Dx())-w-8*s.k
	if x > room { // to the left, where there is no room at the right
		x = min(p.X-22*s.k-w, room)
	}
	y := min(max(p.Y-20*s.k, below+4*s.k, 4*s.k), float64(s.Brush.Img.Rect.Dy())-tall-4*s.k)
	x = max(x, 8*s.k)
	s.Brush.Rect(x-6*s.k, y, x+w+5*s.k, y+tall, pal.Paper)
	s.Brush.Rect(x-6*s.k, y, x-3*s.k, y+tall, pal.Fault)
	for i, l := range lines {
		s.Brush.TextLeft(l, paint.Point{X: x + 2*s.k, Y: y + 2*s.k + h*(float64(i)+0.5)}, size, pal.Fault)
	}
	return y + tall
}

// wrap breaks text between words into lines of at most so many letters.
func wrap(text string, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > most {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

func (s *Scene) ringAt(ps []paint.Point, c color.NRGBA) {
	if len(s.rings) == 0 {
		s.rings = append(s.rings, nil)
	}
	s.rings[0] = append(s.rings[0][:0], ps...)
	s.Brush.Fill(s.rings[:1], c)
}
