package sheet

import (
	"math"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/plan"
)

// sectionsOf gives the lines of a layer on the sheets of sections, in millimeters
// of the site.
func sectionsOf(t *testing.T, j job.Job, layer Layer) [][]Point {
	t.Helper()
	pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	var out [][]Point
	for _, p := range pages[1:] { // on the first stands the plan
		for _, it := range p.Items {
			if l, ok := it.(Line); ok && l.Layer == layer {
				out = append(out, l.Points)
			}
		}
	}
	return out
}

func walled(edit func(*job.Job)) job.Job {
	j := job.New()
	j.Slabs[0].Sections = []plan.Section{{Name: "Edge", Depth: 16 * in, Bottom: 12 * in, Taper: 8 * in}}
	for _, c := range [][2]float64{{0, 0}, {20, 0}, {20, 16}, {0, 16}} {
		j.Slabs[0].Outline = append(j.Slabs[0].Outline, plan.Edge{At: point(c[0], c[1]), Section: "Edge", Wall: "2x6"})
	}
	edit(&j)
	return j
}

// The bolt of a section has the shape and the hook of the specification: twice as
// long a hook reaches twice as far, and a headed bolt has none.
func TestSectionDrawsTheBoltAsSpecified(t *testing.T) {
	reach := func(shape bolts.Shape, hook geometry.Length) (widest float64) {
		lines := sectionsOf(t, walled(func(j *job.Job) { j.Spec.Place.Bolts.Shape, j.Spec.Place.Bolts.Hook = shape, hook }), drawing.Bolts)
		if len(lines) == 0 {
			t.Fatal("no bolt is drawn")
		}
		for _, l := range lines {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range l {
				lo, hi = min(lo, p.X), max(hi, p.X)
			}
			if len(l) > 5 { // no washer and no head
				widest = max(widest, hi-lo)
			}
		}
		return widest
	}
	short, long, headed := reach(bolts.Bent, 2*in), reach(bolts.Bent, 4*in), reach(bolts.Headed, 0)
	if math.Abs(long/short-(4+5./8)/(2+5./8)) > 0.2 {
		t.Errorf("a hook of 2 in is drawn %.1f mm wide, one of 4 in %.1f", short, long)
	}
	if headed > 0 {
		t.Error("a headed bolt is drawn with a hook")
	}
}

// A plate lies on concrete: over a door's lip it has none to lie on.
func TestSectionPlateLiesOnConcrete(t *testing.T) {
	j := walled(func(j *job.Job) {
		for i := range j.Slabs[0].Outline {
			e := &j.Slabs[0].Outline[i]
			e.Doors = []plan.Door{{Kind: plan.Overhead, From: 2 * ft, Width: geometry.Distance(e.At, j.Slabs[0].Outline[(i+1)%4].At) - 4*ft, Lip: plan.Lip{Inset: 5 * in, Drop: 3 * in / 4}}}
		}
	})
	slab := sectionsOf(t, j, drawing.Outline)
	for _, wood := range sectionsOf(t, j, drawing.Forms) {
		low, box := math.Inf(1), rect{X0: math.Inf(1), X1: math.Inf(-1)}
		for _, p := range wood {
			low = min(low, p.Y)
			box = rect{X0: min(box.X0, p.X), X1: max(box.X1, p.X), Y1: max(box.Y1, p.Y)}
		}
		if box.Width() < box.Y1-low {
			continue // a board of the form, on edge
		}
		for _, p := range wood {
			if p.Y != low || len(wood) != 4 {
				continue
			}
			// The nearest of the concrete's tops under this corner of the wood.
			nearest := math.Inf(1)
			for _, s := range slab {
				for k := 1; k < len(s); k++ {
					a, b := s[k-1], s[k]
					if gap := low - a.Y; math.Abs(a.Y-b.Y) < 0.01 && min(a.X, b.X) <= p.X+0.01 && p.X <= max(a.X, b.X)+0.01 && gap > -0.01 {
						nearest = min(nearest, gap)
					}
				}
			}
			if nearest > 0.5 && nearest < 3 {
				t.Errorf("a plate floats %.1f mm over the concrete", nearest)
			}
		}
	}
}
