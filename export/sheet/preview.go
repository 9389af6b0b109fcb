package sheet

import (
	"image"
	"image/draw"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
)

// Picture gives the page as it is printed, so many pixels wide, on white paper.
func (p Page) Picture(wide int) *image.RGBA {
	ink := rasterizer.Draw(p.Canvas(), canvas.DPMM(float64(max(wide, 1))/p.Width), canvas.LinearColorSpace{})
	paper := image.NewRGBA(ink.Bounds())
	draw.Draw(paper, paper.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(paper, paper.Rect, ink, ink.Bounds().Min, draw.Over)
	return paper
}
