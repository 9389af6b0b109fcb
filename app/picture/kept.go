package picture

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"image"
	"image/jpeg"
	"io"

	"golang.org/x/image/draw"
)

// Side is the longer side of a picture as it is kept in a job, in points: enough to read
// it by, small enough to be kept.
type Side int

// The sides.
const (
	Sketch Side = 1600 // to draw over
	Photo  Side = 1280 // to look at; about 250 kB
)

// quality is that of kept JPEG files.
const quality = 80

// Import reads a PNG or JPEG file, turns it upright as its camera noted, makes it no
// larger than a side, and gives it as base64 for the job file. Nothing else that the
// camera noted is kept, such as where it was.
func Import(r io.Reader, most Side) (text string, size image.Point, err error) {
	data, err := Load(r)
	if err != nil {
		return "", size, err
	}
	_, kind, err := Check(data)
	if err != nil {
		return "", size, err
	}
	img, err := Read(data)
	if err != nil {
		return "", size, err
	}
	small := shrink(img, most)
	if kind == "jpeg" {
		small = upright(small, orientation(data))
	}
	return encoded(small)
}

// Keep makes a picture no larger than a side, and gives it as Import does.
func Keep(img image.Image, most Side) (text string, size image.Point, err error) {
	return encoded(shrink(img, most))
}

func encoded(small *image.RGBA) (text string, size image.Point, err error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, small, &jpeg.Options{Quality: quality}); err != nil {
		return "", size, err
	}
	return base64.StdEncoding.EncodeToString(b.Bytes()), small.Rect.Size(), nil
}

// Decode reads a picture of a job file.
func Decode(text string, most Side) (*image.RGBA, error) {
	data, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, err
	}
	img, err := Read(data)
	if err != nil {
		return nil, err
	}
	return shrink(img, most), nil
}

// shrink gives the picture on white paper, with no side longer than most.
func shrink(img image.Image, most Side) *image.RGBA {
	s := img.Bounds().Size()
	w, h := s.X, s.Y
	if m := max(w, h); m > int(most) {
		w, h = max(1, w*int(most)/m), max(1, h*int(most)/m)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.ApproxBiLinear.Scale(out, out.Rect, img, img.Bounds(), draw.Over, nil)
	return out
}

// orientation gives how a camera held a JPEG picture: the value 1 to 8 of tag
// 0x0112 of Exif (CIPA DC-008, section 4.6.4 A), 1 where there is none.
func orientation(data []byte) int {
	for i := 2; i+4 <= len(data) && data[i] == 0xff; {
		marker, size := data[i+1], int(binary.BigEndian.Uint16(data[i+2:]))
		if marker == 0xda || size < 2 || i+2+size > len(data) {
			break
		}
		if body := data[i+4 : i+2+size]; marker == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return tiffOrientation(body[6:])
		}
		i += 2 + size
	}
	return 1
}

// tiffOrientation looks the tag up in the first directory.
func tiffOrientation(t []byte) int {
	if len(t) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if t[0] == 'M' {
		order = binary.BigEndian
	}
	at := uint64(order.Uint32(t[4:]))
	if at+2 > uint64(len(t)) {
		return 1
	}
	n := uint64(order.Uint16(t[at:]))
	for k := range n {
		e := at + 2 + 12*k
		if e+12 > uint64(len(t)) {
			break
		}
		if order.Uint16(t[e:]) == 0x0112 {
			if v := int(order.Uint16(t[e+8:])); v >= 1 && v <= 8 {
				return v
			}
			break
		}
	}
	return 1
}

// upright turns and flips a picture from the way it was held.
func upright(img *image.RGBA, held int) *image.RGBA {
	if held == 1 {
		return img
	}
	w, h := img.Rect.Dx(), img.Rect.Dy()
	ow, oh := w, h
	if held >= 5 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range oh {
		for x := range ow {
			sx, sy := x, y
			switch held {
			case 2:
				sx = w - 1 - x
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sy = h - 1 - y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, h-1-x
			case 7:
				sx, sy = w-1-y, h-1-x
			case 8:
				sx, sy = w-1-y, x
			}
			copy(out.Pix[y*out.Stride+x*4:][:4], img.Pix[sy*img.Stride+sx*4:][:4])
		}
	}
	return out
}
