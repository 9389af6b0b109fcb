package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
)

// steelPages draws the bars and the mesh, where there are any.
func (s *set) steelPages() {
	l := s.slab.Layout
	if len(l.Bars) == 0 && len(l.Mesh) == 0 {
		return
	}
	s.planSheets("Steel", func(g *drawing) {
		g.slab()
		g.sheets(l.Mesh, "mesh")
		g.bars()
		g.cornerMarks()
		g.furniture()
		g.barLabels()
	}, func() []block {
		out := s.barSchedule()
		out = append(out, s.bendShapes()...)
		out = append(out, s.cutDiagrams("Cutting bars", s.takeoff.Lists.Cuts)...)
		out = append(out, s.meshNote()...)
		return append(out, s.findings(ruleHas("bar", "lap", "cover", "mesh")))
	})
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
	row, mark string
	bars      []layout.Bar
}

func groupBars(bars []layout.Bar) []barGroup {
	var out []barGroup
	at := map[[2]string]int{}
	for _, b := range bars {
		k := [2]string{b.Row, b.Mark}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, barGroup{b.Row, b.Mark, nil})
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
		edge := strings.HasPrefix(gr.row, "edge")
		if len(gr.bars) >= many && !edge {
			m := gr.bars[len(gr.bars)/2]
			g.barLabel(m, fmt.Sprintf("%d × %s", len(gr.bars), gr.mark))
			continue
		}
		for _, b := range gr.bars {
			g.barLabel(b, gr.mark)
		}
	}
}

func (g *drawing) barLabel(b layout.Bar, text string) {
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
func (g *drawing) sheets(sheets []layout.Sheet, name string) {
	for _, m := range sheets {
		var pts []Point
		for _, c := range m.Corners {
			pts = append(pts, g.view.at(c))
		}
		g.soft(Steel, Pen{Width: 0.2, Color: blue, Dash: []float64{4, 1}}, append(pts, pts[0])...)
		g.soft(Steel, Pen{Width: 0.1, Color: blue}, pts[0], pts[2])
	}
	if len(sheets) > 0 {
		c := sheets[len(sheets)/2].Corners
		at := g.view.at(c[0]).add(g.view.at(c[2])).times(0.5)
		g.label(label{
			layer: Steel, size: sizeSmall, color: blue, lines: []string{fmt.Sprintf("%s, %d pieces", name, len(sheets))},
			at: at, start: 1, limit: 60,
		})
	}
}

// barSchedule lists the bars by mark.
func (s *set) barSchedule() []block {
	u := s.job.Units
	type row struct {
		layout.Bar
		count int
	}
	var rows []row
	at := map[string]int{}
	for _, b := range s.slab.Layout.Bars {
		i, ok := at[b.Mark]
		if !ok {
			i = len(rows)
			at[b.Mark] = i
			rows = append(rows, row{Bar: b})
		}
		rows[i].count++
	}
	if len(rows) == 0 {
		return nil
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(cmp.Compare(len(a.Mark), len(b.Mark)), cmp.Compare(a.Mark, b.Mark))
	})
	tb := table{
		title: "Bars", head: []string{"Mark", "Pieces", "No.", "Cut", "Shape"},
		right: []bool{false, true, true, true, false}, size: sizeBody,
	}
	for _, r := range rows {
		shape := "straight"
		if len(r.Bends) > 0 {
			shape = "bent"
		}
		tb.rows = append(tb.rows, []string{r.Mark, fmt.Sprint(r.count), fmt.Sprint(r.Size), r.Cut.Text(u), shape})
	}
	return []block{tableBlock{table: tb}}
}

// meshNote says how much mesh there is.
func (s *set) meshNote() []block {
	l, f, u := s.slab.Layout, s.job.Spec.Place.Field, s.job.Units
	if len(l.Mesh) == 0 {
		return nil
	}
	kind := "sheets"
	if f.Roll {
		kind = "rolls"
	}
	return []block{notes{title: "Mesh", size: sizeSmall, items: []string{
		fmt.Sprintf("%s, %d %s of %s × %s, in %d pieces as drawn.", f.Style, l.MeshCount, kind, f.Width.Text(u), f.Length.Text(u), len(l.Mesh)),
		"Lap one full square plus 2 in (50 mm). Set it on chairs or pull it up: on the ground it does nothing (common practice).",
	}}}
}

