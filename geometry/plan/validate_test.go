package plan

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func sound() Plan {
	return Plan{
		Field:    6 * in,
		Sections: []Section{{Name: "perimeter", Depth: ft, Bottom: ft, Taper: ft}},
		Outline: Loop{
			{At: pt(0, 0), Section: "perimeter", Doors: []Door{{From: 4 * ft, Width: 9 * ft}}},
			{At: pt(24*ft, 0), Section: "perimeter"},
			{At: pt(24*ft, 20*ft), Section: "perimeter"},
			{At: pt(0, 20*ft), Section: "perimeter"},
		},
	}
}

func TestValidate(t *testing.T) {
	if faults := sound().Validate(0); len(faults) > 0 {
		t.Fatalf("a sound plan has faults: %v", faults)
	}
	for _, c := range []struct {
		name string
		edit func(*Plan)
		path string
		text string // a part of the message
		at   geometry.Point
	}{
		{"no outline", func(p *Plan) { p.Outline = nil }, "outline", "at least three edges", pt(0, 0)},
		{"bow tie", func(p *Plan) { p.Outline[1].At, p.Outline[2].At = p.Outline[2].At, p.Outline[1].At }, "outline[2]", `meets outline[0] at 12'-0", 10'-0"`, pt(12*ft, 10*ft)},
		{"no length", func(p *Plan) { p.Outline[2].At = p.Outline[1].At }, "outline[1].at", "an edge of no length", pt(24*ft, 0)},
		{"clockwise", func(p *Plan) { p.Outline = p.Outline.Reversed() }, "outline", "counter-clockwise", pt(0, 0)},
		{"too far", func(p *Plan) { p.Outline[1].At.X = 11_000 * geometry.Meter }, "outline[1].at", "of the origin", pt(0, 0)},
		{"shallow section", func(p *Plan) { p.Sections[0].Depth = 5 * in }, "sections[0].depth", `found 5"; must be at least the field's thickness, 6"`, pt(0, 0)},
		{"profile runs back", func(p *Plan) {
			p.Sections[0].Profile = []Station{{0, ft}, {ft, ft}, {6 * in, 6 * in}}
		}, "sections[0].profile[2].inset", "less than the station before", pt(0, 0)},
		{"profile off the face", func(p *Plan) { p.Sections[0].Profile = []Station{{in, ft}, {ft, ft}} }, "sections[0].profile[0].inset", "on the face", pt(0, 0)},
		{"unknown section", func(p *Plan) { p.Outline[3].Section = "deep" }, "outline[3].section", `found “deep”, which is no section; the sections are perimeter`, pt(0, 20*ft)},
		{"door too long", func(p *Plan) { p.Outline[0].Doors[0].Width = 25 * ft }, "outline[0].doors[0].width", `25'-0" on an edge of 24'-0"`, pt(4*ft, 0)},
		{"door over the corner", func(p *Plan) { p.Outline[0].Doors[0].From = 16 * ft }, "outline[0].doors[0].from", "over the corner", pt(16*ft, 0)},
		{"doors overlap", func(p *Plan) { p.Outline[0].Doors = append(p.Outline[0].Doors, Door{From: 12 * ft, Width: 3 * ft}) }, "outline[0].doors[1].from", "overlaps doors[0]", pt(12*ft, 0)},
		{"lip through the slab", func(p *Plan) { p.Outline[0].Doors[0].Lip = Lip{6 * in, 6 * in} }, "outline[0].doors[0].lip.drop", "less than the field", pt(4*ft, 0)},
		{"hole outside", func(p *Plan) {
			p.Holes = []Hole{{Loop: Loop{{At: pt(30*ft, 0)}, {At: pt(30*ft, ft)}, {At: pt(31*ft, 0)}}}}
		}, "holes[0].edges", "outside the outline", pt(30*ft, 0)},
		{"hole over the edge", func(p *Plan) {
			p.Holes = []Hole{{Loop: Loop{{At: pt(5*ft, -ft)}, {At: pt(5*ft, ft)}, {At: pt(6*ft, -ft)}}}}
		}, "holes[0].edges[0]", "meets outline[0]", pt(5*ft, 0)},
		{"hole the wrong way", func(p *Plan) {
			p.Holes = []Hole{{Loop: Loop{{At: pt(5*ft, 5*ft)}, {At: pt(6*ft, 5*ft)}, {At: pt(5*ft, 6*ft)}}}}
		}, "holes[0].edges", "list them clockwise", pt(5*ft, 5*ft)},
		{"pad off the slab", func(p *Plan) { p.Pads = []Pad{{Center: pt(30*ft, 0), Width: ft, Length: ft, Depth: ft}} }, "pads[0].center", "on the slab", pt(0, 0)},
		{"shallow pad", func(p *Plan) { p.Pads = []Pad{{Center: pt(5*ft, 5*ft), Width: ft, Length: ft, Depth: in}} }, "pads[0].depth", "at least the field", pt(5*ft, 5*ft)},
		{"strip of a point", func(p *Plan) { p.Strips = []Strip{{Path: []geometry.Point{pt(ft, ft)}, Bottom: ft, Depth: ft}} }, "strips[0].path", "at least two points", pt(ft, ft)},
		{"strip off the slab", func(p *Plan) {
			p.Strips = []Strip{{Path: []geometry.Point{pt(ft, ft), pt(-ft, ft)}, Bottom: ft, Depth: ft}}
		}, "strips[0].path[1]", "on the slab", pt(0, 0)},
		{"fall to itself", func(p *Plan) { p.Top.Falls = []Fall{{pt(ft, ft), pt(ft, ft), in}} }, "top.falls[0].to", "two different points", pt(ft, ft)},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := sound()
			c.edit(&p)
			faults := p.Validate(geometry.FeetInches)
			if len(faults) == 0 {
				t.Fatal("no fault")
			}
			for _, f := range faults {
				if f.Path == c.path && strings.Contains(f.Error(), c.text) {
					if f.At != c.at {
						t.Errorf("placed at %v, want %v", f.At, c.at)
					}
					return
				}
			}
			t.Errorf("no fault of %s with %q among\n%v", c.path, c.text, faults)
		})
	}
}

