// Package sawcuts places the saw cuts that control where a slab cracks: through
// inside corners, at door jambs, and between, in panels that are near square.
package sawcuts

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
)

var (
	ruleSawSpacing = rule.Rule{Name: "Saw cut spacing", Source: "ACI 302.1R; Portland Cement Association", Step: rule.Pour}
	ruleSawAspect  = rule.Rule{Name: "Panels near square", Source: "ACI 302.1R", Step: rule.Pour}
	ruleSawShape   = rule.Rule{Name: "Panels are rectangles", Source: "ACI 302.1R", Step: rule.Pour}
	ruleSawOld     = rule.Rule{Name: "Saw cuts go on from joints of the old slab", Source: "ACI 302.1R, from memory", Step: rule.Pour}
	ruleSawPad     = rule.Rule{Name: "No saw cut over the middle of a pad", Source: "common practice", Step: rule.Pour}
)

// sawSpacing is the handbook table of spacing of saw cuts, in feet, by
// thickness in inches: "Masonry and Concrete" (Beall), figure 2-15, after the
// Portland Cement Association. It is checked in the tests against
// testdata/reference.
var sawSpacing = [...]struct {
	thickness                 geometry.Length
	wetSmall, wetLarge, stiff geometry.Length
}{
	{4 * inch, 8 * foot, 10 * foot, 12 * foot},
	{5 * inch, 10 * foot, 13 * foot, 15 * foot},
	{6 * inch, 12 * foot, 15 * foot, 18 * foot},
}

// mostApart is how far apart saw cuts are at most, whatever the thickness: Portland
// Cement Association.
const mostApart = 18 * foot

// Limit gives the greatest spacing of saw cuts in a slab of a thickness, and the rule
// it comes from: the ratio times the thickness or, where that is less, the table by
// slump and aggregate or 18 ft. Between its rows the table is taken straight, beyond
// them in proportion to the thickness. A typed spacing wins. 0 is no limit.
func (j Spec) Limit(thickness geometry.Length, c slab.Concrete) (geometry.Length, rule.Rule) {
	if j.Spacing > 0 {
		return j.Spacing, rule.Rule{Name: "Saw cut spacing", Source: "set on the job", Step: rule.Pour}
	}
	if j.Ratio == 0 {
		return 0, rule.Rule{}
	}
	limit := geometry.Rounded(j.Ratio * float64(thickness))
	by := rule.Rule{Name: fmt.Sprintf("Saw cuts at most %g times the thickness apart", j.Ratio), Source: "ACI 302.1R", Step: rule.Pour}
	if l := tabled(thickness, c); l < limit {
		limit, by = l, rule.Rule{Name: "Saw cut spacing by thickness, slump and aggregate", Source: "Portland Cement Association table", Step: rule.Pour}
	}
	if limit > mostApart {
		limit, by = mostApart, rule.Rule{Name: "Saw cuts at most 18 ft apart", Source: "Portland Cement Association", Step: rule.Pour}
	}
	return limit, by
}

// tabled gives the spacing that the handbook table has for a thickness.
func tabled(thickness geometry.Length, c slab.Concrete) geometry.Length {
	at := func(k int) geometry.Length {
		switch row := sawSpacing[k]; {
		case c.Slump < 4*inch:
			return row.stiff
		case c.Aggregate < 3*inch/4:
			return row.wetSmall
		default:
			return row.wetLarge
		}
	}
	share := func(of, over, under geometry.Length) geometry.Length {
		return geometry.Rounded(float64(of) * float64(over) / float64(under))
	}
	last := len(sawSpacing) - 1
	if t := sawSpacing[0].thickness; thickness <= t {
		return share(at(0), thickness, t)
	}
	for k := range last {
		if t, up := sawSpacing[k].thickness, sawSpacing[k+1].thickness; thickness <= up {
			return at(k) + share(at(k+1)-at(k), thickness-t, up-t)
		}
	}
	return share(at(last), thickness, sawSpacing[last].thickness)
}

