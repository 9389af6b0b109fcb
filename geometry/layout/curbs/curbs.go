// Package curbs looks at the raised walls on a slab's edges: what of them is not built as it is
// drawn, and saw cuts, which end at their inner faces. Where they are, plan.Curbs tells; their
// bars, bolts and forms are laid with the others.
package curbs

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var (
	ruleFree = rule.Rule{Name: "Curbs on free edges", Source: "common practice", Step: rule.Forms}
	ruleEven = rule.Rule{Name: "Curbs that meet", Source: "common practice", Step: rule.Forms}
	ruleDoor = rule.Rule{Name: "Curbs beside doors", Source: "common practice", Step: rule.Forms}
	ruleThin = rule.Rule{Name: "Curbs stand on the slab's edge", Source: "common practice", Step: rule.Forms}
)

// tallFor is how many times their width curbs are high at most before they are walls, to be
// designed as such: common practice, no source.
const tallFor = 4

// Check reports curbs that are left out, whole or in part, and those that meet unevenly.
func Check(t *slab.Slab) {
	for _, sides := range t.Sides {
		for _, s := range sides {
			if e := t.Edge(s); e.Curb > 0 && !t.Loops[s.Loop].Within(s.Edge) {
				left(t, s, e)
			}
		}
	}
	for _, c := range t.Curbs.Cuts {
		t.Find(ruleDoor, rule.Limit, c.At, "The curb on %s ends from %s to %s, before door %d of %s, which opens into it there: move the door from the corner, or take the curb off.",
			t.Marks.Edge(c.Loop, c.Edge), t.Text(c.From), t.Text(c.To), c.Door+1, t.Marks.Edge(c.OfLoop, c.Of))
	}
	told := false
	for i, r := range t.Curbs.Runs {
		if _, most := t.Curbs.Range(r); most > tallFor*r.Width && !told {
			told = true
			t.Find(ruleThin, rule.Limit, r.Arc.At(0.5, 0), "The curb on %s is %s high and %s wide: so high it is a wall, which a licensed engineer designs.", t.Marks.Edge(r.Loop, r.Edge), t.Text(most), t.Text(r.Width))
		}
		for k, n := range t.Curbs.Runs {
			if k != i && n.Arc.A == r.Arc.B && n.Loop == r.Loop && (n.Height != r.Height || n.Width != r.Width) {
				t.Find(ruleEven, rule.Note, n.Arc.A, "Curbs of %s by %s and of %s by %s meet here: their bars end beside the corner. Lay bent bars past it, a lap long on either side.",
					t.Text(r.Height), t.Text(r.Width), t.Text(n.Height), t.Text(n.Width))
			}
		}
	}
}

// left reports where an edge has no curb though one is drawn on it.
func left(t *slab.Slab, s slab.Side, e plan.Edge) {
	if e.Joint {
		t.Find(ruleFree, rule.Limit, s.At(s.Length/2, 0), "%s is a joint with the old slab: no curb is built on it. Take the curb off it.", t.SideName(s))
		return
	}
	for _, m := range t.Meetings {
		if m.Laid(s.Loop, s.Edge) {
			t.Find(ruleFree, rule.Limit, s.At((m.From+m.To)/2, 0), "%s has no curb from %s to %s, where it is poured against another slab of the job.", t.SideName(s), t.Text(m.From), t.Text(m.To))
		}
	}
}

// leastCut is the shortest piece of a saw cut that is left beside a curb: common practice, no
// source.
const leastCut = 3 * geometry.Inch

// Saw gives saw cuts as far as they can be sawn: to the inner faces of curbs.
func Saw(t *slab.Slab, cuts []sawcuts.Cut) []sawcuts.Cut {
	if t.Curbs.None() {
		return cuts
	}
	on := plane.NewSides(t.Curbs.Region())
	var out []sawcuts.Cut
	for _, c := range cuts {
		long := geometry.Distance(c.A, c.B)
		at := geometry.Length(0)
		add := func(from, to geometry.Length) {
			if to-from < leastCut {
				return
			}
			one := c
			if from > 0 {
				one.A = geometry.Along(c.A, c.B, from)
			}
			if to < long {
				one.B = geometry.Along(c.A, c.B, to)
			}
			out = append(out, one)
		}
		in := on.Stretches(c.A, c.B, plane.Touching, nil)
		in = slices.DeleteFunc(in, func(s plane.Stretch) bool { return s.To-s.From < geometry.Sixteenth })
		for _, s := range in {
			add(at, s.From)
			at = s.To
		}
		add(at, long)
	}
	return out
}
