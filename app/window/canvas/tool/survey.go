package tool

import (
	"fmt"
	"slices"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// commitSurvey makes sv what stands around the slabs, as a step of the history.
func (m *Machine) commitSurvey(label string, sv plan.Survey) {
	j := m.Doc.Base()
	j.Survey = sv
	m.Doc.Commit(label, j)
}

// surveyed lists what can be selected around the slabs.
func surveyed(sv plan.Survey) []hit.Target {
	var all []hit.Target
	if sv.North.Known {
		all = append(all, hit.Target{Kind: hit.North})
	}
	for i := range sv.Benchmarks {
		all = append(all, hit.Target{Kind: hit.Benchmark, Index: i})
	}
	for i, n := range sv.Notes {
		all = append(all, hit.Target{Kind: hit.Note, Index: i})
		if n.Leader {
			all = append(all, hit.Target{Kind: hit.Note, Index: i, Sub: 1})
		}
	}
	return all
}

// marks lists the places around the slabs.
func marks(sv plan.Survey) []geometry.Point {
	var all []geometry.Point
	for _, b := range sv.Benchmarks {
		all = append(all, b.At)
	}
	for _, n := range sv.Notes {
		all = append(all, n.At)
		if n.Leader {
			all = append(all, n.To)
		}
	}
	return all
}

// movedMark gives the survey with a benchmark, a note or the end of its leader
// moved; false where the target is something else.
func movedMark(sv plan.Survey, t hit.Target, by geometry.Point) (plan.Survey, bool) {
	sv = sv.Clone()
	switch {
	case t.Kind == hit.Benchmark && t.Index < len(sv.Benchmarks):
		b := &sv.Benchmarks[t.Index]
		b.At = b.At.Add(by)
	case t.Kind == hit.Note && t.Index < len(sv.Notes):
		n := &sv.Notes[t.Index]
		if t.Sub == 1 {
			n.To = n.To.Add(by)
		} else {
			n.At = n.At.Add(by)
		}
	default:
		return sv, false
	}
	return sv, true
}

// removeMark takes a benchmark or a note away. Delete on the end of a leader
// takes the leader alone.
func (m *Machine) removeMark(t hit.Target) {
	sv := m.Doc.Job().Survey.Clone()
	label := "Remove a note"
	switch {
	case t.Kind == hit.North:
		label = "Remove north"
		sv.North = plan.North{}
	case t.Kind == hit.Benchmark:
		label = "Remove a benchmark"
		sv.Benchmarks = slices.Delete(sv.Benchmarks, t.Index, t.Index+1)
	case t.Sub == 1:
		label = "Remove a leader"
		sv.Notes[t.Index].Leader, sv.Notes[t.Index].To = false, geometry.Point{}
	default:
		sv.Notes = slices.Delete(sv.Notes, t.Index, t.Index+1)
	}
	m.commitSurvey(label, sv)
	m.Selected, m.Hover = hit.Target{}, hit.Target{}
}

// surveyTarget outlines a benchmark or a note.
func (m *Machine) surveyTarget(o *Overlay, t hit.Target, s Style) {
	sv := m.Doc.Job().Survey
	if !m.Exists(t) {
		return
	}
	if t.Kind == hit.North {
		at, r := hit.NorthArrow(m.View)
		o.Rings = append(o.Rings, Ring{at, r + 2, s})
		return
	}
	if t.Kind == hit.Benchmark {
		o.ring(m, sv.Benchmarks[t.Index].At, 10, s)
		return
	}
	n := sv.Notes[t.Index]
	if t.Sub == 1 {
		o.ring(m, n.To, 7, s)
		return
	}
	o.box(hit.NoteBox(n, m.View, planview.NoteLines(n.Text), m.Measure), s)
	if n.Leader {
		o.ring(m, n.To, 4, s)
	}
}

func (o *Overlay) box(b hit.Box, s Style) {
	x0, y0, x1, y1 := b.X0-4, b.Y0-3, b.X1+4, b.Y1+3
	for _, e := range [4][2]view.XY{{{X: x0, Y: y0}, {X: x1, Y: y0}}, {{X: x1, Y: y0}, {X: x1, Y: y1}}, {{X: x1, Y: y1}, {X: x0, Y: y1}}, {{X: x0, Y: y1}, {X: x0, Y: y0}}} {
		o.Lines = append(o.Lines, Line{e[0], e[1], s})
	}
}

// freeBenchmark gives BM 1, BM 2, … whichever is not taken.
func freeBenchmark(sv plan.Survey) string {
	for i := 1; ; i++ {
		name := fmt.Sprintf("BM %d", i)
		if !slices.ContainsFunc(sv.Benchmarks, func(b plan.Benchmark) bool { return b.Name == name }) {
			return name
		}
	}
}

// typedPlace reads a place that is typed, as two lengths.
func typedPlace(m *Machine, text string) (geometry.Point, bool) {
	p, err := readPlace(text, m.Units())
	if err != nil {
		m.say(err)
		return p, false
	}
	return p, true
}
