package lines

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

const inch = geometry.Inch

var (
	ruleThird = rule.Rule{Name: "Lines no thicker than a third of the slab", Source: "ACI 318-11 6.3.5.1, from memory", Step: rule.Forms}
	ruleSaw   = rule.Rule{Name: "Saw cuts clear of lines", Source: "common practice", Step: rule.Pour}
	ruleBolts = rule.Rule{Name: "Bolts and dowels clear of lines", Source: "common practice"}
	ruleBars  = rule.Rule{Name: "Bars clear of lines", Source: "geometry", Step: rule.Steel}
	ruleThick = rule.Rule{Name: "Lines through thickened concrete", Source: "IRC P2603.4, a sleeve two pipe sizes wider, from memory", Step: rule.Forms}
	ruleFall  = rule.Rule{Name: "Drain lines fall", Source: "IPC Table 704.1, from memory", Step: rule.Forms}
	ruleJoint = rule.Rule{Name: "Lines cross construction joints in sleeves", Source: "common practice", Step: rule.Forms}
)

// Placed is what lies in the slab besides.
type Placed struct {
	Bars   []bars.Bar
	Dowels []joints.Dowel
	Thick  geometry.Length // of the dowels
	Walls  []bolts.Wall
	Bolts  bolts.Spec
	Cuts   []sawcuts.Cut
	Joints []construction.Joint
}

// leg is a straight of a line with the depth of its top at both ends.
type leg struct {
	a, b     geometry.Point
	top, end geometry.Length
}

// depth gives the depth of its top at a share of the way.
func (l leg) depth(share float64) geometry.Length {
	return l.top + geometry.Rounded(share*float64(l.end-l.top))
}

// laid is a line that is looked at.
type laid struct {
	*slab.Slab
	plan.Line
	legs []leg
	name string
}

// Check reports what the lines of a slab meet.
func Check(t *slab.Slab, all []Line, p Placed) {
	if len(all) == 0 {
		return
	}
	met := bars.NewSegments(p.Bars)
	for _, one := range all {
		l := laid{Slab: t, Line: t.Plan.Lines[one.Index], name: t.Marks.Line(one.Index).String()}
		for _, run := range one.Runs {
			at := geometry.Length(0)
			for i := 1; i < len(run); i++ {
				long := geometry.Distance(run[i-1], run[i])
				l.legs = append(l.legs, leg{run[i-1], run[i], l.CoverAt(at), l.CoverAt(at + long)})
				at += long
			}
		}
		if len(l.legs) == 0 {
			continue
		}
		l.thin()
		l.falls()
		l.thickened()
		l.sawn(p.Cuts)
		l.bolted(p)
		l.doweled(p)
		if l.Kind != plan.Tubing { // which is tied to them
			l.barred(met)
		}
		l.jointed(p.Joints)
	}
}

// within tells whether a line lies in the field's concrete somewhere.
func (l *laid) within() bool { return min(l.Cover, l.CoverAt(l.Length())) < l.Plan.Field }

func (l *laid) thin() {
	if third := l.Plan.Field / 3; l.Kind != plan.TrenchDrain && l.within() && l.Thick() > third {
		l.Find(ruleThird, rule.Note, l.legs[0].a, "The line %s is %s thick and lies in a slab of %s: at most a third of it, %s. Lay it under the slab.", l.name, l.Text(l.Thick()), l.Text(l.Plan.Field), l.Text(third))
	}
}

// Least falls of drains, as shares: 1/4 in per ft up to 2 1/2 in, 1/8 in per ft over that.
const (
	smallDrain = 5 * inch / 2
	steepFall  = 1.0 / 48
	flatFall   = 1.0 / 96
)

func (l *laid) falls() {
	if l.Kind != plan.DrainLine {
		return
	}
	share := flatFall
	if l.Diameter <= smallDrain {
		share = steepFall
	}
	long := l.Length()
	asked := geometry.Rounded(share * float64(long))
	if got := l.CoverAt(long) - l.Cover; got.Abs() < asked-geometry.Sixteenth {
		l.Find(ruleFall, rule.Note, l.Path[0], "The drain line %s falls %s over %s; %s is asked, 1 in %.0f: give its depth at the other end.", l.name, l.Text(got.Abs()), l.Text(long), l.Text(asked.Round(l.Step())), 1/share)
	}
}

// thickened reports a line under the field that runs through haunches, pads or strips.
func (l *laid) thickened() {
	if l.Solid == nil || l.within() || l.Kind == plan.TrenchDrain {
		return
	}
	var through geometry.Length
	var at geometry.Point
	for _, g := range l.legs {
		long := geometry.Distance(g.a, g.b)
		for _, p := range l.Solid.Cut(g.a, g.b) {
			mid := (p.From + p.To) / 2
			if g.depth(float64(mid)/float64(long)) < (p.Start+p.End)/2-geometry.Sixteenth {
				if through == 0 {
					at = geometry.Along(g.a, g.b, mid)
				}
				through += p.To - p.From
			}
		}
	}
	if through > 0 {
		l.Find(ruleThick, rule.Note, at, "The line %s runs through thickened concrete over %s: set a sleeve two sizes wider there before the pour, or lay it deeper.", l.name, l.Text(through.Round(l.Step())))
	}
}

