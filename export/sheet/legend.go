package sheet

import (
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plan"
)

// legend explains the lines of a drawing.
type legend []legendEntry

type legendEntry struct {
	pen  Pen
	mark func(d *draft, at Point) // instead of a line
	text string
}

const legendRow = 4.3

func (l legend) height(float64) float64 { return titleSkip + float64(len(l))*legendRow }

func (l legend) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, "Key")
	top -= titleSkip
	for _, e := range l {
		y := top - legendRow/2
		if e.mark != nil {
			e.mark(d, Point{x + 7, y})
		} else {
			d.line(Notes, e.pen, Point{x, y}, Point{x + 14, y})
		}
		d.write(x+17, y-0.36*sizeSmall*mmPerPoint, sizeSmall, false, shorten(e.text, width-17, sizeSmall, false))
		top -= legendRow
	}
	return top
}

func (s *set) layoutLegend() []legendEntry {
	datum := func(d *draft, at Point) { d.numbered(at, "1", true) }
	out := []legendEntry{{pen: penEdge, text: "edge of slab"}}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool {
		return slices.ContainsFunc(t.Plan.Outline, func(e plan.Edge) bool { return e.Joint })
	}) {
		out = append(out, legendEntry{pen: penJoint, text: "joint with the old slab"})
	}
	if len(s.takeoff.Slabs) > 1 {
		out = append(out, legendEntry{pen: penNeighbor, text: "another slab of this job"})
	}
	out = append(out, legendEntry{pen: penHidden, text: "bend of the underside"}, legendEntry{mark: datum, text: "datum corner: hook the tapes here"})
	if len(s.job.Survey.Benchmarks) > 0 {
		out = append(out, legendEntry{mark: (*draft).benchmark, text: "benchmark"})
	}
	return out
}
