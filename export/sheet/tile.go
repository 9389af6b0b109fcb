package sheet

import (
	"fmt"
	"math"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
)

// mostTiles is how many sheets one plan is split over at most, before a smaller
// scale is taken.
const mostTiles = 12

// tile is one sheet's share of a split plan.
type tile struct {
	lo, hi    geometry.Point // of the plan
	clip      [4]bool        // left, bottom, right, top: cut by a match line
	neighbors [4]int         // the tiles beyond them
}

// seams gives the places of slabs that a match line keeps off: corners, jambs, pads.
func seams(of []takeoff.Slab) (out geometry.Ring) {
	for _, s := range of {
		for _, l := range s.Plan.Loops() {
			out = append(out, l.Rim()...)
			for i, e := range l {
				a, b := l.Ends(i)
				for _, d := range e.Doors {
					out = append(out, geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width))
				}
			}
		}
		for _, p := range s.Plan.Pads {
			r := planview.PadRing(p)
			out = append(append(out, p.Center), r[:]...)
		}
	}
	return out
}

// split parts the plan lo-hi over tiles that fit a at the largest of the scales
// that needs few enough. Its match lines keep off some places and stand at whole inches
// or centimeters from a datum.
func split(a arrangement, u geometry.Units, lo, hi, datum geometry.Point, off geometry.Ring) (arrangement, []tile) {
	inner := a.plan.Inset(reserve)
	parts := func(s Scale) (nx, ny int) {
		nx = int(math.Ceil(s.paperOf(hi.X-lo.X)/inner.Width() - 1e-9))
		ny = int(math.Ceil(s.paperOf(hi.Y-lo.Y)/inner.Height() - 1e-9))
		return nx, ny
	}
	all := scales(splitScales(u), a.grown)
	for i, s := range all {
		nx, ny := parts(s)
		if nx*ny > mostTiles {
			continue
		}
		if i == 0 { // a little smaller where that saves half of the sheets
			if mx, my := parts(all[1]); 2*mx*my <= nx*ny && all[1].Ratio < 1.5*s.Ratio {
				s, nx, ny = all[1], mx, my
			}
		}
		a.scale = s
		var xs, ys []geometry.Length
		for _, c := range off {
			xs, ys = append(xs, c.X), append(ys, c.Y)
		}
		step := geometry.Inch
		if u == geometry.Millimeters {
			step = 10 * geometry.Millimeter
		}
		tidy := func(datum geometry.Length) func(geometry.Length) geometry.Length {
			return func(c geometry.Length) geometry.Length { return datum + (c-datum)/step*step }
		}
		cx := cuts(lo.X, hi.X, max(nx, 1), xs, tidy(datum.X))
		cy := cuts(lo.Y, hi.Y, max(ny, 1), ys, tidy(datum.Y))
		return a.columned(cx), tilesOf(cx, cy)
	}
	panic("sheet: a plan beyond the largest length") // siteScales reach past it
}

// columned gives the arrangement with as many columns of lists as there is room for at the
// right of the widest part of a plan that is split there.
func (a arrangement) columned(cx []geometry.Length) arrangement {
	wide := 0.0
	for i := range cx[1:] {
		wide = max(wide, a.scale.paperOf(cx[i+1]-cx[i]))
	}
	foot := a.columns[0]
	room := a.columns[len(a.columns)-1].X1 - a.plan.X0 - wide - 2*reserve
	n := int(room / (longWidth + columnGap))
	if n < 2 {
		return a
	}
	w := min(wideColWidth, room/float64(n)-columnGap)
	a.columns = columnsOf(rect{X0: foot.X1 - float64(n)*w - float64(n-1)*columnGap, Y0: foot.Y0, X1: foot.X1, Y1: foot.Y1}, n)
	a.plan.X1 = a.columns[0].X0 - columnGap
	return a
}

// cuts parts from-to into n, each cut moved off what it is to keep off by up to 1/20
// of its share, and to a tidy place.
func cuts(from, to geometry.Length, n int, off []geometry.Length, tidy func(geometry.Length) geometry.Length) []geometry.Length {
	out := []geometry.Length{from}
	share := (to - from) / geometry.Length(n)
	for i := 1; i < n; i++ {
		at := from + geometry.Length(i)*share
		best, room := at, geometry.Length(-1)
		for k := range geometry.Length(21) {
			c := tidy(at + (k-10)*share/200)
			near := geometry.MaxLength
			for _, x := range off {
				near = min(near, (x - c).Abs())
			}
			if near > room {
				best, room = c, near
			}
		}
		out = append(out, best)
	}
	return append(out, to)
}

