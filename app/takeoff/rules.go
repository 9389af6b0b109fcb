package takeoff

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// What the slab and its ground are held against besides its layout. Editions are
// those in which a number was looked up; later ones may number it otherwise.
var (
	ruleStrength  = rule.Rule{Name: "Concrete strength", Source: "IRC Table R402.2, 2018", Step: rule.Pour}
	ruleThickness = rule.Rule{Name: "Slab thickness", Source: "IRC R506.1, 2018"}
	ruleRetarder  = rule.Rule{Name: "Vapor retarder", Source: "IRC R506.2.3, 2021", Step: rule.Ground}
	ruleFill      = rule.Rule{Name: "Fill", Source: "IRC R506.2.1, 2018", Step: rule.Ground}
	ruleBase      = rule.Rule{Name: "Base", Source: "IRC R506.2.2, 2018", Step: rule.Ground}
	ruleFooting   = rule.Rule{Name: "What edges stand on", Source: "IRC R403.1, 2018", Step: rule.Ground}
	ruleDepth     = rule.Rule{Name: "Depth of edges", Source: "IRC R403.1.4, 2018"}
	ruleFalls     = rule.Rule{Name: "Fall of a garage floor", Source: "IRC R309.1, 2018", Step: rule.Ground}
	ruleSeismic   = rule.Rule{Name: "Edge bars by seismic category", Source: "IRC R403.1.3.3, 2018; wording from memory", Step: rule.Steel}
	ruleWasher    = rule.Rule{Name: "Plate washers", Source: "IRC R602.11.1"}
	ruleInner     = rule.Rule{Name: "Walls inside", Source: "IRC R403.1.6, exceptions from memory"}
	ruleSlide     = rule.Rule{Name: "Dowels slide", Source: "ACI 302.1R; UFC 3-320-06A"}
	ruleTie       = rule.Rule{Name: "Dowels tie the slabs", Source: "ACI 302.1R; UFC 3-320-06A"}
	ruleGrade     = rule.Rule{Name: "Bars that are made", Source: "ASTM A615/A615M", Step: rule.Steel}
)

// LeastStrength is the least of any slab on ground, psi: IRC Table R402.2, 2018.
const LeastStrength = 2500

const (
	leastThickness = 7 * geometry.Inch / 2
	leastRetarder  = 10 // mil
	olderRetarder  = 6  // mil, of editions before 2021
	leastBase      = 4 * geometry.Inch
	mostFill       = 24 * geometry.Inch // of clean sand or gravel
	mostEarth      = 8 * geometry.Inch
	leastFooting   = 12 * geometry.Inch // below undisturbed ground
	leastWasher    = 3 * geometry.Inch

	leastSeismicBar = geometry.Inch / 2     // No. 4
	thickSeismicBar = 5 * geometry.Inch / 8 // No. 5
)

