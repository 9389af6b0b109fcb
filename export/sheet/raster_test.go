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
	"strings"
	"testing"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"

	"haunchbook.example/app/job"
	"haunchbook.example/export/look"
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

// printed rasterizes pages as another program prints their PDF.
func printed(t *testing.T, dpi int, pages ...Page) []*image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("CI") == "" {
			t.Skip("pdftoppm is not installed: go run ./cmd/dev test installs it")
		}
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := writePDF(t.Context(), &b, "test", pages, Options{Date: fixedDate}); err != nil {
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
			t.Fatalf("no gray picture: %v", err)
		}
		out[i] = &image.Gray{Pix: data[len(data)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
	}
	return out
}

// inkDPI is fine enough that the least clearance between texts and lines, half a
// millimeter, is two pixels wide.
const inkDPI = 100

// A pixel is inked by a text when it is half covered, and by a line as soon as
// the palest one that crosses it leaves a trace.
const (
	textInk = 0x90
	lineInk = 0xd0
)

// inked gives the pixels of a picture that are as dark as a level.
func inked(p *image.Gray, level uint8) (out []int) {
	white := bytes.Repeat([]byte{0xff}, 64)
	for at := 0; at < len(p.Pix); at += len(white) {
		block := p.Pix[at:min(at+len(white), len(p.Pix))]
		if bytes.Equal(block, white[:len(block)]) {
			continue // most of a page is
		}
		for i, v := range block {
			if v < level {
				out = append(out, at+i)
			}
		}
	}
	return out
}

// both counts the pixels that are inked by a text in a and by a line in b, and
// gives one.
func both(a, b *image.Gray) (n int, at image.Point) {
	for _, i := range inked(a, textInk) {
		if b.Pix[i] < lineInk {
			n++
			at = image.Pt(i%a.Stride, i/a.Stride)
		}
	}
	return n, at
}

// apart parts the texts of a page so that in each part they are a good way from
// each other: those that could touch are in different parts.
func apart(p Page) (parts []Page) {
	const way = 1.5 // mm
	var boxes [][]box
	for _, it := range p.Items {
		text, ok := it.(Text)
		if !ok {
			continue
		}
		b := text.box().Grown(way)
		k := slices.IndexFunc(boxes, func(part []box) bool { return !slices.ContainsFunc(part, b.Hits) })
		if k < 0 {
			k = len(boxes)
			boxes, parts = append(boxes, nil), append(parts, p.only(func(int, Item) bool { return false }))
		}
		boxes[k] = append(boxes[k], b)
		parts[k].Items = append(parts[k].Items, it)
	}
	return parts
}

// Printed by another program, no text has ink where a line or another text has,
// on any page: shown by printing the lines, and the texts in parts whose own
// texts are far from each other.
func TestNoInkOnInk(t *testing.T) {
	if testing.Short() {
		t.Skip("prints two thousand pages")
	}
	for _, c := range append(corpus(), awkward{"demo", demoJob(t)}) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			pages, err := Pages(t.Context(), handed(t, c.job), Options{Date: fixedDate})
			if err != nil {
				t.Fatal(err)
			}
			var prints []Page
			var from []int // where each page's prints start: lines first
			for _, p := range pages {
				from = append(from, len(prints))
				prints = append(prints, p.only(func(_ int, it Item) bool { return isInk(it) }))
				prints = append(prints, apart(p)...)
			}
			pics := printed(t, inkDPI, prints...)
			for i, p := range pages {
				end := len(pics)
				if i+1 < len(pages) {
					end = from[i+1]
				}
				checkInk(t, p.Name, pics[from[i]], pics[from[i]+1:end])
			}
		})
	}
}

// isInk tells whether an item is a line, a rim or a dark shape; what only tints
// the paper is none.
func isInk(it Item) bool {
	switch v := it.(type) {
	case Line:
		return v.Pen.Width > 0 || v.Fill.A > 0 && v.Fill.R < 0x80
	case Circle:
		return true
	}
	return false
}

