package sheet

import (
	"bytes"
	"io"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/export/workbook"
)

// The checks for overlaps find those that are planted.
func TestPlantedOverlapsAreFound(t *testing.T) {
	page := func(items ...Item) Page { return Page{Name: "x", Width: 100, Height: 80, Items: items} }
	text := func(x, y float64, s string) Text {
		return Text{Layer: Notes, At: Point{X: x, Y: y}, Size: sizeBody, Color: black, Text: s}
	}
	line := func(x0, y0, x1, y1 float64, pen Pen) Line {
		return Line{Layer: Dimension, Pen: pen, Points: []Point{{X: x0, Y: y0}, {X: x1, Y: y1}}}
	}
	for name, c := range map[string]struct {
		page  Page
		found bool
	}{
		"apart":             {page(text(20, 20, "12'-6\""), text(20, 30, "12'-6\""), line(10, 40, 90, 40, penDim)), false},
		"text on text":      {page(text(20, 20, "12'-6\""), text(22, 21, "12'-6\"")), true},
		"text on line":      {page(text(20, 20, "12'-6\""), line(10, 21, 90, 21, penHatch)), true},
		"text on circle":    {page(text(20, 20, "12'-6\""), Circle{Layer: Notes, Center: Point{X: 25, Y: 21}, Radius: 3, Pen: penRule}), true},
		"text in circle":    {page(text(20, 20, "1"), Circle{Layer: Notes, Center: Point{X: 21, Y: 21}, Radius: 5, Pen: penRule}), false},
		"off the sheet":     {page(text(85, 20, "12'-6\"")), true},
		"too small":         {page(Text{Layer: Notes, At: Point{X: 20, Y: 20}, Size: 6, Color: black, Text: "x"}), true},
		"strings cross":     {page(line(10, 40, 90, 40, penDim), line(50, 10, 50, 70, penDim)), true},
		"strings at a tick": {page(line(10, 40, 90, 40, penDim), line(50, 10, 50, 70, penDim), line(49, 39, 51, 41, penTick)), false},
		"strings meet":      {page(line(10, 40, 50, 40, penDim), line(50, 10, 50, 70, penDim)), false},
	} {
		if got := overlaps(c.page); (len(got) > 0) != c.found {
			t.Errorf("%s: %v", name, got)
		}
	}
	one := page(text(20, 20, "12'-6\""))
	two := page(text(22, 20.6, "12'-6\""))
	rule := page(line(10, 21, 90, 21, penHatch))
	far := page(line(10, 31, 90, 31, penHatch))
	pics := printed(t, inkDPI, one, two, rule, far)
	for i, want := range []bool{true, true, false} {
		if n, _ := both(pics[0], pics[i+1]); (n > 0) != want {
			t.Errorf("picture %d: %d common pixels", i+1, n)
		}
	}
	if n := len(apart(page(append(one.Items, two.Items...)...))); n != 2 {
		t.Errorf("two texts on each other are printed in %d parts", n)
	}
}

func BenchmarkSet(b *testing.B) {
	j := demoJob(b)
	h := handed(b, j)
	for b.Loop() {
		if err := Write(b.Context(), io.Discard, h, Options{Date: fixedDate}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPages(b *testing.B) {
	j := demoJob(b)
	h := handed(b, j)
	for b.Loop() {
		if _, err := Pages(b.Context(), h, Options{Date: fixedDate}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLayOut(b *testing.B) {
	j := demoJob(b)
	h := handed(b, j)
	for b.Loop() {
		if _, err := LayOut(b.Context(), h); err != nil {
			b.Fatal(err)
		}
	}
}

// The whole hand-over of a job: takeoff, estimate, sheets and workbook.
func BenchmarkHandOver(b *testing.B) {
	j := demoJob(b)
	for b.Loop() {
		h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
		var out bytes.Buffer
		if err := Write(b.Context(), &out, h, Options{Date: fixedDate}); err != nil {
			b.Fatal(err)
		}
		if err := workbook.Write(b.Context(), &out, h, workbook.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
