// Package bolts places the walls that stand on a slab: sill plates cut to stock, and
// the anchor bolts that hold them, clear of studs, openings and bars.
package bolts

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Lay places the walls of a slab, with their plates and bolts, and checks them
// against each other, against the bars, and against saw cuts, which bolts are kept off where
// they can be. Bolts have no marks yet.
func Lay(s *slab.Slab, spec Spec, met *bars.Segments, cuts []Line) []Wall {
	spec.EndMin = spec.LeastEnd()
	t := anchoring{Slab: s, spec: spec}
	if len(cuts) > 0 {
		t.clear = func(at geometry.Point) bool { return !near(at, cuts, spec.offCut()) }
	}
	walls := t.walls()
	t.bolts(walls)
	t.hits(walls, met)
	t.checkEnds(walls, cuts)
	return walls
}

// anchoring holds the walls down.
type anchoring struct {
	*slab.Slab
	spec  Spec
	clear func(at geometry.Point) bool // of what bolts are moved off besides studs; nil for nothing
}

// bolts places the anchor bolts in the pieces of every wall and checks them.
func (t *anchoring) bolts(walls []Wall) {
	if !t.Fits("Anchor bolts", t.Run(func(e plan.Edge) bool { return e.Wall != "" }), t.spec.Spacing) {
		return
	}
	for i := range walls {
		w := &walls[i]
		t.anchor(w, t.Edge(w.Side).Bolts)
	}
	t.checkStrayMarks()
	t.checkBoltSpec(walls)
	t.checkApart(walls, 0)
}

// anchor places the bolts of a wall, with the builder's marks on it, and checks them.
func (t *anchoring) anchor(w *Wall, marks []plan.BoltMark) {
	on := t.boltLines(w, w.Side)
	w.Bolts = t.wallBolts(w, marks, on)
	for k := range w.Bolts {
		b := &w.Bolts[k]
		b.Back = w.Length - b.Along
		b.At = w.Side.At(b.Along, w.Offset)
		if on, ok := t.Curbs.Under(b.At); ok {
			b.Rise, b.Wide = t.Curbs.High(on, b.At), on.Width
		}
	}
	t.checkWall(w, w.Side, on)
}

