package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/mark"
)

// steel is the bars and the mesh, with how they are cut and bent.
func (s *set) steel() []block {
	out := s.figures("Steel", func(t takeoff.Slab) bool { return len(t.Layout.Bars) > 0 || len(t.Layout.Mesh) > 0 }, func(plans []*drawing) {
		for _, g := range plans {
			g.slab()
			g.sheets(g.of.Layout.Mesh)
			g.bars()
			g.cornerMarks()
			g.sheetsName(g.of.Layout.Mesh, "mesh")
		}
		each((*drawing).barLabels)(plans)
	})
	out = append(out, s.ofSlabs(s.barSchedule)...)
	out = append(out, s.ofSlabs(s.meshNote)...)
	out = append(out, s.lapDetails()...)
	out = append(out, s.bendShapes()...)
	out = append(out, s.cutDiagrams("Cutting bars", s.takeoff.Lists.Cuts)...)
	if len(out) == 0 {
		return []block{s.findings(steel)}
	}
	return append(out, s.findings(steel), cautionBlock(cautionLift))
}

// bars draws each bar along its path, with a tick at its ends so that laps show.
func (g *drawing) bars() {
	for _, b := range g.of.Layout.Bars {
		pts := make([]Point, len(b.Path))
		for i, p := range b.Path {
			pts[i] = g.view.at(p)
		}
		if len(pts) < 2 {
			continue
		}
		g.soft(Steel, Pen{Width: 0.4, Color: red}, pts...)
		for _, e := range [2][2]Point{{pts[0], pts[1]}, {pts[len(pts)-1], pts[len(pts)-2]}} {
			u := e[1].sub(e[0]).unit().left().times(0.8)
			g.soft(Steel, Pen{Width: 0.3, Color: red}, e[0].sub(u), e[0].add(u))
		}
	}
}

// barGroup is the bars of one row and mark.
type barGroup struct {
	of   bars.Part
	mark mark.Mark
	bars []bars.Bar
}

func groupBars(laid []bars.Bar) []barGroup {
	type alike struct {
		of   bars.Part
		mark mark.Mark
	}
	var out []barGroup
	at := map[alike]int{}
	for _, b := range laid {
		k := alike{b.Of, b.Mark}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, barGroup{b.Of, b.Mark, nil})
		}
		out[i].bars = append(out[i].bars, b)
	}
	return out
}

// many is how many alike bars of a row get one label together.
const many = 5

// barLabels marks each bar, or many alike ones of a row together.
func (g *drawing) barLabels() {
	for _, gr := range groupBars(g.of.Layout.Bars) {
		edge := gr.of.Kind == bars.EdgeRow
		if len(gr.bars) >= many && !edge {
			m := gr.bars[len(gr.bars)/2]
			g.barLabel(m, fmt.Sprintf("%d × %s", len(gr.bars), gr.mark))
			continue
		}
		for _, b := range gr.bars {
			g.barLabel(b, gr.mark.String())
		}
	}
}

func (g *drawing) barLabel(b bars.Bar, text string) {
	if len(b.Path) < 2 {
		return
	}
	// The middle of its longest leg.
	best, at := -1.0, 0
	for i := 1; i < len(b.Path); i++ {
		if l := g.view.at(b.Path[i]).sub(g.view.at(b.Path[i-1])).length(); l > best {
			best, at = l, i
		}
	}
	p, q := g.view.at(b.Path[at-1]), g.view.at(b.Path[at])
	if g.onBar(p, q, text) {
		return
	}
	m := p.add(q).times(0.5)
	away, far := g.toOutline(m)
	l := label{
		layer: Steel, size: sizeSmall, color: red, lines: []string{text},
		at: m, prefer: q.sub(p).unit().left(), start: 0.8, limit: 60, near: 1.5,
	}
	if far < 6 {
		l.prefer, l.start = away, far+2
	}
	g.mustLabel(l)
}

// onBar writes a mark on the bar itself, which is broken for it.
func (g *drawing) onBar(p, q Point, text string) bool {
	u := readable(q.sub(p).unit())
	t := Text{Layer: Steel, Turn: angle(u), Size: sizeSmall, Color: red, Text: text}
	w, l := t.width(), q.sub(p).length()
	if l < w+8 {
		return false
	}
	for _, f := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74} {
		m := p.add(q.sub(p).times(f))
		if !g.clip.has(m) {
			continue
		}
		t.At = m.toward(u, -w/2).toward(u.left(), -0.36*t.Size*mmPerPoint)
		if g.free(t.box()) {
			g.put(t)
			return true
		}
	}
	return false
}

// toOutline gives the way from a place to the nearest side of a loop, and how
// far that is on paper.
func (g *drawing) toOutline(p Point) (way Point, far float64) {
	way, far = Point{0, 1}, math.Inf(1)
	for li, l := range g.loops {
		for i := range l {
			r := g.side(li, i)
			if d := boxOf(r.a, r.b, 0).nearest(p).sub(p).length(); d < far {
				way, far = r.out, d
			}
		}
	}
	return way, far
}

// sheets draws rectangles laid over the slab: mesh, foam, retarder.
func (g *drawing) sheets(sheets []cover.Sheet) {
	for _, m := range sheets {
		var pts []Point
		for _, c := range m.Corners {
			pts = append(pts, g.view.at(c))
		}
		g.soft(Steel, Pen{Width: 0.2, Color: blue, Dash: []float64{4, 1}}, append(pts, pts[0])...)
		g.soft(Steel, Pen{Width: 0.1, Color: blue}, pts[0], pts[2])
	}
}

