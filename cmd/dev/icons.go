package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
)

// iconSizes are the sides in pixels that desktops ask for (freedesktop.org, Icon Theme
// Specification: 48 at least).
var iconSizes = []int{16, 24, 32, 48, 64, 128, 256, 512}

// iconsOf gives the icon in all sizes, as they lie in the theme hicolor.
func iconsOf(data []byte) ([]packed, error) {
	from, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	var out []packed
	for _, side := range iconSizes {
		var b bytes.Buffer
		if err := png.Encode(&b, shrunk(from, side)); err != nil {
			return nil, err
		}
		out = append(out, packed{fmt.Sprintf("%dx%d/apps/%s.png", side, side, id), b.Bytes(), 0o644})
	}
	return out, nil
}

// shrunk gives a square picture with sides of so many pixels, each the mean of what it
// covers.
func shrunk(from image.Image, side int) image.Image {
	size := from.Bounds()
	to := image.NewRGBA64(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			var sum [4]uint64
			var n uint64
			for v := y * size.Dy() / side; v < max((y+1)*size.Dy()/side, y*size.Dy()/side+1); v++ {
				for u := x * size.Dx() / side; u < max((x+1)*size.Dx()/side, x*size.Dx()/side+1); u++ {
					r, g, b, a := from.At(size.Min.X+u, size.Min.Y+v).RGBA()
					for i, c := range []uint32{r, g, b, a} {
						sum[i] += uint64(c)
					}
					n++
				}
			}
			to.Set(x, y, color.RGBA64{uint16(sum[0] / n), uint16(sum[1] / n), uint16(sum[2] / n), uint16(sum[3] / n)})
		}
	}
	small := image.NewNRGBA(to.Bounds()) // eight bits are enough for an icon
	for y := range side {
		for x := range side {
			small.Set(x, y, to.At(x, y))
		}
	}
	return small
}
