package trace

import (
	"image"
	"math"
)

// Draw lays the picture over dst so that its corners fall on the given pixels,
// with opacity from 0 to 1.
func Draw(dst, src *image.RGBA, corners [4]XY, opacity float64) {
	w, h := float64(src.Rect.Dx()), float64(src.Rect.Dy())
	m, err := Between(corners, [4]XY{{0, 0}, {w, 0}, {w, h}, {0, h}})
	if err != nil || !(opacity > 0) {
		return
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
			s := src.Pix[int(sy)*src.Stride+int(sx)*4:][:3]
			d := dst.Pix[o : o+3 : o+3]
			d[0] = uint8((uint32(s[0])*a + uint32(d[0])*(256-a)) >> 8)
			d[1] = uint8((uint32(s[1])*a + uint32(d[1])*(256-a)) >> 8)
			d[2] = uint8((uint32(s[2])*a + uint32(d[2])*(256-a)) >> 8)
		}
	}
}
