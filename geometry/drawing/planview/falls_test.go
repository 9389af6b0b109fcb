package planview_test

import (
	"math"
	"slices"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/drawingtest"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// drained is a slab of 24 by 20 ft. Its top drops 2 in at 10 ft toward a drain
// point in its middle, from all four ways.
func drained() plan.Plan {
	p := plan.Plan{Field: 6 * in, Sections: []plan.Section{{Name: "Edge", Depth: 12 * in, Bottom: 8 * in, Taper: 6 * in}}}
	for _, c := range [][2]float64{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: point(c[0], c[1]), Section: "Edge"})
	}
	for _, d := range [][2]float64{{10, 0}, {-10, 0}, {0, 10}, {0, -10}} {
		p.Top.Falls = append(p.Top.Falls, plan.Fall{From: point(12+d[0], 10+d[1]), To: point(12, 10), Drop: 2 * in})
	}
	return p
}

// fallen draws the falls and the heights of a slab, with the lowest place of its
// top 6 in over the datum, and tells where the drawing has the places of the plan.
func fallen(t *testing.T, p plan.Plan) (*drawing.Placed, drawing.Rect, solid.Surface) {
	t.Helper()
	s, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	top := s.Surface()
	l := &layout.Layout{StakeOut: stakeout.Of(slab.New("", p, s, geometry.FeetInches, slab.Concrete{}), stakeout.Spec{Benchmark: 6 * in})}
	on := drawing.LayersOf(drawing.Outline, drawing.Falls, drawing.Heights)
	d := planview.Plan(geometry.FeetInches, planview.Input{Slabs: []planview.Slab{{Plan: p, Surface: &top, Layout: l}}}, planview.Options{Draw: on, Names: on, Worked: -1, Sound: true})
	placed, area := onSheet(d, p, 48)
	return placed, area, top
}

