package layout_test

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/plan"
)

// A joint of 24 ft, by hand: dowels from 6 in to 23 ft 6 in, 23 ft at 18 in is
// 16 spaces of at most 18 in: 17 dowels, 17 1/4 in apart.
func TestDowelsByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint, p.Outline[2].Wall = true, ""
	l := lay(t, p, spec(nil))
	if len(l.Dowels) != 17 {
		t.Fatalf("%d dowels", len(l.Dowels))
	}
	for k, d := range l.Dowels {
		if want := 6*inch + geometry.Length(k)*69*inch/4; d.Along != want {
			t.Errorf("dowel %d at %s, want %s", k+1, d.Along.Text(0), want.Text(0))
		}
		// The thinner slab is the old one, 4 in; half of each dowel in each slab.
		if d.Depth != 2*inch || d.At.Y != 20*foot || d.Inner.Y != 20*foot-8*inch || d.Outer.Y != 20*foot+8*inch {
			t.Errorf("dowel %+v", d)
		}
	}
	// A hole of 5/8 in less a bar of 1/2 in, 8 in deep: π/4·(0.390625 − 0.25)·8 = 0.8836 in³.
	if v := spec(nil).Dowels.HoleVolume() / math.Pow(0.0254, 3); math.Abs(v-0.8836) > 1e-4 {
		t.Errorf("hole %.4f in³", v)
	}
}

// In a joint with a door, dowels keep out of it if asked.
func TestDowelsClearOfDoors(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint = true
	p.Outline[2].Doors = []plan.Door{{From: 8 * foot, Width: 4 * foot}}
	l := lay(t, p, spec(func(s *layout.Spec) { s.Dowels.Doors = true }))
	for _, d := range l.Dowels {
		if d.Along > 8*foot-6*inch && d.Along < 12*foot+6*inch {
			t.Errorf("dowel at %s", d.Along.Text(0))
		}
	}
	if len(l.Dowels) < 14 {
		t.Errorf("%d dowels", len(l.Dowels))
	}
}

// Two joints at a corner, dowels of 8 in in the new slab, the first 6 in from the
// corner: those nearest to it cross 6 in from both edges. From 9 in on they do not.
func TestDowelsMeetAtCorner(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[1].Joint, p.Outline[2].Joint = true, true
	for end, meet := range map[geometry.Length]int{6 * inch: 1, 9 * inch: 0} {
		l := lay(t, p, spec(func(s *layout.Spec) { s.Dowels.End = end }))
		found := 0
		for _, f := range l.Findings {
			if f.Rule.Name == "Dowels clear of each other" {
				found++
			}
		}
		if found != meet {
			t.Errorf("first dowels at %s: %d found", end.Text(0), found)
		}
	}
}

// A pier in a hole whose edges are joints gets a strip all round; so does a joint
// without dowels, and none that has them.
func TestIsolation(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint = true
	hole := plan.Loop{{At: geometry.Point{X: 10 * foot, Y: 10 * foot}}, {At: geometry.Point{X: 10 * foot, Y: 12 * foot}}, {At: geometry.Point{X: 12 * foot, Y: 12 * foot}}, {At: geometry.Point{X: 12 * foot, Y: 10 * foot}}}
	for i := range hole {
		hole[i].Joint = true
	}
	p.Holes = []plan.Hole{{Loop: hole}}
	for size, want := range map[bars.Size]geometry.Length{0: 24*foot + 8*foot, 4: 8 * foot} {
		var sum geometry.Length
		for _, i := range lay(t, p, spec(func(s *layout.Spec) { s.Dowels.Size = size })).Isolation {
			sum += geometry.Distance(i.A, i.B)
			if deep := 12 * inch; i.Loop == 0 && i.Depth != deep || i.Loop == 1 && i.Depth != 6*inch {
				t.Errorf("%+v", i)
			}
		}
		if sum != want {
			t.Errorf("dowels %s: %s of strip, want %s", size, sum.Text(0), want.Text(0))
		}
	}
}

