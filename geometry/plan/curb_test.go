package plan_test

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const cubicFoot = 0.3048 * 0.3048 * 0.3048

// curbed gives a slab round corners in feet, with curbs of inches on all edges.
func curbed(high, wide geometry.Length, at ...[2]geometry.Length) plan.Plan {
	p := plan.Plan{Field: 4 * geometry.Inch}
	for _, q := range at {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * geometry.Foot, Y: q[1] * geometry.Foot}, Curb: high * geometry.Inch, CurbWidth: wide * geometry.Inch})
	}
	return p
}

// Curbs 6 in high and wide, by hand in feet. Round 24 by 20: 480 - 23 × 19 = 43 square feet,
// 21 1/2 cubic feet; doors of 9 and 3 ft take 4 1/2 and 1 1/2 square feet. Round the L of 24 by
// 20 with 10 by 8 cut off, of 88 ft: 44, less 1/4 for each of 5 outside corners, and 1/4 more
// for the inside one: 43.
// One along a side of 24 ft alone: 12. On two sides that meet: 12 + 10 - 1/4.
func TestCurbsByHand(t *testing.T) {
	box := func() plan.Plan {
		return curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 20}, [2]geometry.Length{0, 20})
	}
	doors := box()
	doors.Outline[0].Doors = []plan.Door{{From: 4 * geometry.Foot, Width: 9 * geometry.Foot}}
	doors.Outline[1].Doors = []plan.Door{{From: 8 * geometry.Foot, Width: 3 * geometry.Foot}}
	one, two, steps, joint := box(), box(), box(), box()
	for i := range 3 {
		one.Outline[i+1].Curb = 0
	}
	two.Outline[2].Curb, two.Outline[3].Curb = 0, 0
	steps.Outline[0].Curb = 12 * geometry.Inch // the higher takes both corners: 12 × 1 + 31 × 1/2
	joint.Outline[3].SetJoint(true)            // 44 - 10 - 1/4 - 1/4, and the corners there are half of one edge
	hole := box()
	for i := range hole.Outline {
		hole.Outline[i].Curb = 0
	}
	hole.Holes = []plan.Hole{{Loop: plan.Loop{{At: geometry.Point{X: 4 * geometry.Foot, Y: 4 * geometry.Foot}}, {At: geometry.Point{X: 4 * geometry.Foot, Y: 7 * geometry.Foot}}, {At: geometry.Point{X: 8 * geometry.Foot, Y: 7 * geometry.Foot}}, {At: geometry.Point{X: 8 * geometry.Foot, Y: 4 * geometry.Foot}}}}}
	for i := range hole.Holes[0].Loop { // round 4 by 3 from outside: 5 × 4 - 12 = 8
		hole.Holes[0].Loop[i].Curb, hole.Holes[0].Loop[i].CurbWidth = 6*geometry.Inch, 6*geometry.Inch
	}
	usual := box()
	for i := range usual.Outline {
		usual.Outline[i].CurbWidth = 0
	}
	for _, c := range []struct {
		name        string
		p           plan.Plan
		volume      float64 // cubic feet
		runs, faces int
	}{
		{"box", box(), 21.5, 4, 4},
		{"doors", doors, 18.5, 6, 10},
		{"L", curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 12}, [2]geometry.Length{14, 12}, [2]geometry.Length{14, 20}, [2]geometry.Length{0, 20}), 21.5, 6, 6},
		{"one", one, 6, 1, 1},
		{"two", two, 10.875, 2, 2},
		{"steps", steps, 12 + 15.5, 4, 4},
		{"joint", joint, (12 + 12 + 10 - 0.5) / 2, 3, 3},
		{"hole", hole, 4, 4, 4},
		{"usual width", usual, 21.5, 4, 4},
	} {
		got := c.p.Curbs(nil)
		if v := got.Volume / cubicFoot; math.Abs(v-c.volume) > 1e-9 || len(got.Runs) != c.runs || len(got.Faces) != c.faces {
			t.Errorf("%s: %.9f cubic feet, want %g; %d runs, %d faces: %v", c.name, v, c.volume, len(got.Runs), len(got.Faces), got.Faces)
		}
		half := c.p.Region().Left(geometry.Point{X: 9 * geometry.Foot}, geometry.Point{X: 9 * geometry.Foot, Y: 1})
		other := c.p.Region().Left(geometry.Point{X: 9 * geometry.Foot, Y: 1}, geometry.Point{X: 9 * geometry.Foot})
		if sum := (got.Within(half) + got.Within(other)) / cubicFoot; math.Abs(sum-c.volume) > 1e-9 {
			t.Errorf("%s: in two parts %.9f", c.name, sum)
		}
	}
}

