package sheet

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// boundsOf gives the corners of the box round the slabs.
func boundsOf(slabs []takeoff.Slab) (lo, hi geometry.Point) {
	lo, hi = slabs[0].Plan.Outline.Corners().Bounds()
	for _, s := range slabs[1:] {
		a, b := s.Plan.Outline.Corners().Bounds()
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

// keyBlock is the small key plan of a sheet: all slabs, the sheet's own dark.
type keyBlock struct {
	slabs []takeoff.Slab
	own   int // number in the job
}

const keyTall = 26.0

func (k keyBlock) height(width float64) float64 { return headingTall(k.title(), width) + keyTall }

func (k keyBlock) title() string {
	for _, s := range k.slabs {
		if s.Number == k.own {
			return "Key plan: " + s.Name + " is dark"
		}
	}
	return "Key plan"
}

func (k keyBlock) draw(d *draft, x, top, width float64) float64 {
	below := d.heading(x, top, width, k.title())
	r := rect{X0: x, Y0: below - keyTall, X1: x + width, Y1: below}
	lo, hi := boundsOf(k.slabs)
	ratio := max((hi.X-lo.X).Meters()/(r.Width()-2), (hi.Y-lo.Y).Meters()/(r.Height()-2)) * 1000
	slabs := make([]planview.Slab, len(k.slabs))
	for i, s := range k.slabs {
		slabs[i] = planview.Slab{Number: s.Number, Plan: s.Plan}
	}
	o := drawing.Options{View: drawing.ViewIn(drawing.Ratio(ratio), lo, hi, r), Area: r}
	drawing.Place(planview.Key(slabs, k.own), o).Draw(ink{d: d})
	return r.Y0
}
