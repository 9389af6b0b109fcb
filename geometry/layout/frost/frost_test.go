package frost_test

import (
	"fmt"
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/frost"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func outline(corners ...geometry.Length) plan.Plan {
	p := plan.Plan{Field: 4 * in}
	for i := 0; i < len(corners); i += 2 {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: corners[i] * ft, Y: corners[i+1] * ft}})
	}
	return p
}

func with(s frost.Spec, change func(*frost.Spec)) frost.Spec {
	change(&s)
	return s
}

// Areas against closed forms: by hand, in feet. The foam on the face is 1/4 ft thick and
// 1.5 ft high, the wings 2 ft wide: from a convex square corner to the next they are
// 2 × length, with 2² + 2 × 2 × 1/4 = 5 more at each corner that they go round, and 5 less at one
// that stands in. At corners 3 ft wide for 4 ft along: 4 × 1 more each way, and
// 3² + 2 × 3 × 1/4 = 10.5 round it.
func TestAreas(t *testing.T) {
	narrow := frost.Spec{Upright: 3 * in, Height: 18 * in, Wing: 2 * in, Width: 2 * ft}
	wide := with(narrow, func(s *frost.Spec) { s.Corner, s.CornerLong = 3*ft, 4*ft })
	joint := outline(0, 0, 30, 0, 30, 20, 0, 20)
	joint.Outline[1].Joint = true
	one, other := outline(0, 0, 30, 0, 30, 20, 0, 20), outline(30, 5, 40, 5, 40, 15, 30, 15)
	for _, c := range []struct {
		name           string
		slabs          []plan.Plan
		spec           frost.Spec
		runs           int
		upright, lying float64
	}{
		{"rectangle", []plan.Plan{outline(0, 0, 30, 0, 30, 20, 0, 20)}, narrow, 4, 100 * 1.5, 100*2 + 4*5},
		{"upright alone", []plan.Plan{outline(0, 0, 30, 0, 30, 20, 0, 20)}, with(narrow, func(s *frost.Spec) { s.Wing = 0 }), 4, 150, 0},
		{"none", []plan.Plan{outline(0, 0, 30, 0, 30, 20, 0, 20)}, frost.Spec{}, 0, 0, 0},
		{"wider at corners", []plan.Plan{outline(0, 0, 30, 0, 30, 20, 0, 20)}, wide, 4, 150, 100*2 + 4*(2*4+10.5)},
		{"corners that meet", []plan.Plan{outline(0, 0, 30, 0, 30, 6, 0, 6)}, wide, 4, 72 * 1.5, 72*2 + 2*(2*4+6) + 4*10.5},
		{"L", []plan.Plan{outline(0, 0, 30, 0, 30, 10, 15, 10, 15, 20, 0, 20)}, narrow, 6, 150, 100*2 + 5*5 - 5},
		{"joint on one side", []plan.Plan{joint}, narrow, 3, 80 * 1.5, 80*2 + 2*5},
		{"slit that both sides fill", []plan.Plan{outline(0, 0, 30, 0, 30, 20, 16, 20, 16, 10, 14, 10, 14, 20, 0, 20)}, narrow, 8, 120 * 1.5,
			// as round a rectangle, and the slit from its end to the wing across it, 2 ft wide less 1/4 ft each way
			100*2 + 4*5 + 1.5*10},
	} {
		got := frost.Of(c.slabs, metOf(c.slabs), c.spec)
		near(t, c.name+": upright", got.UprightA, c.upright)
		near(t, c.name+": lying", got.LyingA, c.lying)
		if len(got.Runs) != c.runs {
			t.Errorf("%s: %d runs, want %d", c.name, len(got.Runs), c.runs)
		}
		if c.name != "L" && c.name != "slit that both sides fill" { // the pieces are trimmed there
			near(t, c.name+": pieces", area(got.Lying), c.lying)
		}
	}
	// Two slabs of a job, the second on the first's edge from 5 to 15 ft: 90 + 30 ft free. The
	// wings end at the other slab: 2 × 120, 5 at each of 4 + 2 corners, less where two of one
	// corner overlap, (2 + 1/4)² − (1/4)² = 5 each.
	both := []plan.Plan{one, other}
	got := frost.Of(both, metOf(both), narrow)
	near(t, "two slabs: upright", got.UprightA, 120*1.5)
	near(t, "two slabs: lying", got.LyingA, 2*120+6*5-2*5)
}

