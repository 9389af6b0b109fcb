package solid_test

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// edge12 is 12 in deep for 12 in and rises over 8 in to a field of 6 in.
var edge12 = plan.Section{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}

// beyond gives, of that section beyond the field, its area and its moment about the face:
// a rectangle of 6 by 12 in and a triangle of 6 by 8 in behind it.
func beyond() (area, moment float64) {
	const in = 0.0254
	a, b := 6*12*in*in, 6*8.0/2*in*in
	return a + b, a*6*in + b*(12+8.0/3)*in
}

func slabOf(l plan.Loop, holes ...plan.Loop) plan.Plan {
	p := plan.Plan{Field: 6 * geometry.Inch, Sections: []plan.Section{edge12}, Outline: l}
	for _, h := range holes {
		p.Holes = append(p.Holes, plan.Hole{Loop: h})
	}
	return p.Oriented()
}

func corner(x, y float64, section string, middle float64) plan.Edge {
	return plan.Edge{At: geometry.Point{X: geometry.FromMeters(x), Y: geometry.FromMeters(y)}, Section: section, Middle: geometry.FromMeters(middle)}
}

func within(t *testing.T, what string, p plan.Plan, want float64) {
	t.Helper()
	s, err := solid.Of(p)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if off := s.Volume/want - 1; math.Abs(off) > 1e-6 {
		t.Errorf("%s: %.9f m³, in closed form %.9f: off by %.2e", what, s.Volume, want, off)
	} else {
		t.Logf("%s: %.9f m³, off by %.2e", what, s.Volume, off)
	}
	sum := 0.0
	for _, part := range s.Parts {
		sum += part.Volume
	}
	if math.Abs(sum-s.Volume) > 1e-9 {
		t.Errorf("%s: its parts add up to %.9f", what, sum)
	}
}

// By the theorem of Pappus what an area sweeps is its size times the way of its middle: the
// section beyond the field goes round at the radius less the middle's distance from the face.
func TestArcsByPappus(t *testing.T) {
	area, moment := beyond()
	const field = 6 * 0.0254
	for _, r := range []float64{0.9, 2, 4, 11} {
		m := r * (1 - math.Sqrt2/2)
		round := plan.Loop{corner(-r, 0, "Edge", m), corner(0, -r, "Edge", m), corner(r, 0, "Edge", m), corner(0, r, "Edge", m)}
		within(t, "a round slab", slabOf(round), math.Pi*r*r*field+2*math.Pi*(r*area-moment))

		// A square of 4 r whose corners are rounded by r.
		s := 2 * r
		q, err := slabOf(plan.Loop{corner(-s, -s, "Edge", 0), corner(s, -s, "Edge", 0), corner(s, s, "Edge", 0), corner(-s, s, "Edge", 0)}), error(nil)
		for k := 3; k >= 0 && err == nil; k-- {
			q, err = q.RoundCorner(0, k, geometry.FromMeters(r))
		}
		if err != nil {
			t.Fatal(err)
		}
		within(t, "rounded corners", q, (4*s*s-(4-math.Pi)*r*r)*field+4*(2*s-2*r)*area+2*math.Pi*(r*area-moment))

		// A round hole of radius r in a square of 6 r, whose haunch goes round outside it.
		h := 3 * r
		hole := plan.Loop{corner(-r, 0, "Edge", m), corner(0, -r, "Edge", m), corner(r, 0, "Edge", m), corner(0, r, "Edge", m)}
		within(t, "a round hole", slabOf(plan.Loop{corner(-h, -h, "", 0), corner(h, -h, "", 0), corner(h, h, "", 0), corner(-h, h, "", 0)}, hole),
			(4*h*h-math.Pi*r*r)*field+2*math.Pi*(r*area+moment))
	}
}

// A slab whose one side bows in by an arc, all edges as thick as the field: a rectangle less a
// segment of the circle.
func TestArcThatBowsIn(t *testing.T) {
	const w, h, m = 8.0, 5.0, 0.7
	r := (w*w/4 + m*m) / (2 * m)
	phi := 2 * math.Asin(w/2/r)
	within(t, "a side that bows in", slabOf(plan.Loop{corner(0, 0, "", -m), corner(w, 0, "", 0), corner(w, h, "", 0), corner(0, h, "", 0)}),
		(w*h-r*r/2*(phi-math.Sin(phi)))*6*0.0254)
}