// CutDepth gives how deep saw cuts are cut: a quarter of the thickness and
// at least 1 in; 1 in with an early-entry saw (ACI 302.1R). Among millimeters the inch is
// 25 mm, as its metric edition has it.
func (j Spec) CutDepth(thickness geometry.Length, u geometry.Units) geometry.Length {
	least := inch
	if u == geometry.Millimeters {
		least = 25 * geometry.Millimeter
	}
	if j.Early {
		return least
	}
	return max(least, thickness/4)
}

// cutLine is a saw cut right through the slab, in the slab's frame.
type cutLine struct {
	at  float64
	why Why
}

// mostSawRatio is how many thicknesses saw cuts may be apart: ACI 302.1R.
const mostSawRatio = 36

const (
	nearLine  = float64(2 * inch) // lines nearer than this are one
	leastSide = float64(4 * foot) // no cut is added to make a panel narrower, by choice
)

// Lay places the saw cuts.
func Lay(s *slab.Slab, spec Spec) []Cut {
	return newSawing(s, spec).cuts()
}

// sawing lays out the saw cuts.
type sawing struct {
	*slab.Slab
	spec   Spec
	inside []slab.Side // that start at an inside corner that cracks run from
}

func newSawing(s *slab.Slab, spec Spec) *sawing {
	t := &sawing{Slab: s, spec: spec}
	for _, l := range t.Sides {
		for _, s := range l {
			if slab.Interior(t.Before(s), s) > math.Pi+0.2 && !t.pointed(s.Loop) {
				t.inside = append(t.inside, s)
			}
		}
	}
	return t
}

func (t *sawing) cuts() []Cut {
	limit, _ := t.spec.Limit(t.Plan.Field, t.Concrete)
	if limit == 0 {
		return nil
	}
	fs := t.Frames()
	// fs[0] has lines of equal y level: cuts along X. Across is fs[1].
	p := sawPlan{f: [2]slab.Frame{fs[1], fs[0]}, limit: float64(limit), known: map[band][][2]float64{}}
	if p.tooMany() {
		t.Find(slab.TooMany, rule.Severe, t.Home(), "Saw cuts %s apart make too many panels here: none is laid. Space them wider, or draw the slab in parts.", t.Text(limit))
		return nil
	}
	t.jointLines(&p)
	t.columnLines(&p)
	t.goalLines(&p)
	t.breakLines(&p)
	for _, s := range t.inside {
		for d := range p.f {
			if t.small(s.Loop, p.limit) {
				p.goals[d] = append(p.goals[d], cutLine{p.f[d].Turn(s.A).Y, AtInside})
			}
		}
	}
	t.padZones(&p)
	t.wallZones(&p)
	plans := p.best(t.reentrant(&p))
	var best divided
	var chosen [2][]cutLine
	least := math.Inf(1)
	for _, lines := range plans {
		d := t.cut(&p, lines)
		if t.Over() {
			return nil
		}
		if sum := p.effort(lines) + t.faults(d.panels, p.limit/meter); sum < least-1e-6 {
			best, chosen, least = d, lines, sum
		}
	}
	t.checkSawCuts(&p, chosen, best)
	return best.cuts
}

// cut gives the cuts of a plan: along its lines, with more from inside corners and
// across panels where they leave any to mend.
func (t *sawing) cut(p *sawPlan, lines [2][]cutLine) divided {
	var out []Cut
	for d, ls := range lines {
		f := p.f[d]
		for _, l := range ls {
			a, b := f.Point(f.Lo.X-1, l.at), f.Point(f.Hi.X+1, l.at)
			s := slab.NewSide(0, 0, a, b)
			for _, in := range t.Through(a, b, kerf) {
				if in.To-in.From < foot/2 {
					continue
				}
				out = append(out, Cut{A: s.At(in.From, 0), B: s.At(in.To, 0), Depth: t.spec.CutDepth(t.Plan.Field, t.Units), Why: l.why})
			}
		}
	}
	limit := p.limit / meter
	d := t.shortened(out, limit)
	if t.intoCorners(d.cuts) {
		d = divided{cuts: d.cuts}
	}
	all := laidOut(d.cuts, p.limit)
	for _, c := range t.inside {
		if t.Over() {
			return d
		}
		if j, ok := t.stub(c, all, p.limit); ok {
			all.add(j)
		}
	}
	if t.Over() {
		return d
	}
	t.toColumns(all)
	if d.parts == nil || len(all.cuts) > len(d.cuts) {
		d = t.divide(all.cuts)
	}
	return t.split(d, limit)
}