// ACI 302.1R: saw cuts at most 36 thicknesses apart, however that comes.
func TestJointRatioFound(t *testing.T) {
	for _, c := range []struct {
		ratio   float64
		spacing geometry.Length
		found   bool
	}{{36, 0, false}, {40, 0, true}, {30, 18 * foot, false}, {30, 19 * foot, true}} {
		// 10 in thick: the table, for 4 to 6 in, does not apply to the ratio.
		p := ring(0, 0, 60, 0, 60, 40, 0, 40)
		if p.Field = 10 * inch; c.spacing > 0 {
			p.Field = 6 * inch
		}
		l := lay(t, p, spec(func(s *layout.Spec) { s.SawCuts.Ratio, s.SawCuts.Spacing = c.ratio, c.spacing }))
		found := false
		for _, f := range l.Findings {
			found = found || f.Rule.Name == "Saw cut spacing"
		}
		if found != c.found {
			t.Errorf("%+v: %v", c, l.Findings)
		}
	}
}

// Forms of 24 ft by 20 ft with a joint on one long side, by hand: 20, 24 and
// 20 ft, a board's thickness (1 1/2 in, PS 20) more where the next one butts.
func TestFormsByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint = true
	l := lay(t, p, spec(nil))
	want := map[int]geometry.Length{0: 24*foot + 3*inch/2, 1: 20 * foot, 3: 20*foot + 3*inch/2}
	if len(l.Forms) != 3 {
		t.Fatalf("%d forms", len(l.Forms))
	}
	for _, f := range l.Forms {
		if f.Length != want[f.Edge] {
			t.Errorf("edge %d: %s", f.Edge+1, f.Length.Text(0))
		}
		// A 12 in edge takes a 2x12, which is 11 1/4 in: the trench goes 3/4 in below.
		if f.Board.Name != "2x12" || f.Below != 3*inch/4 || f.Ripped != 0 {
			t.Errorf("edge %d: %s, %s below", f.Edge+1, f.Board, f.Below.Text(0))
		}
		var sum geometry.Length
		for _, b := range f.Boards {
			sum += b
			if b > 16*foot {
				t.Errorf("a board of %s", b.Text(0))
			}
		}
		if sum != f.Length {
			t.Errorf("edge %d: boards of %s in all", f.Edge+1, sum.Text(0))
		}
		for i := 1; i < len(f.Stakes); i++ {
			if gap := f.Stakes[i] - f.Stakes[i-1]; gap > 3*foot || gap < 0 {
				t.Errorf("edge %d: stakes %s apart", f.Edge+1, gap.Text(0))
			}
		}
		if f.Stakes[0] != 0 {
			t.Errorf("edge %d: the first stake at %s", f.Edge+1, f.Stakes[0].Text(0))
		}
	}
	// 24 ft 1 1/2 in: 16 ft and 8 ft 1 1/2 in. Rests of 8 ft 1 1/2 in, 4 ft and
	// 4 ft 1 1/2 in: 8 ft 1 1/2 in + ... from 10 and 12 ft boards.
	if !l.Lumber.Optimal {
		t.Error("boards not proven least")
	}
	// Rests and whole boards: 3·16 ft; 8'-1 1/2" + 4'-0" do not fit 12 ft, so that
	// 10 ft and 10 ft, or 16 ft with one more, are the choices: 20 ft at least.
	if l.Lumber.Bought != 3*16*foot+20*foot {
		t.Errorf("%s bought", l.Lumber.Bought.Text(0))
	}
	rip := lay(t, p, spec(func(s *layout.Spec) { s.Forms.Rip = true }))
	for _, f := range rip.Forms {
		if f.Below != 3*inch/4 { // no board is wider than a 2x12
			t.Errorf("ripped: %+v", f)
		}
	}
}

// Forms of an L, by hand: at the five outside corners each runs past its end by a
// board's thickness, at the inside corner it stops short of the next board by one.
func TestFormsAtInsideCorner(t *testing.T) {
	l := lay(t, ring(0, 0, 24, 0, 24, 12, 16, 12, 16, 20, 0, 20), spec(nil))
	b := 3 * inch / 2
	for i, want := range []geometry.Length{24*foot + b, 12*foot + b, 8*foot - b, 8*foot + b, 16*foot + b, 20*foot + b} {
		if got := l.Forms[i].Length; got != want {
			t.Errorf("edge %d: %s, want %s", i+1, got.Text(0), want.Text(0))
		}
	}
}

