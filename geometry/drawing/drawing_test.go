package drawing_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/drawingtest"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func ExamplePlace() {
	d := &drawing.Drawing{}
	d.Ring(drawing.Pencil{Layer: drawing.Outline, Style: drawing.EdgeLine}, pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	d.Dimension(drawing.Dimension{Of: "Side 1–2", A: pt(0, 0), B: pt(24*ft, 0)},
		drawing.Chain{Stops: []geometry.Length{0, 4 * ft, 24 * ft}, Texts: []string{d.Text(4 * ft), d.Text(20 * ft)}})
	area := drawing.Rect{X1: 200, Y1: 180}
	p := drawing.Place(d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(48), pt(0, 0), pt(24*ft, 20*ft), area), Area: area, Fonts: &drawingtest.Fonts{}})
	for _, w := range p.Words() {
		fmt.Printf("%s at %.1f, %.1f mm\n", w.Text, w.At.X, w.At.Y)
	}
	fmt.Println("rows:", len(p.Rows))
	// Output:
	// 4'-0" at 32.1, 19.1 mm
	// 20'-0" at 107.5, 19.1 mm
	// rows: 0
}

// A box with a label in its middle and a line under it, set where the test says.
func planted(text drawing.Vec, size float64) *drawingtest.Seen {
	s := &drawingtest.Seen{}
	s.Stroke(drawing.Ink{Layer: drawing.Outline, Style: drawing.EdgeLine}, []drawing.Vec{{X: 10, Y: 10}, {X: 90, Y: 10}, {X: 90, Y: 60}, {X: 10, Y: 60}}, true)
	s.Circle(drawing.Ink{Layer: drawing.Bolts, Style: drawing.BoltLine}, drawing.Vec{X: 50, Y: 40}, 5, false)
	s.Text(drawing.Word{Text: "there", At: drawing.Vec{X: 20, Y: 20}, Along: drawing.Vec{X: 1}, Width: 10, Above: 3, Below: 1})
	s.Text(drawing.Word{Text: "planted", At: text, Along: drawing.Vec{X: 1}, Width: size, Above: 3, Below: 1})
	return s
}

