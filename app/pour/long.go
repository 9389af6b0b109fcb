package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plane"
)

// What one day of one crew holds: our own limits.
const (
	longest = 10 * 60.0 // minutes from the first truck to the last one empty
	dark    = 20 * 60.0 // o'clock, after which it is night in most of the year
	early   = 5 * 60.0  // o'clock, before which no plant opens
)

// largerTruck tells where trucks a little larger, by a tenth at most, bring the order in
// fewer loads: common practice, no source.
func largerTruck(o takeoff.Order, loads []decimal.Decimal, unit string) []rule.Finding {
	fewer := int64(len(loads) - 1)
	if fewer < 1 || !o.Step.IsPositive() {
		return nil
	}
	steps := decimal.Sum(decimal.Zero, loads...).Div(o.Step).Ceil()
	asked := o.Step.Mul(steps.Div(decimal.NewFromInt(fewer)).Ceil())
	if asked.GreaterThan(o.Truck.Mul(decimal.NewFromFloat(1.1))) {
		return nil
	}
	return []rule.Finding{planning(found("Larger truck", practice, rule.Note,
		"The order comes in %d loads; trucks that carry %s %s instead of %s bring it in %d: ask the plant.", len(loads), asked, unit, o.Truck, fewer))}
}

// longFindings tells of a pour that is more than a day's, or that ends in the night, with
// a way out.
func (d *Day) longFindings(in Input) []rule.Finding {
	first, last := d.Loads[0].Visit, d.Loads[len(d.Loads)-1].Visit
	took, end := last.Ends-first.Starts, Clock(math.Round(last.Ends))
	switch ahead := math.Ceil((last.Ends-dark)/roundTo) * roundTo; {
	case took > longest:
		text, at := d.parted(in, int(math.Ceil(took/longest)))
		return []rule.Finding{placed(found("More than a day", practice, rule.Limit,
			"From the first truck to the last one empty it takes %.1f h; a crew's day is about %.0f. %s; or ask for more hands and trucks.", took/60, longest/60, text), at)}
	case last.Ends <= dark:
		return nil
	case float64(in.Pour.Start)-ahead >= early:
		return []rule.Finding{found("Into the night", practice, rule.Limit,
			"The last truck is empty at %s, and troweling comes after it: start by %s, or ask for more hands.", end, Clock(float64(in.Pour.Start)-ahead))}
	default:
		text, at := d.parted(in, 2)
		return []rule.Finding{placed(found("Into the night", practice, rule.Limit,
			"The last truck is empty at %s, and troweling comes after it. %s; or ask for more hands and trucks.", end, text), at)}
	}
}

// parting is where one day may end and the next begin.
type parting struct {
	before func() float64 // m³ placed until then, found when it is first asked for
	text   string
	at     []geometry.Point // of the saw cut; none between slabs
}

// closest gives the parting whose volume is nearest to the one wanted, of several in the
// order they are placed.
func closest(ps []parting, want float64) (parting, float64) {
	k := sort.Search(len(ps)-1, func(i int) bool { return ps[i].before() >= want })
	best, at := ps[k], ps[k].before()
	if k > 0 {
		if v := ps[k-1].before(); math.Abs(v-want) < math.Abs(at-want) {
			best, at = ps[k-1], v
		}
	}
	return best, at
}

// parted says how to part the pour into days that place as nearly the same as saw cuts
// and slabs allow, and where.
func (d *Day) parted(in Input, days int) (string, []geometry.Point) {
	ps, total := partings(in.Slabs), in.volume()
	var at []geometry.Point
	var texts, amounts []string
	before := 0.0
	add := func(until float64) {
		amounts = append(amounts, fmt.Sprintf("%.1f %s", d.Need*(until-before)/total, d.Unit))
		before = until
	}
	for k := 1; k < days && len(ps) > 0; k++ {
		if p, until := closest(ps, total*float64(k)/float64(days)); until > before {
			texts, at = append(texts, p.text), append(at, p.at...)
			add(until)
		}
	}
	if len(texts) == 0 {
		return fmt.Sprintf("Part it into %d days by joints planned with the engineer", days), nil
	}
	add(total)
	return fmt.Sprintf("Part it into %d days %s: with waste %s; formed there, with dowels as the engineer says",
		len(texts)+1, strings.Join(texts, ", "), strings.Join(amounts, ", ")), at
}

// partings lists where a pour may be parted, in the order of the slabs: along saw cuts
// that go right through one, and between two.
func partings(slabs []Slab) []parting {
	var out []parting
	sum := 0.0
	for i, s := range slabs {
		before := sum
		if i > 0 {
			out = append(out, parting{before: func() float64 { return before }, text: "after " + slabs[i-1].Name})
		}
		for _, p := range s.through() {
			within := p.before
			p.before = sync.OnceValue(func() float64 { return before + within() })
			out = append(out, p)
		}
		sum += s.volume()
	}
	return out
}

// alike is how far two saw cuts may lie beside each other and be one line.
const alike = geometry.Inch / 8

// through lists the lines of saw cuts that go through the whole slab, all the same way:
// the way that has most of them.
func (s Slab) through() []parting {
	g := s.region()
	sides := plane.NewSides(g)
	most := []parting(nil)
	var ways []float64
	for _, along := range s.Cuts {
		d := along.B.Sub(along.A)
		way := math.Mod(math.Atan2(float64(d.Y), float64(d.X))+math.Pi, math.Pi)
		if along.A == along.B || slices.ContainsFunc(ways, func(w float64) bool { return math.Abs(w-way) < 1e-3 || math.Abs(w-way) > math.Pi-1e-3 }) {
			continue
		}
		ways = append(ways, way)
		f := plane.FrameAlong(along.A, along.B)
		type line struct {
			y, sawn float64
			marks   []string
			at      []geometry.Point
		}
		var lines []line
		for _, c := range s.Cuts {
			a, b := f.In(c.A), f.In(c.B)
			if math.Abs(a.Y-b.Y) > alike.Meters() {
				continue
			}
			k := slices.IndexFunc(lines, func(l line) bool { return math.Abs(l.y-a.Y) < alike.Meters() })
			if k < 0 {
				lines, k = append(lines, line{y: a.Y}), len(lines)
			}
			l := &lines[k]
			l.sawn += math.Abs(a.X - b.X)
			l.marks, l.at = append(l.marks, c.Mark.String()), append(l.at, geometry.Point{X: (c.A.X + c.B.X) / 2, Y: (c.A.Y + c.B.Y) / 2})
		}
		slices.SortFunc(lines, func(a, b line) int { return cmp.Compare(a.y, b.y) })
		box := f.Bounds(g)
		var ps []parting
		for _, l := range lines {
			from, to := f.Out(plane.Vec{X: box.MinX - 1, Y: l.y}), f.Out(plane.Vec{X: box.MaxX + 1, Y: l.y})
			chord := 0.0
			for _, in := range sides.Stretches(from, to, plane.Through, nil) {
				chord += (in.To - in.From).Meters()
			}
			if l.sawn < chord-geometry.Foot.Meters() { // it ends somewhere within
				continue
			}
			ps = append(ps, parting{func() float64 { return s.leftOf(to, from) }, "along " + strings.Join(l.marks, ", "), l.at})
		}
		if len(ps) > len(most) {
			most = ps
		}
	}
	return most
}