// The line of an edge that ends at an inside corner runs on across the slab: the
// stake stands its offset of 3 ft beyond it, not in the concrete.
func TestStakesStandClear(t *testing.T) {
	l := lay(t, ring(0, 0, 24, 0, 24, 12, 16, 12, 16, 20, 0, 20), spec(nil))
	if s := l.Lines[2]; s.A != (geometry.Point{X: 27 * foot, Y: 12 * foot}) || s.B != (geometry.Point{X: -3 * foot, Y: 12 * foot}) {
		t.Errorf("edge 3: %+v", s)
	}
	if s := l.Lines[3]; s.A != (geometry.Point{X: 16 * foot, Y: -3 * foot}) || s.B != (geometry.Point{X: 16 * foot, Y: 23 * foot}) {
		t.Errorf("edge 4: %+v", s)
	}
}

// Heights at the corners, by hand: the finished floor 100 ft over the benchmark,
// a fall of 2 in from the back to the front, a 12 in edge and an 18 in one under a
// door that reaches to the first corner. On graded ground the bottom falls with
// the top, on level ground it does not.
func TestGradesByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 18, 0, 18)
	p.Outline[0].Doors = []plan.Door{{Width: 8 * foot, Section: "Deep"}}
	p.Top.Falls = []plan.Fall{{From: geometry.Point{Y: 18 * foot}, To: geometry.Point{}, Drop: 2 * inch}}
	for _, c := range []struct {
		base   plan.Base
		bottom [4]geometry.Length // below the benchmark's 100 ft
	}{
		{plan.Graded, [4]geometry.Length{18 * inch, 12 * inch, 10 * inch, 10 * inch}},
		{plan.Level, [4]geometry.Length{18 * inch, 12 * inch, 12 * inch, 12 * inch}},
	} {
		p.Base = c.base
		l := lay(t, p, spec(func(s *layout.Spec) { s.StakeOut.Benchmark = 100 * foot }))
		for i, g := range l.Grades {
			top := 100*foot + geometry.Length(i/2)*2*inch
			if (g.Top-top).Abs() > 10 || (g.Bottom-(100*foot-c.bottom[i])).Abs() > 10 {
				t.Errorf("%v, corner %d: top %s, bottom %s", c.base, i+1, g.Top.Text(0), g.Bottom.Text(0))
			}
		}
	}
}

// Diagonals by Pythagoras, and the 3-4-5 check at the largest foot that fits.
func TestStakeOut(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 18, 0, 18)
	l := lay(t, p, spec(func(s *layout.Spec) { s.StakeOut.Benchmark = 100 * foot }))
	if len(l.Diagonals) != 2 || l.Diagonals[0].Length != 30*foot || l.Diagonals[1].Length != 30*foot {
		t.Errorf("diagonals %v", l.Diagonals) // 18-24-30
	}
	if len(l.Squares) != 4 {
		t.Fatalf("%d squares", len(l.Squares))
	}
	for _, s := range l.Squares {
		if s.Unit != 6*foot || geometry.Distance(s.A, s.B) != 5*s.Unit {
			t.Errorf("square %+v", s)
		}
	}
	if s := l.Lines[0]; s.A != (geometry.Point{X: -3 * foot}) || s.B != (geometry.Point{X: 27 * foot}) {
		t.Errorf("string line %+v", s)
	}
	for _, g := range l.Grades {
		if g.Top != 100*foot || g.Bottom != 99*foot {
			t.Errorf("grade %+v", g)
		}
	}
	// A top that falls 2 in from the back to the front: level across.
	p.Top.Falls = []plan.Fall{{From: geometry.Point{Y: 18 * foot}, To: geometry.Point{}, Drop: 2 * inch}}
	l = lay(t, p, spec(nil))
	for i, want := range []geometry.Length{0, 0, 2 * inch, 2 * inch} {
		if (l.Grades[i].Top - want).Abs() > 10 {
			t.Errorf("corner %d is %s up", i+1, l.Grades[i].Top.Text(0))
		}
	}
}