// Overlaps that are planted are found, and none where there is none: the test of
// the drawings can fail.
func TestPlantedOverlapsAreFound(t *testing.T) {
	area := drawing.Rect{X1: 100, Y1: 70}
	for _, c := range []struct {
		name string
		at   drawing.Vec
		want string
	}{
		{"clear", drawing.Vec{X: 60, Y: 20}, ""},
		{"on a text", drawing.Vec{X: 25, Y: 22}, `"planted" stands on "there"`},
		{"on a line", drawing.Vec{X: 85, Y: 30}, `"planted" stands on a line of SLAB`},
		{"on a circle", drawing.Vec{X: 52, Y: 44}, `"planted" stands on a circle of BOLT`},
		{"in a circle", drawing.Vec{X: 46, Y: 39}, ""},
		{"outside", drawing.Vec{X: 97, Y: 30}, `"planted" is outside`},
	} {
		got := strings.Join(planted(c.at, 7).Overlaps(area, &drawing.Paper), "; ")
		if c.want == "" && got != "" || c.want != "" && !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	d := &drawing.Drawing{}
	d.Label(drawing.Label{At: pt(0, 0)}, []string{"one"}, drawing.At(pt(0, 0)))
	p := drawing.Place(d, drawing.Options{View: drawing.View{Scale: drawing.Ratio(48)}, Area: drawing.Rect{X0: -50, Y0: -50, X1: 50, Y1: 50}, Fonts: &drawingtest.Fonts{}})
	if lost := drawingtest.Lost(p, []string{"one", "two"}); fmt.Sprint(lost) != "[two]" {
		t.Errorf("lost: %q", lost)
	}
}

// Labels of any number, size and place on a small sheet: none is lost, none stands
// on another, and the mark of each row is on the sheet.
func TestLabelsAreNeverLost(t *testing.T) {
	fonts := drawing.Remember(&drawingtest.Fonts{})
	rapid.Check(t, func(rt *rapid.T) {
		d := &drawing.Drawing{}
		var must []string
		area := drawing.Rect{X1: rapid.Float64Range(30, 200).Draw(rt, "w"), Y1: rapid.Float64Range(30, 150).Draw(rt, "h")}
		view := drawing.View{Scale: drawing.Ratio(48)}
		place := func(name string) geometry.Point {
			return view.Back(drawing.Vec{X: rapid.Float64Range(0, area.X1).Draw(rt, name+" x"), Y: rapid.Float64Range(0, area.Y1).Draw(rt, name+" y")})
		}
		for i := range rapid.IntRange(1, 40).Draw(rt, "lines") {
			d.Stroke(drawing.Pencil{Style: rapid.SampledFrom([]drawing.Style{drawing.EdgeLine, drawing.BendLine}).Draw(rt, "style")}, place(fmt.Sprint("from ", i)), place(fmt.Sprint("to ", i)))
		}
		for i := range rapid.IntRange(1, 60).Draw(rt, "labels") {
			text := fmt.Sprintf("label %d", i)
			must = append(must, text)
			d.Label(drawing.Label{
				Style: drawing.NoteText, Of: "Label", At: place(text), Frame: drawing.Framing(rapid.IntRange(0, 1).Draw(rt, "frame")),
				Start: 1, Near: float32(rapid.IntRange(2, 9).Draw(rt, "near")), Reach: float32(rapid.IntRange(0, 40).Draw(rt, "reach")), Weight: int8(rapid.IntRange(-9, 9).Draw(rt, "weight")),
			}, []string{text})
		}
		p := drawing.Place(d, drawing.Options{View: view, Area: area, Fonts: fonts})
		if lost := drawingtest.Lost(p, must); len(lost) > 0 {
			rt.Fatalf("lost: %q", lost)
		}
		if over := drawingtest.Look(p).Overlaps(area, &drawing.Paper); len(over) > 0 {
			rt.Fatalf("%q", over)
		}
	})
}

// A bent bar whose middle lies under the mark of its corner is pointed at where it is seen.
func TestLeaderPointsToWhatIsSeen(t *testing.T) {
	area := drawing.Rect{X1: 120, Y1: 120}
	view := drawing.View{Scale: drawing.Ratio(48)}
	at := func(x, y float64) geometry.Point { return view.Back(drawing.Vec{X: x, Y: y}) }
	for _, slides := range []bool{false, true} {
		d := &drawing.Drawing{}
		d.Label(drawing.Label{Style: drawing.NoteText, At: at(60, 60), Frame: drawing.InCircle, Fixed: true, Weight: 9}, []string{"4"}, drawing.At(at(60, 60)))
		d.Label(drawing.Label{
			Style: drawing.NoteText, Of: "Bar B6", At: at(60, 60), Start: 0.8, Near: 1.5, Reach: 60, Slides: slides,
		}, []string{"B6"}, drawing.Spot{At: at(60, 68), Line: at(0, 8), Turned: true, Within: true})
		p := drawing.Place(d, drawing.Options{View: view, Area: area, Fonts: &drawingtest.Fonts{}})
		if listed := len(p.Rows) > 0; listed == slides {
			t.Errorf("slides %t: rows %v", slides, p.Rows)
		}
	}
}

// What found no room has its mark at another of its spots where its place is hidden.
func TestMarkPointsToWhatIsSeen(t *testing.T) {
	area := drawing.Rect{X1: 120, Y1: 120}
	view := drawing.View{Scale: drawing.Ratio(48)}
	at := func(x, y float64) geometry.Point { return view.Back(drawing.Vec{X: x, Y: y}) }
	for _, slides := range []bool{false, true} {
		d := &drawing.Drawing{}
		d.Label(drawing.Label{Style: drawing.NoteText, At: at(60, 60), Frame: drawing.InCircle, Fixed: true, Weight: 9}, []string{"4"}, drawing.At(at(60, 60)))
		d.Label(drawing.Label{
			Style: drawing.NoteText, Of: "Bar B6", At: at(60, 60), Slides: slides,
		}, []string{strings.Repeat("far too long for the sheet", 9)}, drawing.At(at(60, 80)))
		p := drawing.Place(d, drawing.Options{View: view, Area: area, Fonts: &drawingtest.Fonts{}})
		if len(p.Rows) != 1 || (p.Rows[0].Mark != "") != slides {
			t.Errorf("slides %t: rows %v", slides, p.Rows)
		}
	}
}

// A place is on the sheet where the view says, and back again to the nanometer.
func TestViewsAreTurnedBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		long := rapid.Int64Range(-int64(geometry.MaxLength), int64(geometry.MaxLength))
		p := pt(geometry.Length(long.Draw(rt, "x")), geometry.Length(long.Draw(rt, "y")))
		v := drawing.View{Scale: drawing.Ratio(rapid.Float64Range(1, 5000).Draw(rt, "ratio")), From: p.Add(pt(geometry.Length(rapid.Int64Range(-1e12, 1e12).Draw(rt, "off")), 7))}
		if q := v.Back(v.On(p)); geometry.Distance(p, q) > 1000 {
			rt.Fatalf("%v comes back as %v", p, q)
		}
	})
}

// What is placed again and again costs no memory.
func TestPlacingAllocatesNothing(t *testing.T) {
	var d drawing.Drawing
	var p drawing.Placed
	fonts := drawing.Remember(&drawingtest.Fonts{})
	area := drawing.Rect{X1: 300, Y1: 250}
	manner := drawing.OnPaper
	set := func() {
		d.Reset()
		for i := range geometry.Length(40) {
			a, b := pt(0, i*ft/2), pt(20*ft, i*ft/2+ft)
			d.Stroke(drawing.Pencil{Layer: drawing.Outline, Style: drawing.EdgeLine}, a, b)
			lines := [1]string{"here"}
			d.Label(drawing.Label{At: a, Reach: 20, Optional: true}, lines[:])
		}
		p.Set(&d, drawing.Options{View: drawing.View{Scale: drawing.Ratio(48), At: drawing.Vec{X: 40, Y: 40}}, Area: area, Fonts: fonts, Manner: &manner})
	}
	set()
	if n := testing.AllocsPerRun(10, set); n > 2 {
		t.Errorf("%g allocations", n)
	}
}