func tilesOf(cx, cy []geometry.Length) []tile {
	nx, ny := len(cx)-1, len(cy)-1
	var out []tile
	// In reading order, from the top left.
	at := func(i, k int) int { return (ny-1-k)*nx + i }
	for k := ny - 1; k >= 0; k-- {
		for i := range nx {
			out = append(out, tile{
				lo:        geometry.Point{X: cx[i], Y: cy[k]},
				hi:        geometry.Point{X: cx[i+1], Y: cy[k+1]},
				clip:      [4]bool{i > 0, k > 0, i < nx-1, k < ny-1},
				neighbors: [4]int{at(i-1, k), at(i, k-1), at(i+1, k), at(i, k+1)},
			})
		}
	}
	return out
}

// window gives what is seen of the plan, on paper: out to the match lines.
func (t tile) window(v View) rect {
	w, lo, hi := everywhere, v.at(t.lo), v.at(t.hi)
	if t.clip[0] {
		w.X0 = lo.X
	}
	if t.clip[1] {
		w.Y0 = lo.Y
	}
	if t.clip[2] {
		w.X1 = hi.X
	}
	if t.clip[3] {
		w.Y1 = hi.Y
	}
	return w
}

var penMatch = Pen{Width: 0.6, Color: black, Dash: []float64{8, 2, 2, 2, 2, 2}}

// matchText says of a match line, by the side of a tile it is on, where it is and on
// which sheet the plan goes on.
func (s *set) matchText(of []takeoff.Slab, t tile, side, first int) string {
	from, u := of[0].Plan.Datum(), s.job.Units
	datum := from.At()
	where := []string{"left of", "below", "right of", "above"}
	at := []geometry.Length{t.lo.X - datum.X, t.lo.Y - datum.Y, t.hi.X - datum.X, t.hi.Y - datum.Y}[side]
	word := where[side|2]
	if at < 0 {
		word, at = where[side&1], -at
	}
	corner := from.Name()
	if len(of) > 1 {
		corner += " of " + of[0].Called("slab")
	}
	return fmt.Sprintf("match line %s %s %s: goes on on sheet %d", at.Text(u), word, corner, first+1+t.neighbors[side])
}

// matchLines draws the lines where the plan goes on on another sheet, and says
// on which.
func (d *draft) matchLines(v View, t tile, paper rect, says func(side int) string) {
	a, b := v.at(t.lo), v.at(t.hi)
	w := t.window(v).Meet(paper).Meet(rect{X0: a.X, Y0: a.Y, X1: b.X, Y1: b.Y}.Inset(-15))
	for i, ends := range [4][2]Point{
		{{X: w.X0, Y: w.Y0}, {X: w.X0, Y: w.Y1}}, {{X: w.X0, Y: w.Y0}, {X: w.X1, Y: w.Y0}},
		{{X: w.X1, Y: w.Y0}, {X: w.X1, Y: w.Y1}}, {{X: w.X0, Y: w.Y1}, {X: w.X1, Y: w.Y1}},
	} {
		if !t.clip[i] {
			continue
		}
		d.line(Frame, penMatch, ends[0], ends[1])
		u := drawing.Readable(drawing.Unit(ends[1].Sub(ends[0])))
		inward := []Point{{X: 1, Y: 0}, {X: 0, Y: 1}, {X: -1, Y: 0}, {X: 0, Y: -1}}[i]
		text := Text{Layer: Frame, Turn: angle(u), Size: sizeBody, Bold: true, Color: black,
			Text: d.say.Say(says(i))}
		mid := ends[0].Add(ends[1]).Times(0.5)
		lift := 1.2 + text.low()
		if u.Left().Dot(inward) > 0 {
			lift = -1.2 - capHeight*text.Size*mmPerPoint
		}
		text.At = mid.Toward(u, -text.Width()/2).Toward(u.Left(), lift)
		d.put(text)
	}
}
