package field

import (
	"bytes"
	"encoding/base64"
	"strconv"

	"haunchbook.example/geometry"
)

// sketch asks for a picture that can be drawn, or none.
func sketch(w View) {
	image, corners := w.text("image"), w.value("corners").([]geometry.Point)
	if image == "" && len(corners) == 0 {
		return
	}
	if !picture(image) {
		w.fault("image", "no picture", "give a PNG or JPEG file in base64, or leave the picture out")
	}
	if len(corners) != 4 {
		w.fault("corners", strconv.Itoa(len(corners))+" points", "give four: upper left, upper right, lower right, lower left")
	} else if !convex(corners) {
		w.fault("corners", "corners that make no picture", "give the four in order round a shape without dents")
	}
}

// picture tells whether text begins as a PNG or JPEG file in base64 does. The
// rest is looked at when it is drawn: a job is checked at every move of the
// pointer.
func picture(text string) bool {
	if len(text) < 64 || len(text)%4 != 0 {
		return false
	}
	head, err := base64.StdEncoding.DecodeString(text[:16])
	return err == nil && (bytes.HasPrefix(head, []byte("\x89PNG\r\n")) || bytes.HasPrefix(head, []byte("\xff\xd8\xff")))
}

// convex tells whether four points turn the same way at each.
func convex(c []geometry.Point) bool {
	for _, p := range c {
		if p.X.Abs() > geometry.MaxLength || p.Y.Abs() > geometry.MaxLength {
			return false
		}
	}
	first := geometry.Orientation(c[0], c[1], c[2])
	for i := range c {
		o := geometry.Orientation(c[i], c[(i+1)%4], c[(i+2)%4])
		if o == 0 || o != first {
			return false
		}
	}
	return true
}
