package sheet

import (
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// figure is a plan of some slabs among other blocks, as large as it is easily read.
type figure struct {
	s     *set
	title string
	of    []takeoff.Slab
	shows shown
	last  *figureDrawn
}

// figureDrawn is a figure as it was drawn last: one is often drawn again elsewhere.
type figureDrawn struct {
	scale, width, height float64
	aside                int // how much had found no room before
	placed               *drawing.Placed
}

// figureRim is the room round the slabs for what stands outside, mm.
const figureRim = 3.4

// figureTall is how tall a figure may be that is no wider than figureNarrow, mm.
const (
	figureTall   = 100.0
	figureNarrow = 95.0
)

// size gives the width and height of the figure's slabs.
func (f figure) size() (w, h geometry.Length) {
	lo, hi := boundsOf(f.of)
	return hi.X - lo.X, hi.Y - lo.Y
}

// scale gives the scale in a width, and whether it is easily read there.
func (f figure) scale(width, tall float64) (Scale, bool) {
	u := f.s.job.Units
	w, h := f.size()
	r := rect{X0: 0, Y0: 0, X1: width - 2*figureRim, Y1: tall - titleSkip - 2*figureRim}
	all := f.s.scales(append(planScales(u), siteScales(u)...))
	got, ok := fit(all, w, h, r)
	if !ok {
		return got, false
	}
	return got, got.Ratio <= figureScale(u)
}

// figureScale is the smallest scale at which a figure is easily read.
func figureScale(u geometry.Units) float64 {
	if u == geometry.Millimeters {
		return 100
	}
	return 96
}

// span implements wider: the fewest columns in which it is easily read, else the
// fewest in which it is as large as it gets.
func (f figure) span(n int, column, tall float64) int {
	best, least := n, 0.0
	for k := columnsFor(60, column); k <= n; k++ {
		width := float64(k)*column + float64(k-1)*columnGap
		s, easy := f.scale(width, f.tall(width, tall))
		if easy {
			return k
		}
		if least == 0 || s.Ratio < least {
			best, least = k, s.Ratio
		}
	}
	return best
}

// tall gives how tall a figure of a width may be.
func (f figure) tall(width, most float64) float64 {
	if width <= figureNarrow {
		return min(figureTall, most)
	}
	return most
}

// chosen gives the scale for a width: of a wide one the smallest that is easily
// read, since what is saved holds tables.
func (f figure) chosen(width float64) Scale {
	w, h := f.s.paper.drawn().landscape()
	area := packedArea(w, h)
	got, easy := f.scale(width, f.tall(width, area.Height()))
	if width > figureNarrow && easy {
		for _, s := range f.s.scales(planScales(f.s.job.Units)) {
			if s.Ratio <= figureScale(f.s.job.Units) {
				got = s
			}
		}
	}
	return got
}

// titleWidth is what the scale at its right leaves of a width.
func (f figure) titleWidth(s Scale, width float64) float64 {
	return width - textWidth(s.Name, sizeFine, false) - 3
}

func (f figure) height(width float64) float64 {
	_, h := f.size()
	s := f.chosen(width)
	return headingTall(f.title, f.titleWidth(s, width)) + s.paperOf(h) + 2*figureRim
}

func (f figure) draw(d *draft, x, top, width float64) float64 {
	s := f.chosen(width)
	below := d.heading(x, top, f.titleWidth(s, width), f.title)
	d.writeRight(x+width, top-capHeight*sizeBody*mmPerPoint-0.3, sizeFine, false, s.Name)
	r := rect{X0: x, Y0: top - f.height(width), X1: x + width, Y1: below}
	lo, hi := boundsOf(f.of)
	now := figureDrawn{scale: s.Ratio, width: r.Width(), height: r.Height(), aside: f.s.aside, placed: f.last.placed}
	if now != *f.last {
		paper := rect{X1: now.width, Y1: now.height}
		now.placed = f.s.place(viewOf(s, lo, hi, paper), drawing.Options{Area: paper, Clip: paper}, f.of, f.shows)
		*f.last = now
	}
	f.s.show(d, now.placed, Point{X: r.X0, Y: r.Y0})
	d.sees(viewOf(s, lo, hi, r))
	return r.Y0
}

// figures gives one plan of the slabs that want one, where they are easily read
// together, else one of each.
func (s *set) figures(title string, wants func(takeoff.Slab) bool, shows shown) []block {
	var in []takeoff.Slab
	for _, slab := range s.takeoff.Slabs {
		if wants(slab) {
			in = append(in, slab)
		}
	}
	if len(in) == 0 {
		return nil
	}
	together := figure{s, title, in, shows, &figureDrawn{}}
	w, h := s.paper.drawn().landscape()
	area := packedArea(w, h)
	if _, easy := together.scale(area.Width(), area.Height()); easy || len(in) == 1 {
		return []block{together}
	}
	var out []block
	for _, slab := range in {
		out = append(out, figure{s, slab.Called(title), []takeoff.Slab{slab}, shows, &figureDrawn{}})
	}
	return out
}
