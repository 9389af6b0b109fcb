package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// The rules of bars.
var (
	RuleCover     = rule.Rule{Name: "Cover", Source: "ACI 318-19 Table 20.5.1.3.1", Step: rule.Steel}
	ruleHaunch    = rule.Rule{Name: "Bars lie in the haunch", Source: "geometry", Step: rule.Steel}
	ruleLap       = rule.Rule{Name: "Least lap", Source: "ACI 318-19 25.5.2.1", Step: rule.Steel}
	ruleSpacing   = rule.Rule{Name: "Clear spacing that the lap asks for", Source: "ACI 318-19 Table 25.4.2.3", Step: rule.Steel}
	ruleHook      = rule.Rule{Name: "Straight past a bend", Source: "ACI 318-19 Table 25.3.1", Step: rule.Steel}
	ruleStagger   = rule.Rule{Name: "Laps staggered and off corners", Source: "common practice", Step: rule.Steel}
	ruleCrossing  = rule.Rule{Name: "Crossed bars lap at inside corners", Source: "common practice", Step: rule.Steel}
	ruleSharp     = rule.Rule{Name: "Bars bent at corners", Source: "judgment, after the 135° hook of ties, ACI 318-19 Table 25.3.2", Step: rule.Steel}
	ruleDrop      = rule.Rule{Name: "Bars drop with the section", Source: "common practice", Step: rule.Steel}
	ruleRoom      = rule.Rule{Name: "Room for edge bars", Source: "geometry", Step: rule.Steel}
	rulePadRoom   = rule.Rule{Name: "Room for pad bars", Source: "geometry", Step: rule.Steel}
	ruleStripRoom = rule.Rule{Name: "Room for strip bars", Source: "geometry", Step: rule.Steel}
)

// CoverEarth is the least cover of concrete cast against earth, 3 in:
// ACI 318-19 table 20.5.1.3.1.
const CoverEarth = 3 * geometry.Inch

// LeastEarth gives the least cover of concrete cast against earth in the edition of the
// code that the job is in: CoverEarth, or 75 mm (ACI 318M-19 table 20.5.1.3.1). Bars are
// laid for the greater of the two.
func LeastEarth(u geometry.Units) geometry.Length {
	if u == geometry.Millimeters {
		return 75 * geometry.Millimeter
	}
	return CoverEarth
}

// CoverExposed gives the least cover of formed concrete exposed to weather or
// ground: 1 1/2 in up to No. 5, 16 mm, and 2 in beyond (ACI 318-19 table 20.5.1.3.1);
// 40 and 50 mm (ACI 318M-19).
func CoverExposed(size Size, u geometry.Units) geometry.Length {
	switch small := size.Diameter() <= 16*mm; {
	case u == geometry.Millimeters && small:
		return 40 * geometry.Millimeter
	case u == geometry.Millimeters:
		return 50 * geometry.Millimeter
	case small:
		return 3 * geometry.Inch / 2
	}
	return 2 * geometry.Inch
}

// eachSection calls visit for the first place of every section in use.
func (t *steel) eachSection(visit func(s slab.Side, e plan.Edge, sp plan.Span)) {
	seen := map[string]bool{}
	for _, l := range t.Sides {
		for _, s := range l {
			e := t.Edge(s)
			if e.Joint && t.spec.Joint == StopAtJoint {
				continue
			}
			for _, sp := range t.Spans(s) {
				if sp.Section != "" && !seen[sp.Section] {
					seen[sp.Section] = true
					visit(s, e, sp)
				}
			}
		}
	}
}

// checkRow reports a row that lies beyond a haunch, or nearer to its surfaces
// than ACI 318-19 allows, once for each section.
func (t *steel) checkRow(r row) {
	exposed, earth := CoverExposed(r.size, t.Units), LeastEarth(t.Units)
	t.eachSection(func(s slab.Side, e plan.Edge, sp plan.Span) {
		at := s.At((sp.From+sp.To)/2, 0)
		sec, _ := t.Plan.SectionOn(e, sp.Section)
		if r.inset > sec.Reach() {
			t.Find(ruleHaunch, rule.Note, at, "Row %d lies %s from the face, beyond section %s, which ends at %s.", r.number, t.Text(r.inset), sec.Name, t.Text(sec.Reach()))
			return
		}
		depth := t.depth(r, e, sp)
		bottom, slope := t.under(r, e, sp)-depth-r.db/2, slopeDistance(t.Stations(e, sp.Section), r.inset, depth)-r.db/2
		if bottom < earth {
			slope = earth // it is told of the bottom
		}
		for _, c := range [...]struct {
			to          string
			cover, asks geometry.Length
		}{
			{"the bottom", bottom, earth},
			{"the slope", slope, earth},
			{"the face", r.Face, exposed},
			{"the top", depth - r.db/2, exposed},
		} {
			if c.cover < c.asks {
				have := max(0, c.cover) / t.Step() * t.Step() // never the figure that is asked
				t.Find(RuleCover, rule.Limit, at, "Row %d has %s to %s of section %s; %s is asked.", r.number, t.Text(have), c.to, sec.Name, t.Text(c.asks))
			}
		}
	})
}

