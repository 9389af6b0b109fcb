package layout_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// walled draws a rectangle or an L with doors.
func walled(t *rapid.T) plan.Plan {
	length := func(name string, lo, hi int64) geometry.Length {
		return geometry.Length(rapid.Int64Range(lo*16, hi*16).Draw(t, name)) * geometry.Sixteenth
	}
	w, h := length("width", 60, 700), length("height", 60, 700)
	at := []geometry.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	if rapid.Bool().Draw(t, "L") {
		x, y := length("notch x", 20, 50), length("notch y", 20, 50)
		at = []geometry.Point{{}, {X: w}, {X: w, Y: h - y}, {X: w - x, Y: h - y}, {X: w - x, Y: h}, {Y: h}}
	}
	p := ring()
	wall := rapid.SampledFrom([]string{"2x4", "2x6", "2x8"})
	for _, q := range at {
		p.Outline = append(p.Outline, plan.Edge{At: q, Section: "Edge", Wall: wall.Draw(t, "wall")})
	}
	for i := range p.Outline {
		edge, from := p.Outline.Length(i), geometry.Length(0)
		for range rapid.IntRange(0, 3).Draw(t, "doors") {
			d := plan.Door{From: from + length("from", 1, 100), Width: length("wide", 20, 200)}
			if d.From+d.Width > edge {
				break
			}
			p.Outline[i].Doors = append(p.Outline[i].Doors, d)
			from = d.From + d.Width
		}
	}
	return p
}

// Whatever the walls: no bolt in an opening or off its plate, and a piece that
// breaks a rule of IRC R403.1.6 is found and said.
func TestBoltRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := walled(t)
		s := spec(func(s *layout.Spec) {
			s.Bolts.Spacing = rapid.SampledFrom([]geometry.Length{4 * foot, 5 * foot, 6 * foot}).Draw(t, "spacing")
			s.Bolts.Stud = rapid.SampledFrom([]geometry.Length{0, 16 * inch, 24 * inch}).Draw(t, "stud")
			s.Bolts.Stock = rapid.SampledFrom([]geometry.Length{12 * foot, 16 * foot}).Draw(t, "stock")
			s.Bolts.End = rapid.SampledFrom([]geometry.Length{4 * inch, 8 * inch, 12 * inch}).Draw(t, "end")
			s.Bolts.Jamb = rapid.SampledFrom([]geometry.Length{0, inch / 2, 100 * geometry.Nanometer}).Draw(t, "jamb")
			s.Units = rapid.SampledFrom([]geometry.Units{geometry.FeetInches, geometry.Millimeters}).Draw(t, "units")
		})
		l := of(p, s, nil)
		said, told := map[string]bool{}, map[string]bool{}
		for _, f := range l.Findings {
			said[f.Rule.Name], told[f.Rule.Name] = said[f.Rule.Name] || f.Broken(), true
		}
		n := 0
		for _, w := range l.Walls {
			e := p.Outline[w.Edge]
			for _, b := range w.Bolts {
				n++
				if b.Mark != (mark.Mark{Kind: mark.Bolt, N: n}) || b.Along+b.Back != w.Length || !plane.In(p.Outline.Corners(), b.At) {
					t.Fatalf("%s: bolt %+v", w.Name(), b)
				}
				for _, d := range e.Doors {
					if b.Along > d.From && b.Along < d.From+d.Width {
						t.Fatalf("%s: bolt at %v in the door %+v", w.Name(), b.Along, d)
					}
				}
			}
			for _, piece := range w.Pieces {
				if piece.To-piece.From > s.Bolts.Stock {
					t.Fatalf("plate %v longer than stock", piece)
				}
				for _, d := range e.Doors {
					if piece.From < d.From+d.Width && piece.To > d.From {
						t.Fatalf("plate %v in the door %+v", piece, d)
					}
				}
				var in []geometry.Length
				for _, b := range w.Bolts {
					if b.Along >= piece.From && b.Along <= piece.To {
						in = append(in, b.Along)
					}
				}
				switch {
				case len(in) == 1 && w.Length <= 24*inch && 3*in[0] >= w.Length && 3*in[0] <= 2*w.Length, len(in) == 0 && w.Length <= 12*inch:
					// IRC R403.1.6, exceptions 1 and 2: to know, since they hold for some walls alone.
					if !told["Two bolts in each plate piece"] {
						t.Fatalf("plate %v has %d bolts, untold", piece, len(in))
					}
					continue
				case len(in) < 2:
					if !said["Two bolts in each plate piece"] || piece.To-piece.From > 12*inch {
						t.Fatalf("plate %v has %d bolts", piece, len(in))
					}
					continue
				case in[0]-piece.From > 12*inch || piece.To-in[len(in)-1] > 12*inch,
					in[0]-piece.From < 7*inch/2 || piece.To-in[len(in)-1] < 7*inch/2:
					t.Fatalf("plate %v: ends %v", piece, in)
				}
				off := max(s.Bolts.Washer/2, 2*s.Bolts.Diameter) // bolts are moved off saw cuts that end there
				sawn := func(b bolts.Bolt, off geometry.Length) bool {
					return b.Along >= piece.From && b.Along <= piece.To && slices.ContainsFunc(l.SawCuts, func(c sawcuts.Cut) bool {
						_, away := geometry.Nearest(b.At, c.A, c.B)
						return away < off
					})
				}
				if slices.ContainsFunc(w.Bolts, func(b bolts.Bolt) bool { return sawn(b, off) }) && !told["Saw cuts end clear of bolts"] {
					t.Fatalf("plate %v: a bolt in a saw cut, untold", piece)
				}
				if s.Bolts.Stud == 0 && !slices.ContainsFunc(w.Bolts, func(b bolts.Bolt) bool { return sawn(b, off+s.Bolts.Shift+geometry.Inch) }) {
					checkEven(t, in, s.Units)
				}
				for i := 1; i < len(in); i++ {
					if in[i]-in[i-1] > s.Bolts.Spacing {
						t.Fatalf("plate %v: %v apart", piece, in[i]-in[i-1])
					}
				}
			}
		}
	})
}

