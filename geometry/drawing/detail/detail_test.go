package detail_test

import (
	"fmt"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/drawing/drawingtest"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func board(name string) lumber.Board {
	b, _ := lumber.Named(name)
	return b
}

// edge is a 12 in edge of a 6 in slab with all that a section shows.
func edge() detail.Section {
	ground := geometry.Length(6 * in)
	return detail.Section{
		Under: []plan.Station{{Inset: 0, Depth: 12 * in}, {Inset: 13 * in, Depth: 12 * in}, {Inset: 20 * in, Depth: 6 * in}}, Field: 6 * in,
		Board: board("2x12"), Plate: board("2x6"), Gravel: 4 * in, Foam: 2 * in, Haunch: true, Ground: &ground, Frost: 18 * in,
		Bolt: &detail.Bolt{Inset: 11 * in / 4, Diameter: in / 2, Length: 10 * in, Projection: 5 * in / 2, Hook: 2 * in},
		Bars: []detail.Bar{
			{Inset: 13 * in / 4, Depth: 35 * in / 4, Diameter: in / 2, Face: 3 * in, Bottom: 3 * in},
			{Inset: 33 * in / 4, Depth: 5 * in / 2, Diameter: in / 2, Face: 8 * in, Top: 9 * in / 4, Name: "No. 4 bars"},
		},
		Mesh: &detail.FieldSteel{Depth: 3 * in, Cover: 2 * in, Name: "6x6-W1.4xW1.4"},
	}
}

// sections are what is drawn, with the texts that must stand on each.
func sections() map[string]struct {
	d    *drawing.Drawing
	must []string
} {
	type one = struct {
		d    *drawing.Drawing
		must []string
	}
	feet := geometry.FeetInches
	lip := edge()
	lip.Lip, lip.Plate, lip.Bolt = plan.Lip{Inset: 5 * in, Drop: 3 * in / 4}, lumber.Board{}, nil
	pad := detail.Section{Inside: true, Field: 6 * in, Gravel: 4 * in, Under: []plan.Station{{Inset: 0, Depth: 6 * in}, {Inset: 5 * in, Depth: 16 * in}, {Inset: 41 * in, Depth: 16 * in}, {Inset: 46 * in, Depth: 6 * in}}}
	dowel := detail.Section{Under: edge().Under, Field: 6 * in, Dowel: &detail.Dowel{Depth: 3 * in, Embed: 5 * in, Length: 16 * in, Diameter: in / 2, OldSlab: 6 * in}}
	bent := bars.Bar{Size: 4, Path: []geometry.Point{{}, {X: 9 * ft}, {X: 9 * ft, Y: 3 * ft}}, Legs: []geometry.Length{9*ft + in, 3*ft + in}, Bends: []bars.Bend{{Turn: 90}}}
	both := bars.Bar{Size: 4, Path: []geometry.Point{{}, {X: 4 * ft}, {X: 5 * ft}, {X: 9 * ft}, {X: 9 * ft, Y: 3 * ft}}, Depths: []geometry.Length{9 * in, 9 * in, 13 * in, 13 * in, 13 * in},
		Legs: []geometry.Length{4 * ft, 12*in + 5*in/8, 4*ft + in, 3*ft + in}, Bends: []bars.Bend{{Turn: 18}, {Turn: 18}, {Turn: 90}}}
	stock := cutlist.Bar{Length: 20 * ft, Pieces: []cutlist.Piece{{Mark: mark.Mark{Kind: mark.Bar, N: 1}, Length: 12 * ft}, {Mark: mark.Mark{Kind: mark.Dowel, N: 1}, Length: 16 * in}, {Mark: mark.Mark{Kind: mark.Dowel, N: 1}, Length: 16 * in}}, Rest: 5*ft + 4*in}
	return map[string]one{
		"edge":  {edge().Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`, `2 3/4"`, `2 1/2"`, `7 1/2"`, `2"`, `3"`, `3"`, `8"`, `2 1/4"`, "No. 4 bars", "6x6-W1.4xW1.4", `foam 2"`, `gravel 4"`, "ground", `frost 1'-6"`}},
		"lip":   {lip.Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`, `3"`, `8"`}},
		"pad":   {pad.Drawing(feet), []string{`1'-4"`, `6"`, `5"`, `5"`, `3'-0"`}},
		"dowel": {dowel.Drawing(feet), []string{`5"`, `11"`, `3"`, `6"`}},
		"plate": {detail.PlateEnd(feet, board("2x6"), detail.Bolt{Inset: 11 * in / 4, Diameter: in / 2}, 8*in, 3*in), []string{`8"`, `2 3/4"`}},
		"bent":  {detail.Bend(feet, bent, 3*in, 70), []string{`9'-1"`, `3'-1"`, "90°", `pin 3"`}},
		"both":  {detail.Bend(feet, both, 3*in, 70), []string{`4'-0"`, `1'-0 5/8"`, `4'-1"`, `3'-1"`, "90°", "18.5°", "18.5°", `from above, pin 3"`, `from the side, pin 3"`, `rise 4"`, `run 1'-0"`}},
		"lap":   {detail.Lap(feet, 28*in), []string{`2'-4"`}},
		"stock": {detail.Stock(feet, stock), []string{`B1 12'-0"`, `DW1 1'-4"`, `DW1 1'-4"`, `rest 5'-4"`}},
		"cut":   {detail.Profile(feet, []solid.Profile{{From: ft, To: 2 * ft, Start: ft, End: ft}, {From: 2 * ft, To: 3 * ft, Start: ft, End: 6 * in}, {From: 3 * ft, To: 20 * ft, Start: 6 * in, End: 6 * in}}, 4), []string{`19'-0"`}},
	}
}

// What must stand on a detail stands on it or in its rows, in a wide column and in
// a narrow one, and nothing stands on anything else.
func TestNothingIsLostOnDetails(t *testing.T) {
	for name, c := range sections() {
		lo, hi, _ := c.d.Bounds()
		for _, ratio := range []float64{1, 8, 12, 24, 100} {
			area := drawing.Rect{X1: float64(hi.X-lo.X)*drawing.Ratio(ratio) + 40, Y1: float64(hi.Y-lo.Y)*drawing.Ratio(ratio) + 40}
			p := drawing.Place(c.d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(ratio), lo, hi, area), Area: area, Fonts: &drawingtest.Fonts{}, Manner: &drawing.OnDetail})
			if lost := drawingtest.Lost(p, c.must); len(lost) > 0 {
				t.Errorf("%s 1:%g: %q is neither on it nor in a row", name, ratio, lost)
			}
			for _, s := range drawingtest.Look(p).Overlaps(area, &drawing.Paper) {
				t.Errorf("%s 1:%g: %s", name, ratio, s)
			}
		}
	}
}

