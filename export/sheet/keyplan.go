package sheet

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// keyPage draws where the slabs of a job lie, where there are several.
func (s *set) keyPage() {
	slabs := s.takeoff.Slabs
	if len(slabs) < 2 {
		return
	}
	lo, hi := boundsOf(slabs)
	all := arrange(s.papers()[:1], s.job.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(all, s.job.Units)
	if !ok {
		a = all[0]
		a.scale, _ = fit(siteScales(s.job.Units), hi.X-lo.X, hi.Y-lo.Y, a.plan.inset(reserve))
	}
	d := newDraft("Key plan", a.width, a.height)
	d.clip, d.area = a.plan, a.plan
	var plans []*drawing
	for _, slab := range slabs {
		plans = append(plans, s.drawing(d, viewOf(a.scale, lo, hi, a.plan), a.plan, slab))
	}
	for _, g := range plans {
		g.edges()
	}
	plans[0].furniture()
	plans[0].benchmarks()
	for _, g := range plans {
		g.cornerMarks()
	}
	for _, g := range plans {
		g.slabLabel()
	}
	d.clip, d.area = everywhere, sheetArea(a.width, a.height)
	s.add(d, titles{sheet: "Key plan", scale: a.scale.Name, paper: a.paper.Name})
	blocks := []block{s.slabList(), s.benchmarkList()}
	for _, slab := range slabs[1:] {
		blocks = append(blocks, s.placeTable(slab))
	}
	blocks = append(blocks, d.unmarked(), cautionBlock(siteCautions...))
	s.columns("Key plan lists", d.flow(a.columns, blocks), "", 3)
}

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
		long, wide := overAll(slab.Plan.Outline)
		n.items = append(n.items, fmt.Sprintf("%s: %s × %s overall, %s thick, top %s",
			slab.Name, long.Text(u), wide.Text(u), slab.Plan.Field.Text(u), s.heights.Of(slab.Number).Top.Text(u)))
	}
	return n
}

// placeTable says where the corners of a slab lie, from corner 1 of the first
// slab along its first side.
func (s *set) placeTable(slab takeoff.Slab) block {
	u := s.job.Units
	first := s.takeoff.Slabs[0]
	a, b := first.Plan.Outline.Ends(0)
	tb := table{
		title: fmt.Sprintf("%s from %s, corner 1", slab.Name, first.Name),
		head:  []string{"Corner", "Along 1–2", "Square off"}, right: []bool{true, true, true},
	}
	for i, e := range slab.Plan.Outline {
		x, y := along(a, b, e.At)
		tb.rows = append(tb.rows, []string{fmt.Sprint(i + 1), x.Text(u), y.Text(u)})
	}
	return tableBlock{table: tb}
}

// keyBlock is the small key plan of a sheet: all slabs, the sheet's own dark.
type keyBlock struct {
	slabs []takeoff.Slab
	own   int // number in the job
}

const keyTall = 26.0

// keyBlock gives the key plan for the slab in turn, where there are several.
func (s *set) keyBlock() block {
	if len(s.takeoff.Slabs) < 2 {
		return nothing{}
	}
	return keyBlock{s.takeoff.Slabs, s.slab.Number}
}

func (keyBlock) height(float64) float64 { return titleSkip + keyTall }

func (k keyBlock) draw(d *draft, x, top, width float64) float64 {
	r := rect{x, top - titleSkip - keyTall, x + width, top - titleSkip}
	lo, hi := boundsOf(k.slabs)
	ratio := max((hi.X-lo.X).Meters()/(r.width()-2), (hi.Y-lo.Y).Meters()/(r.height()-2)) * 1000
	v := viewOf(Scale{Ratio: ratio}, lo, hi, r)
	name := ""
	for _, s := range k.slabs {
		var pts []Point
		for _, c := range s.Plan.Outline {
			pts = append(pts, v.at(c.At))
		}
		fill := white
		if s.Number == k.own {
			fill, name = gray, s.Name
		}
		d.ring(Notes, penRule, fill, pts...)
	}
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, shorten("Key plan: "+name+" is dark", width, sizeBody, true))
	return r.y0
}
