package takeoff

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/solid"
)

// ground takes off the base, foam and vapor retarder.
func (b *builder) ground() {
	lies, each, all := (*solid.Solid).Underside, "Area that follows the dug shape", "With the slopes of the haunches: what lies under the slab follows the dug shape"
	if b.spec.Base.Under == FieldOnly {
		lies, each, all = (*solid.Solid).FieldArea, "Area of the field", "Under the field only: what is thickened stands on the ground"
	}
	under := b.sum(func(s Slab) float64 { return lies(s.dug()) })
	area, au := b.m.area(under)
	follows := append(
		b.steps(func(s Slab) Step { return Step{Text: each, Result: b.m.areaText(lies(s.dug()))} }),
		Step{Text: "Area in plan", Result: b.m.areaText(b.sum(func(s Slab) float64 { return s.dug().Area }))},
		Step{Text: all, Result: text(area, au)})
	b.gravel(under, follows)
	b.foam(area, au, follows)
	b.retarder()
	b.frost()
}

func (b *builder) gravel(under float64, follows []Step) {
	m, g := b.m, b.spec.Base
	if g.Gravel == 0 {
		return
	}
	area, au := m.area(under)
	b.add(ID{Kind: BaseArea}, area, au, follows...)
	compact := under * g.Gravel.Meters()
	loose := compact * g.Compaction.InexactFloat64()
	v, vu := m.volume(loose)
	b.add(ID{Kind: GravelVolume}, v, vu,
		Step{Text: "Compacted", Work: fmt.Sprintf("%s × %s", text(area, au), m.text(g.Gravel)), Result: m.volumeText(compact), Source: "IRC R506.2.2: 4 in"},
		Step{Text: "Loose", Work: fmt.Sprintf("%s × %s", m.volumeText(compact), g.Compaction), Result: text(v, vu), Source: "common practice: 1.15 to 1.25"})
	tons := loose / yard3 * g.Density.InexactFloat64()
	w, wu := m.heavy(tons * ton)
	b.add(ID{Kind: GravelWeight}, w, wu,
		Step{Text: "Weight", Work: fmt.Sprintf("%s yd³ × %s ton/yd³", number(loose/yard3, 3), g.Density), Result: text(w, wu), Source: "common practice"})
}

func (b *builder) foam(area float64, au Unit, follows []Step) {
	m, g := b.m, b.spec.Base
	if g.Foam == 0 {
		return
	}
	c := b.cover("foam", cover.Ply{Width: g.FoamWidth, Length: g.FoamLength}, func(s *Slab) cover.Laid {
		s.Foam = cover.Foam(s.Plan.Chorded(), s.dug(), g.FoamWidth, g.FoamLength, g.Under == FieldAndHaunches)
		return s.Foam
	})
	b.add(ID{Kind: FoamArea}, area, au, append(follows,
		Step{Text: "Flat under the field", Result: m.areaText(c.Area)},
		Step{Text: "Cut to the flats and slopes of haunches, pads and strips", Result: m.areaText(c.Cut)})...)
	b.add(ID{Kind: FoamStock, Thickness: g.Foam, Width: g.FoamWidth, Length: g.FoamLength, Form: Sheet}, float64(c.Count), Each, append(
		b.alone("Foam", func(s Slab) (int, int) { return len(s.Foam.Sheets), s.Foam.Count }),
		Step{Text: "Sheets flat under the field, along the better of two directions", Work: count(c.Flat, "piece")},
		Step{Text: "On the flats and slopes of haunches, pads and strips; none on steps", Work: count(len(c.Sheets)-c.Flat, "cut piece") + ", ripped from sheets and from what is left of them"},
		Step{Text: "Narrower than can be cut, and filled with trimmings or foam from a can", Work: count(len(c.Filled), "gap") + " under " + m.text(cover.LeastFoam), Source: "common practice, no source"},
		Step{Text: "To buy", Work: fmt.Sprintf("%s of pieces before they are trimmed, %s a sheet", m.areaText(laid(c)), m.areaText(g.FoamWidth.Meters()*g.FoamLength.Meters())), Result: fmt.Sprint(c.Count), Source: proof(c)})...)
}

