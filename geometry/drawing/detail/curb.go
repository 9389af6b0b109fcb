package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/lumber"
)

// Curb is a raised wall on the edge, cut across.
type Curb struct {
	Height, Width geometry.Length
	Boards        []CurbBoard // of its outer face, from below; those of its inner face are alike
	Bars          []Bar       // depths are below the slab's top: less than 0
	Upright       *Upright    // nil for none
}

// CurbBoard is a course of the boards of a curb.
type CurbBoard struct {
	lumber.Board
	From geometry.Length // its bottom over the slab's top
	High geometry.Length // what is left of its width
}

// Upright is an upright bar, seen from its side.
type Upright struct {
	Inset, Diameter geometry.Length
	Top, Low        geometry.Length // depths of its ends below the slab's top
}

// woodwork draws the boards of both faces.
func (c *Curb) woodwork(d *drawing.Drawing) {
	for _, b := range c.Boards {
		wood(d, drawing.Forms, at(-b.Thickness, -b.From-b.High), at(0, -b.From))
		wood(d, drawing.Forms, at(c.Width, -b.From-b.High), at(c.Width+b.Thickness, -b.From))
	}
}

// steel draws the bars.
func (c *Curb) steel(d *drawing.Drawing) {
	fill := drawing.Pencil{Layer: drawing.Steel, Style: drawing.SteelFill}
	if u := c.Upright; u != nil {
		half := u.Diameter / 2
		d.Fill(fill, corners(at(u.Inset-half, u.Top), at(u.Inset+half, u.Low+half))...)
	}
	for _, b := range c.Bars {
		d.Circle(fill, at(b.Inset, b.Depth), b.Diameter/2, 0.55, 0, true)
	}
}

// curbMeasures measures a curb: over the slab's top, and from the face inward.
func (s *Section) curbMeasures(d *drawing.Drawing) {
	c, face := s.Curb, geometry.Length(0)
	if s.Board.Width > 0 {
		face = -s.Board.Thickness
	}
	between(d, drawing.Dimension{Of: "curb, high", A: at(face, 0), B: at(face, -c.Height), Left: true, Optional: s.Said, Weight: mainWeight}, c.Height)
	up := -c.Height - s.Plate.Thickness
	if s.Bolt != nil {
		up = -c.Height - s.Bolt.Projection
	}
	between(d, drawing.Dimension{Of: "curb, wide", A: at(0, up), B: at(c.Width, up), Left: true, First: 8.5, Optional: s.Said, Weight: mainWeight}, c.Width)
}
