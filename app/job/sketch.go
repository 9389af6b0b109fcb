package job

import (
	"bytes"
	"encoding/base64"
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Sketch is a picture under the plan, as a photograph of a sketch, to draw over.
// It takes part in no figure. The zero Sketch is none.
type Sketch struct {
	Image   string           `json:"image"`           // a PNG or JPEG file in base64
	Corners []geometry.Point `json:"corners"`         // where its corners lie on the plan: upper left, upper right, lower right, lower left
	Fade    int              `json:"fade,omitzero"`   // percent, from 0 as it is to 100 not to be seen
	Locked  bool             `json:"locked,omitzero"` // cannot be moved by dragging
	Hidden  bool             `json:"hidden,omitzero"`
}

// Any tells whether there is a picture.
func (t Sketch) Any() bool { return t.Image != "" }

func (t Sketch) validate() plan.Faults {
	if !t.Any() && len(t.Corners) == 0 {
		return nil
	}
	var faults plan.Faults
	fault := func(field, found, want string) {
		faults = append(faults, plan.Fault{Path: "sketch." + field, Found: found, Want: want})
	}
	if !picture(t.Image) {
		fault("image", "no picture", "give a PNG or JPEG file in base64, or leave the sketch out")
	}
	if len(t.Corners) != 4 {
		fault("corners", fmt.Sprint(len(t.Corners), " points"), "give four: upper left, upper right, lower right, lower left")
	} else if !convex(t.Corners) {
		fault("corners", "corners that make no picture", "give the four in order round a shape without dents")
	}
	if t.Fade < 0 || t.Fade > 100 {
		fault("fade", fmt.Sprint(t.Fade), "must be from 0 to 100")
	}
	return faults
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
