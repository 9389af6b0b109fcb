package layout

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var (
	ruleDowels    = Rule{"Dowels at the joint", "common practice"}
	ruleDowelBars = Rule{"Dowels clear of bars", "geometry"}

	ruleDowelsApart = Rule{"Dowels clear of each other", "geometry"}
)

// dowels places the dowels of every joint edge of the outline: even, at most the
// spacing apart, the first and last clear of the joint's ends and, if asked, none
// in a door. One that would meet a bar is moved along the joint.
func (t *site) dowels(met *segments) []Dowel {
	d := t.spec.Dowels
	if d.Size == 0 {
		return nil
	}
	if !t.fits("Dowels", t.run(func(e plan.Edge) bool { return e.Joint }), d.Spacing) {
		return nil
	}
	var out []Dowel
	for _, s := range t.sides[0] {
		if !t.edge(s).Joint {
			continue
		}
		t.checkDowels(s)
		from := len(out)
		for _, free := range t.freeOfDoors(s, d.Doors) {
			room := interval{free.from + d.End, free.to - d.End}
			if room.from > room.to {
				t.find(ruleDowels, false, s.at((free.from+free.to)/2, 0),
					"%s of the joint on %s is too short for a dowel %s clear of both its ends.", t.text(free.to-free.from), s.name(), t.text(d.End))
				continue
			}
			out = append(out, t.dowelRun(s, room, met)...)
		}
		t.checkCrossed(s, out[from:], met)
	}
	t.checkDowelsApart(out)
	return out
}

// dowelRun places the dowels of one stretch of a joint.
func (t *site) dowelRun(s side, room interval, met *segments) []Dowel {
	var out []Dowel
	for _, along := range slices.Compact(evenly(room.from, room.to, t.spec.Dowels.Spacing, t.step())) {
		w := t.offBars(s, along, room, met)
		if n := len(out); n > 0 && w.Along-out[n-1].Along > t.spec.Dowels.Spacing {
			t.find(ruleDowels, false, w.At, "The dowels at %s and %s on %s, moved off a bar, are %s apart; %s is asked.",
				t.text(out[n-1].Along), t.text(w.Along), s.name(), t.text(w.Along-out[n-1].Along), t.text(t.spec.Dowels.Spacing))
		}
		if !t.contains(w.Inner) {
			t.find(ruleDowels, true, w.At, "The dowel at %s on %s would reach through the new slab.", t.text(along), s.name())
		}
		out = append(out, w)
	}
	return out
}

// checkCrossed reports, once for an edge, bars that cross its dowels.
func (t *site) checkCrossed(s side, ds []Dowel, met *segments) {
	for _, w := range ds {
		if _, across := met.meets(w, t.spec.Dowels.Size); across {
			t.find(ruleDowelBars, false, w.At, "Bars cross the dowels on %s at their depth of %s: tie them above or below.", s.name(), t.text(w.Depth))
			return
		}
	}
}

// checkDowelsApart reports dowels of two edges that meet in the slab, as near a
// corner between two joints.
func (t *site) checkDowelsApart(ds []Dowel) {
	db := diameter(t.spec.Dowels.Size)
	boxes := make([]geometry.Box, len(ds))
	for i, w := range ds {
		boxes[i] = geometry.BoxOf(w.Outer, w.Inner)
	}
	geometry.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := ds[i], ds[j]
		other := segment{spot{b.Outer, b.Depth}, spot{b.Inner, b.Depth}, db}
		if a.Edge != b.Edge && touches(a.Outer, a.Inner, a.Depth, other, db) {
			t.find(ruleDowelsApart, true, a.At, "The dowel at %s on %s meets that at %s on %s: start one of them further from the corner.",
				t.text(a.Along), t.sides[0][a.Edge].name(), t.text(b.Along), t.sides[0][b.Edge].name())
		}
	})
}

// aside is how far a dowel is moved along the joint to clear a bar: common
// practice, no source.
const aside = 3 * inch

// offBars gives the dowel nearest to a running distance that meets no bar along
// it, or the one there, with a finding, if there is none.
func (t *site) offBars(s side, along geometry.Length, room interval, met *segments) Dowel {
	d := t.spec.Dowels
	depth := min(d.OldSlab, t.depthAtFace(s)) / 2
	at := func(along geometry.Length) Dowel {
		return Dowel{Edge: s.edge, Along: along, At: s.at(along, 0), Inner: s.at(along, d.Length-d.Embed), Outer: s.at(along, -d.Embed), Depth: depth}
	}
	first := at(along)
	if hit, _ := met.meets(first, d.Size); !hit {
		return first
	}
	for shift := inch / 2; shift <= aside; shift += inch / 2 {
		for _, a := range [...]geometry.Length{along + shift, along - shift} {
			if a < room.from || a > room.to {
				continue
			}
			w := at(a)
			if hit, _ := met.meets(w, d.Size); !hit {
				return w
			}
		}
	}
	t.find(ruleDowelBars, false, first.At,
		"The dowel at %s on %s lies in a bar beside it: move the bar.", t.text(along), s.name())
	return first
}

// depthAtFace gives the slab's depth at the middle of an edge, at its face.
func (t *site) depthAtFace(s side) geometry.Length {
	e := t.edge(s)
	if st := t.stations(e, e.Section); st != nil {
		return st[0].Depth
	}
	return t.plan.Field
}

// freeOfDoors gives the stretches of an edge between its doors, or all of it.
func (t *site) freeOfDoors(s side, clear bool) []interval {
	if !clear {
		return []interval{{0, s.length}}
	}
	return t.free[s.loop][s.edge]
}

func (t *site) checkDowels(s side) {
	d := t.spec.Dowels
	db := diameter(d.Size)
	switch {
	case d.OldSlab < 2*coverExposed(d.Size)+db:
		t.find(ruleCover, true, s.at(s.length/2, 0),
			"A No. %d dowel in an old slab of %s has less than %s of cover.", d.Size, t.text(d.OldSlab), t.text(coverExposed(d.Size)))
	case d.End < coverEarth:
		t.find(ruleDowels, true, s.at(s.length/2, 0), "The end dowels are %s from the joint's ends, where drilling can break the old slab's edge; keep at least 3\".", t.text(d.End))
	}
}

// HoleVolume gives the volume to fill round one dowel, in m³: the hole less the
// bar.
func (d DowelSpec) HoleVolume() float64 {
	bar := diameter(d.Size).Meters()
	hole := bar + d.Clearance.Meters()
	return math.Pi / 4 * (hole*hole - bar*bar) * d.Embed.Meters()
}
