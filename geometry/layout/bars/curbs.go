package bars

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

var ruleCurb = rule.Rule{Name: "Bars in curbs", Source: "geometry", Step: rule.Steel}

// InCurbs lays the bars of a slab's curbs: along them near the top, lapped and bent round
// corners as those of the edges are, and upright ones with a hook in the slab's edge. They
// have no marks yet: see Number.
func InCurbs(s *slab.Slab, spec Spec, c CurbSpec) ([]Bar, []LaidLap) {
	var out []Bar
	var laps []LaidLap
	for _, k := range curbKinds(s.Curbs) {
		bars, l := alongCurbs(s, spec, c, k)
		out, laps = append(out, bars...), append(laps, l...)
	}
	slices.SortStableFunc(laps, func(a, b LaidLap) int { return cmp.Compare(a.Row, b.Row) })
	laps = slices.Compact(laps)
	return append(out, upright(s, spec, c)...), laps
}

// curbKind is curbs of one height and width: bars run on along them.
type curbKind struct{ height, width geometry.Length }

func curbKinds(c plan.Curbs) (out []curbKind) {
	for _, r := range c.Runs {
		if k := (curbKind{r.Height, r.Width}); !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// alongCurbs lays the bars along curbs of one kind.
func alongCurbs(s *slab.Slab, spec Spec, c CurbSpec, of curbKind) ([]Bar, []LaidLap) {
	if c.Count <= 0 || c.Size == 0 {
		return nil, nil
	}
	db := c.Size.Diameter()
	side := func() slab.Side {
		for _, r := range s.Curbs.Runs {
			if r.Height == of.height && r.Width == of.width {
				return slab.NewSide(r.Loop, r.Edge, r.Arc.A, r.Arc.B)
			}
		}
		return slab.Side{}
	}()
	at := side.At(side.Length/2, 0)
	room := of.width - 2*c.Cover - db
	if room < 0 || of.height < c.Cover+db {
		s.Find(ruleCurb, rule.Limit, at, "Curbs of %s by %s leave no room for a %s with %s of cover: none is laid in them.", s.Text(of.height), s.Text(of.width), c.Size, s.Text(c.Cover))
		return nil, nil
	}
	if asks := CoverExposed(c.Size, s.Units); c.Cover < asks {
		s.Find(RuleCover, rule.Limit, at, "Bars in curbs have %s to the faces; %s is asked.", s.Text(c.Cover), s.Text(asks))
	}
	if apart := room / geometry.Length(max(1, c.Count-1)); c.Count > 1 && apart < 2*db {
		s.Find(ruleCurb, rule.Limit, at, "%d bars in curbs %s wide lie %s apart, center to center: widen the curb, or lay fewer.", c.Count, s.Text(of.width), s.Text(apart))
	}
	spec.Rows, spec.Size = nil, c.Size
	for i := range c.Count {
		face := c.Cover
		if i > 0 {
			face += room * geometry.Length(i) / geometry.Length(c.Count-1)
		}
		spec.Rows = append(spec.Rows, Row{Face: face, Top: c.Cover})
	}
	if spec.Corner == Crossed { // what runs on past a corner would stand in the air
		spec.Corner = CornerBars
	}
	on := s.AlongCurbs(of.height, of.width)
	t := steel{Slab: on, spec: spec, wide: of.width}
	if !t.Fits("Curb bars", t.Run(func(e plan.Edge) bool { return e.Curb > 0 })*geometry.Length(c.Count), spec.longest()/4) {
		s.Findings = append(s.Findings, on.Findings...)
		return nil, nil
	}
	var out []Bar
	var laid laps
	for i := range spec.Rows {
		r := t.row(i)
		r.lap = t.lap(r.size, false)
		legs, before := t.cornerLegs(r, i), len(out)
		for k := range t.Loops {
			for _, ch := range t.chains(k, r, legs.short+legs.outside+2*r.db) {
				out = append(out, t.layChain(&ch, legs, &laid)...)
			}
		}
		laid.nextRow()
		if len(out) > before {
			t.laps = append(t.laps, LaidLap{Of: CurbLaps, Row: r.number, Size: r.size, Length: r.lap})
		}
	}
	for i := range out {
		b := &out[i]
		b.Of = Part{InCurb, b.Of.N}
		b.Depth -= of.height
		for k := range b.Depths {
			b.Depths[k] -= of.height
		}
	}
	for _, f := range on.Findings {
		if len(f.Text) > 4 && f.Text[:4] == "Row " {
			f.Text = "Curb bar " + f.Text[4:]
		}
		s.Findings = append(s.Findings, f)
	}
	return out, t.laps
}

// offCurbEnd is how far from the end of a curb its first upright bar stands: common practice,
// no source.
const offCurbEnd = 12 * inch

// upright lays the upright bars of curbs that are high enough for them: from under the top
// into the slab's edge, 3 in over the ground, where a hook along the edge holds them.
func upright(s *slab.Slab, spec Spec, c CurbSpec) (out []Bar) {
	if c.Upright == 0 || c.Spacing <= 0 {
		return nil
	}
	t := steel{Slab: s, spec: spec}
	db := c.Upright.Diameter()
	run := geometry.Length(0)
	for _, r := range s.Curbs.Runs {
		run += r.Long()
	}
	if !s.Fits("Upright bars of curbs", run, c.Spacing) {
		return nil
	}
	for _, r := range s.Curbs.Runs {
		if r.Height <= c.Above {
			continue
		}
		inset := r.Width - c.Cover - db/2
		if c.Count > 1 { // beside the bar along the inner face
			inset -= c.Size.Diameter()
		}
		if inset < c.Cover+db/2 {
			s.Find(ruleCurb, rule.Limit, r.Arc.At(0.5, 0), "A curb %s wide leaves no room for upright bars: none is laid in it.", s.Text(r.Width))
			continue
		}
		off := min(offCurbEnd, r.Long()/2)
		places := slab.Evenly(off, r.Long()-off, c.Spacing, s.Step())
		if off == r.Long()/2 {
			places = places[:1]
		}
		for _, along := range places {
			b, ok := t.uprightBar(r, along, inset, c)
			if ok {
				out = append(out, b)
			}
		}
	}
	return out
}

// uprightBar gives one upright bar, with its hook toward the middle of the run.
func (t *steel) uprightBar(r plan.CurbRun, along, inset geometry.Length, c CurbSpec) (Bar, bool) {
	db := c.Upright.Diameter()
	long := r.Long()
	at := func(d geometry.Length) geometry.Point {
		if r.Arc.Straight() {
			return slab.NewSide(r.Loop, r.Edge, r.Arc.A, r.Arc.B).At(d, inset)
		}
		return r.Arc.At(float64(d)/float64(long), inset)
	}
	foot := at(along)
	under, ok := t.Plan.Field, t.Solid != nil
	if ok {
		if under, ok = t.Solid.DepthAt(foot); !ok {
			return Bar{}, false
		}
	}
	top, low := -(r.Height - c.Cover), under-CoverEarth-db/2
	if low-top < 4*db {
		return Bar{}, false
	}
	hook := HookExtension(c.Upright) + bendReach(c.Upright, math.Pi/2)
	cut := low - top + hook - bendSaving(c.Upright, math.Pi/2)
	more := slab.RoundUp(cut, t.CutStep()) - cut
	hook, cut = hook+more, cut+more
	toward := hook
	if along > long/2 {
		toward = -hook
	}
	b := Bar{Size: c.Upright, Of: Part{Kind: InCurb}, Path: []geometry.Point{foot, foot, at(along + toward)}, Depth: top, Depths: []geometry.Length{top, low, low}, Cut: cut, Bends: []Bend{{90, 1}}}
	b.legs()
	return b, true
}
