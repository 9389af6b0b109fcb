package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Room around a slab for its dimension strings, and for the details beside or
// under a plan, in millimeters on paper.
const (
	reserve      = 20.0
	colWidth     = 66.0
	wideColWidth = 80.0 // on large papers
	bandDepth    = 78.0
)

// arrangement is how a page is parted between a plan and its details.
type arrangement struct {
	paper         Paper
	width, height float64
	plan          rect
	columns       []rect
	scale         Scale
	fits          bool
}

// arrange gives the ways to put slabs of size w by h on one page, lying or upright.
func arrange(p Paper, u geometry.Units, w, h geometry.Length) []arrangement {
	var all []arrangement
	for _, lying := range []bool{true, false} {
		a := arrangement{paper: p, width: p.Width, height: p.Height}
		if lying {
			a.width, a.height = p.landscape()
		}
		r := sheetArea(a.width, a.height)
		if lying {
			a.scale, a.fits, a.columns = beside(u, w, h, r)
			a.plan = rect{r.x0, r.y0, a.columns[0].x0 - columnGap, r.y1}
			all = append(all, a)
			continue
		}
		a.plan = rect{r.x0, r.y0 + bandDepth + columnGap, r.x1, r.y1}
		n := int((r.width() + columnGap) / (colWidth - 6 + columnGap))
		a.columns = columnsOf(rect{r.x0, r.y0, r.x1, r.y0 + bandDepth}, n)
		a.scale, a.fits = fit(planScales(u), w, h, a.plan.inset(reserve))
		all = append(all, a)
	}
	return all
}

// readableScale is the smallest scale that a small paper is kept for.
func readableScale(u geometry.Units) float64 {
	if u == geometry.Millimeters {
		return 75
	}
	return 64
}

// clearScale is the smallest scale of a first plan at which nothing is gained by a
// larger one.
func clearScale(u geometry.Units) float64 {
	if u == geometry.Millimeters {
		return 50
	}
	return 48
}

// beside gives the scale of a plan with columns of lists at its right: as large as it
// goes with one, smaller where it is clear and more columns have room.
func beside(u geometry.Units, w, h geometry.Length, r rect) (s Scale, ok bool, columns []rect) {
	wide := colWidth
	if r.width() > 450 {
		wide = wideColWidth
	}
	right := func(n int) []rect {
		var out []rect
		for i := range n {
			x := r.x1 - float64(n-i)*wide - float64(n-1-i)*columnGap
			out = append(out, rect{x, r.y0, x + wide, r.y1})
		}
		return out
	}
	columns = right(1)
	s, ok = fit(planScales(u), w, h, rect{r.x0, r.y0, columns[0].x0 - columnGap, r.y1}.inset(reserve))
	for _, c := range planScales(u) {
		if c.Ratio < s.Ratio || c.Ratio > clearScale(u) {
			continue
		}
		if n := int((r.width() - c.paperOf(w) - 2*reserve) / (wide + columnGap)); ok && n > len(columns) {
			s, columns = c, right(n)
		}
	}
	return s, ok, columns
}

// choose picks the arrangement that is drawn larger; of those that are clear, the one
// with the most room for lists. False when the slab goes on none.
func choose(all []arrangement, u geometry.Units) (arrangement, bool) {
	room := func(a arrangement) (sum float64) {
		for _, c := range a.columns {
			sum += c.width() * c.height()
		}
		return sum
	}
	best, ok := arrangement{scale: Scale{Ratio: math.Inf(1)}}, false
	for _, a := range all {
		clear := max(a.scale.Ratio, best.scale.Ratio) <= clearScale(u)
		if a.fits && (clear && room(a) > room(best) || !clear && a.scale.Ratio < best.scale.Ratio) {
			best, ok = a, true
		}
	}
	return best, ok
}

// papered gives the paper of all sheets: the one that is asked for, else the small
// one if each slab is easily read on it.
func (s *set) papered() Paper {
	if s.options.Paper != (Paper{}) {
		return s.options.Paper
	}
	small := Papers(s.job.Units)
	for _, slab := range s.takeoff.Slabs {
		lo, hi := slab.Plan.Outline.Corners().Bounds()
		if a, ok := choose(arrange(small[0], s.job.Units, hi.X-lo.X, hi.Y-lo.Y), s.job.Units); !ok || a.scale.Ratio > readableScale(s.job.Units) {
			return small[1]
		}
	}
	return small[0]
}

// mostTiles is how many sheets one plan is split over at most, before a smaller
// scale is taken.
const mostTiles = 12

// tile is one sheet's share of a split plan.
type tile struct {
	lo, hi    geometry.Point // of the plan
	clip      [4]bool        // left, bottom, right, top: cut by a match line
	neighbors [4]int         // the tiles beyond them
}

