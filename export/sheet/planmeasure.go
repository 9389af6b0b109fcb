package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

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
	radius := numberRadius(s)
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
			from, to := c.toward(u, -radius), at.toward(u, 0.6)
			if dist > 4 && g.obs.hit(boxOf(from, to, 0.1), true) {
				continue
			}
			g.numbered(c, s, dark)
			if dist > 4 {
				g.line(Notes, penHatch, from, to)
			}
			return
		}
	}
	if !g.small { // the first sheet numbers them all
		g.page.Unplaced = append(g.page.Unplaced, "corner "+s)
	}
}

// numberRadius gives the radius of the circle round a number.
func numberRadius(s string) float64 { return max(2.1, textWidth(s, sizeSmall, true)/2+0.7) }

// numbered draws a number in a circle; that of the datum corner is dark.
func (d *draft) numbered(c Point, s string, dark bool) {
	fill, ink := white, black
	if dark {
		fill, ink = black, white
	}
	d.circle(Notes, penRule, fill, c, numberRadius(s))
	d.put(Text{Layer: Notes, At: Point{c.X - textWidth(s, sizeSmall, true)/2, c.Y - 0.365*sizeSmall*mmPerPoint}, Size: sizeSmall, Bold: true, Color: ink, Text: s})
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
			refs = append(refs, edgeRef{g.of.Number, li, i, l.Length(i)})
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
	slab       int // its number in the job
	loop, edge int
	length     geometry.Length
}

func (e edgeRef) name(loops []plan.Loop, names mark.Names) string {
	n := len(loops[e.loop])
	s := fmt.Sprintf("%d–%d", e.edge+1, (e.edge+1)%n+1)
	if e.loop > 0 {
		s = names.Hole(e.loop-1).String() + ": " + s
	}
	return s
}

// overall dimensions the whole slab both ways, where no single edge does.
func (g *drawing) overall() {
	l := g.loops[0]
	ring := l.Corners()
	u, width, height := g.frame()
	v := u.left()
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		q := g.view.at(p)
		x0, x1 = min(x0, q.dot(u)), max(x1, q.dot(u))
		y0, y1 = min(y0, q.dot(v)), max(y1, q.dot(v))
	}
	at := func(x, y float64) Point { return u.times(x).add(v.times(y)) }
	for _, dir := range []struct {
		length geometry.Length
		along  Point
		sides  []run
	}{
		{width, u, []run{{a: at(x0, y0), b: at(x1, y0), out: v.times(-1)}, {a: at(x0, y1), b: at(x1, y1), out: v}}},
		{height, v, []run{{a: at(x0, y1), b: at(x0, y0), out: u.times(-1)}, {a: at(x1, y0), b: at(x1, y1), out: u}}},
	} {
		done := false
		for e := range ring {
			const grain = geometry.Micrometer // a turned side's length is rounded
			done = done || (l.Length(e)-dir.length).Abs() <= grain && math.Abs(g.side(0, e).along().dot(dir.along)) > 1-1e-9
		}
		for o := firstTier; o < 60 && !done; o += tierTry {
			for _, r := range dir.sides {
				r, ok := g.seen(r)
				if !ok {
					continue
				}
				done = done || g.attempt(func() bool { return g.overallAt(r, o, ring, dir.length.Text(g.j.Units)) })
			}
		}
		if !done && g.whole {
			g.page.Unplaced = append(g.page.Unplaced, "overall "+dir.length.Text(g.j.Units))
		}
	}
}

// frame gives the directions that the whole slab is measured in, by the first of
// them, and its size in both: along its sides where those are square to each
// other, else along the sheet.
func (g *drawing) frame() (u Point, width, height geometry.Length) {
	l := g.loops[0]
	u = g.side(0, longest(l)).along()
	for i := range l {
		if d := math.Abs(g.side(0, i).along().dot(u)); d > 1e-6 && d < 1-1e-6 {
			lo, hi := l.Corners().Bounds()
			return Point{1, 0}, hi.X - lo.X, hi.Y - lo.Y
		}
	}
	width, height = overAll(l)
	if math.Abs(u.X) < math.Abs(u.Y)-1e-9 {
		u, width, height = Point{u.Y, -u.X}, height, width
	}
	if u.X < 0 {
		u = u.times(-1)
	}
	return u, width, height
}

// longest gives the number of a loop's longest side.
func longest(l plan.Loop) int {
	side := 0
	for i := range l {
		if l.Length(i) > l.Length(side) {
			side = i
		}
	}
	return side
}

// overAll gives how large a slab is along its longest side, and square to it.
func overAll(l plan.Loop) (long, wide geometry.Length) {
	a, b := l.Ends(longest(l))
	var lo, hi geometry.Point
	for i, e := range l {
		x, y := along(a, b, e.At)
		if i == 0 {
			lo, hi = geometry.Point{X: x, Y: y}, geometry.Point{X: x, Y: y}
		}
		lo = geometry.Point{X: min(lo.X, x), Y: min(lo.Y, y)}
		hi = geometry.Point{X: max(hi.X, x), Y: max(hi.Y, y)}
	}
	return hi.X - lo.X, hi.Y - lo.Y
}

// overallAt draws an overall string at an offset from the slab's bounds, with
// extension lines from the outermost corners, or short ones where those would
// cross something.
func (g *drawing) overallAt(r run, o float64, ring geometry.Ring, text string) bool {
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

// diagonals draws check diagonals, as many as stay readable; beyond, the 3-4-5
// check of the datum corner.
func (g *drawing) diagonals() {
	const most = 2
	if len(g.of.Layout.Diagonals) <= most {
		for _, dg := range g.of.Layout.Diagonals {
			a, b := g.view.at(g.loops[0][dg.I].At), g.view.at(g.loops[0][dg.J].At)
			g.tape(a, b)
			g.onTape(a, b, "diagonal "+dg.Length.Text(g.j.Units))
		}
		return
	}
	for _, q := range g.of.Layout.Squares {
		a, b := g.view.at(q.A), g.view.at(q.B)
		middle := g.view.point(a.add(b).times(0.5))
		if q.Corner == 0 && plane.In(g.loops[0].Corners(), middle) && g.onTape(a, b, "3-4-5: "+(5*q.Unit).Text(g.j.Units)) {
			g.tape(a, b)
		}
	}
}

// tape draws how a tape lies between two points.
func (g *drawing) tape(a, b Point) {
	g.soft(Notes, Pen{Width: 0.13, Color: gray, Dash: []float64{3, 2}}, a, b)
}

// onTape writes on a tape's line, which is broken for it.
func (g *drawing) onTape(a, b Point, text string) bool {
	u := readable(b.sub(a).unit())
	t := Text{Layer: Notes, Turn: angle(u), Size: sizeSmall, Color: gray, Text: text}
	for _, f := range []float64{0.3, 0.7, 0.25, 0.75, 0.4, 0.6, 0.15, 0.85} {
		m := a.add(b.sub(a).times(f))
		t.At = m.toward(u, -t.width()/2).toward(u.left(), -0.36*t.Size*mmPerPoint)
		if g.free(t.box()) {
			g.put(t)
			return true
		}
	}
	return false
}
