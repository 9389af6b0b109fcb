package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/frost"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// FrostFoam is a type of rigid foam by ASTM C578, with its compressive strength.
type FrostFoam = geometry.Choice[frostFoams]

type frostFoams struct{}

// Names implements geometry.Named.
func (frostFoams) Names() []string {
	return []string{"unstated", "eps ii", "eps ix", "eps xiv", "eps xv", "xps x", "xps iv", "xps vi", "xps vii", "xps v"}
}

// What insulated edges are held against: editions of 2018, all of it from memory.
var (
	ruleFrost   = rule.Rule{Name: "Frost-protected edges", Source: "IRC R403.3, from memory", Step: rule.Ground}
	ruleWings   = rule.Rule{Name: "Frost wings are covered", Source: "IRC R403.3.2, from memory", Step: rule.Ground}
	ruleAdjoins = rule.Rule{Name: "Frost insulation at another slab", Source: "IRC R403.3.1.1, from memory", Step: rule.Ground}
)

const (
	openWing  = 24 * geometry.Inch // how far out wings go with no cover
	underWing = 12 * geometry.Inch // of ground over wings with no cover
)

// Insulated tells whether the edges are insulated against frost: of a heated building only.
func (b Base) Insulated() bool {
	return b.Building == HeatedBuilding && b.Upright > 0 && b.UprightDeep > 0
}

// Insulates tells whether the edges of a slab are insulated against frost.
func (b Base) Insulates(p plan.Plan) bool { return b.Insulated() && !p.Unheated }

// ShallowDepth gives how deep below the ground insulated edges are to go: 12 in at least,
// IRC R403.1.4.
func (b Base) ShallowDepth() geometry.Length { return max(b.Shallow, leastFooting) }

// frostSheet gives the size of a sheet of the insulation.
func (b Base) frostSheet() cover.Ply {
	return cover.Ply{Width: cmp.Or(b.FrostWidth, b.FoamWidth), Length: cmp.Or(b.FrostLength, b.FoamLength)}
}

// Frost gives what is laid at the edges; nothing where none is.
func (b Base) Frost() frost.Spec {
	if !b.Insulated() {
		return frost.Spec{}
	}
	s := frost.Spec{Upright: b.Upright, Height: b.UprightDeep, Wing: b.Wing, Width: b.WingWidth}
	if s.Corner = b.CornerWidth; s.Corner > 0 {
		s.CornerLong = b.CornerLong
	}
	return s
}

// garage tells whether vehicles drive onto a slab: the rule is not for garages.
func garage(p plan.Plan) bool {
	return slices.ContainsFunc(p.Outline, func(e plan.Edge) bool {
		return slices.ContainsFunc(e.Doors, func(d plan.Door) bool { return d.Kind == plan.Overhead })
	})
}

// frost takes off the insulation of the edges.
func (b *builder) frost() {
	g, s := b.spec.Base, b.spec.Base.Frost()
	if !g.Insulated() {
		return
	}
	plans, met := make([]plan.Plan, len(b.t.Slabs)), make([][]plan.Meeting, len(b.t.Slabs))
	for i, slab := range b.t.Slabs {
		plans[i], met[i] = slab.Plan, slab.Layout.Met()
	}
	laid := frost.Of(plans, met, s)
	if len(laid.Runs) == 0 {
		return
	}
	for i := range b.t.Slabs {
		b.t.Slabs[i].Frost = laid.Slabs[i]
	}
	var steps []Step
	for _, r := range laid.Runs {
		slab := b.t.Slabs[r.Slab]
		steps = append(steps, Step{Text: slab.Called(fmt.Sprintf("Free edge %d", r.Edge+1)), Work: fmt.Sprintf("%s × %s", b.m.text(r.To-r.From), b.m.text(s.Height)),
			Result: b.m.areaText((r.To - r.From).Meters() * s.Height.Meters())})
	}
	v, u := b.m.area(laid.UprightA)
	b.add(ID{Kind: FrostUpright, Thickness: g.Upright}, v, u, append(steps,
		Step{Text: "On the face of the edges", Work: "not along joints nor against other slabs", Result: text(v, u), Source: ruleFrost.Source})...)
	if laid.LyingA > 0 {
		v, u := b.m.area(laid.LyingA)
		steps := []Step{{Text: "Along the edges", Work: fmt.Sprintf("%s wide out from the upright foam of %s", b.m.text(s.Width), b.m.text(s.Upright))}}
		if s.Corner > s.Width {
			steps = append(steps, Step{Text: "At corners that stand out", Work: fmt.Sprintf("%s wide, %s along each edge", b.m.text(s.Corner), b.m.text(s.CornerLong))})
		}
		b.add(ID{Kind: FrostLying, Thickness: g.Wing}, v, u, append(steps,
			Step{Text: "Each place once, round the corners too", Work: "digging for it is not taken off", Result: text(v, u), Source: ruleFrost.Source})...)
	}
	if g.Wing == g.Upright {
		b.frostSheets(g.Upright, append(laid.Upright, laid.Lying...))
		return
	}
	b.frostSheets(g.Upright, laid.Upright)
	b.frostSheets(g.Wing, laid.Lying)
}

