package window

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// picturePlan has one of everything that is drawn.
func picturePlan() plan.Plan {
	p := plan.Plan{Field: ft / 2, Sections: []plan.Section{{Name: "edge", Depth: ft, Bottom: ft, Taper: ft / 2}}}
	p = p.WithOutline(plan.Like(geometry.Ring{
		pt(0, 0), pt(30*ft, 0), pt(30*ft, 14*ft), pt(22*ft, 22*ft), pt(0, 22*ft),
	}, plan.Edge{Section: "edge", Wall: "2x6"}))
	p.Outline[0].Doors = []plan.Door{{Name: "D1", From: 6 * ft, Width: 10 * ft, Lip: plan.Lip{Inset: ft / 2, Drop: ft / 24}}}
	p.Outline[4] = plan.Edge{At: p.Outline[4].At, Joint: true}
	p = p.AddHole("pit", plan.Like(geometry.Ring{pt(22*ft, 4*ft), pt(26*ft, 4*ft), pt(26*ft, 7*ft), pt(22*ft, 7*ft)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Name: "P1", Center: pt(15*ft, 14*ft), Width: 3 * ft, Length: 3 * ft, Depth: ft, Turn: 30}}
	p.Strips = []plan.Strip{{Path: []geometry.Point{pt(3*ft, 18*ft), pt(20*ft, 18*ft)}, Bottom: ft, Depth: ft, Taper: ft / 2}}
	p.Top.Falls = []plan.Fall{{From: pt(10*ft, 20*ft), To: pt(10*ft, 0), Drop: ft / 6}}
	return p
}

// pictureLayout places a few things by hand, so that the picture does not depend
// on the rules of placing.
func pictureLayout() layout.Layout {
	corners := []geometry.Point{pt(0, 0), pt(30*ft, 0), pt(30*ft, 14*ft), pt(22*ft, 22*ft), pt(0, 22*ft)}
	l := layout.Layout{
		Marks: mark.Of(picturePlan())[0],
		Bars: []bars.Bar{
			{Mark: mark.Mark{Kind: mark.Bar, N: 1}, Size: 4, Of: bars.Part{Kind: bars.EdgeRow, N: 1}, Path: []geometry.Point{pt(ft/4, ft/4), pt(4*ft, ft/4)}},
			{Mark: mark.Mark{Kind: mark.Bar, N: 2}, Size: 4, Of: bars.Part{Kind: bars.EdgeRow, N: 1}, Path: []geometry.Point{pt(2*ft, ft/4), pt(29*ft+3*ft/4, ft/4), pt(29*ft+3*ft/4, 13*ft)}},
			{Mark: mark.Mark{Kind: mark.Bar, N: 3}, Size: 5, Of: bars.Part{Kind: bars.EdgeRow, N: 2}, Path: []geometry.Point{pt(3*ft/4, 3*ft/4), pt(29*ft, 3*ft/4)}},
		},
		Mesh: []cover.Sheet{
			{Corners: [4]geometry.Point{pt(2*ft, 2*ft), pt(12*ft, 2*ft), pt(12*ft, 7*ft), pt(2*ft, 7*ft)}},
			{Corners: [4]geometry.Point{pt(11*ft, 2*ft), pt(21*ft, 2*ft), pt(21*ft, 7*ft), pt(11*ft, 7*ft)}},
		},
		Dowels:  []joints.Dowel{{Edge: 4, At: pt(0, 6*ft), Outer: pt(-2*ft/3, 6*ft), Inner: pt(2*ft/3, 6*ft)}, {Edge: 4, At: pt(0, 12*ft), Outer: pt(-2*ft/3, 12*ft), Inner: pt(2*ft/3, 12*ft)}},
		Walls:   []bolts.Wall{{Bolts: []bolts.Bolt{{Mark: mark.Mark{Kind: mark.Bolt, N: 1}, At: pt(ft, ft/4)}, {Mark: mark.Mark{Kind: mark.Bolt, N: 2}, At: pt(5*ft, ft/4), HoldDown: true}, {Mark: mark.Mark{Kind: mark.Bolt, N: 3}, At: pt(20*ft, ft/4)}}}},
		Forms:   []forms.Form{{A: corners[0], B: corners[1], Stakes: []geometry.Length{ft, 4 * ft, 7 * ft}, Kickers: []geometry.Length{4 * ft}}, {Edge: 1, A: corners[1], B: corners[2], Stakes: []geometry.Length{ft, 4 * ft, 7 * ft}}},
		SawCuts: []sawcuts.Cut{{A: pt(15*ft, 0), B: pt(15*ft, 22*ft)}},
		StakeOut: stakeout.StakeOut{
			Diagonals: []stakeout.Diagonal{{I: 0, J: 2, Length: geometry.Distance(corners[0], corners[2])}, {I: 1, J: 4, Length: geometry.Distance(corners[1], corners[4])}},
			Squares:   []stakeout.Square{{Corner: 0, Unit: 4 * ft, A: pt(0, 12*ft), B: pt(16*ft, 0)}},
			Lines:     []stakeout.StringLine{{Edge: 0, A: pt(-3*ft, 0), B: pt(33*ft, 0)}, {Edge: 4, A: pt(0, 25*ft), B: pt(0, -3*ft)}},
		},
	}
	for i, p := range corners {
		l.Grades = append(l.Grades, stakeout.Grade{Corner: i, At: p, Top: geometry.Length(i) * ft / 48, Bottom: -ft, Dig: -ft})
	}
	return l
}

// pictureSheets covers the slab with sheets side by side.
func pictureSheets(w, h, lap geometry.Length, loops []plan.Loop) *planview.Cover {
	var out []cover.Sheet
	for x := geometry.Length(0); x < 30*ft; x += h - lap {
		for y := geometry.Length(0); y < 22*ft; y += w - lap {
			x1, y1 := min(x+h, 30*ft), min(y+w, 22*ft)
			out = append(out, cover.Sheet{Corners: [4]geometry.Point{pt(x, y), pt(x1, y), pt(x1, y1), pt(x, y1)}})
		}
	}
	return planview.CoverOf(out, loops)
}

func picturePour() *planview.Pour {
	p := &planview.Pour{Reach: 16 * ft, Trucks: []planview.Spot{{Name: "T1", At: pt(11*ft, -3*ft)}}, Pads: []planview.Spot{{Name: "P1", At: pt(10*ft, 11*ft)}, {Name: "P2", At: pt(20*ft, 11*ft)}}}
	for i := range 2 {
		y := 11 * ft * geometry.Length(1-i)
		p.Lines = append(p.Lines, planview.Line{A: pt(0, y), B: pt(30*ft, y), Lane: true})
		for k := range 3 {
			x := 10 * ft * geometry.Length(k)
			p.Lines = append(p.Lines, planview.Line{A: pt(x, y), B: pt(x, y+11*ft)})
			text := fmt.Sprintf("bay %d", 3*i+k+1)
			if k == 2 && i == 0 {
				text = "! " + text + ": out of reach"
			}
			p.Bays = append(p.Bays, planview.Bay{
				Middle: pt(x+5*ft, y+11*ft/2), Size: 10 * ft,
				Name: strconv.Itoa(3*i + k + 1), Text: text, Takes: fmt.Sprintf("%.1f yd³", 2.2*float64(3*i+k+1)),
			})
		}
	}
	return p
}

func pictureSurvey() plan.Survey {
	return plan.Survey{
		North:      plan.North{Known: true, Turn: 30},
		Benchmarks: []plan.Benchmark{{Name: "BM 1, nail in the curb", At: pt(-2*ft, 24*ft), Height: ft / 2}},
		Notes:      []plan.Note{{Text: "Downspout: keep the form clear of it", At: pt(34*ft, 20*ft), Leader: true, To: pt(26*ft, 18*ft)}},
	}
}

// The pictures of a plan in both themes, all layers on, are as they were when
// they were last looked at. A pixel may differ by a little, and one in a
// thousand by more.
func TestGoldenPictures(t *testing.T) {
	exhaustive(t)
	fonts, err := paint.NewFonts(theme.DefaultTheme().Font(fyne.TextStyle{}).Content())
	if err != nil {
		t.Fatal(err)
	}
	p := picturePlan()
	sol, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := p.Outline.Corners().Bounds()
	v := view.Fit(lo, hi, 640, 480, 60)
	measure := func(s string) (float64, float64) {
		return fonts.Width(s, scene.TextSize), fonts.Height(scene.TextSize)
	}
	crossed, err := p.MoveCorner(0, 0, pt(26*ft, 30*ft))
	if err != nil {
		t.Fatal(err)
	}
	placed := pictureLayout()
	on := func(names string) scene.Layers { return scene.ReadLayers("Grid,Sizes," + names) }
	sizes := func(u geometry.Units, edge int) *size.Placed {
		out := &size.Placed{}
		out.Set([]plan.Plan{p}, 0, v, u, measure, planview.Selected{Edge: edge, Bolt: -1})
		return out
	}
	slab := planview.Slab{
		Plan: p, Underside: planview.UndersideOf(sol, p.Field), Layout: &placed, Foam: pictureSheets(4*ft, 8*ft, 0, p.Loops()),
		Retarder: pictureSheets(12*ft, 34*ft, ft/2, nil), Mesh: planview.CoverOf(placed.Mesh, p.Loops()), Wires: ft / 2,
	}
	in := scene.Input{
		Input: planview.Input{Slabs: []planview.Slab{slab}, Pour: picturePour()}, Units: geometry.FeetInches, View: v, Ratio: 1,
		Sizes: sizes(geometry.FeetInches, 0), Layers: on("Underside,Steel,Bolts,Dowels,Saw cuts,Forms"),
	}
	change := func(f func(*scene.Input)) scene.Input {
		out := in
		out.Slabs = slices.Clone(in.Slabs)
		f(&out)
		return out
	}
	for name, in := range map[string]scene.Input{
		"plan": in,
		"faulty": change(func(in *scene.Input) {
			in.Slabs[0].Plan, in.Faults, in.Sizes = crossed, crossed.Validate(geometry.FeetInches), nil
		}),
		"stakeout": change(func(in *scene.Input) { in.Layers = on("Stake-out") }),
		"ground":   change(func(in *scene.Input) { in.Layers = on("Foam,Retarder") }),
		"pour":     change(func(in *scene.Input) { in.Layers = on("Pour") }),
		"close": change(func(in *scene.Input) {
			in.Layers, in.Sizes = on("Underside,Steel,Bolts,Forms"), nil
			in.View = view.Fit(pt(-ft, -ft), pt(6*ft, 4*ft), 640, 480, 10)
		}),
		"several": change(func(in *scene.Input) {
			other := plan.Plan{Field: ft / 3}.WithOutline(plan.Like(geometry.Ring{pt(34*ft, 0), pt(44*ft, 0), pt(44*ft, 12*ft), pt(34*ft, 12*ft)}, plan.Edge{Wall: "2x4"}))
			in.Slabs = append(in.Slabs, planview.Slab{Number: 1, Name: "Porch", Plan: other})
			in.Survey = pictureSurvey()
			in.View = view.Fit(pt(-4*ft, -6*ft), pt(46*ft, 26*ft), 640, 480, 10)
			in.Sizes, in.Layers = nil, on("Underside,Bolts")
		}),
		"millimeters": change(func(in *scene.Input) {
			in.Units, in.Sizes = geometry.Millimeters, sizes(geometry.Millimeters, -1)
		}),
	} {
		for theme, palette := range map[string]scene.Palette{"light": scene.Light, "dark": scene.Dark} {
			t.Run(name+" "+theme, func(t *testing.T) {
				s := scene.Scene{Brush: paint.Brush{Fonts: fonts}}
				in.Palette = palette
				s.Draw(in, 640, 480)
				compare(t, filepath.Join("testdata", name+"-"+theme+".png"), s.Brush.Img)
			})
		}
	}
}

func compare(t *testing.T, path string, got *image.RGBA) {
	t.Helper()
	if *update {
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, got); err != nil {
			t.Fatal(err)
		}
		return
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != got.Bounds() {
		t.Fatalf("%v, want %v", got.Bounds(), want.Bounds())
	}
	off := 0
	for y := range got.Rect.Dy() {
		for x := range got.Rect.Dx() {
			r, g, b, _ := got.At(x, y).RGBA()
			wr, wg, wb, _ := want.At(x, y).RGBA()
			for _, d := range [3]int{int(r) - int(wr), int(g) - int(wg), int(b) - int(wb)} {
				if max(d, -d) > 12<<8 {
					off++
					break
				}
			}
		}
	}
	if most := got.Rect.Dx() * got.Rect.Dy() / 1000; off > most {
		failed := filepath.Join(os.TempDir(), "haunchbook-"+filepath.Base(path))
		if out, err := os.Create(failed); err == nil {
			_ = png.Encode(out, got) // a help for whoever looks; the failure is told anyway
			_ = out.Close()
		}
		t.Errorf("%d pixels differ, at most %d may; see %s, and run with -update if it is right", off, most, failed)
	}
}