// checkEven: bolts that nothing moves stand evenly between the first and the last,
// each rounded once.
func checkEven(t *rapid.T, in []geometry.Length, u geometry.Units) {
	grain := geometry.Sixteenth
	if u == geometry.Millimeters {
		grain = geometry.Millimeter
	}
	n := geometry.Length(len(in) - 1)
	for k, a := range in {
		if even := in[0] + (in[n]-in[0])*geometry.Length(k)/n; (a - even).Abs() > grain/2+1 {
			t.Fatalf("bolt %d at %s, even is %s", k+1, a.Exact(u), even.Exact(u))
		}
	}
}

// Running distances carry no accumulated rounding: each is the even position
// rounded once, to the sixteenth or the millimeter.
func TestRunningTape(t *testing.T) {
	p := ring(0, 0, 100, 0, 100, 20, 0, 20)
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		s := spec(func(s *layout.Spec) { s.Bolts.Stud, s.Bolts.Stock, s.Bolts.Spacing, s.Units = 0, 200*foot, 70*inch, u })
		w := of(p, s, nil).Walls[0]
		first, last := w.Bolts[0].Along, w.Bolts[len(w.Bolts)-1].Along
		n := geometry.Length(len(w.Bolts) - 1)
		grain := geometry.Sixteenth
		if u == geometry.Millimeters {
			grain = geometry.Millimeter
		}
		for k, b := range w.Bolts {
			even := first + (last-first)*geometry.Length(k)/n
			if (b.Along - even).Abs() > grain/2+1 {
				t.Errorf("%v: bolt %d at %s, even is %s", u, k+1, b.Along.Exact(u), even.Exact(u))
			}
			if k > 0 && k < int(n) && b.Along%grain != 0 {
				t.Errorf("%v: bolt %d at %s", u, k+1, b.Along.Exact(u))
			}
		}
	}
}

// The point of a plate at a sharp corner reaches too far past its last bolt: that is told.
func TestPointedPlateIsTold(t *testing.T) {
	p := ring(0, 0, 30, 0, 30, 12)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Stud = 0 }))
	n := 0
	for _, f := range l.Findings {
		if strings.Contains(f.Text, "the plate's point reaches") {
			n++
			if !f.Broken() || f.Rule.Source != "IRC R403.1.6" {
				t.Errorf("%+v", f)
			}
		}
	}
	if n != 2 { // at both plates that meet in the corner of 22°
		t.Errorf("%d points are told", n)
	}
}
