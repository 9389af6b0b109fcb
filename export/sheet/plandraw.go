package sheet

import (
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// drawing is one plan view in the making.
type drawing struct {
	*draft
	view  View
	j     job.Job
	of    takeoff.Slab // what is drawn
	loops []plan.Loop
	paper rect           // all that the drawing may take of the sheet
	all   []takeoff.Slab // of the job
	high  handover.Heights
	match func() // draws the match lines
	small bool   // a figure among tables
	whole bool   // no part of the plan is on another sheet
}

func (s *set) drawing(d *draft, v View, paper rect, of takeoff.Slab) *drawing {
	if d.page.View == nil {
		d.page.View = &v
	}
	return &drawing{draft: d, view: v, j: s.job, of: of, loops: of.Plan.Loops(), paper: paper, all: s.takeoff.Slabs, high: s.heights, match: func() {}, whole: true}
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
	g.edges()
}

// edges draws the sides of the outline and the holes.
func (g *drawing) edges() {
	for li, l := range g.loops {
		for i, e := range l {
			r := g.side(li, i)
			if e.Joint {
				g.oldSlabHatch(r)
				g.line(OldSlab, penJoint, r.a, r.b)
				continue
			}
			first := len(g.page.Items)
			g.line(Slab, penEdge, r.a, r.b)
			for i, it := range g.page.Items[first:] {
				l := it.(Line)
				l.whole = true
				g.page.Items[first+i] = l
			}
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
		for _, p := range w.Pieces {
			var outline []Point
			for _, q := range p.Outline {
				outline = append(outline, g.view.at(q))
			}
			g.soft(Plates, penPlate, append(outline, outline[0])...)
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
