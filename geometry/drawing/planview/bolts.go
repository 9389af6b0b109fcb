package planview

import (
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/forms"
)

var (
	_ = add(kind{layer: drawing.Plates, stage: placed, order: 7, sound: true, draw: (*Maker).plates})
	_ = add(kind{layer: drawing.Bolts, stage: placed, order: 8, sound: true, draw: (*Maker).bolts, write: (*Maker).boltNumbers})
	_ = add(kind{layer: drawing.Walls, stage: placed, order: 9, sound: true, write: (*Maker).wallNames})
	_ = add(kind{layer: drawing.SawCuts, stage: placed, order: 3, sound: true, draw: (*Maker).sawCuts, write: (*Maker).sawCutNames})
	_ = add(kind{layer: drawing.Forms, stage: placed, order: 5, sound: true, draw: (*Maker).forms, write: (*Maker).formNames})
)

// eachWall calls f with each framed wall and its edge.
func (m *Maker) eachWall(f func(w *bolts.Wall, a, b geometry.Point)) {
	if m.s.Layout == nil {
		return
	}
	for i := range m.s.Layout.Walls {
		w := &m.s.Layout.Walls[i]
		if w.Own > 0 {
			f(w, w.Side.A, w.Side.B)
		} else if w.Loop < len(m.loops) && w.Edge < len(m.loops[w.Loop]) {
			a, b := m.loops[w.Loop].Ends(w.Edge)
			f(w, a, b)
		}
	}
}

// plates draws the pieces of sill plate, where they are wide enough to be seen.
func (m *Maker) plates() {
	m.eachWall(func(w *bolts.Wall, _, _ geometry.Point) {
		for i := range w.Pieces {
			if ps := w.Pieces[i].Outline; len(ps) > 2 && m.seen(ps...) && !m.small(geometry.Distance(ps[0], ps[len(ps)-1]), 1) {
				m.d.Ring(drawing.Pencil{Layer: drawing.Plates, Style: drawing.PlateLine}, ps...)
			}
		}
	})
}

// bolts draws the anchor bolts, those of hold-downs with a second ring.
func (m *Maker) bolts() {
	m.eachWall(func(w *bolts.Wall, _, _ geometry.Point) {
		var last geometry.Point
		for k := range w.Bolts {
			b := &w.Bolts[k]
			if k > 0 && m.small((b.At.X-last.X).Abs()+(b.At.Y-last.Y).Abs(), 1) || !m.seen(b.At) {
				continue
			}
			last = b.At
			s := drawing.BoltMark
			if b.HoldDown {
				s = drawing.HoldDown
			}
			m.d.Mark(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}, s, b.At, geometry.Point{})
		}
	})
}

// boltNumbers writes the bolts' numbers on the slab's side of them, where they can
// be told apart.
func (m *Maker) boltNumbers() {
	if m.o.Screen && m.small(geometry.Foot, 3.7) {
		return
	}
	m.eachWall(func(w *bolts.Wall, a, b geometry.Point) {
		for k := range w.Bolts {
			bolt := &w.Bolts[k]
			if bolt.Mark.N <= 0 || !m.seen(bolt.At) {
				continue
			}
			m.lines = append(m.lines[:0], bolt.Mark.String())
			l := drawing.Label{
				Layer: drawing.Bolts, Style: drawing.BoltLine, Type: drawing.Small, Of: "Bolt", At: bolt.At, Weight: markWeight,
				Prefer: inward(a, b), Start: 1.7, Near: 5, Reach: 25,
			}
			if m.o.Screen {
				l.Reach = 0
				m.d.Label(l, m.lines, drawing.Spot{At: bolt.At, Line: b.Sub(a), Aside: 2.1}, drawing.Spot{At: bolt.At, Line: b.Sub(a), Aside: 7.5})
				continue
			}
			m.d.Label(l, m.lines)
		}
	})
}

// smallNumbers are printed once for all.
var smallNumbers = func() (out [512]string) {
	for i := range out {
		out[i] = strconv.Itoa(i)
	}
	return out
}()

func number(n int) string {
	if n < len(smallNumbers) {
		return smallNumbers[n]
	}
	return strconv.Itoa(n)
}

