package solid

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

// cubicFoot is exact: (0.3048 m)³, by the international foot of 1959.
const cubicFoot = 0.3048 * 0.3048 * 0.3048

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// haunched is a plan over corners with one section on every edge: 6 in field,
// depth d, bottom b and taper r.
func haunched(d, b, r geometry.Length, corners ...geometry.Point) plan.Plan {
	p := plan.Plan{
		Field:    6 * in,
		Sections: []plan.Section{{Name: "edge", Depth: d, Bottom: b, Taper: r}},
	}
	for _, c := range corners {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: "edge"})
	}
	return p
}

func rectangle(w, h geometry.Length) []geometry.Point {
	return []geometry.Point{{}, pt(w, 0), pt(w, h), pt(0, h)}
}

// lShape is 20 by 20 ft less 10 by 10 ft at the far corner: inside corner (10, 10).
func lShape() []geometry.Point {
	return []geometry.Point{{}, pt(20*ft, 0), pt(20*ft, 10*ft), pt(10*ft, 10*ft), pt(10*ft, 20*ft), pt(0, 20*ft)}
}

// The closed forms below are worked by hand, in feet. With field t = 0.5 and a
// section of h = D - t beyond it, bottom b and taper r:
//
//	section area beyond the field      A = h (b + r/2)
//	two equal haunches at a right outside corner share, over the square of b + r,
//	the smaller of both: h (b² + b r + r²/3), a frustum with a point for a top;
//	a right inside corner adds, for each haunch, the triangle out to the miter:
//	at depth y in it is y wide, so the integral of y e(y) = h (b²/2 + b r/2 + r²/6).
func TestClosedForms(t *testing.T) {
	type want struct{ volume, naive float64 } // ft³
	const h, b, r = 0.5, 1.0, 1.0             // 12 in edge, 12 in flat, 12 in taper
	a := h * (b + r/2)                        // 0.75 ft²
	share := h * (b*b + b*r + r*r/3)          // 1.16667 ft³
	fill := h * (b*b/2 + b*r/2 + r*r/6)       // 0.58333 ft³

	for _, c := range []struct {
		name string
		plan plan.Plan
		want want
	}{
		// 0.5·24·20 + 88·0.75 - 4·1.16667 = 240 + 66 - 4.66667 = 301.33333.
		{"rectangle", haunched(12*in, 12*in, 12*in, rectangle(24*ft, 20*ft)...),
			want{240 + 88*a - 4*share, 240 + 88*a}},
		// Five outside corners and one inside: 0.5·300 + 80·0.75 - 5·1.16667 + 2·0.58333.
		{"L", haunched(12*in, 12*in, 12*in, lShape()...),
			want{150 + 80*a - 5*share + 2*fill, 150 + 80*a}},
		// No flat: the two tapers alone. A = h r/2 = 0.25, share = h r²/3.
		{"taper only", haunched(12*in, 0, 12*in, rectangle(24*ft, 20*ft)...),
			want{240 + 88*0.25 - 4*h/3, 240 + 88*0.25}},
		// Vertical sides: A = h b = 0.5, share = h b².
		{"vertical", haunched(12*in, 12*in, 0, rectangle(24*ft, 20*ft)...),
			want{240 + 88*0.5 - 4*0.5, 240 + 88*0.5}},
		// 2 ft wide and flat bottoms of 1 ft from both sides: all is 1 ft deep.
		{"overlapped", haunched(12*in, 12*in, 12*in, rectangle(30*ft, 2*ft)...),
			want{30 * 2 * 1, 30 + 64*a}},
		// 3 ft wide: flat 1 ft on each long side, 2·30·1. In the middle foot the
		// tapers from both sides meet in a ridge of depth 0.75, mean 0.875, over
		// 26 ft; each end is 1 deep for 1 ft, and in the next foot the depth is
		// 1 - 0.5 min(p, m), p from the end's flat, m from the side's, with p even
		// over 0..1 and m over 0..0.5: E min = 2 (0.125 - 0.125/6) = 0.208333.
		{"half overlapped", haunched(12*in, 12*in, 12*in, rectangle(30*ft, 3*ft)...),
			want{60 + 26*0.875 + 2 + 2*(1-0.5*0.125*5/3), 45 + 66*a}},
		// A right triangle 30 by 40 by 50: all angles are at most 90 degrees. At
		// a corner of angle 2α both strips end square; their overlap is settled on
		// the bisector, and what of a strip lies beyond the outline goes.
		{"triangle", haunched(12*in, 12*in, 0, pt(0, 0), pt(40*ft, 0), pt(0, 30*ft)),
			want{0.5*600 + 0.5*triangleRim(40, 30, 50, 1), 300 + 120*0.5}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Of(c.plan)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "volume", s.Volume/cubicFoot, c.want.volume)
			near(t, "naive", s.Naive/cubicFoot, c.want.naive)
			sum := 0.0
			for _, p := range s.Parts {
				sum += p.Volume
			}
			near(t, "sum of parts", sum, s.Volume)
		})
	}
}

// triangleRim gives the area of a triangle within d of its sides: the area less
// that of the triangle inset by d, which is similar with the inradius less d.
func triangleRim(a, b, c, d float64) float64 {
	s := (a + b + c) / 2
	area := math.Sqrt(s * (s - a) * (s - b) * (s - c))
	in := area / s
	k := (in - d) / in
	return area * (1 - k*k)
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}
