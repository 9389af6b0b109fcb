package sawcuts

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"haunchbook.example/geometry/layout/slab"
)

// sawPlan is the saw cuts of a slab: lines across X and across Y.
type sawPlan struct {
	f      [2]slab.Frame // the slab turned so that lines across X and across Y are level in it
	limit  float64
	goals  [2][]cutLine    // where a cut would meet a door jamb or a corner of a small hole
	pads   [2][][2]float64 // where no cut should lie: pads, walls within the slab
	joints [2][]float64    // construction joints, which stand for cuts
	points [2][]float64    // middles of columns that are isolated
	known  map[band][][2]float64
	fixed  bool // no cuts are added to make panels squarer

	cols []extent // room for the extents of columns
}

// band is a level strip of one of the frames.
type band struct {
	frame  int
	y0, y1 float64
}

// spans gives what frame.spans gives, and remembers it: the many plans that are
// compared share most of their bands.
func (p *sawPlan) spans(frame int, y0, y1 float64) [][2]float64 {
	key := band{frame, y0, y1}
	s, ok := p.known[key]
	if !ok {
		s = p.f[frame].Spans(y0, y1)
		p.known[key] = s
	}
	return s
}

// maxPanels is up to how many panels cuts are laid, and maxCuts up to how many
// cuts one way. Up to tunedPanels, in all plans that are compared, cuts are added
// to make panels squarer.
const (
	maxPanels   = 20_000
	maxCuts     = 2_000
	tunedPanels = 20_000
)

// size gives about how many cuts there are each way.
func (p *sawPlan) size() (nx, ny float64) {
	return (p.f[0].Hi.Y - p.f[0].Lo.Y) / p.limit, (p.f[1].Hi.Y - p.f[1].Lo.Y) / p.limit
}

// tooMany tells whether there are more cuts than are laid.
func (p *sawPlan) tooMany() bool {
	nx, ny := p.size()
	return nx*ny > maxPanels || max(nx, ny) > maxCuts
}

// maxChoices bounds the inside corners whose two directions are all tried.
const maxChoices = 6

// mostPlans is how many plans are worked out to be compared by their panels.
const mostPlans = 16

// best gives the plans that come into question, most likely ones first: they differ in
// which way the cuts from inside corners run.
func (p *sawPlan) best(corners [][2]float64) [][2][]cutLine {
	corners = p.distinct(corners)
	if len(corners) > maxChoices {
		p.fixed = true
		return [][2][]cutLine{p.fill(p.greedy(corners))}
	}
	nx, ny := p.size()
	p.fixed = nx*ny*float64(int(1)<<len(corners)) > tunedPanels
	type plan struct {
		lines [2][]cutLine
		score float64
	}
	var plans []plan
	for choice := range 1 << len(corners) {
		must := p.must()
		for i, c := range corners {
			d := choice >> i & 1
			must[d] = append(must[d], c[d])
		}
		lines := p.fill(must)
		if !slices.ContainsFunc(plans, func(o plan) bool {
			return slices.Equal(o.lines[0], lines[0]) && slices.Equal(o.lines[1], lines[1])
		}) {
			plans = append(plans, plan{lines, p.score(lines)})
		}
	}
	slices.SortStableFunc(plans, func(a, b plan) int { return cmp.Compare(a.score, b.score) })
	most := mostPlans
	if p.fixed {
		most = 1
	}
	var out [][2][]cutLine
	for _, o := range plans[:min(most, len(plans))] {
		out = append(out, o.lines)
	}
	return out
}

// distinct drops corners that are one within nearLine.
func (p *sawPlan) distinct(corners [][2]float64) [][2]float64 {
	var out [][2]float64
	for _, c := range corners {
		if !slices.ContainsFunc(out, func(o [2]float64) bool {
			return math.Abs(o[0]-c[0]) < nearLine && math.Abs(o[1]-c[1]) < nearLine
		}) {
			out = append(out, c)
		}
	}
	return out
}

// greedy takes the line through most corners, again and again.
func (p *sawPlan) greedy(corners [][2]float64) [2][]float64 {
	must := p.must()
	left := slices.Clone(corners)
	var heights [2][]float64 // of those left, in order
	for len(left) > 0 {
		for d := range heights {
			heights[d] = heights[d][:0]
			for _, c := range left {
				heights[d] = append(heights[d], c[d])
			}
			slices.Sort(heights[d])
		}
		bestD, bestAt, most := 0, 0.0, 0
		for _, c := range left {
			for d := range 2 {
				if n := near(heights[d], c[d]); n > most {
					bestD, bestAt, most = d, c[d], n
				}
			}
		}
		must[bestD] = append(must[bestD], bestAt)
		left = slices.DeleteFunc(left, func(o [2]float64) bool { return math.Abs(o[bestD]-bestAt) < nearLine })
	}
	return must
}

