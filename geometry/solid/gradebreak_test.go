package solid

import (
	"math"
	"math/big"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Aprons and ramps of 24 by 20 ft, worked by hand in fractions: concrete over level ground
// beyond the field, in inches over square feet, and heights over the lowest place, in inches.
//
// An apron of 1/4 in per ft beyond y = 4 ft lies 1 in low at the edge: over 16 ft the top is
// 1 in over that, over 4 ft it falls by half of it: 24·16 + 24·4/2 = 432. A ramp there adds
// 24·4/2 = 48. With a fall of 2 in over the length 24 ft the mean is 1 in, 480, and 480 more
// since the lowest corner lies 1 in lower, less the apron's 48: 912. Beyond the line from
// (9, 0) to (0, 12), which lies 9·12/15 = 36/5 ft from the corner, a quarter of that, 9/5 in,
// is dropped: 480·9/5 - 54·(9/5)/3 = 4158/5. Aprons on two sides meet in a hip, and over the
// 4 by 4 ft at the corner the integral of the larger of two distances is 2/3·4³: 480 less
// 20·4/2, 16·4/2 and 2/3·64/4 is 1192/3.
func TestAprons(t *testing.T) {
	low := plan.Break{From: pt(24*ft, 4*ft), To: pt(0, 4*ft), Drop: in / 4, Over: ft}
	up := low
	up.Drop = -in / 4
	left := plan.Break{From: pt(4*ft, 0), To: pt(4*ft, 20*ft), Drop: in, Over: 4 * ft}
	type height struct {
		at geometry.Point
		in *big.Rat
	}
	for _, c := range []struct {
		name    string
		top     plan.Top
		wedge   *big.Rat
		heights []height
		creases int
	}{
		{"apron", plan.Top{Breaks: []plan.Break{low}}, big.NewRat(432, 1), []height{{pt(0, 0), big.NewRat(0, 1)}, {pt(7*ft, 2*ft), big.NewRat(1, 2)}, {pt(24*ft, 4*ft), big.NewRat(1, 1)}, {pt(24*ft, 20*ft), big.NewRat(1, 1)}}, 1},
		{"ramp", plan.Top{Breaks: []plan.Break{up}}, big.NewRat(48, 1), []height{{pt(0, 0), big.NewRat(1, 1)}, {pt(7*ft, 3*ft), big.NewRat(1, 4)}, {pt(7*ft, 9*ft), big.NewRat(0, 1)}}, 1},
		{"apron of a floor that falls", plan.Top{Falls: []plan.Fall{{From: pt(24*ft, 10*ft), To: pt(0, 10*ft), Drop: 2 * in}}, Breaks: []plan.Break{low}}, big.NewRat(912, 1),
			[]height{{pt(0, 0), big.NewRat(0, 1)}, {pt(24*ft, 0), big.NewRat(2, 1)}, {pt(12*ft, 4*ft), big.NewRat(2, 1)}, {pt(6*ft, 2*ft), big.NewRat(1, 1)}}, 1},
		{"apron at a corner", plan.Top{Breaks: []plan.Break{{From: pt(9*ft, 0), To: pt(0, 12*ft), Drop: in / 4, Over: ft}}}, big.NewRat(4158, 5), []height{{pt(0, 0), big.NewRat(0, 1)}, {pt(20*ft, 20*ft), big.NewRat(9, 5)}}, 1},
		{"two aprons", plan.Top{Breaks: []plan.Break{low, left}}, big.NewRat(1192, 3), []height{{pt(0, 0), big.NewRat(0, 1)}, {pt(ft, 3*ft), big.NewRat(1, 4)}, {pt(9*ft, 9*ft), big.NewRat(1, 1)}}, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, base := range []plan.Base{plan.Graded, plan.Level} {
				p := plain()
				p.Top, p.Base = c.top, base
				s := mustSolid(t, p)
				want, _ := c.wedge.Float64()
				if base == plan.Graded {
					want = 0
				}
				got := s.Volume - s.Area*p.Field.Meters()
				if want *= in.Meters() * ft.Meters() * ft.Meters(); math.Abs(got-want) > 1e-12 {
					t.Errorf("base %v: %.12f m³ beyond the field, want %.12f", base, got, want)
				}
				for _, h := range c.heights {
					want := new(big.Rat).Mul(h.in, big.NewRat(int64(in), 1))
					f, _ := want.Float64()
					if top := s.TopAt(h.at); math.Abs(float64(top)-f) > 1 {
						t.Errorf("at %v it is %v in high, want %v", h.at, top.Inches(), h.in)
					}
				}
				if n := len(s.Surface().Creases); n != c.creases {
					t.Errorf("%d creases: %+v", n, s.Surface().Creases)
				}
			}
		})
	}
}

// A break meets two edges 4 ft up them, where the top is 1 in over its lowest place; the arrow
// beyond it points down and is the break's, and the level floor has none.
func TestSurfaceOfAnApron(t *testing.T) {
	p := plain()
	p.Top.Breaks = []plan.Break{{From: pt(24*ft, 4*ft), To: pt(12*ft, 4*ft), Drop: in / 4, Over: ft}} // its line reaches across
	out := mustSolid(t, p).Surface()
	if len(out.Creases) != 1 || !out.Creases[0].Break || geometry.Distance(out.Creases[0].A, out.Creases[0].B) != 24*ft {
		t.Errorf("creases %+v", out.Creases)
	}
	ends := out.Breaks()
	if len(ends) != 2 {
		t.Fatalf("ends %+v", ends)
	}
	for _, e := range ends {
		if e.At.Y != 4*ft || e.Height != in || e.Edge != 1 && e.Edge != 3 {
			t.Errorf("end %+v", e)
		}
	}
	if len(out.Arrows) != 1 || out.Arrows[0].Break != 0 || out.Arrows[0].Fall != -1 || out.Arrows[0].To.Y >= out.Arrows[0].From.Y || out.Arrows[0].Over(ft, geometry.FeetInches) != in/4 {
		t.Errorf("arrows %+v", out.Arrows)
	}
	p.Top.Falls = []plan.Fall{{From: pt(0, 20*ft), To: pt(0, 0), Drop: 5 * in}} // as steep as the apron
	out = mustSolid(t, p).Surface()
	if len(out.Arrows) != 2 || out.Arrows[0].Fall != 0 || out.Arrows[1].Break != 0 || out.Arrows[1].Over(ft, geometry.FeetInches) != in/2 {
		t.Errorf("arrows of a floor that falls %+v", out.Arrows)
	}
}