// check reports where the slabs, the mix or the ground fall short of a rule.
func (b *builder) check() {
	if n := b.spec.Mix.Strength; n < LeastStrength {
		if b.m.metric() {
			b.find(ruleStrength, rule.Limit, b.home(), "Concrete of %s: slabs on ground take at least 17 MPa; garage slabs 21 or 24 where it freezes.", StrengthText(n, b.m.u))
		} else {
			b.find(ruleStrength, rule.Limit, b.home(), "Concrete of %d psi: slabs on ground take at least 2,500 psi; garage slabs 3,000 or 3,500 where it freezes.", n)
		}
	}
	switch r := b.spec.Base.Retarder; {
	case r > 0 && r < olderRetarder:
		b.find(ruleRetarder, rule.Limit, b.home(), "The vapor retarder is %s thick: at least %s is asked, %s in older editions.", Mils(r, b.m.u), b.mils(leastRetarder), b.mils(olderRetarder))
	case r >= olderRetarder && r < leastRetarder:
		b.find(ruleRetarder, rule.Note, b.home(), "The vapor retarder is %s thick: enough by editions before 2021; since then %s is asked where one is asked at all (not under garages and unheated accessory buildings).", Mils(r, b.m.u), b.mils(leastRetarder))
	}
	if i := slices.IndexFunc(b.t.Slabs, func(s Slab) bool { return len(s.Plan.Sections) > 0 }); i >= 0 {
		job := Slab{Plan: b.t.Slabs[i].Plan} // said once for all of them
		if _, thick := b.spec.Base.Layers(); thick > 0 {
			b.planOn(job, ruleFooting, rule.Note, job.home(), "Edges stand on %s: undisturbed soil or engineered fill is asked.", b.layersText())
		}
		if b.spec.Place.Bars.Seismic == bars.AnySeismic {
			b.planOn(job, ruleSeismic, rule.Note, job.home(), "Not checked: edge bars and washers by seismic category, which is not stated.")
		}
	}
	for _, s := range b.t.Slabs {
		if f := s.Plan.Field; f < leastThickness {
			b.findOn(s, ruleThickness, rule.Limit, s.home(), "The slab is %s thick; a slab on ground is at least %s.", b.m.text(f), b.m.text(leastThickness))
		}
		b.checkGround(s)
		b.checkDepth(s)
		b.checkFrost(s)
		b.checkFalls(s)
		b.checkBreaks(s)
		b.checkLips(s)
		b.checkEdgeBars(s)
		if ds := s.Layout.Dowels; len(ds) > 0 {
			by, does := ruleTie, "Dowels are deformed bar, held at both ends: they keep the slabs level and the joint shut, and the old slab holds the new one back as it shrinks."
			switch b.place.Dowels.Kind {
			case joints.Plates:
				by, does = ruleSlide, "Dowels are plates, flat in sawn slots of the old slab and sleeved in the new one: they keep the slabs level, and let the joint open and the slabs move along it. They must lie level, or they bind."
			case joints.Sliding:
				by, does = ruleSlide, "Dowels are smooth, sleeved or greased in the new slab: they keep the slabs level and let the joint open. They must lie level, square to the joint and side by side, or they bind."
			}
			if !slices.ContainsFunc(s.Plan.Outline, func(e plan.Edge) bool { return e.Joint && len(e.OldCuts) > 0 }) {
				does += " Not checked: joints of the old slab, which saw cuts here are to meet; none is given."
			}
			b.planOn(s, by, rule.Note, ds[0].At, "%s", does)
		}
		if len(s.Plan.Strips) > 0 && len(s.Plan.Walls) == 0 {
			b.planOn(s, ruleInner, rule.Note, s.Plan.Strips[0].Path[0], "Not checked: what holds walls on thickened strips. Plates of interior braced walls are bolted like those outside, of bearing walls held by approved fasteners.")
		}
	}
	b.frostNote()
	b.checkGrade()
}

func (b *builder) find(r rule.Rule, how rule.Severity, at geometry.Point, format string, args ...any) {
	b.t.Findings = append(b.t.Findings, rule.Finding{Rule: r, Severity: how, At: at, Text: fmt.Sprintf(format, args...)})
}

func (b *builder) findOn(s Slab, r rule.Rule, how rule.Severity, at geometry.Point, format string, args ...any) {
	b.find(r, how, at, "%s", s.Called(fmt.Sprintf(format, args...)))
}

// planOn is findOn for what is minded before the day of the work.
func (b *builder) planOn(s Slab, r rule.Rule, how rule.Severity, at geometry.Point, format string, args ...any) {
	b.findOn(s, r, how, at, format, args...)
	b.t.Findings[len(b.t.Findings)-1].Planning = true
}

// home is where findings about the whole slab are shown.
func (s Slab) home() geometry.Point { return s.Plan.Outline[0].At }

