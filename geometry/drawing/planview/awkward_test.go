package planview_test

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

// point gives a place by its feet.
func point(x, y float64) geometry.Point {
	return geometry.Point{X: geometry.Length(math.Round(x * float64(ft))), Y: geometry.Length(math.Round(y * float64(ft)))}
}

// awkward is a plan that is hard to dimension.
type awkward struct {
	name string
	plan plan.Plan
}

// corpus gives plans that are hard to dimension: narrow, toothed, slanted,
// crowded, tiny and huge.
func corpus() []awkward {
	var out []awkward
	add := func(name string, edit func(*plan.Plan), corners ...[2]float64) {
		p := plan.Plan{Field: 6 * in, Sections: []plan.Section{{Name: "Edge", Depth: 12 * in, Bottom: 8 * in, Taper: 6 * in}}}
		for _, c := range corners {
			p.Outline = append(p.Outline, plan.Edge{At: point(c[0], c[1]), Section: "Edge", Wall: "2x6"})
		}
		p = p.Oriented()
		if edit != nil {
			edit(&p)
		}
		out = append(out, awkward{name, p})
	}
	turned := func(deg float64, c ...[2]float64) [][2]float64 {
		s, k := math.Sincos(deg * math.Pi / 180)
		for i, p := range c {
			c[i] = [2]float64{p[0]*k - p[1]*s, p[0]*s + p[1]*k}
		}
		return c
	}
	ring := func(n int, r func(i int) float64) (c [][2]float64) {
		for i := range n {
			s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			c = append(c, [2]float64{r(i) * k, r(i) * s})
		}
		return c
	}
	doors := func(edge int, from ...float64) func(*plan.Plan) {
		return func(p *plan.Plan) {
			for i := 0; i+1 < len(from); i += 2 {
				p.Outline[edge].Doors = append(p.Outline[edge].Doors, plan.Door{
					Kind: plan.DoorKind(i / 2 % 2), From: geometry.Length(from[i] * float64(ft)), Width: geometry.Length(from[i+1] * float64(ft)),
				})
			}
		}
	}
	rect := func(w, h float64) [][2]float64 { return [][2]float64{{0, 0}, {w, 0}, {w, h}, {0, h}} }
	add("rectangle", doors(0, 3, 9, 15, 3), rect(24, 20)...)
	add("a 16 ft door and a walk door on 24 ft", doors(0, 1, 16, 19.5, 3), rect(24, 24)...)
	add("three doors on 30 ft", doors(0, 0.75, 9, 10.5, 9, 20.25, 9), rect(30, 24)...)
	add("200 ft shop", doors(1, 3, 12, 22, 12, 41, 3, 60, 12), rect(200, 80)...)
	add("200 ft shop with doors along it", doors(0, 3, 12, 22, 12, 41, 3, 60, 12, 100, 3, 150, 16), rect(200, 80)...)
	add("shed", doors(0, 2.5, 3), rect(8, 10)...)
	add("tiny", nil, rect(3, 3)...)
	add("narrow", doors(0, 20, 10), rect(60, 4)...)
	add("tall", doors(1, 4, 3, 10, 3), rect(6, 58)...)
	add("ell", nil, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 12}, [2]float64{14, 12}, [2]float64{14, 26}, [2]float64{0, 26})
	add("cross", nil, [2]float64{8, 0}, [2]float64{14, 0}, [2]float64{14, 8}, [2]float64{22, 8}, [2]float64{22, 14}, [2]float64{14, 14}, [2]float64{14, 22}, [2]float64{8, 22}, [2]float64{8, 14}, [2]float64{0, 14}, [2]float64{0, 8}, [2]float64{8, 8})
	add("slot", nil, [2]float64{0, 0}, [2]float64{24, 0}, [2]float64{24, 20}, [2]float64{13, 20}, [2]float64{13, 4}, [2]float64{11, 4}, [2]float64{11, 20}, [2]float64{0, 20})
	var comb [][2]float64
	for i := range 12 {
		x := float64(i) * 5
		comb = append(comb, [2]float64{x, 0}, [2]float64{x + 3, 0}, [2]float64{x + 3, 8}, [2]float64{x + 5, 8})
	}
	add("comb", nil, append(comb[:len(comb)-1], [2]float64{58, 14}, [2]float64{0, 14})...)
	steps := [][2]float64{{0, 0}, {27, 0}}
	for i := range 9 {
		steps = append(steps, [2]float64{27 - float64(i)*3, float64(i+1) * 2}, [2]float64{27 - float64(i+1)*3, float64(i+1) * 2})
	}
	add("stair", nil, steps...)
	add("triangle", nil, [2]float64{0, 0}, [2]float64{24, 0}, [2]float64{9, 17})
	add("sliver", nil, [2]float64{0, 0}, [2]float64{40, 0}, [2]float64{38, 5})
	add("wedge", doors(1, 4, 8), [2]float64{0, 0}, [2]float64{30, 3}, [2]float64{26, 21}, [2]float64{2, 16})
	add("many sides", nil, ring(32, func(int) float64 { return 15 })...)
	add("star", nil, ring(10, func(i int) float64 { return []float64{16, 7}[i%2] })...)
	add("sharp star", nil, ring(32, func(i int) float64 { return []float64{18, 9}[i%2] })...)
	add("turned ell", doors(0, 2, 16, 20, 3), turned(17, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 12}, [2]float64{14, 12}, [2]float64{14, 26}, [2]float64{0, 26})...)
	add("jogs", nil, [2]float64{0, 0}, [2]float64{10, 0}, [2]float64{10, 0.25}, [2]float64{20, 0.25}, [2]float64{20, 0.5}, [2]float64{30, 0.5}, [2]float64{30, 20}, [2]float64{15.5, 20}, [2]float64{15.5, 19.5}, [2]float64{14.5, 19.5}, [2]float64{14.5, 20}, [2]float64{0, 20})
	add("spiral", nil, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 26}, [2]float64{6, 26}, [2]float64{6, 8}, [2]float64{22, 8}, [2]float64{22, 18}, [2]float64{14, 18}, [2]float64{14, 14}, [2]float64{18, 14}, [2]float64{18, 12}, [2]float64{10, 12}, [2]float64{10, 22}, [2]float64{26, 22}, [2]float64{26, 4}, [2]float64{0, 4})
	add("door row", doors(0, 0.5, 3, 4, 3, 7.25, 3, 10.5, 3, 14, 8, 22.25, 3), rect(26, 18)...)
	add("close doors", doors(2, 1, 3, 4.25, 3, 7.5, 3), rect(12, 10)...)
	add("holes and pads", func(p *plan.Plan) {
		for i := range 3 {
			x, w := ft*geometry.Length(4+8*i), ft*geometry.Length(1+i)
			p.Holes = append(p.Holes, plan.Hole{Loop: plan.Loop{
				{At: geometry.Point{X: x, Y: 6 * ft}}, {At: geometry.Point{X: x, Y: 6*ft + w}}, {At: geometry.Point{X: x + w, Y: 6*ft + w}}, {At: geometry.Point{X: x + w, Y: 6 * ft}},
			}})
			p.Pads = append(p.Pads, plan.Pad{Center: point(float64(5+8*i), 14), Width: 2 * ft, Length: 2 * ft, Depth: ft, Turn: float64(15 * i)})
		}
		for i, k := range []plan.EmbedKind{plan.Sleeve, plan.StubUp, plan.FloorDrain, plan.PostBase, plan.WeldPlate} {
			e := plan.Embed{Kind: k, Center: point(float64(3+5*i), 10), Width: geometry.Length(2+2*i) * in}
			if k == plan.PostBase || k == plan.WeldPlate {
				e.Length, e.Turn, e.Deep = 8*in, 30, 4*in
			}
			p.Embeds = append(p.Embeds, e)
		}
		p.Lines = []plan.Line{
			{Kind: plan.DrainLine, Path: []geometry.Point{point(4, 4), point(12, 4), point(12, -6)}, Diameter: 3 * in, Cover: 12 * in, EndCover: 16 * in},
			{Kind: plan.TrenchDrain, Path: []geometry.Point{point(3, 14), point(18, 14)}, Diameter: 6 * in, Height: 8 * in},
			{Kind: plan.Conduit, Name: "Power", Path: []geometry.Point{point(20, 3), point(20, 12)}, Diameter: in, Cover: 2 * in},
			{Kind: plan.Tubing, Path: []geometry.Point{point(22, 2), point(28, 16)}, Diameter: in / 2, Cover: 2 * in, Spacing: 12 * in, Longest: 60 * ft, Lead: 10 * ft},
		}
		p.Outline[2].Joint = true
		p.Outline[2].Wall = ""
		p.Top.Falls = []plan.Fall{{From: point(15, 18), To: point(15, 0), Drop: 2 * in}}
	}, rect(30, 18)...)
	return out
}