func TestReversedKeepsDoorsInPlace(t *testing.T) {
	p := sound()
	r := p.Outline.Reversed()
	// The door from 4 to 13 ft of the bottom edge is 11 ft from the other corner.
	i := len(r) - 1
	if a, _ := r.Ends(i); a != pt(24*ft, 0) || r[i].Doors[0].From != 11*ft {
		t.Errorf("bottom edge starts at %v, door at %v", a, r[i].Doors[0].From.Text(0))
	}
	if p.Outline[0].Doors[0].From != 4*ft {
		t.Error("Reversed changed its argument")
	}
	p.Outline = r
	back := p.Oriented()
	if faults := back.Validate(0); len(faults) > 0 || back.Outline.Corners().Area() <= 0 {
		t.Errorf("oriented again: %v", faults)
	}
}

func TestStraightOn(t *testing.T) {
	l := sound().Outline
	l = append(Loop{l[0], {At: pt(12*ft, 1)}}, l[1:]...) // a nanometer off the line
	for i, want := range []bool{false, true, false, false, false} {
		if got := l.StraightOn(i); got != want {
			t.Errorf("edge %d: %v, want %v", i, got, want)
		}
	}
}

func TestSpans(t *testing.T) {
	p := sound()
	p.Outline[0].Doors = []Door{{From: 15 * ft, Width: 3 * ft, Section: "x"}, {From: 0, Width: 3 * ft}}
	want := []Span{{0, 3 * ft, "perimeter", 1}, {3 * ft, 15 * ft, "perimeter", -1}, {15 * ft, 18 * ft, "x", 0}, {18 * ft, 24 * ft, "perimeter", -1}}
	got := p.Outline.Spans(0)
	if len(got) != len(want) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("span %d: got %v, want %v", i, got[i], want[i])
		}
	}
}
