package sheet

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Part is a part of the set: what one person takes along.
type Part = geometry.Choice[partNames]

type partNames struct{}

// Names implements geometry.Named.
func (partNames) Names() []string { return []string{"whole", "first", "forms", "steel", "pour"} }

// The parts.
const (
	Whole     Part = iota // the set
	FirstOnly             // the first sheet, which suffices to stake out, form and set bolts, and what found no room on it
	ForForms              // staking out, edges, forms and the ground
	ForSteel
	ForPour
)

// parts names the topics of each part.
var parts = map[Part][]string{
	FirstOnly: {stakeOut}, ForForms: {stakeOut, edges, forms, ground}, ForSteel: {steel}, ForPour: {pourDay},
}

// The topics of the sheets after the first.
const (
	stakeOut = "Stake-out"
	edges    = "Edges"
	forms    = "Forms"
	ground   = "Ground"
	steel    = "Steel"
	pourDay  = "Pour"
)

// Pages gives the sheets of a job, as few as hold what it needs, in order.
func Pages(ctx context.Context, h *handover.Handover, o Options) ([]Page, error) {
	all, err := sets(ctx, h, o)
	if err != nil {
		return nil, err
	}
	of := 0
	for _, s := range all {
		of += len(s.made)
	}
	var out []Page
	for _, s := range all {
		out = append(out, s.done(of)...)
	}
	return out, nil
}

