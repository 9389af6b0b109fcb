package layout

import (
	"fmt"
	"math"

	"haunchbook.example/geometry"
)

var (
	ruleSawSpacing = Rule{"Saw cut spacing", "ACI 302.1R; Portland Cement Association"}
	ruleSawAspect  = Rule{"Panels near square", "ACI 302.1R"}
	ruleSawPad     = Rule{"No saw cut over the middle of a pad", "common practice"}
)

// jointSpacing is the handbook table of spacing of saw cuts, in feet, by
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

// JointLimit gives the greatest spacing of saw cuts in a slab of a
// thickness, and the rule it comes from: the ratio times the thickness or, for a
// thickness the table knows, the table by slump and aggregate if less. A typed
// spacing wins. 0 is no limit.
func (s Spec) SawCutLimit(thickness geometry.Length) (geometry.Length, Rule) {
	j := s.SawCuts
	if j.Spacing > 0 {
		return j.Spacing, Rule{"Saw cut spacing", "set on the job"}
	}
	if j.Ratio == 0 {
		return 0, Rule{}
	}
	limit := round(j.Ratio * float64(thickness))
	rule := Rule{fmt.Sprintf("Saw cuts at most %g times the thickness apart", j.Ratio), "ACI 302.1R"}
	for k := len(sawSpacing) - 1; k >= 0; k-- {
		row := sawSpacing[k]
		if thickness < row.thickness || thickness >= sawSpacing[len(sawSpacing)-1].thickness+inch {
			continue
		}
		l := row.stiff
		if s.Concrete.Slump >= 4*inch {
			l = row.wetLarge
			if s.Concrete.Aggregate < 3*inch/4 {
				l = row.wetSmall
			}
		}
		if l < limit {
			limit, rule = l, Rule{"Saw cut spacing by thickness, slump and aggregate", "Portland Cement Association table"}
		}
		break
	}
	return limit, rule
}

// SawDepth gives how deep saw cuts are cut: a quarter of the thickness and
// at least 1 in; 1 in with an early-entry saw (ACI 302.1R).
func (s Spec) SawDepth(thickness geometry.Length) geometry.Length {
	if s.SawCuts.Early {
		return inch
	}
	return max(inch, thickness/4)
}

// cutLine is a saw cut right through the slab, in the slab's frame.
type cutLine struct {
	at  float64
	why string
}

// mostJointRatio is how many thicknesses saw cuts may be apart: ACI 302.1R.
const mostSawRatio = 36

const (
	nearLine  = float64(2 * inch) // lines nearer than this are one
	leastSide = float64(4 * foot) // no cut is added to make a panel narrower, by choice
)

// joints places the saw cuts.
func (t *site) sawCuts() []SawCut {
	limit, _ := t.spec.SawCutLimit(t.plan.Field)
	if limit == 0 {
		return nil
	}
	fs := t.frames()
	// fs[0] has lines of equal y level: cuts along X. Across is fs[1].
	p := sawPlan{f: [2]frame{fs[1], fs[0]}, limit: float64(limit), known: map[band][][2]float64{}}
	if p.tooMany() {
		t.find(ruleTooMany, true, t.home(), "Saw cuts %s apart make too many panels here: none is laid. Space them wider, or draw the slab in parts.", t.text(limit))
		return nil
	}
	t.goalLines(&p)
	for _, s := range t.smallHoleCorners(p.limit) {
		for d := range p.f {
			p.goals[d] = append(p.goals[d], cutLine{p.f[d].turn(s.a).y, "re-entrant corner"})
		}
	}
	t.padZones(&p)
	lines := p.best(t.reentrant(&p))
	var out []SawCut
	for d, ls := range lines {
		f := p.f[d]
		for _, l := range ls {
			a, b := f.point(f.lo.x-1, l.at), f.point(f.hi.x+1, l.at)
			s := newSide(0, 0, a, b)
			for _, in := range t.through(a, b, inch/2) {
				if in.to-in.from < foot/2 {
					continue
				}
				out = append(out, SawCut{A: s.at(in.from, 0), B: s.at(in.to, 0), Depth: t.spec.SawDepth(t.plan.Field), Why: l.why})
			}
		}
	}
	for _, c := range t.smallHoleCorners(p.limit) {
		if j, ok := t.stub(c, out); ok {
			out = append(out, j)
		}
	}
	t.checkSawCuts(&p, lines)
	return out
}

// small tells whether a hole takes short cuts from its corners instead of cuts
// right through the slab: where those would leave panels far below the limit.
func (t *site) small(loop int, limit float64) bool {
	if loop == 0 {
		return false
	}
	lo, hi := t.rings[loop].Bounds()
	return float64(max(hi.X-lo.X, hi.Y-lo.Y)) < limit/2
}