func (b *builder) retarder() {
	m, g := b.m, b.spec.Base
	if g.Retarder == 0 {
		return
	}
	var drape geometry.Length
	roll := cover.Ply{Width: g.RollWidth, Length: g.RollLength, Lap: g.Lap, Roll: true}
	c := b.cover("vapor retarder", roll, func(s *Slab) cover.Laid {
		drape = max(drape, cover.Drape(s.Plan))
		y := roll
		y.Margin = -g.TurnUp - cover.Drape(s.Plan)
		s.Retarder = cover.Lay(s.Plan.Chorded(), y)
		return s.Retarder
	})
	v, vu := m.area(laid(c))
	b.add(ID{Kind: RetarderArea}, v, vu, append(
		b.steps(func(s Slab) Step { return Step{Text: "Vapor retarder", Result: m.areaText(laid(s.Retarder))} }),
		Step{Text: "Pieces with laps and turn-ups", Work: fmt.Sprintf("laps %s, turned up %s, %s more where they follow a haunch", m.text(g.Lap), m.text(g.TurnUp), m.text(drape)), Result: text(v, vu), Source: "IRC R506.2.3: laps of 6 in"})...)
	b.add(ID{Kind: RetarderStock, Mil: g.Retarder, Width: g.RollWidth, Length: g.RollLength, Form: Roll}, float64(c.Count), Each, append(
		b.alone("Vapor retarder", func(s Slab) (int, int) { return len(s.Retarder.Sheets), s.Retarder.Count }),
		Step{Text: "Laid out on the plan along the better of two directions", Work: count(len(c.Sheets), "piece"), Result: fmt.Sprint(c.Count), Source: proof(c)})...)
}

// laid gives the area of sheets with their laps and turn-ups, in m².
func laid(c cover.Laid) float64 {
	area := 0.0
	for _, s := range c.Sheets {
		area += s.Area()
	}
	return area
}

// cover lays sheets or rolls under every slab, keeps them with it, and gives them all,
// with what to buy for them.
func (b *builder) cover(goods string, y cover.Ply, lay func(*Slab) cover.Laid) cover.Laid {
	all := cover.Laid{Optimal: true}
	for i := range b.t.Slabs {
		s := &b.t.Slabs[i]
		c := lay(s)
		all.Sheets = append(all.Sheets, c.Sheets...)
		all.Filled = append(all.Filled, c.Filled...)
		all.Flat += c.Flat
		all.Area += c.Area
		all.Cut += c.Cut
		all.Count += c.Count
		all.Optimal = all.Optimal && c.Optimal
		if c.TooMany {
			b.t.Findings = append(b.t.Findings, rule.Finding{Rule: rule.Rule{Name: "Size of the job", Source: "limit of this program"}, Severity: rule.Severe,
				At: s.Plan.Outline[0].At, Text: s.Called("The " + goods + " takes too many pieces to lay out; choose larger ones.")})
		}
	}
	all.Count, all.Optimal = b.together(all, y)
	return all
}

// together gives what to buy for the pieces of all slabs: what is left of one slab's
// serves the next, which a way of cutting that is not the best may hide.
func (b *builder) together(all cover.Laid, y cover.Ply) (count int, least bool) {
	if len(b.t.Slabs) < 2 {
		return all.Count, all.Optimal
	}
	n, least := cover.Buy(all.Sheets, y)
	if n > all.Count {
		return all.Count, false
	}
	return n, least
}

// alone gives the pieces of every slab, and what they would take without the others.
func (b *builder) alone(goods string, of func(Slab) (pieces, count int)) []Step {
	return b.steps(func(s Slab) Step {
		pieces, n := of(s)
		return Step{Text: goods, Work: count(pieces, "piece") + "; by itself it takes " + fmt.Sprint(n)}
	})
}

func proof(c cover.Laid) string {
	if c.Optimal {
		return "fewest for these pieces, proven"
	}
	return "a few less may do"
}
