package paint_test

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"golang.org/x/image/font/gofont/goregular"
	"pgregory.net/rapid"

	"haunchbook.example/app/window/canvas/paint"
)

var (
	white = color.NRGBA{255, 255, 255, 255}
	black = color.NRGBA{0, 0, 0, 255}
)

// ink sums how much black there is, in pixels.
func ink(b *paint.Brush) float64 {
	sum := 0.0
	for i := 0; i < len(b.Img.Pix); i += 4 {
		sum += 1 - float64(b.Img.Pix[i])/255
	}
	return sum
}

func TestLinesCoverTheirArea(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var b paint.Brush
		b.Reset(200, 200, white)
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(rt, "angle")
		width := rapid.Float64Range(1, 9).Draw(rt, "width")
		const length = 120
		s, c := math.Sincos(angle)
		b.Line(paint.Point{X: 100 - c*length/2, Y: 100 - s*length/2}, paint.Point{X: 100 + c*length/2, Y: 100 + s*length/2}, width, black)
		// Coverage goes by the distance from the line, a tent two pixels wide. At 45
		// degrees pixels lie 0.707 apart across: on the line itself the tent sums to
		// 0.707 (1 + 2·0.293) = 1.12, an eighth of a pixel too much. The ends add a
		// pixel or two.
		if got, want := ink(&b), length*width; math.Abs(got-want) > length/8.+3 {
			rt.Fatalf("covers %g pixels, want %g", got, want)
		}
	})
}

func TestFillCoversTheArea(t *testing.T) {
	var b paint.Brush
	b.Reset(200, 200, white)
	outer := []paint.Point{{X: 10.5, Y: 10.25}, {X: 150.25, Y: 20}, {X: 120, Y: 180.5}}
	hole := []paint.Point{{X: 90, Y: 60}, {X: 110, Y: 60}, {X: 110, Y: 80}, {X: 90, Y: 80}}
	b.Fill([][]paint.Point{outer, hole}, black)
	area := func(p []paint.Point) float64 {
		a := 0.0
		for i := range p {
			q := p[(i+1)%len(p)]
			a += p[i].X*q.Y - q.X*p[i].Y
		}
		return math.Abs(a) / 2
	}
	if got, want := ink(&b), area(outer)-area(hole); math.Abs(got-want) > 0.002*want {
		t.Errorf("covers %g pixels, want %g", got, want)
	}
}

func TestNothingDrawsOutsideTheImage(t *testing.T) {
	fonts, err := paint.NewFonts(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		b := paint.Brush{Fonts: fonts}
		b.Reset(40, 30, white)
		coordinate := rapid.OneOf(rapid.Float64Range(-60, 90), rapid.Float64())
		p := paint.Point{X: coordinate.Draw(rt, "px"), Y: coordinate.Draw(rt, "py")}
		q := paint.Point{X: coordinate.Draw(rt, "qx"), Y: coordinate.Draw(rt, "qy")}
		w := rapid.Float64Range(0, 20).Draw(rt, "width")
		b.Line(p, q, w, black)
		b.Fill([][]paint.Point{{p, q, {X: 3, Y: 4}}}, black)
		b.Circle(p, w, 1, black)
		b.Rect(p.X, p.Y, q.X, q.Y, black)
		b.Text("24'-0\"", p, 12, true, black)
		b.Text("24'-0\"", q, 12, false, color.NRGBA{0, 0, 0, 90})
		if math.Abs(p.X)+math.Abs(p.Y)+math.Abs(q.X)+math.Abs(q.Y) < 1e6 {
			b.Dashes(p, q, 3, 2, w, black)
		}
	})
}

