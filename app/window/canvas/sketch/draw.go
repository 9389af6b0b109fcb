package sketch

import (
	"image"
	"math"
)

// Draw lays the picture over dst so that its corners fall on the given pixels,
// with opacity from 0 to 1. On dark ground it is drawn as a negative, so that what
// is drawn over it, in light colors, can be seen.
func Draw(dst, src *image.RGBA, corners [4]XY, opacity float64, negative bool) {
	w, h := float64(src.Rect.Dx()), float64(src.Rect.Dy())
	m, err := Between(corners, [4]XY{{0, 0}, {w, 0}, {w, h}, {0, h}})
	if err != nil || !(opacity > 0) {
		return
	}
	flip := uint32(0)
	if negative {
		flip = 255
	}
	a := uint32(min(opacity, 1)*256 + 0.5)
	lo, hi := corners[0], corners[0]
	for _, c := range corners {
		lo = XY{min(lo.X, c.X), min(lo.Y, c.Y)}
		hi = XY{max(hi.X, c.X), max(hi.Y, c.Y)}
	}
	clamp := func(f float64, n int) int { return int(max(0, min(f, float64(n)))) }
	x0, x1 := clamp(math.Floor(lo.X), dst.Rect.Dx()), clamp(math.Ceil(hi.X), dst.Rect.Dx())
	y0, y1 := clamp(math.Floor(lo.Y), dst.Rect.Dy()), clamp(math.Ceil(hi.Y), dst.Rect.Dy())
	sw, sh := src.Rect.Dx(), src.Rect.Dy()
	for y := y0; y < y1; y++ {
		fy := float64(y) + 0.5
		u := m[0]*(float64(x0)+0.5) + m[1]*fy + m[2]
		v := m[3]*(float64(x0)+0.5) + m[4]*fy + m[5]
		q := m[6]*(float64(x0)+0.5) + m[7]*fy + m[8]
		o := y*dst.Stride + x0*4
		for x := x0; x < x1; x, u, v, q, o = x+1, u+m[0], v+m[3], q+m[6], o+4 {
			r := 1 / q
			sx, sy := u*r, v*r
			if !(sx >= 0 && sy >= 0 && sx < float64(sw) && sy < float64(sh)) {
				continue
			}
			r8, g8, b8 := sample(src, sx-0.5, sy-0.5)
			r8, g8, b8 = r8^flip, g8^flip, b8^flip // of whole bytes: 255 less
			d := dst.Pix[o : o+3 : o+3]
			d[0] = uint8((r8*a + uint32(d[0])*(256-a)) >> 8)
			d[1] = uint8((g8*a + uint32(d[1])*(256-a)) >> 8)
			d[2] = uint8((b8*a + uint32(d[2])*(256-a)) >> 8)
		}
	}
}

// sample gives the color at a place between pixels, from the four around it.
func sample(src *image.RGBA, x, y float64) (r, g, b uint32) {
	x, y = max(x, 0), max(y, 0)
	ix, iy := int(x), int(y)
	fx, fy := uint32((x-float64(ix))*16), uint32((y-float64(iy))*16)
	right, down := 4, src.Stride
	if ix >= src.Rect.Dx()-1 {
		ix, right = src.Rect.Dx()-1, 0
	}
	if iy >= src.Rect.Dy()-1 {
		iy, down = src.Rect.Dy()-1, 0
	}
	o := iy*src.Stride + ix*4
	p, q := src.Pix[o:], src.Pix[o+down:]
	w00, w10, w01, w11 := (16-fx)*(16-fy), fx*(16-fy), (16-fx)*fy, fx*fy
	r = (uint32(p[0])*w00 + uint32(p[right])*w10 + uint32(q[0])*w01 + uint32(q[right])*w11) >> 8
	g = (uint32(p[1])*w00 + uint32(p[right+1])*w10 + uint32(q[1])*w01 + uint32(q[right+1])*w11) >> 8
	b = (uint32(p[2])*w00 + uint32(p[right+2])*w10 + uint32(q[2])*w01 + uint32(q[right+2])*w11) >> 8
	return r, g, b
}
