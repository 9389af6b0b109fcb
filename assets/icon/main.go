// Command icon draws the program's icon: a slab's thickened edge in section,
// with its pair of bars and an anchor bolt.
package main

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"

	"golang.org/x/image/vector"
)

const side = 512

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: icon FILE.png")
		os.Exit(2)
	}
	f, err := os.Create(os.Args[1])
	if err == nil {
		err = png.Encode(f, draw())
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "icon:", err)
		os.Exit(1)
	}
}

type point struct{ x, y float32 }

var (
	sky      = color.RGBA{0x1f, 0x3a, 0x4d, 0xff}
	earth    = color.RGBA{0x8a, 0x63, 0x42, 0xff}
	gravel   = color.RGBA{0xb8, 0x96, 0x70, 0xff}
	concrete = color.RGBA{0xd9, 0xdc, 0xdb, 0xff}
	wearing  = color.RGBA{0xf4, 0xf5, 0xf4, 0xff}
	steel    = color.RGBA{0xd2, 0x5a, 0x1e, 0xff}
	bolt     = color.RGBA{0xa9, 0xb4, 0xbb, 0xff}
)

func draw() image.Image {
	m := image.NewRGBA(image.Rect(0, 0, side, side))
	frame := rounded(16, 16, 496, 496, 88)
	fill(m, sky, frame)

	// Everything in the ground is cut to the frame by painting it first and
	// the frame's outside clear last.
	fill(m, earth, []point{{0, 252}, {512, 252}, {512, 512}, {0, 512}})
	fill(m, gravel, []point{{72, 252}, {512, 252}, {512, 340}, {352, 340}, {276, 440}, {72, 440}})
	slab := []point{{96, 196}, {512, 196}, {512, 300}, {336, 300}, {256, 408}, {96, 408}}
	fill(m, concrete, slab)
	fill(m, wearing, []point{{96, 196}, {512, 196}, {512, 214}, {96, 214}})

	// Anchor bolt: shank with a bent foot, washer and nut.
	fill(m, bolt, []point{{142, 96}, {162, 96}, {162, 286}, {200, 286}, {200, 306}, {142, 306}})
	fill(m, bolt, []point{{124, 142}, {180, 142}, {180, 154}, {124, 154}})
	fill(m, bolt, []point{{132, 112}, {172, 112}, {172, 142}, {132, 142}})

	for _, c := range []point{{136, 364}, {216, 364}} {
		fill(m, steel, disc(c, 22))
	}
	clip(m, frame)
	return m
}

func path(z *vector.Rasterizer, ps []point) {
	z.MoveTo(ps[0].x, ps[0].y)
	for _, p := range ps[1:] {
		z.LineTo(p.x, p.y)
	}
	z.ClosePath()
}

func fill(m *image.RGBA, c color.Color, ps []point) {
	z := vector.NewRasterizer(side, side)
	path(z, ps)
	z.Draw(m, m.Bounds(), image.NewUniform(c), image.Point{})
}

// clip makes what lies outside ps transparent.
func clip(m *image.RGBA, ps []point) {
	mask := image.NewAlpha(m.Bounds())
	z := vector.NewRasterizer(side, side)
	path(z, ps)
	z.Draw(mask, m.Bounds(), image.Opaque, image.Point{})
	for i, a := range mask.Pix {
		for k := range 4 {
			m.Pix[4*i+k] = uint8(uint16(m.Pix[4*i+k]) * uint16(a) / 255)
		}
	}
}

func disc(c point, r float64) []point {
	return arc(nil, c, r, 0, 2*math.Pi)
}

func rounded(x0, y0, x1, y1 float32, r float64) []point {
	in := float32(r)
	var ps []point
	for i, c := range []point{{x1 - in, y1 - in}, {x0 + in, y1 - in}, {x0 + in, y0 + in}, {x1 - in, y0 + in}} {
		from := float64(i) * math.Pi / 2
		ps = arc(ps, c, r, from, from+math.Pi/2)
	}
	return ps
}

func arc(ps []point, c point, r, from, to float64) []point {
	const steps = 48
	for i := range steps + 1 {
		s, k := math.Sincos(from + (to-from)*float64(i)/steps)
		ps = append(ps, point{c.x + float32(r*k), c.y + float32(r*s)})
	}
	return ps
}