// compose sets what a job needs on sheets.
func (s *set) compose(ctx context.Context) error {
	o := s.options
	said := func(blocks func() []block) func() []block {
		return func() []block { return s.said(blocks()) }
	}
	wants := func(name string) bool { return o.Part == Whole || slices.Contains(parts[o.Part], name) }
	var rest []topic
	for _, t := range []struct {
		name   string
		blocks func() []block
		beside bool // it goes on with what stands beside the first plan
	}{
		{stakeOut, s.first, true}, {edges, said(s.edges), true}, {forms, said(s.forms), true}, {ground, said(s.ground), true}, {steel, said(s.steel), false}, {pourDay, said(s.pour), false},
	} {
		beside := t.beside && wants(stakeOut)
		if !beside && !wants(t.name) {
			continue
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		blocks := t.blocks()
		if beside {
			blocks = s.besideFirst(blocks)
		}
		if wants(t.name) {
			rest = append(rest, topic{t.name, blocks})
		}
	}
	packed := s.packed(rest)
	if packed.slight() && wants(stakeOut) { // steel on the first sheets, where that saves one
		for i, t := range rest {
			if t.name == steel {
				rest[i].blocks = s.besideFirst(t.blocks)
			}
		}
		packed = s.packed(rest)
	}
	s.sheets(rest, packed)
	return ctx.Err()
}

// besideFirst sets blocks where the first sheets still have room, and gives the others.
func (s *set) besideFirst(all []block) []block {
	fits := fittings(all)
	for _, g := range s.firsts {
		fits = g.fillUp(fits)
	}
	blocks := blocksOf(fits)
	may := besidePlans(blocks)
	tried := map[int]bool{} // and placed, but for what is left
	for _, b := range may {
		tried[b.n] = true
	}
	for _, g := range s.firsts {
		if s.stopped() != nil {
			break
		}
		may = g.spare(may)
	}
	for _, b := range may {
		tried[b.n] = false
	}
	var out []block
	for n, b := range blocks {
		if !tried[n] {
			out = append(out, b)
		}
	}
	return out
}

// first draws the sheet that suffices to stake out, form and set the bolts: all
// slabs together where that is easily read, else one sheet of each. It gives what
// found no room.
func (s *set) first() []block {
	slabs := s.takeoff.Slabs
	if s.together() {
		return s.plan(slabs)
	}
	var left []block
	for k := range slabs {
		if s.stopped() != nil {
			break
		}
		left = append(left, s.plan(slabs[k:k+1])...)
	}
	return left
}

// together tells whether all slabs go on one sheet, or there is but one.
func (s *set) together() bool {
	lo, hi := boundsOf(s.takeoff.Slabs)
	a, ok := choose(arrange(s.paper, s.job.Units, hi.X-lo.X, hi.Y-lo.Y), s.job.Units)
	return len(s.takeoff.Slabs) == 1 || ok && a.scale.Ratio <= readableScale(s.job.Units)
}

// firstBlocks are what stands beside the first plan, of its slabs: what the work there
// needs, with the edge sections in words where they are not drawn there, and what may
// stand elsewhere.
func (s *set) firstBlocks(on []plot, of []takeoff.Slab, inWords bool) (needed, more []block) {
	begins := of[0].Number == s.takeoff.Slabs[0].Number
	ends := of[len(of)-1].Number == s.takeoff.Slabs[len(s.takeoff.Slabs)-1].Number
	if begins {
		needed = append(needed, s.orderLine())
	}
	if len(of) < len(s.takeoff.Slabs) {
		needed = append(needed, s.keyPlan(of[0]))
	} else if len(of) > 1 {
		needed = append(needed, s.slabList())
	}
	needed = append(needed, s.sectionList(of, inWords))
	split := len(on) > 1 // long lists run over its sheets: what is short comes before them
	if split && ends {
		needed = append(needed, s.cautions(of))
	}
	for _, slab := range of {
		one, other := slices.Concat(s.boltTables(slab), s.dowelTables(slab)), slices.Concat(s.doorTable(slab), s.squaring(slab, on),
			s.heightsTable(slab), s.setOutTable(slab), s.sawCutTable(slab))
		if split {
			one, other = other, one
		}
		needed = slices.Concat(needed, one, other)
		if slab.Number != s.takeoff.Slabs[0].Number {
			needed = append(needed, s.placeTable(slab))
		}
	}
	needed = append(needed, s.findingsOn(of, ends))
	if begins {
		more = s.edgeSections()
	}
	if ends && !split {
		more = append(more, s.cautions(of))
	}
	if begins {
		more = append(more, s.benchmarkList(of[0]))
	}
	if ends {
		if s.job.Notes != "" {
			more = append(more, notes{title: "Notes", items: []string{s.job.Notes}, size: sizeSmall})
		}
		more = append(more, s.revisions(), legend(s.layoutLegend()))
	}
	return needed, more
}

// orderLine says how much concrete comes.
func (s *set) orderLine() block {
	l, ok := s.takeoff.Line(takeoff.ConcreteOrder)
	if !ok {
		return nothing{}
	}
	mix := s.job.Spec.Mix
	item := fmt.Sprintf("%s %s, %s", quantity(l), l.Unit, takeoff.StrengthText(mix.Strength, s.job.Units))
	if n := len(s.takeoff.Loads); n > 0 {
		item += fmt.Sprintf("; truck loads: %d", n)
	}
	items := []string{item}
	if s.held != "" {
		items = append(items, "NOT TO BE POURED YET: "+s.held+".")
	}
	if len(s.takeoff.Pours) > 1 {
		for _, p := range s.takeoff.Pours {
			of := fmt.Sprintf("%s: %s %s", p.Called(), p.Order, l.Unit)
			if n := len(p.Loads); n > 0 {
				of += fmt.Sprintf("; truck loads: %d", n)
			}
			items = append(items, of)
		}
	}
	return notes{title: "Concrete", items: items, size: sizeSmall}
}

// cautions are those of the work of the first sheet.
func (s *set) cautions(of []takeoff.Slab) block {
	said := []string{cautionDig, cautionCaps, cautionEdge, cautionLift}
	if slices.ContainsFunc(of, func(t takeoff.Slab) bool { return len(t.Layout.Dowels) > 0 }) {
		said = append(said, cautionSilica, cautionGlue)
	}
	return cautionBlock(said...)
}

// ofSlabs gives what is made of each slab, what is alike once.
func (s *set) ofSlabs(blocks func(takeoff.Slab) []block) (out []block) {
	for _, slab := range s.takeoff.Slabs {
		for _, b := range blocks(slab) {
			if !slices.ContainsFunc(out, func(o block) bool { return reflect.DeepEqual(o, b) }) {
				out = append(out, b)
			}
		}
	}
	return out
}

// edges are the edges and their sections, with bolts, dowels and sill plates.
func (s *set) edges() []block {
	out := s.padSections()
	out = append(out, s.ofSlabs(s.boltDetail)...)
	out = append(out, s.ofSlabs(s.dowelDetail)...)
	out = append(out, s.ofSlabs(s.constructionDetails)...)
	out = append(out, s.ofSlabs(s.plateTable)...)
	out = append(out, s.cutDiagrams("Cutting sill plates", s.takeoff.Lists.Plates)...)
	return append(out, s.frostNote())
}
