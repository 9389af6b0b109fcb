package handover_test

import (
	"context"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Without shots the volume is that of the plan and the order by percent that of the
// takeoff; shots, wherever they are, change neither.
func TestGroundLeavesTheTakeoff(t *testing.T) {
	j := demo(t)
	var volume, order float64
	for k, shots := range [][]plan.Shot{nil, {{At: geometry.Point{X: 8 * geometry.Foot, Y: 8 * geometry.Foot}, Height: -geometry.Foot}, {At: geometry.Point{X: -geometry.Yard}}}} {
		j.Survey.Shots = shots
		h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
		to, err := h.Takeoff(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		g, err := h.Ground(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		net, _ := to.Line(takeoff.ConcreteNet)
		by, _ := to.Line(takeoff.ConcreteOrder)
		if k == 0 {
			volume, order = net.Value, by.Value
			if g.Shot || g.Decision.Need.Fill.Error != 0 || g.Unshot < 0.999 {
				t.Errorf("without shots: %+v", g.Decision.Need)
			}
		} else if !g.Shot || g.Stray != 1 || g.Slabs[0].Taken[0].Ask == "" {
			t.Errorf("with shots: %d stray, %+v", g.Stray, g.Slabs[0].Taken)
		}
		if net.Value != volume || by.Value != order {
			t.Errorf("%v and %v, before %v and %v", net.Value, by.Value, volume, order)
		}
		if got := g.Decision.Choices[g.Decision.Percent].Amount; !got.Equal(decimal.NewFromFloat(order)) {
			t.Errorf("by percent %v, by the takeoff %v", got, order)
		}
	}
}

// Places lie as deep under the top as the plan has them, and what is wanted on the rod is
// the height of the instrument less that of the ground.
func TestWantedReadings(t *testing.T) {
	j := demo(t)
	j.Ground.Instrument = 5 * geometry.Foot
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	g, err := h.Ground(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	to, _ := h.Takeoff(context.Background())
	s := to.Slabs[0].Solid
	for _, w := range g.Slabs[0].Wanted {
		d, _ := s.DepthAt(w.At)
		if want := s.TopAt(w.At) - d; w.Height != want || w.Read != 5*geometry.Foot-want {
			t.Errorf("%+v, want %v", w, want)
		}
	}
	if p := g.Last.Wanted[6][2]; p < 1.90 || p > 1.92 { // 100 ft² 6 in deep: 50/27 and 3 %
		t.Errorf("100 ft² 6 in deep take %v", p)
	}
}
