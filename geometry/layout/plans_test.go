package layout_test

import (
	"context"
	"testing"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// ring gives a plan with one haunch round an outline given in feet.
func ring(xy ...float64) plan.Plan {
	p := plan.Plan{Field: 6 * inch, Sections: []plan.Section{
		{Name: "Edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 6 * inch},
		{Name: "Deep", Depth: 18 * inch, Bottom: 14 * inch, Taper: 12 * inch},
	}}
	for i := 0; i < len(xy); i += 2 {
		at := geometry.Point{X: geometry.Length(xy[i] * float64(foot)), Y: geometry.Length(xy[i+1] * float64(foot))}
		p.Outline = append(p.Outline, plan.Edge{At: at, Section: "Edge", Wall: "2x6"})
	}
	return p
}

// spec gives the usual specification, changed by f.
func spec(f func(*layout.Spec)) layout.Spec {
	d := takeoff.Default()
	s := d.Place
	s.Concrete = slab.Concrete{Strength: d.Mix.Strength, Slump: d.Mix.Slump, Aggregate: d.Mix.Aggregate}
	if f != nil {
		f(&s)
	}
	return s
}

// specFaults gives what is wrong with a specification.
func specFaults(s layout.Spec) plan.Faults {
	return append(field.Check("spec.place", s, geometry.FeetInches), s.Laps(geometry.FeetInches)...)
}

// laid is what is placed on one slab, and its lists.
type laid struct {
	layout.Layout
	Cuts, Lumber, Plates cutlist.List
}

func of(p plan.Plan, s layout.Spec, sol *solid.Solid) laid {
	ls, lists, err := layout.Of(context.Background(), []layout.Slab{{Plan: p, Solid: sol}}, s)
	if err != nil {
		panic(err) // of a context that never ends
	}
	ls[0].Findings = append(ls[0].Findings, lists.Findings...)
	return laid{ls[0], lists.Cuts, lists.Lumber, lists.Plates}
}

func lay(t testing.TB, p plan.Plan, s layout.Spec) laid {
	t.Helper()
	sol, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	if faults := specFaults(s); len(faults) > 0 {
		t.Fatal(faults)
	}
	return of(p, s, sol)
}

// broken lists the findings that break a rule.
func broken(l laid) []rule.Finding {
	var out []rule.Finding
	for _, f := range l.Findings {
		if f.Broken() {
			out = append(out, f)
		}
	}
	return out
}
