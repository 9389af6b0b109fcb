package layout

import (
	"slices"

	"haunchbook/geometry"
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
)

// bolts places the anchor bolts in the pieces of every wall and checks them.
func (t *site) bolts(walls []Wall) {
	for i := range walls {
		w := &walls[i]
		s := t.sides[w.Loop][w.Edge]
		var own, hold []geometry.Length
		for _, m := range t.edge(s).Bolts {
			if m.HoldDown {
				hold = append(hold, m.Along)
			} else {
				own = append(own, m.Along)
			}
		}
		along := own
		if len(own) == 0 {
			for _, p := range w.Pieces {
				along = append(along, t.boltPiece(p, s, hold)...)
			}
		}
		for _, a := range along {
			w.Bolts = append(w.Bolts, Bolt{Along: a, Builder: len(own) > 0})
		}
		for _, a := range hold {
			w.Bolts = append(w.Bolts, Bolt{Along: a, Builder: true, HoldDown: true})
		}
		slices.SortStableFunc(w.Bolts, func(a, b Bolt) int { return int(min(max(a.Along-b.Along, -1), 1)) })
		for k := range w.Bolts {
			w.Bolts[k].Back = w.Length - w.Bolts[k].Along
			w.Bolts[k].At = s.at(w.Bolts[k].Along, t.boltOffset(w.Plate))
		}
		t.checkWall(w, s)
	}
	t.checkBoltSpec(walls)
	t.checkApart(walls)
}

// boltOffset gives how far from the face bolts stand.
func (t *site) boltOffset(plate string) geometry.Length {
	if t.spec.Bolts.Offset > 0 {
		return t.spec.Bolts.Offset
	}
	return plateWidth(plate) / 2
}

// boltPiece spaces the bolts of one plate piece evenly between its ends, and
// moves those under a stud.
func (t *site) boltPiece(p Plate, s side, hold []geometry.Length) []geometry.Length {
	b := t.spec.Bolts
	first, last := (p.From + b.End).Round(t.step()), (p.To - b.End).Round(t.step())
	if last-first < b.Apart { // a short piece: its bolts as near the ends as may be
		first, last = p.From+b.EndMin, p.To-b.EndMin
		if last-first < b.Apart {
			return []geometry.Length{(p.From + p.To) / 2}
		}
		return []geometry.Length{first, last}
	}
	for n := geometry.Length(1); ; n++ {
		if n < (last-first+b.Spacing-1)/b.Spacing {
			continue
		}
		out := make([]geometry.Length, 0, n+1)
		for k := range n + 1 {
			out = append(out, place(first, last, k, n, t.step()))
		}
		if t.widest(out) > b.Spacing {
			continue
		}
		t.offStuds(out, p, s, hold)
		return out
	}
}

// widest gives the greatest gap between neighbours.
func (t *site) widest(along []geometry.Length) geometry.Length {
	var w geometry.Length
	for i := 1; i < len(along); i++ {
		w = max(w, along[i]-along[i-1])
	}
	return w
}

// offStuds moves bolts that stand under a stud or beside a hold-down to the
// nearest clear place that breaks no other rule, if there is one within Shift.
func (t *site) offStuds(along []geometry.Length, p Plate, s side, hold []geometry.Length) {
	b := t.spec.Bolts
	free := func(a geometry.Length) bool {
		if t.stud(a, s) {
			return false
		}
		for _, h := range hold {
			if (h - a).Abs() < b.Apart {
				return false
			}
		}
		return true
	}
	for i, a := range along {
		if free(a) {
			continue
		}
		lo, hi := p.From+b.EndMin, p.To-b.EndMin
		if i == 0 {
			hi = min(hi, p.From+b.EndMax)
		} else {
			lo = max(lo, along[i-1]+b.Apart)
			hi = min(hi, along[i-1]+b.Spacing)
		}
		if i == len(along)-1 {
			lo = max(lo, p.To-b.EndMax)
		} else {
			lo = max(lo, along[i+1]-b.Spacing)
			hi = min(hi, along[i+1]-b.Apart)
		}
		for d := t.step(); d <= b.Shift; d += t.step() {
			if c := a + d; c <= hi && c >= lo && free(c) {
				along[i] = c
				break
			}
			if c := a - d; c <= hi && c >= lo && free(c) {
				along[i] = c
				break
			}
		}
	}
}

// studThickness is dressed, PS 20.
const studThickness = 3 * geometry.Inch / 2

// stud tells whether a nut and washer at a running distance would be under a
// stud. Studs stand on multiples of their spacing from the wall's start, the
// first and the last flush with the ends.
func (t *site) stud(along geometry.Length, s side) bool {
	b := t.spec.Bolts
	if b.Stud <= 0 {
		return false
	}
	clear := (studThickness + b.Washer) / 2
	near := along.Round(b.Stud)
	if near == 0 {
		near = studThickness / 2
	}
	if (along-near).Abs() < clear && near < s.length {
		return true
	}
	return (along - (s.length - studThickness/2)).Abs() < clear
}

