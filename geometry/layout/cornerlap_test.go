package layout_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
)

// Whatever the slab's size, a straight bar laps the leg of a corner bar by the whole
// lap, short of the bend: 1.3 · 60,000/(25·√3,000) · 1/2 in = 28.482 in for No. 4
// (ACI 318-19 25.4.2.3, 25.5.2.1). The bend starts 3 1/2 db from the sharp corner
// (table 25.3.1: 6 db inside).
func TestCornerLapIsWhole(t *testing.T) {
	need, bend := geometry.Length(28.48*float64(inch)), 7*inch/4
	for odd := geometry.Length(0); odd < inch/2; odd += inch / 32 {
		for _, joint := range []bool{false, true} {
			p := ring(0, 0, 20, 0, 20, 12, 0, 12)
			for i := range p.Outline {
				if p.Outline[i].At.X > 0 {
					p.Outline[i].At.X += odd
				}
			}
			p.Outline[3].Joint = joint
			l := lay(t, p, spec(func(s *layout.Spec) { s.Concrete.Strength = 3000; s.Bars.Rows = s.Bars.Rows[:1] }))
			laps := 0
			for _, b := range l.Bars {
				if b.Of.Kind != bars.EdgeRow || len(b.Bends) == 0 {
					continue
				}
				for _, leg := range [][2]geometry.Point{{b.Path[1], b.Path[0]}, {b.Path[len(b.Path)-2], b.Path[len(b.Path)-1]}} {
					for _, s := range l.Bars {
						if s.Of != b.Of || len(s.Bends) > 0 || s.Path[0].Y != leg[0].Y || s.Path[1].Y != leg[0].Y || leg[1].Y != leg[0].Y {
							continue
						}
						// Along the leg, from the corner on.
						way := geometry.Length(1)
						if leg[1].X < leg[0].X {
							way = -1
						}
						from, to := way*(s.Path[0].X-leg[0].X), way*(s.Path[1].X-leg[0].X)
						if got := min(max(from, to), way*(leg[1].X-leg[0].X)) - max(min(from, to), bend); got > 0 {
							if laps++; got < need {
								t.Errorf("%s over 20 ft: a lap of %s at %v", odd.Text(0), got.Text(0), leg[0])
							}
						}
					}
				}
			}
			if laps < 2 {
				t.Errorf("%d laps", laps)
			}
		}
	}
}
