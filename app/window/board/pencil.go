package board

import (
	"image"
	"image/color"
	"sync"

	"haunchbook.example/app/window/canvas/paint"
)

// pencil is the pointer of what draws: a carpenter's pencil, whose tip points.
type pencil struct{}

// Image implements desktop.Cursor.
func (pencil) Image() (m image.Image, tipX, tipY int) { return drawnPencil(), 2, 2 }

// drawnPencil draws it: dark, on a light rim that parts it from any ground.
var drawnPencil = sync.OnceValue(func() image.Image {
	var b paint.Brush
	b.Reset(26, 26, color.NRGBA{})
	outline := []paint.Point{{X: 2, Y: 2}, {X: 9.5, Y: 5}, {X: 23, Y: 18.5}, {X: 18.5, Y: 23}, {X: 5, Y: 9.5}}
	light, dark := color.NRGBA{255, 252, 240, 255}, color.NRGBA{34, 38, 42, 255}
	b.Polyline(outline, true, 3.5, light)
	b.Fill([][]paint.Point{outline}, color.NRGBA{222, 168, 60, 255})
	b.Polyline(outline, true, 1.3, dark)
	b.Line(paint.Point{X: 9.5, Y: 5}, paint.Point{X: 5, Y: 9.5}, 1.3, dark)
	b.Fill([][]paint.Point{{{X: 2, Y: 2}, {X: 5.6, Y: 3.4}, {X: 3.4, Y: 5.6}}}, dark)
	return b.Img
})
