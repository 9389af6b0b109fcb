package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry"
	"haunchbook/geometry/lumber"
	"haunchbook/geometry/plan"
)

// drawing is one plan view in the making.
type drawing struct {
	*draft
	view  View
	j     job.Job
	of    takeoff.Slab // what is drawn
	loops []plan.Loop
	paper rect   // all that the drawing may take of the sheet
	match func() // draws the match lines
	whole bool   // no part of the plan is on another sheet
}

func newDrawing(d *draft, v View, paper rect, j job.Job, s takeoff.Slab) *drawing {
	d.page.View = &v
	return &drawing{d, v, j, s, s.Plan.Loops(), paper, func() {}, true}
}

// side is one edge of a loop on paper.
func (g *drawing) side(loop, edge int) run {
	l := g.loops[loop]
	n := len(l)
	a, b := l.Ends(edge)
	before, after := l[(edge+n-1)%n].At, l[(edge+2)%n].At
	pa, pb := g.view.at(a), g.view.at(b)
	u := pb.sub(pa).unit()
	return run{
		a: pa, b: pb,
		out:  Point{u.Y, -u.X}, // the slab is left of each edge
		prev: g.view.at(before).sub(pa),
		next: g.view.at(after).sub(pb),
	}
}

// onSide gives the place at a running distance along an edge.
func (g *drawing) onSide(loop, edge int, along geometry.Length) Point {
	r := g.side(loop, edge)
	return r.a.toward(r.along(), g.view.Scale.paperOf(along))
}

// slab draws the outline, the holes, the haunch lines, the pads and strips, and
// the joint: what every plan view starts from.
func (g *drawing) slab() {
	for _, l := range g.loops {
		pts := make([]Point, len(l))
		for i, e := range l {
			pts[i] = g.view.at(e.At)
		}
		g.fill(Slab, paler, pts...)
	}
	for _, h := range g.of.Plan.Holes {
		pts := make([]Point, len(h.Loop))
		for i, e := range h.Loop {
			pts[i] = g.view.at(e.At)
		}
		g.fill(Slab, white, pts...)
	}
	g.match()
	if s := g.of.Solid; s != nil {
		for _, l := range s.Ridges() {
			g.soft(Thick, penHidden, g.view.at(l.A), g.view.at(l.B))
		}
	}
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			if e.Joint {
				g.oldSlabHatch(r)
				g.line(OldSlab, penJoint, r.a, r.b)
				continue
			}
			g.line(Slab, penEdge, r.a, r.b)
		}
	}
}

// oldSlabHatch draws a band of hatching on the far side of a joint.
func (g *drawing) oldSlabHatch(r run) {
	const deep, step = 3.5, 2.2
	u := r.along()
	for s := step / 2; s < r.length()-deep; s += step {
		a := r.a.toward(u, s).toward(r.out, 0.8)
		g.soft(OldSlab, penHatch, a, a.toward(u, deep-0.8).toward(r.out, deep-0.8))
	}
}

// plates draws the sill plates, open at the doors.
func (g *drawing) plates() {
	for _, w := range g.of.Layout.Walls {
		b, ok := lumber.Named(w.Plate)
		if !ok {
			continue
		}
		r := g.side(w.Loop, w.Edge)
		deep := g.view.Scale.paperOf(b.Width)
		for _, p := range w.Pieces {
			a, c := g.onSide(w.Loop, w.Edge, p.From), g.onSide(w.Loop, w.Edge, p.To)
			g.soft(Plates, penPlate, a, a.toward(r.out, -deep), c.toward(r.out, -deep), c)
		}
	}
}

// doors marks the openings and names them.
func (g *drawing) doors() {
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			for _, door := range e.Doors {
				a, b := g.onSide(li, i, door.From), g.onSide(li, i, door.From+door.Width)
				for _, p := range []Point{a, b} {
					g.line(Opening, penHeavy, p.toward(r.out, 0.6), p.toward(r.out, -2.6))
				}
				g.soft(Opening, Pen{Width: 0.25, Color: black, Dash: []float64{1, 0.8}}, a.toward(r.out, -1.6), b.toward(r.out, -1.6))
			}
		}
	}
}

// doorName gives how a door is called on the sheet.
func doorName(d plan.Door, k int) string {
	if d.Name != "" {
		return d.Name
	}
	return fmt.Sprintf("D%d", k+1)
}

