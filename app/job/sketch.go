package job

import "haunchbook.example/geometry"

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
