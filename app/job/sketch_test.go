package job

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/png"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/geometry"
)

func TestSketchRoundTripsAndIsChecked(t *testing.T) {
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
	if faults := good.validate(); len(faults) > 0 {
		t.Fatal(faults)
	}
	j := New()
	j.Sketch = good
	got, _ := Read(bytes.NewReader(j.Encode())) // its empty plan is at fault
	if diff := cmp.Diff(good, got.Sketch); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for want, change := range map[string]func(*Sketch){
		"sketch.image":   func(tr *Sketch) { tr.Image = strings.Repeat("QUJD", 40) },
		"sketch.corners": func(tr *Sketch) { tr.Corners = tr.Corners[:3] },
		"no picture":     func(tr *Sketch) { tr.Corners = []geometry.Point{{}, {X: ft, Y: ft}, {X: ft}, {Y: ft}} },
		"sketch.fade":    func(tr *Sketch) { tr.Fade = 101 },
	} {
		tr := good
		change(&tr)
		if faults := tr.validate(); len(faults) != 1 || !strings.Contains(faults.Error(), want) {
			t.Errorf("want one fault with %q, got %v", want, faults)
		}
	}
	if bad := (Sketch{}); len(bad.validate()) > 0 {
		t.Error("no sketch is a fault")
	}
}
