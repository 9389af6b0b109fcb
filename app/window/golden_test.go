package window

import (
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/app/window/canvas/dim"
	"haunchbook/app/window/canvas/paint"
	"haunchbook/app/window/canvas/scene"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
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
	p.Pads = []plan.Pad{{Name: "P1", Centre: pt(15*ft, 14*ft), Width: 3 * ft, Length: 3 * ft, Depth: ft, Turn: 30}}
	p.Strips = []plan.Strip{{Path: []geometry.Point{pt(3*ft, 18*ft), pt(20*ft, 18*ft)}, Bottom: ft, Depth: ft, Taper: ft / 2}}
	p.Top.Falls = []plan.Fall{{From: pt(10*ft, 20*ft), To: pt(10*ft, 0), Drop: ft / 6}}
	return p
}

// pictureLayout places a few things by hand, so that the picture does not depend
// on the rules of placing.
func pictureLayout() layout.Layout {
	return layout.Layout{
		Bars:   []layout.Bar{{Path: []geometry.Point{pt(ft/2, ft/2), pt(29*ft, ft/2), pt(29*ft, 13*ft)}}},
		Mesh:   []layout.Sheet{{Corners: [4]geometry.Point{pt(2*ft, 2*ft), pt(12*ft, 2*ft), pt(12*ft, 7*ft), pt(2*ft, 7*ft)}}},
		Dowels: []layout.Dowel{{Edge: 4, At: pt(0, 6*ft)}, {Edge: 4, At: pt(0, 12*ft)}},
		Walls:  []layout.Wall{{Bolts: []layout.Bolt{{At: pt(ft, ft/4)}, {At: pt(20*ft, ft/4)}}}},
		Forms:  []layout.Form{{Edge: 1, Stakes: []geometry.Length{ft, 4 * ft, 7 * ft}}},
		Joints: []layout.Joint{{A: pt(15*ft, 0), B: pt(15*ft, 22*ft)}},
	}
}

// The pictures of a plan in both themes, all layers on, are as they were when
// they were last looked at. A pixel may differ by a little, and one in a
// thousand by more.
func TestGoldenPictures(t *testing.T) {
	fonts, err := paint.NewFonts(theme.DefaultTheme().Font(fyne.TextStyle{}).Content())
	if err != nil {
		t.Fatal(err)
	}
	j := job.Job{Slabs: []plan.Plan{picturePlan()}}
	sol, err := solid.Of(j.Slabs[0])
	if err != nil {
		t.Fatal(err)
	}
	to := &takeoff.Takeoff{Slabs: []takeoff.Slab{{Plan: j.Slabs[0], Solid: sol, Layout: pictureLayout()}}}
	lo, hi := j.Slabs[0].Outline.Corners().Bounds()
	v := view.Fit(lo, hi, 640, 480, 60)
	measure := func(s string) (float64, float64) {
		return fonts.Width(s, scene.TextSize), fonts.Height(scene.TextSize)
	}
	crossed, err := j.Slabs[0].MoveCorner(0, 0, pt(26*ft, 30*ft))
	if err != nil {
		t.Fatal(err)
	}
	in := scene.Input{
		Plan: j.Slabs[0], Units: j.Units, View: v, Ratio: 1, Takeoff: to, Dims: dim.Place(j.Slabs[0], v, j.Units, measure, 0, 0),
		Layers: scene.Layers{Grid: true, Dims: true, Underside: true, Steel: true, Bolts: true, Dowels: true, Joints: true, Forms: true},
	}
	faulty := in
	faulty.Plan, faulty.Faults, faulty.Dims = crossed, crossed.Validate(geometry.FeetInches), nil
	for name, test := range map[string]struct {
		in      scene.Input
		palette scene.Palette
	}{"light": {in, scene.Light}, "dark": {in, scene.Dark}, "faulty": {faulty, scene.Light}} {
		t.Run(name, func(t *testing.T) {
			s := scene.Scene{Brush: paint.Brush{Fonts: fonts}}
			test.in.Palette = test.palette
			s.Draw(test.in, 640, 480)
			compare(t, filepath.Join("testdata", name+".png"), s.Brush.Img)
		})
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
