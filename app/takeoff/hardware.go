package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
)

// hardware takes off dowels, bolts and plates.
func (b *builder) hardware() {
	b.dowels()
	b.bolts()
	b.embeds()
	b.lines()
	b.jointDowels()
}

// embedKinds are what embeds are bought as.
var embedKinds = map[plan.EmbedKind]Kind{
	plan.Sleeve: Sleeves, plan.StubUp: StubUps, plan.FloorDrain: FloorDrains, plan.PostBase: PostBases, plan.WeldPlate: WeldPlates,
}

// embeds counts what is set before the pour, each kind and size by itself. The concrete
// that they take up is not deducted: common practice, no source.
func (b *builder) embeds() {
	var order []ID
	count, steps := map[ID]int{}, map[ID][]Step{}
	for _, s := range b.t.Slabs {
		for i, e := range s.Plan.Embeds {
			id := ID{Kind: embedKinds[e.Kind], Diameter: e.Width}
			if !e.Round() {
				id.Diameter, id.Width, id.Length = 0, e.Width, e.Length
			}
			if count[id] == 0 {
				order = append(order, id)
			}
			count[id]++
			steps[id] = append(steps[id], Step{Text: s.Called(s.Layout.Marks.Embed(i).Called(e.Name)), Result: "1"})
		}
	}
	slices.SortStableFunc(order, func(a, b ID) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Diameter, b.Diameter), cmp.Compare(a.Width, b.Width), cmp.Compare(a.Length, b.Length))
	})
	for _, id := range order {
		b.add(id, float64(count[id]), Each, steps[id]...)
	}
}

func (b *builder) dowels() {
	n := 0
	for _, s := range b.t.Slabs {
		n += len(s.Layout.Dowels)
	}
	if n == 0 {
		return
	}
	d := b.place.Dowels.Used()
	hole := d.HoleVolume()
	holes, goods, from := ID{Kind: DowelHoles, Depth: d.Embed}, ID{Kind: DowelBars, Bar: d.Size, Length: d.Length}, "cut from the bars of the cut list"
	work := fmt.Sprintf("π/4 × (hole² − bar²) × %s, hole %s over the bar", b.m.text(d.Embed), b.m.text(d.Clearance))
	switch d.Kind {
	case joints.Sliding:
		goods.Kind, from = SlideDowels, "smooth, bought cut"
	case joints.Plates:
		holes.Kind, from = DowelSlots, "bought cut"
		goods = ID{Kind: PlateDowels, Thickness: d.Thickness, Width: d.Width, Length: d.Length}
		work = fmt.Sprintf("(slot − plate) × %s, slot %s over the plate", b.m.text(d.Embed), b.m.text(d.Clearance))
	}
	b.add(holes, float64(n), Each,
		append(b.steps(func(s Slab) Step { return Step{Text: "Dowels", Result: fmt.Sprint(len(s.Layout.Dowels))} }),
			Step{Text: "Dowels along the joint", Work: fmt.Sprintf("at most %s apart, %s clear of the ends", b.m.text(d.Spacing), b.m.text(d.End)), Result: fmt.Sprint(n), Source: "common practice"})...)
	b.add(goods, float64(n), Each, Step{Text: "One for each hole", Work: from, Result: fmt.Sprint(n)})
	total := hole * float64(n) * (1 + float64(d.Waste)/100)
	v, u := b.m.fluid(total)
	each, _ := b.m.fluid(hole)
	b.add(ID{Kind: Adhesive}, v, u,
		Step{Text: "Hole less dowel", Work: work, Result: text(each, u)},
		Step{Text: "All holes and waste", Work: fmt.Sprintf("%d × %s × %d %%", n, text(each, u), 100+d.Waste), Result: text(v, u), Source: "check against the maker's data"})
}