// smallHoleCorners gives the edges that start at an inside corner of a small hole.
func (t *site) smallHoleCorners(limit float64) []side {
	var out []side
	for k, l := range t.sides {
		for _, s := range l {
			if t.small(k, limit) && interior(t.before(s), s) > math.Pi+0.2 {
				out = append(out, s)
			}
		}
	}
	return out
}

// stub gives the cut from the corner where s starts, on along the side before it
// or back along s, to the first cut or edge it meets: the shorter of the two. It
// gives none where a cut goes through the corner already.
func (t *site) stub(s side, cuts []SawCut) (SawCut, bool) {
	for _, j := range cuts {
		if d, _ := toSegment(s.a, spot{at: j.A}, spot{at: j.B}); d < inch {
			return SawCut{}, false
		}
	}
	r := t.before(s)
	best, found := SawCut{Depth: t.spec.SawDepth(t.plan.Field), Why: "re-entrant corner"}, false
	far := t.across()
	for _, end := range [...]geometry.Point{r.at(r.length+far, 0), s.at(-far, 0)} {
		reach := far
		if in := t.within(s.a, end); len(in) > 0 && in[0].from <= 2 {
			reach = in[0].to
		}
		line := newSide(0, 0, s.a, end)
		for _, j := range cuts {
			if p, ok := geometry.Meet(s.a, end, j.A, j.B); ok {
				along, _ := line.project(p)
				reach = min(reach, along)
			}
		}
		if reach > inch && (!found || reach < geometry.Distance(best.A, best.B)) {
			best.A, best.B, found = s.a, line.at(reach, 0), true
		}
	}
	return best, found
}

// reentrant gives the inside corners of the slab as heights in both frames, but
// those of small holes.
func (t *site) reentrant(p *sawPlan) [][2]float64 {
	var out [][2]float64
	for k, l := range t.sides {
		if t.small(k, p.limit) {
			continue
		}
		for _, s := range l {
			if angle := interior(t.before(s), s); angle > math.Pi+0.2 {
				out = append(out, [2]float64{p.f[0].turn(s.a).y, p.f[1].turn(s.a).y})
			}
		}
	}
	return out
}

// goalLines notes the jambs of doors in edges that lie along a frame, and the
// corners of small holes.
func (t *site) goalLines(p *sawPlan) {
	for _, l := range t.sides {
		for _, s := range l {
			for d, f := range p.f {
				// A cut is level in f: it meets the edge squarely if the edge is upright in f.
				if math.Abs(s.ux*f.ux+s.uy*f.uy) > 1e-3 {
					continue
				}
				for _, door := range t.edge(s).Doors {
					for _, jamb := range [...]geometry.Length{door.From, door.From + door.Width} {
						p.goals[d] = append(p.goals[d], cutLine{f.turn(s.at(jamb, 0)).y, "door jamb"})
					}
				}
			}
		}
	}
}

// padZones notes the middle half of every pad.
func (t *site) padZones(p *sawPlan) {
	for _, pad := range t.plan.Pads {
		for d, f := range p.f {
			y := f.turn(pad.Center).y
			half := float64(min(pad.Width, pad.Length)) / 4
			p.pads[d] = append(p.pads[d], [2]float64{y - half, y + half})
		}
	}
}

// checkJoints reports what the cuts break.
func (t *site) checkSawCuts(p *sawPlan, lines [2][]cutLine) {
	if most := mostSawRatio * t.plan.Field; round(p.limit) > most {
		t.find(ruleSawSpacing, true, t.home(), "Saw cuts %s apart are more than %d times the thickness, %s.", t.text(round(p.limit)), mostSawRatio, t.text(most))
	}
	p.panels(lines, func(c panel) {
		if a := max(c.w/c.h, c.h/c.w); a > t.spec.SawCuts.Aspect+1e-6 {
			t.find(ruleSawAspect, false, p.f[1].point(c.x, c.y), "A panel of about %s by %s: the longer side should be at most %g times the shorter.", t.text(round(c.w)), t.text(round(c.h)), t.spec.SawCuts.Aspect)
		}
	})
	for d, ls := range lines {
		for _, l := range ls {
			if p.onPad(d, l.at) {
				for _, pad := range t.plan.Pads {
					if y := p.f[d].turn(pad.Center).y; math.Abs(y-l.at) < float64(min(pad.Width, pad.Length))/4 {
						t.find(ruleSawPad, false, pad.Center, "A saw cut crosses the middle of this pad; shift it or isolate the pad.")
					}
				}
			}
		}
	}
}
