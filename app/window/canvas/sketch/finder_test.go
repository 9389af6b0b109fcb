package sketch

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"haunchbook.example/geometry"
)

// pen draws a line of so many pixels' width, with soft edges, on paper with some
// noise.
func pen(img *image.RGBA, a, b XY, width float64) {
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			p := XY{float64(x) + 0.5, float64(y) + 0.5}
			dx, dy := b.X-a.X, b.Y-a.Y
			t := min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0), 1)
			d := math.Hypot(a.X+t*dx-p.X, a.Y+t*dy-p.Y)
			ink := min(max(width/2+0.5-d, 0), 1)
			if c := img.RGBAAt(x, y); ink > 0 {
				l := uint8(float64(c.R) - ink*(float64(c.R)-50))
				img.SetRGBA(x, y, color.RGBA{l, l, l, 255})
			}
		}
	}
}

func paper(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(1, 2))
	for i := 0; i < len(img.Pix); i += 4 {
		l := uint8(225 + r.IntN(14))
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = l, l, l, 255
	}
	return img
}

// A sketch of 400 by 300 pixels laid over 40 by 30 ft, 10 pixels to the foot, with
// an L of two strokes, a slanted stroke and a crossing.
func TestSketchIsFound(t *testing.T) {
	for _, width := range []float64{2, 4} {
		img := paper(400, 300)
		pen(img, XY{100, 200}, XY{300, 200}, width) // corner at 100, 200
		pen(img, XY{100, 200}, XY{100, 60}, width)
		pen(img, XY{200, 200}, XY{280, 40}, width) // meets the first at 200, 200
		s, err := NewFinder(img, []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)})
		if err != nil {
			t.Fatal(err)
		}
		in := geometry.Inch
		tests := []struct {
			at     geometry.Point
			want   geometry.Point
			corner bool
			ok     bool
		}{
			{pt(10*ft+4*in, 10*ft-4*in), pt(10*ft, 10*ft), true, true},
			{pt(9*ft+5*in, 10*ft+5*in), pt(10*ft, 10*ft), true, true},
			{pt(20*ft-4*in, 10*ft+4*in), pt(20*ft, 10*ft), true, true},
			{pt(15*ft, 10*ft+5*in), pt(15*ft, 10*ft), false, true},
			{pt(10*ft+6*in, 17*ft), pt(10*ft, 17*ft), false, true},
			{pt(33*ft, 4*ft), geometry.Point{}, false, false},
			{pt(-4*ft, 4*ft), geometry.Point{}, false, false},
		}
		for _, test := range tests {
			got, corner, ok := s.Find(test.at, 10*in)
			if ok != test.ok || corner != test.corner {
				t.Errorf("pen %g at %s, %s: corner %v, found %v", width, test.at.X.Text(0), test.at.Y.Text(0), corner, ok)
				continue
			}
			// A pixel of the picture is 1.2 in.
			if d := geometry.Distance(got, test.want); ok && d > in*12/10 {
				t.Errorf("pen %g at %s, %s: found %s, %s, off by %s", width, test.at.X.Text(0), test.at.Y.Text(0), got.X.Text(0), got.Y.Text(0), d.Text(0))
			}
		}
		// On the slanted line, whose direction is 80 by 160 pixels.
		got, _, ok := s.Find(pt(24*ft+4*in, 18*ft), 10*in)
		if off := math.Abs(float64(got.X-20*ft)*2-float64(got.Y-10*ft)) / math.Sqrt(5); !ok || off > float64(in)*0.6 {
			t.Errorf("pen %g: %g in off the slanted line", width, off/float64(in))
		}
	}
}

// Nothing is found on a dark field, nor on paper that darkens evenly.
func TestNoSketchIsFoundWhereNoneIs(t *testing.T) {
	img := paper(200, 200)
	for y := range 200 {
		for x := range 200 {
			l := uint8(60 + x/2)
			if x > 100 && y > 100 {
				l = 20
			}
			img.SetRGBA(x, y, color.RGBA{l, l, l, 255})
		}
	}
	s, err := NewFinder(img, []geometry.Point{pt(0, 20*ft), pt(20*ft, 20*ft), pt(20*ft, 0), pt(0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []geometry.Point{pt(4*ft, 10*ft), pt(16*ft, 4*ft)} {
		if p, corner, ok := s.Find(at, ft); ok {
			t.Errorf("found %v, corner %v", p, corner)
		}
	}
}

func FuzzSketch(f *testing.F) {
	f.Add([]byte{1, 2, 3, 250, 4}, 100, 100)
	f.Fuzz(func(t *testing.T, pix []byte, x, y int) {
		img := image.NewRGBA(image.Rect(0, 0, 32, 24))
		copy(img.Pix, pix)
		s, err := NewFinder(img, []geometry.Point{pt(0, 30*ft), pt(40*ft, 28*ft), pt(40*ft, 0), pt(0, 0)})
		if err != nil {
			t.Fatal(err)
		}
		at := pt(geometry.Length(x%1000)*geometry.Inch, geometry.Length(y%1000)*geometry.Inch)
		if p, _, ok := s.Find(at, ft); ok && geometry.Distance(p, at) > 20*ft {
			t.Errorf("%v leads to %v", at, p)
		}
	})
}

func BenchmarkSketch(b *testing.B) {
	img := paper(400, 300)
	pen(img, XY{100, 200}, XY{300, 200}, 3)
	s, err := NewFinder(img, []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.Find(pt(15*ft, 10*ft+ft/3), 2*ft)
	}
}
