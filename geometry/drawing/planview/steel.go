package planview

import (
	"math"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/mark"
)

var (
	_ = add(kind{layer: drawing.Steel, stage: placed, order: 2, sound: true, draw: (*Maker).bars, write: (*Maker).barNames})
	_ = add(kind{layer: drawing.Dowels, stage: placed, order: 6, sound: true, draw: (*Maker).dowels})
)

// bars draws the bars. Close by they have their thickness, and those of one line
// lie side by side, so that their laps are seen; far off, rows and the lines of a
// grid are thinned.
func (m *Maker) bars() {
	if m.s.Layout == nil {
		return
	}
	apart := m.o.Screen && !m.small(geometry.Inch, 0.5)
	crowded := m.small(geometry.Foot/2, 1) // rows would run together: one is drawn
	var last struct {
		a, b        geometry.Point
		drawn, some bool
	}
	laid := m.s.Layout.Bars
	for i := range laid {
		b := &laid[i]
		if len(b.Path) < 2 || crowded && b.Of.Kind == bars.EdgeRow && b.Of.N > 1 {
			continue
		}
		if b.Of.Kind == bars.FieldGrid && m.o.Detail > 0 {
			d := offLine(last.a, last.b, b.Path[0])
			switch {
			case last.some && d < 0.1*float64(m.o.Detail): // goes on in the same line
				if !last.drawn {
					continue
				}
			case last.some && last.drawn && d < float64(m.o.Detail):
				continue
			default:
				last.a, last.b, last.drawn, last.some = b.Path[0], b.Path[1], true, true
			}
		}
		k := drawing.Pencil{Layer: drawing.Steel, Style: drawing.BarLine, Width: b.Size.Diameter(), Ends: apart || !m.o.Screen}
		if apart {
			k.Aside = max(0.42, 0.15*float32(float64(k.Width)/float64(m.o.Detail)))
			if i%2 == 1 {
				k.Aside = -k.Aside
			}
		}
		if !m.o.Screen {
			k.Width = 0
		}
		m.d.Stroke(k, b.Path...)
	}
}

// offLine gives how far c lies from the line a-b, nanometers.
func offLine(a, b, c geometry.Point) float64 {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	l := math.Hypot(x, y)
	if l == 0 {
		return 0
	}
	return math.Abs(x*float64(c.Y-a.Y)-y*float64(c.X-a.X)) / l
}

// many is how many alike bars of a row get one label together.
const many = 3

// barNames writes the marks of the bars: on a screen beside them with their size,
// each mark where it first finds room; on a sheet on each bar, or once for many
// alike that are no edge's.
func (m *Maker) barNames() {
	if m.s.Layout == nil || m.o.Screen && m.small(geometry.Foot, 4.7) {
		return
	}
	laid := m.s.Layout.Bars
	if m.o.Screen {
		last, said := mark.Mark{}, 0
		for i := range laid {
			b := &laid[i]
			if b.Mark != last {
				last, said = b.Mark, 0
			}
			if b.Mark.N == 0 || len(b.Path) < 2 || said > 2 {
				continue
			}
			k := len(b.Path) / 2
			p, q := b.Path[k-1], b.Path[k]
			if m.small(geometry.Distance(p, q), 20) || !m.seen(p, q) {
				continue
			}
			said++
			at := drawing.Beside(p, q, 1.3, 0.5, 0.25, 0.75, 0.12)
			m.lines = append(m.lines[:0], m.sized(b))
			m.d.Label(drawing.Label{Layer: drawing.Steel, Style: drawing.BarLine, Type: drawing.Small, At: drawing.Between(p, q, 0.5), Weight: markWeight - 1, Optional: said > 1}, m.lines, at[:]...)
		}
		return
	}
	for _, g := range groups(laid) {
		if len(g.bars) >= many && g.of.Kind != bars.EdgeRow {
			m.barName(g.bars[len(g.bars)/2], strconv.Itoa(len(g.bars))+" × "+g.mark.String())
			continue
		}
		for _, b := range g.bars {
			m.barName(b, g.mark.String())
		}
	}
}

// sized gives a bar's mark with its size.
func (m *Maker) sized(b *bars.Bar) string {
	text, ok := sizes[b.Size]
	if !ok {
		return b.Mark.String()
	}
	return m.d.Join(b.Mark.String(), text)
}

// sizes are the bars' sizes as they are written, made once.
var sizes = func() map[bars.Size]string {
	out := map[bars.Size]string{}
	for _, s := range bars.Sizes() {
		out[s] = "  " + s.String()
	}
	return out
}()

// group is the bars of one row and mark.
type group struct {
	of   bars.Part
	mark mark.Mark
	bars []*bars.Bar
}

// group1 is what the bars of a group have in common.
type group1 struct {
	of   bars.Part
	mark mark.Mark
}

func groups(laid []bars.Bar) []group {
	var out []group
	at := map[group1]int{}
	for k := range laid {
		b := &laid[k]
		if len(b.Path) < 2 {
			continue
		}
		i, ok := at[group1{b.Of, b.Mark}]
		if !ok {
			i = len(out)
			at[group1{b.Of, b.Mark}] = i
			out = append(out, group{of: b.Of, mark: b.Mark})
		}
		out[i].bars = append(out[i].bars, b)
	}
	return out
}

// barName writes a mark on the longest leg of a bar, which is broken for it, or
// beside it, or off it with a leader to whatever of the bar is seen.
func (m *Maker) barName(b *bars.Bar, text string) {
	at := 1
	for i := 2; i < len(b.Path); i++ {
		if geometry.Distance(b.Path[i-1], b.Path[i]) > geometry.Distance(b.Path[at-1], b.Path[at]) {
			at = i
		}
	}
	p, q := b.Path[at-1], b.Path[at]
	spots := make([]drawing.Spot, 0, 15)
	for _, f := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74} {
		spots = append(spots, drawing.Spot{At: drawing.Between(p, q, f), Line: q.Sub(p), Turned: true, Within: true})
	}
	for _, aside := range [2]float32{0.5, -0.5} {
		four := drawing.Beside(p, q, aside, 0.5, 0.3, 0.7, 0.15)
		spots = append(spots, four[:]...)
	}
	for i := 1; i < len(b.Path); i++ {
		for _, f := range [...]float64{0.1, 0.3, 0.7, 0.9} {
			spots = append(spots, drawing.Spot{At: drawing.Between(b.Path[i-1], b.Path[i], f), Line: b.Path[i].Sub(b.Path[i-1]), Turned: true, Within: true})
		}
	}
	m.d.Label(drawing.Label{
		Layer: drawing.Steel, Style: drawing.BarLine, Type: drawing.Small, Slides: true, Of: "Bar " + b.Mark.String(), At: drawing.Between(p, q, 0.5),
		Prefer: inward(p, q), Start: 0.8, Near: 1.5, Reach: 60, Weight: markWeight,
	}, []string{text}, spots...)
}

// dowels draws each dowel as it lies across the joint.
func (m *Maker) dowels() {
	if m.s.Layout == nil {
		return
	}
	for i := range m.s.Layout.Dowels {
		if d := &m.s.Layout.Dowels[i]; d.Outer != d.Inner {
			m.d.Stroke(drawing.Pencil{Layer: drawing.Dowels, Style: drawing.DowelLine, Width: max(d.Width, geometry.Inch/2)}, d.Outer, d.Inner)
		}
	}
}
