package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/mark"
)

// bendShape shows how a bar is bent, with its legs.
type bendShape struct {
	bar   bars.Bar
	count int
	units geometry.Units
}

// bendShapes gives each bend once, for the bars of all slabs.
func (s *set) bendShapes() []block {
	var marks []mark.Mark
	shapes := map[mark.Mark]bendShape{}
	for _, slab := range s.takeoff.Slabs {
		for _, b := range slab.Layout.Bars {
			if len(b.Bends) == 0 || len(b.Path) < 3 {
				continue
			}
			shape, ok := shapes[b.Mark]
			if !ok {
				marks, shape = append(marks, b.Mark), bendShape{bar: b, units: s.job.Units}
			}
			shape.count++
			shapes[b.Mark] = shape
		}
	}
	slices.SortFunc(marks, mark.Compare)
	var out []block
	for _, m := range marks {
		out = append(out, shapes[m])
	}
	return out
}

const bendTall = 26.0

func (b bendShape) height(float64) float64 { return titleSkip + bendTall }

// draw draws the bar not to scale but in shape: legs within bounds of length.
func (b bendShape) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true,
		shorten(fmt.Sprintf("Bend %s: %d × No. %d", b.bar.Mark, b.count, b.bar.Size), width, sizeBody, true))
	r := rect{x, top - titleSkip - bendTall, x + width, top - titleSkip}
	pts := []Point{{0, 0}}
	turn := 0.0
	var longest geometry.Length
	for _, l := range b.legs() {
		longest = max(longest, l)
	}
	for i, l := range b.legs() {
		w := max(7, 22*float64(l)/float64(max(longest, 1)))
		s, c := math.Sincos(turn)
		pts = append(pts, pts[len(pts)-1].add(Point{c * w, s * w}))
		if i < len(b.bar.Bends) {
			turn += b.side(i) * b.bar.Bends[i].Turn * math.Pi / 180
		}
	}
	mid := Point{}
	for _, p := range pts {
		mid = mid.add(p.times(1 / float64(len(pts))))
	}
	lo, hi := pts[0], pts[0]
	for _, p := range pts {
		lo, hi = Point{min(lo.X, p.X), min(lo.Y, p.Y)}, Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	f := min(1, (r.height()-11)/max(1, hi.Y-lo.Y), (width-34)/max(1, hi.X-lo.X))
	move := Point{r.x0 + width/2 - (lo.X+hi.X)/2*f, r.center().Y - (lo.Y+hi.Y)/2*f}
	for i := range pts {
		pts[i] = pts[i].times(f).add(move)
	}
	mid = mid.times(f).add(move)
	d.line(Steel, Pen{Width: 0.8, Color: red}, pts...)
	old := d.area
	d.area = r
	for i, l := range b.legs() {
		p, q := pts[i], pts[i+1]
		// Outside of the shape.
		m, n := p.add(q).times(0.5), q.sub(p).unit().left()
		if m.sub(mid).dot(n) < 0 {
			n = n.times(-1)
		}
		if !d.label(label{layer: Steel, size: sizeBody, color: black, lines: []string{l.Text(b.units)},
			at: m, prefer: n, start: 1.2, limit: 30, near: 6}) {
			d.page.Unplaced = append(d.page.Unplaced, b.bar.Mark.String()+" leg")
		}
	}
	d.area = old
	return r.y0
}

// side gives to which side bend i turns: 1 left, -1 right, as the bar lies; for
// a bend in height, up is left.
func (b bendShape) side(i int) float64 {
	p := b.bar.Path
	if i+2 >= len(p) {
		return 1
	}
	u := Point{(p[i+1].X - p[i].X).Meters(), (p[i+1].Y - p[i].Y).Meters()}
	v := Point{(p[i+2].X - p[i+1].X).Meters(), (p[i+2].Y - p[i+1].Y).Meters()}
	if turn := u.unit().left().dot(v.unit()); math.Abs(turn) > 0.05 {
		return math.Copysign(1, turn)
	}
	d := b.bar.Depths
	if len(d) != len(p) {
		return 1
	}
	rise := func(k int, run Point) float64 { return (d[k] - d[k+1]).Meters() / max(run.length(), 1e-9) }
	return math.Copysign(1, rise(i+1, v)-rise(i, u))
}

// legs gives the bar's legs, over the outside of its bends.
func (b bendShape) legs() []geometry.Length {
	if len(b.bar.Legs) == len(b.bar.Bends)+1 {
		return b.bar.Legs
	}
	var out []geometry.Length
	for i := 1; i < len(b.bar.Path); i++ {
		out = append(out, geometry.Distance(b.bar.Path[i-1], b.bar.Path[i]))
	}
	return out
}
