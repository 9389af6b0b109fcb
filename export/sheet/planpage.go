package sheet

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Room around a slab for its dimension strings, and for the details beside or
// under a plan, in millimeters on paper.
const (
	reserve   = 20.0
	colWidth  = 66.0
	bandDepth = 78.0
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

// arrange gives the ways to put a slab of size w by h on one page, one per paper
// and way round.
func arrange(papers []Paper, u geometry.Units, w, h geometry.Length) []arrangement {
	var all []arrangement
	for _, p := range papers {
		for _, lying := range []bool{true, false} {
			a := arrangement{paper: p, width: p.Width, height: p.Height}
			if lying {
				a.width, a.height = p.landscape()
			}
			r := sheetArea(a.width, a.height)
			if lying {
				a.plan = rect{r.x0, r.y0, r.x1 - colWidth - columnGap, r.y1}
				a.columns = []rect{{r.x1 - colWidth, r.y0, r.x1, r.y1}}
			} else {
				a.plan = rect{r.x0, r.y0 + bandDepth + columnGap, r.x1, r.y1}
				n := int((r.width() + columnGap) / (colWidth - 6 + columnGap))
				a.columns = columnsOf(rect{r.x0, r.y0, r.x1, r.y0 + bandDepth}, n)
			}
			a.scale, a.fits = fit(planScales(u), w, h, a.plan.inset(reserve))
			all = append(all, a)
		}
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

// choose picks the arrangement to draw: the small paper if its scale is still
// easy to read, else whichever is drawn larger. False when the slab goes on none.
func choose(all []arrangement, u geometry.Units) (arrangement, bool) {
	best, ok := arrangement{scale: Scale{Ratio: math.Inf(1)}}, false
	for _, a := range all {
		if !a.fits {
			continue
		}
		if ok && a.paper.Width > best.paper.Width && best.scale.Ratio <= readableScale(u) {
			continue
		}
		if a.scale.Ratio < best.scale.Ratio {
			best, ok = a, true
		}
	}
	return best, ok
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
	scales := planScales(u)
	for _, s := range append(scales[len(scales)-1:], siteScales(u)...) {
		nx := int(math.Ceil(s.paperOf(hi.X-lo.X)/inner.width() - 1e-9))
		ny := int(math.Ceil(s.paperOf(hi.Y-lo.Y)/inner.height() - 1e-9))
		if nx*ny > mostTiles {
			continue
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

// work is the plan sheets of one step of the work, over all slabs.
type work struct {
	title   string
	needed  func() bool    // tells whether the slab in turn wants a plan; nil for always
	draw    func(*drawing) // draws the plan, the same on each sheet of a split one
	details func() []block // of the slab in turn
	pooled  func() []block // of the slabs together; nil for none
}

// plans makes the plan sheets of a step for each slab, and then the lists that
// found no room beside the plans.
func (s *set) plans(w work) {
	var in []takeoff.Slab
	for _, s.slab = range s.takeoff.Slabs {
		if w.needed == nil || w.needed() {
			in = append(in, s.slab)
		}
	}
	var left []block
	for k, slab := range in {
		s.slab = slab
		left = append(left, s.plan(w.title, w.draw, func() []block {
			out := append([]block{s.keyBlock()}, w.details()...)
			if k == len(in)-1 && w.pooled != nil {
				out = append(out, w.pooled()...)
			}
			return out
		})...)
	}
	s.columns(w.title+" lists", left, "", 3)
	s.slab = s.takeoff.Slabs[0]
}

// plan draws a plan view of the slab in turn on one sheet or, where it is too
// large, on several with match lines, and gives the details that found no room.
func (s *set) plan(title string, draw func(*drawing), details func() []block) []block {
	corners := s.slab.Plan.Outline.Corners()
	lo, hi := corners.Bounds()
	all := arrange(s.papers(), s.job.Units, hi.X-lo.X, hi.Y-lo.Y)
	a, ok := choose(all, s.job.Units)
	tiles := []tile{{lo: lo, hi: hi}}
	if !ok {
		a, tiles = split(all[len(all)-2], s.job.Units, corners)
	}
	first := len(s.made)
	var sheets []*drawing
	for i, t := range tiles {
		head := titles{sheet: title, slab: s.slab.Name, scale: a.scale.Name, paper: a.paper.Name}
		if len(tiles) > 1 {
			head.part = i + 1
		}
		d := newDraft(head.name(), a.width, a.height)
		v := viewOf(a.scale, t.lo, t.hi, a.plan)
		d.clip = t.window(v).meet(a.plan)
		d.area = d.clip
		g := s.drawing(d, v, a.plan, s.slab)
		g.match, g.whole = func() { g.matchLines(t, first) }, len(tiles) == 1
		draw(g)
		d.clip, d.area = everywhere, sheetArea(a.width, a.height)
		s.add(d, head)
		sheets = append(sheets, g)
	}
	left := details()
	for _, g := range sheets {
		left = append(left, g.unmarked())
	}
	for _, g := range sheets {
		left = g.flow(a.columns, left)
	}
	for _, g := range sheets {
		left = g.spare(left, a.columns[0].width())
	}
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
		for _, off := range [...]float64{1.2, 1.8} { // clear of marks that stand on the line
			lift := off + text.low()
			if u.left().dot(inward) > 0 {
				lift = -off - capHeight*text.Size*mmPerPoint
			}
			text.At = mid.toward(u, -text.width()/2).toward(u.left(), lift)
			if !slices.ContainsFunc(g.marks, text.box().hits) {
				break
			}
		}
		g.put(text)
	}
	g.clip, g.area = old, old
}

// papers gives the papers to choose from.
func (s *set) papers() []Paper {
	if s.options.Paper != (Paper{}) {
		return []Paper{s.options.Paper}
	}
	return Papers(s.job.Units)
}