func metOf(slabs []plan.Plan) [][]plan.Meeting {
	out := make([][]plan.Meeting, len(slabs))
	for k := range slabs {
		out[k] = plan.OfSlab(plan.Meetings(slabs), k)
	}
	return out
}

func near(t *testing.T, what string, m2, ft2 float64) {
	t.Helper()
	if got := m2 / (0.3048 * 0.3048); math.Abs(got-ft2) > 1e-6 {
		t.Errorf("%s is %.6f ft², want %.6f", what, got, ft2)
	}
}

func area(pieces []cover.Sheet) (sum float64) {
	for _, p := range pieces {
		sum += p.Area()
	}
	return sum
}

// A corner that turns by 60°: the kite between two strips r wide is r² × tan 30°.
func TestOtherCorners(t *testing.T) {
	h := geometry.Rounded(10 * math.Sqrt(3) / 2 * float64(ft))
	p := plan.Plan{Field: 4 * in} // a hexagon with sides of 10 ft
	for _, c := range [][2]geometry.Length{{5 * ft, -h}, {10 * ft, 0}, {5 * ft, h}, {-5 * ft, h}, {-10 * ft, 0}, {-5 * ft, -h}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: c[0], Y: c[1]}})
	}
	got := frost.Of([]plan.Plan{p}, metOf([]plan.Plan{p}), frost.Spec{Upright: 3 * in, Height: ft, Wing: 2 * in, Width: 2 * ft})
	near(t, "hexagon", got.LyingA, 60*2+6*(2.25*2.25-0.25*0.25)*math.Tan(math.Pi/6))
}

func ExampleOf() {
	p := outline(0, 0, 30, 0, 30, 20, 0, 20)
	p.Outline[1].Joint = true // with the house
	got := frost.Of([]plan.Plan{p}, [][]plan.Meeting{nil}, frost.Spec{Upright: 2 * in, Height: 16 * in, Wing: 2 * in, Width: 2 * ft})
	fmt.Printf("%d edges, %.1f m² upright, %.1f m² lying\n", len(got.Runs), got.UprightA, got.LyingA)
	// Output:
	// 3 edges, 9.9 m² upright, 15.7 m² lying
}

// Round a slab of 12 ft of four arcs: the face is 2π·12 long, the wings a ring from 12 1/4 to
// 14 1/4 ft, as wide everywhere; each arc is one run with a piece as long.
func TestArcs(t *testing.T) {
	p := outline(12, 0, 0, 12, -12, 0, 0, -12)
	for i := range p.Outline {
		p.Outline[i].Middle = geometry.Rounded(12 * float64(ft) * (1 - math.Sqrt2/2))
	}
	got := frost.Of([]plan.Plan{p}, [][]plan.Meeting{nil}, frost.Spec{Upright: 3 * in, Height: 18 * in, Wing: 2 * in, Width: 2 * ft, Corner: 3 * ft, CornerLong: 4 * ft})
	const sqft = 0.3048 * 0.3048
	if want := 2 * math.Pi * 12 * 1.5 * sqft; math.Abs(got.UprightA-want) > 5e-4*want {
		t.Errorf("upright %.4f m², want %.4f", got.UprightA, want)
	}
	if want := math.Pi * (14.25*14.25 - 12.25*12.25) * sqft; math.Abs(got.LyingA-want) > 2e-3*want {
		t.Errorf("lying %.4f m², want %.4f", got.LyingA, want)
	}
	if len(got.Runs) != 4 || len(got.Upright) != 4 {
		t.Fatalf("%d runs, %d pieces", len(got.Runs), len(got.Upright))
	}
	for i, r := range got.Runs {
		if long := r.To - r.From; r.Edge != i || r.From != 0 || (long-p.Outline.Length(i)).Abs() > in/8 {
			t.Errorf("run %d: %+v", i, r)
		}
	}
}
