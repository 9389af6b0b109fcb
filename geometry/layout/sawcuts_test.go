package layout_test

import (
	"math"
	"slices"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/plan"
	"pgregory.net/rapid"
)

// Whatever the rectangle, its doors and its pads: cuts run right across, no panel
// is longer than the limit, and a cut over the middle of a pad is said.
func TestJointsDivideRectangles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) geometry.Length {
			return geometry.Length(rapid.Int64Range(8*16*12, 120*16*12).Draw(t, name)) * geometry.Sixteenth
		}
		w, h := length("width"), length("height")
		p := ring()
		for _, q := range []geometry.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}} {
			p.Outline = append(p.Outline, plan.Edge{At: q, Section: "Edge"})
		}
		for i := range p.Outline {
			if at := length("door"); at+9*foot < p.Outline.Length(i) {
				p.Outline[i].Doors = []plan.Door{{From: at, Width: 9 * foot}}
			}
		}
		for range rapid.IntRange(0, 4).Draw(t, "pads") {
			at := geometry.Point{X: length("x") % w, Y: length("y") % h}
			p.Pads = append(p.Pads, plan.Pad{Center: at, Width: 2 * foot, Length: 3 * foot, Depth: 12 * inch})
		}
		if len(p.Validate(geometry.FeetInches)) > 0 {
			p.Pads = nil
		}
		s := spec(func(s *layout.Spec) { s.SawCuts.Ratio = rapid.SampledFrom([]float64{24, 30, 36}).Draw(t, "ratio") })
		l := of(p, s, nil)
		limit, _ := s.SawCuts.Limit(p.Field, s.Concrete)
		xs, ys := []geometry.Length{0, w}, []geometry.Length{0, h}
		for _, j := range l.SawCuts {
			switch {
			case j.A.X == j.B.X && geometry.Distance(j.A, j.B) == h:
				xs = append(xs, j.A.X)
			case j.A.Y == j.B.Y && geometry.Distance(j.A, j.B) == w:
				ys = append(ys, j.A.Y)
			default:
				t.Fatalf("%+v does not run right across", j)
			}
		}
		for _, at := range [][]geometry.Length{xs, ys} {
			slices.Sort(at)
			for i := 1; i < len(at); i++ {
				if at[i]-at[i-1] > limit+1 {
					t.Fatalf("%s between cuts, at most %s", (at[i] - at[i-1]).Text(0), limit.Text(0))
				}
			}
		}
		said := finds(l, "No saw cut over the middle of a pad", "")
		for _, pad := range p.Pads {
			for _, at := range xs[1 : len(xs)-1] {
				if (at-pad.Center.X).Abs() < 6*inch-1000 && !said {
					t.Fatalf("a cut at %s over the middle of the pad at %s, unsaid", at.Text(0), pad.Center.X.Text(0))
				}
			}
		}
	})
}

// Whatever the steps: a cut starts at, or passes through, every inside corner, to
// within 2 in where corners lie so near that one cut serves both.
func TestJointsReachInsideCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := builtWith(t)
		l := of(p, spec(nil), nil)
		n := len(p.Outline)
		for i, e := range p.Outline {
			before, after := p.Outline[(i+n-1)%n].At, p.Outline[(i+1)%n].At
			u, v := e.At.Sub(before), after.Sub(e.At)
			turn := math.Atan2(float64(u.X)*float64(v.Y)-float64(u.Y)*float64(v.X), float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y))
			if turn > -0.21 {
				continue
			}
			if !slices.ContainsFunc(l.SawCuts, func(j sawcuts.Cut) bool { return distanceTo(j, e.At) < 2*inch }) {
				t.Fatalf("no cut at the corner %d of %v, which turns by %.2f: %v", i+1, p.Outline.Corners(), turn, l.SawCuts)
			}
		}
	})
}

// distanceTo gives how far a point lies from a cut.
func distanceTo(j sawcuts.Cut, q geometry.Point) geometry.Length {
	d, w := j.B.Sub(j.A), q.Sub(j.A)
	f := (float64(w.X)*float64(d.X) + float64(w.Y)*float64(d.Y)) / (float64(d.X)*float64(d.X) + float64(d.Y)*float64(d.Y))
	f = min(max(f, 0), 1)
	return geometry.Length(math.Hypot(float64(w.X)-f*float64(d.X), float64(w.Y)-f*float64(d.Y)))
}

// Cuts go on from joints of the old slab where the limit leaves them, 13 ft in a slab of
// 5 in: even ones would stand at 10 and 20 ft.
func TestCutsGoOnFromTheOldSlab(t *testing.T) {
	p := ring(0, 0, 30, 0, 30, 24, 0, 24)
	p.Field, p.Outline[2].Joint, p.Outline[2].Wall, p.Outline[2].Section = 5*inch, true, "", ""
	for _, old := range [][]geometry.Length{{9 * foot, 18 * foot}, {12 * foot, 19 * foot}} {
		p.Outline[2].OldCuts = old
		l := lay(t, p, spec(nil))
		for _, along := range old {
			if !slices.ContainsFunc(l.SawCuts, func(c sawcuts.Cut) bool {
				return c.Why == sawcuts.AtOld && c.A.X == 30*foot-along && max(c.A.Y, c.B.Y) == 24*foot
			}) {
				t.Errorf("none at %s of %v: %v", along.Text(0), old, l.SawCuts)
			}
		}
	}
}
