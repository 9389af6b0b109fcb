package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/field"
)

// steel takes off bars, mesh and chairs.
func (b *builder) steel() {
	b.bars(EdgeBarLength, EdgeBarWeight, bars.EdgeRow, b.lapSteps(bars.EdgeLaps))
	b.bars(PadBarLength, PadBarWeight, bars.InPad, nil)
	b.bars(StripBarLength, StripBarWeight, bars.InStrip, b.lapSteps(bars.StripLaps))
	b.bars(CurbBarLength, CurbBarWeight, bars.InCurb, b.lapSteps(bars.CurbLaps))
	b.bars(FieldBarLength, FieldBarWeight, bars.FieldGrid, b.lapSteps(bars.FieldLaps))
	b.stock(ID{Kind: BarStock}, b.t.Lists.Cuts)
	b.bent()
	b.offcuts()
	b.mesh()
	n := 0
	for _, s := range b.t.Slabs {
		n += s.Layout.Chairs
	}
	if n > 0 {
		b.add(ID{Kind: Chairs}, float64(n), Each, append(
			b.steps(func(s Slab) Step { return Step{Text: "Chairs", Result: fmt.Sprint(s.Layout.Chairs)} }),
			Step{Text: "Points on the slab of an even grid", Work: "at most " + b.m.text(b.place.Field.Chairs) + " apart both ways", Result: fmt.Sprint(n), Source: "common practice"})...)
	}
}

// bars gives the length and weight of the bars of a kind of parts.
func (b *builder) bars(length, weight Kind, of bars.PartKind, laps []Step) {
	type group struct {
		row   string
		size  bars.Size
		count int
		cut   geometry.Length
	}
	var groups []group
	for _, s := range b.t.Slabs {
		for _, bar := range s.Layout.Bars {
			if bar.Of.Kind != of {
				continue
			}
			row := s.Called(bar.Of.Text(s.Plan, s.Layout.Marks))
			i := slices.IndexFunc(groups, func(g group) bool { return g.row == row && g.size == bar.Size })
			if i < 0 {
				groups = append(groups, group{row: row, size: bar.Size})
				i = len(groups) - 1
			}
			groups[i].count++
			groups[i].cut += bar.Cut
		}
	}
	if len(groups) == 0 {
		return
	}
	var total geometry.Length
	kg := 0.0
	var lengths, weights []Step
	for _, g := range groups {
		total += g.cut
		w := g.size.PerFoot() * pound * g.cut.Feet()
		per := fmt.Sprintf("%s lb/ft", number(g.size.PerFoot(), 3))
		if b.m.metric() {
			w = g.size.PerMeter() * g.cut.Meters()
			per = fmt.Sprintf("%s kg/m", number(g.size.PerMeter(), 3))
		}
		kg += w
		lengths = append(lengths, Step{Text: fmt.Sprintf("%s, %s", g.row, g.size), Work: fmt.Sprintf("%d pieces, laps included", g.count), Result: b.m.lengthText(g.cut)})
		weights = append(weights, Step{Text: fmt.Sprintf("%s, %s", g.row, g.size), Work: fmt.Sprintf("%s × %s", b.m.lengthText(g.cut), per), Result: b.m.massText(w), Source: g.size.Standard()})
	}
	lengths = append(lengths, laps...)
	v, u := b.m.length(total)
	b.add(ID{Kind: length}, v, u, lengths...)
	w, wu := b.m.mass(kg)
	b.add(ID{Kind: weight}, w, wu, weights...)
}

// stock lists what to buy of a cut list, by size and length. what is an ID without
// either.
func (b *builder) stock(what ID, list cutlist.List) {
	type kind struct {
		name   string
		size   bars.Size
		length geometry.Length
		yard   bool
		count  int
		pieces int
		rest   geometry.Length
	}
	var kinds []kind
	for _, s := range list.Stock {
		i := slices.IndexFunc(kinds, func(k kind) bool { return k.name == s.Name && k.length == s.Length && k.yard == s.Yard })
		if i < 0 {
			kinds = append(kinds, kind{name: s.Name, size: s.Size, length: s.Length, yard: s.Yard})
			i = len(kinds) - 1
		}
		kinds[i].count++
		kinds[i].pieces += len(s.Pieces)
		kinds[i].rest += s.Rest
	}
	slices.SortStableFunc(kinds, func(a, b kind) int {
		if a.name != b.name {
			return strings.Compare(a.name, b.name)
		}
		return int(min(max(b.length-a.length, -1), 1))
	})
	proof := "least stock, proven"
	if !list.Optimal {
		proof = fmt.Sprintf("no cutting buys less than %s", b.m.lengthText(list.Bound))
	}
	for _, k := range kinds {
		steps := []Step{{
			Text: fmt.Sprintf("%d pieces from %d of %s", k.pieces, k.count, b.m.text(k.length)),
			Work: "cut list; left over " + b.m.lengthText(k.rest), Result: fmt.Sprint(k.count), Source: proof,
		}}
		id := what
		id.Bar, id.Length = k.size, k.length
		if k.size == 0 {
			id.Size = k.name
		}
		if k.yard {
			id.Kind = YardBars
		}
		b.add(id, float64(k.count), Each, steps...)
	}
}

