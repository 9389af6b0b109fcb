// Command sketch draws sketch.json as a builder would on a sheet of paper: a
// pencil sketch of the slab with its lengths, doors and the joint with the old
// slab, none of it to scale to the inch. It writes sketch.png, a scan, and
// sketch.jpg, a photograph by a camera held upright, whose Exif note says so.
//
//	go generate ./cmd/haunchbook
//
// The same job gives the same pictures, but for the last digit of floating
// point on other processors.
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"haunchbook.example/app/job"
	"haunchbook.example/assets/fonts"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The sheet: pixels, and where the slab's first corner lies on it.
const (
	width, height = 1560, 1200
	perFoot       = 34.0
	left, bottom  = 290.0, 1010.0
)

func main() {
	log.SetFlags(0)
	dir := filepath.Join("..", "..", "testdata", "sketch")
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	if err := run(dir); err != nil {
		log.Fatal("sketch: ", err)
	}
}

func run(dir string) error {
	f, err := os.Open(filepath.Join(dir, "sketch.json"))
	if err != nil {
		return err
	}
	defer f.Close()
	j, err := job.Read(f)
	if err != nil {
		return err
	}
	p, err := newPencil()
	if err != nil {
		return err
	}
	if err := p.sketch(j); err != nil {
		return err
	}
	var scan bytes.Buffer
	if err := png.Encode(&scan, p.scanned()); err != nil {
		return err
	}
	photo, err := photograph(p.paper())
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "sketch.png"), scan.Bytes(), 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "sketch.jpg"), photo, 0o644)
}

// xy is a place on the sheet, in pixels, Y down.
type xy struct{ x, y float64 }

func (a xy) add(b xy) xy            { return xy{a.x + b.x, a.y + b.y} }
func (a xy) sub(b xy) xy            { return xy{a.x - b.x, a.y - b.y} }
func (a xy) times(k float64) xy     { return xy{a.x * k, a.y * k} }
func (a xy) length() float64        { return math.Hypot(a.x, a.y) }
func (a xy) unit() xy               { return a.times(1 / math.Max(a.length(), 1e-9)) }
func (a xy) right() xy              { return xy{-a.y, a.x} } // seen on a sheet with Y down
func between(a, b xy, t float64) xy { return a.add(b.sub(a).times(t)) }

func at(p geometry.Point) xy {
	return xy{left + float64(p.X)/float64(geometry.Foot)*perFoot, bottom - float64(p.Y)/float64(geometry.Foot)*perFoot}
}

// pencil draws on a sheet with a hand that is not quite steady.
type pencil struct {
	dark []float64 // of each pixel: 0 paper, 1 as dark as the pencil gets
	rnd  *rand.Rand
	face *sfnt.Font
}

func newPencil() (*pencil, error) {
	face, err := sfnt.Parse(fonts.Regular)
	return &pencil{make([]float64, width*height), rand.New(rand.NewPCG(7, 19)), face}, err
}

// shake gives numbers between -1 and 1.
func (p *pencil) shake() float64 { return 2*p.rnd.Float64() - 1 }

// wave gives a slow random curve: how far the hand strays along a stroke.
func (p *pencil) wave(amount float64) func(t float64) float64 {
	var a, f, ph [4]float64
	for i := range a {
		a[i] = p.shake() * amount / float64(i+1)
		f[i] = (float64(i) + 0.5 + 0.4*p.rnd.Float64()) * 2 * math.Pi
		ph[i] = p.rnd.Float64() * 2 * math.Pi
	}
	return func(t float64) float64 {
		s := 0.0
		for i := range a {
			s += a[i] * math.Sin(f[i]*t+ph[i])
		}
		return s
	}
}

// dot leaves graphite on the paper.
func (p *pencil) dot(c xy, radius, pressure float64) {
	for y := int(c.y - radius - 1); y <= int(c.y+radius+1); y++ {
		for x := int(c.x - radius - 1); x <= int(c.x+radius+1); x++ {
			if x < 0 || y < 0 || x >= width || y >= height {
				continue
			}
			if cover := radius + 0.5 - math.Hypot(float64(x)-c.x, float64(y)-c.y); cover > 0 {
				d := &p.dark[y*width+x]
				*d = math.Max(*d, math.Min(1, cover)*pressure*(0.75+0.25*grain(x, y)))
			}
		}
	}
}

// grain is the tooth of the paper.
func grain(x, y int) float64 {
	h := uint32(x)*374761393 + uint32(y)*668265263
	h = (h ^ h>>13) * 1274126177
	return float64((h^h>>16)&0xffff) / 0xffff
}

