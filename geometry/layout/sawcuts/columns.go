package sawcuts

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

var ruleColumn = rule.Rule{Name: "Saw cuts run to block-outs at columns", Source: "ACI 302.1R, from memory", Step: rule.Pour}

// pointed tells whether a loop is the block-out of a column that cuts run to by its points,
// or from all sides of a round one. Those of a square one are the corners of a hole.
func (t *sawing) pointed(loop int) bool {
	i := loop - (len(t.Loops) - len(t.Outs))
	return i >= 0 && i < len(t.Outs) && t.Outs[i].Shape != plan.SquareOut
}

// columnLines notes lines through the middles of columns, of each way those that lie apart
// enough from the edges and from each other: ACI 302.1R, from memory.
func (t *sawing) columnLines(p *sawPlan) {
	for _, b := range t.Outs {
		if b.Shape == plan.SquareOut {
			continue
		}
		for d, f := range p.f {
			at := f.Turn(b.Center).Y
			free := at >= f.Lo.Y+leastSide && at <= f.Hi.Y-leastSide
			for _, o := range append(p.joints[d:d+1:d+1], p.points[d]) {
				for _, y := range o {
					free = free && (math.Abs(y-at) >= leastSide)
				}
			}
			if free {
				p.points[d] = append(p.points[d], at)
			}
		}
	}
}

// must gives the lines that every plan has.
func (p *sawPlan) must() [2][]float64 {
	return [2][]float64{slices.Concat(p.joints[0], p.points[0]), slices.Concat(p.joints[1], p.points[1])}
}

// whyStop tells why a plan has a line that it must have.
func (p *sawPlan) whyStop(d int, at float64) Why {
	if slices.Contains(p.joints[d], at) {
		return ForSpacing
	}
	if slices.Contains(p.points[d], at) {
		return AtColumn
	}
	return AtInside
}

// points gives where saw cuts are to meet the block-out of a column, and a place that lies
// straight out from each, as far as the slab goes across.
func (t *sawing) points(b plan.BlockOut) (out []slab.Side) {
	far := float64(t.Across())
	add := func(at geometry.Point, vx, vy float64) {
		h := math.Hypot(vx, vy)
		out = append(out, slab.NewSide(0, 0, at, geometry.Point{X: at.X + geometry.Rounded(vx/h*far), Y: at.Y + geometry.Rounded(vy/h*far)}))
	}
	switch b.Shape {
	case plan.DiamondOut:
		for _, p := range b.Ring() {
			add(p, float64(p.X-b.Center.X), float64(p.Y-b.Center.Y))
		}
	case plan.RoundOut:
		r := float64(b.Size) / 2
		along := t.Frames()[0].Along()
		for range 4 {
			add(geometry.Point{X: b.Center.X + geometry.Rounded(r*along.X), Y: b.Center.Y + geometry.Rounded(r*along.Y)}, along.X, along.Y)
			along = along.Left()
		}
	}
	return out
}

// toColumns adds short cuts from the points of block-outs that none runs to yet, straight out
// to the first cut or edge; none that leaves a thin strip.
func (t *sawing) toColumns(cuts *laid) {
	for _, b := range t.Outs {
		for _, s := range t.points(b) {
			if cuts.touch(s.A) || t.Over() {
				continue
			}
			reach := s.Length
			if in := t.Within(s.A, s.B); len(in) > 0 && in[0].From <= inch {
				reach = in[0].To
			}
			cuts.any(s.A, s.At(reach, 0), inch, func(j Cut) bool {
				if p, ok := geometry.Meet(s.A, s.B, j.A, j.B); ok {
					along, _ := s.Project(p)
					reach = min(reach, along)
				}
				return false
			})
			c := Cut{A: s.A, B: s.At(reach, 0), Depth: t.spec.CutDepth(t.Plan.Field, t.Units), Why: AtColumn}
			if reach > foot/2 && !cuts.strip(c) && !t.beside(c) {
				cuts.add(c)
			}
		}
	}
}

// beside tells whether a cut leaves a thin strip beside an edge.
func (t *sawing) beside(c Cut) bool {
	line := slab.NewSide(0, 0, c.A, c.B)
	for _, e := range t.Sides[0] {
		if math.Abs(line.Ux*e.Uy-line.Uy*e.Ux) > 0.02 {
			continue
		}
		from, off := line.Project(e.A)
		to, _ := line.Project(e.B)
		w, long := off.Abs(), min(line.Length, max(from, to))-max(0, min(from, to))
		if w < thinStrip && long > 3*w {
			return true
		}
	}
	return false
}

// checkColumns reports points of block-outs that no cut runs to.
func (t *sawing) checkColumns(all *laid) {
	for _, b := range t.Outs {
		for _, s := range t.points(b) {
			if !all.touch(s.A) {
				t.Find(ruleColumn, rule.Note, s.A, "No saw cut runs to this point of the block-out round %s, from which a crack may run: it would leave no panel that holds. Lay two bars across.", t.Marks.Pad(b.Pad))
				break
			}
		}
	}
}
