package takeoff_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// Under the lip of a door 3 1/2 in of slab are left, with or without a haunch, and 1 1/2 in over
// the steel of the field, or it is told; at the limit it is not.
func TestUnderTheLip(t *testing.T) {
	for _, c := range []struct {
		name        string
		field, drop geometry.Length
		section     string
		steel       field.Kind
		told        string
	}{
		{"thick enough", 5 * inch, 3 * inch / 2, "", field.None, ""},
		{"too thin", 5 * inch, 25 * inch / 16, "", field.None, `3 7/16" of concrete are left`},
		{"over a haunch", 5 * inch, 2 * inch, "Edge", field.None, ""},
		{"mesh deep enough", 6 * inch, 3 * inch / 2, "Edge", field.Mesh, ""},
		{"mesh too high", 6 * inch, 25 * inch / 16, "Edge", field.Mesh, `has 1 7/16" of cover under the lip of door D1, where 1 1/2" is asked`},
		{"grid too high", 6 * inch, 21 * inch / 16, "Edge", field.Grid, `has 1 7/16" of cover under the lip`}, // its half is 1/4 in
	} {
		p, s := building(24*foot, 20*foot), takeoff.Default()
		p.Field, p.Outline[0].Section = c.field, c.section
		p.Outline[0].Doors = []plan.Door{{From: 4 * foot, Width: 9 * foot, Lip: plan.Lip{Inset: 5 * inch, Drop: c.drop}}}
		s.Place.Field.Kind = c.steel
		var told []string
		got := take(t, p, s, geometry.FeetInches)
		for _, f := range got.Findings {
			if strings.Contains(f.Text, "lip") {
				told = append(told, f.Text)
			}
		}
		if all := strings.Join(told, "; "); (c.told == "") != (all == "") || !strings.Contains(all, c.told) {
			t.Errorf("%s: told %q, want %q", c.name, all, c.told)
		}
		if l := got.Slabs[0].Lips(); len(l) != 1 || l[0].Near.X != 4*foot || l[0].Far.X != 13*foot {
			t.Errorf("%s: lips %+v", c.name, l)
		}
	}
}
