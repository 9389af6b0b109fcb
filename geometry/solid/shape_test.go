package solid

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func mustSolid(t *testing.T, p plan.Plan) *Solid {
	t.Helper()
	s, err := Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plain is a 24 by 20 ft slab, 6 in thick: 240 ft³.
func plain() plan.Plan {
	p := haunched(12*in, 12*in, 12*in, rectangle(24*ft, 20*ft)...)
	for i := range p.Outline {
		p.Outline[i].Section = ""
	}
	return p
}

// Worked by hand, in cubic feet.
func TestThickenings(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(*plan.Plan)
		want float64 // beyond the plain slab
	}{
		{"pad, straight sides: 2·3·0.5", func(p *plan.Plan) {
			p.Pads = []plan.Pad{{Center: pt(12*ft, 10*ft), Width: 2 * ft, Length: 3 * ft, Depth: ft}}
		}, 3},
		// Prismatoid formula, h/6 (A0 + 4 Am + A1): 0.5/6 (2·3 + 4·3·4 + 4·5).
		{"pad, frustum, turned", func(p *plan.Plan) {
			p.Pads = []plan.Pad{{Center: pt(12*ft, 10*ft), Width: 2 * ft, Length: 3 * ft, Depth: ft, Taper: ft, Turn: 33}}
		}, 0.5 / 6 * (6 + 48 + 20)},
		{"pad, half off the slab", func(p *plan.Plan) {
			p.Pads = []plan.Pad{{Center: pt(12*ft, 0), Width: 2 * ft, Length: 3 * ft, Depth: ft}}
		}, 1.5},
		// Section 0.5 (1 + 0.5) over 10 ft.
		{"strip", func(p *plan.Plan) {
			p.Strips = []plan.Strip{{Path: []geometry.Point{pt(5*ft, 10*ft), pt(15*ft, 10*ft)}, Bottom: ft, Depth: ft, Taper: 6 * in}}
		}, 7.5},
		// A bend of 90 degrees, 1 ft wide: each leg 6 ft to the middle line; the
		// miter adds the outer quarter foot, and the inner overlaps.
		{"strip, bent", func(p *plan.Plan) {
			p.Strips = []plan.Strip{{Path: []geometry.Point{pt(5*ft, 5*ft), pt(11*ft, 5*ft), pt(11*ft, 11*ft)}, Bottom: ft, Depth: ft}}
		}, 0.5 * 12},
		{"one haunch between square ends", func(p *plan.Plan) { p.Outline[0].Section = "edge" }, 24 * 0.75},
		// 9 ft by 6 in by 1 in.
		{"door lip", func(p *plan.Plan) {
			p.Outline[0].Doors = []plan.Door{{From: 5 * ft, Width: 9 * ft, Lip: plan.Lip{Inset: 6 * in, Drop: in}}}
		}, -9 * 0.5 / 12},
		{"door section", func(p *plan.Plan) {
			p.Outline[0].Doors = []plan.Door{{From: 5 * ft, Width: 6 * ft, Section: "edge"}}
		}, 6 * 0.75},
		// Each ramp is 3 ft long. Where the bottom is e beyond the field its section
		// is e b + r (e - e²/2h): with e from 0.5 to 0, 0.75 + 0.75 - 0.25 = 1.25.
		{"door section with run-outs", func(p *plan.Plan) {
			p.Outline[0].Doors = []plan.Door{{From: 5 * ft, Width: 6 * ft, Section: "edge", RunOut: 3 * ft}}
		}, 6*0.75 + 2*1.25},
		// Half of the bottom edge is thickened and runs out into the other half.
		{"run-out where an edge goes straight on", func(p *plan.Plan) {
			half := plan.Edge{At: pt(12*ft, 0), Section: "edge", RunOut: 3 * ft}
			p.Outline = append(plan.Loop{p.Outline[0], half}, p.Outline[1:]...)
		}, 12*0.75 + 1.25},
		{"run-out the other way", func(p *plan.Plan) {
			half := plan.Edge{At: pt(12*ft, 0), RunOut: 3 * ft}
			p.Outline = append(plan.Loop{p.Outline[0], half}, p.Outline[1:]...)
			p.Outline[0].Section = "edge"
		}, 12*0.75 + 1.25},
		{"no run-out round a corner", func(p *plan.Plan) { p.Outline[0].Section, p.Outline[1].RunOut = "edge", 3*ft }, 24 * 0.75},
		// The edge is deep and the door is not: the edge runs out into the door.
		{"shallow door", func(p *plan.Plan) {
			p.Sections = append(p.Sections, plan.Section{Name: "thin", Depth: 6 * in, Bottom: ft})
			p.Outline[0].Section = "edge"
			p.Outline[0].Doors = []plan.Door{{From: 5 * ft, Width: 8 * ft, Section: "thin", RunOut: 3 * ft}}
		}, 16*0.75 + 2*1.25},
		{"hole: 2 by 2 ft out of the field", func(p *plan.Plan) {
			p.Holes = []plan.Hole{{Loop: plan.Loop{{At: pt(9*ft, 9*ft)}, {At: pt(9*ft, 11*ft)}, {At: pt(11*ft, 11*ft)}, {At: pt(11*ft, 9*ft)}}}}
		}, -2},
		// Round the hole a haunch, mitered at its four corners, which are inside
		// corners of the slab: 4·2·0.75 and 4·2·0.58333.
		{"haunched hole", func(p *plan.Plan) {
			p.Holes = []plan.Hole{{Loop: plan.Loop{{At: pt(9*ft, 9*ft), Section: "edge"}, {At: pt(9*ft, 11*ft), Section: "edge"}, {At: pt(11*ft, 11*ft), Section: "edge"}, {At: pt(11*ft, 9*ft), Section: "edge"}}}}
		}, -2 + 6 + 8*(0.5*(0.5+0.5+1.0/6))},
		// Flat-dug under a top that falls 2 in over the 20 ft: 480 · 1/12.
		{"wedge, one fall", func(p *plan.Plan) {
			p.Base = plan.Level
			p.Top.Falls = []plan.Fall{{From: pt(0, 20*ft), To: pt(0, 0), Drop: 2 * in}}
		}, 40},
		{"graded: no wedge", func(p *plan.Plan) {
			p.Top.Falls = []plan.Fall{{From: pt(0, 20*ft), To: pt(0, 0), Drop: 2 * in}}
		}, 0},
		// Two doors at the ends and a ridge between: mean height 1 in.
		{"wedge, ridge", func(p *plan.Plan) {
			p.Base, p.Top.Meet = plan.Level, plan.Ridge
			p.Top.Falls = []plan.Fall{{From: pt(12*ft, 0), To: pt(0, 0), Drop: 2 * in}, {From: pt(12*ft, 0), To: pt(24*ft, 0), Drop: 2 * in}}
		}, 40},
		// A drain in the middle of 24 by 20, 1/6 ft at 10 ft in every direction:
		// h = max(|x|, |y|)/60. Over a 20 by 20 square its mean is 2/3 of 1/6; the
		// two 2 by 20 ends have x from 10 to 12: 80 · 11/60.
		{"wedge, drain", func(p *plan.Plan) {
			p.Base = plan.Level
			c := pt(12*ft, 10*ft)
			for _, d := range []geometry.Point{pt(10*ft, 0), pt(-10*ft, 0), pt(0, 10*ft), pt(0, -10*ft)} {
				p.Top.Falls = append(p.Top.Falls, plan.Fall{From: c.Add(d), To: c, Drop: 2 * in})
			}
		}, 400.0/9 + 80*11.0/60},
		// Dressed width of a 2x12 is 11-1/4 in (NIST PS 20): h = 5.25/12.
		{"trench to the board", func(p *plan.Plan) {
			p.Trench = plan.ToBoard
			p.Outline[0].Section = "edge"
		}, 24 * 1.5 * 5.25 / 12},
		{"trench at a joint is dug to depth", func(p *plan.Plan) {
			p.Trench = plan.ToBoard
			p.Outline[0].Section, p.Outline[0].Joint = "edge", true
		}, 24 * 0.75},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plain()
			c.edit(&p)
			near(t, "ft³ beyond the slab", mustSolid(t, p).Volume/cubicFoot-240, c.want)
		})
	}
}

