package paint

import (
	"fmt"
	"image"
	"image/color"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// Fonts turns text into masks and keeps them.
type Fonts struct {
	font     *opentype.Font
	faces    map[float64]*face
	masks    map[key]*mask
	last     *face // of lastSize: one size is asked for again and again
	lastSize float64
}

type face struct {
	font.Face
	ascent, descent int
	widths          map[string]float64
}

type key struct {
	text string
	size float64
	turn bool
}

type mask struct{ img *image.Alpha }

// maxMasks bounds the cache; past it, it starts anew.
const maxMasks = 4096

// NewFonts reads a TrueType or OpenType font.
func NewFonts(data []byte) (*Fonts, error) {
	f, err := opentype.Parse(data)
	if err != nil {
		return nil, fmt.Errorf("font: %w", err)
	}
	return &Fonts{font: f, faces: map[float64]*face{}, masks: map[key]*mask{}}, nil
}

func (f *Fonts) face(size float64) *face {
	if f.last != nil && f.lastSize == size {
		return f.last
	}
	if fc, ok := f.faces[size]; ok {
		f.last, f.lastSize = fc, size
		return fc
	}
	ff, err := opentype.NewFace(f.font, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingVertical})
	if err != nil {
		panic(err) // a parsed font makes a face of any size
	}
	m := ff.Metrics()
	fc := &face{Face: ff, ascent: m.Ascent.Ceil(), descent: m.Descent.Ceil(), widths: map[string]float64{}}
	f.faces[size] = fc
	return fc
}

// Width gives how wide text is in pixels at a size in pixels.
func (f *Fonts) Width(text string, size float64) float64 {
	fc := f.face(size)
	if w, ok := fc.widths[text]; ok {
		return w
	}
	if len(fc.widths) > maxMasks {
		clear(fc.widths)
	}
	w := float64(font.MeasureString(fc, text)) / 64
	fc.widths[text] = w
	return w
}

// Height gives the height of a line of text.
func (f *Fonts) Height(size float64) float64 {
	fc := f.face(size)
	return float64(fc.ascent + fc.descent)
}

func (f *Fonts) mask(k key) *mask {
	if m, ok := f.masks[k]; ok {
		return m
	}
	if len(f.masks) > maxMasks {
		clear(f.masks)
	}
	fc := f.face(k.size)
	w := font.MeasureString(fc, k.text).Ceil() + 1
	h := fc.ascent + fc.descent
	img := image.NewAlpha(image.Rect(0, 0, w, h))
	d := font.Drawer{Dst: img, Src: image.Opaque, Face: fc, Dot: fixed.P(0, fc.ascent)}
	d.DrawString(k.text)
	if k.turn {
		img = turned(img)
	}
	m := &mask{img}
	f.masks[k] = m
	return m
}

// turned gives the mask to be read from the right: a quarter turn
// counter-clockwise.
func turned(a *image.Alpha) *image.Alpha {
	w, h := a.Rect.Dx(), a.Rect.Dy()
	t := image.NewAlpha(image.Rect(0, 0, h, w))
	for y := range h {
		for x := range w {
			t.Pix[(w-1-x)*t.Stride+y] = a.Pix[y*a.Stride+x]
		}
	}
	return t
}

// Text writes text centered at a point, upright or turned to be read from the
// right.
func (b *Brush) Text(text string, at Point, size float64, turn bool, c color.NRGBA) {
	if text == "" || b.Fonts == nil || c.A == 0 {
		return
	}
	const far = 1 << 20
	if !(at.X > -far && at.X < far && at.Y > -far && at.Y < far) {
		return
	}
	m := b.Fonts.mask(key{text, size, turn}).img
	x, y := int(at.X-float64(m.Rect.Dx())/2+0.5), int(at.Y-float64(m.Rect.Dy())/2+0.5)
	if b.noting != nil {
		b.note(op{kind: maskOp, c: c, mask: m, x: int32(x), y: int32(y)}, float64(x), float64(y), float64(x+m.Rect.Dx()), float64(y+m.Rect.Dy()))
		return
	}
	b.stamp(m, x, y, c)
}

// stamp lays a mask with its corner at x, y.
func (b *Brush) stamp(m *image.Alpha, x, y int, c color.NRGBA) {
	r := m.Rect.Add(image.Pt(x, y))
	clip := r.Intersect(b.Img.Rect)
	if clip.Empty() {
		return
	}
	ink := inkOf(c)
	for py := clip.Min.Y; py < clip.Max.Y; py++ {
		row := m.Pix[(py-y)*m.Stride+clip.Min.X-x:][:clip.Dx()]
		o := py*b.Img.Stride + clip.Min.X*4
		for i, a := range row {
			if a != 0 {
				lay(b.Img.Pix, o+4*i, &ink, (uint32(a)+uint32(a)>>7)*ink.alpha>>8)
			}
		}
	}
}

// TextLeft writes text whose left end is at a point, centered in height.
func (b *Brush) TextLeft(text string, at Point, size float64, c color.NRGBA) {
	if b.Fonts == nil {
		return
	}
	at.X += b.Fonts.Width(text, size) / 2
	b.Text(text, at, size, false, c)
}
