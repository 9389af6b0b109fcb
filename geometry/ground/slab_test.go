package ground

import (
	"math"
	"math/rand/v2"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

const foot = geometry.Foot

// garage is a slab of 24 ft by 20 ft with a haunch and a pad.
func garage(tb testing.TB) (*solid.Solid, plan.Plan) {
	p := plan.Plan{Field: 6 * geometry.Inch,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}},
		Pads:     []plan.Pad{{Center: geometry.Point{X: 12 * foot, Y: 10 * foot}, Width: 3 * foot, Length: 3 * foot, Depth: 14 * geometry.Inch, Taper: 6 * geometry.Inch}},
	}
	for _, c := range []geometry.Point{{}, {X: 24 * foot}, {X: 24 * foot, Y: 20 * foot}, {Y: 20 * foot}} {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: "Edge"})
	}
	s, err := solid.Of(p)
	if err != nil {
		tb.Fatal(err)
	}
	return s, p
}

// The zones cover the slab once. By hand: flat bottoms are 480 - 22 × 18 ft², the field
// and the pad what is left within 20 in of the edge.
func TestZones(t *testing.T) {
	s, p := garage(t)
	zones := Zones(s, p.Region())
	sum := 0.0
	got := map[Class]float64{}
	for _, z := range zones {
		sum += z.Area
		got[z.Class] = z.Area / (0.3048 * 0.3048)
	}
	if math.Abs(sum-s.Area) > 1e-6 {
		t.Errorf("zones cover %v m² of %v", sum, s.Area)
	}
	inner := (24 - 40./12) * (20 - 40./12)
	for c, want := range map[Class]float64{Trench: 480 - 22*18, Pad: 9, Field: inner - 16, Slope: 22*18 - inner + 7} {
		if math.Abs(got[c]-want) > 1e-4 {
			t.Errorf("%v: %v ft², want %v", c, got[c], want)
		}
	}
}

func shotsOn(p plan.Plan, step geometry.Length, off func(geometry.Point) geometry.Length) []Shot {
	var out []Shot
	for x := geometry.Length(0); x <= 24*foot; x += step {
		for y := geometry.Length(0); y <= 20*foot; y += step {
			at := geometry.Point{X: x, Y: y}
			out = append(out, Shot{at, off(at)})
		}
	}
	return out
}

// Without shots the plan holds, to the last bit.
func TestUnshot(t *testing.T) {
	s, p := garage(t)
	g := Of(s, p.Region(), p.Field, nil)
	if g.Need.Mean != s.Volume || g.Need.Error != 0 || math.Abs(g.Unshot-s.Area) > 1e-6 || math.Abs(g.Guessed-s.Volume) > s.Volume/50 {
		t.Errorf("need %+v of %v, unshot %v m² and %v m³", g.Need, s.Volume, g.Unshot, g.Guessed)
	}
}