// wallNames writes the name of each wall outside it, with where its tape hooks.
func (m *Maker) wallNames() {
	if m.o.Screen {
		return
	}
	m.eachWall(func(w *bolts.Wall, a, b geometry.Point) {
		if len(w.Bolts) == 0 {
			return
		}
		if w.Own > 0 {
			return // named on its own line
		}
		n := len(m.loops[w.Loop])
		hook := "tape from " + strconv.Itoa(w.Edge+1) + " to " + strconv.Itoa((w.Edge+1)%n+1)
		m.d.Label(drawing.Label{
			Layer: drawing.Walls, Style: drawing.NoteText, Type: drawing.Body | drawing.Bold, Of: w.Name(),
			At: drawing.Between(a, b, 0.5), Prefer: outward(a, b), Start: 3, Near: 9, Reach: 80, Weight: placeWeight - 2,
		}, []string{w.Name(), hook})
	})
}

// sawCuts draws the saw cuts and the strips of filler.
func (m *Maker) sawCuts() {
	if m.s.Layout == nil {
		return
	}
	for _, j := range m.s.Layout.SawCuts {
		m.d.Stroke(drawing.Pencil{Layer: drawing.SawCuts, Style: drawing.SawLine}, j.A, j.B)
	}
	for _, i := range m.s.Layout.Isolation {
		m.d.Stroke(drawing.Pencil{Layer: drawing.SawCuts, Style: drawing.IsolationLine}, i.A, i.B)
	}
}

// sawCutNames writes on a sheet the mark of each saw cut, on a screen what the strips
// of filler are.
func (m *Maker) sawCutNames() {
	if m.s.Layout == nil {
		return
	}
	if !m.o.Screen {
		for _, c := range m.s.Layout.SawCuts {
			k := c.Mark.String()
			one, other := drawing.Beside(c.A, c.B, 0.8, 0.06, 0.94, 0.25, 0.75), drawing.Beside(c.A, c.B, -0.8, 0.06, 0.94, 0.25, 0.75)
			m.d.Label(drawing.Label{
				Layer: drawing.SawCuts, Style: drawing.SawLine, Type: drawing.Small, Of: "Saw cut", At: drawing.Between(c.A, c.B, 0.1),
				Start: 0.8, Near: 4, Reach: 30, Slides: true, Weight: markWeight,
			}, []string{k}, append(one[:], other[:]...)...)
		}
		return
	}
	for _, i := range m.s.Layout.Isolation {
		if m.small(geometry.Distance(i.A, i.B), 40) {
			continue
		}
		at := drawing.Beside(i.A, i.B, 6.6, 0.5, 0.25, 0.75)
		m.lines = append(m.lines[:0], "isolation strip")
		m.d.Label(drawing.Label{Layer: drawing.SawCuts, Style: drawing.SawLine, Type: drawing.Small, At: drawing.Between(i.A, i.B, 0.5), Weight: coverWeight - 1}, m.lines, at[:3]...)
	}
}

// eachForm calls f with each run of boards and its edge.
func (m *Maker) eachForm(f func(f *forms.Form, a, b geometry.Point)) {
	if m.s.Layout == nil {
		return
	}
	for i := range m.s.Layout.Forms {
		s := &m.s.Layout.Forms[i]
		if s.A != s.B && m.seen(s.A, s.B) {
			f(s, s.A, s.B)
		}
	}
}

