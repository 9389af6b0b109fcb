package layout_test

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// An L of 24 ft by 20 ft with a notch of 8 ft by 8 ft at its upper right, 2x6
// plates (5 1/2 in, PS 20), stock of 40 ft. Worked by hand: each plate runs
// through where its edge ends, and butts where it starts. At the five outside
// corners it ends at the corner and starts 5 1/2 in past it. At the inside
// corner, where edge 3 ends and edge 4 starts, it ends 5 1/2 in past the corner
// and starts at it.
func TestPlatesAtCornersByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 12, 16, 12, 16, 20, 0, 20)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Stock = 40 * foot }))
	w := 11 * inch / 2
	for i, want := range [][2]geometry.Length{
		{w, 24 * foot}, {w, 12 * foot}, {w, 8*foot + w}, {0, 8 * foot}, {w, 16 * foot}, {w, 20 * foot},
	} {
		if got := stretches(l.Walls[i]); len(got) != 1 || got[0] != want {
			t.Errorf("edge %d: %v, want %v", i+1, got, want)
		}
	}
	// A bolt of its own for each wall at every corner, and all rules kept.
	for _, w := range l.Walls {
		p := w.Pieces[0]
		first, last := w.Bolts[0].Along, w.Bolts[len(w.Bolts)-1].Along
		if first-p.From > 12*inch || p.To-last > 12*inch || last > w.Length || first < 0 {
			t.Errorf("%s: bolts from %s to %s on a plate from %s to %s", w.Name(), first.Text(0), last.Text(0), p.From.Text(0), p.To.Text(0))
		}
	}
	if f := broken(l); len(f) > 0 {
		t.Error(f)
	}
}

// At a corner of 45 degrees, as of a bay, both plates are mitered: their longest
// points are at the corner, and the short ones w·tan(45°/2) before it.
func TestPlatesMitered(t *testing.T) {
	p := ring(0, 0, 12, 0, 18, 6, 18, 20, 0, 20)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Stock = 40 * foot }))
	a := l.Walls[0].Pieces[0]
	if a.To != 12*foot {
		t.Errorf("wall A ends at %s", a.To.Text(0))
	}
	short := 12*12 - 5.5*math.Tan(math.Pi/8)
	if !slices.ContainsFunc(a.Outline, func(q geometry.Point) bool {
		return math.Abs(q.X.Inches()-short) < 1e-6 && math.Abs(q.Y.Inches()-5.5) < 1e-6
	}) {
		t.Errorf("wall A is %v, want a corner at %.4f in", a.Outline, short)
	}
	if b := l.Walls[1].Pieces[0]; b.From != 0 {
		t.Errorf("wall B starts at %s", b.From.Text(0))
	}
}

// Where a door reaches to the corner there is no plate to butt against: the next
// plate starts at the corner.
func TestPlatesBesideCornerDoor(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[0].Doors = []plan.Door{{From: 15 * foot, Width: 9 * foot}}
	l := lay(t, p, spec(nil))
	if got := stretches(l.Walls[1])[0][0]; got != 0 {
		t.Errorf("wall B starts at %s", got.Text(0))
	}
}

// Where a slab is narrower than two plates, they lie on each other: it is said.
func TestPlatesOverlapFound(t *testing.T) {
	p := ring(0, 0, 20, 0, 20, 0.75, 0, 0.75) // 9 in wide
	l := lay(t, p, spec(nil))
	if !slices.ContainsFunc(l.Findings, func(f rule.Finding) bool {
		return f.Rule.Name == "Plates clear of each other" && f.Severity == rule.Severe
	}) {
		t.Errorf("not found: %v", l.Findings)
	}
}