// The inner face of a door's edge runs back from the next curb to the jamb, and the ends lie
// across, in from the face.
func TestCurbFaces(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	p := curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 20}, [2]geometry.Length{0, 20})
	p.Outline[0].Doors = []plan.Door{{From: 8 * in, Width: 9 * ft}}
	ends, inner := 0, 0
	for _, f := range p.Curbs(nil).Faces {
		switch {
		case f.End:
			ends++
			if long := geometry.Distance(f.A, f.B); long != 6*in || f.A.X != f.B.X {
				t.Errorf("an end %v", f)
			}
		case f.A.Y == 6*in && f.B.Y == 6*in:
			inner++
			if f.B.X > f.A.X {
				t.Errorf("an inner face with the curb right of it: %v", f)
			}
		}
	}
	if ends != 2 || inner != 2 {
		t.Errorf("%d ends, %d inner faces along the edge", ends, inner)
	}
}

// A quarter circle of 10 ft as an arc between two straight edges, with a curb along it alone:
// (100 - 9 1/2 squared) × π / 4 square feet.
func TestCurbsAlongArcs(t *testing.T) {
	p := curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{10, 0}, [2]geometry.Length{0, 10})
	p.Outline[0].Curb, p.Outline[2].Curb = 0, 0
	p, err := p.SetRadius(0, 1, 10*geometry.Foot)
	if err != nil {
		t.Fatal(err)
	}
	c := p.Curbs(nil)
	if v, want := c.Volume/cubicFoot, (100-90.25)*math.Pi/8; math.Abs(v-want)/want > 1e-3 || len(c.Runs) != 1 {
		t.Errorf("%.6f cubic feet, want %.6f; %d runs", v, want, len(c.Runs))
	}
}

// An L whose arms meet at 12 ft, 12 ft, with curbs of 6 and 8 in there, 8 in wide: in the square of
// 8 in that both fill beyond the ends of their faces lies the higher; before it each its own, and
// none beyond their inner faces.
func TestCurbsUnderPlaces(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	p := curbed(6, 8, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 12}, [2]geometry.Length{12, 12}, [2]geometry.Length{12, 24}, [2]geometry.Length{0, 24})
	p.Outline[3].Curb = 8 * in
	got := p.Curbs(nil)
	for _, c := range []struct{ x, y, want geometry.Length }{
		{13 * ft, 12*ft - in, 6 * in}, {12*ft - in, 13 * ft, 8 * in}, {12*ft - in, 12*ft - in, 8 * in}, {12*ft - 7*in, 12*ft - 7*in, 8 * in},
		{12*ft - 9*in, 12*ft - in, 0}, {12*ft - in, 12*ft - 9*in, 0}, {6 * ft, 6 * ft, 0},
	} {
		if r, _ := got.Under(geometry.Point{X: c.x, Y: c.y}); r.Height != c.want {
			t.Errorf("at %s, %s a curb of %s, want %s", c.x.Text(0), c.y.Text(0), r.Height.Text(0), c.want.Text(0))
		}
	}
}

// A door that starts 2 in from a corner opens into the curb of the other edge there, which ends
// square before it. Round 24 by 20 as above, 43 square feet: the door takes 1 1/2, of which 36 by
// 6 in are its own edge's, and of those 4 by 6 in the other's too; what is left of that in the
// corner, 2 by 6 in, stands as the door's edge's.
func TestCurbsEndBeforeDoorsOfOtherEdges(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	p := curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 20}, [2]geometry.Length{0, 20})
	for _, c := range []struct {
		from geometry.Length
		ends geometry.Length // of the first edge's curb
		cuts int
	}{{2 * in, 24*ft - 6*in, 1}, {6 * in, 24 * ft, 0}, {7 * in, 24 * ft, 0}} {
		p.Outline[1].Doors = []plan.Door{{From: c.from, Width: 3 * ft}}
		got := p.Curbs(nil)
		if v := got.Volume / cubicFoot; math.Abs(v-(43-1.5)/2) > 1e-9 {
			t.Errorf("door from %s: %.9f cubic feet", c.from.Text(0), v)
		}
		if r := got.Runs[0]; r.From != 0 || r.To != c.ends || len(got.Runs) != 5 || len(got.Cuts) != c.cuts {
			t.Errorf("door from %s: the first curb is %s to %s, of %d; cuts %v", c.from.Text(0), r.From.Text(0), r.To.Text(0), len(got.Runs), got.Cuts)
		}
	}
	// A wedge of 45 degrees, its point at 24 ft; the door 4 to 40 in along the slant. What it keeps
	// open lies so far along, at (24 ft - x + y) / √2, and 0 to 6 in in from it, at
	// (24 ft - x - y) / √2: over the band of the first edge, y 0 to 6 in, from 2 √2 in before the
	// point, where y is as much, to 6 + 6 √2 in.
	p = curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{12, 12}, [2]geometry.Length{0, 12})
	p.Outline[1].Doors = []plan.Door{{From: 4 * in, Width: 3 * ft}}
	got := p.Curbs(nil)
	if len(got.Cuts) != 1 {
		t.Fatalf("cuts %v", got.Cuts)
	}
	x := got.Cuts[0]
	near, far := (24*ft - x.To).Inches(), (24*ft - x.From).Inches()
	if math.Abs(near-2*math.Sqrt2) > 1e-4 || math.Abs(far-(6+6*math.Sqrt2)) > 1e-4 || x.Edge != 0 || x.Of != 1 || x.Door != 0 {
		t.Errorf("cut from %.4f to %.4f in before the point: %+v", far, near, x)
	}
	for _, r := range got.Runs {
		if r.Edge == 0 && r.From < x.To && r.To > x.From {
			t.Errorf("a curb runs on through the cut: %+v", r)
		}
	}
}

