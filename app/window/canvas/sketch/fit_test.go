package sketch

import (
	"image"
	"image/color"
	"math"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func TestBetweenTakesFourPointsToFour(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		jitter := rapid.Float64Range(-0.3, 0.3)
		scale := rapid.Float64Range(1, 1e10).Draw(rt, "scale")
		var from, to [4]XY
		for i, c := range [4]XY{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
			from[i] = XY{(c.X + jitter.Draw(rt, "x")) * 1000, (c.Y + jitter.Draw(rt, "y")) * 1000}
			to[i] = XY{(c.X + jitter.Draw(rt, "u")) * scale, (c.Y + jitter.Draw(rt, "v")) * scale}
		}
		m, err := Between(from, to)
		if err != nil {
			rt.Skip("degenerate")
		}
		for i := range from {
			if g := m.Apply(from[i]); math.Hypot(g.X-to[i].X, g.Y-to[i].Y) > 1e-6*scale {
				rt.Fatalf("point %d went to %v, want %v", i, g, to[i])
			}
		}
	})
	if _, err := Between([4]XY{{0, 0}, {1, 1}, {2, 2}, {0, 1}}, [4]XY{{0, 0}, {1, 0}, {1, 1}, {0, 1}}); err == nil {
		t.Error("three points in a line were taken")
	}
}

// A photograph of a 24 by 18 ft rectangle in perspective: its corners go to a
// rectangle, and so must the crossing of its diagonals go to the middle, since
// projective maps keep straight lines straight.
func TestSquareTakesPerspectiveOut(t *testing.T) {
	corners := []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)}
	seen := [4]geometry.Point{pt(5*ft, 4*ft), pt(33*ft, 5*ft), pt(27*ft, 21*ft), pt(9*ft, 20*ft)}
	got, err := Square(corners, seen, 24*ft, 18*ft)
	if err != nil {
		t.Fatal(err)
	}
	m, err := Between(four(corners), four(got))
	if err != nil {
		t.Fatal(err)
	}
	want := [4]geometry.Point{seen[0], seen[0].Add(pt(24*ft, 0)), seen[0].Add(pt(24*ft, 18*ft)), seen[0].Add(pt(0, 18*ft))}
	for i, p := range seen {
		if d := geometry.Distance(point(m.Apply(xy(p))), want[i]); d > geometry.Micrometer {
			t.Errorf("corner %d is off by %d nm", i, d)
		}
	}
	cross, ok := geometry.Meet(seen[0], seen[2], seen[1], seen[3])
	if d := geometry.Distance(point(m.Apply(xy(cross))), seen[0].Add(pt(12*ft, 9*ft))); !ok || d > geometry.Micrometer {
		t.Errorf("the diagonals cross %d nm from the middle", d)
	}
	if _, err := Square(corners, [4]geometry.Point{seen[0], seen[2], seen[1], seen[3]}, 24*ft, 18*ft); err == nil {
		t.Error("corners out of order were taken")
	}
}

func TestScaleByAKnownLength(t *testing.T) {
	corners := Place(image.Pt(400, 300), pt(0, 0), pt(40*ft, 40*ft))
	known := func(length geometry.Length, turned bool, degrees float64) []Known {
		var k Known
		for at, p := range map[geometry.Point]*XY{pt(10*ft, 10*ft): &k.A, pt(20*ft, 10*ft): &k.B} {
			on, err := On(corners, at)
			if err != nil {
				t.Fatal(err)
			}
			*p = on
		}
		k.Length, k.Turned, k.Degrees = length, turned, degrees
		return []Known{k}
	}
	got, _, err := Fit(corners, known(5*ft, false, 0))
	if err != nil {
		t.Fatal(err)
	}
	if w := geometry.Distance(got[0], got[1]); (w - 20*ft).Abs() > geometry.Micrometer {
		t.Errorf("the picture is %v wide, want half of 40 ft", w.Text(0))
	}
	got, _, err = Fit(corners, known(10*ft, true, 90))
	if err != nil {
		t.Fatal(err)
	}
	if d := got[1].Sub(got[0]); d.X.Abs() > geometry.Micrometer || d.Y < 39*ft {
		t.Errorf("the upper side leads %v, want straight up", d)
	}
}

// A picture that is turned keeps its shape, and four turns bring it back.
func TestTurnKeepsTheShape(t *testing.T) {
	corners := []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)}
	got := Turn(corners)
	if want := pt(5*ft, -5*ft); got[0] != want {
		t.Errorf("the upper left corner goes to %v, want the lower left one at %v", got[0], want)
	}
	if w, h := geometry.Distance(got[0], got[1]), geometry.Distance(got[1], got[2]); w != 40*ft || h != 30*ft {
		t.Errorf("it is %v by %v now", w.Text(0), h.Text(0))
	}
	for range 3 {
		got = Turn(got)
	}
	for i := range corners {
		if got[i] != corners[i] {
			t.Errorf("corner %d is at %v after four turns", i, got[i])
		}
	}
}

// quarters is a picture with a color in each quarter.
func quarters(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{R: 250, A: 255}
			switch {
			case x >= w/2 && y < h/2:
				c = color.RGBA{G: 250, A: 255}
			case x >= w/2:
				c = color.RGBA{B: 250, A: 255}
			case y >= h/2:
				c = color.RGBA{R: 250, G: 250, A: 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

func TestDrawPutsCornersWhereTheyBelong(t *testing.T) {
	dst := image.NewRGBA(image.Rect(0, 0, 100, 100))
	Draw(dst, quarters(40, 40), [4]XY{{10, 20}, {90, 10}, {80, 90}, {20, 80}}, 1, false)
	for at, want := range map[[2]int]color.RGBA{
		{20, 25}: {R: 250}, {80, 20}: {G: 250}, {72, 80}: {B: 250}, {27, 72}: {R: 250, G: 250}, {3, 3}: {},
	} {
		if got := dst.RGBAAt(at[0], at[1]); got.R != want.R || got.G != want.G || got.B != want.B {
			t.Errorf("at %v: %v, want %v", at, got, want)
		}
	}
	Draw(dst, quarters(40, 40), [4]XY{{10, 20}, {90, 10}, {80, 90}, {20, 80}}, 1, true)
	if got := dst.RGBAAt(20, 25); got.R != 5 || got.G != 255 || got.B != 255 {
		t.Errorf("the negative of red is %v", got)
	}
}