// wallBolts gives the bolts of one wall in order: those of the builder, where he
// gives any that are no hold-downs, else those that the rules place.
func (t *anchoring) wallBolts(w *Wall, marks []plan.BoltMark, on []slab.Interval) []Bolt {
	var out []Bolt
	var hold []geometry.Length
	own := false
	for _, m := range marks {
		out = append(out, Bolt{Along: m.Along, Builder: true, HoldDown: m.HoldDown})
		if m.HoldDown {
			hold = append(hold, m.Along)
		}
		own = own || !m.HoldDown
	}
	if !own {
		for _, p := range on {
			for _, a := range t.boltPiece(p, w, hold) {
				out = append(out, Bolt{Along: a})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Bolt) int { return cmp.Compare(a.Along, b.Along) })
	return out
}

// boltOffset gives how far from the face bolts stand.
func (t *anchoring) boltOffset(plate lumber.Board) geometry.Length {
	if t.spec.Offset > 0 {
		return t.spec.Offset
	}
	return plate.Width / 2
}

// boltLines gives, for every piece of a wall's plate, its stretch of the line on
// which the bolts stand: less than From to To where an end is mitered, and none where the piece
// is a point that does not reach the line, as into a sharp corner.
func (t *anchoring) boltLines(w *Wall, s slab.Side) []slab.Interval {
	out := make([]slab.Interval, len(w.Pieces))
	for i, p := range w.Pieces {
		out[i] = slab.Interval{From: p.From, To: p.To}
		on := make(shape, 0, len(p.Outline))
		for _, q := range p.Outline {
			along, inset := s.Project(q)
			on = append(on, plane.Vec{X: float64(along), Y: float64(inset)})
		}
		if lo, hi, ok := on.at(float64(w.Offset)); ok {
			out[i] = slab.Interval{From: geometry.Rounded(lo), To: geometry.Rounded(hi)}
		} else if w.Offset < w.Plate.Width { // else the bolts are to stand beside the plate, which is told
			out[i].To = out[i].From
		}
	}
	return out
}

// boltPiece spaces the bolts of one plate piece evenly between its ends, and
// moves those under a stud. A piece that leaves no place far enough from both its ends has
// none: a bolt would split it.
func (t *anchoring) boltPiece(on slab.Interval, w *Wall, hold []geometry.Length) []geometry.Length {
	b := t.spec
	if t.tooShort(on) {
		return nil
	}
	first, last, ok := t.endBolts(on, w)
	if !ok { // no room for two
		return []geometry.Length{roundWithin((on.From+on.To)/2, on.From, on.To, t.Step())}
	}
	out := slab.Evenly(first, last, b.Spacing, t.Step())
	t.offStuds(out, on, w, hold)
	return out
}

// tooShort tells whether no place on a piece of plate is far enough from both its ends.
func (t *anchoring) tooShort(on slab.Interval) bool { return on.To-on.From < 2*t.spec.EndMin }

// endBolts gives the places of the first and the last bolt of a plate piece, and
// false where they would stand too near each other. On a short piece they stand
// as near its ends as they may. A tape hooked at a corner does not reach past it:
// bolts stand within, unless the piece is too short for that.
func (t *anchoring) endBolts(on slab.Interval, w *Wall) (first, last geometry.Length, ok bool) {
	b := t.spec
	for _, try := range [...]struct {
		end    geometry.Length
		within bool
	}{{b.End, true}, {b.EndMin, true}, {b.EndMin, false}} {
		first, last = on.From+try.end, on.To-try.end
		if try.within {
			first = max(first, min(0, on.From+b.EndMax))
			last = min(last, max(w.Length, on.To-b.EndMax))
		}
		first = roundWithin(first, on.From+b.EndMin, on.From+b.EndMax, t.Step())
		last = roundWithin(last, on.To-b.EndMax, on.To-b.EndMin, t.Step())
		if last-first >= max(b.Apart, 1) {
			return first, last, true
		}
	}
	return first, last, false
}

// roundWithin rounds to the grain without leaving lo to hi, where a whole grain
// lies there.
func roundWithin(at, lo, hi, grain geometry.Length) geometry.Length {
	r := at.Round(grain)
	switch {
	case r < lo && r+grain <= hi:
		return r + grain
	case r > hi && r-grain >= lo:
		return r - grain
	case r < lo || r > hi:
		return at
	}
	return r
}

// offStuds moves bolts that stand under a stud or beside a hold-down to the
// nearest clear place that breaks no other rule, if there is one within Shift; likewise off
// what else there is to keep off, where a place has none of it.
func (t *anchoring) offStuds(along []geometry.Length, on slab.Interval, w *Wall, hold []geometry.Length) {
	b := t.spec
	loose := func(a geometry.Length) bool {
		return !t.stud(a, w) && !slices.ContainsFunc(hold, func(h geometry.Length) bool { return (h - a).Abs() < b.Apart })
	}
	all := func(a geometry.Length) bool { return loose(a) && t.clear(w.Side.At(a, w.Offset)) }
	for i, a := range along {
		lo, hi := t.room(along, i, on, w)
		if t.clear != nil {
			if at, ok := t.nearest(a, lo, hi, all); ok {
				along[i] = at
				continue
			}
		}
		if at, ok := t.nearest(a, lo, hi, loose); ok {
			along[i] = at
		}
	}
}

// nearest gives the place nearest to a that is free: a itself, or one from lo to hi within
// Shift.
func (t *anchoring) nearest(a, lo, hi geometry.Length, free func(geometry.Length) bool) (geometry.Length, bool) {
	if free(a) {
		return a, true
	}
	for d := t.Step(); d <= t.spec.Shift; d += t.Step() {
		for _, c := range [...]geometry.Length{a + d, a - d} {
			if c >= lo && c <= hi && free(c) {
				return c, true
			}
		}
	}
	return a, false
}

// room gives where the i-th bolt of a piece may stand without breaking a rule.
func (t *anchoring) room(along []geometry.Length, i int, on slab.Interval, w *Wall) (lo, hi geometry.Length) {
	b := t.spec
	lo, hi = max(on.From+b.EndMin, min(0, along[i])), min(on.To-b.EndMin, max(w.Length, along[i]))
	if i == 0 {
		hi = min(hi, on.From+b.EndMax)
	} else {
		lo = max(lo, along[i-1]+b.Apart)
		hi = min(hi, along[i-1]+b.Spacing)
	}
	if i == len(along)-1 {
		lo = max(lo, on.To-b.EndMax)
	} else {
		lo = max(lo, along[i+1]-b.Spacing)
		hi = min(hi, along[i+1]-b.Apart)
	}
	return lo, hi
}

// studThickness is dressed, PS 20.
const studThickness = 3 * geometry.Inch / 2

// stud tells whether a nut and washer at a running distance would be under a
// stud. Studs stand on multiples of their spacing from the wall's start corner,
// and flush with the ends of its plates.
func (t *anchoring) stud(along geometry.Length, w *Wall) bool {
	b := t.spec
	if b.Stud <= 0 || len(w.Pieces) == 0 {
		return false
	}
	first, last := w.Pieces[0].From, w.Pieces[len(w.Pieces)-1].To
	for _, at := range [...]geometry.Length{along.Round(b.Stud), first + studThickness/2, last - studThickness/2} {
		if at >= first && at <= last && (along-at).Abs() < (studThickness+b.Washer)/2 {
			return true
		}
	}
	return false
}
