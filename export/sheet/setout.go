package sheet

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// setOutTable lists where pads and holes lie, measured from the datum along its side and
// square off it.
func (s *set) setOutTable(slab takeoff.Slab) []block {
	u := s.job.Units
	datum := slab.Plan.Datum()
	tb := table{
		title: slab.Called("Set out from " + datum.Name()),
		head:  []string{"What", "Along " + datum.Side(), "Square off"}, right: []bool{false, true, true}, names: true,
	}
	add := func(name string, p geometry.Point) {
		at := datum.Of(p)
		tb.rows = append(tb.rows, []string{name, at.X.Text(u), at.Y.Text(u)})
	}
	names := slab.Layout.Marks
	for i, p := range slab.Plan.Pads {
		add(names.Pad(i).Called(p.Name)+" center", p.Center)
	}
	for _, o := range slab.Layout.Outs {
		if o.Shape != plan.RoundOut {
			for k, p := range o.Ring() {
				add(fmt.Sprintf("block-out %s corner %d", names.Pad(o.Pad), k+1), p)
			}
		}
	}
	for i, e := range slab.Plan.Embeds {
		add(e.Kind.String()+" "+names.Embed(i).Called(e.Name), e.Center)
	}
	for i, l := range slab.Plan.Lines {
		name := names.Line(i).Called(l.Name)
		if l.Kind == plan.Tubing {
			for k, p := range l.Floor() {
				add(fmt.Sprintf("%s corner %d", name, k+1), p)
			}
			continue
		}
		for k, p := range l.Path {
			add(fmt.Sprintf("%s point %d", name, k+1), p)
		}
	}
	for i, w := range slab.Plan.Walls {
		name := names.Within(i).Called(w.Name)
		add(name+" one end", w.From)
		add(name+" other end", w.To)
	}
	for _, j := range slab.Layout.Construction {
		name := names.Construction(j.Index).String()
		for k, l := range j.Lines {
			if len(j.Lines) == 1 {
				add(name+" one end", l.A)
				add(name+" other end", l.B)
				continue
			}
			add(fmt.Sprintf("%s end %d", name, 2*k+1), l.A)
			add(fmt.Sprintf("%s end %d", name, 2*k+2), l.B)
		}
	}
	for i, h := range slab.Plan.Holes {
		for k, e := range h.Loop {
			add(fmt.Sprintf("%s corner %d", names.Hole(i).Called(h.Name), k+1), e.At)
		}
	}
	for i, st := range slab.Plan.Strips {
		for k, p := range st.Path {
			add(fmt.Sprintf("%s point %d", names.Strip(i).Called(st.Name), k+1), p)
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}