// frostSheets adds the sheets of a thickness that pieces are cut from.
func (b *builder) frostSheets(thick geometry.Length, pieces []cover.Sheet) {
	y := b.spec.Base.frostSheet()
	var cut []cover.Sheet
	area := 0.0
	for _, p := range pieces {
		for w := p.Width; w > 0; w -= y.Width {
			for l := p.Length; l > 0; l -= y.Length {
				c := cover.Sheet{Width: min(w, y.Width), Length: min(l, y.Length)}
				area += c.Area()
				cut = append(cut, c)
			}
		}
	}
	if len(cut) == 0 {
		return
	}
	n, least := cover.Buy(cut, y)
	b.add(ID{Kind: FrostStock, Thickness: thick, Width: y.Width, Length: y.Length, Form: Sheet}, float64(n), Each,
		Step{Text: "Pieces, as long as the free edges and round their corners", Work: fmt.Sprintf("%s, %s", count(len(cut), "piece"), b.m.areaText(area))},
		Step{Text: "To buy", Work: b.m.areaText(y.Width.Meters()*y.Length.Meters()) + " a sheet", Result: fmt.Sprint(n), Source: proof(cover.Laid{Optimal: least})})
}

// frostNote tells, once for the job, what insulated edges hang on; or that such edges are
// refused where the building is not heated.
func (b *builder) frostNote() {
	g, job := b.spec.Base, Slab{Plan: b.t.Slabs[0].Plan}
	switch {
	case g.Building != HeatedBuilding && g.Upright > 0:
		b.findOn(job, ruleFrost, rule.Limit, job.home(), "Frost insulation is given, and the building is not said to be heated: none is taken off. Edges of garages, carports, porches and other unheated buildings go to the frost depth.")
	case g.Upright > 0 && g.UprightDeep == 0:
		b.findOn(job, ruleFrost, rule.Limit, job.home(), "The height of the upright frost foam is not given: none is taken off, and the frost depth stands.")
	case g.Insulated():
		if g.Wing > 0 && g.WingWidth == 0 {
			b.findOn(job, ruleFrost, rule.Limit, job.home(), "The width of the lying frost foam is not given: none of it is taken off.")
		}
		b.planOn(job, ruleFrost, rule.Note, job.home(), "Edges are insulated and %s deep in the ground, not to the frost depth: the building is kept at 64 °F (18 °C) or more, monthly means. R, widths and depths are by the local code's table for the air-freezing index of the place, as typed (%s); the building official decides. Foam is of a type of ASTM C578 (%s).",
			b.m.text(g.ShallowDepth()), g.rText(), g.FrostText())
	}
}

// FrostText names the type of foam that is chosen, in the words of its field.
func (b Base) FrostText() string {
	row, _ := field.At("spec.base.frostfoam")
	return row.Names[b.FrostFoam].Words
}

func (b Base) rText() string {
	text := "R not given"
	if b.UprightR > 0 {
		text = "upright R-" + number(b.UprightR, 2)
	}
	if b.Wing > 0 && b.WingR > 0 {
		text += ", lying R-" + number(b.WingR, 2)
	}
	return text
}

// checkFrost reports what insulated edges of a slab are not, or do not take off.
func (b *builder) checkFrost(s Slab) {
	g := b.spec.Base
	if !g.Insulates(s.Plan) {
		return
	}
	if garage(s.Plan) {
		b.findOn(s, ruleFrost, rule.Limit, s.home(), "A vehicle door opens on the slab, and its edges are insulated: not for garages, heated or not, unless the building official takes it as a heated building. The frost depth stands for it.")
	}
	for _, r := range EdgeLineOf(s.Plan, s.Solid, g, g.ShallowDepth(), s.Layout.Met()).Reaches(s.Plan) {
		if r.Short() > 0 {
			b.findOn(s, ruleFrost, rule.Limit, r.At, "Insulated edges reach %s into the ground; %s is asked: edges %s deep, or the slab lower.", b.m.text(max(0, g.ShallowDepth()-r.Short())), b.m.text(g.ShallowDepth()), b.m.text(r.Asked))
			break
		}
	}
	if width := max(g.WingWidth, g.CornerWidth); g.Wing > 0 && (g.WingDeep < underWing || width > openWing) {
		b.findOn(s, ruleWings, rule.Note, s.home(), "Wings lie %s below the ground and go %s out: where less than %s lie over them, and beyond %s, a slab, paving or approved board covers them. None is taken off.",
			b.m.text(g.WingDeep), b.m.text(width), b.m.text(underWing), b.m.text(openWing))
	}
	if at, ok := adjoining(s); ok {
		b.findOn(s, ruleAdjoins, rule.Note, at, "Another slab adjoins insulated edges: where it is not heated, upright foam stands between the two and the wings go on under it, in foam that carries it. None of this is taken off.")
	}
}

// adjoining gives where an edge lies against a slab that is there or another of the job.
func adjoining(s Slab) (geometry.Point, bool) {
	for i, e := range s.Plan.Outline {
		from, to := s.Plan.Outline.Ends(i)
		if e.Joint {
			return geometry.Along(from, to, s.Plan.Outline.Length(i)/2), true
		}
		for _, m := range s.Layout.Met() {
			if m.Loop == 0 && m.Edge == i {
				return geometry.Along(from, to, (m.From+m.To)/2), true
			}
		}
	}
	return geometry.Point{}, false
}