// cutDiagram shows how one stock bar or board is sawn.
type cutDiagram struct {
	stock layout.StockBar
	count int
	most  geometry.Length // the longest stock, which fills the width
	units geometry.Units
}

// cutDiagrams shows each way of sawing once, with how often.
func (s *set) cutDiagrams(title string, c layout.CutList) []block {
	if len(c.Stock) == 0 {
		return nil
	}
	var out []block
	at := map[string]int{}
	var most geometry.Length
	for _, st := range c.Stock {
		most = max(most, st.Length)
	}
	for _, st := range c.Stock {
		k := fmt.Sprint(st)
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, cutDiagram{st, 0, most, s.job.Units})
		}
		d := out[i].(cutDiagram)
		d.count++
		out[i] = d
	}
	text := fmt.Sprintf("%s to buy, %s left over.", c.Bought.Text(s.job.Units), c.Waste.Text(s.job.Units))
	if c.Optimal {
		text += " No cutting buys less."
	}
	return append([]block{notes{title: title, items: []string{text}, size: sizeSmall}}, tight(out)...)
}

// tight sets blocks closer than others.
func tight(in []block) []block {
	var out []block
	for len(in) > 0 {
		n := min(len(in), 12)
		out = append(out, pile(in[:n]))
		in = in[n:]
	}
	return out
}

// pile is blocks set close on one another.
type pile []block

func (p pile) height(width float64) (h float64) {
	for _, b := range p {
		h += b.height(width) + 1.5
	}
	return h
}

func (p pile) draw(d *draft, x, top, width float64) float64 {
	for _, b := range p {
		top = b.draw(d, x, top, width) - 1.5
	}
	return top
}

func (p pile) cut(height, width float64) (first, rest block, ok bool) {
	for n := len(p) - 1; n > 0; n-- {
		if p[:n].height(width) <= height {
			return p[:n], p[n:], true
		}
	}
	return nil, nil, false
}

const cutTall = 4.6

// pieceText writes the pieces of a stock bar: "A1 12'-3", 2 × A2 4'-0"".
func (c cutDiagram) pieceText() string {
	var parts []string
	for i := 0; i < len(c.stock.Pieces); {
		k := i
		for k < len(c.stock.Pieces) && c.stock.Pieces[k] == c.stock.Pieces[i] {
			k++
		}
		p := c.stock.Pieces[i]
		t := p.Length.Text(c.units)
		if p.Mark != "" {
			t = p.Mark + " " + t
		}
		if k-i > 1 {
			t = fmt.Sprintf("%d × ", k-i) + t
		}
		parts = append(parts, t)
		i = k
	}
	if c.stock.Rest > 0 {
		parts = append(parts, "rest "+c.stock.Rest.Text(c.units))
	}
	return strings.Join(parts, ", ")
}

func (c cutDiagram) heading() string {
	from := ""
	if c.stock.Yard {
		from = " from the yard"
	}
	return fmt.Sprintf("%d × %s %s%s", c.count, c.stock.Name, c.stock.Length.Text(c.units), from)
}

func (c cutDiagram) lines(width float64) []string {
	return wrap(c.pieceText(), width, sizeSmall, false)
}

func (c cutDiagram) height(width float64) float64 {
	return leading(sizeSmall) + cutTall + float64(len(c.lines(width)))*leading(sizeSmall)
}

func (c cutDiagram) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeSmall*mmPerPoint, sizeSmall, true, shorten(c.heading(), width, sizeSmall, true))
	top -= leading(sizeSmall)
	scale := width / c.most.Metres()
	y0, y1 := top-cutTall+1.6, top-0.4
	at := x
	for _, p := range c.stock.Pieces {
		w := p.Length.Metres() * scale
		d.ring(Steel, penRule, noFill, Point{at, y0}, Point{at + w, y0}, Point{at + w, y1}, Point{at, y1})
		at += w
	}
	end := x + c.stock.Length.Metres()*scale
	if end-at > 0.05 {
		d.ring(Steel, penRule, pale, Point{at, y0}, Point{end, y0}, Point{end, y1}, Point{at, y1})
		for h := at + 0.8; h < end-1.2; h += 1.6 {
			d.soft(Steel, penHatch, Point{h, y0}, Point{min(end, h+y1-y0), y1})
		}
	}
	top -= cutTall
	for _, l := range c.lines(width) {
		d.write(x, top-capHeight*sizeSmall*mmPerPoint, sizeSmall, false, l)
		top -= leading(sizeSmall)
	}
	return top
}

