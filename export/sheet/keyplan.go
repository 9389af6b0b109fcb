package sheet

import (
	"fmt"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// boundsOf gives the corners of the box round the slabs.
func boundsOf(slabs []takeoff.Slab) (lo, hi geometry.Point) {
	lo, hi = slabs[0].Plan.Outline.Rim().Bounds()
	for _, s := range slabs[1:] {
		a, b := s.Plan.Outline.Rim().Bounds()
		lo = geometry.Point{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}
		hi = geometry.Point{X: max(hi.X, b.X), Y: max(hi.Y, b.Y)}
	}
	return lo, hi
}

// slabList lists the slabs with their sizes and heights.
func (s *set) slabList() block {
	u := s.job.Units
	n := notes{title: "Slabs", size: sizeSmall, bullet: "•"}
	for _, slab := range s.takeoff.Slabs {
		long, wide := sizeOf(slab.Plan.Outline)
		n.items = append(n.items, fmt.Sprintf("%s: %s × %s overall, %s thick, top %s",
			slab.Name, long.Text(u), wide.Text(u), slab.Plan.Field.Text(u), s.heights.Of(slab.Number).Top.Text(u)))
	}
	return n
}

// sizeOf gives how large an outline is along its longest side, and square to it.
func sizeOf(l plan.Loop) (long, wide geometry.Length) {
	f := planview.FrameOf(l)
	return max(f.Size(0), f.Size(1)), min(f.Size(0), f.Size(1))
}

// placeTable says where the corners of a slab lie, from the datum of the first
// slab.
func (s *set) placeTable(slab takeoff.Slab) block {
	u := s.job.Units
	first := s.takeoff.Slabs[0]
	datum := first.Plan.Datum()
	tb := table{
		title: fmt.Sprintf("%s from %s, %s", slab.Name, first.Name, datum.Name()),
		head:  []string{"Corner", "Along " + datum.Side(), "Square off"}, right: []bool{true, true, true},
	}
	for i, e := range slab.Plan.Outline {
		at := datum.Of(e.At)
		tb.rows = append(tb.rows, []string{fmt.Sprint(i + 1), at.X.Text(u), at.Y.Text(u)})
	}
	return tableBlock{table: tb}
}

// keyBlock is the small key plan of a sheet: all slabs, the sheet's own dark, or the
// parts of a plan that is split, with the sheets they are on.
type keyBlock struct {
	title string
	slabs []takeoff.Slab
	own   int // number in the job, or of the part
	parts []tile
	first int // the sheet of the first part
}

const keyTall = 26.0

// keyPlan shows where a slab lies among the others.
func (s *set) keyPlan(of takeoff.Slab) block {
	k := slices.IndexFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return t.Number == of.Number })
	b := keyBlock{title: "Key plan: " + of.Name + " is dark", slabs: s.neighbors(k), own: of.Number}
	if n := len(b.slabs); n < len(s.takeoff.Slabs) {
		b.title += fmt.Sprintf(", with the %d nearest", n-1)
	}
	return b
}

func (k keyBlock) height(width float64) float64 { return headingTall(k.title, width) + keyTall }

func (k keyBlock) draw(d *draft, x, top, width float64) float64 {
	below := d.heading(x, top, width, k.title)
	r := rect{X0: x, Y0: below - keyTall, X1: x + width, Y1: below}
	lo, hi := boundsOf(k.slabs)
	ratio := max((hi.X-lo.X).Meters()/(r.Width()-2), (hi.Y-lo.Y).Meters()/(r.Height()-2)) * 1000
	slabs := make([]planview.Slab, len(k.slabs))
	for i, s := range k.slabs {
		slabs[i] = planview.Slab{Number: s.Number, Plan: s.Plan}
	}
	o := drawing.Options{View: drawing.ViewIn(drawing.Ratio(ratio), lo, hi, r), Area: r}
	own := k.own
	if len(k.parts) > 0 {
		own = -1
		parts := &drawing.Drawing{}
		for i, t := range k.parts {
			corners := []geometry.Point{t.lo, {X: t.hi.X, Y: t.lo.Y}, t.hi, {X: t.lo.X, Y: t.hi.Y}}
			if i == k.own {
				parts.Fill(drawing.Pencil{Layer: drawing.Outline, Style: drawing.OwnFill}, corners...)
			}
			parts.Ring(drawing.Pencil{Layer: drawing.Outline, Style: drawing.StringLine}, corners...)
		}
		drawing.Place(parts, o).Draw(ink{d: d})
	}
	drawing.Place(planview.Key(slabs, own), o).Draw(ink{d: d})
	for i, t := range k.parts {
		mid := o.View.On(geometry.Point{X: t.lo.X + (t.hi.X-t.lo.X)/2, Y: t.lo.Y + (t.hi.Y-t.lo.Y)/2})
		t := Text{Layer: Notes, Size: sizeSmall, Bold: i == k.own, Color: black, Text: fmt.Sprint(k.first + i)}
		if i == k.own {
			t.Color = white
		}
		t.At = Point{X: mid.X - t.Width()/2, Y: mid.Y - capHeight*sizeSmall*mmPerPoint/2}
		d.put(t)
	}
	return r.Y0
}
