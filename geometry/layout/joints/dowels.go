// Package joints is the joint with the slab that is there: dowels drilled into it,
// and strips of filler where the slab is not to be bound to what it meets.
package joints

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var (
	ruleDowels    = rule.Rule{Name: "Dowels at the joint", Source: "common practice"}
	ruleEmbed     = rule.Rule{Name: "Dowels deep in both slabs", Source: "common practice"}
	ruleThin      = rule.Rule{Name: "Dowels fit the thinner slab", Source: "an eighth of its thickness: AASHTO, from memory"}
	rulePlates    = rule.Rule{Name: "Plate dowels by the slab's thickness", Source: "ACI 360R, table of rectangular plate dowels, from memory"}
	ruleMiddle    = rule.Rule{Name: "Dowels lie in the middle of both slabs", Source: "ACI 302.1R, ACI 360R: mid-depth; middle third from memory"}
	ruleDowelBars = rule.Rule{Name: "Dowels clear of bars", Source: "geometry"}

	ruleDowelsApart = rule.Rule{Name: "Dowels clear of each other", Source: "geometry"}
)

// leastEmbed is the least embedment of a dowel in bar diameters (common practice, no
// source).
const leastEmbed = 8

// mostDowels is how many diameters of a dowel the thinner slab is thick at least.
const mostDowels = 8

// joint is what binds the slab to the old one, or keeps it off.
type joint struct {
	*slab.Slab
	spec Spec
	old  beneath // the slab that is there, where dowels are placed
}

// beneath is how a slab that is there lies beside this one: from where below the top, and how
// thick what lies beside it is.
type beneath struct{ top, thick geometry.Length }

// Dowels places the dowels of every joint edge of the outline: even, at most the
// spacing apart, the first and last clear of the joint's ends and, if asked, none
// in a door. One that would meet a bar is moved along the joint.
func Dowels(s *slab.Slab, d Spec, met *bars.Segments) []Dowel {
	d = d.Used()
	t := joint{Slab: s, spec: d}
	t.checkMeetings()
	t.checkSteps()
	if d.None() {
		return nil
	}
	if !t.Fits("Dowels", t.Run(func(e plan.Edge) bool { return e.Joint })+t.against(), d.Spacing) {
		return nil
	}
	var out []Dowel
	for _, s := range t.Sides[0] {
		from := len(out)
		if t.Edge(s).Joint {
			t.old = beneath{0, d.OldSlab}
			out = t.along(out, s, t.FreeOfDoors(s, d.Doors), met)
		}
		for _, m := range t.Against(s) {
			if !doweled(t.Slab, m, d) {
				continue
			}
			var free []slab.Interval
			for _, f := range t.FreeOfDoors(s, d.Doors) {
				if f = (slab.Interval{From: max(f.From, m.From), To: min(f.To, m.To)}); f.To > f.From {
					free = append(free, f)
				}
			}
			top, bottom := beside(t.Slab, m)
			t.old = beneath{top, bottom - top}
			out = t.along(out, s, free, met)
		}
		for i := range out[from:] {
			out[from+i].Number = i + 1
		}
	}
	t.checkDowelsApart(out)
	return out
}

// against adds up the stretches at which the slab is poured against others with dowels.
func (t *joint) against() (sum geometry.Length) {
	for _, m := range t.Meetings {
		if m.Later && !m.Marked && m.Doweled {
			sum += m.To - m.From
		}
	}
	return sum
}

// checkMeetings reports dowels between two slabs of the job that there cannot be.
func (t *joint) checkMeetings() {
	for _, m := range t.Meetings {
		if !m.Later || m.Marked || !m.Doweled || m.Loop > 0 || doweled(t.Slab, m, t.spec) {
			continue
		}
		s := t.Sides[m.Loop][m.Edge]
		why := "the job has no dowels: choose their size, or have the two isolated. A strip of filler is counted"
		if !t.spec.None() {
			why = "the other slab's top is " + t.Text(max(m.Lower, -m.Least)) + " off this one's, and it does not lie beside it: dowels do not reach both"
		}
		t.Find(ruleDowels, rule.Limit, s.At((m.From+m.To)/2, 0), "On %s dowels are to hold two slabs level, and %s.", t.SideName(s), why)
	}
}