// builtWith draws a house-like outline: a ring of n corners about a center or
// steps of right angles, with a plate of any width on every edge and no side
// shorter than 4 ft.
func builtWith(t *rapid.T) plan.Plan {
	p := ring()
	var at []geometry.Point
	if rapid.Bool().Draw(t, "round") {
		n := rapid.IntRange(4, 12).Draw(t, "n")
		for i := range n {
			r := rapid.Float64Range(16, 40).Draw(t, "r") * float64(foot)
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			at = append(at, geometry.Point{X: geometry.Length(r * cos), Y: geometry.Length(r * sin)})
		}
	} else {
		x, y := geometry.Length(0), geometry.Length(0)
		at = append(at, geometry.Point{})
		step := func(name string) geometry.Length {
			return geometry.Length(rapid.Int64Range(4*16*12, 20*16*12).Draw(t, name)) * geometry.Sixteenth
		}
		for range rapid.IntRange(1, 5).Draw(t, "steps") {
			x += step("dx")
			at = append(at, geometry.Point{X: x, Y: y})
			y += step("dy")
			at = append(at, geometry.Point{X: x, Y: y})
		}
		at = append(at, geometry.Point{Y: y})
	}
	wall := rapid.SampledFrom([]string{"2x4", "2x6", "2x8"})
	for _, q := range at {
		p.Outline = append(p.Outline, plan.Edge{At: q, Section: "Edge", Wall: wall.Draw(t, "wall")})
	}
	return p
}

// Whatever the corners, plates neither lie on each other nor leave a corner bare:
// every place on the strip of a plate's width along the walls is under just one.
func TestPlatesCoverWallsOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := builtWith(t)
		s := spec(func(s *layout.Spec) {
			s.Bolts.Stock = rapid.SampledFrom([]geometry.Length{8 * foot, 16 * foot}).Draw(t, "stock")
		})
		l := of(p, s, nil)
		for _, f := range l.Findings {
			if f.Rule.Name == "Plates clear of each other" {
				t.Fatal(f.Text)
			}
		}
		under := func(q geometry.Point) (n int) {
			for _, w := range l.Walls {
				for _, piece := range w.Pieces {
					if distanceIn(piece.Outline, q) > -1000 { // on it, to the micrometer
						n++
					}
				}
			}
			return n
		}
		for i, e := range p.Outline { // the square past a right-angled inside corner
			before, after := p.Outline[(i+len(p.Outline)-1)%len(p.Outline)].At, p.Outline[(i+1)%len(p.Outline)].At
			if e.At.X == before.X && e.At.Y == after.Y && geometry.Orientation(before, e.At, after) < 0 {
				if q := e.At.Add(geometry.Point{X: -2 * inch, Y: 3 * inch}); under(q) != 1 {
					t.Fatalf("%v, past the corner of edge %d, lies under %d plates", q, i+1, under(q))
				}
			}
		}
		for range 60 {
			i := rapid.IntRange(0, len(p.Outline)-1).Draw(t, "edge")
			a, b := p.Outline.Ends(i)
			length := p.Outline.Length(i)
			// Near the corners is where it matters.
			along := geometry.Length(rapid.Int64Range(0, int64(2*foot)).Draw(t, "along"))
			if rapid.Bool().Draw(t, "end") {
				along = length - along
			}
			inset := geometry.Length(rapid.Int64Range(int64(inch/8), int64(27*inch/8)).Draw(t, "inset"))
			on := geometry.Along(a, b, along)
			v := b.Sub(a)
			q := geometry.Point{
				X: on.X - geometry.Length(float64(v.Y)*float64(inset)/float64(length)),
				Y: on.Y + geometry.Length(float64(v.X)*float64(inset)/float64(length)),
			}
			n := under(q)
			if !onSlab(p, q) || n == 1 || n == 2 && onJoint(l, q) {
				continue
			}
			t.Fatalf("%v, %s along edge %d and %s in, lies under %d plates", q, along.Text(0), i+1, inset.Text(0), n)
		}
	})
}

// distanceIn gives how far a point lies within a convex outline, in nanometers;
// negative outside.
func distanceIn(outline []geometry.Point, q geometry.Point) float64 {
	least := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		h := float64(geometry.Distance(a, b))
		if h < 10 {
			continue
		}
		u, v := b.Sub(a), q.Sub(a)
		least = min(least, (float64(u.X)*float64(v.Y)-float64(u.Y)*float64(v.X))/h)
	}
	return least
}

// onJoint tells whether a point lies where two plates meet.
func onJoint(l laid, q geometry.Point) bool {
	for _, w := range l.Walls {
		for _, p := range w.Pieces {
			if math.Abs(distanceIn(p.Outline, q)) < 2000 {
				return true
			}
		}
	}
	return false
}