// slopeDistance gives how far a place of a section is from the underside, along the
// shortest way: to a slope that is less than straight down.
func slopeDistance(under []plan.Station, inset, depth geometry.Length) geometry.Length {
	least := math.Inf(1)
	for i := 1; i < len(under); i++ {
		a, b := under[i-1], under[i]
		x, y := float64(inset-a.Inset), float64(depth-a.Depth)
		u, v := float64(b.Inset-a.Inset), float64(b.Depth-a.Depth)
		f := 0.0
		if l := u*u + v*v; l > 0 {
			f = math.Min(math.Max((x*u+y*v)/l, 0), 1)
		}
		least = math.Min(least, math.Hypot(x-f*u, y-f*v))
	}
	return geometry.Rounded(math.Min(least, float64(geometry.MaxLength)))
}

// checkDug reports, once for an edge, where a row lies deeper than the slab is dug:
// as behind a hole in a haunch, which the haunch does not reach round.
func (t *steel) checkDug(c *chain) {
	if t.Solid == nil {
		return
	}
	found := map[int]bool{}
	for i, s := range c.s {
		a, b := c.v[i], c.v[i+1]
		long := geometry.Distance(a.At, b.At)
		if long == 0 || found[s.edge] || !t.crowded(c, a.At, b.At, s.edge) {
			continue
		}
		step := max(inch, long/10_000)
		for d := geometry.Length(0); d <= long; d += step {
			q := geometry.Along(a.At, b.At, d)
			depth := a.Depth + geometry.Rounded(float64(b.Depth-a.Depth)*float64(d)/float64(long))
			under, ok := t.Solid.DepthAt(q)
			if ok && depth+c.row.db/2 > under+geometry.Micrometer {
				found[s.edge] = true
				t.Find(ruleHaunch, rule.Severe, q, "Row %d along %s lies %s deep, and the slab is %s deep here: something near keeps the haunch from here. Move the row, or dig on.",
					c.row.number, t.SideName(t.Sides[c.loop][s.edge]), t.Text(depth), t.Text(under))
				break
			}
		}
	}
}

// crowded tells whether any edge but a row's own and its neighbors comes within
// the haunch under a stretch of it.
func (t *steel) crowded(c *chain, a, b geometry.Point, edge int) bool {
	var room [64]int32
	n := len(t.Sides[c.loop])
	for _, k := range t.On.Near(plane.BoxOf(a, b).Grown(float64(c.row.inset+c.row.db)), room[:0]) {
		s := t.All[k]
		if s.Loop != c.loop || s.Edge != edge && s.Edge != (edge+1)%n && s.Edge != (edge+n-1)%n {
			return true
		}
	}
	return false
}

// checkRowsApart reports rows nearer to each other than the table of development
// lengths asks, two bar diameters clear, once for each two.
func (t *steel) checkRowsApart() {
	if t.spec.Lap.Rule != LapByACI {
		return
	}
	found := map[[2]int]bool{}
	t.eachSection(func(s slab.Side, e plan.Edge, sp plan.Span) {
		for i := range t.spec.Rows {
			for j := range i {
				a, b := t.row(j), t.row(i)
				apart := geometry.Rounded(math.Hypot(float64(a.inset-b.inset), float64(t.depth(a, e, sp)-t.depth(b, e, sp)))) - (a.db+b.db)/2
				if asks := 2 * max(a.db, b.db); apart < asks && !found[[2]int{i, j}] {
					found[[2]int{i, j}] = true
					t.Find(ruleSpacing, rule.Note, s.At((sp.From+sp.To)/2, 0),
						"Rows %d and %d are %s clear of each other; the lap's length holds for %s. Set them further apart, or type a lap half as long again.", j+1, i+1, t.Text(max(0, apart)), t.Text(asks))
				}
			}
		}
	})
}

// HookExtension gives how far a standard hook of 90 degrees runs on straight past
// its bend: 12 db (ACI 318-19 table 25.3.1).
func HookExtension(size Size) geometry.Length { return 12 * size.Diameter() }

// leastHookTurn is the turn, in degrees, from which a bar's end past a bend is
// looked at as a hook: judgment, no source.
const leastHookTurn = 80

// checkHooks reports bars that end too soon past a sharp bend.
func (t *steel) checkHooks(bars []Bar) {
	for _, b := range bars {
		n := len(b.Bends)
		if n == 0 {
			continue
		}
		for _, end := range [...]struct {
			leg  geometry.Length
			turn float64
			at   geometry.Point
		}{{b.Legs[0], b.Bends[0].Turn, b.Path[0]}, {b.Legs[n], b.Bends[n-1].Turn, b.Path[len(b.Path)-1]}} {
			past := end.leg - bendReach(b.Size, end.turn*math.Pi/180) - b.Size.Diameter()/2
			if asks := HookExtension(b.Size); end.turn >= leastHookTurn && past < asks {
				t.Find(ruleHook, rule.Note, end.at, "A bar of %s ends %s past its bend; a standard hook runs on %s.", b.Of.Text(t.Plan, t.Marks), t.Text(max(0, past)), t.Text(asks))
			}
		}
	}
}
