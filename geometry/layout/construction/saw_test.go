package construction_test

import (
	stdcmp "cmp"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/layout/sawcuts"
	layoutslab "haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// A slab of 60 by 30 ft is sawn into panels of 15 ft at most. Panels end at a construction
// joint as at a cut, so each side of it is divided by itself, and nothing is sawn along it.
func TestSawBesideJoints(t *testing.T) {
	across := func(x, from, to geometry.Length) [2]geometry.Point {
		return [2]geometry.Point{pt(x*ft, from*ft), pt(x*ft, to*ft)}
	}
	along := func(from, to geometry.Length) [2]geometry.Point {
		return [2]geometry.Point{pt(from*ft, 15*ft), pt(to*ft, 15*ft)}
	}
	joint := func(x1, y1, x2, y2 geometry.Length) plan.Construction {
		return plan.Construction{From: pt(x1*ft, y1*ft), To: pt(x2*ft, y2*ft)}
	}
	for _, c := range []struct {
		name   string
		joints []plan.Construction
		want   [][2]geometry.Point
	}{
		{"none: four panels long", nil, [][2]geometry.Point{across(15, 0, 30), across(30, 0, 30), across(45, 0, 30), along(0, 60)}},
		{"where a cut would be", []plan.Construction{joint(30, 0, 30, 30)}, [][2]geometry.Point{across(15, 0, 30), across(45, 0, 30), along(0, 60)}},
		{"24 ft into two, 36 ft into three", []plan.Construction{joint(24, 30, 24, 0)}, [][2]geometry.Point{across(12, 0, 30), across(36, 0, 30), across(48, 0, 30), along(0, 60)}},
		{"one that ends on another: the cut goes on from it", []plan.Construction{joint(24, 0, 24, 30), joint(24, 15, 60, 15)}, [][2]geometry.Point{across(12, 0, 30), across(36, 0, 30), across(48, 0, 30), along(0, 24)}},
	} {
		p := rectangle(60*ft, 30*ft)
		p.Construction = c.joints
		s := layoutslab.New("", p, nil, geometry.FeetInches, layoutslab.Concrete{})
		s.Marks = mark.Of(p)[0]
		_, joints := construction.Lay(s)
		var got [][2]geometry.Point
		for _, cut := range construction.Saw(s, sawcuts.Lay(s, sawcuts.Spec{Ratio: 30, Aspect: 1.5}), joints) {
			a, b := cut.A, cut.B
			if a.X > b.X || a.Y > b.Y {
				a, b = b, a
			}
			got = append(got, [2]geometry.Point{a, b})
		}
		slices.SortFunc(got, func(a, b [2]geometry.Point) int {
			return stdcmp.Or(stdcmp.Compare(a[0].Y, b[0].Y), stdcmp.Compare(a[0].X, b[0].X))
		})
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
		for _, f := range s.Findings {
			t.Errorf("%s: %s", c.name, f.Text)
		}
	}
}
