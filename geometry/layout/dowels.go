package layout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

var (
	ruleDowels    = Rule{"Dowels at the joint", "common practice"}
	ruleDowelBars = Rule{"Dowels clear of bars", "geometry"}
)

// dowels places the dowels of every joint edge: even, at most the spacing apart,
// the first and last clear of the joint's ends and, if asked, none in a door.
// One that would meet a bar is moved along the joint.
func (t *site) dowels(bars []Bar) []Dowel {
	d := t.spec.Dowels
	if d.Size == 0 {
		return nil
	}
	var out []Dowel
	met := newSegments(bars)
	for _, s := range t.sides[0] {
		e := t.edge(s)
		if !e.Joint {
			continue
		}
		depth := min(d.OldSlab, t.depthAtFace(s)) / 2
		t.checkDowels(s)
		crossed := false
		for _, free := range t.freeOfDoors(s, d.Doors) {
			from, to := free.from+d.End, free.to-d.End
			if from > to {
				t.find(ruleDowels, false, s.at((free.from+free.to)/2, 0),
					"%s of the joint on %s is too short for a dowel %s clear of both its ends.", t.text(free.to-free.from), s.name(), t.text(d.End))
				continue
			}
			for _, along := range evenly(from, to, d.Spacing, t.step()) {
				w := t.offBars(s, along, depth, interval{from, to}, met)
				if n := len(out); n > 0 && out[n-1].At == w.At {
					continue // from and to are one
				}
				out = append(out, w)
				if _, across := met.meets(w, d.Size); across && !crossed {
					crossed = true
					t.find(ruleDowelBars, false, w.At, "Bars cross the dowels on %s at their depth of %s: tie them above or below.", s.name(), t.text(depth))
				}
				if !t.contains(w.Inner) {
					t.find(ruleDowels, true, w.At, "The dowel at %s on %s would reach through the new slab.", t.text(along), s.name())
				}
			}
		}
	}
	return out
}

// aside is how far a dowel is moved along the joint to clear a bar: common
// practice, no source.
const aside = 3 * inch

// offBars gives the dowel nearest to a running distance that meets no bar along
// it, or the one there, with a finding, if there is none.
func (t *site) offBars(s side, along, depth geometry.Length, room interval, met *segments) Dowel {
	d := t.spec.Dowels
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
	all := []interval{{0, s.length}}
	if !clear {
		return all
	}
	doors := slices.Clone(t.edge(s).Doors)
	slices.SortFunc(doors, func(a, b plan.Door) int { return cmp.Compare(a.From, b.From) })
	var out []interval
	at := geometry.Length(0)
	for _, d := range doors {
		if d.From > at {
			out = append(out, interval{at, d.From})
		}
		at = d.From + d.Width
	}
	if at < s.length {
		out = append(out, interval{at, s.length})
	}
	return out
}

func (t *site) checkDowels(s side) {
	d := t.spec.Dowels
	db := diameter(d.Size)
	switch {
	case d.OldSlab < 2*coverExposed+db:
		t.find(Rule{"Cover", "ACI 318-19 Table 20.5.1.3.1"}, true, s.at(s.length/2, 0),
			"A No. %d dowel in an old slab of %s has less than 1 1/2\" of cover.", d.Size, t.text(d.OldSlab))
	case d.End < coverEarth:
		t.find(ruleDowels, true, s.at(s.length/2, 0), "The end dowels are %s from the joint's ends, where drilling can break the old slab's edge; keep at least 3\".", t.text(d.End))
	}
}

// HoleVolume gives the volume to fill round one dowel, in m³: the hole less the
// bar.
func (d DowelSpec) HoleVolume() float64 {
	bar := diameter(d.Size).Metres()
	hole := bar + d.Clearance.Metres()
	return math.Pi / 4 * (hole*hole - bar*bar) * d.Embed.Metres()
}