func (g *drawing) doorLabels() {
	u := g.j.Units
	k := 0
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			for _, door := range e.Doors {
				kind := "walk door"
				if door.Kind == plan.Overhead {
					kind = "overhead door"
				}
				at := g.onSide(li, i, door.From+door.Width/2).toward(r.out, -2)
				g.mustLabel(label{
					layer: Opening, size: sizeSmall, bold: true, color: black,
					lines: []string{doorName(door, k) + " " + kind, "rough opening " + door.Width.Text(u)},
					at:    at, prefer: r.out.times(-1), near: 6, limit: 70, start: 2,
				})
				k++
			}
		}
	}
}

// mustLabel places a label: whole, else its first line alone, else in fine
// print. One without a place is listed on the sheet.
func (g *drawing) mustLabel(l label) {
	short, fine := l, l
	short.lines = l.lines[:1]
	fine.lines, fine.size = l.lines[:1], sizeFine
	if !g.label(l) && !g.label(short) && !g.label(fine) {
		g.missing = append(g.missing, l.lines[0])
	}
}

// unmarked lists what found no place on the drawing.
func (d *draft) unmarked() block {
	if len(d.missing) == 0 {
		return nothing{}
	}
	return notes{
		title: "No room on the drawing for", size: sizeSmall,
		items: []string{strings.Join(slices.Compact(slices.Sorted(slices.Values(d.missing))), ", ")},
	}
}

// innermost gives a point well inside a ring: of a grid over it, the one that is
// farthest from the sides.
func innermost(r geometry.Ring) geometry.Point {
	lo, hi := r.Bounds()
	const steps = 24
	best, far := r[0], -1.0
	for i := 1; i < steps; i++ {
		for k := 1; k < steps; k++ {
			p := geometry.Point{X: lo.X + (hi.X-lo.X)*geometry.Length(i)/steps, Y: lo.Y + (hi.Y-lo.Y)*geometry.Length(k)/steps}
			if !r.Contains(p) {
				continue
			}
			near := math.Inf(1)
			for s, a := range r {
				near = min(near, offLine(p, a, r[(s+1)%len(r)]))
			}
			if near > far*1.001 {
				best, far = p, near
			}
		}
	}
	return best
}

// offLine gives the distance from p to the segment a-b, in metres.
func offLine(p, a, b geometry.Point) float64 {
	q := boxOf(Point{a.X.Metres(), a.Y.Metres()}, Point{b.X.Metres(), b.Y.Metres()}, 0).nearest(Point{p.X.Metres(), p.Y.Metres()})
	return q.sub(Point{p.X.Metres(), p.Y.Metres()}).length()
}

// cornerMarks numbers the corners of the outline, outside them.
func (g *drawing) cornerMarks() {
	l := g.loops[0]
	n := len(l)
	for i := range l {
		in, out := g.side(0, (i+n-1)%n), g.side(0, i)
		away := in.out.add(out.out)
		if away.length() < 0.1 {
			away = in.along()
		}
		g.bubble(g.view.at(l[i].At), away.unit(), fmt.Sprint(i+1), i == 0)
	}
}

// bubble places a number in a circle near a point.
func (g *drawing) bubble(at, prefer Point, s string, dark bool) {
	if !g.clip.has(at) {
		return
	}
	const size = sizeSmall
	radius := max(2.1, textWidth(s, size, true)/2+0.7)
	for _, dist := range []float64{2.5, 4, 6, 9, 13, 18, 24} {
		for k := range directions {
			turn := float64((k+1)/2) * 2 * math.Pi / directions
			if k%2 == 1 {
				turn = -turn
			}
			sin, cos := math.Sincos(turn)
			u := Point{prefer.X*cos - prefer.Y*sin, prefer.X*sin + prefer.Y*cos}
			c := at.toward(u, dist+radius)
			if !g.free(box{c, Point{1, 0}, radius + 0.3, radius + 0.3}) {
				continue
			}
			fill, ink := white, black
			if dark {
				fill, ink = black, white
			}
			g.circle(Notes, penRule, fill, c, radius)
			g.put(Text{Notes, Point{c.X - textWidth(s, size, true)/2, c.Y - 0.365*size*mmPerPoint}, 0, size, true, ink, s})
			if dist > 4 {
				g.line(Notes, penHatch, c.toward(u, -radius), at.toward(u, 0.6))
			}
			return
		}
	}
	g.page.Unplaced = append(g.page.Unplaced, "corner "+s)
}

