package scene_test

import (
	"math"
	"runtime"
	"testing"

	"golang.org/x/image/font/gofont/goregular"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// shop is an L with a pit, all that is placed on it, and a porch beside it.
func shop(t testing.TB) scene.Input {
	t.Helper()
	p := plan.Plan{Field: ft / 2, Sections: []plan.Section{{Name: "edge", Depth: ft, Bottom: ft, Taper: ft / 2}}}
	p = p.WithOutline(plan.Like(geometry.Ring{
		pt(0, 0), pt(30*ft, 0), pt(30*ft, 14*ft), pt(18*ft, 14*ft), pt(18*ft, 24*ft), pt(0, 24*ft),
	}, plan.Edge{Section: "edge", Wall: "2x6"}))
	p.Outline[0].Doors = []plan.Door{{Name: "D1", From: 6 * ft, Width: 9 * ft}}
	p = p.AddHole("pit", plan.Like(geometry.Ring{pt(22*ft, 4*ft), pt(26*ft, 4*ft), pt(26*ft, 7*ft), pt(22*ft, 7*ft)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Center: pt(9*ft, 14*ft), Width: 3 * ft, Length: 3 * ft, Depth: ft}}
	porch := plan.Plan{Name: "Porch", Field: ft / 3}.WithOutline(plan.Like(geometry.Ring{pt(33*ft, 0), pt(41*ft, 0), pt(41*ft, 8*ft), pt(33*ft, 8*ft)}, plan.Edge{Wall: "2x4"}))
	spec := takeoff.Default()
	spec.Base.Foam, spec.Place.Field.Kind = ft/6, field.Mesh
	got, err := takeoff.Of(t.Context(), []plan.Plan{p, porch}, spec, geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	var slabs []planview.Slab
	for i := range got.Slabs {
		s := &got.Slabs[i]
		slabs = append(slabs, planview.Slab{
			Number: i, Name: s.Name, Plan: s.Plan, Underside: planview.UndersideOf(s.Solid, s.Plan.Field), Layout: &s.Layout, Wires: ft / 2,
			Foam: planview.CoverOf(s.Foam.Sheets, s.Plan.Loops()), Retarder: planview.CoverOf(s.Retarder.Sheets, nil), Mesh: planview.CoverOf(s.Layout.Mesh, s.Plan.Loops()),
		})
	}
	in := scene.Input{Ratio: 1, Layers: scene.All, Palette: scene.Light, View: view.Fit(pt(0, 0), pt(41*ft, 24*ft), 800, 600, 60)}
	in.Slabs = slabs
	in.Survey = plan.Survey{
		North:      plan.North{Known: true, Turn: 20},
		Benchmarks: []plan.Benchmark{{Name: "BM 1", At: pt(-ft, -ft)}},
		Notes:      []plan.Note{{Text: "Keep clear", At: pt(33*ft, 20*ft), Leader: true, To: pt(20*ft, 20*ft)}},
	}
	in.Pour = &planview.Pour{
		Lines: []planview.Line{{A: pt(0, 12*ft), B: pt(30*ft, 12*ft), Lane: true}}, Reach: 16 * ft,
		Bays:   []planview.Bay{{Middle: pt(10*ft, 6*ft), Size: 10 * ft, Name: "1", Text: "bay 1", Takes: "3.0 yd³"}},
		Pads:   []planview.Spot{{Name: "P1", At: pt(10*ft, 12*ft)}},
		Trucks: []planview.Spot{{Name: "T1", At: pt(10*ft, -4*ft)}},
	}
	return in
}

func drawer(t testing.TB) *scene.Scene {
	t.Helper()
	fonts, err := paint.NewFonts(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	return &scene.Scene{Brush: paint.Brush{Fonts: fonts}}
}

// A picture like the one before costs next to no memory.
func TestPicturesAllocateLittle(t *testing.T) {
	s, in := drawer(t), shop(t)
	s.Draw(in, 800, 600)
	if n := testing.AllocsPerRun(20, func() { s.Draw(in, 800, 600) }); n > 100 {
		t.Errorf("%g allocations a picture", n)
	}
}

// What is kept from picture to picture does not grow with their number.
func TestMemoryIsBounded(t *testing.T) {
	s, in := drawer(t), shop(t)
	in.View = view.Fit(pt(0, 0), pt(41*ft, 24*ft), 240, 160, 20)
	lo := in.View
	draw := func(from, to int) {
		for i := from; i < to; i++ {
			in.View = lo.Zoom(view.XY{X: 100, Y: 120}, math.Pow(1.1, float64(i%40)-10)).Pan(float64(i%7), float64(i%5))
			in.Units = geometry.Units(i / 20 % 2)
			s.Draw(in, 240, 160)
		}
	}
	heap := func() int64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	draw(0, 80) // every scale and both units were seen
	before := heap()
	draw(80, 240)
	if more := heap() - before; more > 1<<20 {
		t.Errorf("%d bytes more are kept after 160 pictures", more)
	}
}

// Any view of the plan can be drawn, at any size and scale.
func TestEveryViewIsDrawn(t *testing.T) {
	s, in := drawer(t), shop(t)
	rapid.Check(t, func(rt *rapid.T) {
		in.View = view.Fit(pt(0, 0), pt(41*ft, 24*ft), 300, 200, 20).
			Zoom(view.XY{X: rapid.Float64Range(0, 300).Draw(rt, "x"), Y: rapid.Float64Range(0, 200).Draw(rt, "y")}, math.Exp(rapid.Float64Range(-9, 9).Draw(rt, "zoom")))
		in.Ratio = rapid.SampledFrom([]float64{1, 1.5, 2}).Draw(rt, "ratio")
		w, h := rapid.IntRange(1, 300).Draw(rt, "w"), rapid.IntRange(1, 200).Draw(rt, "h")
		s.Draw(in, w, h)
		if s.Brush.Img.Rect.Dx() != w || s.Brush.Img.Rect.Dy() != h {
			rt.Fatalf("the picture is %v", s.Brush.Img.Rect)
		}
	})
}

// Every layer can be seen: turning it on changes the picture of everything else.
func TestEveryLayerShows(t *testing.T) {
	s, in := drawer(t), shop(t)
	in.Slabs[0].Plan.Outline[5].Joint = true
	in.Slabs[0].Layout.Dowels = []joints.Dowel{{Edge: 5, At: pt(0, 6*ft), Outer: pt(-ft, 6*ft), Inner: pt(ft, 6*ft)}}
	in.Sizes = &size.Placed{}
	in.Sizes.Set([]plan.Plan{in.Slabs[0].Plan}, 0, in.View, in.Units, func(text string) (float64, float64) { return 7 * float64(len(text)), 14 }, planview.Selected{Edge: -1, Bolt: -1})
	var layers scene.Layers
	for _, l := range layers.List() {
		*l.On = false
		in.Layers = layers
		s.Draw(in, 800, 600)
		before := string(s.Brush.Img.Pix)
		*l.On = true
		in.Layers = layers
		s.Draw(in, 800, 600)
		if string(s.Brush.Img.Pix) == before {
			t.Errorf("%s shows nothing", l.Name)
		}
		*l.On = false
	}
}

func TestLayersAreRemembered(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var l scene.Layers
		for _, k := range l.List() {
			*k.On = rapid.Bool().Draw(rt, k.Name)
		}
		if got := scene.ReadLayers(l.String()); got != l {
			rt.Fatalf("%q reads as %v", l, got)
		}
	})
	if got := scene.ReadLayers("Grid,Moss"); got != (scene.Layers{Grid: true}) {
		t.Errorf("an unknown layer: %v", got)
	}
}