// checkWall reports what the bolts of a wall break.
func (t *site) checkWall(w *Wall, s side) {
	b := t.spec.Bolts
	for _, p := range w.Pieces {
		var in []geometry.Length
		for _, bolt := range w.Bolts {
			if !bolt.HoldDown && bolt.Along >= p.From && bolt.Along <= p.To {
				in = append(in, bolt.Along)
			}
		}
		mid := s.at((p.From+p.To)/2, 0)
		if len(in) < 2 {
			t.find(ruleBoltCount, true, mid, "%s: the plate from %s to %s has %d of the 2 bolts it needs.", w.Name, t.text(p.From), t.text(p.To), len(in))
		}
		if len(in) == 0 {
			continue
		}
		for _, end := range [...]struct{ gap, along geometry.Length }{{in[0] - p.From, in[0]}, {p.To - in[len(in)-1], in[len(in)-1]}} {
			switch {
			case end.gap > b.EndMax:
				t.find(ruleBoltEnds, true, s.at(end.along, 0), "%s: the bolt at %s is %s from the end of its plate; at most %s.", w.Name, t.text(end.along), t.text(end.gap), t.text(b.EndMax))
			case end.gap < b.EndMin:
				t.find(ruleBoltEnds, true, s.at(end.along, 0), "%s: the bolt at %s is %s from the end of its plate; at least %s.", w.Name, t.text(end.along), t.text(end.gap), t.text(b.EndMin))
			}
		}
		for i := 1; i < len(in); i++ {
			if gap := in[i] - in[i-1]; gap > b.Spacing {
				t.find(ruleBoltSpacing, true, s.at((in[i]+in[i-1])/2, 0), "%s: %s between the bolts at %s and %s; at most %s.", w.Name, t.text(gap), t.text(in[i-1]), t.text(in[i]), t.text(b.Spacing))
			}
		}
	}
	for _, bolt := range w.Bolts {
		on := slices.ContainsFunc(w.Pieces, func(p Plate) bool { return bolt.Along >= p.From && bolt.Along <= p.To })
		switch {
		case bolt.Along < 0 || bolt.Along > w.Length:
			t.find(ruleBoltOpening, true, s.at(min(max(bolt.Along, 0), w.Length), 0), "%s: the mark at %s lies off the wall, which is %s long.", w.Name, t.text(bolt.Along), t.text(w.Length))
		case !on:
			t.find(ruleBoltOpening, true, bolt.At, "%s: the mark at %s is in an opening or off the plate.", w.Name, t.text(bolt.Along))
		case t.stud(bolt.Along, s) && !bolt.HoldDown:
			t.find(ruleBoltStud, false, bolt.At, "%s: the bolt at %s is under a stud; notch the washer's side or move the stud.", w.Name, t.text(bolt.Along))
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
	if deep := b.Length - b.Projection; deep < b.Embed {
		t.find(ruleBoltEmbed, true, at, "A bolt of %s that stands up %s goes %s into the concrete; %s is asked: use one of at least %s.",
			t.text(b.Length), t.text(b.Projection), t.text(deep), t.text(b.Embed), t.text(b.Embed+b.Projection))
	}
	if b.Embed < 7*geometry.Inch {
		t.find(ruleBoltEmbed, true, at, "Bolts go %s into the concrete; at least 7\" is asked.", t.text(b.Embed))
	}
	if b.Diameter < geometry.Inch/2 {
		t.find(ruleBoltSize, true, at, "Bolts are %s thick; at least 1/2\" is asked.", t.text(b.Diameter))
	}
	if b.Spacing > 6*geometry.Foot {
		t.find(ruleBoltSpacing, true, at, "Bolts may stand %s apart; at most 6'-0\" is allowed.", t.text(b.Spacing))
	}
	if b.EndMax > 12*geometry.Inch || b.EndMin < 7*b.Diameter {
		t.find(ruleBoltEnds, true, at, "The end bolts may stand %s to %s from a plate's end; at least 7 diameters (%s) and at most 12\" is allowed.", t.text(b.EndMin), t.text(b.EndMax), t.text(7*b.Diameter))
	}
	for _, w := range walls {
		s := t.sides[w.Loop][w.Edge]
		width, off := plateWidth(w.Plate), t.boltOffset(w.Plate)
		if off < width/3 || off > width-width/3 {
			t.find(ruleBoltMiddle, true, s.at(s.length/2, 0), "%s: bolts %s from the face stand off the middle third of a %s plate (%s).", w.Name, t.text(off), w.Plate, t.text(width))
		}
		if deep := t.depthUnder(s, off); deep < b.Length-b.Projection+coverEarth {
			t.find(Rule{"Cover", "ACI 318-19 Table 20.5.1.3.1"}, false, s.at(s.length/2, 0), "%s: under a bolt %s deep only %s of concrete is left to the ground; 3\" is asked.", w.Name, t.text(b.Length-b.Projection), t.text(max(0, deep-b.Length+b.Projection)))
		}
	}
}

// depthUnder gives the slab's depth at an inset from an edge.
func (t *site) depthUnder(s side, inset geometry.Length) geometry.Length {
	e := t.edge(s)
	return depthAt(t.stations(e, e.Section), inset, t.plan.Field)
}

// checkApart reports bolts, of any walls, too near each other.
func (t *site) checkApart(walls []Wall) {
	type standing struct {
		wall *Wall
		bolt Bolt
	}
	var all []standing
	var boxes []geometry.Box
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

// hits reports bolts that meet a bar.
func (t *site) hits(walls []Wall, bars []Bar) {
	b := t.spec.Bolts
	deep := b.Length - b.Projection
	met := newSegments(bars)
	for i := range walls {
		for _, bolt := range walls[i].Bolts {
			for _, k := range met.near(bolt.At, bolt.At, b.Diameter) {
				bar := met.all[k]
				d, depth := toSegment(bolt.At, bar.a, bar.b)
				if d < (b.Diameter+bar.db)/2 && depth-bar.db/2 < deep {
					t.find(ruleBoltBar, false, bolt.At, "%s: the bolt at %s meets a bar %s deep: tie the bar aside.", walls[i].Name, t.text(bolt.Along), t.text(depth))
					break
				}
			}
		}
	}
}
