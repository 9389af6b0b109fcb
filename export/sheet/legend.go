package sheet

import (
	"slices"
	"strings"

	"haunchbook/app/takeoff"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
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
		out = append(out, legendEntry{pen: penJoint, text: "joint with existing slab"})
	}
	if len(s.takeoff.Slabs) > 1 {
		out = append(out, legendEntry{pen: penNeighbour, text: "another slab of this job"})
	}
	out = append(out, legendEntry{pen: penHidden, text: "bend of the underside"}, legendEntry{mark: datum, text: "datum corner: hook the tapes here"})
	if len(s.job.Survey.Benchmarks) > 0 {
		out = append(out, legendEntry{mark: (*draft).benchmark, text: "benchmark"})
	}
	return out
}

// findings lists what was found on the slab in turn, and for the job as a whole,
// that belongs to a sheet.
func (s *set) findings(belongs func(layout.Rule) bool) block {
	elsewhere := map[layout.Finding]bool{}
	for _, slab := range s.takeoff.Slabs {
		for _, f := range slab.Layout.Findings {
			elsewhere[f] = slab.Number != s.slab.Number
		}
	}
	return s.found(func(f layout.Finding) bool { return belongs(f.Rule) && !elsewhere[f] })
}

// allFindings lists what was found on all slabs that belongs to a sheet.
func (s *set) allFindings(belongs func(layout.Rule) bool) block {
	return s.found(func(f layout.Finding) bool { return belongs(f.Rule) })
}

func (s *set) found(belongs func(layout.Finding) bool) block {
	n := notes{title: "To check", size: sizeSmall, bullet: "•"}
	seen := map[string]bool{}
	for _, f := range s.takeoff.Findings {
		if !belongs(f) || seen[f.Text] {
			continue
		}
		seen[f.Text] = true
		text := f.Text
		if f.Rule.Source != "" && f.Rule.Source != "geometry" && f.Rule.Source != "set on the job" {
			text += " (" + f.Rule.Source + ")"
		}
		if f.Severe {
			text = "LIMIT: " + text
		}
		n.items = append(n.items, text)
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// nothing is a block that is not there.
type nothing struct{}

func (nothing) height(float64) float64                   { return -blockGap }
func (nothing) draw(_ *draft, _, top, _ float64) float64 { return top + blockGap }

func ruleHas(words ...string) func(layout.Rule) bool {
	return func(r layout.Rule) bool {
		name := strings.ToLower(r.Name)
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
}
