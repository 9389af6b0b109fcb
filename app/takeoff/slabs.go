package takeoff

import (
	"fmt"

	"github.com/peterstace/simplefeatures/geom"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// Bars gives the bars of all slabs.
func (t Takeoff) Bars() []bars.Bar {
	var out []bars.Bar
	for _, s := range t.Slabs {
		out = append(out, s.Layout.Bars...)
	}
	return out
}

// Slab gives the slab with that number in the job; false while it is blank.
func (t Takeoff) Slab(number int) (Slab, bool) {
	for _, s := range t.Slabs {
		if s.Number == number {
			return s, true
		}
	}
	return Slab{}, false
}

// touching is the greatest area that slabs side by side may share by rounding, m².
const touching = 1e-6

// apart reports slabs that overlap: what they share is counted twice.
func (b *builder) apart() {
	for i, s := range b.t.Slabs {
		for _, o := range b.t.Slabs[:i] {
			if at, shared := overlap(s.Plan, o.Plan); shared > touching {
				b.t.Findings = append(b.t.Findings, rule.Finding{Rule: rule.Rule{Name: "Slabs apart", Source: "geometry"}, Severity: rule.Severe, At: at,
					Text: fmt.Sprintf("%s and %s overlap by %s: the concrete there is counted twice. Move one, or cut it back.", o.Name, s.Name, b.m.areaText(shared))})
			}
		}
	}
}

// overlap gives the area that two slabs share, in m², and a place in it.
func overlap(p, q plan.Plan) (geometry.Point, float64) {
	plo, phi := p.Outline.Corners().Bounds()
	qlo, qhi := q.Outline.Corners().Bounds()
	if phi.X <= qlo.X || qhi.X <= plo.X || phi.Y <= qlo.Y || qhi.Y <= plo.Y {
		return geometry.Point{}, 0
	}
	shared, err := geom.Intersection(polygon(p), polygon(q))
	if err != nil { // of sound plans, only by rounding at a shared border
		return geometry.Point{}, 0
	}
	at, _ := shared.PointOnSurface().XY()
	return geometry.Point{X: geometry.Length(at.X * 1e9), Y: geometry.Length(at.Y * 1e9)}, shared.Area()
}

// polygon gives a sound plan as a polygon in meters.
func polygon(p plan.Plan) geom.Geometry {
	var rings []geom.LineString
	for _, l := range p.Loops() {
		var xy []float64
		for i := range len(l) + 1 {
			at := l[i%len(l)].At
			xy = append(xy, at.X.Meters(), at.Y.Meters())
		}
		rings = append(rings, geom.NewLineString(geom.NewSequence(xy, geom.DimXY)))
	}
	return geom.NewPolygon(rings).AsGeometry()
}