// Ground that lies off the plan as a plane, a bump and a ridge do: the volume is in closed
// form. All ground half an inch high takes that off the whole area, and so does ground
// that is tilted about the middle by its height there.
func TestClosedForms(t *testing.T) {
	s, p := garage(t)
	middle := geometry.Point{X: 12 * foot, Y: 10 * foot}
	const a = 0.02 // m
	for name, c := range map[string]struct {
		off   func(q geometry.Point) float64 // m
		mean  float64
		slack float64
	}{
		"level":  {func(geometry.Point) float64 { return 0.0127 }, 0.0127, 1e-5},
		"tilted": {func(q geometry.Point) float64 { return 0.01 + a*float64(q.X-middle.X)/float64(12*foot) }, 0.01, 1e-5},
		"bump": {func(q geometry.Point) float64 {
			return a * math.Cos(math.Pi*float64(q.X-middle.X)/float64(24*foot)) * math.Cos(math.Pi*float64(q.Y-middle.Y)/float64(20*foot))
		}, a * 4 / (math.Pi * math.Pi), 2e-4},
		"ridge": {func(q geometry.Point) float64 { return a * (1 - math.Abs(float64(q.X-middle.X))/float64(12*foot)) }, a / 2, 2e-4},
	} {
		g := Of(s, p.Region(), p.Field, shotsOn(p, foot, func(q geometry.Point) geometry.Length { return geometry.FromMeters(c.off(q)) }))
		if off := g.Plan - g.Need.Mean - c.mean*s.Area; math.Abs(off) > c.slack*s.Area {
			t.Errorf("%s: need %v m³, %v m³ off", name, g.Need, off)
		}
		// The surface through the same shots says the same.
		sum := 0.0
		for _, z := range g.Zones {
			sum += z.Mesh.Integral(z.Off)
		}
		if math.Abs(sum-c.mean*s.Area) > 3e-4*s.Area {
			t.Errorf("%s: the surface holds %v m³, want %v", name, sum, c.mean*s.Area)
		}
		if math.Abs(sum-(g.Cut-g.Fill)) > 1e-9 {
			t.Errorf("%s: cut %v less fill %v is not %v", name, g.Cut, g.Fill, sum)
		}
	}
	// A plane over a square, and a ridge on a breakline, exactly.
	m := Triangulate(square(2*geometry.Meter), []geometry.Point{{X: geometry.Meter}, {X: geometry.Meter, Y: 2 * geometry.Meter}, {X: geometry.Meter, Y: geometry.Meter}})
	plain, ridge := make([]float64, len(m.Points)), make([]float64, len(m.Points))
	for i, q := range m.Points {
		plain[i], ridge[i] = q.X.Meters()+3*q.Y.Meters(), 1-math.Abs(q.X.Meters()-1)
	}
	if v := m.Integral(plain); math.Abs(v-16) > 1e-12 {
		t.Errorf("a plane holds %v", v)
	}
	if v := m.Integral(ridge); math.Abs(v-2) > 1e-12 {
		t.Errorf("a ridge holds %v", v)
	}
	if v, area := m.Beyond(ridge, 0.5, false); math.Abs(v-0.5) > 1e-12 || math.Abs(area-2) > 1e-12 {
		t.Errorf("beyond half its height a ridge holds %v over %v", v, area)
	}
	if lines := m.Contour(ridge, 0.5); len(lines) == 0 {
		t.Error("a ridge has no contour")
	} else {
		for _, l := range lines {
			for _, q := range l {
				if off := (q.X - geometry.Meter).Abs(); off != geometry.Meter/2 {
					t.Errorf("contour through %v", q)
				}
			}
		}
	}
}

// TestKriging is the worked example of E. H. Isaaks and R. M. Srivastava, An Introduction
// to Applied Geostatistics, 1989, chapter 12, pages 290 to 293: seven samples, the
// covariance 10 exp(-0.3 h), an estimate of 592.7 with an error variance of 8.96.
func TestKriging(t *testing.T) {
	at := []plane.Vec{{X: 61, Y: 139}, {X: 63, Y: 140}, {X: 64, Y: 129}, {X: 68, Y: 128}, {X: 71, Y: 140}, {X: 73, Y: 141}, {X: 75, Y: 128}}
	z := []float64{477, 696, 227, 646, 606, 791, 783}
	law := Law{Range: 1 / 0.3}
	s, ok := solve(law, at, z, law.between(apartOf(at)), 0)
	if !ok {
		t.Fatal("not solved")
	}
	place := plane.Vec{X: 65, Y: 137}
	mean, variance := s.over([]node{{place, 1e-12}}, 1)
	if math.Abs(mean-592.7) > 0.1 || math.Abs(variance*10-8.96) > 0.005 || math.Abs(s.value(place)-mean) > 1e-6 {
		t.Errorf("estimate %v with variance %v", mean, variance*10)
	}
}

