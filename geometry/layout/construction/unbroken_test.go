package construction_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/layout/field"
	look "haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Mesh ends at joints where steel stops, and only there: it is then laid as on slabs of the
// size of the parts, which are worked by hand, and holes stay holes.
func TestMeshEndsWhereSteelStops(t *testing.T) {
	const ft = geometry.Foot
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }
	rect := func(x0, y0, x1, y1 geometry.Length) plan.Plan {
		return plan.Plan{Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}, plan.Edge{}))
	}
	spec := field.Spec{Kind: field.Mesh, Style: "6x6-W2.9xW2.9", Width: 5 * ft, Length: 10 * ft, Cover: 2 * geometry.Inch}
	type laid struct {
		sheets, count int
		area          float64
	}
	lay := func(p plan.Plan) (out laid) {
		s := look.New("", p, nil, geometry.FeetInches, look.Concrete{})
		l := field.Lay(s, spec, bars.Spec{}, construction.Unbroken(s))
		out.sheets, out.count = len(l.Mesh), l.MeshCount
		for _, m := range l.Mesh {
			out.area += geometry.Ring(m.Corners[:]).Area()
		}
		return out
	}
	sum := func(ps ...plan.Plan) (out laid) {
		for _, p := range ps {
			l := lay(p)
			out.sheets, out.count, out.area = out.sheets+l.sheets, out.count+l.count, out.area+l.area
		}
		return out
	}
	across := plan.Construction{From: at(18, 0), To: at(18, 20)}
	along := plan.Construction{From: at(18, 8), To: at(40, 8)}
	of := func(c plan.Construction, k plan.ConstructionKind) plan.Construction {
		c.Kind = k
		return c
	}
	pit := plan.Hole{Loop: plan.Like(geometry.Ring{at(5, 5), at(5, 9), at(9, 9), at(9, 5)}, plan.Edge{})}
	for _, c := range []struct {
		name   string
		joints []plan.Construction
		hole   bool
		want   laid
	}{
		{"goes through", []plan.Construction{across}, false, sum(rect(0, 0, 40, 20))},
		{"stops", []plan.Construction{of(across, plan.Doweled)}, false, sum(rect(0, 0, 18, 20), rect(18, 0, 40, 20))},
		{"stops at one of two", []plan.Construction{of(across, plan.Doweled), along}, false, sum(rect(0, 0, 18, 20), rect(18, 0, 40, 20))},
		{"stops at both", []plan.Construction{of(across, plan.Doweled), of(along, plan.Doweled)}, false, sum(rect(0, 0, 18, 20), rect(18, 0, 40, 8), rect(18, 8, 40, 20))},
		{"round a pit", []plan.Construction{of(across, plan.Doweled)}, true, sum(func() plan.Plan {
			p := rect(0, 0, 18, 20)
			p.Holes = []plan.Hole{pit}
			return p
		}(), rect(18, 0, 40, 20))},
		{"stops at the branch alone", []plan.Construction{across, of(along, plan.Doweled)}, false, sum(rect(0, 0, 18, 20), rect(18, 0, 40, 8), rect(18, 8, 40, 20))}, // it would be one by a way round
	} {
		p := rect(0, 0, 40, 20)
		p.Construction = c.joints
		if c.hole {
			p.Holes = []plan.Hole{pit}
		}
		got := lay(p)
		if d := got.area - c.want.area; got.sheets != c.want.sheets || got.count != c.want.count || d > 1e-6 || d < -1e-6 {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