// sawClear is how far a saw stays off a line: common practice, no source.
const sawClear = inch

func (l *laid) sawn(cuts []sawcuts.Cut) {
	n := 0
	var at geometry.Point
	var deep geometry.Length
	for _, c := range cuts {
		for _, g := range l.legs {
			p, share, ok := g.meets(c.A, c.B, l.Diameter/2)
			if ok && g.depth(share) < c.Depth+sawClear {
				if n++; n == 1 {
					at, deep = p, c.Depth
				}
				break
			}
		}
	}
	switch {
	case n > 0 && l.Kind == plan.TrenchDrain:
		l.Find(ruleSaw, rule.Limit, at, "Saw cuts of %s run over the trench drain %s: %d. Stop the saw at it, on both sides.", l.Text(deep), l.name, n)
	case n > 0:
		l.Find(ruleSaw, rule.Limit, at, "The line %s lies %s down where saw cuts of %s run over it: %d. Lay it at least %s below them, or stop the saw.", l.name, l.Text(l.Cover), l.Text(deep), n, l.Text(sawClear))
	}
}

// meets gives where a leg comes as near to a segment, and at which share of its way.
func (g leg) meets(a, b geometry.Point, near geometry.Length) (geometry.Point, float64, bool) {
	if p, ok := geometry.Meet(g.a, g.b, a, b); ok {
		share, _ := geometry.Nearest(p, g.a, g.b)
		return p, share, true
	}
	for _, p := range [...]geometry.Point{a, b} {
		if share, away := geometry.Nearest(p, g.a, g.b); away <= near {
			return p, share, true
		}
	}
	for i, p := range [...]geometry.Point{g.a, g.b} {
		if _, away := geometry.Nearest(p, a, b); away <= near {
			return p, float64(i), true
		}
	}
	return geometry.Point{}, 0, false
}

// boltClear is how far bolts stay off a line, in diameters: common practice, no source.
const boltClear = 4

func (l *laid) bolted(p Placed) {
	asks := boltClear * p.Bolts.Diameter
	for _, w := range p.Walls {
		for _, b := range w.Bolts {
			for _, g := range l.legs {
				share, away := geometry.Nearest(b.At, g.a, g.b)
				if away-l.Diameter/2 < asks && g.depth(share) < p.Bolts.Length-p.Bolts.Projection+inch {
					l.Find(ruleBolts, rule.Limit, b.At, "%s: the bolt at %s is nearer than %s to the line %s: move one of them, or lay the line deeper.", w.Name(), l.Text(b.Along), l.Text(asks), l.name)
					break
				}
			}
		}
	}
}

func (l *laid) doweled(p Placed) {
	for _, d := range p.Dowels {
		for _, g := range l.legs {
			if at, share, ok := g.meets(d.Outer, d.Inner, l.Diameter/2+max(p.Thick, d.Width)/2+inch); ok && l.level(g.depth(share), d.Depth, p.Thick+2*inch) {
				l.Find(ruleBolts, rule.Limit, at, "The line %s is nearer than %s to the dowel at %s on %s: move it.", l.name, l.Text(inch), l.Text(d.Along), l.SideName(l.Sides[0][d.Edge]))
				break
			}
		}
	}
}

// level tells whether a line whose top lies so deep meets a bar so thick, by its middle.
func (l *laid) level(top, bar, thick geometry.Length) bool {
	return bar+thick/2 > top && bar-thick/2 < top+l.Thick()
}

func (l *laid) barred(met *bars.Segments) {
	n := 0
	var at geometry.Point
	seen := map[int32]bool{}
	for _, g := range l.legs {
		for _, k := range met.Near(g.a, g.b, l.Diameter) {
			bar := met.All[k]
			p, share, ok := g.meets(bar.A.At, bar.B.At, (l.Diameter+bar.Db)/2)
			if !ok || seen[k] {
				continue
			}
			if _, deep := bars.ToSegment(p, bar.A, bar.B); l.level(g.depth(share), deep, bar.Db) {
				if seen[k] = true; n == 0 {
					at = p
				}
				n++
			}
		}
	}
	if n > 0 {
		l.Find(ruleBars, rule.Note, at, "Bars run into the line %s: %d. Tie them over or under it, or lay it deeper; none is cut for it.", l.name, n)
	}
}

func (l *laid) jointed(all []construction.Joint) {
	for _, j := range all {
		for _, f := range j.Lines {
			for _, g := range l.legs {
				if p, share, ok := g.meets(f.A, f.B, 0); ok && g.depth(share) < l.Plan.Field {
					l.Find(ruleJoint, rule.Note, p, "The line %s crosses the construction joint %s: set it in a sleeve through the bulkhead.", l.name, l.Marks.Construction(j.Index))
					return
				}
			}
		}
	}
}
