package takeoff

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// tray is a 24 by 20 ft slab, 6 in thick, with vertical-sided edges called 12 in
// deep and 12 in wide.
func tray() plan.Plan {
	const ft, in = geometry.Foot, geometry.Inch
	p := plan.Plan{Field: 6 * in, Sections: []plan.Section{{Name: "edge", Depth: 12 * in, Bottom: 12 * in}}}
	for _, c := range []geometry.Point{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}} {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: "edge"})
	}
	return p
}

func value(t *testing.T, p plan.Plan, s Spec, k Kind) float64 {
	t.Helper()
	got, err := Of(t.Context(), []plan.Plan{p}, s, geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	l, ok := got.Line(k)
	if !ok {
		t.Fatalf("no line %s", k)
	}
	return l.Value
}

// The haunches stand on 480 - 22·18 = 84 ft². Called 12 in they are 6 in beyond
// the field; a 2x12 is 11-1/4 in wide (NIST PS 20), which leaves 5-1/4 in.
func TestTrench(t *testing.T) {
	p, s := tray(), Default()
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: got %.9f yd³, want %.9f", what, got, want)
		}
	}
	deep, shallow := (240+84*0.5)/27, (240+84*5.25/12)/27
	near("as called", value(t, p, s, ConcreteNet), deep)
	near("at the board", value(t, p, s, ConcreteToBoard), shallow)
	p.Trench = plan.ToBoard
	near("at the board, as set", value(t, p, s, ConcreteNet), shallow)
	near("to depth", value(t, p, s, ConcreteToDepth), deep)
}

// Top 6 in above the ground, 4 in base: the field's underside is at grade, its
// base is dug; the haunches go 6 in deeper.
func TestDigging(t *testing.T) {
	s := Default()
	s.Base.Gravel, s.Base.Foam, s.Base.Above = 4*geometry.Inch, 0, 6*geometry.Inch
	got := value(t, tray(), s, Digging)
	if want := (480*4.0/12 + 84*0.5) / 27; math.Abs(got-want) > 1e-9 {
		t.Errorf("got %.9f yd³ to dig, want %.9f", got, want)
	}
}
