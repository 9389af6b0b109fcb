package layout

import (
	"cmp"
	"math"
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

var ruleDowels = Rule{"Dowels at the joint", "common practice"}

// dowels places the dowels of every joint edge: even, at most the spacing apart,
// the first and last clear of the joint's ends and, if asked, none in a door.
func (t *site) dowels() []Dowel {
	d := t.spec.Dowels
	if d.Size == 0 {
		return nil
	}
	var out []Dowel
	for _, s := range t.sides[0] {
		e := t.edge(s)
		if !e.Joint {
			continue
		}
		depth := min(d.OldSlab, t.depthAtFace(s)) / 2
		t.checkDowels(s, depth)
		for _, free := range t.freeOfDoors(s, d.Doors) {
			from, to := free.from+d.End, free.to-d.End
			if from > to {
				t.find(ruleDowels, false, s.at((free.from+free.to)/2, 0),
					"%s of the joint on %s is too short for a dowel %s clear of both its ends.", t.text(free.to-free.from), s.name(), t.text(d.End))
				continue
			}
			for _, along := range evenly(from, to, d.Spacing, t.step()) {
				w := Dowel{Edge: s.edge, Along: along, At: s.at(along, 0), Inner: s.at(along, d.Length-d.Embed), Outer: s.at(along, -d.Embed), Depth: depth}
				if n := len(out); n > 0 && out[n-1].At == w.At {
					continue // from and to are one
				}
				out = append(out, w)
				if !t.contains(w.Inner) {
					t.find(ruleDowels, true, w.At, "The dowel at %s on %s would reach through the new slab.", t.text(along), s.name())
				}
			}
		}
	}
	return out
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

func (t *site) checkDowels(s side, depth geometry.Length) {
	d := t.spec.Dowels
	db := diameter(d.Size)
	switch {
	case d.OldSlab < 2*coverExposed+db:
		t.find(Rule{"Cover", "ACI 318-19 Table 20.5.1.3.1"}, true, s.at(s.length/2, 0),
			"A No. %d dowel in an old slab of %s has less than 1 1/2\" of cover.", d.Size, t.text(d.OldSlab))
	case d.End < coverEarth:
		t.find(ruleDowels, true, s.at(s.length/2, 0), "The end dowels are %s from the joint's ends, where drilling can break the old slab's edge; keep at least 3\".", t.text(d.End))
	}
	for i := range t.spec.Bars.Rows {
		r := t.row(i)
		if t.edge(s).Section == "" || t.spec.Bars.Joint == StopAtJoint || r.inset > d.Length-d.Embed {
			continue
		}
		spans := t.loops[s.loop].Spans(s.edge)
		if gap := (t.depth(r, t.edge(s), spans[0]) - depth).Abs(); gap < (r.db+db)/2 {
			t.find(Rule{"Dowels clear of bars", "geometry"}, false, s.at(s.length/2, 0),
				"Row %d lies at the depth of the dowels on %s: tie it above or below them.", r.number, s.name())
		}
	}
}

// HoleVolume gives the volume to fill round one dowel, in m³: the hole less the
// bar.
func (d DowelSpec) HoleVolume() float64 {
	bar := diameter(d.Size).Metres()
	hole := bar + d.Clearance.Metres()
	return math.Pi / 4 * (hole*hole - bar*bar) * d.Embed.Metres()
}
