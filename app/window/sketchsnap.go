package window

import (
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// sketch finds what is drawn on the sketch near a place of the plan.
func (w *Window) sketch(at geometry.Point, reach geometry.Length) (snap.Mark, bool) {
	t := w.doc.Job().Sketch
	c := &w.under
	if !t.Any() || t.Hidden || len(t.Corners) != 4 || c.img == nil || c.of != t.Image {
		return snap.Mark{}, false
	}
	if corners := [4]geometry.Point(t.Corners); c.sketch == nil || c.sketchOf != c.img || c.sketchAt != corners {
		s, err := sketch.NewFinder(c.img, t.Corners)
		if err != nil {
			return snap.Mark{}, false
		}
		c.sketch, c.sketchOf, c.sketchAt = s, c.img, corners
		c.asked = sketchAsked{}
	}
	// A move of the pointer asks more than once.
	if a := &c.asked; a.at != at || a.reach != reach {
		p, corner, ok := c.sketch.Find(at, reach)
		*a = sketchAsked{at, reach, snap.Mark{At: p, Corner: corner}, ok}
	}
	return c.asked.mark, c.asked.ok
}

// sketchAsked is what was asked of the sketch last, and its answer.
type sketchAsked struct {
	at    geometry.Point
	reach geometry.Length
	mark  snap.Mark
	ok    bool
}