// edgeChains gives the dimension strings of an edge: to the openings, and whole.
func edgeChains(l plan.Loop, i int, s Scale, u geometry.Units) []chain {
	length := l.Length(i)
	whole := chain{[]float64{0, s.paperOf(length)}, []string{length.Text(u)}}
	doors := slices.Clone(l[i].Doors)
	if len(doors) == 0 {
		return []chain{whole}
	}
	slices.SortFunc(doors, func(a, b plan.Door) int { return int(math.Copysign(1, float64(a.From-b.From))) })
	stops := []geometry.Length{0}
	for _, d := range doors {
		for _, at := range []geometry.Length{d.From, d.From + d.Width} {
			if at > stops[len(stops)-1] {
				stops = append(stops, at)
			}
		}
	}
	if length > stops[len(stops)-1] {
		stops = append(stops, length)
	}
	var c chain
	for k, at := range stops {
		c.stops = append(c.stops, s.paperOf(at))
		if k > 0 {
			c.texts = append(c.texts, (at - stops[k-1]).Text(u))
		}
	}
	return []chain{c, whole}
}

// dimensions places every edge's strings, the longest edges first, and then the
// overall measures. It gives the edges that found no place, for a table.
func (g *drawing) dimensions() []edgeRef {
	var refs []edgeRef
	for li, l := range g.loops {
		if li > 0 && upright(l) {
			continue // its label gives its size
		}
		for i := range l {
			refs = append(refs, edgeRef{li, i, l.Length(i)})
		}
	}
	slices.SortStableFunc(refs, func(a, b edgeRef) int {
		return int(math.Copysign(1, float64(b.length-a.length))) * boolInt(a.length != b.length)
	})
	var left []edgeRef
	for _, e := range refs {
		l := g.loops[e.loop]
		r := g.side(e.loop, e.edge)
		if g.dimension(r, edgeChains(l, e.edge, g.view.Scale, g.j.Units)) {
			continue
		}
		if g.alongSide(r, e.length.Text(g.j.Units)) {
			continue
		}
		left = append(left, e)
	}
	g.overall()
	return left
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// edgeRef names an edge.
type edgeRef struct {
	loop, edge int
	length     geometry.Length
}

func (e edgeRef) name(loops []plan.Loop) string {
	n := len(loops[e.loop])
	s := fmt.Sprintf("%d–%d", e.edge+1, (e.edge+1)%n+1)
	if e.loop > 0 {
		s = fmt.Sprintf("H%d: %s", e.loop, s)
	}
	return s
}

// overall dimensions the whole slab both ways, where no single edge does.
func (g *drawing) overall() {
	ring := g.loops[0].Corners()
	lo, hi := ring.Bounds()
	a, b := g.view.at(lo), g.view.at(hi)
	spans := func(e int, w geometry.Length, across bool) bool {
		p, q := g.loops[0].Ends(e)
		v := q.Sub(p)
		return across && v.X.Abs() == w && v.Y == 0 || !across && v.Y.Abs() == w && v.X == 0
	}
	for _, dir := range []struct {
		length geometry.Length
		across bool
		sides  []run
	}{
		{hi.X - lo.X, true, []run{
			{a: a, b: Point{b.X, a.Y}, out: Point{0, -1}},
			{a: Point{a.X, b.Y}, b: b, out: Point{0, 1}},
		}},
		{hi.Y - lo.Y, false, []run{
			{a: Point{a.X, b.Y}, b: a, out: Point{-1, 0}},
			{a: Point{b.X, a.Y}, b: b, out: Point{1, 0}},
		}},
	} {
		done := false
		for e := range ring {
			done = done || spans(e, dir.length, dir.across)
		}
		for o := firstTier; o < 60 && !done; o += tierTry {
			for _, r := range dir.sides {
				r, ok := g.seen(r)
				if !ok {
					continue
				}
				done = done || g.attempt(func() bool { return g.overallAt(r, o, ring, dir.across, dir.length.Text(g.j.Units)) })
			}
		}
		if !done && g.whole {
			g.page.Unplaced = append(g.page.Unplaced, "overall "+dir.length.Text(g.j.Units))
		}
	}
}

// overallAt draws an overall string at an offset from the slab's bounds, with
// extension lines from the outermost corners, or short ones where those would
// cross something.
func (g *drawing) overallAt(r run, o float64, ring geometry.Ring, across bool, text string) bool {
	c := chain{[]float64{0, r.length()}, []string{text}}
	for _, end := range []Point{r.a, r.b} {
		if !g.clip.has(end) {
			continue
		}
		// The outermost corner nearest to the string.
		from := o - 4
		for _, p := range ring {
			q := g.view.at(p)
			off := q.sub(end)
			if math.Abs(off.dot(r.along())) < 0.05 {
				from = min(from, off.dot(r.out)+extGap)
			}
		}
		long := g.attempt(func() bool {
			p, q := end.toward(r.out, from), end.toward(r.out, o+extPast)
			if !g.free(boxOf(p, q, 0.15)) {
				return false
			}
			g.line(Dimension, penDim, p, q)
			return true
		})
		if !long {
			p, q := end.toward(r.out, o-3), end.toward(r.out, o+extPast)
			if !g.free(boxOf(p, q, 0.15)) {
				return false
			}
			g.line(Dimension, penDim, p, q)
		}
	}
	return g.chain(r, o, c)
}

// bolts draws the anchor bolts with their numbers.
func (g *drawing) bolts() {
	for _, w := range g.of.Layout.Walls {
		for _, b := range w.Bolts {
			c := g.view.at(b.At)
			if !g.clip.has(c) {
				continue
			}
			g.boltMark(c)
		}
	}
}

// boltMark draws a bolt seen from above.
func (d *draft) boltMark(c Point) {
	d.circle(Bolts, penBolt, white, c, 0.75)
	for _, v := range []Point{{1.3, 0}, {0, 1.3}} {
		d.page.Items = append(d.page.Items, Line{Layer: Bolts, Pen: Pen{Width: 0.18, Color: red}, Points: []Point{c.sub(v), c.add(v)}})
	}
	d.obs.add(box{c, Point{1, 0}, 1.4, 1.4}, false)
}

func (g *drawing) boltNumbers() {
	for _, w := range g.of.Layout.Walls {
		r := g.side(w.Loop, w.Edge)
		for _, b := range w.Bolts {
			g.mustLabel(label{
				layer: Bolts, size: sizeSmall, color: red, lines: []string{fmt.Sprint(b.Mark)},
				at: g.view.at(b.At), prefer: r.out.times(-1), start: 1.7, limit: 25, near: 5,
			})
		}
	}
}

func padName(p plan.Pad, i int) string     { return named(p.Name, "P", i) }
func stripName(s plan.Strip, i int) string { return named(s.Name, "S", i) }
func holeName(h plan.Hole, i int) string   { return named(h.Name, "H", i) }

// named gives the name, or where there is none a letter with a number.
func named(name, kind string, i int) string {
	if name != "" {
		return name
	}
	return fmt.Sprintf("%s%d", kind, i+1)
}

// upright tells whether a loop is a rectangle along the axes.
func upright(l plan.Loop) bool {
	if len(l) != 4 {
		return false
	}
	for i := range l {
		a, b := l.Ends(i)
		c, _ := l.Ends((i + 2) % 4)
		if (a.X == b.X) == (a.Y == b.Y) || (a.X-c.X)*(a.Y-c.Y) == 0 {
			return false
		}
	}
	return true
}

// padLabels names the pads and strips and the holes.
func (g *drawing) padLabels() {
	u := g.j.Units
	for i, p := range g.of.Plan.Pads {
		name := padName(p, i)
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, bold: true, color: black,
			lines: []string{name + " pad", fmt.Sprintf("%s × %s × %s deep", p.Width.Text(u), p.Length.Text(u), p.Depth.Text(u))},
			at:    g.view.at(p.Centre), near: 3, limit: 60,
		})
	}
	for i, s := range g.of.Plan.Strips {
		if len(s.Path) < 2 {
			continue
		}
		name := stripName(s, i)
		a, b := g.view.at(s.Path[0]), g.view.at(s.Path[1])
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, bold: true, color: black,
			lines: []string{name + " strip", fmt.Sprintf("%s wide, %s deep", s.Bottom.Text(u), s.Depth.Text(u))},
			at:    a.add(b).times(0.5), near: 3, limit: 60,
		})
	}
	for i, h := range g.of.Plan.Holes {
		lo, hi := h.Loop.Corners().Bounds()
		lines := []string{holeName(h, i) + " opening"}
		if upright(h.Loop) {
			lines = append(lines, (hi.X-lo.X).Text(u)+" × "+(hi.Y-lo.Y).Text(u))
		}
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, bold: true, color: black,
			lines: lines,
			at:    g.view.at(lo).add(g.view.at(hi)).times(0.5), near: 6, limit: 60,
		})
	}
}

