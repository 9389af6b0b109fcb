package scene

import (
	"fmt"
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/mark"
)

// thin is how close marks of one kind may lie, logical pixels.
const thin = 3

// mesh draws the sheets of mesh; close by, the wires themselves.
func (s *Scene) mesh() {
	c := s.cur.Mesh
	if s.narrow(c) {
		return
	}
	s.laps(c, s.pal.Steel, 26)
	if s.cur.Wires > 0 && s.pixels(s.cur.Wires) >= 7 {
		for i := range c.sheets {
			if q := &c.sheets[i].Corners; s.seen(q[:]...) {
				s.wires(*q, s.cur.Wires)
			}
		}
	}
	s.borders(c, 3, 5, s.pal.Steel)
}

// wires draws what is seen of the wires of a sheet, both ways.
func (s *Scene) wires(c [4]geometry.Point, spacing geometry.Length) {
	faint := s.pal.Steel
	faint.A = 110
	for way := range 2 {
		a, b, d := c[0], c[1], c[3]
		if way == 1 {
			b, d = d, b
		}
		long := geometry.Distance(a, d)
		if long == 0 {
			return
		}
		for t := geometry.Length(0); t <= long; t += spacing {
			v := pointOn(a, d, float64(t)/float64(long)).Sub(a)
			if p, q := a.Add(v), b.Add(v); s.seen(p, q) {
				s.trimmedLine(p, q, faint)
			}
		}
	}
}

// bars draws the bars. Close by they have their thickness, and those of one line
// lie side by side, so that their laps are seen.
func (s *Scene) bars(l *layout.Layout) {
	apart := s.pixels(geometry.Inch) >= 1.5
	crowded := s.pixels(geometry.Foot/2) < thin // rows would run together: one is drawn
	var last struct {
		a, b  geometry.Point
		drawn bool
		some  bool
	}
	for i := range l.Bars {
		b := &l.Bars[i]
		if len(b.Path) < 2 || crowded && b.Of.Kind == bars.EdgeRow && b.Of.N > 1 {
			continue
		}
		if b.Of.Kind == bars.FieldGrid { // the lines of a grid are thinned
			d := s.aside(last.a, last.b, b.Path[0])
			switch {
			case last.some && d < 0.3: // goes on in the same line
				if !last.drawn {
					continue
				}
			case last.some && last.drawn && d < thin:
				continue
			default:
				last.a, last.b, last.drawn, last.some = b.Path[0], b.Path[1], true, true
			}
		}
		width := max(1.3, s.pixels(diameter(b.Size)))
		off := 0.0
		if apart {
			off = max(1.6, width*0.55)
			if i%2 == 1 {
				off = -off
			}
		}
		s.bar(b.Path, width, off)
	}
}

// diameter gives the nominal diameter of bars up to No. 8, which is all that a
// slab has: eighths of an inch (ASTM A615/A615M).
func diameter(size int) geometry.Length { return geometry.Length(size) * geometry.Inch / 8 }

// aside gives how far c lies from the line a-b, logical pixels.
func (s *Scene) aside(a, b, c geometry.Point) float64 {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	l := math.Hypot(x, y)
	if l == 0 {
		return 0
	}
	return math.Abs(x*float64(c.Y-a.Y)-y*float64(c.X-a.X)) / l * s.in.View.Scale
}

// bar draws one bar, moved to the left of its path by some logical pixels.
func (s *Scene) bar(path []geometry.Point, width, off float64) {
	if off == 0 {
		for k := 1; k < len(path); k++ {
			s.line(path[k-1], path[k], width, s.pal.Steel)
		}
		return
	}
	if !s.seen(path...) {
		return
	}
	s.path = s.path[:0]
	for k, p := range path {
		var v paint.Point
		switch {
		case k == 0:
			v = s.inward(p, path[1], off)
		case k == len(path)-1:
			v = s.inward(path[k-1], p, off)
		default: // at a bend, where both sides meet
			a, b := s.inward(path[k-1], p, off), s.inward(p, path[k+1], off)
			f := a.X*b.X + a.Y*b.Y + off*off*s.k*s.k
			v = b
			if f > 0.2*off*off*s.k*s.k {
				g := 2 * off * off * s.k * s.k / (2 * f)
				v = paint.Point{X: (a.X + b.X) * g, Y: (a.Y + b.Y) * g}
			}
		}
		s.path = append(s.path, plus(s.pt(p), v))
	}
	s.Brush.Polyline(s.path, false, width*s.k, s.pal.Steel)
	// The cut ends, so that a lap is seen to begin and to end.
	for _, e := range [2][2]int{{0, 1}, {len(s.path) - 1, len(s.path) - 2}} {
		p, q := s.path[e[0]], s.path[e[1]]
		if l := math.Hypot(q.X-p.X, q.Y-p.Y); l > 0 {
			t := (width/2 + 2.5) * s.k
			x, y := -(q.Y-p.Y)/l*t, (q.X-p.X)/l*t
			s.Brush.Line(paint.Point{X: p.X + x, Y: p.Y + y}, paint.Point{X: p.X - x, Y: p.Y - y}, 1.2*s.k, s.pal.Steel)
		}
	}
}

// steelTexts writes the marks of the bars beside them, each mark where it first
// finds room.
func (s *Scene) steelTexts(l *layout.Layout) {
	if s.pixels(geometry.Foot) < 14 {
		return
	}
	last, said := mark.Mark{}, 0
	for i := range l.Bars {
		b := &l.Bars[i]
		if b.Mark.N == 0 || len(b.Path) < 2 || b.Mark == last && said > 2 {
			continue
		}
		k := len(b.Path) / 2
		p, q := s.pt(b.Path[k-1]), s.pt(b.Path[k])
		if math.Hypot(q.X-p.X, q.Y-p.Y) < 60*s.k {
			continue
		}
		in := s.inward(b.Path[k-1], b.Path[k], 11)
		mid := middle(p, q)
		text := b.Mark.String()
		if b.Size > 0 {
			text = s.barName(b)
		}
		if s.put(text, s.upright(b.Path[k-1], b.Path[k]), s.pal.Steel, plus(mid, in), plus(middle(p, mid), in), plus(middle(mid, q), in)) {
			if b.Mark != last {
				last, said = b.Mark, 0
			}
			said++
		}
	}
}

// barName gives a bar's mark with its size, as it is read on the sheet.
func (s *Scene) barName(b *bars.Bar) string {
	key := sized{b.Mark, b.Size}
	if t, ok := s.texts.marks[key]; ok {
		return t
	}
	t := fmt.Sprintf("%s  No. %d", b.Mark, b.Size)
	s.texts.marks[key] = t
	return t
}
