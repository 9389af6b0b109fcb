package window

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

// sketched writes a picture of w by h pixels: white paper with a black frame of 4
// pixels' width along the given rectangle.
func sketched(t *testing.T, w, h int, frame image.Rectangle) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{240, 240, 236, 255}
			if p := image.Pt(x, y); p.In(frame.Inset(-2)) && !p.In(frame.Inset(2)) {
				c = color.RGBA{30, 30, 40, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	path := filepath.Join(t.TempDir(), "sketch.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	return path
}

// A scan is imported, fit by two known lengths by what is drawn on it, and drawn over:
// the outline comes out at its true size.
func TestDrawOverAScan(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	w.Show()
	w.side.turn(tool.Sketching)
	// 480 by 320 pixels for 24 by 16 ft.
	w.typed(sketched(t, 680, 480, image.Rect(100, 80, 580, 400)) + "<Return>")
	under := func() job.Sketch { return w.doc.Job().Sketch }
	if !under().Any() {
		t.Fatalf("no picture in the job; the status line says %q", w.status.help.Text)
	}
	w.win.Canvas().Capture() // the picture is decoded where it is drawn
	on := func(x, y float64) geometry.Point {
		c := under().Corners
		at := func(f, g geometry.Length, part float64) geometry.Length {
			return f + geometry.Length(float64(g-f)*part)
		}
		return pt(at(c[0].X, c[1].X, x/680), at(c[0].Y, c[3].Y, y/480))
	}
	w.click(on(103, 403)) // beside the corner: it snaps
	w.click(on(577, 402))
	for _, r := range "24' right" {
		w.plan.TypedRune(r)
	}
	w.typed("<Return>")
	w.click(on(100, 400))
	w.click(on(100, 80))
	w.typed("16'<Return><Return>")
	if a, b := on(100, 400), on(580, 80); (b.X-a.X-24*ft).Abs() > ft/10 || (b.Y-a.Y-16*ft).Abs() > ft/10 {
		t.Errorf("the frame is %s by %s; the status line says %q", (b.X - a.X).Text(0), (b.Y - a.Y).Text(0), w.status.help.Text)
	}
	w.win.Canvas().Capture()
	w.typed("l")
	w.machine.Square = true
	for _, p := range [][2]float64{{101, 398}, {578, 401}, {581, 82}, {99, 79}} {
		w.click(on(p[0], p[1]))
	}
	w.typed("<Return>")
	lo, hi := w.doc.Plan().Outline.Corners().Bounds()
	if len(w.doc.Plan().Outline) != 4 || (hi.X-lo.X-24*ft).Abs() > ft/6 || (hi.Y-lo.Y-16*ft).Abs() > ft/6 {
		t.Errorf("drew %d corners, %s by %s", len(w.doc.Plan().Outline), (hi.X - lo.X).Text(0), (hi.Y - lo.Y).Text(0))
	}
	w.side.turn(tool.Sketching)
	w.edit(t).Tick("Hidden", 0)
	if _, ok := w.sketch.Find(on(100, 400), ft); ok {
		t.Error("a hidden sketch is snapped to")
	}
}
