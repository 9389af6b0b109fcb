package layout

import (
	"slices"

	"haunchbook.example/geometry"
)

// The rules of anchor bolts.
var (
	ruleBoltSpacing = Rule{"Bolt spacing", "IRC R403.1.6"}
	ruleBoltEnds    = Rule{"Bolts at plate ends", "IRC R403.1.6"}
	ruleBoltCount   = Rule{"Two bolts in each plate piece", "IRC R403.1.6"}
	ruleBoltEmbed   = Rule{"Bolt embedment", "IRC R403.1.6"}
	ruleBoltSize    = Rule{"Bolt diameter", "IRC R403.1.6"}
	ruleBoltMiddle  = Rule{"Bolt in the middle third of the plate", "IRC R403.1.6"}
	ruleBoltOpening = Rule{"No bolt in an opening", "common practice"}
	ruleBoltApart   = Rule{"Bolts clear of each other", "common practice"}
	ruleBoltStud    = Rule{"Bolts clear of studs", "common practice"}
	ruleBoltBar     = Rule{"Bolts clear of bars", "geometry"}
	ruleBoltWall    = Rule{"Bolts stand on a wall", "common practice"}
	ruleBoltHook    = Rule{"Hook of a bent bolt", "ACI 318-19 17.6.3.2.2"}
)

// The limits of IRC R403.1.6, by which the specification itself is checked.
const (
	leastBoltEmbed    = 7 * inch
	leastBoltDiameter = inch / 2
	mostBoltSpacing   = 6 * foot
	mostBoltEnd       = 12 * inch
	leastBoltEnd      = 7 // diameters
)

// The hook of a bent bolt, from its shaft to its tip, in diameters: ACI 318-19
// 17.6.3.2.2, from memory.
const leastHook, mostHook = 3, 4.5

// checkWall reports what the bolts of a wall break. on is where its plates lie on
// the line of the bolts.
func (t *site) checkWall(w *Wall, s side, on []interval) {
	for _, p := range on {
		t.checkPiece(w, s, p)
	}
	for _, bolt := range w.Bolts {
		plated := slices.ContainsFunc(on, func(p interval) bool { return bolt.Along >= p.from && bolt.Along <= p.to })
		switch {
		case !plated && (bolt.Along < 0 || bolt.Along > w.Length):
			t.find(ruleBoltOpening, true, s.at(min(max(bolt.Along, 0), w.Length), 0), "%s: the mark at %s lies off the wall, which is %s long.", w.Name, t.text(bolt.Along), t.text(w.Length))
		case !plated:
			t.find(ruleBoltOpening, true, bolt.At, "%s: the mark at %s is in an opening or off the plate.", w.Name, t.text(bolt.Along))
		case t.stud(bolt.Along, w) && !bolt.HoldDown:
			t.find(ruleBoltStud, false, bolt.At, "%s: the bolt at %s is under a stud; notch the washer's side or move the stud.", w.Name, t.text(bolt.Along))
		}
	}
}

// checkPiece reports what the bolts of one piece of plate break.
func (t *site) checkPiece(w *Wall, s side, p interval) {
	var in []geometry.Length
	for _, bolt := range w.Bolts {
		if !bolt.HoldDown && bolt.Along >= p.from && bolt.Along <= p.to {
			in = append(in, bolt.Along)
		}
	}
	if len(in) < 2 {
		t.find(ruleBoltCount, true, s.at((p.from+p.to)/2, 0), "%s: the plate from %s to %s has %d of the 2 bolts it needs.", w.Name, t.text(p.from), t.text(p.to), len(in))
	}
	if len(in) == 0 {
		return
	}
	t.checkEnd(w, s, in[0], in[0]-p.from)
	t.checkEnd(w, s, in[len(in)-1], p.to-in[len(in)-1])
	most := t.spec.Bolts.Spacing
	for i := 1; i < len(in); i++ {
		if gap := in[i] - in[i-1]; gap > most {
			t.find(ruleBoltSpacing, true, s.at((in[i]+in[i-1])/2, 0), "%s: %s between the bolts at %s and %s; at most %s.", w.Name, t.text(gap), t.text(in[i-1]), t.text(in[i]), t.text(most))
		}
	}
}

// checkEnd reports a bolt that stands too near the end of its plate, or too far
// from it.
func (t *site) checkEnd(w *Wall, s side, along, gap geometry.Length) {
	b := t.spec.Bolts
	limit := ""
	switch {
	case gap > b.EndMax:
		limit = "at most " + t.text(b.EndMax)
	case gap < b.EndMin:
		limit = "at least " + t.text(b.EndMin)
	default:
		return
	}
	t.find(ruleBoltEnds, true, s.at(along, 0), "%s: the bolt at %s is %s from the end of its plate; %s.", w.Name, t.text(along), t.text(gap), limit)
}

// checkStrayMarks reports marks of the builder on an edge that has no wall.
func (t *site) checkStrayMarks() {
	for _, l := range t.sides {
		for _, s := range l {
			e := t.edge(s)
			if e.Wall != "" {
				continue
			}
			for _, m := range e.Bolts {
				t.find(ruleBoltWall, true, s.at(min(max(m.Along, 0), s.length), 0), "The builder marks a bolt at %s on %s, which has no wall: give it one, or take the mark away.", t.text(m.Along), s.name())
			}
		}
	}
}

