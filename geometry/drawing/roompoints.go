package drawing

import "math"

// points are points on a sheet, evenly spaced, with what is taken there: most places that
// are tried for a label hold one that is, and need not be compared with what is near.
type points struct {
	from   Vec
	pitch  float64
	across int
	by     []int32 // the box that a point is in, counted from 1; 0 where it is free
}

// pointsApart is how far the points of a sheet lie apart, in mm: somewhat less than small
// text is tall.
const pointsApart = 1.5

// mostPoints bounds how many there are on a large sheet.
const mostPoints = 1 << 18

// reset frees all points of a sheet.
func (p *points) reset(all Rect, pitch float64) {
	w, h := max(0, all.Width()), max(0, all.Height())
	pitch = max(pitch, math.Sqrt(w*h/mostPoints))
	p.from, p.pitch, p.across, p.by = Vec{X: all.X0, Y: all.Y0}, pitch, int(w/pitch)+1, p.by[:0]
	n := p.across * (int(h/pitch) + 1)
	if n > 2*mostPoints { // a sliver of a sheet
		p.across, n = 0, 0
	}
	if cap(p.by) < n {
		p.by = make([]int32, n)
	}
	p.by = p.by[:n]
	clear(p.by)
}

// span gives the first and the last column, or row, of the points from a to b.
func (p *points) span(a, b, from float64, n int) (first, last int) {
	return max(0, int(math.Ceil((a-from)/p.pitch))), min(n-1, int(math.Floor((b-from)/p.pitch)))
}

// within calls f with each point of the sheet in a rectangle.
func (p *points) within(r Rect, f func(k int, at Vec)) {
	if p.across == 0 {
		return
	}
	x0, x1 := p.span(r.X0, r.X1, p.from.X, p.across)
	y0, y1 := p.span(r.Y0, r.Y1, p.from.Y, len(p.by)/p.across)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			f(y*p.across+x, Vec{X: p.from.X + float64(x)*p.pitch, Y: p.from.Y + float64(y)*p.pitch})
		}
	}
}

// take marks the points in a box as taken by it, where none took them before. A thin box
// holds few.
func (p *points) take(b *takenBox, number int) {
	if b.H < p.pitch/3 {
		return
	}
	p.within(b.bounds, func(k int, at Vec) {
		if p.by[k] == 0 {
			if v := at.Sub(b.Mid); b.upright || math.Abs(v.Dot(b.Along)) < b.L && math.Abs(v.Dot(b.Along.Left())) < b.H {
				p.by[k] = int32(number + 1)
			}
		}
	})
}

// giveBack frees the points that a box took.
func (p *points) giveBack(b *takenBox, number int) {
	if b.H < p.pitch/3 {
		return
	}
	p.within(b.bounds, func(k int, _ Vec) {
		if p.by[k] == int32(number+1) {
			p.by[k] = 0
		}
	})
}

// in gives what took a point in a rectangle, counted from 1; 0 where all are free.
func (p *points) in(r Rect) int {
	if p.across == 0 {
		return 0
	}
	x0, x1 := p.span(r.X0, r.X1, p.from.X, p.across)
	y0, y1 := p.span(r.Y0, r.Y1, p.from.Y, len(p.by)/p.across)
	for y := y0; y <= y1 && x0 <= x1; y++ {
		for _, by := range p.by[y*p.across+x0 : y*p.across+x1+1] {
			if by != 0 {
				return int(by)
			}
		}
	}
	return 0
}
