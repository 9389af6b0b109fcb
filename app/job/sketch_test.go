package job

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/png"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/geometry"
)

func TestSketchRoundTrips(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	const ft = geometry.Foot
	good := Sketch{
		Image:   base64.StdEncoding.EncodeToString(b.Bytes()),
		Corners: []geometry.Point{{X: 0, Y: 10 * ft}, {X: 15 * ft, Y: 10 * ft}, {X: 15 * ft, Y: 0}, {X: 0, Y: 0}},
		Fade:    40, Locked: true,
	}
	j := New()
	j.Sketch = good
	got, _ := Read(bytes.NewReader(j.Encode())) // its empty plan is at fault
	if diff := cmp.Diff(good, got.Sketch); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
