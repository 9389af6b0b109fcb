package picture_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"haunchbook.example/app/picture"
)

// huge gives the head of a PNG picture of a size, with little behind it.
func huge(w, h uint32, depth, kind byte) []byte {
	head := make([]byte, 13)
	binary.BigEndian.PutUint32(head, w)
	binary.BigEndian.PutUint32(head[4:], h)
	head[8], head[9] = depth, kind
	b := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		b = binary.BigEndian.AppendUint32(b, uint32(len(data)))
		at := len(b)
		b = append(append(b, name...), data...)
		b = binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[at:]))
	}
	chunk("IHDR", head)
	if kind == 3 {
		chunk("PLTE", []byte{0, 0, 0, 255, 255, 255})
	}
	chunk("IDAT", []byte{0x78, 0x9c, 1, 0, 0, 0xff, 0xff, 0, 0, 0, 1})
	chunk("IEND", nil)
	return b
}

func TestPictures(t *testing.T) {
	var p, j bytes.Buffer
	img := image.NewGray(image.Rect(0, 0, 40, 20))
	if err := png.Encode(&p, img); err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(&j, img, nil); err != nil {
		t.Fatal(err)
	}
	for kind, data := range map[string][]byte{"png": p.Bytes(), "jpeg": j.Bytes()} {
		size, got, err := picture.Check(data)
		if err != nil || got != kind || size != (image.Point{X: 40, Y: 20}) {
			t.Errorf("%s: %v, %q, %v", kind, size, got, err)
		}
		if img, err := picture.Read(data); err != nil || img.Bounds().Size() != size {
			t.Errorf("%s: %v", kind, err)
		}
	}
	for want, data := range map[string][]byte{
		"no PNG or JPEG picture":   []byte("BM picture"),
		"60000 by 60000 points":    huge(60_000, 60_000, 8, 2),
		"2147483647 by 1 points":   huge(1<<31-1, 1, 1, 0),
		"10000 by 10000 points":    huge(10_000, 10_000, 16, 6), // few points, and 800 MB
		"the picture is damaged":   p.Bytes()[:p.Len()-30],
		"a picture of more than 6": bytes.Repeat([]byte("x"), picture.MaxBytes+1),
	} {
		// A picture is refused from its head: what it would take is never asked for.
		if got := testing.AllocsPerRun(1, func() { _, _ = picture.Read(data) }); got > 10_000 {
			t.Errorf("%s: %v allocations", want, got)
		}
		if _, err := picture.Read(data); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %q", err, want)
		}
	}
	if data, err := picture.Load(bytes.NewReader(make([]byte, picture.MaxBytes+100))); err != nil || len(data) != picture.MaxBytes+1 {
		t.Errorf("%d bytes, %v", len(data), err)
	}
}

func Example() {
	size, kind, err := picture.Check([]byte("a letter"))
	fmt.Println(size, kind, err)
	// Output: (0,0)  found no PNG or JPEG picture; use a photograph or scan in one of these
}