// near counts the heights, in order, that make one line with one of them.
func near(heights []float64, at float64) int {
	first := sort.Search(len(heights), func(i int) bool { return at-heights[i] < nearLine })
	end := sort.Search(len(heights), func(i int) bool { return heights[i]-at >= nearLine })
	return end - first
}

// fill adds cuts until no gap is over the limit, and then where they make
// panels squarer.
func (p *sawPlan) fill(must [2][]float64) [2][]cutLine {
	var stops [2][]float64 // edges of the slab, joints and cuts through inside corners
	var extra [2][]int
	for d := range 2 {
		stops[d] = append([]float64{p.f[d].Lo.Y}, must[d]...)
		slices.Sort(stops[d])
		stops[d] = append(slices.CompactFunc(stops[d], func(a, b float64) bool { return math.Abs(b-a) < nearLine }), p.f[d].Hi.Y)
		extra[d] = make([]int, len(stops[d])-1)
	}
	var best [2][]cutLine
	var tried [][2]bool
	least := math.Inf(1)
	for k := range 4 {
		if p.fixed && k != 0 && k != 3 {
			continue
		}
		toGoals := [2]bool{k&1 != 0 && len(p.goals[0]) > 0, k&2 != 0 && len(p.goals[1]) > 0}
		if slices.Contains(tried, toGoals) {
			continue
		}
		tried = append(tried, toGoals)
		lines, score := p.refine(stops, extra, toGoals)
		if score < least-1e-9 {
			best, least = lines, score
		}
	}
	return best
}

// refine adds cuts one by one while that makes the plan better.
func (p *sawPlan) refine(stops [2][]float64, more [2][]int, goals [2]bool) ([2][]cutLine, float64) {
	extra := [2][]int{slices.Clone(more[0]), slices.Clone(more[1])}
	best := p.place(stops, extra, goals)
	score := p.score(best)
	for range 8 {
		if p.fixed {
			break
		}
		bestD, bestI, bestScore := -1, 0, score
		for d := range 2 {
			for i := range extra[d] {
				gap := stops[d][i+1] - stops[d][i]
				n := math.Max(1, math.Ceil(gap/p.limit-1e-9)) + float64(extra[d][i])
				if gap/(n+1) < leastSide {
					continue
				}
				extra[d][i]++
				lines := p.place(stops, extra, goals)
				if s := p.score(lines); s < bestScore-1e-9 {
					best, bestD, bestI, bestScore = lines, d, i, s
				}
				extra[d][i]--
			}
		}
		if bestD < 0 {
			break
		}
		extra[bestD][bestI]++
		score = bestScore
	}
	return best, score
}

// place gives the cuts for a number of even parts of every gap, moved to goals
// and off pads where the limit allows.
func (p *sawPlan) place(stops [2][]float64, extra [2][]int, goals [2]bool) [2][]cutLine {
	var out [2][]cutLine
	for d := range 2 {
		for i := 1; i < len(stops[d]); i++ {
			from, to := stops[d][i-1], stops[d][i]
			if i > 1 {
				out[d] = append(out[d], cutLine{from, p.whyStop(d, from)})
			}
			n := int(math.Max(1, math.Ceil((to-from)/p.limit-1e-9))) + extra[d][i-1]
			prev := from
			for k := 1; k < n; k++ {
				even := from + (to-from)*float64(k)/float64(n)
				l := p.snap(d, goals[d], even, math.Max(prev, to-p.limit*float64(n-k)), math.Min(prev+p.limit, to), (to-from)/float64(n))
				if l.at-prev >= nearLine { // else moved to the goal that the one before was moved to
					out[d] = append(out[d], l)
					prev = l.at
				}
			}
		}
	}
	return out
}

// snap moves a cut to the nearest goal within a third of a panel, else off the
// middle of a pad or a wall, within lo..hi.
func (p *sawPlan) snap(d int, goals bool, at, lo, hi, panel float64) cutLine {
	at = min(max(at, lo), hi) // the cut before may have moved
	best := cutLine{at, ForSpacing}
	least := panel / 3
	for _, g := range p.goals[d] {
		if !goals {
			break
		}
		gap := math.Abs(g.at - at)
		if g.why == AtOld {
			gap /= oldFirst
		}
		if gap < least && g.at >= lo-1 && g.at <= hi+1 && !p.onPad(d, g.at) {
			best, least = g, gap
		}
	}
	if best.why != ForSpacing || !p.onPad(d, at) {
		return best
	}
	least = panel / 3
	for _, z := range p.pads[d] {
		for _, e := range z {
			if gap := math.Abs(e - at); gap < least && e >= lo && e <= hi && !p.onPad(d, e) {
				best, least = cutLine{e, ForSpacing}, gap
			}
		}
	}
	return best
}