// Common practice, no source: a 24 by 20 ft slab with a 6 in field and a 12 in
// edge with taper takes about 11 yd³ ordered, on one truck.
func TestTradeCheckValue(t *testing.T) {
	const cubicYard = 27 * cubicFoot
	s := mustSolid(t, haunched(12*in, 8*in, 8*in, rectangle(24*ft, 20*ft)...))
	if yards := s.Volume * 1.07 / cubicYard; yards < 10.5 || yards > 11.5 {
		t.Errorf("%.2f yd³ with 7 %% waste, want about 11", yards)
	}
}

func TestSurfaces(t *testing.T) {
	const sf = 0.3048 * 0.3048
	approx := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-5*want {
			t.Errorf("%s: got %.9g, want %.9g", what, got, want)
		}
	}
	p := haunched(12*in, 12*in, 0, rectangle(24*ft, 20*ft)...)
	p.Outline[2].Joint = true
	s := mustSolid(t, p)
	formed, joint := s.Sides()
	approx("underside", s.Underside()/sf, 480)
	approx("steps", s.Steps()/sf, 80*0.5)
	approx("formed", formed/sf, 64)
	approx("joint", joint/sf, 24)

	// Tapers of 1 in 2 over 22·18 - 20·16 = 76 ft² in plan.
	s = mustSolid(t, haunched(12*in, 12*in, 12*in, rectangle(24*ft, 20*ft)...))
	approx("tapered underside", s.Underside()/sf, 480+76*(math.Sqrt(1.25)-1))
	if steps := s.Steps(); steps > 1e-6 {
		t.Errorf("steps without a step: %g m²", steps)
	}
}