// An L: every diagonal but the sides, and a joint from the inside corner.
func TestJointsThroughInsideCorners(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 12, 12, 12, 12, 24, 0, 24)
	l := lay(t, p, spec(nil))
	if want := 6*3/2 + 0; len(l.Diagonals) != want { // n(n−3)/2
		t.Errorf("%d diagonals, want %d", len(l.Diagonals), want)
	}
	corner, found := geometry.Point{X: 12 * foot, Y: 12 * foot}, false
	for _, j := range l.SawCuts {
		found = found || j.A == corner || j.B == corner
		if j.Depth != 3*inch/2 { // a quarter of 6 in
			t.Errorf("cut %s deep", j.Depth.Text(0))
		}
	}
	if !found {
		t.Errorf("no cut from the inside corner: %v", l.SawCuts)
	}
	for _, f := range l.Findings {
		if f.Rule.Name == "Panels near square" {
			t.Errorf("%s", f.Text)
		}
	}
}

// A slab within the limit needs no cut; one beyond is cut into even panels.
func TestJointSpacing(t *testing.T) {
	if l := lay(t, ring(0, 0, 15, 0, 15, 15, 0, 15), spec(nil)); len(l.SawCuts) != 0 {
		t.Errorf("15 ft square: %v", l.SawCuts)
	}
	l := lay(t, ring(0, 0, 40, 0, 40, 26, 0, 26), spec(nil))
	var across, along int // 40 ft in 3 of 13 ft 4 in, 26 ft in 2 of 13 ft
	for _, j := range l.SawCuts {
		if j.A.X == j.B.X {
			across++
		} else {
			along++
		}
	}
	if across != 2 || along != 1 {
		t.Errorf("%d and %d cuts", across, along)
	}
}

// A cut keeps off the middle of a pad where the limit leaves room for it.
func TestJointsKeepOffPads(t *testing.T) {
	p := ring(0, 0, 28, 0, 28, 14, 0, 14)
	p.Pads = []plan.Pad{{Center: geometry.Point{X: 14 * foot, Y: 7 * foot}, Width: 2 * foot, Length: 2 * foot, Depth: 12 * inch}}
	l := lay(t, p, spec(nil))
	for _, j := range l.SawCuts {
		if (j.A.X - 14*foot).Abs() < 5*inch {
			t.Errorf("cut at %s over the pad's middle", j.A.X.Text(0))
		}
	}
	if len(l.SawCuts) == 0 {
		t.Error("no cut")
	}
}

// A cut meets a door's jamb where it may.
func TestJointsMeetJambs(t *testing.T) {
	p := ring(0, 0, 28, 0, 28, 14, 0, 14)
	p.Outline[0].Doors = []plan.Door{{From: 15 * foot, Width: 9 * foot}}
	l := lay(t, p, spec(nil))
	if len(l.SawCuts) != 1 || l.SawCuts[0].A.X != 15*foot || l.SawCuts[0].Why != sawcuts.AtJamb {
		t.Errorf("%v", l.SawCuts)
	}
}

// Dowels at the depth of a grid's bars that run along them stand beside them.
// Bars that run across at that depth cannot be dodged: they are found.
func TestDowelsClearOfGrid(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint = true
	l := lay(t, p, spec(func(s *layout.Spec) {
		s.Dowels.OldSlab, s.Dowels.Spacing, s.Dowels.End = 6*inch, 12*inch, 13*inch/4
		s.Field.Kind, s.Field.Spacing, s.Field.Cover, s.Bars.Rows = field.Grid, 12*inch, 3*inch, nil
	}))
	for _, d := range l.Dowels {
		for _, b := range l.Bars {
			along := b.Path[0].X == b.Path[1].X
			if !along || max(b.Path[0].Y, b.Path[1].Y) < d.Inner.Y || (b.Depth-d.Depth).Abs() >= inch/2 {
				continue
			}
			if gap := (b.Path[0].X - d.At.X).Abs(); gap < inch/2 {
				t.Errorf("dowel at %s is %s from a bar along it", d.Along.Text(0), gap.Text(0))
			}
		}
	}
	// Dowels and bars along them are meant for the same 25 places.
	if len(l.Dowels) != 25 {
		t.Errorf("%d dowels", len(l.Dowels))
	}
	found := 0
	for _, f := range l.Findings {
		if f.Rule.Name == "Dowels clear of bars" {
			found++
		}
	}
	if found != 1 { // the bars across lie half a bar above or below the dowels
		t.Errorf("%d found", found)
	}
}