// forms draws the boards with their joints, the stakes, and kickers out to their
// feet.
func (m *Maker) forms() {
	board := drawing.Pencil{Layer: drawing.Forms, Style: drawing.FormLine, Aside: -1.06}
	m.eachForm(func(f *forms.Form, a, b geometry.Point) {
		if f.Middle != 0 {
			m.bentForm(f, board)
			return
		}
		end := b
		if !m.o.Screen && f.Length > 0 {
			end = geometry.Along(a, b, f.Length)
		}
		m.d.Stroke(board, a, end)
		if !m.o.Screen && len(f.Boards) > 1 {
			thick := f.Board.Thickness
			at := geometry.Length(0)
			for _, l := range f.Boards[:len(f.Boards)-1] {
				at += l
				p := geometry.Along(a, b, at)
				m.d.Stroke(drawing.Pencil{Layer: drawing.Forms, Style: drawing.KickerLine}, p, p.Add(unitOut(a, b, thick)))
			}
		}
		marks := func(along []geometry.Length, s drawing.Symbol, style drawing.Style) {
			last := -geometry.MaxLength
			for _, at := range along {
				if m.small(at-last, 1.33) {
					continue
				}
				last = at
				m.d.Mark(drawing.Pencil{Layer: drawing.Forms, Style: style}, s, geometry.Along(a, b, at), b.Sub(a))
			}
		}
		marks(f.Stakes, drawing.StakeTick, drawing.StakeLine)
		marks(f.Kickers, drawing.KickerTick, drawing.KickerLine)
	})
}

// bentForm draws the boards along an arc.
func (m *Maker) bentForm(f *forms.Form, board drawing.Pencil) {
	a := f.Arc()
	m.d.Arc(board, a)
	long := float64(a.Length())
	out := func(share float64, l geometry.Length) geometry.Point {
		return a.At(share, -l).Sub(a.At(share, 0))
	}
	at := geometry.Length(0)
	for i, l := range f.Boards {
		if at += l; m.o.Screen || i+1 == len(f.Boards) {
			break
		}
		share := float64(at) / long
		p := a.At(share, 0)
		m.d.Stroke(drawing.Pencil{Layer: drawing.Forms, Style: drawing.KickerLine}, p, p.Add(out(share, f.Board.Thickness)))
	}
	marks := func(along []geometry.Length, s drawing.Symbol, style drawing.Style) {
		last := -geometry.MaxLength
		for _, at := range along {
			if m.small(at-last, 1.33) {
				continue
			}
			last = at
			x, y := a.Along(float64(at) / long)
			m.d.Mark(drawing.Pencil{Layer: drawing.Forms, Style: style}, s, a.At(float64(at)/long, 0), geometry.Point{X: geometry.Length(x * 1e6), Y: geometry.Length(y * 1e6)})
		}
	}
	marks(f.Stakes, drawing.StakeTick, drawing.StakeLine)
	marks(f.Kickers, drawing.KickerTick, drawing.KickerLine)
}

// unitOut gives the vector of a length out of the slab at the edge a-b.
func unitOut(a, b geometry.Point, l geometry.Length) geometry.Point {
	v := geometry.Along(a, b, l).Sub(a)
	return geometry.Point{X: v.Y, Y: -v.X}
}

// formNames writes on each side its boards.
func (m *Maker) formNames() {
	if m.o.Screen {
		return
	}
	m.eachForm(func(f *forms.Form, a, b geometry.Point) {
		lines := []string{m.d.Join(f.Mark.String(), m.d.Join(" ", f.Board.Name)), m.boards(f.Boards)}
		if f.Ripped > 0 {
			lines[0] += ", ripped or set in by " + m.d.Text(f.Ripped)
		}
		if f.Of() != "" { // beside the edge's own: a table tells the rest
			lines = append(lines[:0], f.Mark.String())
		}
		on := f.Side(m.marks())
		if f.Loop >= 0 {
			on = sideName(side{f.Loop, f.Edge, 0}, len(m.loops[f.Loop]))
		}
		if f.Of() != "" {
			on = f.Named(on) + " " + f.Mark.String()
		}
		m.d.Label(drawing.Label{
			Layer: drawing.Forms, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, Of: "Form on " + on,
			At: f.Arc().At(0.5, 0), Prefer: outward(a, b), Start: 5, Near: 10, Reach: 80, Weight: markWeight,
		}, lines)
	})
}

// boards writes boards as "2 × 16'-0" + 8'-0"".
func (m *Maker) boards(boards []geometry.Length) string {
	out := ""
	for i := 0; i < len(boards); {
		k := i
		for k < len(boards) && boards[k] == boards[i] {
			k++
		}
		if out != "" {
			out += " + "
		}
		if k-i > 1 {
			out += strconv.Itoa(k-i) + " × "
		}
		out += m.d.Text(boards[i])
		i = k
	}
	return out
}