// sheetsName writes what they are and how many.
func (g *drawing) sheetsName(sheets []cover.Sheet, name string) {
	if len(sheets) == 0 {
		return
	}
	c := sheets[len(sheets)/2].Corners
	at := g.view.at(c[0]).add(g.view.at(c[2])).times(0.5)
	g.mustLabel(label{
		layer: Steel, size: sizeSmall, color: blue, lines: []string{fmt.Sprintf("%s, pieces: %d", name, len(sheets))},
		at: at, start: 1, limit: 60,
	})
}

// barSchedule lists the bars by mark.
func (s *set) barSchedule(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("Bars"), head: []string{"Mark", "Pieces", "No.", "Cut", "Shape"},
		right: []bool{false, true, true, true, false}, size: sizeBody,
	}
	for _, m := range bars.Schedule(slab.Layout.Bars) {
		shape := "straight"
		if len(m.Bends) > 0 {
			shape = "bent"
		}
		tb.rows = append(tb.rows, []string{m.Mark.String(), fmt.Sprint(m.Count), fmt.Sprint(m.Size), m.Cut.Text(u), shape})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

// meshNote says how much mesh there is.
func (s *set) meshNote(slab takeoff.Slab) []block {
	l, f, u := slab.Layout, s.job.Spec.Place.Field, s.job.Units
	if len(l.Mesh) == 0 {
		return nil
	}
	kind := "sheets"
	if f.Roll {
		kind = "rolls"
	}
	return []block{notes{title: slab.Called("Mesh"), size: sizeSmall, items: []string{
		fmt.Sprintf("%s, %d %s of %s × %s, in %d pieces as drawn.", f.Style, l.MeshCount, kind, f.Width.Text(u), f.Length.Text(u), len(l.Mesh)),
		"Lap one full square plus 2 in (50 mm). Set it on chairs or pull it up: on the ground it does nothing (common practice).",
	}}}
}

// lapDetails draws each lap of bars that run on from piece to piece.
func (s *set) lapDetails() []block {
	u, spec := s.job.Units, s.job.Spec.Layout(s.job.Units)
	var out []block
	for _, l := range s.takeoff.Laps() {
		title, rule := fmt.Sprintf("Lap, No. %d", l.Size), spec.Bars.LapRule()
		text := "At least, by " + rule.Name + " (" + rule.Source + ")."
		if l.TopCast {
			title, text = title+", top rows", "Of "+l.Text(u)+". "+text
		}
		if spec.Bars.Stagger > 0 {
			text += " Laps of neighboring rows " + spec.Bars.Stagger.Text(u) + " clear of each other."
		}
		out = append(out, detailBlock{title, []string{text}, detail.Lap(u, l.Length), u, detailWide, false})
	}
	return out
}

// bendShapes draws each shape of bent bars once, for the bars of all slabs.
func (s *set) bendShapes() []block {
	var all []bars.Bar
	for _, slab := range s.takeoff.Slabs {
		all = append(all, slab.Layout.Bars...)
	}
	var shapes [][]bars.MarkLine
	at, first := map[string]int{}, map[mark.Mark]bars.Bar{}
	for _, m := range bars.Schedule(all) {
		if len(m.Bends) == 0 {
			continue
		}
		b := all[slices.IndexFunc(all, func(b bars.Bar) bool { return b.Mark == m.Mark })]
		k := detail.Alike(b)
		i, ok := at[k]
		if !ok || len(m.Legs) > fewLegs && len(shapes[i]) == 2*fewLegs { // no wider table
			i = len(shapes)
			at[k], shapes = i, append(shapes, nil)
		}
		shapes[i], first[m.Mark] = append(shapes[i], m), b
	}
	var out []block
	u := s.job.Units
	for _, ms := range shapes {
		m := ms[0]
		many := len(ms) > 1 || len(m.Legs) > fewLegs // then what is measured stands in a table
		of := detailBlock{fmt.Sprintf("Bend %s: %d × No. %d, pin %s", m.Mark, m.Count, m.Size, m.Pin.Text(u)), nil, detail.Bend(u, first[m.Mark], many), u, detailWide, false}
		if len(out) == 0 {
			of.notes = []string{"Legs over the outside of the bends; bends without an angle are square. Pin: inside diameter of the bend, ACI 318-19 Tables 25.3.1 and 25.3.2."}
		}
		if !many {
			out = append(out, of)
			continue
		}
		tb, marks := bendTable(ms, u), []string{}
		for _, m := range ms {
			marks = append(marks, m.Mark.String())
		}
		if len(marks) > 1 {
			of.title = "Bends " + strings.Join(marks, ", ")
		}
		out = append(out, pile{of, tb})
	}
	return out
}

// fewLegs is how many legs of a bar stand side by side in a table; more stand one
// under another.
const fewLegs = 4

// bendTable lists bars of one shape with their legs.
func bendTable(ms []bars.MarkLine, u geometry.Units) tableBlock {
	rows := [][]string{{"Mark", "Pieces", "No.", "Pin"}}
	for i := range ms[0].Legs {
		rows[0] = append(rows[0], detail.Letter(i))
	}
	for _, m := range ms {
		row := []string{m.Mark.String(), fmt.Sprint(m.Count), fmt.Sprint(m.Size), m.Pin.Text(u)}
		for _, l := range m.Legs {
			row = append(row, l.Text(u))
		}
		rows = append(rows, row)
	}
	folds := 0
	if len(ms[0].Legs) > fewLegs {
		turned := make([][]string, len(rows[0]))
		for _, r := range rows {
			for k, cell := range r {
				turned[k] = append(turned[k], cell)
			}
		}
		rows, folds = turned, 3
	}
	right := make([]bool, len(rows[0]))
	for i := 1; i < len(right); i++ {
		right[i] = true
	}
	return tableBlock{table{head: rows[0], right: right, rows: rows[1:], size: sizeBody}, folds}
}