// jointDowels counts the dowels of construction joints, each size by itself.
func (b *builder) jointDowels() {
	var order []ID
	count, steps := map[ID]int{}, map[ID][]Step{}
	for _, s := range b.t.Slabs {
		for _, j := range s.Layout.Construction {
			if len(j.Dowels) == 0 {
				continue
			}
			id := ID{Kind: JointDowels, Diameter: j.Bar.Diameter, Length: j.Bar.Length}
			if count[id] == 0 {
				order = append(order, id)
			}
			count[id] += len(j.Dowels)
			steps[id] = append(steps[id], Step{Text: s.Called(s.Layout.Marks.Construction(j.Index).String()), Work: fmt.Sprintf("over %s, at most %s apart", b.m.lengthText(j.Length), b.m.text(j.Bar.Spacing)), Result: fmt.Sprint(len(j.Dowels)), Source: "ACI 302.1R, from memory"})
		}
	}
	for _, id := range order {
		b.add(id, float64(count[id]), Each, steps[id]...)
	}
}

// walls gives the walls of all slabs.
func (b *builder) walls() []bolts.Wall {
	var out []bolts.Wall
	for _, s := range b.t.Slabs {
		out = append(out, s.Layout.Walls...)
	}
	return out
}

// wallWork begins what a wall's length is of.
func wallWork(w bolts.Wall) string {
	if w.Own > 0 {
		return "line "
	}
	return "edge "
}

func (b *builder) bolts() {
	var bolts, holds int
	var run geometry.Length
	pieces := 0
	walls := b.walls()
	for _, w := range walls {
		for _, x := range w.Bolts {
			if x.HoldDown {
				holds++
			} else {
				bolts++
			}
		}
		for _, p := range w.Pieces {
			run += p.To - p.From
			pieces++
		}
	}
	if len(walls) == 0 {
		return
	}
	s := b.place.Bolts
	var steps, marked, lengths, cut []Step
	for _, s := range b.t.Slabs {
		for _, w := range s.Layout.Walls {
			name, n, long := s.Called(w.Name()+", "+w.Where(s.Layout.Marks)), 0, geometry.Length(0)
			for _, x := range w.Bolts {
				if !x.HoldDown {
					n++
				}
			}
			for _, p := range w.Pieces {
				long += p.To - p.From
			}
			steps = append(steps, Step{Text: name, Work: count(len(w.Pieces), "piece") + " of plate", Result: fmt.Sprint(n), Source: "IRC R403.1.6"})
			if n < len(w.Bolts) {
				marked = append(marked, Step{Text: name, Work: "as marked by the builder", Result: fmt.Sprint(len(w.Bolts) - n)})
			}
			lengths = append(lengths, Step{Text: name, Work: wallWork(w) + b.m.text(w.Length) + " less openings", Result: b.m.lengthText(long)})
			cut = append(cut, Step{Text: name, Result: fmt.Sprint(len(w.Pieces))})
		}
	}
	b.add(ID{Kind: AnchorBolts, Diameter: s.Diameter, Length: s.Length, Shape: s.Shape.String()}, float64(bolts), Each, steps...)
	b.add(ID{Kind: BoltWashers, Width: s.Washer}, float64(bolts), Each,
		Step{Text: "One for each bolt", Result: fmt.Sprint(bolts), Source: "plate washers: IRC R602.11.1 where it applies"})
	if s.Setting == bars.Before {
		b.add(ID{Kind: TiedBolts}, float64(bolts+holds), Each,
			Step{Text: "Bolts and hold-downs", Work: fmt.Sprintf("%d + %d, held by templates or ties", bolts, holds), Result: fmt.Sprint(bolts + holds)})
	}
	if holds > 0 {
		b.add(ID{Kind: HoldDowns}, float64(holds), Each, marked...)
	}
	v, lu := b.m.length(run)
	b.add(ID{Kind: PlateLength}, v, lu, append(lengths,
		Step{Text: "Walls less openings", Work: "cut at rough openings and at stock lengths", Result: text(v, lu)})...)
	b.add(ID{Kind: PlatePieces}, float64(pieces), Each, append(cut,
		Step{Text: "Pieces of plate", Work: "stock of " + b.m.text(s.Stock), Result: fmt.Sprint(pieces)})...)
	b.stock(ID{Kind: SillPlates}, b.t.Lists.Plates)
}
