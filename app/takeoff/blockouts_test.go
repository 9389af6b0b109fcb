package takeoff_test

import (
	"math"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// By hand: a diamond of 3 ft round a pad of 2 ft square and 12 in deep in a field of 4 in takes
// 9 ft² × 4 in and 4 ft² × 8 in, 5 2/3 ft³: 10 bags of 0.60 ft³ with 5 % of waste. It is not in the
// concrete in place; what is dug and lies under the slab is as before.
func TestBlockOuts(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Field = 4 * inch
	p.Pads = []plan.Pad{{Center: geometry.Point{X: 12 * foot, Y: 10 * foot}, Width: 2 * foot, Length: 2 * foot, Depth: foot}}
	before := take(t, p, takeoff.Default(), geometry.FeetInches)
	p.Pads[0].Isolation, p.Pads[0].BlockOut = plan.DiamondOut, 3*foot
	after := take(t, p, takeoff.Default(), geometry.FeetInches)
	fill := (9*4 + 4*8.0) / 12 / 27
	for k, want := range map[takeoff.Kind]float64{
		takeoff.BlockOuts: 1, takeoff.BlockOutFill: fill, takeoff.FillBags: 10, takeoff.IsolationStrip: 12,
		takeoff.ConcreteNet: line(t, before, takeoff.ConcreteNet) - fill,
		takeoff.Digging:     line(t, before, takeoff.Digging), takeoff.BaseArea: line(t, before, takeoff.BaseArea),
		takeoff.FormLength: line(t, before, takeoff.FormLength) + 4*(3-1.5/12),
	} {
		if v := line(t, after, k); math.Abs(v-want) > 1e-6 {
			t.Errorf("%s: %v, want %v", k, v, want)
		}
	}
	for _, k := range []takeoff.Kind{takeoff.BlockOuts, takeoff.BlockOutFill, takeoff.FillBags, takeoff.FormTubes} {
		if l, ok := before.Line(k); ok {
			t.Errorf("without: %v", l)
		}
	}
	p.Pads[0].Isolation = plan.RoundOut
	round := take(t, p, takeoff.Default(), geometry.FeetInches)
	if v := line(t, round, takeoff.FormTubes); math.Abs(v-1.0/3) > 1e-9 {
		t.Errorf("%v ft of tube", v)
	}
	if v := line(t, round, takeoff.FormLength); v != line(t, before, takeoff.FormLength) {
		t.Errorf("a round one has boards: %v ft", v)
	}
}
