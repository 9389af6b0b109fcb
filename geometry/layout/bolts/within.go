package bolts

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var (
	ruleWallStrip = rule.Rule{Name: "Bearing walls on thickened concrete", Source: "common practice: a strip 12 in deep and wide; a load is for who designs the building"}
	ruleWallSlab  = rule.Rule{Name: "Walls stand on the slab", Source: "geometry"}
	ruleEdgeSaw   = rule.Rule{Name: "Saw cuts end clear of bolts", Source: "common practice", Step: rule.Pour}
	ruleWallSaw   = rule.Rule{Name: "Bolts clear of saw cuts", Source: "common practice", Step: rule.Pour}
)

// clearOf is how far the middle of a bolt of a wall within the slab is kept from embeds, saw
// cuts and construction joints, less their own half widths, in diameters: common practice,
// no source.
const clearOf = 4

// Line is what bolts are kept off: a saw cut, or the face of a construction joint.
type Line struct{ A, B geometry.Point }

// Within places the walls of a slab that stand along lines of their own, beside those on
// its edges, edges first, and checks them against each other, against the bars that met
// holds, and against lines that are to be sawn or formed. It gives those it adds. Their
// plates end at doors, at the plates of walls placed before them, and where the slab does.
func Within(s *slab.Slab, spec Spec, edges []Wall, met *bars.Segments, lines []Line) []Wall {
	if len(s.Plan.Walls) == 0 {
		return nil
	}
	spec.EndMin = spec.LeastEnd()
	t := anchoring{Slab: s, spec: spec}
	all := slices.Clone(edges)
	var run geometry.Length
	for _, w := range s.Plan.Walls {
		run += w.Length()
	}
	if !t.Fits("Plates", run, spec.Stock) || !t.Fits("Anchor bolts", run, spec.Spacing) {
		return nil
	}
	for i := range s.Plan.Walls {
		all = append(all, t.own(i, all))
	}
	t.checkPlates(all, len(edges))
	own := all[len(edges):]
	t.clear = t.off(met, lines)
	for i := range own {
		t.anchor(&own[i], s.Plan.Walls[own[i].Own-1].Bolts)
	}
	if len(edges) == 0 {
		t.checkBoltSpec(own)
	} else {
		t.checkSet(own)
	}
	t.checkApart(all, len(edges))
	t.hits(own, met)
	for i := range own {
		t.checkSawn(&own[i], lines)
		t.checkBare(&own[i])
	}
	return own
}

// own gives a wall along a line of its own with its plates, which end at those before it.
func (t *anchoring) own(i int, before []Wall) Wall {
	drawn := t.Plan.Walls[i]
	w := Wall{Loop: -1, Edge: -1, Own: i + 1, Plate: drawn.Board(), Mark: t.Marks.Within(i)}
	width := w.Plate.Width
	right, along, back := t.Plan.Lies(drawn)
	w.Offset, w.Backward = width/2, back
	if along {
		w.Offset = t.boltOffset(w.Plate)
	}
	if back {
		w.Offset = width - w.Offset
	}
	line := slab.NewSide(-1, -1, drawn.From, drawn.To)
	w.Side = slab.NewSide(-1, -1, line.At(0, right), line.At(line.Length, right))
	w.Length = w.Side.Length
	var lost geometry.Length
	on := t.under(w)
	for _, free := range drawn.Free(t.spec.Jamb) {
		for _, run := range less([]slab.Interval{{From: free[0], To: free[1]}}, t.taken(w, before)) {
			at := run.From
			for _, have := range on {
				from, to := max(run.From, have.From), min(run.To, have.To)
				if to <= from {
					continue
				}
				lost += max(0, from-at)
				at = to
				if to-from >= leastRun {
					w.Pieces = append(w.Pieces, t.cutPlate(shape{{X: float64(from)}, {X: float64(to)}, {X: float64(to), Y: float64(width)}, {X: float64(from), Y: float64(width)}}, w.Side)...)
				}
			}
			lost += max(0, run.To-at)
		}
	}
	if lost > geometry.Sixteenth {
		t.Find(ruleWallSlab, rule.Limit, drawn.From, "%s: %s of it has no concrete under its whole plate, over a hole or off the slab: no plate is laid there.", w.Name(), t.Text(lost.Round(t.Step())))
	}
	return w
}

// under gives the stretches of a wall where the slab reaches under the whole width of its
// plate, but for a hair at its sides.
func (t *anchoring) under(w Wall) []slab.Interval {
	s, width := w.Side, w.Plate.Width
	on := []slab.Interval{{From: 0, To: s.Length}}
	for _, inset := range [...]geometry.Length{geometry.Sixteenth, width / 2, width - geometry.Sixteenth} {
		on = common(on, t.Within(s.At(0, inset), s.At(s.Length, inset)))
	}
	return on
}

// taken gives the stretches of a wall that the plates of others lie on.
func (t *anchoring) taken(w Wall, others []Wall) (out []slab.Interval) {
	width := w.Plate.Width
	strip := shape{{}, {X: float64(w.Length)}, {X: float64(w.Length), Y: float64(width)}, {Y: float64(width)}}
	var c plane.Clipper
	for i := range others {
		for _, p := range others[i].Pieces {
			ring := make(shape, 0, len(p.Outline))
			for _, q := range p.Outline {
				along, inset := w.Side.Project(q)
				ring = append(ring, plane.Vec{X: float64(along), Y: float64(inset)})
			}
			on := shape(c.Within(ring, strip, 1))
			if plane.Area(on) > float64(inch)*float64(inch)/100 {
				lo, hi := on.extent()
				out = append(out, slab.Interval{From: geometry.Rounded(lo), To: geometry.Rounded(hi)})
			}
		}
	}
	return out
}

