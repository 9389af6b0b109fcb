package sheet

import (
	"fmt"
	"math"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// point gives a place by its feet.
func point(x, y float64) geometry.Point {
	return geometry.Point{X: geometry.Length(math.Round(x * float64(ft))), Y: geometry.Length(math.Round(y * float64(ft)))}
}

// awkward is a plan that is hard to dimension.
type awkward struct {
	name string
	job  job.Job
}

// corpus gives plans that are hard to dimension: narrow, toothed, slanted,
// crowded, tiny and huge.
func corpus() []awkward {
	var out []awkward
	add := func(name string, edit func(*job.Job), corners ...[2]float64) {
		j := job.New()
		j.Name, j.Customer, j.Site = name, "Sample customer", "Sample Lane"
		j.Slabs[0].Sections = []plan.Section{{Name: "Edge", Depth: 12 * in, Bottom: 8 * in, Taper: 6 * in}}
		for _, c := range corners {
			j.Slabs[0].Outline = append(j.Slabs[0].Outline, plan.Edge{
				At:      point(c[0], c[1]),
				Section: "Edge", Wall: "2x6",
			})
		}
		j.Slabs[0] = j.Slabs[0].Oriented()
		if edit != nil {
			edit(&j)
		}
		out = append(out, awkward{name, j})
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
	doors := func(edge int, from ...float64) func(*job.Job) {
		return func(j *job.Job) {
			for i := 0; i+1 < len(from); i += 2 {
				j.Slabs[0].Outline[edge].Doors = append(j.Slabs[0].Outline[edge].Doors, plan.Door{
					Kind: plan.Walk, From: geometry.Length(from[i] * float64(ft)), Width: geometry.Length(from[i+1] * float64(ft)),
				})
			}
		}
	}
	rect := func(w, h float64) [][2]float64 { return [][2]float64{{0, 0}, {w, 0}, {w, h}, {0, h}} }

	add("rectangle", doors(0, 3, 9, 15, 3), rect(24, 20)...)
	add("tiny", nil, rect(3, 3)...)
	add("narrow", doors(0, 20, 10), rect(60, 4)...)
	add("tall", doors(1, 4, 3, 10, 3), rect(6, 58)...)
	add("huge", doors(0, 20, 16, 60, 16, 100, 16), rect(180, 110)...)
	add("ell", nil, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 12}, [2]float64{14, 12}, [2]float64{14, 26}, [2]float64{0, 26})
	add("tee", nil, [2]float64{10, 0}, [2]float64{18, 0}, [2]float64{18, 14}, [2]float64{28, 14}, [2]float64{28, 24}, [2]float64{0, 24}, [2]float64{0, 14}, [2]float64{10, 14})
	add("cross", nil, [2]float64{8, 0}, [2]float64{14, 0}, [2]float64{14, 8}, [2]float64{22, 8}, [2]float64{22, 14}, [2]float64{14, 14}, [2]float64{14, 22}, [2]float64{8, 22}, [2]float64{8, 14}, [2]float64{0, 14}, [2]float64{0, 8}, [2]float64{8, 8})
	add("channel", nil, [2]float64{0, 0}, [2]float64{24, 0}, [2]float64{24, 20}, [2]float64{16, 20}, [2]float64{16, 6}, [2]float64{8, 6}, [2]float64{8, 20}, [2]float64{0, 20})
	add("slot", nil, [2]float64{0, 0}, [2]float64{24, 0}, [2]float64{24, 20}, [2]float64{13, 20}, [2]float64{13, 4}, [2]float64{11, 4}, [2]float64{11, 20}, [2]float64{0, 20})
	add("aitch", nil, [2]float64{0, 0}, [2]float64{8, 0}, [2]float64{8, 9}, [2]float64{16, 9}, [2]float64{16, 0}, [2]float64{24, 0}, [2]float64{24, 24}, [2]float64{16, 24}, [2]float64{16, 15}, [2]float64{8, 15}, [2]float64{8, 24}, [2]float64{0, 24})
	var comb [][2]float64
	for i := range 8 {
		x := float64(i) * 5
		comb = append(comb, [2]float64{x, 0}, [2]float64{x + 3, 0}, [2]float64{x + 3, 8}, [2]float64{x + 5, 8})
	}
	comb = append(comb[:len(comb)-1], [2]float64{38, 14}, [2]float64{0, 14})
	add("comb", nil, comb...)
	steps := [][2]float64{{0, 0}, {27, 0}}
	for i := range 9 {
		steps = append(steps, [2]float64{27 - float64(i)*3, float64(i+1) * 2}, [2]float64{27 - float64(i+1)*3, float64(i+1) * 2})
	}
	add("stair", nil, steps...)
	add("triangle", nil, [2]float64{0, 0}, [2]float64{24, 0}, [2]float64{9, 17})
	add("sliver", nil, [2]float64{0, 0}, [2]float64{40, 0}, [2]float64{38, 5})
	add("wedge", doors(1, 4, 8), [2]float64{0, 0}, [2]float64{30, 3}, [2]float64{26, 21}, [2]float64{2, 16})
	add("hexagon", nil, ring(6, func(int) float64 { return 13 })...)
	add("octagon", nil, ring(8, func(int) float64 { return 11 })...)
	add("many sides", nil, ring(32, func(int) float64 { return 15 })...)
	add("star", nil, ring(10, func(i int) float64 { return []float64{16, 7}[i%2] })...)
	add("sharp star", nil, ring(16, func(i int) float64 { return []float64{18, 9}[i%2] })...)
	add("turned square", doors(0, 4, 3), turned(45, rect(20, 20)...)...)
	add("turned ell", nil, turned(17, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 12}, [2]float64{14, 12}, [2]float64{14, 26}, [2]float64{0, 26})...)
	add("jogs", nil, [2]float64{0, 0}, [2]float64{10, 0}, [2]float64{10, 0.25}, [2]float64{20, 0.25}, [2]float64{20, 0.5}, [2]float64{30, 0.5}, [2]float64{30, 20}, [2]float64{15.5, 20}, [2]float64{15.5, 19.5}, [2]float64{14.5, 19.5}, [2]float64{14.5, 20}, [2]float64{0, 20})
	add("zigzag", nil, [2]float64{0, 0}, [2]float64{6, 3}, [2]float64{12, 0}, [2]float64{18, 3}, [2]float64{24, 0}, [2]float64{30, 3}, [2]float64{30, 9}, [2]float64{24, 6}, [2]float64{18, 9}, [2]float64{12, 6}, [2]float64{6, 9}, [2]float64{0, 6})
	add("spiral", nil, [2]float64{0, 0}, [2]float64{30, 0}, [2]float64{30, 26}, [2]float64{6, 26}, [2]float64{6, 8}, [2]float64{22, 8}, [2]float64{22, 18}, [2]float64{14, 18}, [2]float64{14, 14}, [2]float64{18, 14}, [2]float64{18, 12}, [2]float64{10, 12}, [2]float64{10, 22}, [2]float64{26, 22}, [2]float64{26, 4}, [2]float64{0, 4})
	add("door row", doors(0, 0.5, 3, 4, 3, 7.25, 3, 10.5, 3, 14, 8, 22.25, 3), rect(26, 18)...)
	add("close doors", doors(2, 1, 3, 4.25, 3, 7.5, 3), rect(12, 10)...)
	add("holes", func(j *job.Job) {
		for i := range 3 {
			x := ft * geometry.Length(4+8*i)
			w := ft * geometry.Length(1+i)
			j.Slabs[0].Holes = append(j.Slabs[0].Holes, plan.Hole{Loop: plan.Loop{
				{At: geometry.Point{X: x, Y: 6 * ft}}, {At: geometry.Point{X: x, Y: 6*ft + w}}, {At: geometry.Point{X: x + w, Y: 6*ft + w}}, {At: geometry.Point{X: x + w, Y: 6 * ft}},
			}})
		}
	}, rect(30, 18)...)
	add("pads", func(j *job.Job) {
		for i := range 4 {
			for k := range 3 {
				j.Slabs[0].Pads = append(j.Slabs[0].Pads, plan.Pad{
					Center: geometry.Point{X: ft * geometry.Length(4+7*i), Y: ft * geometry.Length(4+6*k)},
					Width:  2 * ft, Length: 2 * ft, Depth: 12 * in, Taper: 6 * in, Turn: float64(15 * i),
				})
			}
		}
		j.Slabs[0].Strips = []plan.Strip{{Path: []geometry.Point{{X: 2 * ft, Y: 13 * ft}, {X: 27 * ft, Y: 13 * ft}}, Bottom: 12 * in, Depth: 10 * in, Taper: 6 * in}}
	}, rect(30, 20)...)
	add("pours", func(j *job.Job) {
		s := &j.Slabs[0]
		s.Construction = []plan.Construction{
			{Kind: plan.Doweled, From: geometry.Point{X: 24 * ft}, To: geometry.Point{X: 24 * ft, Y: 30 * ft}, Days: 2},
			{Kind: plan.Keyed, Name: "East", From: geometry.Point{X: 40 * ft}, To: geometry.Point{X: 40 * ft, Y: 30 * ft}},
			{From: geometry.Point{X: 40 * ft, Y: 14 * ft}, To: geometry.Point{X: 60 * ft, Y: 14 * ft}, First: plan.RightFirst, Steel: plan.SteelStops},
			{From: geometry.Point{X: 70 * ft}, To: geometry.Point{X: 70 * ft, Y: 14 * ft}},
		}
		s.Embeds = []plan.Embed{{Kind: plan.StubUp, Width: 2 * in, Center: geometry.Point{X: 24 * ft, Y: 10 * ft}}}
		j.Spec.Place.Field.Kind = field.Grid
	}, rect(60, 30)...)
	add("meeting", func(j *job.Job) {
		at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }
		slab := func(name string, ps ...geometry.Point) plan.Plan {
			return plan.Plan{Name: name, Field: 5 * in}.WithOutline(plan.Like(ps, plan.Edge{}))
		}
		j.Slabs[0].Name = "Garage"
		apron := slab("Apron", at(4, -6), at(20, -6), at(20, 0), at(4, 0))
		apron.Outline[2].Meets = plan.DoweledThere
		shop := slab("Shop", at(24, 2), at(40, 2), at(40, 30), at(24, 30))
		low := slab("Low", at(-8, 2), at(0, 2), at(0, 12), at(-8, 12))
		low.Outline[1].Meets, low.Height = plan.DoweledThere, -2*ft
		walk := slab("Walk", at(40, 4).Add(geometry.Point{X: in / 2}), at(46, 4), at(46, 12), at(40, 12).Add(geometry.Point{X: in / 2}))
		j.Slabs = append(j.Slabs, apron, shop, low, walk)
	}, rect(24, 20)...)
	add("steps", func(j *job.Job) { // a floor that falls lies below, above and partly above others
		at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }
		beside := func(name string, height geometry.Length, how plan.EdgeMeets, ps ...geometry.Point) {
			p := plan.Plan{Name: name, Field: 5 * in, Height: height, Sections: []plan.Section{{Name: name, Depth: 20 * in, Bottom: 12 * in, Taper: 8 * in}}}
			j.Slabs = append(j.Slabs, p.WithOutline(plan.Like(ps, plan.Edge{Section: name, Meets: how})))
		}
		j.Slabs[0].Name = "Garage"
		j.Slabs[0].Top.Falls = []plan.Fall{{From: at(0, 20), To: at(24, 20), Drop: 4 * in}}
		beside("House", 6*in, plan.IsolatedThere, at(0, 20), at(24, 20), at(24, 40), at(0, 40))
		beside("Walk", -3*in, plan.DoweledThere, at(0, -6), at(12, -6), at(12, 0), at(0, 0))
		beside("Porch", 2*in, plan.DoweledThere, at(12, -8), at(24, -8), at(24, 0), at(12, 0))
		beside("Stoop", 3*in, plan.DoweledThere, at(24, 4), at(30, 4), at(30, 10), at(24, 10))
	}, rect(24, 20)...)
	add("lines", func(j *job.Job) {
		s := &j.Slabs[0]
		s.Outline[2].Joint, s.Outline[2].Wall = true, ""
		at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }
		s.Embeds = []plan.Embed{{Kind: plan.FloorDrain, Width: 8 * in, Center: at(10, 10), Deep: 4 * in}}
		s.Construction = []plan.Construction{{From: at(26, 0), To: at(26, 20)}}
		s.Lines = []plan.Line{
			{Kind: plan.DrainLine, Path: []geometry.Point{at(10, 10), at(10, -5), at(2, -5)}, Diameter: 3 * in, Cover: 8 * in, EndCover: 11 * in},
			{Kind: plan.DrainLine, Name: "Flat", Path: []geometry.Point{at(14, 10), at(14, 30)}, Diameter: 2 * in, Cover: 3 * in},
			{Kind: plan.TrenchDrain, Path: []geometry.Point{at(4, 3), at(18, 3)}, Diameter: 6 * in, Height: 8 * in},
			{Kind: plan.Conduit, Name: "Power", Path: []geometry.Point{at(0, 16), at(28, 16)}, Diameter: 2 * in, Cover: in},
			{Kind: plan.Tubing, Path: []geometry.Point{at(2, 6), at(24, 18)}, Diameter: in / 2, Cover: in, Spacing: 9 * in, Longest: 250 * ft, Lead: 20 * ft},
			{Kind: plan.Tubing, Path: []geometry.Point{at(25, 2), at(29, 2), at(29, 18), at(25, 18)}, Diameter: in / 2, Cover: 3 * in, Spacing: 12 * in},
		}
	}, rect(30, 20)...)
	add("posts kept apart", func(j *job.Job) {
		pad := func(x, y geometry.Length, shape plan.Isolation, size geometry.Length) plan.Pad {
			return plan.Pad{Center: geometry.Point{X: x * ft, Y: y * ft}, Width: 2 * ft, Length: 2 * ft, Depth: 12 * in, Isolation: shape, BlockOut: size}
		}
		s := &j.Slabs[0]
		s.Pads = []plan.Pad{pad(10, 6, plan.DiamondOut, 34*in), pad(20, 6, plan.RoundOut, 0), pad(10, 14, plan.SquareOut, 26*in), pad(20, 14, plan.DiamondOut, 30*in), pad(26, 2, plan.DiamondOut, 32*in)}
		s.Pads[4].Center.Y = 24*in - in/2
		s.Pads[4].Width, s.Pads[4].Length = ft, ft
		s.Walls = []plan.Wall{{Plate: "2x4", From: geometry.Point{X: 9 * ft, Y: 6 * ft}, To: geometry.Point{X: 14 * ft, Y: 6 * ft}}}
	}, rect(30, 20)...)
	add("raised edges", func(j *job.Job) {
		s := &j.Slabs[0]
		for i := range s.Outline[:3] {
			s.Outline[i].Curb, s.Outline[i].CurbWidth = 6*in, 8*in
		}
		s.Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 9 * ft}}
		s.Outline[1].Doors = []plan.Door{{Kind: plan.Walk, From: 8 * ft, Width: 3 * ft}}
	}, rect(24, 20)...)
	add("stem walls", func(j *job.Job) {
		s := &j.Slabs[0]
		for i := range s.Outline {
			s.Outline[i].Curb, s.Outline[i].CurbWidth = 16*in, 8*in
		}
		s.Outline[2].Curb, s.Outline[3].Section = 6*in, ""
	}, rect(30, 20)...)
	add("level curbs", func(j *job.Job) {
		s := &j.Slabs[0]
		for i := range s.Outline {
			s.Outline[i].Curb = 6 * in
		}
		s.Outline[1].Curb = 14 * in
		s.Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 16 * ft}}
		s.Top = plan.Top{Falls: []plan.Fall{{From: geometry.Point{X: 12 * ft, Y: 22 * ft}, To: geometry.Point{X: 12 * ft}, Drop: 3 * in}}, Curbs: plan.CurbsLevel}
	}, rect(24, 22)...)
	add("insulated edges", func(j *job.Job) {
		b := &j.Spec.Base
		b.Building, b.Upright, b.UprightDeep, b.UprightR, b.FrostFoam = takeoff.HeatedBuilding, 2*in, 18*in, 9, 6
		b.Wing, b.WingWidth, b.WingDeep, b.WingR, b.CornerWidth, b.CornerLong = 3*in, 2*ft, 10*in, 5.7, 3*ft, 40*in
		j.Slabs[0].Outline[2].Joint, j.Slabs[0].Outline[2].Wall = true, ""
		j.Slabs[0].Outline[0].Doors = []plan.Door{{Kind: plan.Overhead, From: 4 * ft, Width: 9 * ft}}
	}, rect(30, 20)...)
	add("insulated, refused", func(j *job.Job) {
		j.Spec.Base.Building, j.Spec.Base.Upright = takeoff.OtherBuilding, 2*in
	}, rect(30, 20)...)
	add("insulated, no height", func(j *job.Job) {
		j.Spec.Base.Building, j.Spec.Base.Upright = takeoff.HeatedBuilding, 2*in
	}, rect(30, 20)...)
	add("insulated, no width", func(j *job.Job) {
		b := &j.Spec.Base
		b.Building, b.Upright, b.UprightDeep, b.Wing = takeoff.HeatedBuilding, 2*in, 12*in, 2*in
	}, rect(30, 20)...)
	add("walls", func(j *job.Job) {
		s := &j.Slabs[0]
		s.Outline[2].Wall = ""
		at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }
		s.Holes = []plan.Hole{{Loop: plan.Loop{{At: at(30, 10)}, {At: at(30, 12)}, {At: at(32, 12)}, {At: at(32, 10)}}}}
		s.Strips = []plan.Strip{{Path: []geometry.Point{at(1, 13), at(39, 13)}, Bottom: 12 * in, Depth: 12 * in, Taper: 6 * in}}
		s.Embeds = []plan.Embed{{Kind: plan.StubUp, Width: 2 * in, Center: at(20, 6)}}
		s.Walls = []plan.Wall{
			{Plate: "2x6", From: at(0, 13), To: at(40, 13), Name: "Office", Doors: []plan.Opening{{From: 6 * ft, Width: 3 * ft}, {From: 20 * ft, Width: 5 * ft}}},
			{Plate: "2x4", From: at(13, 13), To: at(12, 0), Kind: plan.Braced, Bolts: []plan.BoltMark{{Along: ft, HoldDown: true}}},
			{Plate: "2x4", From: at(20, 0), To: at(20, 26)}, {Plate: "2x4", From: at(31, 2), To: at(31, 24)},
			{Plate: "2x4", From: at(10, 16), To: at(10, 25), Kind: plan.Braced},
			{Plate: "2x6", From: at(2, 26), To: at(14, 26)}, {Plate: "2x6", From: at(38, 26), To: at(26, 26)},
		}
	}, rect(40, 26)...)
	add("embeds", func(j *job.Job) {
		s := &j.Slabs[0]
		s.Outline[2].Joint, s.Outline[2].Wall = true, ""
		for i, e := range []plan.Embed{{Kind: plan.Sleeve, Name: "Water"}, {Kind: plan.StubUp}, {Kind: plan.FloorDrain, Deep: 4 * in}, {Kind: plan.PostBase, Length: 6 * in, Deep: 5 * in}, {Kind: plan.WeldPlate, Length: 8 * in, Turn: 20, Deep: 4 * in}} {
			e.Width = geometry.Length(2+2*i) * in
			for k := range 3 {
				e.Center = geometry.Point{X: ft * geometry.Length(3+6*i+k), Y: ft * geometry.Length(4+5*k)}
				s.Embeds = append(s.Embeds, e)
			}
		}
		s.Embeds[0].Center = geometry.Point{X: 8 * ft, Y: 8 * in}              // among the bars
		s.Embeds[4].Center = geometry.Point{X: 15*ft + 2*in, Y: 3 * in}        // by the plate and the edge
		s.Embeds[7].Center = s.Embeds[6].Center.Add(geometry.Point{X: 2 * in}) // over another
		for k := range 24 {
			s.Embeds = append(s.Embeds, plan.Embed{Kind: plan.StubUp, Width: in, Center: geometry.Point{X: ft * geometry.Length(2+k), Y: 17*ft + 6*in}})
		}
	}, rect(30, 18)...)
	add("all joint", func(j *job.Job) {
		for i := range j.Slabs[0].Outline {
			j.Slabs[0].Outline[i].Joint = i != 0
			j.Slabs[0].Outline[i].Wall = ""
		}
	}, rect(14, 11)...)
	add("metric", func(j *job.Job) { j.Units = geometry.Millimeters; doors(0, 4, 10)(j) }, rect(30, 22)...)
	add("metric ell", func(j *job.Job) { j.Units = geometry.Millimeters }, [2]float64{0, 0}, [2]float64{41, 0}, [2]float64{41, 12.37}, [2]float64{14, 12.37}, [2]float64{14, 31}, [2]float64{0, 31})
	slab := func(name string, height, field geometry.Length, wall string, corners [][2]float64) plan.Plan {
		p := plan.Plan{Name: name, Height: height, Field: field, Sections: []plan.Section{{Name: "Edge", Depth: 10 * in, Bottom: 6 * in, Taper: 6 * in}}}
		for _, c := range corners {
			p.Outline = append(p.Outline, plan.Edge{At: point(c[0], c[1]), Section: "Edge", Wall: wall})
		}
		return p.Oriented()
	}
	add("two slabs", func(j *job.Job) {
		doors(0, 6, 9)(j)
		j.Slabs[0].Name = "Garage"
		j.Slabs = append(j.Slabs, slab("Apron", -in/2, 4*in, "", [][2]float64{{5, -6}, {16, -6}, {16, 0}, {5, 0}}))
		j.Slabs[1].Outline[2].Joint = true
		j.Survey.Benchmarks = []plan.Benchmark{{Name: "Nail in the gate post", At: point(-6, 14)}}
	}, rect(24, 20)...)
	add("three slabs", func(j *job.Job) {
		doors(0, 6, 9)(j)
		j.Slabs[0].Name = "Garage"
		j.Slabs[0].Top.Falls = []plan.Fall{{From: point(8, 20), To: point(8, 0), Drop: 3 * in}}
		var c [][2]float64
		for _, p := range turned(30, rect(10, 8)...) {
			c = append(c, [2]float64{p[0] + 32, p[1] + 4})
		}
		j.Slabs = append(j.Slabs,
			slab("Shed, turned against the fence", 4*in, 5*in, "2x4", c),
			slab("", -in/2, 4*in, "", [][2]float64{{5, -3}, {16, -3}, {16, 0}, {5, 0}}))
		j.Slabs[2].Outline[2].Joint = true
		j.Survey = plan.Survey{
			North:      plan.North{Known: true, Turn: -140},
			Benchmarks: []plan.Benchmark{{Name: "BM 1, nail in the power pole", At: point(-4, 4)}, {Name: "BM 2, top of the curb at the drive, behind the third post from the left", At: point(30, 24), Height: 14 * in}},
			Notes: []plan.Note{
				{Text: "Old drain crosses here: find it before you dig, and keep the trench out of its bed", At: point(-8, 10), Leader: true, To: point(2, 8)},
				{Text: "Keep the gate clear", At: point(28, 14)},
				{Text: "Power line overhead", At: point(40, 14), Leader: true, To: point(36, 9)},
			},
		}
	}, rect(24, 20)...)
	add("crowded survey", func(j *job.Job) {
		j.Survey.North = plan.North{Known: true, Turn: 90}
		for i := range 6 {
			x := float64(4 * i)
			j.Survey.Benchmarks = append(j.Survey.Benchmarks, plan.Benchmark{Name: fmt.Sprintf("BM %d", i+1), At: point(x, -3), Height: in * geometry.Length(i)})
			j.Survey.Notes = append(j.Survey.Notes,
				plan.Note{Text: fmt.Sprintf("Note %d on the corner where everything meets", i+1), At: point(20, 18), Leader: true, To: point(x, 16)},
				plan.Note{Text: "Watch", At: point(x, 5)})
		}
		j.Survey.Notes = append(j.Survey.Notes, plan.Note{Text: "Far away", At: point(900, 900)})
	}, rect(24, 20)...)
	ell := [][2]float64{{0, 0}, {30, 0}, {30, 12}, {14, 12}, {14, 26}, {0, 26}}
	add("mesh and foam", func(j *job.Job) {
		j.Spec.Place.Field.Kind = field.Mesh
		j.Spec.Base.Foam = 2 * in
		j.Slabs[0].Holes = []plan.Hole{{Name: "Pit", Loop: plan.Loop{{At: point(4, 8)}, {At: point(4, 12)}, {At: point(9, 12)}, {At: point(9, 8)}}}}
	}, ell...)
	add("grid and marks", func(j *job.Job) {
		j.Spec.Place.Field.Kind = field.Grid
		j.Spec.Place.Bars.Rows = append(j.Spec.Place.Bars.Rows, bars.Row{Face: 3 * in, Top: 2 * in})
		j.Slabs[0].Outline[1].Bolts = []plan.BoltMark{{Along: 14 * in}, {Along: 5 * ft}, {Along: 11*ft + 2*in, HoldDown: true}}
		j.Slabs[0].Outline[0].Doors = []plan.Door{{Kind: plan.Overhead, From: 4 * ft, Width: 16 * ft, Lip: plan.Lip{Inset: 5 * in, Drop: in}}}
		j.Slabs[0].Pads = []plan.Pad{{Center: point(7, 6), Width: 3 * ft, Length: 3 * ft, Depth: 16 * in, Taper: 6 * in}}
	}, ell...)
	add("aprons", func(j *job.Job) {
		j.Slabs[0].Top = plan.Top{Falls: []plan.Fall{{From: point(10, 16), To: point(10, 0), Drop: 2 * in}}, Breaks: []plan.Break{{From: point(20, 4), To: point(0, 4), Drop: in / 4, Over: ft}}}
		j.Slabs[0].Outline[0].Doors = []plan.Door{{Kind: plan.Overhead, From: 4 * ft, Width: 9 * ft, Lip: plan.Lip{Inset: 5 * in, Drop: 3 * in / 4}}}
		j.Spec.Place.Field.Kind = field.Mesh
	}, rect(20, 16)...)
	add("ramp", func(j *job.Job) {
		j.Slabs[0].Top.Breaks = []plan.Break{{From: point(0, 12), To: point(20, 12), Drop: -in, Over: ft}}
		j.Slabs[0].Base = plan.Level
	}, rect(20, 16)...)
	add("long words", func(j *job.Job) {
		j.Name = "A very long job name that can not possibly stand in the title block of any sheet without being cut"
		j.Slabs[0].Outline[0].Doors = []plan.Door{{Name: "The big overhead door on the north-west side", Kind: plan.Overhead, From: 4 * ft, Width: 9 * ft}}
		j.Notes = fmt.Sprint("A long note. ", j.Name, j.Name, j.Name)
	}, rect(20, 16)...)
	return out
}
