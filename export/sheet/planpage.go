package sheet

import (
	"math"
	"reflect"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// Room around a slab for its dimension strings, and for the details beside or
// under a plan, in millimeters on paper.
const (
	reserve      = 18.0
	colWidth     = 66.0
	wideColWidth = 80.0 // on large papers
	tableWidth   = 49.0 // where that makes one more: the tables of bolts go in
	longWidth    = 54.0 // the same of walls longer than longWall
	bandDepth    = 78.0
)

const longWall = 100 * geometry.Foot

// arrangement is how a page is parted between a plan and its details.
type arrangement struct {
	paper         Paper   // as drawn
	grown         float64 // and how many times as large it is printed
	width, height float64
	plan          rect
	columns       []rect
	scale         Scale
	fits          bool
}

// arrange gives the ways to put slabs of size w by h on one page, lying or upright.
func arrange(p Paper, u geometry.Units, w, h geometry.Length) []arrangement {
	return arrangeAt(p, u, w, h, clearScale(u))
}

// arrangeAt is arrange where a scale is taken for clear that usually is not.
func arrangeAt(p Paper, u geometry.Units, w, h geometry.Length, clear float64) []arrangement {
	plans, grown := scales(planScales(u), p.grown()), p.grown()
	p = p.drawn()
	var all []arrangement
	for _, lying := range []bool{true, false} {
		a := arrangement{paper: p, grown: grown, width: p.Width, height: p.Height}
		if lying {
			a.width, a.height = p.landscape()
		}
		r := sheetArea(a.width, a.height)
		if lying {
			a.scale, a.fits, a.columns = beside(plans, w, h, r, clear)
			a.plan = rect{X0: r.X0, Y0: r.Y0, X1: a.columns[0].X0 - columnGap, Y1: r.Y1}
			all = append(all, a)
			continue
		}
		a.plan = rect{X0: r.X0, Y0: r.Y0 + bandDepth + columnGap, X1: r.X1, Y1: r.Y1}
		n := int((r.Width() + columnGap) / (colWidth - 6 + columnGap))
		a.columns = columnsOf(rect{X0: r.X0, Y0: r.Y0, X1: r.X1, Y1: r.Y0 + bandDepth}, n)
		a.scale, a.fits = fit(plans, w, h, a.plan.Inset(reserve))
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
func beside(plans []Scale, w, h geometry.Length, r rect, clear float64) (s Scale, ok bool, columns []rect) {
	wide := colWidth
	if r.Width() > 450 {
		wide = wideColWidth
	}
	right := func(n int, wide float64) []rect {
		var out []rect
		for i := range n {
			x := r.X1 - float64(n-i)*wide - float64(n-1-i)*columnGap
			out = append(out, rect{X0: x, Y0: r.Y0, X1: x + wide, Y1: r.Y1})
		}
		return out
	}
	columns = right(1, wide)
	s, ok = fit(plans, w, h, rect{X0: r.X0, Y0: r.Y0, X1: columns[0].X0 - columnGap, Y1: r.Y1}.Inset(reserve))
	narrowest := tableWidth
	if max(w, h) > longWall {
		narrowest = longWidth
	}
	for _, c := range plans {
		if c.Ratio < s.Ratio || c.Ratio > max(s.Ratio, clear) {
			continue
		}
		for _, wide := range []float64{sectionWidth + 1, wide, narrowest} {
			n := int((r.Width() - c.paperOf(w) - 2*reserve) / (wide + columnGap))
			if ok && float64(n)*wide > float64(len(columns))*columns[0].Width() && (wide > narrowest || len(columns) == 1) {
				s, columns = c, right(n, wide)
			}
		}
	}
	return s, ok, columns
}

// choose picks the arrangement that is drawn larger; of those that are clear, the one
// with the most room for lists. False when the slab goes on none.
func choose(all []arrangement, u geometry.Units) (arrangement, bool) {
	return chooseAt(all, clearScale(u))
}

// chooseAt is choose where a scale is taken for clear that usually is not.
func chooseAt(all []arrangement, enough float64) (arrangement, bool) {
	room := func(a arrangement) (sum float64) {
		for _, c := range a.columns {
			sum += c.Width() * c.Height()
		}
		return sum
	}
	best, ok := arrangement{scale: Scale{Ratio: math.Inf(1)}}, false
	for _, a := range all {
		clear := max(a.scale.Ratio, best.scale.Ratio) <= enough
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
		lo, hi := slab.Plan.Outline.Rim().Bounds()
		if a, ok := choose(arrange(small[0], s.job.Units, hi.X-lo.X, hi.Y-lo.Y), s.job.Units); !ok || a.scale.Ratio > readableScale(s.job.Units) {
			return small[1]
		}
	}
	return small[0]
}

// plan draws the first plan of slabs on one sheet or, where one is too large, on
// several with match lines, and gives what of the lists beside it found no room. A plan
// is drawn smaller where all that is needed beside it finds room only then.
func (s *set) plan(of []takeoff.Slab) []block {
	made, firsts, aside := s.made[:len(s.made):len(s.made)], s.firsts[:len(s.firsts):len(s.firsts)], s.aside
	large, small := s.partedAt(of, clearScale(s.job.Units)), s.partedAt(of, readableScale(s.job.Units))
	alike := reflect.DeepEqual(large, small) // before its columns are filled
	left, lacks := s.planAs(of, large)
	// No scale frees more than the sheets have; twice that, for tables set smaller.
	frees := 2 * float64(len(s.made)-len(made)) * s.paper.drawn().Width * s.paper.drawn().Height
	if lacks == 0 || lacks > frees || alike {
		return left
	}
	larger, largerFirsts, counted := s.made, s.firsts, s.aside
	s.made, s.firsts, s.aside = made, firsts, aside
	if left, lacks := s.planAs(of, small); lacks == 0 {
		return left
	}
	s.made, s.firsts, s.aside = larger, largerFirsts, counted
	return left
}

// parted is how a plan is set on sheets, one for each of its tiles.
type parted struct {
	arrangement
	tiles []tile
}

// partedAt parts a plan over sheets at a scale that is taken for clear.
func (s *set) partedAt(of []takeoff.Slab, clear float64) parted {
	lo, hi := boundsOf(of)
	all := arrangeAt(s.paper, s.job.Units, hi.X-lo.X, hi.Y-lo.Y, clear)
	if a, ok := chooseAt(all, clear); ok {
		return parted{a, []tile{{lo: lo, hi: hi}}}
	}
	a, tiles := split(all[0], s.job.Units, lo, hi, of[0].Plan.Datum().At(), seams(of))
	return parted{a, tiles}
}

// planAs is plan as it is parted over sheets, and gives how much of what is needed beside
// the plan finds no room there, in mm².
func (s *set) planAs(of []takeoff.Slab, a parted) (left []block, lacks float64) {
	tiles := a.tiles
	name := ""
	if len(of) == 1 {
		name = of[0].Name
	}
	first := s.before + len(s.made)
	shows := shown{draw: layoutLayers, names: layoutLayers, beside: true, kept: map[string]*drawing.Drawing{}, notes: func(n plan.Note) bool {
		return len(of) > 1 || s.noteOf(n, of[0])
	}}
	var sheets []plot
	var rows []drawing.Row
	for i, t := range tiles {
		head := titles{sheet: s.say.Word("Layout"), say: s.say, topics: []string{"Layout"}, slab: name, scale: a.scale.Name, paper: a.paper.Name}
		if len(tiles) > 1 {
			head.part = i + 1
		}
		d := newDraft(head.name(), a.width, a.height)
		d.say = s.say
		v := viewOf(a.scale, t.lo, t.hi, a.plan)
		if len(tiles) == 1 {
			v = v.raised(t.lo, t.hi, a.plan)
		} else { // off the scale bar, over which it reaches
			v.Origin.Y += max(0, a.plan.Y1-v.at(t.hi).Y-reserve)
		}
		clip := t.window(v).Meet(a.plan)
		d.area = clip.Inset(0.8)
		s.furniture(d, v, a.plan)
		p := s.plot(d, v, a.plan, clip, of, shows)
		d.area = sheetArea(a.width, a.height)
		d.matchLines(v, t, a.plan, func(i int) string { return s.matchText(of, t, i, first) })
		s.add(d, head)
		sheets = append(sheets, p)
		rows = append(rows, d.rows...)
	}
	left, lacks = s.besidePlan(sheets, a.columns, of, s.unmarked(rows))
	for i, p := range sheets {
		if len(tiles) > 1 {
			left = slices.Insert(left, 0, block(keyBlock{s.say.Word("Key plan: sheets of its parts"), of, i, tiles, first + 1}))
		}
		left = p.flow(a.columns, left)
	}
	s.firsts = append(s.firsts, sheets...)
	return left, lacks
}

// easily tells whether no large table of needed blocks is squeezed in a width.
func easily(needed []block, width float64) bool {
	return !slices.ContainsFunc(needed, func(b block) bool { t, ok := b.(tableBlock); return ok && t.size > sizeSmall && !easy(t, width) })
}

// setSmall sets large tables smaller, all of them, so that they look alike.
func setSmall(needed []block) []block {
	out := slices.Clone(needed)
	for i, b := range out {
		if t, ok := b.(tableBlock); ok && t.size > sizeSmall {
			t.size = sizeSmall
			out[i] = t
		}
	}
	return out
}

// besidePlan gives what is to stand beside plans, first what is needed there. Where a
// column is too narrow for the first section, that is drawn where the plan leaves room,
// or across the feet of the columns if all that is needed goes over it; else the
// sections are told in words. It gives how much of what is needed finds no room, in mm².
func (s *set) besidePlan(on []plot, columns []rect, of []takeoff.Slab, unmarked block) (all []block, lacks float64) {
	wide := columns[0].Width()
	var cautions []block
	if len(on) == 1 { // else they are among what is needed
		cautions = s.said([]block{s.cautions(of)})
	}
	over := func(columns []rect, needed []block) (area float64) { // with the cautions; what goes in none stands beside the plan anyway
		var left []block
		for i, g := range on {
			trial := newDraft("", g.page.Width, g.page.Height)
			trial.say = g.say
			if i == 0 {
				left = slices.Concat(needed, cautions)
			}
			left = blocksOf(trial.fillUp(fittings(trial.flow(columns, left))))
		}
		for _, b := range left {
			if easy(b, wide) {
				area += max(1, b.height(wide)*wide)
			}
		}
		return area
	}
	holds := func(columns []rect, needed []block) bool { return over(columns, needed) == 0 }
	blocks := func(inWords bool) (needed, more []block) {
		needed, more = s.firstBlocks(on, of, inWords)
		needed = slices.Insert(s.said(needed), 0, unmarked)
		if !easily(needed, wide) || inWords && !holds(columns, needed) {
			needed = setSmall(needed)
		}
		return needed, s.said(more)
	}
	needed, more := blocks(false)
	section := func(b block) bool { d, ok := b.(detailBlock); return ok && d.least == sectionWidth }
	i := slices.IndexFunc(more, section)
	if i < 0 || easy(more[i], wide) {
		if i >= 0 && len(on) == 1 && !holds(columns, slices.Concat(needed, more[i:i+1])) { // the sections stand on another sheet
			needed, more = blocks(true)
		}
		return slices.Concat(needed, more), over(columns, needed)
	}
	if len(on) == 1 {
		g, foot, above := on[0], columns[0], slices.Clone(columns)
		if g.hasSpare(more[i]) {
			return slices.Concat(more[i:i+1], needed, more[:i], more[i+1:]), over(columns, needed)
		}
		foot.X1 = min(columns[len(columns)-1].X1, foot.X0+sectionWidth+sectionShort)
		foot.Y1 = foot.Y0 + more[i].height(foot.Width())
		for k := range above {
			if above[k].X0 < foot.X1 {
				above[k].Y0 = foot.Y1 + blockGap
			}
		}
		if easy(more[i], foot.Width()) && holds(above, needed) {
			more[i].draw(g.draft, foot.X0, foot.Y1, foot.Width())
			for _, c := range columns { // what is left beside it
				if c.X0 < foot.X1 && c.X1-foot.X1-columnGap > 0.6*wide {
					g.rooms = append(g.rooms, rect{X0: foot.X1 + columnGap, Y0: foot.Y0, X1: c.X1, Y1: foot.Y1})
				}
			}
			copy(columns, above)
			return slices.Concat(needed, slices.Delete(slices.Clone(more), i, i+1)), 0
		}
	}
	needed, more = blocks(true)
	return slices.Concat(needed, more), over(columns, needed)
}

// furniture draws the scale bar and the north mark in the lower corners: the bar ends before the
// mark, and before what is written at it.
func (s *set) furniture(d *draft, v View, r rect) {
	bar, north := Point{X: r.X0 + 1, Y: r.Y0 + 1}, Point{X: r.X1 - 10, Y: r.Y0 + 9}
	beside := max(12, textWidth(d.say.Word(markNorth), sizeFine, false)) / 2
	d.scaleBar(v, s.job.Units, bar, north.X-beside-bar.X)
	d.north(s.job.Survey.North, north)
}
