package forms_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/plan"
)

// A slab of 20 ft poured later against one that lies 4 in lower, from 2 to 12 ft of its edge: a
// 2x6, ripped by 1 1/2 in, hangs 10 ft long over it. None where the other lies as high or higher,
// or is poured later; one 20 in lower shows no more of the slab than its 12 in.
func TestStepBoards(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	of := func(m plan.Meeting) []forms.Form {
		m.From, m.To, m.Field = 2*ft, 12*ft, 4*in
		s := shed()
		s.Meetings = []plan.Meeting{m}
		return forms.Steps(s, forms.Spec{Stock: []geometry.Length{16 * ft}, Stakes: 3 * ft})
	}
	down := of(plan.Meeting{Later: true, Lower: 4 * in})
	if len(down) != 1 || down[0].Board.Name != "2x6" || down[0].Ripped != 3*in/2 || down[0].Length != 10*ft || down[0].Up != -4*in || len(down[0].Hangers) != 5 || len(down[0].Stakes) != 0 {
		t.Errorf("%+v", down)
	}
	for _, m := range []plan.Meeting{{Later: true}, {Later: true, Lower: -4 * in}, {Lower: 4 * in}} {
		if got := of(m); len(got) != 0 {
			t.Errorf("%+v: %+v", m, got)
		}
	}
	high := geometry.Length(0)
	for _, f := range of(plan.Meeting{Later: true, Lower: 20 * in}) {
		high += f.Depth
	}
	if high != 12*in {
		t.Errorf("boards %s high", high.Text(geometry.FeetInches))
	}
}