// What of a falling top must be known on the site stands on the drawing: an arrow
// down each fall, in its own part of the slab and toward the drain; the valleys;
// the height of each corner and of the drain.
func TestFallsTowardADrain(t *testing.T) {
	p := drained()
	placed, area, top := fallen(t, p)
	seen := drawingtest.Look(placed)
	for _, s := range seen.Overlaps(area, &drawing.Paper) {
		t.Error(s)
	}
	drain, lo, hi := placed.On(point(12, 10)), placed.On(point(0, 0)), placed.On(point(24, 20))
	inside := drawing.Rect{X0: lo.X, Y0: lo.Y, X1: hi.X, Y1: hi.Y}.Has
	heads := 0
	ways := map[[2]float64]bool{}
	for _, f := range seen.Fills {
		if f.Style != drawing.FallArrow {
			continue
		}
		heads++
		tip, a, b := f.Rings[0][0], f.Rings[0][1], f.Rings[0][2]
		back := drawing.Vec{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
		if near, far := math.Hypot(tip.X-drain.X, tip.Y-drain.Y), math.Hypot(back.X-drain.X, back.Y-drain.Y); near >= far {
			t.Errorf("an arrow at %v does not point at the drain", tip)
		}
		if !inside(tip) || !inside(back) {
			t.Errorf("an arrow at %v stands off the slab", tip)
		}
		long := math.Hypot(tip.X-back.X, tip.Y-back.Y)
		ways[[2]float64{math.Round((tip.X - back.X) / long), math.Round((tip.Y - back.Y) / long)}] = true
	}
	if heads != 8 || len(ways) != 4 {
		t.Errorf("%d heads of arrows point %d ways, want two of each of four falls", heads, len(ways))
	}
	var starts []drawing.Vec
	for _, a := range top.Arrows {
		starts = append(starts, placed.On(a.From))
	}
	for i, v := range starts {
		if slices.Contains(starts[:i], v) {
			t.Errorf("two arrows start at %v", v)
		}
		if !covers(seen, drawing.FallArrow, v, placed.On(top.Arrows[i].To)) {
			t.Errorf("arrow %d is not drawn", i+1)
		}
	}
	// Each valley runs on a diagonal from the drain to 10 ft off.
	for _, x := range []float64{2, 22} {
		for _, y := range []float64{0, 20} {
			if !covers(seen, drawing.CreaseLine, drain, placed.On(point(x, y))) {
				t.Errorf("no valley to %g, %g", x, y)
			}
		}
	}
	if n := seen.Says("valley"); n != 4 {
		t.Errorf("%d lines are called valleys", n)
	}
	if n := seen.Says("falls 2\" in 10'-0\""); n != 4 {
		t.Errorf("%d falls say how far they drop", n)
	}
	// The corners are 12 ft off: 2.4 in over the drain.
	if n := seen.Says("top 8 3/8\""); n != 4 {
		t.Errorf("%d corners have their height; %q", n, words(seen))
	}
	if n := seen.Says("top 6\""); n != 1 {
		t.Errorf("the drain has %d heights; %q", n, words(seen))
	}
}

// Falls that part are divided by a ridge; there is no drain.
func TestRidge(t *testing.T) {
	p := drained()
	p.Top = plan.Top{Meet: plan.Ridge, Falls: []plan.Fall{{From: point(12, 5), To: point(0, 5), Drop: 2 * in}, {From: point(12, 5), To: point(24, 5), Drop: 2 * in}}}
	placed, _, top := fallen(t, p)
	seen := drawingtest.Look(placed)
	if !covers(seen, drawing.CreaseLine, placed.On(point(12, 0)), placed.On(point(12, 20))) || seen.Says("ridge") != 1 || len(top.Arrows) != 2 || len(top.Drains()) > 0 {
		t.Errorf("no ridge in the middle, %d arrows, drains %v", len(top.Arrows), top.Drains())
	}
}

// Of a hole that takes the water its lowest corner has a height.
func TestHeightAtAHole(t *testing.T) {
	p := drained()
	p.Top.Falls = []plan.Fall{{From: point(12, 20), To: point(12, 0), Drop: 2 * in}}
	p.Holes = []plan.Hole{{Loop: plan.Loop{{At: point(10, 5)}, {At: point(10, 10)}, {At: point(14, 10)}, {At: point(14, 5)}}}}
	placed, _, _ := fallen(t, p)
	if seen := drawingtest.Look(placed); seen.Says("top 6 1/2\"") != 1 { // 5 ft up of 20, so a quarter of 2 in
		t.Errorf("heights %q", words(seen))
	}
}

// A level top is as high at one corner as at another: none says so, nor is
// anything drawn of a fall.
func TestLevelTopHasNoHeightsOfCorners(t *testing.T) {
	p := drained()
	p.Top = plan.Top{}
	placed, _, _ := fallen(t, p)
	seen := drawingtest.Look(placed)
	for _, w := range seen.Words {
		if w.Layer == drawing.Falls || w.Layer == drawing.Heights {
			t.Errorf("%q stands on a level slab", w.Text)
		}
	}
}

// covers tells whether a line from a to b is drawn in a style, in whatever pieces.
func covers(seen *drawingtest.Seen, style drawing.Style, a, b drawing.Vec) bool {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	covered := 0.0
	for _, l := range seen.Lines {
		off := func(v drawing.Vec) float64 {
			t := max(0, min(1, ((v.X-a.X)*(b.X-a.X)+(v.Y-a.Y)*(b.Y-a.Y))/(long*long)))
			return math.Hypot(v.X-a.X-t*(b.X-a.X), v.Y-a.Y-t*(b.Y-a.Y))
		}
		if l.Style == style && off(l.A) < 0.01 && off(l.B) < 0.01 {
			covered += math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y)
		}
	}
	return covered > long*0.6 // the rest is broken under text
}

func words(seen *drawingtest.Seen) (out []string) {
	for _, w := range seen.Words {
		out = append(out, w.Text)
	}
	return out
}

// A break of the top stands on the drawing as a line with its name, with an arrow down the apron
// that says how far it falls, and with the height of the top where it meets the forms.
func TestApronIsDrawn(t *testing.T) {
	p := drained()
	p.Top.Falls = nil
	p.Top.Breaks = []plan.Break{{From: point(24, 5), To: point(0, 5), Drop: in / 4, Over: 12 * in}}
	placed, area, top := fallen(t, p)
	seen := drawingtest.Look(placed)
	for _, s := range seen.Overlaps(area, &drawing.Paper) {
		t.Error(s)
	}
	var texts []string
	for _, w := range seen.Words {
		texts = append(texts, w.Text)
	}
	for _, want := range []string{`falls 1/4" in 1'-0"`, "top breaks", `top 7 1/4"`, `top 6"`} {
		if !slices.Contains(texts, want) {
			t.Errorf("no %q in %q", want, texts)
		}
	}
	if len(top.Breaks()) != 2 {
		t.Errorf("it meets edges at %+v", top.Breaks())
	}
}