// split parts the plan lo-hi over tiles that fit a at the largest of the scales
// that needs few enough.
func split(a arrangement, u geometry.Units, corners geometry.Ring) (arrangement, []tile) {
	lo, hi := corners.Bounds()
	inner := a.plan.inset(reserve)
	parts := func(s Scale) (nx, ny int) {
		nx = int(math.Ceil(s.paperOf(hi.X-lo.X)/inner.width() - 1e-9))
		ny = int(math.Ceil(s.paperOf(hi.Y-lo.Y)/inner.height() - 1e-9))
		return nx, ny
	}
	all := splitScales(u)
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
		for _, c := range corners {
			xs, ys = append(xs, c.X), append(ys, c.Y)
		}
		// A tile may be a little wider than its share, so that a match line
		// can keep off the corners.
		cx := cuts(lo.X, hi.X, max(nx, 1), xs)
		cy := cuts(lo.Y, hi.Y, max(ny, 1), ys)
		return a, tilesOf(cx, cy)
	}
	panic("sheet: a plan beyond the largest length") // siteScales reach past it
}

// cuts parts from-to into n, each cut moved off the corners by up to 1/20 of its
// share.
func cuts(from, to geometry.Length, n int, corners []geometry.Length) []geometry.Length {
	out := []geometry.Length{from}
	share := (to - from) / geometry.Length(n)
	for i := 1; i < n; i++ {
		at := from + geometry.Length(i)*share
		best, room := at, geometry.Length(-1)
		for k := range geometry.Length(21) {
			c := at + (k-10)*share/200
			near := geometry.MaxLength
			for _, x := range corners {
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

// plan draws the first plan of slabs on one sheet or, where one is too large, on
// several with match lines, and gives what of the lists beside it found no room.
func (s *set) plan(of []takeoff.Slab) []block {
	lo, hi := boundsOf(of)
	all := arrange(s.paper, s.job.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(all, s.job.Units)
	tiles := []tile{{lo: lo, hi: hi}}
	if !ok {
		a, tiles = split(all[0], s.job.Units, of[0].Plan.Outline.Corners())
	}
	name := ""
	if len(of) == 1 {
		name = of[0].Name
	}
	first := len(s.made)
	var sheets []*drawing
	var short []edgeRef
	for i, t := range tiles {
		head := titles{sheet: "Layout", slab: name, scale: a.scale.Name, paper: a.paper.Name}
		if len(tiles) > 1 {
			head.part = i + 1
		}
		d := newDraft(head.name(), a.width, a.height)
		v := viewOf(a.scale, t.lo, t.hi, a.plan)
		d.clip = t.window(v).meet(a.plan)
		d.area = d.clip
		var plans []*drawing
		for _, slab := range of {
			g := s.drawing(d, v, a.plan, slab)
			g.match, g.whole = func() { g.matchLines(t, first) }, len(tiles) == 1
			plans = append(plans, g)
		}
		if len(of) == 1 {
			plans[0].neighbors()
		}
		short = append(short, drawLayout(plans, s.sections, func(n plan.Note) bool {
			return len(of) > 1 || s.noteOf(n, of[0])
		})...)
		d.clip, d.area = everywhere, sheetArea(a.width, a.height)
		s.add(d, head)
		sheets = append(sheets, plans[0])
	}
	left := s.firstBlocks(of, short)
	for _, g := range sheets {
		left = slices.Insert(left, 0, g.unmarked())
	}
	for _, g := range sheets {
		left = g.flow(a.columns, left)
	}
	s.firsts = append(s.firsts, sheets...)
	return left
}

// window gives what is seen of the plan, on paper: out to the match lines.
func (t tile) window(v View) rect {
	w, lo, hi := everywhere, v.at(t.lo), v.at(t.hi)
	if t.clip[0] {
		w.x0 = lo.X
	}
	if t.clip[1] {
		w.y0 = lo.Y
	}
	if t.clip[2] {
		w.x1 = hi.X
	}
	if t.clip[3] {
		w.y1 = hi.Y
	}
	return w
}

var penMatch = Pen{Width: 0.6, Color: black, Dash: []float64{8, 2, 2, 2, 2, 2}}

// matchLines draws the lines where the plan goes on on another sheet, and says
// on which.
func (g *drawing) matchLines(t tile, first int) {
	old := g.clip
	g.clip, g.area = everywhere, g.paper
	a, b := g.view.at(t.lo), g.view.at(t.hi)
	w := old.meet(rect{a.X, a.Y, b.X, b.Y}.inset(-15))
	for i, ends := range [4][2]Point{
		{{w.x0, w.y0}, {w.x0, w.y1}}, {{w.x0, w.y0}, {w.x1, w.y0}},
		{{w.x1, w.y0}, {w.x1, w.y1}}, {{w.x0, w.y1}, {w.x1, w.y1}},
	} {
		if !t.clip[i] {
			continue
		}
		g.line(Frame, penMatch, ends[0], ends[1])
		u := readable(ends[1].sub(ends[0]).unit())
		inward := []Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}[i]
		text := Text{Layer: Frame, Turn: angle(u), Size: sizeBody, Bold: true, Color: black,
			Text: fmt.Sprintf("match line: goes on on sheet %d", first+1+t.neighbors[i])}
		mid := ends[0].add(ends[1]).times(0.5)
		lift := 1.2 + text.low()
		if u.left().dot(inward) > 0 {
			lift = -1.2 - capHeight*text.Size*mmPerPoint
		}
		text.At = mid.toward(u, -text.width()/2).toward(u.left(), lift)
		g.put(text)
	}
	g.clip, g.area = old, old
}
