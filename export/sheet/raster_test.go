package sheet

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"

	"haunchbook/app/job"
)

// only gives the page with the items that keep says.
func (p Page) only(keep func(i int, it Item) bool) Page {
	var items []Item
	for i, it := range p.Items {
		if keep(i, it) {
			items = append(items, it)
		}
	}
	p.Items = items
	return p
}

// printed rasterises pages as another program prints their PDF.
func printed(t *testing.T, dpi int, pages ...Page) []*image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("CI") == "" {
			t.Skip("pdftoppm is not installed: go run ./cmd/dev test installs it")
		}
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := writePDF(&b, "test", pages, Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "x.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-gray", "-r", fmt.Sprint(dpi), file, filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "p-*.pgm"))
	if err != nil || len(names) != len(pages) {
		t.Fatalf("%d pictures of %d pages: %v", len(names), len(pages), err)
	}
	slices.Sort(names)
	out := make([]*image.Gray, len(names))
	for i, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var w, h, most int
		if _, err := fmt.Sscanf(string(data[:min(40, len(data))]), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil || len(data) < w*h {
			t.Fatalf("no grey picture: %v", err)
		}
		out[i] = &image.Gray{Pix: data[len(data)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
	}
	return out
}

// Ink counts where a pixel is darker than the palest line in the drawing is when
// it covers half a pixel.
const ink = 0x80

// both counts the pixels that are inked in both pictures, and gives one.
func both(a, b *image.Gray) (n int, at image.Point) {
	for i := range a.Pix {
		if a.Pix[i] < ink && b.Pix[i] < ink {
			n++
			at = image.Pt(i%a.Stride, i/a.Stride)
		}
	}
	return n, at
}

// Printed by another program, no text has ink where a line or another text has:
// shown by printing the texts and the lines apart, and then the texts apart by
// each binary digit of their number, so that every two of them are apart once.
func TestNoInkOnInk(t *testing.T) {
	if testing.Short() {
		t.Skip("prints some hundred pages")
	}
	const dpi = 150
	plans := append(corpus(), awkward{"demo", demoJob(t)})
	for _, c := range plans {
		t.Run(c.name, func(t *testing.T) {
			pages, err := Pages(c.job, taken(t, c.job), Options{Date: fixedDate})
			if err != nil {
				t.Fatal(err)
			}
			if c.name != "demo" {
				pages = pages[:1]
			}
			for _, p := range pages {
				isText := func(it Item) bool { _, ok := it.(Text); return ok }
				parts := []Page{
					p.only(func(_ int, it Item) bool { return isText(it) }),
					// What only tints the paper is no line.
					p.only(func(_ int, it Item) bool { l, ok := it.(Line); return !isText(it) && (!ok || l.Pen.Width > 0) }),
				}
				for bit := range 9 {
					for v := range 2 {
						parts = append(parts, p.only(func(i int, it Item) bool { return isText(it) && i>>bit&1 == v }))
					}
				}
				pics := printed(t, dpi, parts...)
				dark := 0
				for _, v := range pics[0].Pix {
					if v < ink {
						dark++
					}
				}
				if dark < 500 {
					t.Fatalf("%s: the texts have no ink", p.Name)
				}
				// White numbers in dark circles stand on their circle.
				if n, at := both(pics[0], pics[1]); n > 0 {
					t.Errorf("%s: text on lines, %d pixels, as at %v mm", p.Name, n, mm(at, dpi))
				}
				for k := 2; k < len(pics); k += 2 {
					if n, at := both(pics[k], pics[k+1]); n > 0 {
						t.Errorf("%s: text on text, %d pixels, as at %v mm", p.Name, n, mm(at, dpi))
					}
				}
			}
		})
	}
}

func mm(p image.Point, dpi float64) string {
	return fmt.Sprintf("%.0f, %.0f", float64(p.X)/dpi*25.4, float64(p.Y)/dpi*25.4)
}

// A sheet that prints on a one-colour printer: each ink is far from white.
func TestInksAreDarkInGrey(t *testing.T) {
	for _, c := range []color.RGBA{black, grey, blue, red} {
		if y := color.GrayModel.Convert(c).(color.Gray).Y; y > 0x60 {
			t.Errorf("%v is %d of 255 in grey", c, y)
		}
	}
	for _, c := range []color.RGBA{pale, paler} {
		if y := color.GrayModel.Convert(c).(color.Gray).Y; y < 0xe0 {
			t.Errorf("tint %v is %d of 255 in grey: text on it is hard to read", c, y)
		}
	}
}

var update = flag.Bool("update", false, "write the golden pictures")

// The drawings look as they did, but for a little.
func TestGoldenPictures(t *testing.T) {
	for _, name := range []string{"ell", "turned ell", "holes", "pads", "metric"} {
		var j job.Job
		for _, c := range corpus() {
			if c.name == name {
				j = c.job
			}
		}
		p, err := LayoutDrawing(j, taken(t, j))
		if err != nil {
			t.Fatal(err)
		}
		got := smaller(rasterizer.Draw(p.Canvas(), canvas.DPI(100), canvas.SRGBColorSpace{}))
		file := filepath.Join("testdata", "golden", name+".png")
		if *update {
			var b bytes.Buffer
			if err := png.Encode(&b, got); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		want := image.NewGray(img.Bounds())
		draw.Draw(want, want.Rect, img, img.Bounds().Min, draw.Src)
		if got.Rect.Size() != want.Rect.Size() {
			t.Errorf("%s: %v, golden %v; look at it and run with -update", name, got.Rect, want.Rect)
			continue
		}
		off := 0
		for i := range got.Pix {
			if math.Abs(float64(got.Pix[i])-float64(want.Pix[i])) > 48 {
				off++
			}
		}
		// A label that moved by its own height is well above this.
		if share := float64(off) / float64(len(got.Pix)); share > 0.001 {
			t.Errorf("%s: %.2f %% of the picture differs; look at it and run with -update", name, share*100)
		}
	}
}

// smaller gives a picture at half size in grey, which forgives a pixel's shift.
func smaller(img image.Image) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx()/2, b.Dy()/2))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sum := 0
			for k := range 4 {
				sum += int(color.GrayModel.Convert(img.At(b.Min.X+2*x+k%2, b.Min.Y+2*y+k/2)).(color.Gray).Y)
			}
			out.SetGray(x, y, color.Gray{uint8(sum / 4)})
		}
	}
	return out
}