func TestTurnedTextIsTheSameTurned(t *testing.T) {
	fonts, err := paint.NewFonts(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	b := paint.Brush{Fonts: fonts}
	b.Reset(100, 100, white)
	b.Text("12'-6\"", paint.Point{X: 50, Y: 50}, 14, false, black)
	flat := ink(&b)
	b.Reset(100, 100, white)
	b.Text("12'-6\"", paint.Point{X: 50, Y: 50}, 14, true, black)
	if turned := ink(&b); flat == 0 || math.Abs(turned-flat) > 1e-6 {
		t.Errorf("%g pixels of ink flat, %g turned", flat, turned)
	}
}

func TestSteadyStateAllocatesNothing(t *testing.T) {
	fonts, err := paint.NewFonts(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	b := paint.Brush{Fonts: fonts}
	ring := [][]paint.Point{{{X: 10, Y: 10}, {X: 150, Y: 20}, {X: 120, Y: 180}}}
	frame := func() {
		b.Reset(200, 200, white)
		b.Fill(ring, black)
		b.Line(paint.Point{X: 1, Y: 2}, paint.Point{X: 190, Y: 77}, 2, black)
		b.Dashes(paint.Point{X: 1, Y: 2}, paint.Point{X: 190, Y: 77}, 5, 3, 2, black)
		b.Text("24'-0\"", paint.Point{X: 50, Y: 50}, 12, false, black)
	}
	frame()
	if n := testing.AllocsPerRun(20, frame); n > 0 {
		t.Errorf("%g allocations a frame", n)
	}
}

// Squared paper is the same as an empty sheet with a box for each line.
func TestRuledPaper(t *testing.T) {
	fine, bold := color.NRGBA{200, 210, 220, 255}, color.NRGBA{90, 100, 110, 255}
	var got, want paint.Brush
	got.Ruled(61, 47, white,
		paint.Ruling{Columns: []int{-3, 0, 9, 18, 60, 61}, Rows: []int{-1, 4, 13, 22}, Color: fine},
		paint.Ruling{Columns: []int{9, 40}, Rows: []int{13, 46, 90}, Color: bold})
	want.Reset(61, 47, white)
	for _, l := range []struct {
		columns, rows []float64
		c             color.NRGBA
	}{{[]float64{0, 9, 18, 60}, []float64{4, 13, 22}, fine}, {[]float64{9, 40}, []float64{13, 46}, bold}} {
		for _, x := range l.columns {
			want.Rect(x, 0, x+1, 47, l.c)
		}
		for _, y := range l.rows {
			want.Rect(0, y, 61, y+1, l.c)
		}
	}
	if string(got.Img.Pix) != string(want.Img.Pix) {
		t.Error("the pictures differ")
	}
}

// What is noted and drawn in tiles is the picture that is drawn at once, whatever was drawn
// before.
func TestTilesMakeTheSamePicture(t *testing.T) {
	fonts, err := paint.NewFonts(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		w, h := rapid.IntRange(1, 700).Draw(rt, "w"), rapid.IntRange(1, 300).Draw(rt, "h")
		at := func(name string) paint.Point {
			return paint.Point{X: rapid.Float64Range(-60, 760).Draw(rt, name+" x"), Y: rapid.Float64Range(-60, 360).Draw(rt, name+" y")}
		}
		var draw []func(*paint.Brush)
		for range rapid.IntRange(1, 30).Draw(rt, "things") {
			p, q, r := at("p"), at("q"), at("r")
			size := rapid.Float64Range(0.3, 30).Draw(rt, "size")
			c := color.NRGBA{uint8(rapid.Byte().Draw(rt, "red")), 90, 40, rapid.SampledFrom([]uint8{70, 255}).Draw(rt, "alpha")}
			switch rapid.IntRange(0, 5).Draw(rt, "kind") {
			case 0:
				draw = append(draw, func(b *paint.Brush) { b.Line(p, q, size/5, c) })
			case 1:
				draw = append(draw, func(b *paint.Brush) { b.Dashes(p, q, size, size/2+1, size/9, c) })
			case 2:
				draw = append(draw, func(b *paint.Brush) { b.Circle(p, size, 1.5, c) })
			case 3:
				draw = append(draw, func(b *paint.Brush) { b.Rect(p.X, p.Y, q.X, q.Y, c) })
			case 4:
				draw = append(draw, func(b *paint.Brush) { b.Fill([][]paint.Point{{p, q, r}, {q, r, {X: 20, Y: 30}}}, c) })
			case 5:
				draw = append(draw, func(b *paint.Brush) { b.Text("24'-0\"", p, 12, size > 10, c) })
			}
		}
		one, noted := paint.Brush{Fonts: fonts}, paint.Brush{Fonts: fonts}
		one.Reset(w, h, white)
		for _, f := range draw {
			f(&one)
		}
		picture := func(b *paint.Brush, draw []func(*paint.Brush), columns ...int) string {
			b.Begin(w, h)
			b.Ruled(w, h, white, paint.Ruling{Columns: columns, Rows: columns, Color: black})
			for i, f := range draw {
				if i == len(draw)/2 {
					b.Go()
				}
				f(b)
			}
			b.End()
			return string(b.Img.Pix)
		}
		// What is kept from the time before, of which some is left out or comes in, is no matter.
		for range 4 {
			some := slices.DeleteFunc(slices.Clone(draw), func(func(*paint.Brush)) bool { return rapid.IntRange(0, 3).Draw(rt, "left out") == 0 })
			column := rapid.IntRange(0, 20).Draw(rt, "column") / 10 * 70
			fresh := paint.Brush{Fonts: fonts}
			if picture(&noted, some, column) != picture(&fresh, some, column) {
				rt.Fatal("a picture drawn after another differs from the same drawn alone")
			}
		}
		picture(&noted, draw)
		off, most := 0, 0
		for i, v := range one.Img.Pix {
			// A line that is cut at another place may be rounded otherwise, by up to 3 of 255 as
			// found, and by up to 16 in a pixel where it leaves the picture.
			d := int(v) - int(noted.Img.Pix[i])
			most = max(most, d, -d)
			if max(d, -d) > 4 {
				off++
			}
		}
		if off > 4*len(draw) || most > 24 {
			rt.Fatalf("%d of %d values differ, by up to %d", off, len(one.Img.Pix), most)
		}
	})
}