// checkBoltSpec reports what the bolts break on every wall alike.
func (t *site) checkBoltSpec(walls []Wall) {
	if len(walls) == 0 {
		return
	}
	b := t.spec.Bolts
	at := t.sides[walls[0].Loop][walls[0].Edge].at(0, 0)
	if deep := b.deep(); deep < b.Embed {
		t.find(ruleBoltEmbed, true, at, "A bolt of %s that stands up %s goes %s into the concrete; %s is asked: use one of at least %s.",
			t.text(b.Length), t.text(b.Projection), t.text(deep), t.text(b.Embed), t.text(b.Embed+b.Projection))
	}
	if b.Embed < leastBoltEmbed {
		t.find(ruleBoltEmbed, true, at, "Bolts go %s into the concrete; at least %s is asked.", t.text(b.Embed), t.text(leastBoltEmbed))
	}
	if b.Diameter < leastBoltDiameter {
		t.find(ruleBoltSize, true, at, "Bolts are %s thick; at least %s is asked.", t.text(b.Diameter), t.text(leastBoltDiameter))
	}
	if b.Spacing > mostBoltSpacing {
		t.find(ruleBoltSpacing, true, at, "Bolts may stand %s apart; at most %s is allowed.", t.text(b.Spacing), t.text(mostBoltSpacing))
	}
	if b.EndMax > mostBoltEnd || b.EndMin < leastBoltEnd*b.Diameter {
		t.find(ruleBoltEnds, true, at, "The end bolts may stand %s to %s from a plate's end; at least %d diameters (%s) and at most %s is allowed.", t.text(b.EndMin), t.text(b.EndMax), leastBoltEnd, t.text(leastBoltEnd*b.Diameter), t.text(mostBoltEnd))
	}
	if d := float64(b.Diameter); b.Shape == Bent && (float64(b.Hook) < leastHook*d || float64(b.Hook) > mostHook*d) {
		t.find(ruleBoltHook, false, at, "The hook of a bolt is %s long; from %s to %s, %d to %g diameters, counts against being pulled out.", t.text(b.Hook), t.text(round(leastHook*d)), t.text(round(mostHook*d)), leastHook, mostHook)
	}
	for _, w := range walls {
		s := t.sides[w.Loop][w.Edge]
		width, off := plateWidth(w.Plate), t.boltOffset(w.Plate)
		if off < width/3 || off > width-width/3 {
			t.find(ruleBoltMiddle, true, s.at(s.length/2, 0), "%s: bolts %s from the face stand off the middle third of a %s plate (%s).", w.Name, t.text(off), w.Plate, t.text(width))
		}
		t.checkBoltCover(w, s)
	}
}

// checkBoltCover reports, once for a wall, a bolt that reaches too near the ground,
// where that is worst.
func (t *site) checkBoltCover(w Wall, s side) {
	off, deep := t.boltOffset(w.Plate), t.spec.Bolts.deep()
	worst, least := -1, coverEarth
	for i, bolt := range w.Bolts {
		if under := t.depthUnder(s, bolt.Along, off) - deep; under < least {
			worst, least = i, under
		}
	}
	if worst >= 0 {
		bolt := w.Bolts[worst]
		t.find(ruleCover, false, bolt.At, "%s: under the bolt at %s, %s deep, %s of concrete is left to the ground; %s is asked.", w.Name, t.text(bolt.Along), t.text(deep), t.text(max(0, least)), t.text(coverEarth))
	}
}

// depthUnder gives the slab's depth under a place on an edge, as its section there
// has it.
func (t *site) depthUnder(s side, along, inset geometry.Length) geometry.Length {
	e := t.edge(s)
	name := e.Section
	for _, sp := range t.spans(s) {
		if along >= sp.From && along <= sp.To {
			name = sp.Section
			break
		}
	}
	return depthAt(t.stations(e, name), max(inset, 0), t.plan.Field)
}

// checkApart reports bolts, of any walls, too near each other.
func (t *site) checkApart(walls []Wall) {
	type standing struct {
		wall *Wall
		bolt Bolt
	}
	n := 0
	for i := range walls {
		n += len(walls[i].Bolts)
	}
	all, boxes := make([]standing, 0, n), make([]geometry.Box, 0, n)
	for i := range walls {
		for _, b := range walls[i].Bolts {
			all = append(all, standing{&walls[i], b})
			half := float64(t.spec.Bolts.Apart) / 2
			boxes = append(boxes, geometry.Box{MinX: float64(b.At.X) - half, MinY: float64(b.At.Y) - half, MaxX: float64(b.At.X) + half, MaxY: float64(b.At.Y) + half})
		}
	}
	geometry.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := all[i], all[j]
		if gap := geometry.Distance(a.bolt.At, b.bolt.At); gap < t.spec.Bolts.Apart {
			t.find(ruleBoltApart, a.bolt.HoldDown == b.bolt.HoldDown, a.bolt.At, "%s at %s and %s at %s are %s apart; at least %s.",
				a.wall.Name, t.text(a.bolt.Along), b.wall.Name, t.text(b.bolt.Along), t.text(gap), t.text(t.spec.Bolts.Apart))
		}
	})
}