// bendShape shows how a bar is bent, with its legs.
type bendShape struct {
	bar   layout.Bar
	count int
	units geometry.Units
}

func (s *set) bendShapes() []block {
	var out []block
	at := map[string]int{}
	for _, b := range s.slab.Layout.Bars {
		if len(b.Bends) == 0 || len(b.Path) < 3 {
			continue
		}
		i, ok := at[b.Mark]
		if !ok {
			i = len(out)
			at[b.Mark] = i
			out = append(out, bendShape{b, 0, s.job.Units})
		}
		d := out[i].(bendShape)
		d.count++
		out[i] = d
	}
	return out
}

const bendTall = 26.0

func (b bendShape) height(float64) float64 { return titleSkip + bendTall }

// draw draws the bar not to scale but in shape: legs within bounds of length.
func (b bendShape) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true,
		shorten(fmt.Sprintf("Bend %s: %d × No. %d", b.bar.Mark, b.count, b.bar.Size), width, sizeBody, true))
	r := rect{x, top - titleSkip - bendTall, x + width, top - titleSkip}
	pts := []Point{{0, 0}}
	turn := 0.0
	var longest geometry.Length
	for _, l := range b.legs() {
		longest = max(longest, l)
	}
	for i, l := range b.legs() {
		w := max(7, 22*float64(l)/float64(max(longest, 1)))
		s, c := math.Sincos(turn)
		pts = append(pts, pts[len(pts)-1].add(Point{c * w, s * w}))
		if i < len(b.bar.Bends) {
			turn += b.side(i) * b.bar.Bends[i].Turn * math.Pi / 180
		}
	}
	mid := Point{}
	for _, p := range pts {
		mid = mid.add(p.times(1 / float64(len(pts))))
	}
	lo, hi := pts[0], pts[0]
	for _, p := range pts {
		lo, hi = Point{min(lo.X, p.X), min(lo.Y, p.Y)}, Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	f := min(1, (r.height()-11)/max(1, hi.Y-lo.Y), (width-34)/max(1, hi.X-lo.X))
	move := Point{r.x0 + width/2 - (lo.X+hi.X)/2*f, r.centre().Y - (lo.Y+hi.Y)/2*f}
	for i := range pts {
		pts[i] = pts[i].times(f).add(move)
	}
	mid = mid.times(f).add(move)
	d.line(Steel, Pen{Width: 0.8, Color: red}, pts...)
	old := d.area
	d.area = r
	for i, l := range b.legs() {
		p, q := pts[i], pts[i+1]
		// Outside of the shape.
		m, n := p.add(q).times(0.5), q.sub(p).unit().left()
		if m.sub(mid).dot(n) < 0 {
			n = n.times(-1)
		}
		if !d.label(label{layer: Steel, size: sizeBody, color: black, lines: []string{l.Text(b.units)},
			at: m, prefer: n, start: 1.2, limit: 30, near: 6}) {
			d.page.Unplaced = append(d.page.Unplaced, b.bar.Mark+" leg")
		}
	}
	d.area = old
	return r.y0
}

// side gives to which side bend i turns: 1 left, -1 right, as the bar lies; for
// a bend in height, up is left.
func (b bendShape) side(i int) float64 {
	p := b.bar.Path
	if i+2 >= len(p) {
		return 1
	}
	u := Point{(p[i+1].X - p[i].X).Metres(), (p[i+1].Y - p[i].Y).Metres()}
	v := Point{(p[i+2].X - p[i+1].X).Metres(), (p[i+2].Y - p[i+1].Y).Metres()}
	if turn := u.unit().left().dot(v.unit()); math.Abs(turn) > 0.05 {
		return math.Copysign(1, turn)
	}
	d := b.bar.Depths
	if len(d) != len(p) {
		return 1
	}
	rise := func(k int, run Point) float64 { return (d[k] - d[k+1]).Metres() / max(run.length(), 1e-9) }
	return math.Copysign(1, rise(i+1, v)-rise(i, u))
}

// legs gives the bar's legs, over the outside of its bends.
func (b bendShape) legs() []geometry.Length {
	if len(b.bar.Legs) == len(b.bar.Bends)+1 {
		return b.bar.Legs
	}
	var out []geometry.Length
	for i := 1; i < len(b.bar.Path); i++ {
		out = append(out, geometry.Distance(b.bar.Path[i-1], b.bar.Path[i]))
	}
	return out
}
