package sheet

import (
	"bytes"
	"encoding/base64"
	"errors"
	"image"
	"image/png"
	"strings"
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/visit"
	"haunchbook.example/geometry"
)

// Photographs are printed all, each once, with mark, day and words, none over another; the
// plan has the marks of those that were placed.
func TestPhotos(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30))); err != nil {
		t.Fatal(err)
	}
	j := job.New()
	if _, err := PhotoPages(handover.Of(handover.From{Job: j}), Options{Date: fixedDate}); !errors.Is(err, errNoPhotos) {
		t.Errorf("without photographs: %v", err)
	}
	j.Slabs[0] = demoJob(t).Slabs[0]
	for n := range 9 {
		p := visit.Photo{Name: "from where " + strings.Repeat("far ", n*6), Image: base64.StdEncoding.EncodeToString(b.Bytes()), Placed: n%2 == 0}
		p.At = geometry.Point{X: geometry.Length(n) * 4 * geometry.Foot, Y: -6 * geometry.Foot}
		j.Visit.Photos = append(j.Visit.Photos, p)
	}
	pages, err := PhotoPages(handover.Of(handover.From{Job: j}), Options{Date: fixedDate})
	if err != nil || len(pages) != 2 {
		t.Fatalf("%d pages, want 2: %v", len(pages), err)
	}
	all, pictures := texts(pages...), 0
	for n, p := range j.Visit.Photos {
		want := 1
		if p.Placed {
			want = 2
		}
		got := 0
		for _, text := range all {
			if text == visit.Mark(n) {
				got++
			}
		}
		if got != want {
			t.Errorf("%s stands %d times, want %d", visit.Mark(n), got, want)
		}
	}
	for _, p := range pages {
		for _, it := range p.Items {
			if _, ok := it.(Picture); ok {
				pictures++
			}
		}
		for _, s := range overlaps(p) {
			t.Error(s)
		}
	}
	if pictures != len(j.Visit.Photos) {
		t.Errorf("%d pictures", pictures)
	}
}