// line draws freehand from a to b, a little past both.
func (p *pencil) line(a, b xy, radius, pressure float64) {
	d := b.sub(a)
	u, n := d.unit(), d.unit().right()
	a, b = a.sub(u.times(2+3*p.rnd.Float64())), b.add(u.times(2+3*p.rnd.Float64()))
	stray, press := p.wave(math.Min(2.4, d.length()/80)), p.wave(0.12)
	steps := int(b.sub(a).length()/0.8) + 1
	for i := range steps + 1 {
		t := float64(i) / float64(steps)
		p.dot(between(a, b, t).add(n.times(stray(t))), radius, pressure*(1+press(t)))
	}
}

// thick draws over a line twice, as one does for what matters.
func (p *pencil) thick(a, b xy) {
	p.line(a, b, 1.7, 0.92)
	p.line(a, b, 1.2, 0.8)
}

// arc draws the swing of a door.
func (p *pencil) arc(c xy, radius, from, to float64) {
	stray := p.wave(1.5)
	steps := int(radius * math.Abs(to-from))
	for i := range steps + 1 {
		t := float64(i) / float64(steps)
		r, w := radius+stray(t), from+(to-from)*t
		p.dot(c.add(xy{math.Cos(w), math.Sin(w)}.times(r)), 0.9, 0.7)
	}
}

// write prints by hand, middled on c and turned by an angle, in radians
// clockwise.
func (p *pencil) write(text string, c xy, size, turn float64) error {
	var buf sfnt.Buffer
	ppem := fixed.Int26_6(size * 64)
	type letter struct {
		glyph sfnt.GlyphIndex
		at    float64
	}
	var letters []letter
	pen := 0.0
	for _, r := range text {
		g, err := p.face.GlyphIndex(&buf, r)
		if err != nil {
			return err
		}
		if g == 0 {
			return fmt.Errorf("the typeface has no %q", r)
		}
		adv, err := p.face.GlyphAdvance(&buf, g, ppem, font.HintingNone)
		if err != nil {
			return err
		}
		letters = append(letters, letter{g, pen})
		pen += float64(adv)/64*1.06 + p.shake()*size*0.03
	}
	ink := vector.NewRasterizer(width, height)
	base := p.wave(size * 0.06)
	for _, l := range letters {
		segs, err := p.face.LoadGlyph(&buf, l.glyph, ppem, nil)
		if err != nil {
			return err
		}
		lean, tilt, k := 0.16+0.05*p.shake(), 0.05*p.shake(), 1+0.06*p.shake()
		lift := base(l.at/math.Max(pen, 1)) + p.shake()*size*0.03
		wx, wy := p.wave(size*0.02), p.wave(size*0.02)
		place := func(q fixed.Point26_6) (float32, float32) {
			x, y := float64(q.X)/64*k, float64(q.Y)/64*k
			x -= y * lean
			x, y = x+wx(y/size), y+wy(x/size)
			x, y = x*math.Cos(tilt)-y*math.Sin(tilt), x*math.Sin(tilt)+y*math.Cos(tilt)
			x, y = x+l.at-pen/2, y+lift+size*0.36
			return float32(c.x + x*math.Cos(turn) - y*math.Sin(turn)), float32(c.y + x*math.Sin(turn) + y*math.Cos(turn))
		}
		for i, s := range segs {
			ax, ay := place(s.Args[0])
			switch s.Op {
			case sfnt.SegmentOpMoveTo:
				if i > 0 {
					ink.ClosePath()
				}
				ink.MoveTo(ax, ay)
			case sfnt.SegmentOpLineTo:
				ink.LineTo(ax, ay)
			case sfnt.SegmentOpQuadTo:
				bx, by := place(s.Args[1])
				ink.QuadTo(ax, ay, bx, by)
			case sfnt.SegmentOpCubeTo:
				bx, by := place(s.Args[1])
				cx, cy := place(s.Args[2])
				ink.CubeTo(ax, ay, bx, by, cx, cy)
			}
		}
		ink.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, width, height))
	ink.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	for i, a := range mask.Pix {
		if a > 0 {
			p.dark[i] = math.Max(p.dark[i], float64(a)/255*(0.62+0.3*grain(i%width, i/width)))
		}
	}
	return nil
}

