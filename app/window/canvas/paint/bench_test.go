package paint_test

import (
	"image/color"
	"math"
	"testing"

	"haunchbook.example/app/window/canvas/paint"
)

// The primitives at the sizes in which the plan uses them most.
func BenchmarkPrimitives(b *testing.B) {
	var br paint.Brush
	br.Reset(1280, 900, white)
	c := color.NRGBA{40, 90, 120, 255}
	ring := make([]paint.Point, 200)
	for i := range ring {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 200)
		ring[i] = paint.Point{X: 640 + 400*k, Y: 450 + 400*s}
	}
	rings := [][]paint.Point{ring}
	for _, p := range []struct {
		name string
		draw func()
	}{
		{"slant", func() { br.Line(paint.Point{X: 100, Y: 100}, paint.Point{X: 125, Y: 115}, 1.3, c) }},
		{"level", func() { br.Line(paint.Point{X: 100, Y: 100}, paint.Point{X: 129, Y: 100}, 1.3, c) }},
		{"plumb", func() { br.Line(paint.Point{X: 100, Y: 100}, paint.Point{X: 100, Y: 129}, 1.3, c) }},
		{"dashes", func() { br.Dashes(paint.Point{X: 100, Y: 100}, paint.Point{X: 600, Y: 380}, 7, 4, 1.2, c) }},
		{"circle", func() { br.Circle(paint.Point{X: 100, Y: 100}, 4, 1.2, c) }},
		{"fill", func() { br.Fill(rings, c) }},
		{"reset", func() { br.Reset(1280, 900, white) }},
	} {
		b.Run(p.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				p.draw()
			}
		})
	}
}
