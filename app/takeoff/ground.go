package takeoff

import (
	"fmt"

	"haunchbook/geometry/layout"
)

// ground takes off the base, foam and vapor retarder.
func (b *builder) ground() {
	s, m, g := b.t.Solid, b.m, b.spec.Base
	under := s.Underside()
	area, au := m.area(under)
	follows := []Step{
		{Text: "Area of the slab in plan", Result: m.areaText(s.Area)},
		{Text: "With the slopes of the haunches: what lies under the slab follows the dug shape", Result: text(area, au)},
	}
	if g.Gravel > 0 {
		b.add("base.area", Ground, "Base course, area", area, au, follows...)
		compact := under * g.Gravel.Metres()
		loose := compact * g.Compaction.InexactFloat64()
		v, vu := m.volume(loose)
		b.buy("base.gravel.volume", Ground, "Gravel, loose", v, vu,
			Step{Text: "Compacted", Work: fmt.Sprintf("%s × %s", text(area, au), m.text(g.Gravel)), Result: m.volumeText(compact), Source: "IRC R506.2.2: 4 in"},
			Step{Text: "Loose", Work: fmt.Sprintf("%s × %s", m.volumeText(compact), g.Compaction), Result: text(v, vu), Source: "common practice: 1.15 to 1.25"})
		tons := loose / yard3 * g.Density.InexactFloat64()
		w, wu := m.heavy(tons * ton)
		b.add("base.gravel.tons", Ground, "Gravel, weight", w, wu,
			Step{Text: "Weight", Work: fmt.Sprintf("%s yd³ × %s ton/yd³", number(loose/yard3, 3), g.Density), Result: text(w, wu), Source: "common practice"})
	}
	if g.Foam > 0 {
		b.t.Foam = layout.Lay(b.plan, layout.Ply{Width: g.FoamWidth, Length: g.FoamLength})
		b.tooMany(b.t.Foam, "foam")
		b.add("foam.area", Ground, "Foam, area", area, au, follows...)
		n := b.t.Foam.Count
		b.buy("foam.sheets", Ground, fmt.Sprintf("Foam sheets %s, %s × %s", m.text(g.Foam), m.text(g.FoamWidth), m.text(g.FoamLength)), float64(n), Each,
			Step{Text: "Laid out on the plan along the better of two directions", Work: fmt.Sprintf("%d pieces", len(b.t.Foam.Sheets)), Result: fmt.Sprint(n), Source: proof(b.t.Foam)})
	}
	if g.Retarder > 0 {
		b.t.Retarder = layout.Lay(b.plan, layout.Ply{Width: g.RollWidth, Length: g.RollLength, Lap: g.Lap, Margin: -g.TurnUp, Roll: true})
		b.tooMany(b.t.Retarder, "vapor retarder")
		sheet := 0.0
		for _, s := range b.t.Retarder.Sheets {
			sheet += s.Area()
		}
		v, vu := m.area(sheet)
		b.add("retarder.area", Ground, "Vapor retarder, area", v, vu,
			Step{Text: "Strips with laps and turn-ups", Work: fmt.Sprintf("laps %s, turned up %s", m.text(g.Lap), m.text(g.TurnUp)), Result: text(v, vu), Source: "IRC R506.2.3: laps of 6 in"})
		n := b.t.Retarder.Count
		b.buy("retarder.rolls", Ground, fmt.Sprintf("Vapor retarder %d mil, rolls %s × %s", g.Retarder, m.text(g.RollWidth), m.text(g.RollLength)), float64(n), Each,
			Step{Text: "Laid out on the plan along the better of two directions", Work: fmt.Sprintf("%d strips", len(b.t.Retarder.Sheets)), Result: fmt.Sprint(n), Source: proof(b.t.Retarder)})
	}
}

// tooMany reports goods that take more pieces than are laid out.
func (b *builder) tooMany(c layout.Cover, goods string) {
	if c.TooMany {
		b.t.Findings = append(b.t.Findings, layout.Finding{Rule: layout.Rule{Name: "Size of the job", Source: "limit of this program"}, Severe: true,
			At: b.plan.Outline[0].At, Text: "The " + goods + " takes too many pieces to lay out; choose larger ones."})
	}
}

func proof(c layout.Cover) string {
	if c.Optimal {
		return "fewest for these pieces, proven"
	}
	return "a few less may do"
}
