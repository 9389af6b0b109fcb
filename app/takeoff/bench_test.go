package takeoff

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// edged gives a plan of n edges with a haunch, a wall and now and then a door on
// each: a ring of alternating steps.
func edged(n int) plan.Plan {
	const foot, inch = geometry.Foot, geometry.Inch
	p := plan.Plan{Field: 6 * inch, Sections: []plan.Section{
		{Name: "Edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 6 * inch},
		{Name: "Door", Depth: 18 * inch, Bottom: 12 * inch, Taper: 12 * inch},
	}}
	r := float64(n) * 2.2 * float64(foot)
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := r
		if i/2%2 == 1 {
			d -= 3 * float64(foot)
		}
		e := plan.Edge{At: geometry.Point{X: geometry.Length(d * math.Cos(a)), Y: geometry.Length(d * math.Sin(a))}, Section: "Edge", Wall: "2x6"}
		if i%5 == 0 {
			e.Doors = []plan.Door{{From: 4 * foot, Width: 5 * foot, Section: "Door"}}
		}
		p.Outline = append(p.Outline, e)
	}
	p.Outline[n/2].Joint = true
	return p
}

func benchmarkTakeoff(b *testing.B, n int) {
	p := edged(n)
	s := Default()
	if _, err := Of(b.Context(), []plan.Plan{p}, s, geometry.FeetInches); err != nil {
		b.Fatal(err)
	}
	b.ResetTimer()
	for b.Loop() {
		Of(b.Context(), []plan.Plan{p}, s, geometry.FeetInches)
	}
}

func BenchmarkTakeoff12(b *testing.B)  { benchmarkTakeoff(b, 12) }
func BenchmarkTakeoff200(b *testing.B) { benchmarkTakeoff(b, 200) }

func benchmarkLayout(b *testing.B, n int) {
	p := edged(n)
	s := Default().Layout(geometry.FeetInches)
	sol, err := solid.Of(p)
	if err != nil {
		b.Fatal(err)
	}
	b.ResetTimer()
	for b.Loop() {
		layout.Of(b.Context(), []layout.Slab{{Plan: p, Solid: sol}}, s)
	}
}

func BenchmarkLayout12(b *testing.B)  { benchmarkLayout(b, 12) }
func BenchmarkLayout200(b *testing.B) { benchmarkLayout(b, 200) }
