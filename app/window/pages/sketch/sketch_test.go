package sketch

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
)

func opened(t *testing.T) (*hands.Desk, *Page) {
	t.Helper()
	d := hands.NewDesk(t, hands.Shop(), nil)
	p := New(d, d.Machine)
	d.Beside(p)
	return d, p
}

func sample(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sketch", name)
}

// A picture by its path: what is wrong is said at the field, and a right one is laid on
// the plan, ready to be fitted.
func TestByPath(t *testing.T) {
	d, _ := opened(t)
	text := filepath.Join(t.TempDir(), "text.png")
	if err := os.WriteFile(text, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	path := d.Hinted("Type its path")
	for bad, says := range map[string]string{" ": "type the path", filepath.Join(t.TempDir(), "none.png"): "there is no file", "~/none at all.png": "there is no file"} {
		d.Type(path, bad)
		d.Reads(says)
	}
	d.Key(path, fyne.KeyEscape)
	if path.Text != "" {
		t.Errorf("Esc leaves %q", path.Text)
	}
	d.Type(path, text)
	if !strings.Contains(d.Told, "PNG or JPEG") {
		t.Errorf("of a file that is no picture it says %q: %s", d.Told, d.Text())
	}
	d.Type(path, sample("sketch.jpg"))
	s := d.Job().Sketch
	if !s.Any() || d.Drawn.Name() != tool.NewScaleSketch().Name() || d.Last() != "turn" {
		t.Fatalf("picture %v, tool %v, asked %v; it says %q", s.Any(), d.Drawn, d.Asked, d.Told)
	}
	if wide, high := s.Corners[1].X-s.Corners[0].X, s.Corners[0].Y-s.Corners[3].Y; wide <= high {
		t.Errorf("the photograph, held upright, lies %s wide and %s high: it was not turned", wide.Text(0), high.Text(0))
	}
}

func TestFitAndChange(t *testing.T) {
	d, _ := opened(t)
	d.Type(d.Hinted("Type its path"), sample("sketch.png"))
	s := func() job.Sketch { return d.Job().Sketch }
	d.Fill("Fade", "70")
	d.Fill("Fade", "170")
	if got := s().Fade; got != 70 {
		t.Errorf("faded by %d", got)
	}
	was := s().Corners[0]
	d.Press("Turn 90°")
	if s().Corners[0] == was {
		t.Error("it was not turned")
	}
	d.Tick("Locked", 0)
	was = s().Corners[0]
	d.Press("Turn 90°")
	if !s().Locked || s().Corners[0] != was || !strings.Contains(d.Told, "locked") {
		t.Errorf("a locked sketch was turned; it says %q", d.Told)
	}
	d.Tick("Hidden", 0)
	if !s().Hidden {
		t.Error("it is not hidden")
	}
	for name, tool := range map[string]tool.State{"Known lengths": tool.NewScaleSketch(), "Four corners": tool.NewSquareSketch(), "Move it": &tool.MoveSketch{}} {
		if d.Press(name); d.Drawn.Name() != tool.Name() {
			t.Errorf("%s starts %s", name, d.Drawn.Name())
		}
	}
	back, err := job.Read(bytes.NewReader(d.Job().Encode()))
	if err != nil || back.Sketch.Image != s().Image || !back.Sketch.Hidden {
		t.Errorf("not in the job's file: %v", err)
	}
	d.Press("Remove")
	if s().Any() {
		t.Error("the sketch is still there")
	}
	d.Undo()
	if !s().Any() {
		t.Error("undo does not bring it back")
	}
}

// A PDF file is drawn over page by page.
func TestPageOfPDF(t *testing.T) {
	if testing.Short() {
		t.Skip("what reads PDF files takes seconds to begin")
	}
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	d, p := opened(t)
	path := filepath.Join(t.TempDir(), "house.pdf")
	text := "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R 4 0 R]/Count 2>>endobj\n" +
		"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 100]>>endobj\n4 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 100 300]>>endobj\ntrailer<</Root 1 0 R>>\n"
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	p.Dropped([]fyne.URI{storage.NewFileURI(path)})
	tall := func() bool {
		c := d.Job().Sketch.Corners
		return c[0].Y-c[3].Y > c[1].X-c[0].X
	}
	if !d.Job().Sketch.Any() || tall() {
		t.Fatalf("the first page is not there; it says %q", d.Told)
	}
	d.Select("Page", "2 of 2")
	if !tall() {
		t.Errorf("the second page is not there; it says %q", d.Told)
	}
	d.Undo()
	d.ReadsNot("2 of 2") // the page that is there again is not known to be of the file
}

// A photograph that the camera was held on its side for is laid upright.
func TestPhotograph(t *testing.T) {
	d, p := opened(t)
	var b bytes.Buffer
	img := image.NewGray(image.Rect(0, 0, 200, 120))
	for i := range img.Pix {
		img.Pix[i] = 240
	}
	img.SetGray(30, 30, color.Gray{Y: 20})
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	// Exif with orientation 6: the first row is the right-hand side (CIPA DC-008).
	tag := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(tag) + 2)}, tag...)
	path := filepath.Join(t.TempDir(), "photo.jpg")
	if err := os.WriteFile(path, append(head, b.Bytes()[2:]...), 0o600); err != nil {
		t.Fatal(err)
	}
	p.Dropped([]fyne.URI{storage.NewFileURI(path)})
	raw, err := base64.StdEncoding.DecodeString(d.Job().Sketch.Image)
	if err != nil {
		t.Fatal(err)
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(raw))
	if err != nil || c.Width != 120 || c.Height != 200 {
		t.Errorf("kept as %d by %d, want 120 by 200; %v; it says %q", c.Width, c.Height, err, d.Told)
	}
	p.Dropped([]fyne.URI{storage.NewFileURI("/notes.txt")})
	if !strings.Contains(d.Told, "PNG, JPEG or PDF") {
		t.Errorf("of a text it says %q", d.Told)
	}
}
