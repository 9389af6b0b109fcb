package detail_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/drawing/drawingtest"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
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
	side := func(down geometry.Length) []plan.Station {
		return []plan.Station{{Inset: 0, Depth: 12*in + down}, {Inset: 13 * in, Depth: 12*in + down}, {Inset: 20 * in, Depth: 6*in + down}, {Inset: 26 * in, Depth: 6*in + down}}
	}
	return detail.Section{
		Under: side(0)[:3], Field: 6 * in, Board: board("2x12"), Plate: board("2x6"),
		Layers: []detail.Layer{
			{Name: "foam", Pattern: drawing.Slanted, Thickness: 2 * in, Upper: side(0), Lower: side(2 * in)},
			{Name: "gravel", Pattern: drawing.Pebbles, Thickness: 4 * in, Upper: side(2 * in), Lower: side(6 * in)},
		},
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
	pad := detail.Section{Inside: true, Field: 6 * in, Under: []plan.Station{{Inset: 0, Depth: 6 * in}, {Inset: 5 * in, Depth: 16 * in}, {Inset: 41 * in, Depth: 16 * in}, {Inset: 46 * in, Depth: 6 * in}}}
	dowel := detail.Section{Under: edge().Under, Field: 6 * in, Dowel: &detail.Dowel{Depth: 3 * in, Embed: 5 * in, Length: 16 * in, Diameter: in / 2, OldSlab: 6 * in}}
	key := detail.Section{Inside: true, Field: 6 * in, Key: &detail.Key{High: 3 * in / 2, Deep: 3 * in / 4, Bevel: 3 * in / 16}}
	sliding := detail.Section{Inside: true, Field: 6 * in, Key: &detail.Key{}, Lying: &detail.LyingBar{From: -8 * in, To: 8 * in, Depth: 3 * in, Diameter: 3 * in / 4}}
	against := detail.Section{Under: edge().Under, Field: 6 * in, Against: &detail.Against{Lower: 2 * in, Thickness: 4 * in, Filled: true}}
	overCurb := detail.Section{Under: edge().Under, Field: 6 * in, Against: &detail.Against{Lower: 8 * in, Thickness: 4 * in, Curb: 6 * in, Wide: 8 * in, Board: lumber.Boards()[1]}}
	underCurb := detail.Section{Under: edge().Under, Field: 6 * in, Against: &detail.Against{Lower: -in, Thickness: 4 * in, Curb: 6 * in, Wide: 6 * in, Filled: true}}
	bent := bars.Bar{Size: 4, Path: []geometry.Point{{}, {X: 9 * ft}, {X: 9 * ft, Y: 3 * ft}}, Legs: []geometry.Length{9*ft + in, 3*ft + in}, Bends: []bars.Bend{{Turn: 90}}}
	both := bars.Bar{Size: 4, Path: []geometry.Point{{}, {X: 4 * ft}, {X: 5 * ft}, {X: 9 * ft}, {X: 9 * ft, Y: 3 * ft}}, Depths: []geometry.Length{9 * in, 9 * in, 13 * in, 13 * in, 13 * in},
		Legs: []geometry.Length{4 * ft, 12*in + 5*in/8, 4*ft + in, 3*ft + in}, Bends: []bars.Bend{{Turn: 18}, {Turn: 18}, {Turn: 90}}}
	return map[string]one{
		"edge":    {edge().Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`, `2 3/4"`, `2 1/2"`, `7 1/2"`, `3"`, `3"`, `8"`, `2 1/4"`, "No. 4 bars", "6x6-W1.4xW1.4", `foam 2"`, `gravel 4"`}},
		"lip":     {lip.Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`, `3"`, `8"`}},
		"pad":     {pad.Drawing(feet), []string{`1'-4"`, `6"`, `5"`, `5"`, `3'-0"`}},
		"dowel":   {dowel.Drawing(feet), []string{`5"`, `11"`, `3"`, `6"`}},
		"key":     {key.Drawing(feet), []string{`6"`, `1 1/2"`, `3/4"`}},
		"sliding": {sliding.Drawing(feet), []string{`6"`}},
		"against": {against.Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`}},
		"over":    {overCurb.Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`}},
		"under":   {underCurb.Drawing(feet), []string{`1'-0"`, `6"`, `1'-1"`, `7"`}},
		"plate":   {detail.PlateEnd(feet, board("2x6"), detail.Bolt{Inset: 11 * in / 4, Diameter: in / 2, Washer: 3 * in}, 8*in), []string{`8"`, `2 3/4"`}},
		"bent":    {detail.Bend(feet, bent, false), []string{`9'-1"`, `3'-1"`}},
		"both":    {detail.Bend(feet, both, false), []string{`4'-0"`, `1'-0 5/8"`, `4'-1"`, `3'-1"`, "18.5°", "18.5°", "from above", "from the side", `rise 4"`, `run 1'-0"`}},
		"lap":     {detail.Lap(feet, 28*in), []string{`2'-4"`}},
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
		ratio := map[string]float64{"bent": 1, "both": 1, "lap": 1}[name]
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

// A bolt is drawn as it is bought, and a plate stands on the top of the slab.
func TestBoltsAreDrawnAsTheyAre(t *testing.T) {
	look := func(s detail.Section) (lowest, right, plate float64) {
		p := drawing.Place(s.Drawing(geometry.FeetInches), drawing.Options{View: drawing.View{Scale: drawing.Ratio(1)}, Area: drawing.Rect{X0: -2000, Y0: -2000, X1: 2000, Y1: 2000}, Fonts: &drawingtest.Fonts{}, Manner: &drawing.OnDetail})
		plate = math.Inf(1)
		for _, l := range drawingtest.Look(p).Lines {
			switch l.Layer {
			case drawing.Bolts:
				lowest, right = min(lowest, l.A.Y/25.4), max(right, l.A.X/25.4)
			case drawing.Plates:
				plate = min(plate, l.A.Y/25.4)
			}
		}
		return lowest, right, plate
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
	bent, headed, lip := edge(), edge(), edge()
	headed.Bolt = &detail.Bolt{Shape: bolts.Headed, Inset: 11 * in / 4, Diameter: in / 2, Length: 8 * in, Projection: 5 * in / 2}
	lip.Lip = plan.Lip{Inset: 6 * in, Drop: 3 * in / 4}
	for name, c := range map[string]struct {
		of         detail.Section
		low, right float64
	}{
		// 10 in long, 2 1/2 up; a hook of 2 in beyond a 1/2 in shaft at 2 3/4.
		"bent": {bent, -7.5, 5}, "headed": {headed, -5.5, 2.75 + 0.5}, "over a lip": {lip, -7.5, 5},
	} {
		if low, right, plate := look(c.of); !near(low, c.low) || !near(right, max(c.right, 3.25)) || !near(plate, 0) {
			t.Errorf("%s: the bolt reaches %g down and %g in, want %g and %g; the plate stands at %g", name, low, right, c.low, c.right, plate)
		}
	}
}

// Bars of one shape are known for that, whichever way up they lie and however long
// their legs; a drawing of them has letters, and angles where they are not square.
func TestBarsOfOneShape(t *testing.T) {
	bar := func(x, y geometry.Length) bars.Bar {
		return bars.Bar{Path: []geometry.Point{{}, {X: 9 * ft}, {X: 9*ft + x, Y: y}}, Legs: []geometry.Length{9 * ft, geometry.Distance(geometry.Point{}, geometry.Point{X: x, Y: y})}}
	}
	square, over, slanted := bar(0, 3*ft), bar(0, -5*ft), bar(3*ft, 3*ft)
	step := bars.Bar{Path: []geometry.Point{{}, {X: 4 * ft}, {X: 5 * ft}, {X: 9 * ft}}, Depths: []geometry.Length{9 * in, 9 * in, 13 * in, 13 * in}}
	higher := step
	higher.Depths = []geometry.Length{9 * in, 9 * in, 15 * in, 15 * in}
	if detail.Alike(square) != detail.Alike(over) {
		t.Error("a bar turned over is of another shape")
	}
	for name, b := range map[string]bars.Bar{"slanted": slanted, "stepped": step} {
		if detail.Alike(square) == detail.Alike(b) {
			t.Errorf("a %s bar is of the shape of a square one", name)
		}
	}
	if detail.Alike(step) == detail.Alike(higher) {
		t.Error("steps of two heights are of one shape")
	}
	if got := detail.Bend(geometry.FeetInches, square, true).On(drawing.Dimensions); fmt.Sprint(got) != "[A B]" {
		t.Errorf("a lettered bend measures %q", got)
	}
	for want, b := range map[string]bars.Bar{"[]": square, "[45°]": slanted} {
		if got := detail.Bend(geometry.FeetInches, b, false).On(drawing.Steel); fmt.Sprint(got) != want {
			t.Errorf("angles %q, want %s", got, want)
		}
	}
}

// Legs are measured from the outside of a bend: that is half a bar's width past the
// corner of its center line, on either side.
func TestLegsAreMeasuredOverTheOutside(t *testing.T) {
	for _, y := range []geometry.Length{9 * ft, -9 * ft} {
		b := bars.Bar{Path: []geometry.Point{{}, {X: 9 * ft}, {X: 9 * ft, Y: y}}, Legs: []geometry.Length{9 * ft, 9 * ft}}
		p := drawing.Place(detail.Bend(geometry.FeetInches, b, false), drawing.Options{View: drawing.View{Scale: drawing.Ratio(1)}, Area: drawing.Rect{X0: -90, Y0: -90, X1: 90, Y1: 90}, Fonts: &drawingtest.Fonts{}, Manner: &drawing.OnDetail})
		for _, m := range p.Measures {
			if long := m.Q.Sub(m.P).Length(); math.Abs(long-16.4) > 1e-6 {
				t.Errorf("a leg drawn 16 mm long, 0.8 mm thick, is measured over %g mm", long)
			}
		}
		if len(p.Measures) != 2 {
			t.Errorf("%d legs are measured", len(p.Measures))
		}
	}
}

// Stock is drawn with a stroke at each end and cut, and all that is left over hatched.
func TestStockIsCutWhereItSays(t *testing.T) {
	d := detail.Stock(cutlist.Bar{Length: 20 * ft, Pieces: []cutlist.Piece{{Length: 12 * ft}, {Length: 2 * ft}}, Rest: 6 * ft})
	p := drawing.Place(d, drawing.Options{View: drawing.View{Scale: drawing.Ratio(60)}, Area: drawing.Rect{X0: -10, Y0: -10, X1: 200, Y1: 10}, Fonts: &drawingtest.Fonts{}})
	var cuts, hatched []float64
	for _, l := range drawingtest.Look(p).Lines {
		feet := math.Round(l.A.X/304.8*60*100) / 100
		switch {
		case l.Style == drawing.HatchLine:
			hatched = append(hatched, feet)
		case l.A.X == l.B.X:
			cuts = append(cuts, feet)
		}
	}
	if fmt.Sprint(cuts) != "[0 12 14 20]" || len(hatched) < 5 || slices.Min(hatched) < 14 || slices.Max(hatched) > 20 {
		t.Errorf("cut at %v, hatched at %v", cuts, hatched)
	}
}

func ExampleSection() {
	s := detail.Section{Field: 6 * in, Under: []plan.Station{{Inset: 0, Depth: 12 * in}, {Inset: 12 * in, Depth: 12 * in}, {Inset: 18 * in, Depth: 6 * in}}}
	d := s.Drawing(geometry.FeetInches)
	fmt.Println(strings.Join(d.On(drawing.Dimensions), ", "))
	// Output: 1'-0", 1'-0", 6", 6"
}
