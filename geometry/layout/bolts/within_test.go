package bolts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/plan"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

var usual = bolts.Spec{
	Diameter: inch / 2, Length: 10 * inch, Projection: 5 * inch / 2, Embed: 7 * inch,
	Spacing: 6 * foot, End: 6 * inch, EndMax: 12 * inch, EndMin: 4 * inch, Apart: 4 * inch, Stock: 16 * foot, Shift: 3 * inch,
}

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func ExampleWithin() {
	s := shed()
	s.Plan.Walls = []plan.Wall{{Plate: "2x4", From: pt(6*foot, 0), To: pt(6*foot, 12*foot), Doors: []plan.Opening{{From: 4 * foot, Width: 3 * foot}}}}
	met := bars.NewSegments(nil)
	for _, w := range bolts.Within(s, usual, bolts.Lay(s, usual, met, nil), met, nil) {
		for _, p := range w.Pieces {
			fmt.Printf("plate %s to %s\n", p.From.Text(geometry.FeetInches), p.To.Text(geometry.FeetInches))
		}
		for _, b := range w.Bolts {
			fmt.Println("bolt", b.Along.Text(geometry.FeetInches))
		}
	}
	// Output:
	// plate 5 1/2" to 4'-0"
	// plate 7'-0" to 11'-6 1/2"
	// bolt 11 1/2"
	// bolt 3'-6"
	// bolt 7'-6"
	// bolt 11'-0 1/2"
}