// Whatever is shot, there is an answer, and it is a number.
func TestAnyShots(t *testing.T) {
	s, p := garage(t)
	r := rand.New(rand.NewPCG(5, 5))
	any := func() geometry.Point {
		return geometry.Point{X: geometry.Length(r.Int64N(int64(26*foot))) - foot, Y: geometry.Length(r.Int64N(int64(22*foot))) - foot}
	}
	cases := map[string][]Shot{"one": {{geometry.Point{X: 6 * foot, Y: 6 * foot}, geometry.Inch}}, "far": {{geometry.Point{X: geometry.MaxLength}, geometry.MaxLength}}, "deep": {{geometry.Point{X: 6 * foot, Y: 6 * foot}, -geometry.MaxLength}}}
	for range 40 {
		cases["one place"] = append(cases["one place"], Shot{geometry.Point{X: 6 * foot, Y: 6 * foot}, geometry.Length(r.Int64N(int64(geometry.Inch)))})
		cases["line"] = append(cases["line"], Shot{geometry.Point{X: geometry.Length(r.Int64N(int64(24 * foot))), Y: 6 * foot}, 0})
		cases["near"] = append(cases["near"], Shot{geometry.Point{X: 6*foot + geometry.Length(r.Int64N(3)), Y: 6*foot + geometry.Length(r.Int64N(3))}, geometry.Length(r.Int64N(int64(foot)))})
		cases["anywhere"] = append(cases["anywhere"], Shot{any(), geometry.Length(r.Int64N(int64(foot))) - foot/2})
		cases["border"] = append(cases["border"], Shot{geometry.Point{X: foot, Y: geometry.Length(r.Int64N(int64(20 * foot)))}, geometry.Inch})
	}
	for name, shots := range cases {
		g := Of(s, p.Region(), p.Field, shots)
		for _, v := range []float64{g.Need.Mean, g.Need.Error, g.Mean, g.Cut, g.Fill, g.ThinArea, g.FatArea, g.Unshot, g.Guessed} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: %+v", name, g.Need)
			}
		}
	}
	if g := Of(s, p.Region(), p.Field, cases["one place"]); g.Zones[0].Shots+g.Zones[1].Shots+g.Zones[2].Shots != 1 {
		t.Error("shots at one place are not one")
	}
}

func BenchmarkOf(b *testing.B) {
	s, p := garage(b)
	r := rand.New(rand.NewPCG(5, 5))
	for _, n := range []int{50, 500, 2000} {
		var shots []Shot
		for range n {
			shots = append(shots, Shot{geometry.Point{X: geometry.Length(r.Int64N(int64(24 * foot))), Y: geometry.Length(r.Int64N(int64(20 * foot)))}, geometry.Length(r.Int64N(int64(geometry.Inch)))})
		}
		b.Run(map[int]string{50: "50 shots", 500: "500 shots", 2000: "2000 shots"}[n], func(b *testing.B) {
			for b.Loop() {
				Of(s, p.Region(), p.Field, shots)
			}
		})
	}
}

// Every place lies on the ground that it is named for, none near another, and the grid is
// finer the better the concrete is to be known.
func TestLayout(t *testing.T) {
	s, p := garage(t)
	p.Outline[0].Doors = []plan.Door{{From: 4 * foot, Width: 16 * foot}}
	if a, b := Spacing(s, 0.005), Spacing(s, 0.03); a >= b {
		t.Errorf("%v for half a percent, %v for three", a, b)
	}
	zones := Zones(s, p.Region())
	all := Layout(s, p, Spacing(s, 0))
	count := map[Class]int{}
	doors := 0
	for i, w := range all {
		k := zoneAt(zones, w.At)
		if k < 0 {
			t.Fatalf("%+v lies on no ground", w)
		}
		count[zones[k].Class]++
		if w.What == "door 1" {
			doors++
		}
		for _, v := range all[:i] {
			if geometry.Distance(v.At, w.At) < near {
				t.Errorf("%+v and %+v", v, w)
			}
		}
	}
	if doors != 1 || count[Pad] != 1 || count[Trench] < 12 || count[Field] < 6 || count[Slope] > 0 {
		t.Errorf("%d doors, %v", doors, count)
	}
}
