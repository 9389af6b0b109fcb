package sheet

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plane"
)

// spare puts blocks where the plan leaves the paper free, outside the slab, and
// gives those that found no room: a list that can stand beside the plan saves a
// sheet.
func (g plot) spare(blocks []besidePlan) (left []besidePlan) {
	filled := g.inked()
	defer filled.forget(len(filled.boxes)) // what is drawn here is inked now
	var failed []besidePlan                // what is as wide and tall finds no room: it only gets less
	for _, b := range blocks {
		at, ok := rect{}, false
		if !slices.ContainsFunc(failed, func(f besidePlan) bool { return f.width <= b.width && f.tall <= b.tall }) {
			if at, ok = g.spareFor(filled, b.width, b.tall); !ok {
				failed = append(failed, b)
			}
		}
		if !ok {
			left = append(left, b)
			continue
		}
		bottom := b.draw(g.draft, at.X0, at.Y1, b.width)
		filled.add(rect{X0: at.X0, Y0: bottom, X1: at.X1, Y1: at.Y1}.Box())
	}
	return left
}

// besidePlan is a block as it would stand beside a plan.
type besidePlan struct {
	block
	n           int // its place in the list
	width, tall float64
}

// besidePlans measures the blocks that may stand beside a plan, once for all plans. No
// plan stands beside a plan.
func besidePlans(blocks []block) (may []besidePlan) {
	for n, b := range blocks {
		if width := spareWidth(b); easy(b, width) {
			may = append(may, besidePlan{b, n, width, b.height(width)})
		}
	}
	return may
}

// hasSpare tells whether a block finds room there.
func (g plot) hasSpare(b block) bool {
	width := spareWidth(b)
	_, ok := g.spareFor(g.inked(), width, b.height(width))
	return ok
}

// narrowed is how wide a list is beside a plan, mm.
const narrowed = 52.0

// sectionClear is what a section gets beside a plan over its least width, which leaves it
// taller, mm.
const sectionClear = 17.0

// spareWidth gives how wide a block stands beside a plan.
func spareWidth(b block) float64 {
	if t, ok := b.(tableBlock); ok {
		return max(sum(t.natural()), textWidth(t.title, sizeBody, true))
	}
	if d, ok := b.(detailBlock); ok && d.least >= sectionWidth {
		return d.least + sectionClear
	}
	return max(narrowed, wide(b))
}

// spareFor finds a free rectangle of a size, as high as there is, whose middle is not on
// a slab.
func (g plot) spareFor(filled *filled, width, height float64) (rect, bool) {
	var slabs []geometry.Ring
	for _, t := range g.of {
		slabs = append(slabs, t.Plan.Outline.Rim())
	}
	on := func(p Point) bool {
		return slices.ContainsFunc(slabs, func(r geometry.Ring) bool { return plane.In(r, g.view.point(p)) })
	}
	const clear, step = 3.5, 2.0 // mm
	area := g.paper.Inset(1)
	best, found := rect{}, false
	for x := area.X0; x+width <= area.X1; x += step {
		for y := area.Y1; y-height >= area.Y0 && !(found && y <= best.Y1); {
			r := rect{X0: x, Y0: y - height, X1: x + width, Y1: y}
			b := r.Inset(-clear).Box()
			if hit, ok := filled.first(b); ok {
				y = min(y-step, hit.Bounds().Y0-clear) // below what is in the way
				continue
			}
			if !on(r.Middle()) {
				best, found = r, true
			}
			y -= step
		}
	}
	return best, found
}

// inked gives all that is drawn, the lines that give way to text among it; until it is asked
// for again.
func (d *draft) inked() *filled {
	if d.ink == nil {
		d.ink = newFilled()
	}
	for _, it := range d.page.Items[d.looked:] {
		switch v := it.(type) {
		case Line:
			if v.Pen.Width <= 0 {
				continue
			}
			pts := v.closedPoints()
			for i := 1; i < len(pts); i++ {
				d.ink.add(drawing.BoxOf(pts[i-1], pts[i], v.Pen.Width/2))
			}
		case Circle:
			d.ink.add(box{Mid: v.Center, Along: Point{X: 1}, L: v.Radius, H: v.Radius})
		case Text:
			d.ink.add(v.box())
		}
	}
	d.looked = len(d.page.Items)
	return d.ink
}

// filled finds what of a sheet is taken already.
type filled struct {
	boxes []box
	index plane.Index
}

func newFilled() *filled {
	t := &filled{}
	t.index.Reset(10) // mm
	return t
}

func (t *filled) add(b box) {
	t.boxes = append(t.boxes, b)
	t.index.Add(within(b))
}

// forget takes back all but the first n.
func (t *filled) forget(n int) {
	t.boxes = t.boxes[:n]
	t.index.Forget(n)
}

func within(b box) plane.Box {
	r := b.Bounds()
	return plane.Box{MinX: r.X0, MinY: r.Y0, MaxX: r.X1, MaxY: r.Y1}
}

// first gives a box that b runs into, if there is one.
func (t *filled) first(b box) (hit box, ok bool) {
	t.index.Visit(within(b), func(k int32) bool {
		if t.boxes[k].Hits(b) {
			hit, ok = t.boxes[k], true
		}
		return !ok
	})
	return hit, ok
}
