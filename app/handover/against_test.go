package handover_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A section that no formed edge has is drawn with no board and against the slab it is poured
// against; the same section on a free edge besides is drawn formed. No edger runs where there
// is no form: of the apron, 12 ft by 6 ft, along 12 + 6 + 6 ft, or where its last edge is free
// by 2 ft more, 26 ft.
func TestPouredAgainst(t *testing.T) {
	edge := plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 12 * in, Taper: 8 * in}
	for _, c := range []struct {
		beyond geometry.Length
		formed bool
		edger  geometry.Length
	}{{0, false, 24 * ft}, {2 * ft, true, 26 * ft}} {
		j := demo(t)
		garage, apron := slab("Garage", 0, 20*ft, 20*ft, 6*in, edge), slab("Apron", 8*ft+c.beyond, 12*ft, 6*ft, 5*in, edge)
		apron = apron.Translate(geometry.Point{Y: -6 * ft})
		apron.Sections = append(apron.Sections, plan.Section{Name: "Against", Depth: 10 * in, Bottom: 8 * in, Taper: 4 * in})
		for i := range apron.Outline {
			if a, b := apron.Outline.Ends(i); a.Y == 0 && b.Y == 0 {
				apron.Outline[i].Section, apron.Outline[i].Meets = "Against", plan.DoweledThere
			}
		}
		j.Slabs = []plan.Plan{garage, apron}
		h := of(j, 0)
		for _, s := range must(t, h.EdgeSections) {
			switch d := s.Detail(j.Spec.Place.Bars.Size); {
			case s.Section.Name != "Against" || c.formed:
				if s.Against != nil || s.Board.Width == 0 || d.Against != nil {
					t.Errorf("%s: board %v, against %v", s.Section.Name, s.Board, s.Against)
				}
			case s.Against == nil || s.Against.Name != "Garage" || s.Against.Thickness != 6*in || s.Against.Lower != 0 || !s.Against.Doweled || s.Board.Width != 0 || d.Against == nil || d.Against.Filled:
				t.Errorf("%+v", s)
			}
		}
		var edger geometry.Length
		for _, d := range must(t, h.Days) {
			for _, b := range d.Bays {
				if b.Slab == 1 {
					edger += b.Edge
				}
			}
		}
		if (edger - c.edger).Abs() > geometry.Micrometer {
			t.Errorf("the edger runs %v, not %v", edger, c.edger)
		}
	}
}
