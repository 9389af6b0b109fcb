package job

import (
	"slices"

	"haunchbook.example/geometry"
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

// WithPictures gives the job with what f makes of each of its pictures in their place:
// that of the sketch and those of the photographs, in one order.
func (j Job) WithPictures(f func(image string) string) Job {
	j.Visit.Photos = slices.Clone(j.Visit.Photos)
	for i := range j.Visit.Photos {
		p := &j.Visit.Photos[i]
		p.Image = f(p.Image)
	}
	if j.Sketch.Any() {
		j.Sketch.Image = f(j.Sketch.Image)
	}
	return j
}