func (p *sawPlan) onPad(d int, at float64) bool {
	return slices.ContainsFunc(p.pads[d], func(z [2]float64) bool { return at > z[0]+1 && at < z[1]-1 })
}

// cell is a field of the grid that cuts make if they run right through, by its extents.
type cell struct{ w, h float64 }

// cells calls visit with the extents of the slab in every cell between cuts,
// row by row. f[0] is f[1] turned by a quarter: a height in it is -X in f[1], and
// its X is a height in f[1].
func (p *sawPlan) cells(lines [2][]cutLine, visit func(cell)) {
	xs := bounds(p.f[0].Lo.Y, p.f[0].Hi.Y, lines[0])
	ys := bounds(p.f[1].Lo.Y, p.f[1].Hi.Y, lines[1])
	rows := len(ys) - 1
	p.cols = slices.Grow(p.cols[:0], (len(xs)-1)*rows)[:(len(xs)-1)*rows]
	for i := 1; i < len(xs); i++ {
		hulls(p.spans(0, xs[i-1], xs[i]), ys, p.cols[(i-1)*rows:i*rows])
	}
	lefts := make([]float64, len(xs)) // the same limits from left to right in f[1]
	for i, x := range xs {
		lefts[len(xs)-1-i] = -x
	}
	row := make([]extent, len(xs)-1)
	for j := range rows {
		hulls(p.spans(1, ys[j], ys[j+1]), lefts, row)
		for i := range row {
			x, y := row[len(row)-1-i], p.cols[i*rows+j]
			if w, h := x.to-x.from, y.to-y.from; w > float64(inch/2) && h > float64(inch/2) {
				visit(cell{w, h})
			}
		}
	}
}

// extent is a stretch of a frame; one that ends before it starts is none.
type extent struct{ from, to float64 }

// hulls gives the extent of what lies between each limit and the next, of spans
// that are in order and do not overlap.
func hulls(spans [][2]float64, limits []float64, out []extent) {
	first := 0
	for i := range out {
		lo, hi := limits[i], limits[i+1]
		for first < len(spans) && spans[first][1] <= lo {
			first++
		}
		if first == len(spans) || spans[first][0] >= hi {
			out[i] = extent{hi, lo}
			continue
		}
		last := first
		for last+1 < len(spans) && spans[last+1][0] < hi {
			last++
		}
		out[i] = extent{max(spans[first][0], lo), min(spans[last][1], hi)}
	}
}

func bounds(lo, hi float64, lines []cutLine) []float64 {
	out := []float64{lo}
	for _, l := range lines {
		out = append(out, l.at)
	}
	return append(out, hi)
}

// The weights by which cutting plans are compared: judgment, no source.
const (
	perLine   = 1.0
	perSlim   = 3.0
	perGoal   = 0.7
	perOld    = 3.0 // a joint of the old slab gone on from, besides
	oldFirst  = 2.0 // how much farther a cut is moved to one than to a jamb
	perPadCut = 2.0
)

// score weighs a plan by its lines and the grid that they make: the lower, the better.
func (p *sawPlan) score(lines [2][]cutLine) float64 {
	score := p.effort(lines)
	p.cells(lines, func(c cell) {
		a := max(c.w/c.h, c.h/c.w)
		if a > 1.5 {
			score += perSlim * min(a-1.5+0.2, 2)
		}
		if a > 3 && min(c.w, c.h) < float64(thinStrip) {
			score += perStrip
		}
	})
	return score
}

// effort weighs the lines of a plan alone.
func (p *sawPlan) effort(lines [2][]cutLine) float64 {
	score := 0.0
	for d, ls := range lines {
		for _, l := range ls {
			score += perLine
			if p.onPad(d, l.at) {
				score += perPadCut
			}
			if slices.ContainsFunc(p.goals[d], func(g cutLine) bool { return math.Abs(g.at-l.at) < nearLine }) {
				score -= perGoal
			}
			if slices.ContainsFunc(p.goals[d], func(g cutLine) bool { return g.why == AtOld && g.at == l.at }) {
				score -= perOld
			}
		}
	}
	return score
}
