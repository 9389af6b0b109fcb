package bolts

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// The rules of anchor bolts.
var (
	ruleBoltSpacing = rule.Rule{Name: "Bolt spacing", Source: "IRC R403.1.6"}
	ruleBoltEnds    = rule.Rule{Name: "Bolts at plate ends", Source: "IRC R403.1.6"}
	ruleBoltCount   = rule.Rule{Name: "Two bolts in each plate piece", Source: "IRC R403.1.6"}
	ruleBoltEmbed   = rule.Rule{Name: "Bolt embedment", Source: "IRC R403.1.6"}
	ruleBoltSize    = rule.Rule{Name: "Bolt diameter", Source: "IRC R403.1.6"}
	ruleBoltMiddle  = rule.Rule{Name: "Bolt in the middle third of the plate", Source: "IRC R403.1.6"}
	ruleBoltOpening = rule.Rule{Name: "No bolt in an opening", Source: "common practice"}
	ruleBoltApart   = rule.Rule{Name: "Bolts clear of each other", Source: "common practice"}
	ruleBoltStud    = rule.Rule{Name: "Bolts clear of studs", Source: "common practice"}
	ruleBoltBar     = rule.Rule{Name: "Bolts clear of bars", Source: "geometry"}
	ruleBoltWall    = rule.Rule{Name: "Bolts stand on a wall", Source: "common practice"}
	ruleBoltDeep    = rule.Rule{Name: "Bolts end in the concrete", Source: "geometry"}
	ruleBoltHook    = rule.Rule{Name: "Hook of a bent bolt", Source: "ACI 318-19 17.6.3.2.2"}
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
func (t *anchoring) checkWall(w *Wall, s slab.Side, on []slab.Interval) {
	for i, p := range on {
		t.checkPiece(w, s, p, w.Pieces[i])
	}
	for _, bolt := range w.Bolts {
		plated := slices.ContainsFunc(on, func(p slab.Interval) bool { return bolt.Along >= p.From && bolt.Along <= p.To })
		switch {
		case !plated && (bolt.Along < 0 || bolt.Along > w.Length):
			t.Find(ruleBoltOpening, rule.Severe, s.At(min(max(bolt.Along, 0), w.Length), 0), "%s: the mark at %s lies off the wall, which is %s long.", w.Name(), t.Text(bolt.Along), t.Text(w.Length))
		case !plated:
			t.Find(ruleBoltOpening, rule.Severe, bolt.At, "%s: the mark at %s is in an opening or off the plate.", w.Name(), t.Text(bolt.Along))
		case t.stud(bolt.Along, w) && !bolt.HoldDown:
			t.Find(ruleBoltStud, rule.Note, bolt.At, "%s: the bolt at %s is under a stud; notch the washer's side or move the stud.", w.Name(), t.Text(bolt.Along))
		}
	}
}

// checkPiece reports what the bolts of one piece of plate break, which lies on p of
// their line.
func (t *anchoring) checkPiece(w *Wall, s slab.Side, p slab.Interval, piece Plate) {
	var in []geometry.Length
	for _, bolt := range w.Bolts {
		if !bolt.HoldDown && bolt.Along >= p.From && bolt.Along <= p.To {
			in = append(in, bolt.Along)
		}
	}
	if t.shortWall(w, s, in) {
		return
	}
	middle := s.At((piece.From+piece.To)/2, 0)
	if p.From == p.To {
		t.Find(ruleBoltCount, rule.Limit, middle, "%s: the plate from %s to %s is a point that does not reach the line of the bolts: it has none. Cut it off, or strap it down.",
			w.Name(), t.Text(piece.From), t.Text(piece.To))
		return
	}
	if t.tooShort(p) && len(in) == 0 {
		t.Find(ruleBoltCount, rule.Limit, middle, "%s: the plate from %s to %s has no bolt: none would be %s from both its ends. Make it one with the next, or strap it down.",
			w.Name(), t.Text(p.From), t.Text(p.To), t.Text(t.spec.EndMin))
		return
	}
	if len(in) < 2 {
		t.Find(ruleBoltCount, rule.Limit, middle, "%s: the plate from %s to %s has %d of the 2 bolts it needs.", w.Name(), t.Text(p.From), t.Text(p.To), len(in))
	}
	if len(in) == 0 {
		return
	}
	first, last := in[0], in[len(in)-1]
	t.checkEnd(w, s, first, first-p.From, first-piece.From)
	t.checkEnd(w, s, last, p.To-last, piece.To-last)
	most := t.spec.Spacing
	for i := 1; i < len(in); i++ {
		if gap := in[i] - in[i-1]; gap > most {
			t.Find(ruleBoltSpacing, rule.Limit, s.At((in[i]+in[i-1])/2, 0), "%s: %s between the bolts at %s and %s; at most %s.", w.Name(), t.Text(gap), t.Text(in[i-1]), t.Text(in[i]), t.Text(most))
		}
	}
}

// The lengths of walls that connect offset braced wall panels and want one bolt, or
// none: IRC R403.1.6, exceptions 1 and 2 (2018).
const oneBoltWall, noBoltWall = 24 * inch, 12 * inch

// shortWall reports, as a thing to know, a wall whose bolts are fewer than two and enough
// by the exceptions for short walls: one in the middle third up to 24 in, none up to 12.
func (t *anchoring) shortWall(w *Wall, s slab.Side, in []geometry.Length) bool {
	how := ""
	switch {
	case len(in) == 0 && w.Length <= rule.Most(noBoltWall, t.Units):
		how = "none"
	case len(in) == 1 && w.Length <= rule.Most(oneBoltWall, t.Units) && in[0] >= w.Length/3 && in[0] <= w.Length-w.Length/3:
		how = "1, in its middle third,"
	default:
		return false
	}
	t.Find(ruleBoltCount, rule.Note, s.At(w.Length/2, 0), "%s: with %[3]s of 2 bolts, %[2]s of wall do where they connect offset braced wall panels and are nailed to them at the corners; elsewhere it needs 2.", w.Name(), t.Text(w.Length), how)
	return true
}

// checkEnd reports a bolt that stands too near the end of its plate, or too far
// from it: so far on its own line, and from the tip of a plate that is cut to a point.
func (t *anchoring) checkEnd(w *Wall, s slab.Side, along, gap, tip geometry.Length) {
	b := t.spec
	limit, most := "", rule.Most(b.EndMax, t.Units)
	gap, tip = gap.Round(t.Step()), tip.Round(t.Step()) // as marks are read
	switch {
	case gap > most:
		limit = "at most " + t.Text(most)
	case gap < b.EndMin:
		limit = "at least " + t.Text(b.EndMin)
	case tip > most:
		t.Find(ruleBoltEnds, rule.Limit, s.At(along, 0), "%s: the plate's point reaches %s past the bolt at %s; at most %s. Cut it off there, or hold it down.", w.Name(), t.Text(tip), t.Text(along), t.Text(most))
		return
	default:
		return
	}
	t.Find(ruleBoltEnds, rule.Limit, s.At(along, 0), "%s: the bolt at %s is %s from the end of its plate; %s.", w.Name(), t.Text(along), t.Text(gap), limit)
}

// checkStrayMarks reports marks of the builder on an edge that has no wall.
func (t *anchoring) checkStrayMarks() {
	for _, l := range t.Sides {
		for _, s := range l {
			e := t.Edge(s)
			if e.Wall != "" && !t.jog(s) {
				continue
			}
			for _, m := range e.Bolts {
				t.Find(ruleBoltWall, rule.Severe, s.At(min(max(m.Along, 0), s.Length), 0), "The builder marks a bolt at %s on %s, which has no wall: give it one, or take the mark away.", t.Text(m.Along), t.SideName(s))
			}
		}
	}
}

// checkBoltSpec reports what the bolts break on every wall alike.
func (t *anchoring) checkBoltSpec(walls []Wall) {
	if len(walls) == 0 {
		return
	}
	b := t.spec
	at := walls[0].Side.At(0, 0)
	if deep := b.deep(); deep < b.Embed {
		t.Find(ruleBoltEmbed, rule.Limit, at, "A bolt of %s that stands up %s goes %s into the concrete; %s is asked: use one of at least %s.",
			t.Text(b.Length), t.Text(b.Projection), t.Text(deep), t.Text(b.Embed), t.Text(b.Embed+b.Projection))
	}
	if b.Embed < leastBoltEmbed {
		t.Find(ruleBoltEmbed, rule.Limit, at, "Bolts go %s into the concrete; at least %s is asked.", t.Text(b.Embed), t.Text(leastBoltEmbed))
	}
	if b.Diameter < leastBoltDiameter {
		t.Find(ruleBoltSize, rule.Limit, at, "Bolts are %s thick; at least %s is asked.", t.Text(b.Diameter), t.Text(leastBoltDiameter))
	}
	if most := rule.Most(mostBoltSpacing, t.Units); b.Spacing > most {
		t.Find(ruleBoltSpacing, rule.Limit, at, "Bolts may stand %s apart; at most %s is allowed.", t.Text(b.Spacing), t.Text(most))
	}
	if most := rule.Most(mostBoltEnd, t.Units); b.EndMax > most || b.EndMin < leastBoltEnd*b.Diameter {
		t.Find(ruleBoltEnds, rule.Limit, at, "The end bolts may stand %s to %s from a plate's end; at least %d diameters (%s) and at most %s is allowed.", t.Text(b.EndMin), t.Text(b.EndMax), leastBoltEnd, t.Text(leastBoltEnd*b.Diameter), t.Text(most))
	}
	if d := float64(b.Diameter); b.Shape == Bent && (float64(b.Hook) < leastHook*d || float64(b.Hook) > mostHook*d) {
		t.Find(ruleBoltHook, rule.Note, at, "The hook of a bolt is %s long; from %s to %s, %d to %g diameters, counts against being pulled out.", t.Text(b.Hook), t.Text(geometry.Rounded(leastHook*d)), t.Text(geometry.Rounded(mostHook*d)), leastHook, mostHook)
	}
	t.checkSet(walls)
}

// checkSet reports of each wall bolts that are set where they hold too little.
func (t *anchoring) checkSet(walls []Wall) {
	for _, w := range walls {
		s := w.Side
		width, off := w.Plate.Width, w.Offset
		if off < width/3 || off > width-width/3 {
			t.Find(ruleBoltMiddle, rule.Limit, s.At(s.Length/2, 0), "%s: bolts %s from the face stand off the middle third of a %s plate (%s).", w.Name(), t.Text(off), w.Plate, t.Text(width))
		}
		t.checkBoltCover(w)
		t.checkCurb(w)
	}
}

// checkBoltCover reports, once for a wall, a bolt that reaches too near the ground or
// into it, where that is worst.
func (t *anchoring) checkBoltCover(w Wall) {
	deep := t.spec.deep()
	worst, least := -1, bars.LeastEarth(t.Units)
	for i, bolt := range w.Bolts {
		if under := t.depthUnder(w, bolt) + bolt.Rise - deep; under < least {
			worst, least = i, under
		}
	}
	switch {
	case worst < 0:
	case least < 0:
		bolt, mend, in := w.Bolts[worst], "dig the edge deeper", "slab is"
		if bolt.Rise > 0 {
			in = "slab with its curb is"
		}
		if w.Own > 0 {
			mend = "lay a thickened strip under the wall"
		}
		t.Find(ruleBoltDeep, rule.Severe, bolt.At, "%s: the bolt at %s reaches %s down, and the %s %s deep there: it would stand %s in the ground. Take a shorter one or %s.",
			w.Name(), t.Text(bolt.Along), t.Text(deep), in, t.Text(deep+least), t.Text(-least), mend)
	default:
		bolt := w.Bolts[worst]
		t.Find(bars.RuleCover, rule.Note, bolt.At, "%s: under the bolt at %s, %s deep, %s of concrete is left to the ground; %s is asked.", w.Name(), t.Text(bolt.Along), t.Text(deep), t.Text(least), t.Text(bars.LeastEarth(t.Units)))
	}
}

// depthUnder gives how deep the slab is under a bolt.
func (t *anchoring) depthUnder(w Wall, b Bolt) geometry.Length {
	if w.Own == 0 {
		return t.DepthUnder(w.Side, b.Along, w.Offset)
	}
	if t.Solid != nil {
		if deep, ok := t.Solid.DepthAt(b.At); ok {
			return deep
		}
	}
	return t.Plan.Field
}

// checkApart reports bolts, of any walls, too near each other; those of which one is of a
// wall from the first on.
func (t *anchoring) checkApart(walls []Wall, first int) {
	type standing struct {
		no   int
		wall *Wall
		bolt Bolt
	}
	n := 0
	for i := range walls {
		n += len(walls[i].Bolts)
	}
	all, boxes := make([]standing, 0, n), make([]plane.Box, 0, n)
	for i := range walls {
		for _, b := range walls[i].Bolts {
			all = append(all, standing{i, &walls[i], b})
			boxes = append(boxes, plane.BoxOf(b.At).Grown(float64(t.spec.Apart)/2))
		}
	}
	plane.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := all[i], all[j]
		if max(a.no, b.no) < first {
			return
		}
		if gap := geometry.Distance(a.bolt.At, b.bolt.At); gap < t.spec.Apart-geometry.Micrometer { // but for rounding
			severity := rule.Note
			if a.bolt.HoldDown == b.bolt.HoldDown {
				severity = rule.Limit
			}
			t.Find(ruleBoltApart, severity, a.bolt.At, "%s at %s and %s at %s are %s apart; at least %s.",
				a.wall.Name(), t.Text(a.bolt.Along), b.wall.Name(), t.Text(b.bolt.Along), t.Text(gap), t.Text(t.spec.Apart))
		}
	})
}