// along places the dowels of stretches of an edge.
func (t *joint) along(out []Dowel, s slab.Side, stretches []slab.Interval, met *bars.Segments) []Dowel {
	d := t.spec
	t.checkDowels(s)
	from := len(out)
	for _, free := range stretches {
		room := t.clearOfEdges(s, slab.Interval{From: free.From + d.End, To: free.To - d.End})
		if room.From > room.To {
			t.Find(ruleDowels, rule.Note, s.At((free.From+free.To)/2, 0),
				"%s of the joint on %s is too short for a dowel %s clear of both its ends.", t.Text(free.To-free.From), t.SideName(s), t.Text(d.End))
			continue
		}
		out = append(out, t.dowelRun(s, room, met)...)
	}
	t.checkCrossed(s, out[from:], met)
	return out
}

// farthest is how far the first dowel is moved along the joint from a sharp corner, to
// have cover from the edge beside it: common practice, no source.
const farthest = 2 * geometry.Foot

// clearOfEdges narrows the room for dowels to where they have cover of concrete from
// the slab's free edges.
func (t *joint) clearOfEdges(s slab.Side, room slab.Interval) slab.Interval {
	asks := bars.CoverExposed(t.spec.Size, t.Units) + t.spec.Wide()/2
	bare := func(along geometry.Length) bool {
		a, b := s.At(along, 0), s.At(along, t.spec.Length-t.spec.Embed)
		var near [64]int32
		return !t.Contains(b) || slices.ContainsFunc(t.On.Near(plane.BoxOf(a, b).Grown(float64(asks)), near[:0]), func(k int32) bool {
			o := t.All[k]
			if o.Loop == s.Loop && (t.Edge(o).Joint || o.Edge == s.Edge) {
				return false
			}
			_, away := geometry.Nearest(b, o.A, o.B)
			return away < asks
		})
	}
	whole := room
	for room.From < whole.From+farthest && room.From < room.To && bare(room.From) {
		room.From += inch / 2
	}
	for room.To > whole.To-farthest && room.From < room.To && bare(room.To) {
		room.To -= inch / 2
	}
	for _, at := range [...]geometry.Length{room.From, room.To} {
		if whole.From <= whole.To && bare(at) && t.Contains(s.At(at, t.spec.Length-t.spec.Embed)) {
			t.Find(ruleDowels, rule.Limit, s.At(at, 0), "The dowel at %s on %s ends nearer than %s to an edge of the new slab: leave it out, or take a shorter one.", t.Text(at), t.SideName(s), t.Text(asks-t.spec.Wide()/2))
		}
	}
	return room
}

// dowelRun places the dowels of one stretch of a joint.
func (t *joint) dowelRun(s slab.Side, room slab.Interval, met *bars.Segments) []Dowel {
	var out []Dowel
	for _, along := range slices.Compact(slab.Evenly(room.From, room.To, t.spec.Spacing, t.Step())) {
		w := t.offBars(s, along, room, met)
		if n := len(out); n > 0 && w.Along-out[n-1].Along > t.spec.Spacing {
			t.Find(ruleDowels, rule.Note, w.At, "The dowels at %s and %s on %s, moved off a bar, are %s apart; %s is asked.",
				t.Text(out[n-1].Along), t.Text(w.Along), t.SideName(s), t.Text(w.Along-out[n-1].Along), t.Text(t.spec.Spacing))
		}
		if !t.Contains(w.Inner) {
			t.Find(ruleDowels, rule.Severe, w.At, "The dowel at %s on %s would reach through the new slab.", t.Text(along), t.SideName(s))
		}
		out = append(out, w)
	}
	return out
}

// checkCrossed reports, once for an edge, bars that cross its dowels.
func (t *joint) checkCrossed(s slab.Side, ds []Dowel, met *bars.Segments) {
	for _, w := range ds {
		if _, across := meets(met, w, t.spec.Thick()); across {
			t.Find(ruleDowelBars, rule.Note, w.At, "Bars cross the dowels on %s at their depth of %s: tie them above or below.", t.SideName(s), t.Text(w.Depth))
			return
		}
	}
}

