package sheet

import (
	"slices"
	"strconv"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// legend explains the lines of a drawing.
type legend []legendEntry

type legendEntry struct {
	pen  Pen
	mark func(d *draft, at Point) // instead of a line
	text string
}

const legendRow = 4.3

// lines gives the text of an entry as it stands in a width.
func (e legendEntry) lines(width float64) []string { return wrap(e.text, width-17, sizeSmall, false) }

func (l legend) height(width float64) float64 {
	h := titleSkip
	for _, e := range l {
		h += legendRow + float64(len(e.lines(width))-1)*leading(sizeSmall)
	}
	return h
}

func (l legend) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, d.say.Word("Key"))
	top -= titleSkip
	for _, e := range l {
		y := top - legendRow/2
		if e.mark != nil {
			e.mark(d, Point{X: x + 7, Y: y})
		} else {
			d.line(Notes, e.pen, Point{X: x, Y: y}, Point{X: x + 14, Y: y})
		}
		for i, t := range e.lines(width) {
			top -= leading(sizeSmall) * float64(min(i, 1))
			d.write(x+17, top-legendRow/2-0.36*sizeSmall*mmPerPoint, sizeSmall, false, t)
		}
		top -= legendRow
	}
	return top
}

func (s *set) layoutLegend() []legendEntry {
	number := strconv.Itoa(s.takeoff.Slabs[0].Plan.Datum().Corner + 1)
	datum := func(d *draft, at Point) { d.datum(at, number) }
	out := []legendEntry{{pen: penEdge, text: "edge of slab"}}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return t.Plan.Joined() }) {
		out = append(out, legendEntry{pen: penJoint, text: "joint with the old slab"})
	}
	if len(s.takeoff.Slabs) > 1 {
		out = append(out, legendEntry{pen: penOf(drawing.Ink{Style: drawing.NeighborLine}), text: "another slab of this job"})
	}
	out = append(out, legendEntry{pen: penHidden, text: "bend of the underside"}, legendEntry{mark: datum, text: "datum corner: hook the tapes here"})
	if len(s.job.Survey.Benchmarks) > 0 {
		out = append(out, legendEntry{mark: func(d *draft, at Point) { d.symbol(at, drawing.SurveyLine, drawing.Benchmark, geometry.Point{}) }, text: "benchmark"})
	}
	return out
}
