package paint

import (
	"image"
	"image/color"
	"math"
)

// Circle draws a ring, or a disc where width is 0.
func (b *Brush) Circle(at Point, radius, width float64, c color.NRGBA) {
	w, h := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	out := radius + width/2 + 1
	if !(out > 0) || out > 4000 || !(at.X > -out && at.Y > -out && at.X < float64(w)+out && at.Y < float64(h)+out) {
		return
	}
	if out < smallCircle {
		m, x, y := b.disc(at, radius, width)
		if b.noting != nil {
			b.note(op{kind: maskOp, c: c, mask: m, x: int32(x), y: int32(y)}, float64(x), float64(y), float64(x+m.Rect.Dx()), float64(y+m.Rect.Dy()))
			return
		}
		b.stamp(m, x, y, c)
		return
	}
	if b.noting != nil {
		b.note(op{kind: circleOp, c: c, a: at, b: Point{X: radius}, width: width}, at.X-out, at.Y-out, at.X+out, at.Y+out)
		return
	}
	ink := inkOf(c)
	x0, x1 := max(0, int(at.X-out)), min(w-1, int(at.X+out))
	y0, y1 := max(0, int(at.Y-out)), min(h-1, int(at.Y+out))
	most, least := (out-0.5)*(out-0.5), 0.0
	if in := radius - width/2 - 0.5; width > 0 && in > 0 {
		least = in * in
	}
	for y := y0; y <= y1; y++ {
		dy := float64(y) + 0.5 - at.Y
		for x := x0; x <= x1; x++ {
			dx := float64(x) + 0.5 - at.X
			if d := dx*dx + dy*dy; d <= most && d >= least {
				if cov := covered(d, radius, width); cov > 0 {
					lay(b.Img.Pix, y*b.Img.Stride+x*4, &ink, uint32(cov*float64(ink.alpha)+0.5))
				}
			}
		}
	}
}

// covered gives how much of a pixel a circle covers, by the square of its distance
// from the middle.
func covered(d, radius, width float64) float64 {
	d = math.Sqrt(d)
	if width > 0 {
		return max(0, min(1, width/2+0.5-math.Abs(d-radius)))
	}
	return max(0, min(1, radius+0.5-d))
}

// smallCircle is up to what radius circles are kept as masks: there are many alike.
const smallCircle = 16

// disc names a small circle: sizes in sixteenths of a pixel, and in which quarter
// of a pixel its middle lies.
type disc struct{ radius, width, x, y int16 }

// disc gives the mask of a small circle with the place of its corner. Its middle
// is brought to a quarter of a pixel.
func (b *Brush) disc(at Point, radius, width float64) (*image.Alpha, int, int) {
	quarter := func(f float64) (int, int) {
		n := int(math.Round(f * 4))
		return n >> 2, n & 3
	}
	x, fx := quarter(at.X)
	y, fy := quarter(at.Y)
	k := disc{int16(math.Round(radius * 16)), int16(math.Round(width * 16)), int16(fx), int16(fy)}
	m, ok := b.discs[k]
	if !ok {
		radius, width := float64(k.radius)/16, float64(k.width)/16
		if radius = max(radius, 0); width <= 0 {
			width = 0
		}
		n := int(radius+width/2) + 2
		m = image.NewAlpha(image.Rect(0, 0, 2*n+1, 2*n+1))
		for py := range 2*n + 1 {
			for px := range 2*n + 1 {
				dx, dy := float64(px-n)+0.5-float64(fx)/4, float64(py-n)+0.5-float64(fy)/4
				m.Pix[py*m.Stride+px] = uint8(255*covered(dx*dx+dy*dy, radius, width) + 0.5)
			}
		}
		if b.discs == nil || len(b.discs) >= maxMasks {
			b.discs = map[disc]*image.Alpha{}
		}
		b.discs[k] = m
	}
	n := m.Rect.Dx() / 2
	return m, x - n, y - n
}