// checkDowelsApart reports dowels of two edges that meet in the slab, as near a
// corner between two joints.
func (t *joint) checkDowelsApart(ds []Dowel) {
	boxes := make([]plane.Box, len(ds))
	for i, w := range ds {
		boxes[i] = plane.BoxOf(w.Outer, w.Inner).Grown(float64(w.Width) / 2)
	}
	plane.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := ds[i], ds[j]
		other := bars.Segment{A: bars.Spot{At: b.Outer, Depth: b.Depth}, B: bars.Spot{At: b.Inner, Depth: b.Depth}, Db: b.Width}
		if a.Edge != b.Edge && bars.Touches(a.Outer, a.Inner, a.Depth, other, (a.Width+b.Width)/2) {
			t.Find(ruleDowelsApart, rule.Severe, a.At, "The dowel at %s on %s meets that at %s on %s: start one of them further from the corner.",
				t.Text(a.Along), t.SideName(t.Sides[0][a.Edge]), t.Text(b.Along), t.SideName(t.Sides[0][b.Edge]))
		}
	})
}

// aside is how far a dowel is moved along the joint to clear a bar: common
// practice, no source.
const aside = 3 * inch

// offBars gives the dowel nearest to a running distance that meets no bar along
// it, or the one there, with a finding, if there is none.
func (t *joint) offBars(s slab.Side, along geometry.Length, room slab.Interval, met *bars.Segments) Dowel {
	d := t.spec
	depth := t.old.top + min(t.old.thick, t.DepthAtFace(s)-t.old.top)/2
	at := func(along geometry.Length) Dowel {
		return Dowel{Edge: s.Edge, Along: along, At: s.At(along, 0), Inner: s.At(along, d.Length-d.Embed), Outer: s.At(along, -d.Embed), Depth: depth, Width: d.Wide(), Old: t.old.top + t.old.thick}
	}
	first := at(along)
	if hit, _ := meets(met, first, d.Thick()); !hit {
		return first
	}
	for shift := inch / 2; shift <= aside; shift += inch / 2 {
		for _, a := range [...]geometry.Length{along + shift, along - shift} {
			if a < room.From || a > room.To {
				continue
			}
			w := at(a)
			if hit, _ := meets(met, w, d.Thick()); !hit {
				return w
			}
		}
	}
	t.Find(ruleDowelBars, rule.Note, first.At,
		"The dowel at %s on %s lies in a bar beside it: move the bar.", t.Text(along), t.SideName(s))
	return first
}

// checkDowels reports what the specification of the dowels breaks on a joint.
func (t *joint) checkDowels(s slab.Side) {
	d, mid := t.spec, s.At(s.Length/2, 0)
	thick := d.Thick()
	depths := [...]struct {
		slab string
		deep geometry.Length
	}{{"old", t.old.thick}, {"new", t.DepthAtFace(s) - t.old.top}}
	thin, deep := depths[0], depths[1]
	if thin.deep > deep.deep {
		thin, deep = deep, thin
	}
	if thin.deep < mostDowels*thick {
		what := d.Size.String() + " dowels"
		if d.Kind == Plates {
			what = "Plate dowels of " + t.Text(thick)
		}
		t.Find(ruleThin, rule.Limit, mid, "%s are thicker than an eighth of the %s slab, %s: they may break out of it. Take thinner ones.", what, thin.slab, t.Text(thin.deep))
	}
	if d.Kind == Plates {
		t.checkPlates(thin.slab, thin.deep, mid)
	}
	if thin.deep/2 < deep.deep/3 {
		t.Find(ruleMiddle, rule.Note, mid, "Dowels lie %s deep, in the middle of the %s slab, and above the middle third of the %s one, %s deep at the joint: have somebody who knows look at it where wheels cross.",
			t.Text(thin.deep/2), thin.slab, deep.slab, t.Text(deep.deep))
		t.Findings[len(t.Findings)-1].Planning = true
	}
	clear := d.End
	if d.Kind == Plates {
		clear -= d.Width / 2
	}
	if clear < bars.LeastEarth(t.Units) {
		t.Find(ruleDowels, rule.Limit, mid, "The end dowels are %s from the joint's ends, where drilling can break the old slab's edge; keep at least %s.", t.Text(clear), t.Text(bars.LeastEarth(t.Units)))
	}
	if d.Kind == Plates {
		return
	}
	for _, side := range []struct {
		slab  string
		embed geometry.Length
	}{{"old", d.Embed}, {"new", d.Length - d.Embed}} {
		if least := leastEmbed * thick; side.embed < least {
			t.Find(ruleEmbed, rule.Limit, mid, "Dowels reach %s into the %s slab; %d diameters of a %s, %s, are the least that hold.", t.Text(side.embed), side.slab, leastEmbed, d.Size, t.Text(least))
		}
	}
}

