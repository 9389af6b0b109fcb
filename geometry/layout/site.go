package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// site is one plan as the rules of layout look at it.
type site struct {
	wallsBefore int    // walls of the slabs before it
	name        string // where the job has several slabs: "Apron"

	plan   plan.Plan
	spec   Spec
	solid  *solid.Solid
	loops  []plan.Loop
	rings  []geometry.Ring
	sides  [][]side // by loop and edge
	region *region
	turned []frame // both frames, once they are asked for

	// What is asked for again and again, of each loop and edge.
	spansOf [][][]plan.Span
	free    [][][]interval // between the doors
	dug     map[dug][]plan.Station

	stretches []interval // room for what lies on a line
	laps      []LaidLap
	findings  []Finding
	shallow   []geometry.Length // depths of edges that are known to be below their board
}

// side is one edge with its directions.
type side struct {
	loop, edge int
	a, b       geometry.Point
	length     geometry.Length
	ux, uy     float64 // unit vector from a to b; the slab is on its left
}

func newSite(p plan.Plan, s Spec, sol *solid.Solid) *site {
	t := &site{plan: p, spec: s, solid: sol, loops: p.Loops(), dug: map[dug][]plan.Station{}}
	for k, l := range t.loops {
		t.rings = append(t.rings, l.Corners())
		sides, spans, free := make([]side, len(l)), make([][]plan.Span, len(l)), make([][]interval, len(l))
		for i := range l {
			a, b := l.Ends(i)
			sides[i] = newSide(k, i, a, b)
			spans[i] = l.Spans(i)
			free[i] = between(l[i].Doors, sides[i].length)
		}
		t.sides, t.spansOf, t.free = append(t.sides, sides), append(t.spansOf, spans), append(t.free, free)
	}
	t.region = newRegion(t.sides)
	return t
}

// between gives the stretches of an edge between its doors.
func between(doors []plan.Door, length geometry.Length) []interval {
	if len(doors) == 0 {
		return []interval{{0, length}}
	}
	doors = slices.Clone(doors)
	slices.SortFunc(doors, func(a, b plan.Door) int { return cmp.Compare(a.From, b.From) })
	var out []interval
	at := geometry.Length(0)
	for _, d := range doors {
		if d.From > at {
			out = append(out, interval{at, d.From})
		}
		at = d.From + d.Width
	}
	if at < length {
		out = append(out, interval{at, length})
	}
	return out
}

func newSide(loop, edge int, a, b geometry.Point) side {
	d := b.Sub(a)
	h := math.Hypot(float64(d.X), float64(d.Y))
	return side{loop, edge, a, b, geometry.Distance(a, b), float64(d.X) / h, float64(d.Y) / h}
}

// at gives the point at a running distance from the start corner and an inset
// from the face, rounded to the nanometer.
func (s side) at(along, inset geometry.Length) geometry.Point {
	return geometry.Point{
		X: s.a.X + round(float64(along)*s.ux-float64(inset)*s.uy),
		Y: s.a.Y + round(float64(along)*s.uy+float64(inset)*s.ux),
	}
}

// project gives the running distance and the inset of a point.
func (s side) project(p geometry.Point) (along, inset geometry.Length) {
	d := p.Sub(s.a)
	x, y := float64(d.X), float64(d.Y)
	return round(x*s.ux + y*s.uy), round(y*s.ux - x*s.uy)
}

func round(f float64) geometry.Length { return geometry.Length(math.Round(f)) }

func (t *site) edge(s side) plan.Edge { return t.loops[s.loop][s.edge] }

// spans gives the stretches of an edge by section.
func (t *site) spans(s side) []plan.Span { return t.spansOf[s.loop][s.edge] }

func (t *site) before(s side) side {
	l := t.sides[s.loop]
	return l[(s.edge+len(l)-1)%len(l)]
}

func (t *site) after(s side) side {
	l := t.sides[s.loop]
	return l[(s.edge+1)%len(l)]
}

// interior gives the angle of the slab, in radians from 0 to 2π, at the corner
// where s follows its predecessor r.
func interior(r, s side) float64 {
	turn := math.Atan2(r.ux*s.uy-r.uy*s.ux, r.ux*s.ux+r.uy*s.uy)
	return math.Pi - turn
}