// small tells whether a hole takes short cuts from its corners instead of cuts
// right through the slab: where those would leave panels far below the limit.
func (t *sawing) small(loop int, limit float64) bool {
	if loop == 0 {
		return false
	}
	lo, hi := t.Rings[loop].Bounds()
	return float64(max(hi.X-lo.X, hi.Y-lo.Y)) < limit/2
}

// reentrant gives the inside corners of the slab as heights in both frames, but
// those of small holes.
func (t *sawing) reentrant(p *sawPlan) [][2]float64 {
	var out [][2]float64
	for _, s := range t.inside {
		if !t.small(s.Loop, p.limit) {
			out = append(out, [2]float64{p.f[0].Turn(s.A).Y, p.f[1].Turn(s.A).Y})
		}
	}
	return out
}

// askew is how far off a frame a construction joint may run and be a line of it: its rise by
// its length.
const askew = 1e-3

// jointLines notes the construction joints that lie along a frame: panels end at them as at a
// cut, which they stand for (ACI 302.1R, from memory: construction joints are placed where
// joints of the pattern would be).
func (t *sawing) jointLines(p *sawPlan) {
	for _, c := range t.Plan.Construction {
		for d, f := range p.f {
			a, b := f.Turn(c.From), f.Turn(c.To)
			at := (a.Y + b.Y) / 2
			if math.Abs(b.Y-a.Y) <= askew*math.Abs(b.X-a.X) && at > f.Lo.Y+nearLine && at < f.Hi.Y-nearLine {
				p.joints[d] = append(p.joints[d], at)
			}
		}
	}
}

// goalLines notes the jambs of doors in edges that lie along a frame, where joints of the
// old slab end on it, and the corners of small holes.
func (t *sawing) goalLines(p *sawPlan) {
	for _, l := range t.Sides {
		for _, s := range l {
			for d, f := range p.f {
				// A cut is level in f: it meets the edge squarely if the edge is upright in f.
				if math.Abs(f.Along().Dot(slab.Vec{X: s.Ux, Y: s.Uy})) > 1e-3 {
					continue
				}
				for _, door := range t.Edge(s).Doors {
					for _, jamb := range [...]geometry.Length{door.From, door.From + door.Width} {
						p.goals[d] = append(p.goals[d], cutLine{f.Turn(s.At(jamb, 0)).Y, AtJamb})
					}
				}
				for _, old := range t.oldCuts(s) {
					p.goals[d] = append(p.goals[d], cutLine{f.Turn(s.At(old, 0)).Y, AtOld})
				}
			}
		}
	}
}

// oldCuts gives where joints of the old slab end on an edge.
func (t *sawing) oldCuts(s slab.Side) []geometry.Length {
	e := t.Edge(s)
	if !e.Joint {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(e.OldCuts), func(along geometry.Length) bool { return along <= 0 || along >= s.Length })
}

// checkOld reports joints of the old slab that no saw cut goes on from.
func (t *sawing) checkOld(all *laid) {
	for _, s := range t.Sides[0] {
		for _, old := range t.oldCuts(s) {
			if at := s.At(old, 0); !all.touch(at) {
				t.Find(ruleSawOld, rule.Note, at, "No saw cut goes on from the joint of the old slab at %s on %s: a crack may go on from it. Cut there by hand, or lay two bars across.", t.Text(old), t.SideName(s))
			}
		}
	}
}

