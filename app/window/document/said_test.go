package document_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The window counts from 1 and calls things by name.
func TestFaultsAreSaidInWords(t *testing.T) {
	sound := rectangle(0, 0, 24*ft, 20*ft)
	apron := rectangle(40*ft, 0, 10*ft, 8*ft)
	apron.Name = "Apron"
	change := func(p plan.Plan, f func(*plan.Plan)) plan.Plan {
		p = p.Clone()
		f(&p)
		return p
	}
	tests := []struct {
		slabs []plan.Plan
		place string
		slab  int
		texts string // somewhere in what was found and what would do
	}{
		{[]plan.Plan{sound, change(apron, func(p *plan.Plan) { p.Outline[2].Doors = []plan.Door{{Name: "D1", Width: 12 * ft}} })},
			"Apron, edge 3, door D1: rough opening", 1, "10'-0\""},
		{[]plan.Plan{change(sound, func(p *plan.Plan) { p.Outline[0].Doors = []plan.Door{{Width: -ft}} })},
			"Edge 1, door 1: rough opening", 0, ""},
		{[]plan.Plan{change(sound, func(p *plan.Plan) {
			p.Outline[1].Doors = []plan.Door{{Name: "D1", From: ft, Width: 4 * ft}, {From: 2 * ft, Width: 4 * ft}}
		})}, "Edge 2, door 2: from start corner", 0, "overlaps door D1"},
		{[]plan.Plan{change(sound, func(p *plan.Plan) { p.Outline[2].At, p.Outline[3].At = p.Outline[3].At, p.Outline[2].At })},
			"Edge 4", 0, "meets edge 2"},
		{[]plan.Plan{change(sound, func(p *plan.Plan) { p.Field = 0 })}, "Field thickness", 0, ""},
		{[]plan.Plan{sound, change(apron, func(p *plan.Plan) { p.Field = 0 })}, "Apron: field thickness", 1, ""},
		{[]plan.Plan{change(sound, func(p *plan.Plan) {
			*p = p.AddHole("pit", plan.Like(rectangle(30*ft, 0, ft, ft).Outline.Corners(), plan.Edge{}))
		})}, "Hole pit: edges", 0, "outside"},
		{[]plan.Plan{change(sound, func(p *plan.Plan) { p.Top.Falls = []plan.Fall{{Drop: -ft, To: geometry.Point{X: ft}}} })},
			"Fall 1: drop", 0, ""},
		{[]plan.Plan{change(sound, func(p *plan.Plan) {
			p.Sections = []plan.Section{{Name: "edge", Depth: ft, Bottom: ft}, {Name: "edge", Depth: ft, Bottom: ft}}
		})}, "Section edge: name", 0, "“edge” a second time"},
	}
	for _, test := range tests {
		d := open(test.slabs...)
		said := d.Said()
		if len(said) == 0 {
			t.Errorf("%s: no fault", test.place)
			continue
		}
		s := said[0]
		if s.Place != test.place || s.Slab != test.slab || !strings.Contains(s.Found+"; "+s.Want, test.texts) {
			t.Errorf("said %q on slab %d: found %s; %s\nwant %q on %d with %q", s.Place, s.Slab, s.Found, s.Want, test.place, test.slab, test.texts)
		}
		if text := s.Place + s.Found + s.Want; strings.ContainsAny(text, "[]") {
			t.Errorf("a path is left in %q", text)
		}
	}
}

func TestFaultsOfTheSpecificationAreSaidInWords(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	j := d.Job()
	j.Spec.Base.TurnUp = -ft
	j.Survey.Benchmarks = []plan.Benchmark{{}}
	d.Commit("", j)
	said := d.Said()
	if len(said) != 2 || said[0].Place != "Under the slab: retarder turn-up" || said[0].Slab != -1 || said[1].Place != "Benchmark 1: name" {
		t.Errorf("said %+v", said)
	}
}
