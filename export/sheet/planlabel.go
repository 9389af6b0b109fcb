package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// doorKind says what a door is.
func doorKind(k plan.DoorKind) string {
	if k == plan.Overhead {
		return "overhead door"
	}
	return "walk door"
}

func (g *drawing) doorLabels() {
	u := g.j.Units
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			for k, door := range e.Doors {
				at := g.onSide(li, i, door.From+door.Width/2).toward(r.out, -2)
				g.mustLabel(label{
					layer: Opening, size: sizeSmall, bold: true, color: black,
					lines: []string{g.of.Layout.Marks.Door(li, i, k).Called(door.Name) + " " + doorKind(door.Kind), "rough opening " + door.Width.Text(u)},
					at:    at, prefer: r.out.times(-1), near: 6, limit: 70, start: 2,
				})
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

// unmarked lists what found no place on the drawing: names together, longer texts
// each by itself.
func (d *draft) unmarked() block {
	n := notes{title: "No room on the drawing for", size: sizeSmall, bullet: "•"}
	var names []string
	for _, s := range slices.Compact(slices.Sorted(slices.Values(d.missing))) {
		if len(s) > 30 {
			n.items = append(n.items, s)
			continue
		}
		names = append(names, s)
	}
	if len(names) > 0 {
		n.items = append([]string{strings.Join(names, ", ")}, n.items...)
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
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
		name := g.of.Layout.Marks.Pad(i).Called(p.Name)
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, bold: true, color: black,
			lines: []string{name + " pad", fmt.Sprintf("%s × %s × %s deep", p.Width.Text(u), p.Length.Text(u), p.Depth.Text(u))},
			at:    g.view.at(p.Center), near: 3, limit: 60,
		})
	}
	for i, s := range g.of.Plan.Strips {
		if len(s.Path) < 2 {
			continue
		}
		name := g.of.Layout.Marks.Strip(i).Called(s.Name)
		a, b := g.view.at(s.Path[0]), g.view.at(s.Path[1])
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, bold: true, color: black,
			lines: []string{name + " thickened strip", fmt.Sprintf("%s wide, %s deep", s.Bottom.Text(u), s.Depth.Text(u))},
			at:    a.add(b).times(0.5), near: 3, limit: 60,
		})
	}
	for i, h := range g.of.Plan.Holes {
		lo, hi := h.Loop.Corners().Bounds()
		lines := []string{g.of.Layout.Marks.Hole(i).Called(h.Name) + " opening"}
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
			text := g.beyond(li, i)
			if n > 0 {
				text += fmt.Sprintf(" – %d dowels, tape from %d to %d", n, i+1, (i+1)%len(l)+1)
			}
			if slices.ContainsFunc(g.of.Layout.Isolation, func(s joints.Isolation) bool { return s.Loop == li && s.Edge == i }) {
				text += " – isolation strip"
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

// beyond says what lies on the far side of a joint: another slab of the job, or
// one that is there already.
func (g *drawing) beyond(loop, edge int) string {
	r := g.side(loop, edge)
	p := g.view.point(r.a.add(r.b).times(0.5).toward(r.out, 0.5))
	for _, s := range g.all {
		if s.Number != g.of.Number && plane.In(s.Plan.Outline.Corners(), p) {
			return s.Name
		}
	}
	return "old slab"
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

// creases draws the lines where two falls meet: valleys and ridges.
func (g *drawing) creases() {
	for _, c := range g.high.Of(g.of.Number).Surface.Creases {
		g.soft(Notes, penCrease, g.view.at(c.A), g.view.at(c.B))
	}
}

// falls draws which way the top falls, each within its own part of the slab, and by
// how much.
func (g *drawing) falls() {
	for _, a := range g.high.Of(g.of.Number).Surface.Arrows {
		from, to := g.view.at(a.From), g.view.at(a.To)
		long := to.sub(from).length()
		if long < 1 {
			continue
		}
		u := to.sub(from).unit()
		long = min(18, long)
		fall := g.of.Plan.Top.Falls[a.Fall]
		text := []string{"falls " + fall.Drop.Text(g.j.Units), "in " + geometry.Distance(fall.From, fall.To).Text(g.j.Units)}
		c, ok := g.fallArrow(from, to, u, long)
		if !ok {
			g.missing = append(g.missing, text...)
			continue
		}
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, color: black, lines: text,
			at: c, prefer: u.left(), start: 1, limit: 60,
		})
	}
}

// fallArrow draws an arrow along the way from-to where it is free, nearest to its
// middle, and gives where its own middle lies.
func (g *drawing) fallArrow(from, to, u Point, long float64) (Point, bool) {
	room := (to.sub(from).length() - long) / 2
	taken := g.inked() // the arrow is lost along a line that gives way to text, too
	for k := range 40 {
		off := float64((k+1)/2) * room / 20
		if k%2 == 1 {
			off = -off
		}
		c := from.add(to).times(0.5).toward(u, off)
		a, b := c.toward(u, -long/2), c.toward(u, long/2)
		if !g.clip.has(a) || !g.clip.has(b) || !g.free(boxOf(a, b, 1.1)) || k < 39 && taken.hit(boxOf(a, b, 0.6), false) {
			continue
		}
		g.line(Notes, Pen{Width: 0.4, Color: black}, a, b.toward(u, -1))
		g.fill(Notes, black, b, b.toward(u, -2.6).toward(u.left(), 0.9), b.toward(u, -2.6).toward(u.left(), -0.9))
		return c, true
	}
	return Point{}, false
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
			if !plane.In(r, p) {
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

// offLine gives the distance from p to the segment a-b, in meters.
func offLine(p, a, b geometry.Point) float64 {
	q := boxOf(Point{a.X.Meters(), a.Y.Meters()}, Point{b.X.Meters(), b.Y.Meters()}, 0).nearest(Point{p.X.Meters(), p.Y.Meters()})
	return q.sub(Point{p.X.Meters(), p.Y.Meters()}).length()
}

// slabLabel says what the field is, of which slab, and how high it lies.
func (g *drawing) slabLabel() {
	lines := []string{g.of.Plan.Field.Text(g.j.Units) + " slab"}
	if g.of.Name != "" {
		lines = []string{g.of.Name, lines[0]}
	}
	if high := g.high.Of(g.of.Number); high.Level && (high.Top != 0 || len(g.j.Survey.Benchmarks) > 0) {
		lines = append(lines, "top "+high.Top.Text(g.j.Units))
	}
	g.mustLabel(label{
		layer: Notes, size: sizeHead, bold: true, color: black, lines: lines,
		at: g.view.at(innermost(g.loops[0].Corners())), limit: 120,
	})
}