// Drawn large enough, a detail needs no rows, but where a bolt stands between a bar
// and the face.
func TestLargeSectionsNeedNoRows(t *testing.T) {
	for name, c := range sections() {
		if name == "edge" {
			continue
		}
		ratio := map[string]float64{"bent": 1, "both": 1, "lap": 1, "stock": 60, "cut": 60}[name]
		if ratio == 0 {
			ratio = 4
		}
		lo, hi, _ := c.d.Bounds()
		area := drawing.Rect{X1: float64(hi.X-lo.X)*drawing.Ratio(ratio) + 60, Y1: float64(hi.Y-lo.Y)*drawing.Ratio(ratio) + 60}
		p := drawing.Place(c.d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(ratio), lo, hi, area), Area: area, Fonts: &drawingtest.Fonts{}, Manner: &drawing.OnDetail})
		if len(p.Rows) > 0 {
			t.Errorf("%s: %+v", name, p.Rows)
		}
	}
}

// A bolt is drawn as it is bought, and a plate stands on the concrete under it.
func TestBoltsAreDrawnAsTheyAre(t *testing.T) {
	lines := func(s detail.Section) (lowest, right float64, plate float64) {
		d := s.Drawing(geometry.FeetInches)
		p := drawing.Place(d, drawing.Options{View: drawing.View{Scale: drawing.Ratio(1)}, Area: drawing.Rect{X0: -2000, Y0: -2000, X1: 2000, Y1: 2000}, Fonts: &drawingtest.Fonts{}, Manner: &drawing.OnDetail})
		for _, l := range drawingtest.Look(p).Lines {
			if l.Layer == drawing.Bolts {
				lowest, right = min(lowest, l.A.Y, l.B.Y), max(right, l.A.X, l.B.X)
			}
			if l.Style == drawing.HatchLine && l.A.X == 0 && l.B.X > 100 && l.A.Y > l.B.Y {
				plate = l.B.Y
			}
		}
		return lowest / 25.4, right / 25.4, plate / 25.4
	}
	near := func(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }
	low, right, _ := lines(edge()) // 10 in long, 2 1/2 up; a hook of 2 in over a 1/2 in shaft at 2 3/4
	if !near(low, -7.5) || !near(right, 4.5) {
		t.Errorf("a bent bolt reaches to %g down and %g in, want -7.5 and 4.5", low, right)
	}
	headed := edge()
	headed.Bolt = &detail.Bolt{Inset: 11 * in / 4, Diameter: in / 2, Length: 8 * in, Projection: 5 * in / 2}
	if low, _, _ := lines(headed); !near(low, -5.5) {
		t.Errorf("a headed bolt reaches %g down, want -5.5", low)
	}
	lip := edge()
	lip.Lip = plan.Lip{Inset: 6 * in, Drop: 3 * in / 4}
	if low, _, plate := lines(lip); !near(low, -8.25) || !near(plate, -0.75) {
		t.Errorf("on a lip of 3/4 in the bolt reaches %g down and the plate stands at %g, want -8.25 and -0.75", low, plate)
	}
}

func TestPiecesInWords(t *testing.T) {
	got := detail.Pieces(geometry.FeetInches, cutlist.Bar{Pieces: []cutlist.Piece{{Mark: mark.Mark{Kind: mark.Bar, N: 1}, Length: 12 * ft}, {Mark: mark.Mark{Kind: mark.Dowel, N: 1}, Length: 16 * in}, {Mark: mark.Mark{Kind: mark.Dowel, N: 1}, Length: 16 * in}, {Length: ft}}, Rest: in})
	if want := `B1 12'-0", 2 × DW1 1'-4", 1'-0", rest 1"`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func ExampleSection() {
	s := detail.Section{Field: 6 * in, Under: []plan.Station{{Inset: 0, Depth: 12 * in}, {Inset: 12 * in, Depth: 12 * in}, {Inset: 18 * in, Depth: 6 * in}}}
	d := s.Drawing(geometry.FeetInches)
	fmt.Println(strings.Join(d.On(drawing.Dimensions), ", "))
	// Output: 1'-0", 1'-0", 6", 6"
}
