package sheet

import (
	"reflect"
	"testing"

	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// What of the slabs was drawn for one sheet is placed on another as if it were drawn for
// that one, whatever of the other slabs stands beside.
func TestDrawnOnceForSeveralSheets(t *testing.T) {
	for _, name := range []string{"two slabs", "three slabs"} {
		s, err := newSet(t.Context(), handed(t, jobNamed(t, name)), Options{Date: fixedDate})
		if err != nil {
			t.Fatal(err)
		}
		of := s.takeoff.Slabs[:1]
		lo, hi := boundsOf(of)
		kept := shown{draw: layoutLayers, names: layoutLayers, beside: true, notes: func(plan.Note) bool { return true }, kept: map[string]*drawing.Drawing{}}
		anew := kept
		anew.kept = nil
		for _, c := range []struct{ ratio, wide float64 }{{48, 200}, {48, 60}, {96, 300}, {24, 90}, {96, 60}, {48, 200}} {
			paper := rect{X1: c.wide, Y1: 150}
			v := viewOf(Scale{Ratio: c.ratio}, lo, hi, paper)
			place := func(w shown) *drawing.Placed {
				return s.place(v, drawing.Options{Area: paper, Clip: paper.Inset(2)}, of, w)
			}
			got, want := place(kept), place(anew)
			if !reflect.DeepEqual(got.Words(), want.Words()) || !reflect.DeepEqual(got.Rows, want.Rows) || !reflect.DeepEqual(got.Measures, want.Measures) {
				t.Errorf("%s at 1:%g: what is kept is placed another way", name, c.ratio)
			}
		}
		if n := len(kept.kept); n < 1 || n > 5 {
			t.Errorf("%s: %d drawings are kept of 6", name, n)
		}
	}
}

// The ink of a page that grew, and where blocks were set meanwhile, is that of the page as
// it is.
func TestInkOfAPageThatGrows(t *testing.T) {
	pages, err := Pages(t.Context(), handed(t, demoJob(t)), Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		grown, whole := newDraft("", p.Width, p.Height), newDraft("", p.Width, p.Height)
		for i, it := range p.Items {
			grown.page.Items = append(grown.page.Items, it)
			if i%7 == 0 {
				ink := grown.inked()
				n := len(ink.boxes)
				ink.add(rect{X1: p.Width / 3, Y1: p.Height / 2}.Box())
				ink.forget(n)
			}
		}
		whole.page.Items = p.Items
		got, want := grown.inked(), whole.inked()
		if !reflect.DeepEqual(got.boxes, want.boxes) {
			t.Fatalf("%s: %d boxes are inked, of %d", p.Name, len(got.boxes), len(want.boxes))
		}
		for x := 0.0; x < p.Width; x += 9 {
			for y := 0.0; y < p.Height; y += 7 {
				b := rect{X0: x, Y0: y, X1: x + 8, Y1: y + 5}.Box()
				if a, hit := got.first(b); hit {
					if c, _ := want.first(b); a != c {
						t.Fatalf("%s: at %g, %g runs into %v, want %v", p.Name, x, y, a, c)
					}
				} else if _, hit := want.first(b); hit {
					t.Fatalf("%s: at %g, %g is free", p.Name, x, y)
				}
			}
		}
	}
}
