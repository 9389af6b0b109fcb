package paint

import (
	"encoding/binary"
	"image"
	"image/color"
)

// Ruling is lines one pixel wide, across the whole image.
type Ruling struct {
	Columns, Rows []int
	Color         color.NRGBA // opaque
}

// Ruled makes Img w by h pixels of squared paper; a later ruling lies over an
// earlier one. It costs no more than an empty sheet.
func (b *Brush) Ruled(w, h int, paper color.NRGBA, rulings ...Ruling) {
	w, h = max(w, 1), max(h, 1)
	if b.Img == nil || b.Img.Rect.Dx() != w || b.Img.Rect.Dy() != h {
		b.Img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	// One row of pixels for the paper, and one for each ruling's own rows.
	n := len(rulings)
	if len(b.pattern) < (n+1)*w*4 {
		b.pattern = make([]uint8, (n+1)*w*4)
	}
	for k := 0; k <= n; k++ {
		row := b.pattern[k*w*4 : (k+1)*w*4]
		c := inkOf(paper)
		if k > 0 {
			c = inkOf(rulings[k-1].Color)
		}
		run(row, 0, w, &c, 256)
		for _, r := range rulings[k:] {
			c := inkOf(r.Color)
			for _, x := range r.Columns {
				if x >= 0 && x < w {
					binary.LittleEndian.PutUint32(row[x*4:], c.solid)
				}
			}
		}
	}
	if len(b.kinds) < h {
		b.kinds = make([]uint8, h)
	}
	clear(b.kinds)
	for k, r := range rulings {
		for _, y := range r.Rows {
			if y >= 0 && y < h {
				b.kinds[y] = uint8(k + 1)
			}
		}
	}
	for y := range h {
		k := int(b.kinds[y])
		copy(b.Img.Pix[y*b.Img.Stride:][:w*4], b.pattern[k*w*4:])
	}
}
