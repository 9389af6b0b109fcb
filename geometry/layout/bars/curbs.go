package bars

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
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
		if s.Curbs.Level() {
			b.lieLevel(s.Curbs)
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

// lieLevel gives a bar in curbs with level tops its depths below the slab's top, which falls
// away under it.
func (b *Bar) lieLevel(c plan.Curbs) {
	if b.Depths == nil {
		b.Depths = slices.Repeat([]geometry.Length{b.Depth}, len(b.Path))
	}
	b.Flat = true
	for k, p := range b.Path {
		b.Depths[k] -= c.Over.At(p)
	}
	b.Depth = slices.Min(b.Depths)
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
	near := newStanding(leastApart + db)
	for k, r := range s.Curbs.Runs {
		if _, most := s.Curbs.Range(r); most <= c.Above {
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
		places := t.uprightPlaces(r, inset, c)
		if len(places) == 0 && r.Long() > offCurbEnd { // of shorter ones, as on jogs, those beside them hold the corner
			s.Find(ruleCurb, rule.Limit, r.Arc.At(0.5, 0), "Nowhere along the curb on %s from %s to %s has an upright bar its cover to the faces beside it: none is laid in it.", s.Marks.Edge(r.Loop, r.Edge), s.Text(r.From), s.Text(r.To))
		}
		for _, along := range places {
			if b, ok := t.uprightBar(r, along, inset, c); ok && !near.crowded(b.Path[0], k) {
				near.add(b.Path[0], k)
				out = append(out, b)
			}
		}
	}
	return out
}

// uprightPlaces gives where the upright bars of a run stand: from near its ends, or where they
// have their cover to the faces beyond a sharp corner.
func (t *steel) uprightPlaces(r plan.CurbRun, inset geometry.Length, c CurbSpec) []geometry.Length {
	long, half := r.Long(), c.Cover+c.Upright.Diameter()/2
	clear := func(along geometry.Length) bool { return t.clearOfFaces(uprightAt(r, along, inset), half) }
	from, to := min(offCurbEnd, long/2), long-min(offCurbEnd, long/2)
	for from < long/2 && !clear(from) {
		from = min(from+inch, long/2)
	}
	for to > long/2 && !clear(to) {
		to = max(to-inch, long/2)
	}
	if to-from < c.Upright.Diameter() {
		if clear(from) {
			return []geometry.Length{from}
		}
		return nil
	}
	return slices.DeleteFunc(slab.Evenly(from, to, c.Spacing, t.Step()), func(along geometry.Length) bool { return !clear(along) })
}

// clearOfFaces tells whether a place lies so far from all faces of the slab.
func (t *steel) clearOfFaces(p geometry.Point, half geometry.Length) bool {
	for _, i := range t.On.Near(plane.BoxOf(p).Grown(float64(half)), nil) {
		a, b := t.On.Ends(int(i))
		if _, off := geometry.Nearest(p, a, b); off < half-geometry.Sixteenth {
			return false
		}
	}
	return t.Contains(p)
}

// leastApart is the least clear distance of bars beside each other: ACI 318-19 25.2.1.
const leastApart = inch

// standing is where upright bars stand.
type standing struct {
	apart geometry.Length // at least
	at    []geometry.Point
	run   []int
	index plane.Index
}

func newStanding(apart geometry.Length) *standing {
	s := &standing{apart: apart}
	s.index.Reset(float64(apart))
	return s
}

func (s *standing) add(p geometry.Point, run int) {
	s.at, s.run = append(s.at, p), append(s.run, run)
	s.index.Add(plane.BoxOf(p))
}

// crowded tells whether an upright bar would stand beside one of another run, that it meets at a
// sharp corner: that one holds both.
func (s *standing) crowded(p geometry.Point, run int) bool {
	return slices.ContainsFunc(s.index.Near(plane.BoxOf(p).Grown(float64(s.apart)), nil), func(i int32) bool {
		return s.run[i] != run && geometry.Distance(s.at[i], p) < s.apart
	})
}

// uprightAt gives a place along a run, so far in from its face.
func uprightAt(r plan.CurbRun, along, inset geometry.Length) geometry.Point {
	if r.Arc.Straight() {
		return slab.NewSide(r.Loop, r.Edge, r.Arc.A, r.Arc.B).At(along, inset)
	}
	return r.Arc.At(float64(along)/float64(r.Long()), inset)
}

// uprightStep is by how much the upright bars of curbs with level tops differ in length: the
// shorter end lower under the top. Own figure.
func (t *steel) uprightStep() geometry.Length {
	if t.Units == geometry.Millimeters {
		return 50 * geometry.Millimeter
	}
	return 2 * inch
}

// uprightBar gives one upright bar, with its hook toward the middle of the run.
func (t *steel) uprightBar(r plan.CurbRun, along, inset geometry.Length, c CurbSpec) (Bar, bool) {
	db := c.Upright.Diameter()
	long := r.Long()
	at := func(d geometry.Length) geometry.Point { return uprightAt(r, d, inset) }
	foot := at(along)
	under, ok := t.Plan.Field, t.Solid != nil
	if ok {
		if under, ok = t.Solid.DepthAt(foot); !ok {
			return Bar{}, false
		}
	}
	top, low := -(t.Curbs.High(r, foot) - c.Cover), under-CoverEarth-db/2
	if step := t.uprightStep(); t.Curbs.Level() { // few lengths, none too long
		top = low - (low-top)/step*step
	}
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