// A garage of 24 by 20 ft with curbs of 6 in, and an apron of 16 ft by 4 at its front, by hand:
// poured after it, the apron meets a curb that stands all round, 21 1/2 cubic feet; poured before,
// it takes 16 ft by 1/2 by 1/2, 4 cubic feet, of it. Its edge marked as a joint is the one that is
// poured against the other, whatever the order. A door of 9 ft over it takes 2 1/4 either way.
func TestCurbsBesideOtherSlabs(t *testing.T) {
	garage := curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 20}, [2]geometry.Length{0, 20})
	door := garage.Clone()
	door.Outline[0].Doors = []plan.Door{{From: 6 * geometry.Foot, Width: 9 * geometry.Foot}}
	apron := curbed(0, 0, [][2]geometry.Length{{4, -4}, {20, -4}, {20, 0}, {4, 0}}...)
	apron.Height, apron.Field = -4*geometry.Inch, 5*geometry.Inch
	marked := apron.Clone()
	marked.Outline[2].SetJoint(true)
	for _, c := range []struct {
		name   string
		slabs  []plan.Plan
		of     int
		volume float64 // cubic feet
		runs   int
	}{
		{"poured after it", []plan.Plan{garage, apron}, 0, 21.5, 4},
		{"poured before it", []plan.Plan{apron, garage}, 1, 17.5, 5},
		{"joined to it", []plan.Plan{marked, garage}, 1, 21.5, 4},
		{"at a door", []plan.Plan{door, apron}, 0, 19.25, 5},
		{"before it, at a door", []plan.Plan{apron, door}, 1, 17.5, 5},
	} {
		got := c.slabs[c.of].Curbs(plan.OfSlab(plan.Meetings(c.slabs), c.of))
		if v := got.Volume / cubicFoot; math.Abs(v-c.volume) > 1e-9 || len(got.Runs) != c.runs {
			t.Errorf("%s: %.9f cubic feet, want %g; %d runs", c.name, v, c.volume, len(got.Runs))
		}
	}
}

// Curbs of two slabs by kind: 88 - 9 ft of 6 by 6 in round the one, 20 ft of them taller and the
// other's 2 × 24 ft as the first ones.
func TestCurbKinds(t *testing.T) {
	one := curbed(6, 6, [2]geometry.Length{0, 0}, [2]geometry.Length{24, 0}, [2]geometry.Length{24, 20}, [2]geometry.Length{0, 20})
	one.Outline[0].Doors = []plan.Door{{From: 4 * geometry.Foot, Width: 9 * geometry.Foot}}
	one.Outline[3].Curb = 10 * geometry.Inch
	other := curbed(6, 6, [2]geometry.Length{40, 0}, [2]geometry.Length{64, 0}, [2]geometry.Length{64, 20}, [2]geometry.Length{40, 20})
	other.Outline[1].Curb, other.Outline[3].Curb = 0, 0
	got := plan.CurbKinds(one.Curbs(nil), plan.Curbs{}, other.Curbs(nil))
	text := func(l geometry.Length) string { return l.Text(geometry.FeetInches) }
	if len(got) != 2 || got[0].Long != (59+48)*geometry.Foot || got[1].Long != 20*geometry.Foot || got[0].Called(text) != "curb 6\" high, 6\" wide" || got[1].Called(text) != "curb 10\" high, 6\" wide" {
		t.Errorf("%+v", got)
	}
}
