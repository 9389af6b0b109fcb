package paint

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
)

// Ruling is lines one pixel wide, across the whole image.
type Ruling struct {
	Columns, Rows []int
	Color         color.NRGBA // opaque
}

// ground is what lies under all that is drawn: squared paper, or a picture.
type ground struct {
	pattern []uint8 // rows of squared paper
	kinds   []uint8 // which of them each row is
	wide    int     // bytes of a row
	picture *image.RGBA
	made    int
}

// Ruled makes Img w by h pixels of squared paper; a later ruling lies over an
// earlier one. It costs no more than an empty sheet.
func (b *Brush) Ruled(w, h int, paper color.NRGBA, rulings ...Ruling) {
	b.sized(w, h)
	g := &b.record.now.ground
	g.rule(b.Img.Rect.Dx(), b.Img.Rect.Dy(), paper, rulings)
	if b.noting == nil {
		g.lay(b.Img, b.Img.Rect)
		b.record.known = false
	}
}

// Ground lays a picture as large as Img under what is noted from Begin on, in place of
// paper. The same picture with the same number is taken to be unchanged.
func (b *Brush) Ground(picture *image.RGBA, made int) {
	g := &b.record.now.ground
	g.picture, g.made = picture, made
}

// sized makes Img w by h pixels, and tells whether it was.
func (b *Brush) sized(w, h int) bool {
	w, h = max(w, 1), max(h, 1)
	if b.Img != nil && b.Img.Rect.Dx() == w && b.Img.Rect.Dy() == h {
		return true
	}
	b.Img = image.NewRGBA(image.Rect(0, 0, w, h))
	return false
}

func (g *ground) rule(w, h int, paper color.NRGBA, rulings []Ruling) {
	g.picture, g.wide = nil, w*4
	// One row of pixels for the paper, and one for each ruling's own rows.
	n := len(rulings)
	g.pattern = grown(g.pattern, (n+1)*g.wide)
	for k := 0; k <= n; k++ {
		row := g.pattern[k*g.wide : (k+1)*g.wide]
		c := inkOf(paper)
		c.solid = premultiplied(paper)
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
	g.kinds = grown(g.kinds, h)
	clear(g.kinds)
	for k, r := range rulings {
		for _, y := range r.Rows {
			if y >= 0 && y < h {
				g.kinds[y] = uint8(k + 1)
			}
		}
	}
}

// premultiplied gives the pixel of a color that may let through what is beneath.
func premultiplied(c color.NRGBA) uint32 {
	m := uint32(c.A)
	return uint32(c.R)*m/255 | uint32(c.G)*m/255<<8 | uint32(c.B)*m/255<<16 | m<<24
}

func grown(b []uint8, n int) []uint8 {
	if cap(b) < n {
		return make([]uint8, n)
	}
	return b[:n]
}

// lay lays the ground in a box of an image.
func (g *ground) lay(img *image.RGBA, box image.Rectangle) {
	from, to := box.Min.X*4, box.Max.X*4
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row := img.Pix[y*img.Stride+from : y*img.Stride+to]
		if g.picture != nil {
			copy(row, g.picture.Pix[y*g.picture.Stride+from:])
		} else {
			copy(row, g.pattern[int(g.kinds[y])*g.wide+from:])
		}
	}
}

// same tells whether the ground in a box is that of another one.
func (g *ground) same(o *ground, box image.Rectangle) bool {
	if g.picture != nil || o.picture != nil {
		return g.picture == o.picture && g.made == o.made
	}
	if g.wide != o.wide || len(g.pattern) != len(o.pattern) || len(g.kinds) != len(o.kinds) || !bytes.Equal(g.kinds[box.Min.Y:box.Max.Y], o.kinds[box.Min.Y:box.Max.Y]) {
		return false
	}
	for k := 0; k < len(g.pattern); k += g.wide {
		if from, to := k+box.Min.X*4, k+box.Max.X*4; !bytes.Equal(g.pattern[from:to], o.pattern[from:to]) {
			return false
		}
	}
	return true
}
