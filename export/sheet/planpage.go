package sheet

import (
	"math"

	"haunchbook/geometry"
)

// Room around a slab for its dimension strings, in millimetres on paper.
const (
	reserve   = 20.0
	colWidth  = 66.0 // of the details beside a plan
	bandDepth = 78.0 // of the details under a plan
)

// arrangement is how a page is parted between the plan and its details.
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
	if u == geometry.Millimetres {
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
