package main

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
)

// scanned gives the sheet as a scanner does: evenly lit, in few tones.
func (p *pencil) scanned() *image.Paletted {
	const tones = 32
	var pal color.Palette
	for i := range tones {
		d := float64(i) / (tones - 1)
		mix := func(paper, lead float64) uint8 { return uint8(paper + (lead-paper)*d) }
		pal = append(pal, color.RGBA{mix(250, 62), mix(246, 62), mix(236, 68), 255})
	}
	img := image.NewPaletted(image.Rect(0, 0, width, height), pal)
	for i, d := range p.dark {
		img.Pix[i] = uint8(d*(tones-1) + 0.5)
	}
	return img
}

// paper gives the sheet as a camera sees it.
func (p *pencil) paper() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for i, d := range p.dark {
		x, y := i%width, i/width
		light := 0.985 + 0.015*grain(x/2, y/2) - 0.03*float64(x)/width // a shade across the sheet
		mix := func(paper, lead float64) uint8 { return uint8(light * (paper + (lead-paper)*d)) }
		img.SetRGBA(x, y, color.RGBA{mix(250, 62), mix(246, 62), mix(236, 68), 255})
	}
	return img
}

// photograph gives the sheet as a camera that was held upright stores it: the
// rows run along the sheet's right edge, and orientation 6 of Exif (CIPA DC-008,
// section 4.6.4 A) says to turn them back.
func photograph(sheet *image.RGBA) ([]byte, error) {
	b := sheet.Rect
	turned := image.NewRGBA(image.Rect(0, 0, b.Dy(), b.Dx()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			turned.SetRGBA(y, b.Dx()-1-x, sheet.RGBAAt(x, y))
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, turned, &jpeg.Options{Quality: 78}); err != nil {
		return nil, err
	}
	// One directory with one entry: tag 0x0112, a short, once, value 6.
	tiff := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00")
	body := append([]byte("Exif\x00\x00"), tiff...)
	marker := append([]byte{0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)
	data := out.Bytes()
	return bytes.Join([][]byte{data[:2], marker, body, data[2:]}, nil), nil
}
