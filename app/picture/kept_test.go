package picture_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"haunchbook.example/app/picture"
)

// quarters is a picture whose first quarter is red.
func quarters(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{B: 250, A: 255}), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(0, 0, w/2, h/2), image.NewUniform(color.RGBA{R: 250, A: 255}), image.Point{}, draw.Src)
	return img
}

// withExif puts the orientation tag into a JPEG file.
func withExif(file []byte, order binary.ByteOrder, mark string, held uint16) []byte {
	tiff := []byte(mark + "\x00\x00\x00\x00\x00\x00")
	order.PutUint16(tiff[2:], 42)
	order.PutUint32(tiff[4:], 8)
	dir := make([]byte, 2+12+4)
	order.PutUint16(dir, 1)
	order.PutUint16(dir[2:], 0x0112)
	order.PutUint16(dir[4:], 3)
	order.PutUint32(dir[6:], 1)
	order.PutUint16(dir[10:], held)
	body := append([]byte("Exif\x00\x00"), append(tiff, dir...)...)
	seg := []byte{0xff, 0xe1, 0, 0}
	binary.BigEndian.PutUint16(seg[2:], uint16(len(body)+2))
	return append(append(append([]byte{}, file[:2]...), append(seg, body...)...), file[2:]...)
}

// The eight ways a camera can be held, by where the file's first corner (red)
// must be seen: CIPA DC-008 (Exif), tag Orientation.
func TestPicturesAreTurnedUpright(t *testing.T) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, quarters(64, 32), &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	where := map[uint16][2]int{1: {0, 0}, 2: {1, 0}, 3: {1, 1}, 4: {0, 1}, 5: {0, 0}, 6: {1, 0}, 7: {1, 1}, 8: {0, 1}}
	for held, at := range where {
		order, mark := binary.ByteOrder(binary.LittleEndian), "II"
		if held%2 == 0 {
			order, mark = binary.BigEndian, "MM"
		}
		text, size, err := picture.Import(bytes.NewReader(withExif(b.Bytes(), order, mark, held)), picture.Sketch)
		if err != nil {
			t.Fatal(err)
		}
		want := image.Pt(64, 32)
		if held >= 5 {
			want = image.Pt(32, 64)
		}
		if size != want {
			t.Errorf("held %d: %v, want %v", held, size, want)
			continue
		}
		img, err := picture.Decode(text, picture.Sketch)
		if err != nil {
			t.Fatal(err)
		}
		c := img.RGBAAt(size.X/4+at[0]*size.X/2, size.Y/4+at[1]*size.Y/2)
		if c.R < 200 || c.G > 60 || c.B > 60 {
			t.Errorf("held %d: found %v where red should be", held, c)
		}
	}
}

func TestImportRefusesWithAReason(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, quarters(40, 40)); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"text": []byte("no picture"), "nothing": nil, "cut short": b.Bytes()[:60]} {
		if _, _, err := picture.Import(bytes.NewReader(data), picture.Photo); err == nil || !strings.Contains(err.Error(), "picture") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if text, size, err := picture.Import(bytes.NewReader(b.Bytes()), picture.Sketch); err != nil || size != image.Pt(40, 40) || text == "" {
		t.Errorf("a sound PNG: %v %v", size, err)
	}
	big := image.NewGray(image.Rect(0, 0, 4000, 1000))
	b.Reset()
	if err := png.Encode(&b, big); err != nil {
		t.Fatal(err)
	}
	if _, size, err := picture.Import(bytes.NewReader(b.Bytes()), picture.Sketch); err != nil || size != image.Pt(1600, 400) {
		t.Errorf("a large PNG: %v %v", size, err)
	}
}

func FuzzImport(f *testing.F) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, quarters(16, 16), nil); err != nil {
		f.Fatal(err)
	}
	f.Add(withExif(b.Bytes(), binary.BigEndian, "MM", 6))
	f.Fuzz(func(t *testing.T, data []byte) {
		text, _, err := picture.Import(bytes.NewReader(data), picture.Photo)
		if err != nil {
			return
		}
		if _, err := base64.StdEncoding.DecodeString(text); err != nil {
			t.Error(err)
		}
	})
}
