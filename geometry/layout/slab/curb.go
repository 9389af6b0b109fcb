package slab

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// CurbSection is what the stretches of curb are called where bars are laid along them.
const CurbSection = "curb"

// AlongCurbs gives the slab for what is laid along its curbs of a height and width as along
// haunches: its edges have a section there, and nowhere else. Depths are below the curbs' top.
func (t *Slab) AlongCurbs(height, width geometry.Length) *Slab {
	c := *t
	c.Solid, c.dug, c.Findings, c.turned = nil, map[dug][]plan.Station{}, nil, nil
	c.spansOf = make([][][]plan.Span, len(t.Sides))
	for k, sides := range t.Sides {
		c.spansOf[k] = make([][]plan.Span, len(sides))
		for i, s := range sides {
			var spans []plan.Span
			at := geometry.Length(0)
			to := func(end geometry.Length, section string) {
				if end > at {
					spans, at = append(spans, plan.Span{From: at, To: end, Section: section, Door: -1}), end
				}
			}
			for _, r := range t.Curbs.Runs {
				switch {
				case r.Loop != k || r.Edge != t.Loops[k].Drawn(i) || r.Height != height || r.Width != width:
				case t.Bent(s):
					to(s.Length, CurbSection)
				default:
					to(r.From, "")
					to(min(r.To, s.Length), CurbSection)
				}
			}
			to(s.Length, "")
			c.spansOf[k][i] = spans
		}
	}
	return &c
}