// straight tells that a corner is none: its edges run on.
func straight(angle float64) bool { return math.Abs(angle-math.Pi) < 1e-4 }

// outside tells that a corner is convex.
func outside(angle float64) bool { return angle < math.Pi-1e-4 }

// name gives an edge as people read it: edges count from 1.
func (s side) name() string {
	if s.loop == 0 {
		return "edge " + strconv.Itoa(s.edge+1)
	}
	return "edge " + strconv.Itoa(s.edge+1) + " of hole " + strconv.Itoa(s.loop)
}

func (t *site) text(l geometry.Length) string { return l.Text(t.spec.Units) }

// step is what marks and cuts are rounded to.
func (t *site) step() geometry.Length {
	if t.spec.Units == geometry.Millimeters {
		return geometry.Millimeter
	}
	return geometry.Sixteenth
}

// cutStep is what a bar is cut to.
func (t *site) cutStep() geometry.Length {
	if t.spec.Units == geometry.Millimeters {
		return 5 * geometry.Millimeter
	}
	return geometry.Inch / 4
}

func (t *site) find(r Rule, severe bool, at geometry.Point, format string, args ...any) {
	t.findings = append(t.findings, Finding{r, severe, at, fmt.Sprintf(format, args...)})
}

// frames gives the slab turned to its longest edge, and across it.
func (t *site) frames() []frame {
	if t.turned == nil {
		fs := frames(t.plan)
		t.turned = fs[:]
	}
	return t.turned
}

// contains tells whether a point lies on the slab, edges included.
func (t *site) contains(p geometry.Point) bool { return t.region.contains(p) }

// interval is a stretch of something measured from its start.
type interval struct{ from, to geometry.Length }

// within gives the stretches of the segment a-b that lie on the slab, in order,
// measured from a. Stretches that touch are one.
func (t *site) within(a, b geometry.Point) []interval { return t.through(a, b, 0) }

// through is within for a line that must have the slab on both its sides, half
// its width away.
func (t *site) through(a, b geometry.Point, half geometry.Length) []interval {
	return t.region.through(a, b, half)
}

// evenly gives the positions that divide from..to into the fewest equal parts
// of at most step, both ends included, each rounded on its own. step is at least
// two grains, or 0 for one part.
func evenly(from, to, step, grain geometry.Length) []geometry.Length {
	n := geometry.Length(1)
	if step > 0 && to > from {
		n = (to - from + step - 1) / step
	}
	if step > grain {
		// Rounding makes a gap wider by a grain at most, so this many parts will do.
		for most := (to-from)/(step-grain) + 1; n < most && !gapsWithin(from, to, n, step, grain); n++ {
		}
	}
	out := make([]geometry.Length, 0, n+1)
	for k := range n + 1 {
		out = append(out, place(from, to, k, n, grain))
	}
	return out
}

// gapsWithin tells whether n even parts are none wider than step.
func gapsWithin(from, to, n, step, grain geometry.Length) bool {
	last := from
	for k := range n {
		at := place(from, to, k+1, n, grain)
		if at-last > step {
			return false
		}
		last = at
	}
	return true
}

// maxPlaced bounds how many things of a kind are placed along the edges of a slab.
const maxPlaced = 50_000

// fits tells whether things a spacing apart along a run are few enough to be
// placed one by one, and reports it if not.
func (t *site) fits(what string, run, spacing geometry.Length) bool {
	if spacing <= 0 || run/spacing <= maxPlaced {
		return true
	}
	t.find(ruleTooMany, true, t.home(), "%s, one for each %s of %s, are more than %d here: none is laid. Space them wider, or draw the slab in parts.",
		what, t.text(spacing), t.text(run), maxPlaced)
	return false
}

// run adds up the edges that are of a kind.
func (t *site) run(of func(plan.Edge) bool) geometry.Length {
	var sum geometry.Length
	for _, l := range t.sides {
		for _, s := range l {
			if of(t.edge(s)) {
				sum += s.length
			}
		}
	}
	return sum
}

// place gives the k-th of n+1 even positions. Positions within are rounded to
// the grain, each from the start, so that rounding never adds up.
func place(from, to, k, n, grain geometry.Length) geometry.Length {
	switch k {
	case 0:
		return from
	case n:
		return to
	}
	return (from + round(float64(to-from)*float64(k)/float64(n))).Round(grain)
}
