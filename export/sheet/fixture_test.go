package sheet

import (
	"bytes"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

var fixedDate = time.Date(2024, 4, 12, 0, 0, 0, 0, time.UTC)

func demoJob(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// handovers are those of the tests so far, by job file: many look at the same jobs.
var handovers sync.Map

// handed gives the handover of a job that is priced with the starting list. It is shared:
// what it has is computed once, and changed by nobody.
func handed(t testing.TB, j job.Job) *handover.Handover {
	t.Helper()
	h, _ := handovers.LoadOrStore(string(j.Encode()), handover.Of(handover.From{Job: j.Clone(), Prices: estimate.Starting(j.Units)}))
	return h.(*handover.Handover)
}

// taken gives the takeoff of a handover.
func taken(t testing.TB, h *handover.Handover) takeoff.Takeoff {
	t.Helper()
	out, err := h.Takeoff(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// show writes a document where HAUNCH_SHOW says, to look at.
func show(t testing.TB, name string, data []byte) {
	if dir := os.Getenv("HAUNCH_SHOW"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// logo is an invented sign: a bar over a ramp, on clear ground.
func logo(w, h int) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			if y < h/3 || y > h-(x*h/w)/2 {
				img.Set(x, y, color.NRGBA{0x20, 0x40, 0x30, 0xff})
			}
		}
	}
	return img
}

// A logo of any shape stands in its field of the title block and on the bid.
func TestLogo(t *testing.T) {
	j := demoJob(t)
	h := handed(t, j)
	for name, img := range map[string]image.Image{"wide": logo(400, 60), "square": logo(100, 100), "tall": logo(30, 200), "dot": logo(1, 1), "none": logo(0, 0)} {
		o := Options{Date: fixedDate, Company: Company{Name: "Example Concrete and Masonry of the Valley", Lines: []string{"1 Sample Lane, Sampletown", "555 0100", "License 0000000", "a fourth line"}, Logo: img}}
		pages, err := Pages(t.Context(), h, o)
		if err != nil {
			t.Fatal(err)
		}
		bid, err := BidPages(t.Context(), h, o)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range []Page{pages[0], bid[0]} {
			for _, s := range overlaps(p) {
				t.Errorf("%s: %s", name, s)
			}
			pictures := 0
			for _, it := range p.Items {
				pic, ok := it.(Picture)
				if !ok {
					continue
				}
				pictures++
				b := img.Bounds()
				box := rect{X0: pic.At.X, Y0: pic.At.Y, X1: pic.At.X + pic.Width, Y1: pic.At.Y + pic.Width*float64(b.Dy())/float64(b.Dx())}
				if box.X0 < margin || box.Y0 < margin || box.Y1 > p.Height-margin || i == 0 && box.Y1 > margin+titleBlock || box.Width() < 0.5 {
					t.Errorf("%s: logo at %v", name, box)
				}
				for _, it := range p.Items {
					if x, ok := it.(Text); ok && x.box().Hits(boxOfRect(box)) {
						t.Errorf("%s: %q on the logo", name, x.Text)
					}
				}
			}
			if want := 1; name != "none" && pictures != want || name == "none" && pictures != 0 {
				t.Errorf("%s: %d pictures", name, pictures)
			}
		}
		var b bytes.Buffer
		if err := Write(t.Context(), &b, h, o); err != nil {
			t.Fatal(err)
		}
		show(t, "logo-"+name+".pdf", b.Bytes())
	}
}

func boxOfRect(r rect) box { return r.Box() }

func TestDemo(t *testing.T) {
	j := demoJob(t)
	var b bytes.Buffer
	if err := Write(t.Context(), &b, handed(t, j), Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	show(t, "demo.pdf", b.Bytes())
}
