package window

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
)

// sketched is a sketch of w by h pixels: white paper with a black frame of 4
// pixels' width along the given rectangle.
func sketched(w, h int, frame image.Rectangle) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{240, 240, 236, 255}
			p := image.Pt(x, y)
			if p.In(frame.Inset(-2)) && !p.In(frame.Inset(2)) {
				c = color.RGBA{30, 30, 40, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// file writes a sketch where the window can find it.
func file(t *testing.T, name string, img image.Image) string {
	t.Helper()
	var b bytes.Buffer
	var err error
	if strings.HasSuffix(name, ".png") {
		err = png.Encode(&b, img)
	} else {
		err = jpeg.Encode(&b, img, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A scan is imported, fit by two known lengths by what is drawn on it, and drawn
// over: the outline comes out at its true size. All of it is kept in the job.
func TestTraceAScan(t *testing.T) {
	w := open(t, Options{Job: Blank(geometry.FeetInches)})
	w.Show()
	w.turn(sketchPage)
	frame := image.Rect(100, 80, 580, 400) // 480 by 320 pixels for 24 by 16 ft
	if err := w.importPath(file(t, "sketch.png", sketched(680, 480, frame))); err != nil {
		t.Fatal(err)
	}
	over := func() job.Sketch { return w.doc.Job().Sketch }
	if !over().Any() {
		t.Fatalf("no sketch in the job; the status line says %q", w.status.help.Text)
	}
	w.win.Canvas().Capture() // the sketch is decoded where it is drawn
	on := func(x, y float64) geometry.Point {
		c := over().Corners
		at := func(f, g geometry.Length, part float64) geometry.Length {
			return f + geometry.Length(float64(g-f)*part)
		}
		return pt(at(c[0].X, c[1].X, x/680), at(c[0].Y, c[3].Y, y/480))
	}
	w.machine.Use(tool.NewScaleSketch())
	w.win.Canvas().Focus(w.plan)
	w.click(on(103, 403)) // beside the corner: it snaps
	w.click(on(577, 402))
	for _, r := range "24' < 0" {
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

	w.turn(sketchPage)
	w.fill(t, "Fade, %", "70")
	w.fill(t, "Fade, %", "170")
	if got := over().Fade; got != 70 {
		t.Errorf("faded by %d", got)
	}
	w.tick(t, "Locked")
	was := over().Corners[0]
	w.press(t, "Turn 90°")
	if !over().Locked || over().Corners[0] != was {
		t.Error("a locked sketch was turned")
	}
	w.tick(t, "Hidden")
	if _, ok := w.sketch(on(100, 400), ft); ok || !over().Hidden {
		t.Error("a hidden sketch is snapped to")
	}
	back, err := job.Read(bytes.NewReader(w.doc.Job().Encode()))
	if err != nil || back.Sketch.Image != over().Image || !back.Sketch.Hidden {
		t.Errorf("not in the job's file: %v", err)
	}
	w.press(t, "Remove")
	if over().Any() {
		t.Error("the sketch is still there")
	}
	w.undo()
	if !over().Any() {
		t.Error("undo does not bring it back")
	}
}

// A photograph that the camera was held on its side for is laid upright.
func TestTraceAPhotograph(t *testing.T) {
	w := open(t, Options{Job: Blank(geometry.FeetInches)})
	w.Show()
	path := file(t, "photo.jpg", sketched(200, 120, image.Rect(20, 20, 180, 100)))
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// Exif with orientation 6: the first row is the right-hand side (CIPA DC-008).
	tag := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(tag) + 2)}, tag...)
	if err := os.WriteFile(path, append(head, data[2:]...), 0o600); err != nil {
		t.Fatal(err)
	}
	w.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	raw, err := base64.StdEncoding.DecodeString(w.doc.Job().Sketch.Image)
	if err != nil {
		t.Fatal(err)
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(raw))
	if err != nil || c.Width != 120 || c.Height != 200 {
		t.Errorf("kept as %d by %d, want 120 by 200; %v; the status line says %q", c.Width, c.Height, err, w.status.help.Text)
	}
	if err := w.importPath(filepath.Join(t.TempDir(), "none.png")); err == nil {
		t.Error("a file that is not there was imported")
	}
}
