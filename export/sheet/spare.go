package sheet

import "haunchbook.example/geometry/plane"

// spare puts blocks where the plan leaves the paper free, outside the slab, and
// gives those that found no room: a list that can stand beside the plan saves a
// sheet.
func (g *drawing) spare(blocks []block, width float64) (left []block) {
	taken := g.inked()
	for _, b := range blocks {
		if _, empty := b.(nothing); empty {
			continue
		}
		if wide(b) > width {
			left = append(left, b)
			continue
		}
		at, ok := g.spareFor(taken, width, b.height(width))
		if !ok {
			left = append(left, b)
			continue
		}
		bottom := b.draw(g.draft, at.x0, at.y1, width)
		taken.add(box{at.center(), Point{1, 0}, at.width() / 2, (at.y1 - bottom) / 2}, true)
	}
	return left
}

// spareFor finds a free rectangle of a size, as near to the right as there is.
func (g *drawing) spareFor(taken *obstacles, width, height float64) (rect, bool) {
	const clear, step = 3.5, 3.0 // mm
	area := g.paper.inset(1)
	ring := g.loops[0].Corners()
	for x := area.x1 - width; x >= area.x0; x -= step {
		for y := area.y1; y-height >= area.y0; {
			r := rect{x, y - height, x + width, y}
			b := box{r.center(), Point{1, 0}, width/2 + clear, height/2 + clear}
			if hit, ok := taken.first(b); ok {
				lo, _ := hit.bounds()
				y = min(y-step, lo.Y-clear) // below what is in the way
				continue
			}
			if !plane.In(ring, g.view.point(r.center())) {
				return r, true
			}
			y -= step
		}
	}
	return rect{}, false
}

// inked gives all that is drawn, the lines that give way to text among it.
func (g *drawing) inked() *obstacles {
	out := newObstacles()
	for _, it := range g.page.Items {
		switch v := it.(type) {
		case Line:
			if v.Pen.Width <= 0 {
				continue
			}
			pts := v.closedPoints()
			for i := 1; i < len(pts); i++ {
				out.add(boxOf(pts[i-1], pts[i], v.Pen.Width/2), false)
			}
		case Circle:
			out.add(box{v.Center, Point{1, 0}, v.Radius, v.Radius}, false)
		case Text:
			out.add(v.box(), true)
		}
	}
	return out
}
