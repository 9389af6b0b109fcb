package construction

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

var (
	ruleSaw   = rule.Rule{Name: "Construction joints where a saw cut would be", Source: "ACI 302.1R, from memory", Step: rule.Pour}
	ruleBolts = rule.Rule{Name: "Bolts clear of construction joints", Source: "common practice"}
	ruleEmbed = rule.Rule{Name: "Embeds clear of construction joints", Source: "common practice", Step: rule.Forms}
)

// alike is how far a saw cut may lie beside a joint and be the same line: a sawyer's aim,
// own figure.
const alike = inch

// Saw gives the saw cuts without those that a joint stands for, and reports those that run
// close beside one.
func Saw(t *slab.Slab, cuts []sawcuts.Cut, joints []Joint) []sawcuts.Cut {
	if len(joints) == 0 {
		return cuts
	}
	var out []sawcuts.Cut
	for _, c := range cuts {
		rest := []sawcuts.Cut{c}
		for _, j := range joints {
			for _, l := range j.Lines {
				var left []sawcuts.Cut
				for _, c := range rest {
					left = append(left, beside(t, c, j.Index, l)...)
				}
				rest = left
			}
		}
		out = append(out, rest...)
	}
	return out
}

// leastCut is the shortest saw cut that is left where a joint stands for the rest of it.
const leastCut = geometry.Foot

// slim is how near a saw cut may run beside a joint: panels narrower than 2 ft crack across,
// own figure.
const slim = 2 * geometry.Foot

// beside gives what of a cut is still sawn beside a stretch of a joint.
func beside(t *slab.Slab, c sawcuts.Cut, joint int, l Line) []sawcuts.Cut {
	s := slab.NewSide(-1, -1, l.A, l.B)
	a, da := s.Project(c.A)
	b, db := s.Project(c.B)
	on := min(max(a, b), s.Length) - max(min(a, b), 0)
	if on <= 0 || math.Abs(float64(db-da)) > 0.27*float64(geometry.Distance(c.A, c.B)) { // tan 15°
		return []sawcuts.Cut{c}
	}
	switch near := max(da.Abs(), db.Abs()); {
	case near <= alike: // the joint stands for it, as far as it goes
		cut := slab.NewSide(-1, -1, c.A, c.B)
		p, _ := cut.Project(l.A)
		q, _ := cut.Project(l.B)
		var out []sawcuts.Cut
		for _, rest := range [...]plane.Stretch{{From: 0, To: min(p, q)}, {From: max(p, q), To: cut.Length}} {
			if rest.To-rest.From >= leastCut {
				one := c
				one.A, one.B = geometry.Along(c.A, c.B, rest.From), geometry.Along(c.A, c.B, rest.To)
				out = append(out, one)
			}
		}
		return out
	case near < slim:
		t.Find(ruleSaw, rule.Note, c.A, "A saw cut runs %s beside the construction joint %s: put the joint where the cut is, so that no slim strip is left.", t.Text(near.Round(t.Step())), t.Marks.Construction(joint))
	}
	return []sawcuts.Cut{c}
}

// boltClear is how far bolts are from a joint's face, in diameters, and embeds: common
// practice, no source.
const (
	boltClear  = 4
	embedClear = inch
)

// Check reports bolts and embeds that are in the way of a bulkhead.
func Check(t *slab.Slab, joints []Joint, walls []bolts.Wall, diameter geometry.Length) {
	for _, j := range joints {
		name := t.Marks.Construction(j.Index)
		for _, l := range j.Lines {
			for _, w := range walls {
				for _, b := range w.Bolts {
					if _, away := geometry.Nearest(b.At, l.A, l.B); away-diameter/2 < boltClear*diameter {
						t.Find(ruleBolts, rule.Limit, b.At, "%s: the bolt at %s is nearer than %s to the construction joint %s: move one of them.", w.Name(), t.Text(b.Along), t.Text(boltClear*diameter), name)
					}
				}
			}
			for i, e := range t.Plan.Embeds {
				if _, away := geometry.Nearest(e.Center, l.A, l.B); away-max(e.Width, e.Length)/2 < embedClear {
					t.Find(ruleEmbed, rule.Note, e.Center, "The construction joint %s runs over the embed %s, or nearer than %s: move one of them.", name, t.Marks.Embed(i), t.Text(embedClear))
				}
			}
		}
	}
}