// A piece of plate that leaves no place 7 diameters from both its ends has no bolt, which
// would split it, and it is told (IRC R403.1.6).
func TestNoBoltSplitsAShortPlate(t *testing.T) {
	for long, want := range map[geometry.Length]int{2 * inch: 0, 7*inch - 1: 0, 7 * inch: 1} {
		p := ring(0, 0, 20, 0, 20, 20, 0, 20)
		p.Outline[0].Doors = []plan.Door{{From: 5 * foot, Width: 3 * foot}, {From: 8*foot + long, Width: 3 * foot}}
		l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Jamb, s.Bolts.EndMin = 0, 7*inch/2 }))
		var on, told int
		for _, b := range l.Walls[0].Bolts {
			if b.Along >= 8*foot && b.Along <= 8*foot+long {
				on++
			}
		}
		for _, f := range l.Findings {
			if f.Rule.Name == "Two bolts in each plate piece" && strings.Contains(f.Text, "has no bolt") {
				told++
			}
		}
		if on != want || told != 1-want {
			t.Errorf("a piece of %v has %d bolts and is told %d times, want %d: %v", long, on, told, want, l.Findings)
		}
	}
}

// A piece of plate between a sharp corner and a door that is a point short of the line of the
// bolts has none: it would stand in the air beside the slab. That is told.
func TestNoBoltStandsBesideAPointedPlate(t *testing.T) {
	for from, want := range map[geometry.Length]bool{8 * inch: false, 36 * inch: true} {
		p := ring(0, 0, 30, 0, 3, 11)
		p.Outline[1].Doors = []plan.Door{{From: from, Width: 3 * foot}}
		l := lay(t, p, spec(nil))
		on, told := false, false
		for _, b := range l.Walls[1].Bolts {
			on = on || b.Along < from
			if !p.Region().Contains(b.At) {
				t.Errorf("a bolt at %s stands beside the slab", b.Along.Text(0))
			}
		}
		for _, f := range l.Findings {
			told = told || strings.Contains(f.Text, "Wall W2: the plate from 0\" to 8\" is a point that does not reach the line of the bolts")
		}
		if on != want || told == want {
			t.Errorf("a door %s from the corner: bolts %v, told %v: %v", from.Text(0), on, told, l.Findings)
		}
	}
}

// Walls and bars run past a jog too short for a plate of its own.
func TestWallsAndBarsRunPastAJog(t *testing.T) {
	for _, by := range []geometry.Length{-3 * inch / 2, 3 * inch / 2, 5 * inch} {
		p := ring(0, 0, 20, 0, 20, 20, 0, 20)
		at := []geometry.Point{{}, {X: 10 * foot}, {X: 10 * foot, Y: by}, {X: 20 * foot, Y: by}, {X: 20 * foot, Y: 20 * foot}, {Y: 20 * foot}}
		e := p.Outline[0]
		p.Outline = nil
		for _, q := range at {
			e.At = q
			p.Outline = append(p.Outline, e)
		}
		s := spec(func(s *layout.Spec) {})
		l := lay(t, p, s)
		if n := len(l.Walls); n != 5 {
			t.Errorf("jog of %v: %d walls, want 5", by, n)
		}
		for _, b := range l.Bars {
			for i, q := range b.Path[1:] {
				a := b.Path[i]
				if v := q.Sub(a); a.Y < foot+by && q.Y < foot+by && v.X != 0 && 6*v.Y.Abs() > v.X.Abs()+2 {
					t.Errorf("jog of %v: a bar from %v to %v", by, a, q)
				}
			}
		}
		across := 0
		for _, b := range l.Bars {
			x := slices.MinFunc(b.Path, func(a, b geometry.Point) int { return cmp.Compare(a.X, b.X) }).X
			y := slices.MaxFunc(b.Path, func(a, b geometry.Point) int { return cmp.Compare(a.X, b.X) }).X
			if x < 10*foot && y > 10*foot && b.Path[0].Y < 2*foot {
				across++
			}
		}
		ends := 0 // beside a jog past which it would have too little cover to the slope
		for _, f := range l.Findings {
			if f.Rule.Name == "Room for edge bars" && strings.Contains(f.Text, "it ends at the jog there") {
				ends++
			} else if f.Broken() || f.Rule.Name == "Room for edge bars" {
				t.Errorf("jog of %v: %s", by, f.Said())
			}
		}
		if want := map[bool]int{true: 1}[by == 5*inch]; ends != want || across < len(s.Bars.Rows)-ends {
			t.Errorf("jog of %v: %d bars run past it and %d rows end, want %d", by, across, ends, want)
		}
	}
}
