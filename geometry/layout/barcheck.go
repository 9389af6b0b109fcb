package layout

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The rules of bars.
var (
	ruleCover     = Rule{"Cover", "ACI 318-19 Table 20.5.1.3.1"}
	ruleHaunch    = Rule{"Bars lie in the haunch", "geometry"}
	ruleSpacing   = Rule{"Clear spacing that the lap asks for", "ACI 318-19 Table 25.4.2.3"}
	ruleHook      = Rule{"Straight past a bend", "ACI 318-19 Table 25.3.1"}
	ruleStagger   = Rule{"Laps staggered and off corners", "common practice"}
	ruleCrossing  = Rule{"Crossed bars lap at inside corners", "common practice"}
	ruleDrop      = Rule{"Bars drop with the section", "common practice"}
	ruleRoom      = Rule{"Room for edge bars", "geometry"}
	rulePadRoom   = Rule{"Room for pad bars", "geometry"}
	ruleStripRoom = Rule{"Room for strip bars", "geometry"}
)

// coverEarth is the least cover of concrete cast against earth, 3 in:
// ACI 318-19 table 20.5.1.3.1.
const coverEarth = 3 * geometry.Inch

// coverExposed gives the least cover of formed concrete exposed to weather or
// ground: 1 1/2 in up to No. 5, 2 in beyond (ACI 318-19 table 20.5.1.3.1).
func coverExposed(size int) geometry.Length {
	if size <= 5 {
		return 3 * geometry.Inch / 2
	}
	return 2 * geometry.Inch
}

// eachSection calls visit for the first place of every section in use.
func (t *site) eachSection(visit func(s side, e plan.Edge, sp plan.Span)) {
	seen := map[string]bool{}
	for _, l := range t.sides {
		for _, s := range l {
			e := t.edge(s)
			if e.Joint && t.spec.Bars.Joint == StopAtJoint {
				continue
			}
			for _, sp := range t.spans(s) {
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
func (t *site) checkRow(r row) {
	exposed := coverExposed(r.size)
	t.eachSection(func(s side, e plan.Edge, sp plan.Span) {
		at := s.at((sp.From+sp.To)/2, 0)
		sec, _ := t.plan.SectionOn(e, sp.Section)
		if r.inset > sec.Reach() {
			t.find(ruleHaunch, false, at, "Row %d lies %s from the face, beyond section %s, which ends at %s.", r.number, t.text(r.inset), sec.Name, t.text(sec.Reach()))
			return
		}
		depth := t.depth(r, e, sp)
		for _, c := range [...]struct {
			to          string
			cover, asks geometry.Length
		}{
			{"the bottom", t.under(r, e, sp) - depth - r.db/2, coverEarth},
			{"the face", r.Face, exposed},
			{"the top", depth - r.db/2, exposed},
		} {
			if c.cover < c.asks {
				t.find(ruleCover, true, at, "Row %d has %s to %s of section %s; %s is asked.", r.number, t.text(max(0, c.cover)), c.to, sec.Name, t.text(c.asks))
			}
		}
	})
}

// checkDug reports, once for an edge, where a row lies deeper than the slab is dug:
// as behind a hole in a haunch, which the haunch does not reach round.
func (t *site) checkDug(c *chain) {
	if t.solid == nil {
		return
	}
	found := map[int]bool{}
	for i, s := range c.s {
		a, b := c.v[i], c.v[i+1]
		long := geometry.Distance(a.at, b.at)
		if long == 0 || found[s.edge] || !t.crowded(c, a.at, b.at, s.edge) {
			continue
		}
		step := max(inch, long/10_000)
		for d := geometry.Length(0); d <= long; d += step {
			q := geometry.Along(a.at, b.at, d)
			depth := a.depth + round(float64(b.depth-a.depth)*float64(d)/float64(long))
			under, ok := t.solid.DepthAt(q)
			if ok && depth+c.row.db/2 > under+geometry.Micrometer {
				found[s.edge] = true
				t.find(ruleHaunch, true, q, "Row %d along %s lies %s deep, and the slab is %s deep here: something near keeps the haunch from here. Move the row, or dig on.",
					c.row.number, t.sides[c.loop][s.edge].name(), t.text(depth), t.text(under))
				break
			}
		}
	}
}

// crowded tells whether any edge but a row's own and its neighbors comes within
// the haunch under a stretch of it.
func (t *site) crowded(c *chain, a, b geometry.Point, edge int) bool {
	m := float64(c.row.inset + c.row.db)
	box := geometry.BoxOf(a, b)
	g := t.region
	g.near(geometry.Box{MinX: box.MinX - m, MinY: box.MinY - m, MaxX: box.MaxX + m, MaxY: box.MaxY + m})
	n := len(t.sides[c.loop])
	for _, k := range g.found {
		s := g.sides[k]
		if s.loop != c.loop || s.edge != edge && s.edge != (edge+1)%n && s.edge != (edge+n-1)%n {
			return true
		}
	}
	return false
}

// checkRowsApart reports rows nearer to each other than the table of development
// lengths asks, two bar diameters clear, once for each two.
func (t *site) checkRowsApart() {
	if t.spec.Bars.Lap.Rule != LapByACI {
		return
	}
	found := map[[2]int]bool{}
	t.eachSection(func(s side, e plan.Edge, sp plan.Span) {
		for i := range t.spec.Bars.Rows {
			for j := range i {
				a, b := t.row(j), t.row(i)
				apart := round(math.Hypot(float64(a.inset-b.inset), float64(t.depth(a, e, sp)-t.depth(b, e, sp)))) - (a.db+b.db)/2
				if asks := 2 * max(a.db, b.db); apart < asks && !found[[2]int{i, j}] {
					found[[2]int{i, j}] = true
					t.find(ruleSpacing, false, s.at((sp.From+sp.To)/2, 0),
						"Rows %d and %d are %s clear of each other; the lap's length holds for %s. Set them further apart, or type a lap half as long again.", j+1, i+1, t.text(max(0, apart)), t.text(asks))
				}
			}
		}
	})
}

// HookExtension gives how far a standard hook of 90 degrees runs on straight past
// its bend: 12 db (ACI 318-19 table 25.3.1).
func HookExtension(size int) geometry.Length { return 12 * diameter(size) }

// leastHookTurn is the turn, in degrees, from which a bar's end past a bend is
// looked at as a hook: judgment, no source.
const leastHookTurn = 80

// checkHooks reports bars that end too soon past a sharp bend.
func (t *site) checkHooks(bars []Bar) {
	for _, b := range bars {
		n := len(b.Bends)
		if n == 0 {
			continue
		}
		for _, end := range [...]struct {
			leg  geometry.Length
			turn float64
			at   geometry.Point
		}{{b.Legs[0], b.Bends[0].Turn, b.Path[0]}, {b.Legs[n], b.Bends[n-1].Turn, b.Path[n+1]}} {
			past := end.leg - bendReach(b.Size, end.turn*math.Pi/180) - diameter(b.Size)/2
			if asks := HookExtension(b.Size); end.turn >= leastHookTurn && past < asks {
				t.find(ruleHook, false, end.at, "A bar of %s ends %s past its bend; a standard hook runs on %s.", b.Row, t.text(max(0, past)), t.text(asks))
			}
		}
	}
}