// ruled draws a length: a line beside a-b with ticks, and the figure on it.
func (p *pencil) ruled(a, b xy, away float64, text string) error {
	n := b.sub(a).unit().right() // outward of a loop that runs counter-clockwise, seen with Y down
	c, d := a.add(n.times(away)), b.add(n.times(away))
	m := between(c, d, 0.5)
	turn := math.Atan2(d.y-c.y, d.x-c.x)
	if math.Cos(turn) < -0.01 || math.Abs(math.Cos(turn)) <= 0.01 && math.Sin(turn) > 0 {
		turn += math.Pi // read from below or from the right
	}
	// The figure stands in a gap of the line, or beside one that is short.
	u := d.sub(c).unit()
	half := 8.5 * float64(len(text))
	if d.sub(c).length() > 2*half+40 {
		p.line(c, m.sub(u.times(half)), 0.9, 0.6)
		p.line(m.add(u.times(half)), d, 0.9, 0.6)
	} else {
		p.line(c, d, 0.9, 0.6)
		m = m.add(n.times(math.Copysign(30, away)))
	}
	for _, e := range []xy{c, d} {
		tick := u.add(n).unit().times(9)
		p.line(e.sub(tick), e.add(tick), 1.1, 0.75)
		p.line(e.sub(n.times(26)), e.add(n.times(6)), 0.8, 0.45)
	}
	return p.write(text, m, 30, turn)
}

// sketch draws the job's slab.
func (p *pencil) sketch(j job.Job) error {
	slab := j.Slabs[0]
	say := func(l geometry.Length) string { return l.Text(j.Units) }
	for i, e := range slab.Outline {
		a, b := slab.Outline.Ends(i)
		pa, pb := at(a), at(b)
		u, n := pb.sub(pa).unit(), pb.sub(pa).unit().right()
		from := pa
		for _, d := range e.Doors {
			near, far := at(geometry.Along(a, b, d.From)), at(geometry.Along(a, b, d.From+d.Width))
			p.thick(from, near)
			from = far
			for _, q := range []xy{near, far} {
				p.line(q.sub(n.times(11)), q.add(n.times(11)), 1.3, 0.85)
			}
			if d.Kind == plan.Walk {
				w := math.Atan2(u.y, u.x)
				p.arc(near, far.sub(near).length(), w, w-math.Pi/2)
				p.line(near, near.sub(n.times(far.sub(near).length())), 1, 0.75)
			} else {
				p.line(near.sub(n.times(9)), far.sub(n.times(9)), 0.9, 0.6)
			}
			name, in := "overhead door ", 34.0
			if d.Kind == plan.Walk {
				name, in = "walk door ", far.sub(near).length()+30
			}
			if err := p.write(name+say(d.Width), between(near, far, 0.5).sub(n.times(in)), 25, math.Atan2(u.y, u.x)); err != nil {
				return err
			}
			if err := p.ruled(pa, near, 34, say(d.From)); err != nil {
				return err
			}
		}
		p.thick(from, pb)
		if e.Joint {
			// The old slab: short strokes beyond the line.
			for s := 14.0; s < pb.sub(pa).length(); s += 22 + 5*p.rnd.Float64() {
				q := pa.add(u.times(s)).add(n.times(7))
				p.line(q, q.add(n.times(22)).add(u.times(13)), 0.9, 0.6)
			}
			if err := p.write("joint - old slab of the house", between(pa, pb, 0.5).add(n.times(52)), 27, 0); err != nil {
				return err
			}
			if err := p.ruled(pa, pb, 96, say(slab.Outline.Length(i))); err != nil {
				return err
			}
			continue
		}
		away := 46.0
		switch {
		case len(e.Doors) > 0:
			away = 96
		case slab.Outline.Length(i) < 6*geometry.Foot:
			away = -46 // inside, where there is room
		}
		if err := p.ruled(pa, pb, away, say(slab.Outline.Length(i))); err != nil {
			return err
		}
	}
	s := slab.Sections[0]
	for i, text := range []string{
		j.Name,
		"slab " + say(slab.Field),
		fmt.Sprintf("edges %s deep, %s flat, %s taper", say(s.Depth), say(s.Bottom), say(s.Taper)),
		"walls " + slab.Outline[0].Wall + ", none at the house",
	} {
		lo, hi := slab.Outline.Corners().Bounds()
		c := at(geometry.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2})
		size := 30.0
		if i == 0 {
			size = 40
		}
		if err := p.write(text, c.add(xy{40, -90 + 52*float64(i)}), size, 0.01*p.shake()); err != nil {
			return err
		}
	}
	return nil
}
