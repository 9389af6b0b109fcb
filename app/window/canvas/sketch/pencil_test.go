package sketch

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"

	"haunchbook.example/app/picture"

	"haunchbook.example/geometry"
)

// The corners of a pencil sketch with wavering lines, witness lines and writing
// are found from a few pixels away, to 3 pixels, which is about an inch: the sketch
// is drawn at 34 pixels to the foot with its lower left corner at 290, 1010.
func TestPencilSketch(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "sketch", "sketch.png"))
	if err != nil {
		t.Fatal(err)
	}
	text, size, err := picture.Import(bytes.NewReader(data), picture.Sketch)
	if err != nil {
		t.Fatal(err)
	}
	img, err := picture.Decode(text, picture.Sketch)
	if err != nil {
		t.Fatal(err)
	}
	const px = geometry.Foot
	s, err := NewFinder(img, []geometry.Point{pt(0, 0), pt(geometry.Length(size.X)*px, 0), pt(geometry.Length(size.X)*px, -geometry.Length(size.Y)*px), pt(0, -geometry.Length(size.Y)*px)})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]float64{{0, 0}, {30, 0}, {30, 24}, {11.5, 24}, {11.5, 20}, {0, 20}} {
		x, y := 290+34*c[0], 1010-34*c[1]
		for _, d := range [][2]float64{{0, 0}, {8, 8}, {-8, 8}, {8, -8}, {-8, -8}, {12, 0}, {0, 12}, {0, -12}, {-12, 0}} {
			at := pt(geometry.Length((x+d[0])*float64(px)), -geometry.Length((y+d[1])*float64(px)))
			p, corner, ok := s.Find(at, 22*px)
			off := math.Hypot(p.X.Feet()-x, -p.Y.Feet()-y)
			if !ok || !corner || off > 3 {
				t.Errorf("corner %v from %v away: corner %v, found %v, %.1f pixels off", c, d, corner, ok, off)
			}
		}
	}
}