func TestExcavation(t *testing.T) {
	// Vertical haunches on 84 ft², field on 396 ft². Top level with the ground:
	// concrete and 4 in of base are dug.
	s := mustSolid(t, haunched(12*in, 12*in, 0, rectangle(24*ft, 20*ft)...))
	dig, fill := s.Excavation(4*in, 4*in, 0)
	near(t, "dig", dig/cubicFoot, 84*(1+1.0/3)+396*(0.5+1.0/3))
	near(t, "fill", fill/cubicFoot, 0)
	// Top 1 ft above the ground: the haunches are dug 4 in, the field wants 2 in.
	dig, fill = s.Excavation(4*in, 4*in, ft)
	near(t, "dig", dig/cubicFoot, 84.0/3)
	near(t, "fill", fill/cubicFoot, 396.0/6)
	// The base under the field only.
	near(t, "field", s.FieldArea()/cubicFoot*0.3048, 396)
	dig, fill = s.Excavation(4*in, 0, 0)
	near(t, "dig, base under the field only", dig/cubicFoot, 84+396*(0.5+1.0/3))
	near(t, "fill", fill/cubicFoot, 0)

	// A graded base under a fall of 2 in over 20 ft rises with the top: mean 1 in.
	p := plain()
	p.Top.Falls = []plan.Fall{{From: pt(0, 20*ft), To: pt(0, 0), Drop: 2 * in}}
	dig, fill = mustSolid(t, p).Excavation(0, 0, 0)
	near(t, "dig under a fall", dig/cubicFoot, 240-40)
	near(t, "fill under a fall", fill/cubicFoot, 0)
}

func TestLinesOfTheUnderside(t *testing.T) {
	s := mustSolid(t, haunched(12*in, 12*in, 12*in, rectangle(24*ft, 20*ft)...))
	total := func(lines []Line) float64 {
		sum := 0.0
		for _, l := range lines {
			sum += geometry.Distance(l.A, l.B).Feet()
		}
		return sum
	}
	// At 9 in deep the taper is 18 in from each face: a ring of 21 by 17 ft.
	var lines []Line
	for _, c := range s.Contours(9 * in) {
		lines = append(lines, c.Line)
	}
	if got := total(lines); math.Abs(got-76) > 1e-6 {
		t.Errorf("contour is %.6f ft long, want 76", got)
	}
	// Ridges: the flat's inner ring, the taper's inner ring and four hips.
	if got, want := total(s.Ridges()), 80+72+4*math.Sqrt2; math.Abs(got-want) > 1e-4 {
		t.Errorf("ridges are %.6f ft long, want %.6f", got, want)
	}
}

// A corner is as deep as its edges, though the faces' corners are rounded.
func TestDepthAtCorners(t *testing.T) {
	for w := 301; w < 340; w++ {
		for _, h := range []int{217, 270, 333} {
			p := haunched(18*in, 10*in, 0, rectangle(geometry.Length(w)*in, geometry.Length(h)*in)...)
			p.Outline[0].Doors = []plan.Door{{From: 12 * in, Width: 42 * in}, {From: 70 * in, Width: 36 * in}}
			p.Outline[1].Doors = []plan.Door{{From: 48 * in, Width: 77 * in / 2}}
			s := mustSolid(t, p)
			for i, e := range p.Outline {
				if d, ok := s.DepthAt(e.At); !ok || d != 18*in {
					t.Errorf("%d by %d in: corner %d is %s deep", w, h, i+1, d.Text(geometry.FeetInches))
				}
			}
		}
	}
}

func TestDepthAt(t *testing.T) {
	p := haunched(12*in, 12*in, 12*in, lShape()...)
	p.Outline[0].Doors = []plan.Door{{From: 8 * ft, Width: 4 * ft, Section: "edge"}}
	s := mustSolid(t, p)
	for _, c := range []struct {
		x, y, want geometry.Length
		on         bool
	}{
		{5 * ft, 6 * in, 12 * in, true},           // flat of the bottom edge
		{5 * ft, 18 * in, 9 * in, true},           // half up its taper
		{5 * ft, 5 * ft, 6 * in, true},            // field
		{9*ft + 6*in, 9*ft + 6*in, 12 * in, true}, // inside corner: both haunches, mitered
		{15 * ft, 15 * ft, 0, false},              // the piece cut out of the L
		{-ft, ft, 0, false},
	} {
		if got, on := s.DepthAt(pt(c.x, c.y)); got != c.want || on != c.on {
			t.Errorf("at %v, %v: got %v (%v), want %v (%v)", c.x.Text(0), c.y.Text(0), got.Text(0), on, c.want.Text(0), c.on)
		}
	}
	cut := s.Cut(pt(-5*ft, 5*ft), pt(25*ft, 5*ft))
	if len(cut) != 5 || cut[0].From != 5*ft || cut[0].Start != 12*in || cut[2].Start != 6*in || cut[4].To != 25*ft {
		t.Errorf("cut across the L: %v", cut)
	}
}

func TestFaultsAreRefused(t *testing.T) {
	p := plain()
	p.Outline[2].At = pt(-5*ft, 10*ft) // crosses
	if _, err := Of(p); err == nil {
		t.Error("a crossing outline was accepted")
	}
}