// jointLabel names the joint with the old slab.
func (g *drawing) jointLabels() {
	for li, l := range g.loops {
		for i, e := range l {
			if !e.Joint {
				continue
			}
			r := g.side(li, i)
			n := 0
			for _, w := range g.of.Layout.Dowels {
				if li == 0 && w.Edge == i {
					n++
				}
			}
			text := "existing slab"
			if n > 0 {
				text = fmt.Sprintf("existing slab – %d dowels", n)
			}
			if !g.alongJoint(r, text) {
				g.mustLabel(label{
					layer: OldSlab, size: sizeSmall, color: black, lines: []string{text},
					at: r.a.add(r.b).times(0.5), prefer: r.out, start: 5, near: 5, limit: 60,
				})
			}
		}
	}
}

// alongJoint writes along a joint on its far side, or inside.
func (g *drawing) alongJoint(r run, s string) bool {
	u := readable(r.along())
	t := Text{Layer: OldSlab, Turn: angle(u), Size: sizeSmall, Color: black, Text: s}
	w := t.width()
	if w+2 > r.length() {
		return false
	}
	for _, off := range []float64{1.6, 2.4, 4.6, -2.2, -4, -6} {
		for _, f := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			p := r.a.toward(r.along(), max(w/2+1, min(r.length()-w/2-1, f*r.length()))).toward(r.out, off)
			lift := 0.0
			if (u.left().dot(r.out) < 0) == (off > 0) {
				lift = -capHeight * t.Size * mmPerPoint
			}
			t.At = p.toward(u, -w/2).toward(u.left(), lift)
			if g.free(t.box()) {
				g.put(t)
				return true
			}
		}
	}
	return false
}

