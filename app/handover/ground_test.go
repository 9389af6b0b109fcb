package handover_test

import (
	"context"
	"math"
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
	last, err := h.LastLoad(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if p := last.Wanted[6][2]; p < 1.90 || p > 1.92 { // 100 ft² 6 in deep: 50/27 and 3 %
		t.Errorf("100 ft² 6 in deep take %v", p)
	}
}

// Without shots, what is wanted from the first bay on is the plan with what is lost; with
// ground that is 1 in low all over, an inch of the area more. Each bay takes the rest of
// what those after it leave, and its depth is that of its concrete over its area.
func TestLastLoadByBay(t *testing.T) {
	j := demo(t)
	last := func() (handover.LastLoad, handover.Ground) {
		h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
		l, err := h.LastLoad(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		g, err := h.Ground(context.Background())
		if err != nil || len(l.Bays) < 2 || l.Shot != g.Shot {
			t.Fatalf("%+v, %v", l, err)
		}
		return l, g
	}
	l, g := last()
	if want := g.Plan * 1.03; math.Abs(l.Bays[0].Wanted-want) > 1e-6*want {
		t.Errorf("the first bay and all after it take %v, want %v", l.Bays[0].Wanted, want)
	}
	area := 0.0
	for i, b := range l.Bays {
		next := 0.0
		if i+1 < len(l.Bays) {
			next = l.Bays[i+1].Wanted
		}
		if own := b.Area * b.Depth.Meters() / 0.3048 / 27 * 1.03; math.Abs(b.Wanted-next-own) > 1e-4 {
			t.Errorf("bay %d takes %v, by its depth %v", b.Number, b.Wanted-next, own)
		}
		area += b.Area
	}
	for _, s := range g.Slabs {
		for _, w := range s.Wanted {
			j.Survey.Shots = append(j.Survey.Shots, plan.Shot{At: w.At, Height: w.Height - geometry.Inch})
		}
	}
	low, _ := last()
	for i := range low.Bays {
		if more := low.Bays[i].Depth - l.Bays[i].Depth; more < 7*geometry.Inch/8 || more > 9*geometry.Inch/8 {
			t.Errorf("bay %d of low ground is %v deeper", i+1, more)
		}
	}
	if more, want := low.Bays[0].Wanted-l.Bays[0].Wanted, area/12/27*1.03; math.Abs(more-want) > 0.01*want {
		t.Errorf("an inch more takes %v, want %v", more, want)
	}
	j.Ground.Lost, j.Ground.Stray = decimal.NewFromInt(4), decimal.NewFromInt(1)
	if own, _ := last(); math.Abs(own.Lost-0.0528) > 1e-4 {
		t.Errorf("with own jobs %v are lost", own.Lost)
	}
}