func checkInk(t *testing.T, page string, lines *image.Gray, texts []*image.Gray) {
	t.Helper()
	seen := make([]bool, len(lines.Pix))
	dark, twice := 0, 0
	var where image.Point
	for _, pic := range texts {
		// White numbers in dark circles leave no ink.
		if n, at := both(pic, lines); n > 0 {
			t.Errorf("%s: text on lines, %d pixels, as at %v mm", page, n, mm(at, inkDPI))
		}
		for _, i := range inked(pic, textInk) {
			dark++
			if seen[i] {
				twice++
				where = image.Pt(i%pic.Stride, i/pic.Stride)
			}
			seen[i] = true
		}
	}
	if dark < 300 {
		t.Errorf("%s: the texts have no ink", page)
	}
	if twice > 0 {
		t.Errorf("%s: text on text, %d pixels, as at %v mm", page, twice, mm(where, inkDPI))
	}
}

func mm(p image.Point, dpi float64) string {
	return fmt.Sprintf("%.0f, %.0f", float64(p.X)/dpi*25.4, float64(p.Y)/dpi*25.4)
}

// A sheet that prints on a one-color printer: each ink is far from white.
func TestInksAreDarkInGray(t *testing.T) {
	for _, c := range []color.RGBA{black, gray, blue, look.Red} {
		if y := color.GrayModel.Convert(c).(color.Gray).Y; y > 0x60 {
			t.Errorf("%v is %d of 255 in gray", c, y)
		}
	}
	for _, c := range []color.RGBA{pale, look.Paler} {
		if y := color.GrayModel.Convert(c).(color.Gray).Y; y < 0xe0 {
			t.Errorf("tint %v is %d of 255 in gray: text on it is hard to read", c, y)
		}
	}
}

var update = flag.Bool("update", false, "write the golden pictures")

// The drawings and the sheets look as they did, but for a little.
func TestGoldenPictures(t *testing.T) {
	jobs := map[string]job.Job{}
	for _, c := range corpus() {
		jobs[c.name] = c.job
	}
	for _, name := range []string{"ell", "turned ell", "holes", "pads", "metric", "three slabs"} {
		p, err := LayOut(t.Context(), handed(t, jobs[name]))
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name, p.Page)
	}
	for _, name := range []string{"three slabs", "metric ell"} {
		pages, err := Pages(t.Context(), handed(t, jobs[name]), Options{Date: fixedDate, Company: Company{Name: "Example Concrete", Lines: []string{"1 Sample Lane"}, Logo: logo(90, 60)}})
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range pages {
			if slices.ContainsFunc(texts(p), func(s string) bool { return strings.HasPrefix(s, "To check") }) {
				continue // words of the rules, which change for their own reasons
			}
			if what, _, _ := strings.Cut(p.Name, ":"); what == "Key plan" || what == "Layout" || what == "Sections and details" {
				golden(t, fmt.Sprintf("%s, sheet %d", name, i+1), p)
			}
		}
	}
}

// golden compares a page with its picture in testdata.
func golden(t *testing.T, name string, p Page) {
	t.Helper()
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
		return
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
		return
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

// smaller gives a picture on white paper at half size in gray, which forgives a pixel's shift.
func smaller(img image.Image) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx()/2, b.Dy()/2))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sum := 0
			for k := range 4 {
				c := color.NRGBAModel.Convert(img.At(b.Min.X+2*x+k%2, b.Min.Y+2*y+k/2)).(color.NRGBA)
				ink := int(c.A) * int(0xff-color.GrayModel.Convert(color.NRGBA{c.R, c.G, c.B, 0xff}).(color.Gray).Y) / 0xff
				sum += 0xff - ink
			}
			out.SetGray(x, y, color.Gray{uint8(sum / 4)})
		}
	}
	return out
}
