package takeoff_test

import (
	"math"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// By hand: curbs of 6 in by 8 in round 24 ft by 20 ft, of which 9 and 3 ft are doors, take
// 480 - 22 2/3 × 18 2/3 - 8 = 48 8/9 ft² × 1/2 ft = 24 4/9 ft³. The slab under them is as it was; of
// two pours each has what stands on its part.
func TestCurbs(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Outline[0].Doors = []plan.Door{{From: 4 * foot, Width: 9 * foot}}
	p.Outline[1].Doors = []plan.Door{{From: 8 * foot, Width: 3 * foot}}
	before := take(t, p, takeoff.Default(), geometry.FeetInches)
	for i := range p.Outline {
		p.Outline[i].Curb, p.Outline[i].CurbWidth = 6*inch, 8*inch
	}
	after := take(t, p, takeoff.Default(), geometry.FeetInches)
	yards := 220.0 / 9 / 27
	for k, want := range map[takeoff.Kind]float64{
		takeoff.CurbConcrete: yards, takeoff.CurbLength: 88 - 12,
		takeoff.ConcreteNet: line(t, before, takeoff.ConcreteNet) + yards,
		takeoff.Digging:     line(t, before, takeoff.Digging), takeoff.BaseArea: line(t, before, takeoff.BaseArea),
		takeoff.SlabArea: line(t, before, takeoff.SlabArea), takeoff.EdgeBarLength: line(t, before, takeoff.EdgeBarLength),
		takeoff.Stakes: line(t, before, takeoff.Stakes),
	} {
		if v := line(t, after, k); math.Abs(v-want) > 1e-9 {
			t.Errorf("%s: %.12f, want %.12f", k, v, want)
		}
	}
	for _, k := range []takeoff.Kind{takeoff.CurbConcrete, takeoff.CurbLength, takeoff.CurbBarLength, takeoff.CurbBarWeight, takeoff.Hangers} {
		if l, ok := before.Line(k); ok {
			t.Errorf("without: %v", l)
		}
		if l, ok := after.Line(k); !ok || l.Value <= 0 || len(l.Working) == 0 {
			t.Errorf("with: %v", l)
		}
	}
	if len(after.Pours) != 1 || math.Abs(after.Pours[0].Net-line(t, after, takeoff.ConcreteNet)) > 1e-9 {
		t.Errorf("pours %v", after.Pours)
	}
	p.Construction = []plan.Construction{{From: geometry.Point{X: 9 * foot}, To: geometry.Point{X: 9 * foot, Y: 20 * foot}}}
	p.Outline[0].Doors[0].From = 12 * foot
	two := take(t, p, takeoff.Default(), geometry.FeetInches)
	sum := 0.0
	for _, one := range two.Pours {
		sum += one.Net
	}
	if len(two.Pours) != 2 || math.Abs(sum-line(t, two, takeoff.ConcreteNet)) > 1e-6 || line(t, two, takeoff.CurbConcrete) != line(t, after, takeoff.CurbConcrete) {
		t.Errorf("%d pours of %g together, %g in place", len(two.Pours), sum, line(t, two, takeoff.ConcreteNet))
	}
	for _, c := range after.Slabs[0].Layout.SawCuts {
		for _, at := range []geometry.Point{c.A, c.B} {
			if _, ok := after.Slabs[0].Curbs.On(0, 3, at.Y); ok && at.X < 8*inch-1 {
				t.Errorf("a cut runs into the curb at %v", at)
			}
		}
	}
}