// checkGround reports base and fill under a slab that are not as they should be. A
// slab counts as below grade where its top lies below the ground.
func (b *builder) checkGround(s Slab) {
	g := b.spec.Base
	above := g.Above + s.Plan.Height
	if above < 0 && g.Gravel < leastBase {
		b.findOn(s, ruleBase, rule.Limit, s.home(), "The slab lies below the ground on %s of gravel: at least %s of clean sand, gravel or crushed stone is asked there, but on well-drained or sandy ground (group I).", b.m.text(g.Gravel), b.m.text(leastBase))
	}
	under, _ := g.Layers()
	fill := max(0, above-s.Plan.Field-under)
	switch {
	case fill+g.Gravel > rule.Most(mostFill, b.m.u):
		b.findOn(s, ruleFill, rule.Limit, s.home(), "%s of fill and gravel lie under the slab: at most %s of clean sand or gravel, %s of earth, unless it is approved.", b.m.text(fill+g.Gravel), b.m.text(mostFill), b.m.text(mostEarth))
	case fill > rule.Most(mostEarth, b.m.u):
		b.findOn(s, ruleFill, rule.Note, s.home(), "%s of fill lie under base and foam: at most %s may be earth; fill with clean sand or gravel, in compacted lifts.", b.m.text(fill), b.m.text(mostEarth))
	}
}

// layersText names what lies under thickened edges.
func (b *builder) layersText() string {
	g := b.spec.Base
	switch {
	case g.Foam == 0:
		return b.m.text(g.Gravel) + " of gravel"
	case g.Gravel == 0:
		return b.m.text(g.Foam) + " of foam"
	}
	return b.m.text(g.Foam) + " of foam on " + b.m.text(g.Gravel) + " of gravel"
}

// checkDepth reports that thickened edges, or edges under walls, of a building do not
// reach 12 in below the ground. Of one that is small enough and stands free as it is
// drawn it is a thing to know until the job says what it is.
func (b *builder) checkDepth(s Slab) {
	walls, joint := false, false
	for _, e := range s.Plan.Outline {
		walls, joint = walls || e.Wall != "", joint || e.Joint
	}
	if !walls || b.spec.Base.LetOff(s.Plan) {
		return
	}
	var short []string
	var at geometry.Point
	deep := geometry.Length(0)
	for _, r := range EdgeLineOf(s.Plan, s.Solid, b.spec.Base, leastFooting, s.Layout.Met()).Reaches(s.Plan) {
		if r.Short() == 0 {
			continue
		}
		where := b.m.text(max(0, leastFooting-r.Short()))
		if r.Section != "" {
			where += " (" + r.Section + ")"
		}
		if short = append(short, where); len(short) == 1 {
			at = r.At
		}
		deep = max(deep, r.Asked)
	}
	if len(short) == 0 {
		return
	}
	find, how, but := b.findOn, rule.Limit, ""
	if b.spec.Base.Building == AnyBuilding && small(s.Plan) && !joint {
		find, how, but = b.planOn, rule.Note, " Not of a small accessory building: say what it is."
	}
	find(s, ruleDepth, how, at, "Edges reach %s into undisturbed ground; %s is asked, besides frost: edges %s deep, or the slab lower.%s",
		strings.Join(short, " and "), b.m.text(leastFooting), b.m.text(deep), but)
}

// drained is how far over the lowest point of the top a vehicle door or a drain may
// stand: judgment, no source.
const drained = geometry.Inch / 4

// checkFalls reports a floor with a vehicle door that falls neither to one nor to an
// opening, as a drain. How much it falls is left to practice: 1/8 in per ft is common.
func (b *builder) checkFalls(s Slab) {
	low := func(q geometry.Point) bool { return s.Solid.TopAt(q) <= drained }
	var at geometry.Point
	found, falls := false, false
	for i, e := range s.Plan.Outline {
		from, to := s.Plan.Outline.Ends(i)
		for _, d := range e.Doors {
			if d.Kind != plan.Overhead {
				continue
			}
			if mid := geometry.Along(from, to, d.From+d.Width/2); !found {
				at, found = mid, true
			}
			falls = falls || low(geometry.Along(from, to, d.From)) || low(geometry.Along(from, to, d.From+d.Width))
		}
	}
	for _, h := range s.Plan.Holes {
		for _, e := range h.Loop {
			falls = falls || low(e.At)
		}
	}
	switch {
	case !found:
	case s.Plan.Top.Level():
		b.findOn(s, ruleFalls, rule.Limit, at, "The floor behind the vehicle door is level: let it fall to a drain or the door; 1/8 in per ft is common.")
	case !falls:
		b.findOn(s, ruleFalls, rule.Limit, at, "The top falls neither to the vehicle door nor to a drain: turn the fall, or give it a drain at its lowest point.")
	}
}

