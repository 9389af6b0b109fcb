package sheet

import (
	"fmt"
	"math"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// north draws the north arrow round c, or an empty circle to mark north in on
// site where the plan does not know it.
func (d *draft) north(n plan.North, c Point) {
	const radius = 4
	d.circle(Notes, penRule, noFill, c, radius)
	if !n.Known {
		d.line(Notes, penHatch, c.add(Point{0, -radius}), c.add(Point{0, radius}))
		d.line(Notes, penHatch, c.add(Point{-radius, 0}), c.add(Point{radius, 0}))
		d.writeMid(c.X, c.Y-7.2, sizeFine, false, "mark north")
		return
	}
	sin, cos := math.Sincos(n.Turn * math.Pi / 180)
	u := Point{sin, cos} // clockwise from straight up
	tip, tail := c.toward(u, radius), c.toward(u, -radius)
	d.ring(Notes, penRule, white, tip, tail.toward(u.left(), 1.9), c.toward(u, -radius/2.0))
	d.ring(Notes, penRule, black, tip, tail.toward(u.left(), -1.9), c.toward(u, -radius/2.0))
	at := c.toward(u, radius+2.4)
	d.writeMid(at.X, at.Y-capHeight*sizeHead*mmPerPoint/2, sizeHead, true, "N")
}

// benchmarks draws the marks that heights are measured from, those that are on
// the sheet.
func (g *drawing) benchmarks() {
	for _, b := range g.j.Survey.Benchmarks {
		c := g.view.at(b.At)
		if !g.clip.inset(3).has(c) || !g.free(box{c, Point{1, 0}, 1.9, 1.9}) {
			continue // listed beside the plan
		}
		g.benchmark(c)
		away := Point{math.Copysign(1, c.X-g.view.at(innermost(g.loops[0].Corners())).X), 0}
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, color: black, left: true,
			lines: append(wrap(b.Name, 42, sizeSmall, false), "height "+b.Height.Text(g.j.Units)),
			at:    c, prefer: away, start: 2.2, limit: 60, near: 5,
		})
	}
}

// benchmark draws the mark of a fixed point.
func (d *draft) benchmark(c Point) {
	const radius = 1.6
	for _, start := range []float64{0, math.Pi} {
		quarter := []Point{c}
		for k := range 7 {
			sin, cos := math.Sincos(start + float64(k)*math.Pi/12)
			quarter = append(quarter, c.add(Point{radius * cos, radius * sin}))
		}
		d.fill(Notes, black, quarter...)
	}
	d.circle(Notes, penRule, noFill, c, radius)
}

// notes writes the survey's notes that wants says, each where it stands or as
// near to it as there is room, with its leader.
func (g *drawing) notes(wants func(plan.Note) bool) {
	for _, n := range g.j.Survey.Notes {
		if wants(n) && !g.note(n) {
			g.missing = append(g.missing, n.Text)
		}
	}
}

const noteWidth = 46.0 // mm

func (g *drawing) note(n plan.Note) bool {
	to := g.view.at(subject(n))
	if !g.clip.has(to) {
		return true // it belongs to another sheet
	}
	l := label{layer: Notes, size: sizeSmall, color: black, left: true, at: to, lines: wrap(n.Text, noteWidth, sizeSmall, false)}
	w, h := l.extent()
	if n.Leader {
		l.near = 0.1
	}
	// Where it stands on the drawing, brought onto the sheet.
	mid, r := g.view.at(n.At).add(Point{w / 2, 0}), g.area.inset(1)
	mid = Point{max(r.x0+w/2, min(r.x1-w/2, mid.X)), max(r.y0+h/2, min(r.y1-h/2, mid.Y))}
	for far := 0.0; far <= 120; far += max(1, far/12) {
		for k := range directions {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / directions)
			at := mid.add(Point{far * cos, far * sin})
			covers := box{at, Point{1, 0}, w / 2, h / 2}.grown(2.5).nearest(to) == to
			if !(n.Leader && covers) && g.attempt(func() bool { return g.labelAt(l, at, w, h, far+1) }) {
				return true
			}
			if far == 0 {
				break
			}
		}
	}
	return false
}

// subject gives what a note speaks of: the end of its leader, or its own place.
func subject(n plan.Note) geometry.Point {
	if n.Leader {
		return n.To
	}
	return n.At
}

// noteOf tells whether a note speaks of a slab: of all, it is the nearest.
func (s *set) noteOf(n plan.Note, of takeoff.Slab) bool {
	best, near := of.Number, math.Inf(1)
	for _, slab := range s.takeoff.Slabs {
		if d := offRing(subject(n), slab.Plan.Outline.Corners()); d < near {
			best, near = slab.Number, d
		}
	}
	return best == of.Number
}

// offRing gives how far p lies outside a ring, in meters.
func offRing(p geometry.Point, r geometry.Ring) float64 {
	if plane.In(r, p) {
		return 0
	}
	near := math.Inf(1)
	for i, a := range r {
		near = min(near, offLine(p, a, r[(i+1)%len(r)]))
	}
	return near
}

// heights writes the height of the top at each corner, where they differ.
func (g *drawing) heights() {
	high := g.high.Of(g.of.Number)
	if high.Level {
		return
	}
	for _, c := range high.Corners {
		r := g.side(0, c.Corner)
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, color: black, lines: []string{"top " + c.Top.Text(g.j.Units)},
			at: g.view.at(c.At), prefer: r.along().add(r.out.times(-1)).unit(), start: 2, limit: 30, near: 8,
		})
	}
	for _, c := range high.Drains {
		g.mustLabel(label{
			layer: Notes, size: sizeSmall, color: black, lines: []string{"top " + c.Top.Text(g.j.Units)},
			at: g.view.at(c.At), start: 2, limit: 30, near: 4,
		})
	}
}

// heightsTable lists the heights of the corners, where they matter.
func (s *set) heightsTable(slab takeoff.Slab) []block {
	of := s.heights.Of(slab.Number)
	if of.Level && of.Corners[0].Top == 0 && len(s.job.Survey.Benchmarks) == 0 {
		return nil
	}
	u := s.job.Units
	tb := table{title: slab.Called("Heights over " + s.heights.Datum), head: []string{"Corner", "Top", "Dig to"}, right: []bool{false, true, true}}
	for _, c := range of.Corners {
		tb.rows = append(tb.rows, []string{fmt.Sprint(c.Corner + 1), c.Top.Text(u), c.Dig.Text(u)})
	}
	for i, c := range of.Drains {
		what := fmt.Sprintf("drain %d", i+1)
		if c.Hole > 0 {
			h := slab.Plan.Holes[c.Hole-1]
			what = slab.Layout.Marks.Hole(c.Hole-1).Called(h.Name) + ", lowest"
		}
		tb.rows = append(tb.rows, []string{what, c.Top.Text(u), ""})
	}
	return []block{tableBlock{table: tb}}
}

// benchmarkList says where the benchmarks are, from corner 1 of a slab.
func (s *set) benchmarkList(slab takeoff.Slab) block {
	u := s.job.Units
	n := notes{title: "Benchmarks", size: sizeSmall, bullet: "•"}
	a, b := slab.Plan.Outline.Ends(0)
	for _, m := range s.job.Survey.Benchmarks {
		x, y := along(a, b, m.At)
		n.items = append(n.items, fmt.Sprintf("%s: height %s; from corner 1, %s along 1–2 and %s square off it", m.Name, m.Height.Text(u), x.Text(u), y.Text(u)))
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}
