package layout_test

import (
	"fmt"
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// toothed gives a round slab of n edges, every second pair set back by 3 ft, with
// walls, doors and a joint.
func toothed(n int) plan.Plan {
	p := ring()
	for i := range n {
		r := float64(n) * 2.2
		if i/2%2 == 1 {
			r -= 3
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		e := plan.Edge{At: geometry.Point{X: geometry.Length(r * cos * float64(foot)), Y: geometry.Length(r * sin * float64(foot))}, Section: "Edge", Wall: "2x6"}
		if i%5 == 0 {
			e.Doors = []plan.Door{{From: 4 * foot, Width: 5 * foot, Section: "Deep"}}
		}
		p.Outline = append(p.Outline, e)
	}
	p.Outline[n/2].Joint = true
	return p
}

// BenchmarkOf is what a corner that is dragged waits for.
func BenchmarkOf(b *testing.B) {
	for _, n := range []int{12, 50, 200} {
		for _, kind := range []field.Kind{field.None, field.Grid} {
			b.Run(fmt.Sprintf("%s/%d", kind, n), func(b *testing.B) {
				p, s := toothed(n), spec(func(s *layout.Spec) { s.Field.Kind = kind })
				slabs := []layout.Slab{{Plan: p, Solid: solidOf(b, p)}}
				b.ReportAllocs()
				for b.Loop() {
					layout.Of(b.Context(), slabs, s)
				}
			})
		}
	}
}

func BenchmarkFoam(b *testing.B) {
	for _, n := range []int{12, 50, 200} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := toothed(n)
			s := solidOf(b, p)
			for b.Loop() {
				cover.Foam(p, s, 4*foot, 8*foot, true)
			}
		})
	}
}
