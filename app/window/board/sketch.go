package board

import (
	"image"

	"haunchbook.example/app/picture"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
)

// Sketch keeps the picture that is drawn over, decoded, and as it was last drawn.
type Sketch struct {
	Doc *document.Document

	of     string // the picture in the job that img is
	img    *image.RGBA
	Failed error       // why it cannot be shown
	drawn  paint.Brush // paper, grid and picture for the key
	made   int         // how often it was drawn
	key    sketchKey

	found   *sketch.Finder // what is drawn on img, where it lies at foundAt
	foundOf *image.RGBA
	foundAt [4]geometry.Point
	asked   asked
}

type sketchKey struct {
	view    view.View
	w, h    int
	of      *image.RGBA
	corners [4]geometry.Point
	fade    int
	layers  scene.Layers
	palette scene.Palette
	units   geometry.Units
}

// Draw draws the sketch on the paper as the brush's ground, if there is one. Drawn once,
// it is used for as long as nothing it depends on changes, as while a corner is dragged.
func (c *Sketch) Draw(b *paint.Brush, paper func(*paint.Brush), v view.View, layers scene.Layers) bool {
	t := c.Doc.Job().Sketch
	if !t.Any() || t.Hidden || len(t.Corners) != 4 {
		return false
	}
	if c.of != t.Image {
		c.of = t.Image
		c.img, c.Failed = picture.Decode(t.Image, picture.Sketch)
	}
	if c.img == nil {
		return false
	}
	dst := b.Img
	key := sketchKey{v, dst.Rect.Dx(), dst.Rect.Dy(), c.img, [4]geometry.Point(t.Corners), t.Fade, layers, look.Palette(), c.Doc.Units()}
	if key == c.key {
		b.Ground(c.drawn.Img, c.made)
		return true
	}
	paper(&c.drawn)
	var corners [4]sketch.XY
	for i, p := range t.Corners {
		q := v.Screen(p)
		corners[i] = sketch.XY{X: q.X, Y: q.Y}
	}
	sketch.Draw(c.drawn.Img, c.img, corners, 1-float64(t.Fade)/100, look.Palette() == scene.Dark)
	c.key = key
	c.made++
	b.Ground(c.drawn.Img, c.made)
	return true
}

// Find finds what is drawn on the sketch near a place of the plan.
func (c *Sketch) Find(at geometry.Point, reach geometry.Length) (snap.Mark, bool) {
	t := c.Doc.Job().Sketch
	if !t.Any() || t.Hidden || len(t.Corners) != 4 || c.img == nil || c.of != t.Image {
		return snap.Mark{}, false
	}
	if corners := [4]geometry.Point(t.Corners); c.found == nil || c.foundOf != c.img || c.foundAt != corners {
		s, err := sketch.NewFinder(c.img, t.Corners)
		if err != nil {
			return snap.Mark{}, false
		}
		c.found, c.foundOf, c.foundAt = s, c.img, corners
		c.asked = asked{}
	}
	// A move of the pointer asks more than once.
	if a := &c.asked; a.at != at || a.reach != reach {
		p, corner, ok := c.found.Find(at, reach)
		*a = asked{at, reach, snap.Mark{At: p, Corner: corner}, ok}
	}
	return c.asked.mark, c.asked.ok
}

// asked is what was asked of the sketch last, and its answer.
type asked struct {
	at    geometry.Point
	reach geometry.Length
	mark  snap.Mark
	ok    bool
}