// falls draws an arrow for each fall of the top.
func (g *drawing) falls() {
	ring := g.loops[0].Corners()
	mid := g.view.at(innermost(ring))
	for i, f := range g.of.Plan.Top.Falls {
		v := g.view.at(f.To).sub(g.view.at(f.From))
		if v.length() == 0 {
			continue
		}
		u := v.unit()
		l := min(18, v.length()*0.6)
		c := mid.toward(u.left(), float64(i)*6)
		a, b := c.toward(u, -l/2), c.toward(u, l/2)
		g.line(Notes, Pen{Width: 0.4, Color: black}, a, b.toward(u, -1))
		g.fill(Notes, black, b, b.toward(u, -2.6).toward(u.left(), 0.9), b.toward(u, -2.6).toward(u.left(), -0.9))
		over := geometry.Distance(f.From, f.To)
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, color: black,
			lines: []string{"falls " + f.Drop.Text(g.j.Units), "in " + over.Text(g.j.Units)},
			at:    c, prefer: u.left(), start: 1, limit: 60,
		})
	}
}

// sectionLetters gives the letter of each edge section in use.
func sectionLetters(p plan.Plan) map[string]string {
	m := map[string]string{}
	for _, l := range p.Loops() {
		for i := range l {
			for _, s := range l.Spans(i) {
				if s.Section != "" && m[s.Section] == "" {
					m[s.Section] = letter(len(m))
				}
			}
		}
	}
	return m
}

// letter gives A, B, … Z, AA, …
func letter(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('A'+(i-1)%26)) + s
	}
	return s
}

// sectionMarks says at each stretch of an edge which section it has.
func (g *drawing) sectionMarks(letters map[string]string) {
	if len(letters) < 2 {
		return // it goes without saying
	}
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			last := ""
			for _, s := range l.Spans(i) {
				if s.Section == "" || s.Section == last {
					continue
				}
				last = s.Section
				if e.Joint && s.Section == "" {
					continue
				}
				mid := g.onSide(li, i, (s.From+s.To)/2)
				g.label(label{
					layer: Thick, size: sizeSmall, bold: true, color: black, lines: []string{letters[s.Section]}, boxed: true,
					at: mid, prefer: r.out.times(-1), start: 4, limit: 22,
				})
			}
		}
	}
}

// diagonals draws check diagonals, as many as stay readable.
func (g *drawing) diagonals() {
	const most = 2
	if len(g.of.Layout.Diagonals) > most {
		return
	}
	for _, dg := range g.of.Layout.Diagonals {
		a, b := g.view.at(g.loops[0][dg.I].At), g.view.at(g.loops[0][dg.J].At)
		g.soft(Notes, Pen{Width: 0.13, Color: grey, Dash: []float64{3, 2}}, a, b)
		u := readable(b.sub(a).unit())
		t := Text{Layer: Notes, Turn: angle(u), Size: sizeSmall, Color: grey, Text: "diagonal " + dg.Length.Text(g.j.Units)}
		for _, f := range []float64{0.3, 0.7, 0.25, 0.75, 0.4, 0.6, 0.15, 0.85} {
			m := a.add(b.sub(a).times(f))
			t.At = m.toward(u, -t.width()/2).toward(u.left(), -0.36*t.Size*mmPerPoint)
			if g.free(t.box()) {
				g.put(t)
				break
			}
		}
	}
}