// An 8 in edge takes a 2x8, 7 1/4 in wide, with the trench 3/4 in below it; or,
// ripped, a 2x10, 9 1/4 in wide, less 1 1/4 in (PS 20).
func TestFormsRipped(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Sections[0].Depth = 8 * inch
	for _, c := range []struct {
		rip           bool
		board         string
		below, ripped geometry.Length
	}{
		{false, "2x8", 3 * inch / 4, 0},
		{true, "2x10", 0, 5 * inch / 4},
	} {
		for _, f := range lay(t, p, spec(func(s *layout.Spec) { s.Forms.Rip = c.rip })).Forms {
			if f.Board.Name != c.board || f.Below != c.below || f.Ripped != c.ripped {
				t.Errorf("%+v: %s, %s below, %s ripped", c, f.Board, f.Below.Text(0), f.Ripped.Text(0))
			}
		}
	}
}

// Every corner of a small hole has a saw cut, and none of them makes a strip of
// narrow panels right through the slab.
func TestJointsFromSmallHoles(t *testing.T) {
	p := ring(0, 0, 40, 0, 40, 26, 0, 26)
	hole := []geometry.Point{{X: 17 * foot, Y: 5 * foot}, {X: 17 * foot, Y: 8 * foot}, {X: 20 * foot, Y: 8 * foot}, {X: 20 * foot, Y: 5 * foot}}
	p.Holes = []plan.Hole{{}}
	for _, c := range hole {
		p.Holes[0].Loop = append(p.Holes[0].Loop, plan.Edge{At: c})
	}
	l := lay(t, p, spec(nil))
	for _, c := range hole {
		met := false
		for _, j := range l.SawCuts {
			d := geometry.Distance(j.A, c) + geometry.Distance(c, j.B) - geometry.Distance(j.A, j.B)
			met = met || d < inch
		}
		if !met {
			t.Errorf("no cut at the hole's corner %v: %v", c, l.SawCuts)
		}
	}
	through := 0
	for _, j := range l.SawCuts {
		if geometry.Distance(j.A, j.B) > 25*foot {
			through++
		}
	}
	if through > 4 {
		t.Errorf("%d cuts right through", through)
	}
}

// A drain in the middle of a slab takes no two cuts a foot apart on to one side: its last
// corner, from which they would leave a strip, takes none, and it is told.
func TestNoStripBesideADrain(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 24, 0, 24)
	p.Holes = []plan.Hole{{Loop: ring(11.5, 11.5, 11.5, 12.5, 12.5, 12.5, 12.5, 11.5).Outline}}
	l := lay(t, p, spec(nil))
	for i, a := range l.SawCuts {
		for _, b := range l.SawCuts[:i] {
			if a.A.Y == a.B.Y && b.A.Y == b.B.Y && a.A.Y != b.A.Y && (a.A.Y-b.A.Y).Abs() < 2*foot && max(a.A.X, a.B.X) == max(b.A.X, b.B.X) {
				t.Errorf("cuts beside each other at %s and %s", a.A.Y.Text(0), b.A.Y.Text(0))
			}
		}
	}
	if !finds(l, "Panels are rectangles", "No saw cut starts at this inside corner") || len(l.SawCuts) != 4 {
		t.Errorf("%d cuts, of which %v is told", len(l.SawCuts), l.Findings)
	}
}
