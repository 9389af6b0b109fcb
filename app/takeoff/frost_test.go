package takeoff_test

import (
	"math"
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func insulated() takeoff.Spec {
	s := takeoff.Default()
	s.Base.Building, s.Base.Upright, s.Base.UprightDeep = takeoff.HeatedBuilding, 2*inch, 18*inch
	s.Base.Wing, s.Base.WingWidth, s.Base.WingDeep = 2*inch, 2*foot, 12*inch
	return s
}

// Areas by hand, in ft²: 100 ft of edges 1.5 ft high; wings 2 ft wide, with 2² + 2 × 2 × 1/6
// round each corner, 8/3 of it.
func TestFrostInsulation(t *testing.T) {
	p := rectangle(30*foot, 20*foot, "Edge")
	got := take(t, p, insulated(), geometry.FeetInches)
	for k, want := range map[takeoff.Kind]float64{takeoff.FrostUpright: 150, takeoff.FrostLying: 200 + 4*(4+2.0/3)} {
		if v := line(t, got, k); math.Abs(v-want) > 1e-6 {
			t.Errorf("%s: %v, want %v", k, v, want)
		}
	}
	if n := line(t, got, takeoff.FrostStock); n != 14 { // strips of 8 ft: 100 / 8 of 1.5 ft are 13, 109 1/3 / 8 of 2 ft are 14, two to a sheet of 4 ft
		t.Errorf("%v sheets", n)
	}
	p.Outline[1].Joint = true
	if v := line(t, take(t, p, insulated(), geometry.FeetInches), takeoff.FrostUpright); math.Abs(v-120) > 1e-6 {
		t.Errorf("with a joint of 20 ft: %v", v)
	}
	p.Outline[1].Joint, p.Unheated = false, true
	if l, ok := take(t, p, insulated(), geometry.FeetInches).Line(takeoff.FrostUpright); ok {
		t.Errorf("of an unheated slab: %v", l)
	}
	p.Unheated = false
	for name, change := range map[string]func(*takeoff.Base){
		"not heated": func(b *takeoff.Base) { b.Building = takeoff.OtherBuilding },
		"none":       func(b *takeoff.Base) { b.Upright = 0 },
		"no height":  func(b *takeoff.Base) { b.UprightDeep = 0 },
	} {
		s := insulated()
		change(&s.Base)
		got := take(t, p, s, geometry.FeetInches)
		for _, k := range []takeoff.Kind{takeoff.FrostUpright, takeoff.FrostLying, takeoff.FrostStock} {
			if l, ok := got.Line(k); ok {
				t.Errorf("%s: %v", name, l)
			}
		}
	}
}

// Frost 42 in deep: edges go there, or, insulated, 12 in below the ground at least; a slab
// that vehicles drive on goes there whatever lies at its edges.
func TestInsulatedEdgesAreShallower(t *testing.T) {
	p := rectangle(30*foot, 20*foot, "Edge")
	asked := func(p plan.Plan, s takeoff.Spec) geometry.Length {
		got := take(t, p, s, geometry.FeetInches).Slabs[0]
		return takeoff.FrostLineOf(got.Plan, got.Solid, s.Base, 42*inch, nil).Reaches(got.Plan)[0].Asked
	}
	s := insulated()
	above := s.Base.Above
	for _, c := range []struct {
		change func(*plan.Plan, *takeoff.Base)
		want   geometry.Length
	}{
		{func(*plan.Plan, *takeoff.Base) {}, 12 * inch},
		{func(_ *plan.Plan, b *takeoff.Base) { b.Shallow = 16 * inch }, 16 * inch},
		{func(_ *plan.Plan, b *takeoff.Base) { b.Building = takeoff.AnyBuilding }, 42 * inch},
		{func(_ *plan.Plan, b *takeoff.Base) { b.Upright = 0 }, 42 * inch},
		{func(p *plan.Plan, _ *takeoff.Base) { p.Unheated = true }, 42 * inch},
		{func(p *plan.Plan, _ *takeoff.Base) {
			p.Outline[0].Doors = []plan.Door{{Kind: plan.Overhead, From: 4 * foot, Width: 9 * foot}}
		}, 42 * inch},
	} {
		q, s := p.Clone(), insulated()
		c.change(&q, &s.Base)
		if got := asked(q, s); got != above+c.want {
			t.Errorf("asked %v, want %v", got-above, c.want)
		}
	}
	got := take(t, p, s, geometry.FeetInches)
	told := false
	for _, f := range got.Findings {
		told = told || strings.HasPrefix(f.Rule.Source, "IRC R403.3,") && strings.Contains(f.Text, `1'-0" deep`)
	}
	if !told {
		t.Error("it is not said by which rule")
	}
}
