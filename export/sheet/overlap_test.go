package sheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"
)

// overlaps lists what stands on what on a finished page: text on text, text on
// lines, text off the sheet, and dimension lines that cross each other. It looks
// at the items themselves and shares nothing with the search for free places
// but the shape of a box.
func overlaps(p Page) (out []string) {
	var texts []Text
	var dims [][2]Point
	var ticks []Point
	for _, it := range p.Items {
		switch v := it.(type) {
		case Text:
			texts = append(texts, v)
		case Line:
			if v.Layer == Dimension && len(v.Points) == 2 && v.Pen.Width < penTick.Width-1e-6 && v.Pen.Color == blue { // black is the leader of a mark
				dims = append(dims, [2]Point{v.Points[0], v.Points[1]})
			}
			if v.Layer == Dimension && len(v.Points) == 2 && math.Abs(v.Pen.Width-penTick.Width) < 1e-6 {
				ticks = append(ticks, v.Points[0].Add(v.Points[1]).Times(0.5))
			}
		}
	}
	sheet := rect{X0: margin, Y0: margin, X1: p.Width - margin, Y1: p.Height - margin}
	boxes := make([]box, len(texts))
	for i, a := range texts {
		boxes[i] = a.box()
	}
	for i, a := range texts {
		if !sheet.Holds(boxes[i]) {
			out = append(out, fmt.Sprintf("%q is off the sheet", a.Text))
		}
		if a.Size < sizeFine-1e-6 {
			out = append(out, fmt.Sprintf("%q is smaller than %g pt", a.Text, sizeFine))
		}
		for k, b := range texts[i+1:] {
			if boxes[i].Hits(boxes[i+1+k]) {
				out = append(out, fmt.Sprintf("%q on %q", a.Text, b.Text))
			}
		}
		around := boxes[i].Grown(1).Bounds()
		for _, it := range p.Items {
			switch v := it.(type) {
			case Line:
				if v.Pen.Width > 0 && near(v, around) && chainHits(v, boxes[i]) {
					out = append(out, fmt.Sprintf("%q on a line of %s", a.Text, v.Layer))
				}
			case Circle:
				if rimHits(v, boxes[i]) {
					out = append(out, fmt.Sprintf("%q on a circle of %s", a.Text, v.Layer))
				}
			}
		}
	}
	for i, a := range dims {
		for _, b := range dims[i+1:] {
			// A string crosses its own extension lines, at its ticks.
			if at, ok := crossing(a, b); ok && !slices.ContainsFunc(ticks, func(p Point) bool { return p.Sub(at).Length() < 0.1 }) {
				out = append(out, fmt.Sprintf("dimension lines cross at %.0f, %.0f", at.X, at.Y))
			}
		}
	}
	return out
}

// near tells whether a line's bounds reach into r.
func near(l Line, r rect) bool {
	b := rect{X0: math.Inf(1), Y0: math.Inf(1), X1: math.Inf(-1), Y1: math.Inf(-1)}
	for _, p := range l.Points {
		b = rect{X0: min(b.X0, p.X), Y0: min(b.Y0, p.Y), X1: max(b.X1, p.X), Y1: max(b.Y1, p.Y)}
	}
	return b.X0 <= r.X1 && r.X0 <= b.X1 && b.Y0 <= r.Y1 && r.Y0 <= b.Y1
}

func chainHits(l Line, b box) bool {
	pts := l.Points
	if l.Closed {
		pts = append(append([]Point{}, pts...), pts[0])
	}
	for i := 1; i < len(pts); i++ {
		if _, _, ok := b.Grown(l.Pen.Width/2).Cuts(pts[i-1], pts[i]); ok {
			return true
		}
	}
	return false
}

func rimHits(c Circle, b box) bool {
	near := b.Nearest(c.Center).Sub(c.Center).Length()
	far := 0.0
	for _, k := range b.Corners() {
		far = math.Max(far, k.Sub(c.Center).Length())
	}
	return near < c.Radius+c.Pen.Width/2 && far > c.Radius-c.Pen.Width/2
}

// crossing gives where two segments cross well inside both.
func crossing(a, b [2]Point) (Point, bool) {
	u, v, w := a[1].Sub(a[0]), b[1].Sub(b[0]), b[0].Sub(a[0])
	det := u.X*v.Y - u.Y*v.X
	if math.Abs(det) < 1e-9 {
		return Point{}, false
	}
	s, t := (w.X*v.Y-w.Y*v.X)/det, (w.X*u.Y-w.Y*u.X)/det
	// Strings end on extension lines: what touches does not cross.
	ds, dt := 0.3/u.Length(), 0.3/v.Length()
	return a[0].Add(u.Times(s)), s > ds && s < 1-ds && t > dt && t < 1-dt
}

func TestNothingOverlaps(t *testing.T) {
	plans := append(corpus(), awkward{"demo", demoJob(t)})
	if len(plans) < 31 {
		t.Fatalf("only %d plans", len(plans))
	}
	if testing.Short() { // with the race detector: sheets are made by one goroutine
		plans = plans[len(plans)-6:]
	}
	for _, c := range plans {
		t.Run(c.name, func(t *testing.T) {
			if faults := c.job.Validate(); len(faults) > 0 {
				t.Fatal(faults)
			}
			h := handed(t, c.job)
			pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
			if err != nil {
				t.Fatal(err)
			}
			if os.Getenv("HAUNCH_SHOW") != "" {
				var b bytes.Buffer
				if err := Write(t.Context(), &b, h, Options{Date: fixedDate}); err != nil {
					t.Fatal(err)
				}
				show(t, "c-"+c.name+".pdf", b.Bytes())
			}
			for _, p := range pages {
				for _, s := range overlaps(p) {
					t.Errorf("%s: %s", p.Name, s)
				}
				for _, s := range p.Unplaced {
					t.Errorf("%s: no place for %q", p.Name, s)
				}
			}
		})
	}
}

// Sheets can be printed on every paper, both in feet and in meters.
func TestEveryPaper(t *testing.T) {
	for _, name := range []string{"two slabs", "metric ell", "spiral"} {
		j := jobNamed(t, name)
		h := handed(t, j)
		papers := AllPapers()
		if testing.Short() {
			papers = papers[:2]
		}
		for _, paper := range papers {
			pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range pages {
				if math.Abs(p.Width*p.Height-paper.Width*paper.Height) > 1e-6 {
					t.Errorf("%s, %s on %s: %g × %g mm", name, p.Name, paper.Name, p.Width, p.Height)
				}
				for _, s := range overlaps(p.grown(1 / paper.grown())) { // as drawn: what touches is of that size
					t.Errorf("%s, %s on %s: %s", name, p.Name, paper.Name, s)
				}
			}
		}
	}
}