// plateSizes gives, by the thickness of the thinner slab, the least plate dowel: ACI 360R's
// table of rectangular plates, from memory.
var plateSizes = map[geometry.Units][3]struct{ slab, thick, wide geometry.Length }{
	geometry.FeetInches:  {{6 * inch, 3 * inch / 8, 2 * inch}, {8 * inch, inch / 2, 5 * inch / 2}, {11 * inch, 3 * inch / 4, 5 * inch / 2}},
	geometry.Millimeters: {{155 * mm, 9500 * geometry.Micrometer, 50 * mm}, {205 * mm, 12 * mm, 60 * mm}, {280 * mm, 19 * mm, 60 * mm}},
}

// leastPlateEmbed is how far a plate reaches into either slab: half the 12 in of the same
// table; mostPlateSpacing is common practice, no source.
const leastPlateEmbed, mostPlateSpacing = 5 * inch, 24 * inch

const mm = geometry.Millimeter

// checkPlates reports what plate dowels break.
func (t *joint) checkPlates(slab string, deep geometry.Length, at geometry.Point) {
	p := t.spec
	sizes := plateSizes[t.Units]
	least := sizes[len(sizes)-1]
	for _, s := range sizes {
		if deep <= s.slab {
			least = s
			break
		}
	}
	if p.Thickness < least.thick || p.Width < least.wide {
		t.Find(rulePlates, rule.Note, at, "Plate dowels are %s × %s; in the %s slab of %s, %s × %s are usual.", t.Text(p.Thickness), t.Text(p.Width), slab, t.Text(deep), t.Text(least.thick), t.Text(least.wide))
	}
	if p.Spacing > rule.Most(mostPlateSpacing, t.Units) {
		t.Find(rulePlates, rule.Note, at, "Plate dowels may stand %s apart; %s is the most that is usual.", t.Text(p.Spacing), t.Text(mostPlateSpacing))
	}
	if short := min(p.Embed, p.Length-p.Embed); short < leastPlateEmbed {
		t.Find(rulePlates, rule.Limit, at, "Plate dowels reach %s into one slab; %s is the least that holds in both.", t.Text(short), t.Text(leastPlateEmbed))
	}
}

// meets tells whether a dowel so thick touches a bar that runs along it, and whether it
// touches one that runs across. A wide one is looked at along its middle and its sides.
func meets(s *bars.Segments, w Dowel, thick geometry.Length) (along, across bool) {
	u := w.Inner.Sub(w.Outer)
	long := math.Hypot(float64(u.X), float64(u.Y))
	side := float64(w.Width-thick) / 2
	for _, off := range [...]float64{0, side, -side} {
		by := geometry.Point{X: geometry.Rounded(-float64(u.Y) / long * off), Y: geometry.Rounded(float64(u.X) / long * off)}
		from, to := w.Outer.Add(by), w.Inner.Add(by)
		for _, k := range s.Near(w.At.Add(by), to, thick) {
			bar := s.All[k]
			if !bars.Touches(from, to, w.Depth, bar, (thick+bar.Db)/2) {
				continue
			}
			v := bar.B.At.Sub(bar.A.At)
			dot := float64(u.X)*float64(v.X) + float64(u.Y)*float64(v.Y)
			cross := float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
			if math.Abs(dot) > math.Abs(cross) {
				along = true
			} else {
				across = true
			}
		}
		if side == 0 {
			break
		}
	}
	return along, across
}