// checkSawCuts reports what the cuts break.
func (t *sawing) checkSawCuts(p *sawPlan, lines [2][]cutLine, d divided) {
	limit := geometry.Rounded(p.limit)
	if most := mostSawRatio * t.Plan.Field; limit > most || t.spec.Spacing == 0 && t.spec.Ratio > mostSawRatio {
		t.Find(ruleSawSpacing, rule.Limit, t.Home(), "Saw cuts %s apart are more than %d times the thickness, %s.", t.Text(max(limit, geometry.Rounded(t.spec.Ratio*float64(t.Plan.Field)))), mostSawRatio, t.Text(most))
	} else if limit > mostApart {
		t.Find(ruleSawSpacing, rule.Limit, t.Home(), "Saw cuts %s apart: %s are the most, whatever the thickness.", t.Text(limit), t.Text(mostApart))
	}
	t.checkPanels(d, p.limit/meter)
	all := laidOut(d.cuts, p.limit)
	t.checkOld(all)
	for _, s := range t.inside {
		if !all.touch(s.A) {
			t.Find(ruleSawShape, rule.Note, s.A, "No saw cut starts at this inside corner, from which cracks run: it would leave no panel that holds. Lay two bars across the corner.")
		}
	}
	t.checkColumns(all)
	t.checkBreaks(all)
	for d, ls := range lines {
		for _, l := range ls {
			if p.onPad(d, l.at) {
				for _, pad := range t.Plan.Pads {
					if y := p.f[d].Turn(pad.Center).Y; math.Abs(y-l.at) < float64(min(pad.Width, pad.Length))/4 {
						t.Find(ruleSawPad, rule.Note, pad.Center, "A saw cut crosses the middle of this pad; shift it or isolate the pad.")
					}
				}
			}
		}
	}
}

// checkPanels reports panels that are long, slim or bent: each kind once, with the size
// of the worst and the places of all.
func (t *sawing) checkPanels(d divided, limit float64) {
	type kind struct {
		rule  rule.Rule
		text  string
		worst float64
		at    []geometry.Point
	}
	kinds := map[string]*kind{}
	var order []*kind
	for i, p := range d.panels {
		if p.none() {
			continue
		}
		at, ok := d.parts[i].Middle()
		if !ok {
			continue
		}
		step := t.Step()
		size := t.Text(geometry.FromMeters(p.box.length).Round(step)) + " by " + t.Text(geometry.FromMeters(p.box.width).Round(step))
		by, ask, bad := ruleSawAspect, "", 0.0
		switch ratio := p.box.length / p.box.width; {
		case p.strip():
			ask, bad = "so slim that it cracks across. Move the corner, hole or door beside it, or pour it apart.", ratio
		case p.fill() < fullest:
			by, ask, bad = ruleSawShape, "it is no rectangle: cracks run from its inside corners and across its points. Cut from these, or pour it apart.", 1/p.fill()
		case ratio > t.spec.Aspect*slack:
			ask, bad = fmt.Sprintf("the longer side should be at most %g times the shorter.", t.spec.Aspect), ratio
		case p.box.length > limit+float64(inch)/meter:
			by, ask, bad = ruleSawSpacing, "saw cuts should be at most "+t.Text(geometry.FromMeters(limit))+" apart.", p.box.length
		default:
			continue
		}
		k := kinds[ask]
		if k == nil {
			k = &kind{rule: by}
			kinds[ask], order = k, append(order, k)
		}
		if k.at = append(k.at, at); bad > k.worst {
			k.worst, k.text = bad, "A panel of about "+size+": "+ask
			n := len(k.at) - 1
			k.at[0], k.at[n] = k.at[n], k.at[0]
		}
	}
	for _, k := range order {
		t.Findings = append(t.Findings, rule.Finding{Rule: k.rule, Severity: rule.Note, At: k.at[0], Also: k.at[1:], Text: k.text})
	}
}