// bent counts the bars to bend, with the legs of each mark.
func (b *builder) bent() {
	n := 0
	var steps []Step
	for _, m := range bars.Schedule(b.t.Bars()) {
		if len(m.Bends) == 0 && m.Radius == 0 {
			continue
		}
		n += m.Count
		if len(m.Bends) == 0 {
			steps = append(steps, Step{Text: fmt.Sprintf("%d of %s, %s, cut %s", m.Count, m.Mark, m.Size, b.m.text(m.Cut)),
				Work: "bent along an arc", Result: "R " + b.m.text(m.Radius)})
			continue
		}
		var legs []string
		for i, l := range m.Legs {
			legs = append(legs, b.m.text(l))
			if i < len(m.Bends) {
				legs = append(legs, number(m.Bends[i].Turn, 0)+"°")
			}
		}
		steps = append(steps, Step{Text: fmt.Sprintf("%d of %s, %s, cut %s", m.Count, m.Mark, m.Size, b.m.text(m.Cut)),
			Work: "legs over the outside: " + strings.Join(legs, ", "), Result: "pin " + b.m.text(m.Pin) + ", past a bend at least " + b.m.text(bars.HookExtension(m.Size)), Source: "ACI 318-19 Table 25.3.1"})
	}
	if n > 0 {
		b.add(ID{Kind: BentBars}, float64(n), Each, steps...)
	}
}

// usefulOffcut is what is worth carrying to the yard: common practice, no source.
const usefulOffcut = 2 * geometry.Foot

// offcuts lists what is left of the bars and worth keeping.
func (b *builder) offcuts() {
	left := b.t.Lists.Cuts.Offcuts(usefulOffcut)
	if len(left) == 0 {
		return
	}
	var steps []Step
	for _, p := range left {
		steps = append(steps, Step{Text: p.Name, Result: b.m.text(p.Length)})
	}
	b.add(ID{Kind: Offcuts}, float64(len(left)), Each, steps...)
}

func (b *builder) mesh() {
	f := b.place.Field
	if f.Kind != field.Mesh {
		return
	}
	style, _ := cover.MeshNamed(f.Style)
	all := cover.Laid{Optimal: true}
	for _, s := range b.t.Slabs {
		all.Sheets = append(all.Sheets, s.Layout.Mesh...)
		all.Count += s.Layout.MeshCount
		all.Optimal = all.Optimal && s.Layout.MeshOptimal
	}
	if all.Count == 0 {
		return
	}
	all.Count, all.Optimal = b.together(all, cover.Ply{Width: f.Width, Length: f.Length})
	id := ID{Kind: MeshStock, Style: f.Style, Width: f.Width, Length: f.Length, Form: Sheet}
	if f.Roll {
		id.Form = Roll
	}
	b.add(id, float64(all.Count), Each,
		append(b.alone("Mesh", func(s Slab) (int, int) { return len(s.Layout.Mesh), s.Layout.MeshCount }),
			Step{Text: "Laid out on the plan along the better of two directions", Work: fmt.Sprintf("%d pieces, laps of %s (one square and %s)", len(all.Sheets), b.m.text(style.MeshLap()), (style.MeshLap() - style.Spacing).Text(b.m.u)), Result: fmt.Sprint(all.Count), Source: proof(all)})...)
	area := float64(all.Count) * f.Width.Meters() * f.Length.Meters()
	kg := style.PerSheet / 100 * pound / foot2 * area
	w, u := b.m.mass(kg)
	step := Step{Text: "As bought", Work: fmt.Sprintf("%s × %s lb per 100 ft²", b.m.areaText(area), number(style.PerSheet, 1)), Result: text(w, u), Source: "ASTM A1064/A1064M styles"}
	if style.Metric() {
		step.Work, step.Source = fmt.Sprintf("%s × %s kg/m²", b.m.areaText(area), number(style.PerArea(), 2)), "ISO 6935-3, wires"
	}
	b.add(ID{Kind: MeshWeight}, w, u, step)
}