// Plates and bolts of walls within a shed of 16 by 12 ft, walled with 2x6 at three sides,
// worked by hand: a plate ends at the inner line of the outer ones, 5 1/2 in off the face, at
// doors, and at the plates of walls drawn before it; its end bolts stand 6 in from its ends,
// and at most 6 ft apart (IRC R403.1.6).
func TestWithin(t *testing.T) {
	for _, c := range []struct {
		name   string
		walls  []plan.Wall
		embeds []plan.Embed
		lines  []bolts.Line
		want   []string // of each wall its pieces, its bolts and how far they are off the line
	}{
		{"from face to face", []plan.Wall{{Plate: "2x4", From: pt(6*foot, 0), To: pt(6*foot, 12*foot)}}, nil, nil,
			[]string{`5 1/2"–11'-6 1/2": 11 1/2" 6'-0" 11'-0 1/2"`}},
		{"the other way", []plan.Wall{{Plate: "2x4", From: pt(6*foot, 12*foot), To: pt(6*foot, 0)}}, nil, nil,
			[]string{`5 1/2"–11'-6 1/2": 11 1/2" 6'-0" 11'-0 1/2"`}},
		{"one meets another", []plan.Wall{
			{Plate: "2x6", From: pt(0, 6*foot), To: pt(16*foot, 6*foot)},
			{Plate: "2x4", From: pt(8*foot, 6*foot), To: pt(8*foot, 12*foot)},
		}, nil, nil, []string{
			`0"–15'-6 1/2": 6" 5'-4 3/16" 10'-2 5/16" 15'-0 1/2"`, // on the joint there is no wall, and it begins at the face: 14'-6 1/2" in three
			`2 3/4"–5'-6 1/2": 8 3/4" 5'-0 1/2"`,
		}},
		{"two that cross", []plan.Wall{
			{Plate: "2x4", From: pt(4*foot, 6*foot), To: pt(12*foot, 6*foot)},
			{Plate: "2x4", From: pt(8*foot, 2*foot), To: pt(8*foot, 10*foot)},
		}, nil, nil, []string{`0"–8'-0": 6" 4'-0" 7'-6"`, `0"–3'-10 1/4", 4'-1 3/4"–8'-0": 6" 3'-4 1/4" 4'-7 3/4" 7'-6"`}},
		{"off a pipe", []plan.Wall{{Plate: "2x4", From: pt(4*foot, 6*foot), To: pt(12*foot, 6*foot)}},
			[]plan.Embed{{Center: pt(8*foot, 6*foot), Width: inch}}, nil, []string{`0"–8'-0": 6" 4'-2 3/4" 7'-6"`}},
		{"off a saw cut", []plan.Wall{{Plate: "2x4", From: pt(4*foot, 6*foot), To: pt(12*foot, 6*foot)}},
			nil, []bolts.Line{{A: pt(8*foot, 0), B: pt(8*foot, 12*foot)}}, []string{`0"–8'-0": 6" 4'-2" 7'-6"`}},
		{"along the joint, either way", []plan.Wall{
			{Plate: "2x6", From: pt(0, 10*foot), To: pt(0, 7*foot)},
			{Plate: "2x6", From: pt(0, 2*foot), To: pt(0, 5*foot)},
		}, nil, nil, []string{`0"–3'-0": 6" 2'-6"`, `0"–3'-0": 6" 2'-6"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := shed()
			s.Plan.Field, s.Plan.Walls, s.Plan.Embeds = 16*inch, c.walls, c.embeds
			met := bars.NewSegments(nil)
			edges := bolts.Lay(s, usual, met, nil)
			found := len(s.Findings)
			var got []string
			for i, w := range bolts.Within(s, usual, edges, met, c.lines) {
				var pieces, marks []string
				for _, p := range w.Pieces {
					pieces = append(pieces, p.From.Text(geometry.FeetInches)+"–"+p.To.Text(geometry.FeetInches))
					for _, q := range p.Outline { // the slab reaches under all of it
						if !s.Contains(q) {
							t.Errorf("wall %d: a plate's corner lies off the slab at %v", i+1, q)
						}
					}
				}
				for _, b := range w.Bolts {
					marks = append(marks, b.Along.Text(geometry.FeetInches))
					line := c.walls[i]
					_, off := geometry.Nearest(b.At, line.From, line.To)
					if want := geometry.Length(0); off != want && !(line.From.X == 0 && line.To.X == 0 && off == line.Board().Width/2) {
						t.Errorf("wall %d: the bolt at %s stands %v off the line", i+1, b.Along.Text(geometry.FeetInches), off)
					}
					if at := geometry.Distance(line.From, b.At); line.From.X != 0 && at != b.Along {
						t.Errorf("wall %d: the bolt at %s is %s from its one end", i+1, b.Along.Text(geometry.FeetInches), at.Text(geometry.FeetInches))
					}
				}
				got = append(got, strings.Join(pieces, ", ")+": "+strings.Join(marks, " "))
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
			if more := s.Findings[found:]; len(more) > 0 {
				t.Errorf("found %v", more)
			}
		})
	}
}

// A bolt on an edge is moved by half its washer of 3 in off a saw cut that ends at it, where it
// may be moved so far, 3 in; else it stands where it stood, and that is told.
func TestBoltsOffSawCuts(t *testing.T) {
	for _, c := range []struct {
		shift geometry.Length
		want  geometry.Length
		told  int
	}{{3 * inch, 5*foot + 9*inch/2, 0}, {inch, 5*foot + 6*inch, 1}} {
		s, spec := shed(), usual
		spec.Shift, spec.Washer = c.shift, 3*inch
		walls := bolts.Lay(s, spec, bars.NewSegments(nil), []bolts.Line{{A: pt(5*foot+6*inch, 0), B: pt(5*foot+6*inch, 12*foot)}})
		told := 0
		for _, f := range s.Findings {
			if f.Rule.Name == "Saw cuts end clear of bolts" {
				told++
			}
		}
		if b := walls[0].Bolts[1]; (b.Along-c.want).Abs() > inch/8 && (b.Along-c.want-3*inch).Abs() > inch/8 || told != c.told {
			t.Errorf("moved by up to %v: bolt at %s, told %d times", c.shift.Text(geometry.FeetInches), b.Along.Text(geometry.FeetInches), told)
		}
	}
}