// mils writes a thickness of sheeting beside another: "10", or "0.25 mm (10 mil)".
func (b *builder) mils(n int) string {
	if b.m.metric() {
		return Mils(n, b.m.u)
	}
	return strconv.Itoa(n)
}

// checkEdgeBars reports turned-down edges without the bars that high seismic categories
// ask: one No. 4 at the top and one at the bottom, or one No. 5 or two No. 4 in the
// middle third of the depth (wording from memory). Top and bottom are read as its upper and lower third.
func (b *builder) checkEdgeBars(s Slab) {
	place := b.spec.Place
	if len(s.Plan.Sections) == 0 || place.Bars.Seismic != bars.HighSeismic {
		return
	}
	told, met := map[string]bool{}, s.Layout.Met()
	for i, e := range s.Plan.Outline {
		for _, on := range s.Plan.Outline.Spans(i) {
			sec, ok := s.Plan.SectionOn(e, on.Section)
			if !ok || e.Joint || told[on.Section] || plan.Covered(met, i, on.From, on.To) {
				continue
			}
			told[on.Section] = true
			if !b.enoughBars(s.Plan, sec) {
				thick := ""
				if b.m.metric() {
					thick = " A No. 4 is 12.7 mm thick, a No. 5 15.9 mm."
				}
				b.findOn(s, ruleSeismic, rule.Limit, s.Plan.Outline.Along(i, (on.From+on.To)/2),
					"Edges with section %s: in seismic categories D0 to D2 they want a No. 4 at the top and one at the bottom, or one No. 5 or two No. 4 in the middle third of their depth.%s", sec.Name, thick)
			}
		}
	}
	if w := place.Bolts.Washer; len(s.Layout.Walls) > 0 && w < leastWasher {
		b.find(ruleWasher, rule.Limit, b.home(), "Washers of %s: in seismic categories D0 to D2 bolts of braced walls want plate washers of at least %s by %s.", b.m.text(w), b.m.text(leastWasher), b.m.text(leastWasher))
	}
}

// enoughBars tells whether the rows in a section are what high seismic categories ask.
func (b *builder) enoughBars(p plan.Plan, sec plan.Section) bool {
	deep := sec.Deepest()
	var top, middle, bottom, thick int
	for _, r := range b.spec.Place.Bars.Rows {
		size := b.spec.Place.Bars.Size
		if r.Size != 0 {
			size = r.Size
		}
		db := size.Diameter()
		if r.Face+db/2 > sec.Reach() || db < leastSeismicBar {
			continue
		}
		at := r.Top + db/2
		if r.Top == 0 {
			at = deep - r.Bottom - db/2
		}
		switch {
		case 3*at < deep:
			top++
		case 3*at > 2*deep:
			bottom++
		default:
			middle++
			if db >= thickSeismicBar {
				thick++
			}
		}
	}
	return top > 0 && bottom > 0 || thick > 0 || middle > 1
}

// checkGrade reports bars that are not made in the grade, as a No. 7 of grade 40.
func (b *builder) checkGrade() {
	grade, told := b.spec.Place.Bars.Grade, map[bars.Size]bool{}
	for _, l := range b.t.Lines {
		n := l.ID.Bar
		if l.ID.Kind != BarStock || grade.Makes(n) || told[n] {
			continue
		}
		told[n] = true
		switch {
		case grade == bars.B500:
			b.find(ruleGrade, rule.Limit, b.home(), "%s bars of B500 are not made: B500 is of bars by millimeters. Ask for grade 60, or for such bars.", n)
		case n.Metric():
			b.find(ruleGrade, rule.Limit, b.home(), "%s bars of grade %d are not made. Ask for B500, or for 420 MPa, grade 60.", n, grade)
		default:
			b.find(ruleGrade, rule.Limit, b.home(), "%s bars of grade 40 are not made: grade 40 goes from No. 3 to No. 6. Ask for grade 60.", n)
		}
	}
}