// less gives stretches without others.
func less(from, others []slab.Interval) []slab.Interval {
	for _, o := range others {
		var out []slab.Interval
		for _, s := range from {
			for _, rest := range [...]slab.Interval{{From: s.From, To: min(s.To, o.From)}, {From: max(s.From, o.To), To: s.To}} {
				if rest.To > rest.From {
					out = append(out, rest)
				}
			}
		}
		from = out
	}
	slices.SortFunc(from, func(a, b slab.Interval) int { return cmp.Compare(a.From, b.From) })
	return from
}

// common gives what two lists of stretches have in common.
func common(a, b []slab.Interval) (out []slab.Interval) {
	for _, s := range a {
		for _, o := range b {
			if from, to := max(s.From, o.From), min(s.To, o.To); to > from {
				out = append(out, slab.Interval{From: from, To: to})
			}
		}
	}
	return out
}

// off tells of a place whether a bolt there keeps off embeds, lines and bars.
func (t *anchoring) off(met *bars.Segments, lines []Line) func(geometry.Point) bool {
	asks := clearOf * t.spec.Diameter
	type round struct {
		ring  geometry.Ring
		embed plan.Embed
	}
	var embeds []round
	for _, e := range t.Plan.Embeds {
		embeds = append(embeds, round{e.Ring(), e})
	}
	return func(at geometry.Point) bool {
		if near(at, lines, asks) {
			return false
		}
		for _, e := range embeds {
			if geometry.Distance(at, e.embed.Center) > e.embed.Width+e.embed.Length+2*asks {
				continue
			}
			if plane.In(e.ring, at) {
				return false
			}
			for i, p := range e.ring {
				if _, away := geometry.Nearest(at, p, e.ring[(i+1)%len(e.ring)]); away < asks+t.spec.Diameter/2 {
					return false
				}
			}
		}
		_, hit := t.shaftMeets(Bolt{At: at}, met, met.Near(at, at, t.spec.Diameter))
		return !hit
	}
}

// near tells whether a place is nearer than asks to a line.
func near(at geometry.Point, lines []Line, asks geometry.Length) bool {
	return slices.ContainsFunc(lines, func(l Line) bool {
		_, away := geometry.Nearest(at, l.A, l.B)
		return away < asks
	})
}

// offCut is how far bolts on edges are kept off the end of a saw cut: half a washer, so that
// none bears on sawn concrete, and two diameters; common practice, no source.
func (b Spec) offCut() geometry.Length { return max(b.Washer/2, 2*b.Diameter) }

// checkEnds reports bolts of walls on edges that a saw cut runs into or close by: it is sawn
// when the bolts stand.
func (t *anchoring) checkEnds(edges []Wall, cuts []Line) {
	asks := t.spec.offCut()
	for i := range edges {
		w := &edges[i]
		for _, b := range w.Bolts {
			if near(b.At, cuts, asks) {
				t.Find(ruleEdgeSaw, rule.Note, b.At, "%s: a saw cut ends nearer than %s to the bolt at %s: move the bolt, or stop the saw short of the plate.", w.Name(), t.Text(asks), t.Text(b.Along))
			}
		}
	}
}

// checkSawn reports, once for a wall, bolts that a saw cut or a joint's face runs too near.
func (t *anchoring) checkSawn(w *Wall, lines []Line) {
	asks := clearOf * t.spec.Diameter
	var met []Bolt
	for _, b := range w.Bolts {
		if near(b.At, lines, asks) {
			met = append(met, b)
		}
	}
	switch n := len(met); {
	case n == 1:
		t.Find(ruleWallSaw, rule.Limit, met[0].At, "%s: the bolt at %s is nearer than %s to a saw cut or a construction joint: move the bolt or the line.", w.Name(), t.Text(met[0].Along), t.Text(asks))
	case n > 1:
		t.Find(ruleWallSaw, rule.Limit, met[0].At, "%s: %d bolts, from the one at %s to that at %s, are nearer than %s to a saw cut or a construction joint: move the wall or the line.", w.Name(), n, t.Text(met[0].Along), t.Text(met[n-1].Along), t.Text(asks))
	}
}

// What a strip under a bearing wall has at least, and how much of the wall may stand beside
// it, as at its ends: common practice, no source.
const (
	leastUnder = 12 * inch
	mostBare   = foot
)

// checkBare reports a bearing wall that stands on less concrete than a thickened strip has.
func (t *anchoring) checkBare(w *Wall) {
	drawn := t.Plan.Walls[w.Own-1]
	if t.Solid == nil || drawn.Kind != plan.Bearing {
		return
	}
	var bare, least, where geometry.Length
	least = leastUnder
	asked := leastUnder
	if t.Units == geometry.Millimeters {
		asked = 300 * geometry.Millimeter
	}
	a, b := w.Side.At(0, w.Plate.Width/2), w.Side.At(w.Length, w.Plate.Width/2)
	for _, p := range t.Solid.Cut(a, b) {
		short, deep := asked-min(p.Start, p.End), asked-max(p.Start, p.End)
		if short <= geometry.Micrometer {
			continue
		}
		if bare == 0 {
			where = (p.From + p.To) / 2
		}
		if least = min(least, p.Start, p.End); deep < 0 { // it slopes through what is asked
			bare += geometry.Rounded(float64(p.To-p.From) * float64(short) / float64(short-deep))
		} else {
			bare += p.To - p.From
		}
	}
	if bare > mostBare {
		t.Find(ruleWallStrip, rule.Limit, w.Side.At(where, w.Plate.Width/2), "%s is a bearing wall and stands on %s of concrete over %s of its length: lay a thickened strip of at least %s under it, or have its load looked at by who designs the building.",
			w.Name(), t.Text(least), t.Text(bare.Round(t.Step())), t.Text(asked))
	}
}
