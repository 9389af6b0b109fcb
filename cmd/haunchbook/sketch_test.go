package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

//go:generate go run ../../testdata/sketch

// The sketch on its sheet, as testdata/sketch/draw.go draws it: pixels.
const (
	sheetWidth, sheetHeight = 1560, 1200
	sheetFoot               = 34.0
	sheetLeft, sheetBottom  = 290.0, 1010.0 // the slab's first corner
)

// TestSketch does a job from the builder's pencil sketch to the printed sheets
// with real mouse and keys, in windows of three sizes: the sketch is imported and
// fitted by a length on it, the outline drawn over it by pointing and typing,
// doors set by typed distances, the joint marked, the section set. The plan must be as
// the sketch has it, to the sixteenth, and the sheet must show its lengths.
// HAUNCHBOOK_PICTURES names a folder for pictures of every stage in both themes.
func TestSketch(t *testing.T) {
	t.Parallel()
	underTest(t)
	for _, c := range []struct {
		width, height int
		picture       string
	}{{1024, 700, "sketch.jpg"}, {1280, 860, "sketch.png"}, {1920, 1200, "sketch.pdf"}} {
		t.Run(fmt.Sprintf("%dx%d", c.width, c.height), func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			s := &sketching{
				program: newDesk(t, home, c.width+20, c.height+60).open(underTest(t)),
				home:    home, width: c.width, height: c.height, want: sketched(t),
			}
			s.sized(c.width, c.height)
			s.quick = true
			began := time.Now()
			s.shoot("1-first-run")
			s.begin()
			s.lay(c.picture)
			s.shoot("3-fitted")
			s.outline()
			s.shoot("4-outline")
			s.section()
			s.shoot("5-section")
			s.doors()
			s.shoot("6-doors")
			s.joint()
			s.shoot("7-joint")
			s.print(home, c.width, map[string]string{"layout.pdf": "%PDF-", "materials.xlsx": "PK"})
			t.Logf("from the first run to the printed sheets in %.0f s, pictures and waiting included", time.Since(began).Seconds())
			s.shoot("8-printed")
			s.close()
			s.check()
		})
	}
}

// sketched gives the job that the sketch shows.
func sketched(t *testing.T) job.Job {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "sketch", "sketch.json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	j, err := job.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// sketching is the hand that draws.
type sketching struct {
	*program
	home          string
	width, height int
	want          job.Job
	left, top     float64   // of the plan in the window
	view          view.View // of the plan, so that the hand knows where to click
}

// shoot keeps pictures of a stage in both themes, where pictures are wanted.
func (s *sketching) shoot(stage string) {
	s.t.Helper()
	dir := pictures()
	if dir == "" {
		return
	}
	s.rest()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		s.t.Fatal(err)
	}
	for _, theme := range []string{"light", "dark"} {
		name := fmt.Sprintf("%dx%d-%s-%s.png", s.width, s.height, stage, theme)
		if err := keep(s.seen(), filepath.Join(dir, name)); err != nil {
			s.t.Fatal(err)
		}
		before := s.look()
		s.key("ctrl+d")
		s.until("the theme changes", func() bool { return !s.look().same(before) })
		s.rest()
	}
}

// begin starts a blank sheet, names the job and finds the plan in the window.
func (s *sketching) begin() {
	s.t.Helper()
	s.key("ctrl+n")
	s.titled("New job")
	s.key("alt+4", "ctrl+a")
	s.typed(s.want.Name)
	s.key("Return")
	s.titled(s.want.Name)
	s.key("alt+1", "Escape")
	s.findPlan()
	s.fit(geometry.Point{}, geometry.Point{X: 40 * geometry.Foot, Y: 30 * geometry.Foot}) // a blank sheet
}

// findPlan finds the rectangle of paper, left of the panel beside it.
func (s *sketching) findPlan() {
	s.t.Helper()
	s.rest()
	m := s.seen()
	right, bottom := 0.0, 0.0
	s.left, s.top = math.Inf(1), math.Inf(1)
	for y := 38; y < s.height-45; y++ {
		for x := 60; x < s.width-336; x++ {
			if c, ok := color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA); ok && c == scene.Light.Paper {
				s.left, right = min(s.left, float64(x)), max(right, float64(x+1))
				s.top, bottom = min(s.top, float64(y)), max(bottom, float64(y+1))
			}
		}
	}
	s.view.W, s.view.H = right-s.left, bottom-s.top
	if s.view.W < 300 || s.view.H < 300 {
		s.fail("the plan is not found: %g by %g", s.view.W, s.view.H)
	}
}

// fit follows the window, which shows what lies between two corners.
func (s *sketching) fit(lo, hi geometry.Point) {
	s.view = view.Fit(lo, hi, s.view.W, s.view.H, 78)
}

// on gives where a point of the plan is in the window.
func (s *sketching) on(p geometry.Point) (x, y int) {
	q := s.view.Screen(p)
	return int(math.Round(s.left + q.X)), int(math.Round(s.top + q.Y))
}

// onDisk gives a file of the sketch; sketch.pdf is a page with the scan on it.
func onDisk(t *testing.T, name string) []byte {
	t.Helper()
	of := name
	if name == "sketch.pdf" {
		of = "sketch.png"
	}
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "sketch", of))
	if err != nil {
		t.Fatal(err)
	}
	if of == name {
		return data
	}
	scan, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	const perMM = 6.0 // pixels
	c := canvas.New(float64(scan.Bounds().Dx())/perMM, float64(scan.Bounds().Dy())/perMM)
	canvas.NewContext(c).DrawImage(0, 0, scan, canvas.DPMM(perMM))
	var page bytes.Buffer
	r := pdf.New(&page, c.W, c.H, nil)
	c.RenderTo(r)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	return page.Bytes()
}

// lay brings the sketch under the plan and fits it by its longest length.
func (s *sketching) lay(picture string) {
	s.t.Helper()
	data := onDisk(s.t, picture)
	if err := os.WriteFile(filepath.Join(s.home, picture), data, 0o666); err != nil {
		s.t.Fatal(err)
	}
	s.key("ctrl+i")
	s.typed("~/" + picture)
	s.key("Return")
	s.until("the picture is there", s.pictureShown)
	s.rest()
	s.shoot("2-imported")

	// The whole of it is shown.
	lo, hi := s.placed()
	s.fit(lo, hi)
	place := func(x, y float64) (int, int) {
		part := func(a, b geometry.Length, share float64) geometry.Length {
			return a + geometry.Length(float64(b-a)*share)
		}
		return s.on(geometry.Point{X: part(lo.X, hi.X, x/sheetWidth), Y: part(hi.Y, lo.Y, y/sheetHeight)})
	}
	length := s.want.Slabs[0].Outline.Length(0)
	s.click(place(sheetLeft, sheetBottom))
	held := s.view.Plan(s.under(place(sheetLeft, sheetBottom)))
	s.click(place(sheetLeft+length.Feet()*sheetFoot, sheetBottom))
	s.typed(length.Text(geometry.FeetInches) + " right")
	s.key("Return")

	// The point that was clicked first stays; the whole picture is shown.
	foot := func(px float64) geometry.Length { return geometry.Length(px / sheetFoot * float64(geometry.Foot)) }
	lo = held.Sub(geometry.Point{X: foot(sheetLeft), Y: foot(sheetHeight - sheetBottom)})
	s.fit(lo, lo.Add(geometry.Point{X: foot(sheetWidth), Y: foot(sheetHeight)}))
}

// placed gives the corners between which the window lays a picture on a blank
// sheet: in the middle of the view, over 84 % of it.
func (s *sketching) placed() (lo, hi geometry.Point) {
	v := s.view
	lo, hi = v.Plan(view.XY{X: v.W * 0.08, Y: v.H * 0.92}), v.Plan(view.XY{X: v.W * 0.92, Y: v.H * 0.08})
	return geometry.Ring(sketch.Place(image.Pt(sheetWidth, sheetHeight), lo, hi)).Bounds()
}

// pictureShown tells whether the sheet lies on the plan: no pixel of bare paper is
// left in the middle.
func (s *sketching) pictureShown() bool {
	s.t.Helper()
	m := s.seen()
	for x := range 60 {
		at := m.At(int(s.left+s.view.W/2)+x, int(s.top+s.view.H*0.3))
		if c, ok := color.NRGBAModel.Convert(at).(color.NRGBA); ok && c == scene.Light.Paper {
			return false
		}
	}
	return true
}

// under gives the place in the plan's widget of a pixel of the window.
func (s *sketching) under(x, y int) view.XY {
	return view.XY{X: float64(x) - s.left, Y: float64(y) - s.top}
}

// outline draws over the sketch: the first corner is clicked on it, the others
// pointed at with the mouse, or with an arrow key, and typed.
func (s *sketching) outline() {
	s.t.Helper()
	want := s.want.Slabs[0].Outline
	// The picture's first corner lies where the hand held it, which the grid snaps.
	lo := s.sheetCorner()
	s.key("l")
	s.click(s.on(lo))
	at := lo
	for i := range len(want) - 1 {
		a, b := want.Ends(i)
		step := b.Sub(a)
		to := at.Add(step)
		if i%2 == 0 {
			x, y := s.on(geometry.Point{X: at.X + step.X*2/3, Y: at.Y + step.Y*2/3})
			s.move(x, y)
		} else {
			s.key(map[bool]map[bool]string{
				true:  {true: "Right", false: "Left"},
				false: {true: "Up", false: "Down"},
			}[step.X != 0][step.X > 0 || step.Y > 0])
		}
		s.typed(want.Length(i).Text(geometry.FeetInches))
		s.key("Return")
		at = to
	}
	s.key("Return") // closes
	s.key("Escape", "z")
	lo, hi := want.Corners().Bounds()
	s.fit(lo, hi) // as if the first corner were at 0, 0: the fit is the same
}

// sheetCorner gives where the sketch's first corner lies on the plan.
func (s *sketching) sheetCorner() geometry.Point {
	foot := func(px float64) geometry.Length { return geometry.Length(px / sheetFoot * float64(geometry.Foot)) }
	middle := s.view.Plan(view.XY{X: s.view.W / 2, Y: s.view.H / 2})
	return middle.Add(geometry.Point{X: foot(sheetLeft - sheetWidth/2), Y: foot(sheetHeight/2 - sheetBottom)})
}

// field replaces what a field has and goes on to the next.
func (s *sketching) field(text string) {
	s.t.Helper()
	s.key("ctrl+a")
	s.typed(text)
	s.key("Tab")
}

// section makes the section of the blank sheet the sketch's.
func (s *sketching) section() {
	s.t.Helper()
	want := s.want.Slabs[0].Sections[0]
	s.key("ctrl+e", "Tab") // past the list of sections
	s.field(want.Name)
	s.field(want.Depth.Text(geometry.FeetInches))
	s.field(want.Bottom.Text(geometry.FeetInches))
	s.field(want.Taper.Text(geometry.FeetInches))
	s.key("Escape")
}

// doors places the doors: the first by a distance from the corner, the other by
// a distance and a width; the arrow keys choose the edge.
func (s *sketching) doors() {
	s.t.Helper()
	for i, e := range s.want.Slabs[0].Outline {
		for _, d := range e.Doors {
			s.move(2, s.height-4) // off the plan
			s.key("v", "Escape", "d")
			for range i + 1 {
				s.key("Right")
			}
			s.typed(d.Width.Text(geometry.FeetInches) + " at " + d.From.Text(geometry.FeetInches))
			s.key("Return")
			if d.Kind == plan.Walk {
				s.key("F6", "Tab", "Right", "Escape") // past its name: what it is for
			}
		}
	}
}

// joint marks the edge along the old slab, which takes its wall off, and takes its
// section off.
func (s *sketching) joint() {
	s.t.Helper()
	want := s.want.Slabs[0].Outline
	i := slices.IndexFunc(want, func(e plan.Edge) bool { return e.Joint })
	a, b := want.Ends(i)
	middle := geometry.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	s.key("j")
	s.click(s.on(middle))
	s.key("Escape")
	s.key("F6", "Tab", "Tab", "Left") // past its length and what it moves: no section
	s.key("Escape")
}

// check compares the job in the book and the printed sheet with the sketch.
func (s *sketching) check() {
	t := s.t
	t.Helper()
	got := s.inBook()
	if len(got.Slabs) != 1 || len(got.Slabs[0].Outline) == 0 {
		t.Fatalf("the book has %d slabs", len(got.Slabs))
	}
	first := got.Slabs[0].Outline[0].At
	slab := got.Slabs[0].Translate(geometry.Point{}.Sub(first))
	want := s.want.Slabs[0].Clone()
	for _, e := range want.Outline {
		for k := range e.Doors {
			e.Doors[k].Name = "" // none was typed
		}
	}
	if diff := cmp.Diff(want, slab); diff != "" {
		t.Errorf("the plan is not as sketched (-sketch +plan):\n%s", diff)
	}
	// The picture lies under the plan upright, level and to scale.
	if c := got.Sketch.Corners; len(c) != 4 {
		t.Errorf("the picture has %d corners", len(c))
	} else {
		foot := func(px float64) geometry.Length { return geometry.Length(px / sheetFoot * float64(geometry.Foot)) }
		for i, px := range [4][2]float64{{0, 0}, {sheetWidth, 0}, {sheetWidth, sheetHeight}, {0, sheetHeight}} {
			want := first.Add(geometry.Point{X: foot(px[0] - sheetLeft), Y: foot(sheetBottom - px[1])})
			if d := geometry.Distance(c[i], want); d > geometry.Foot {
				t.Errorf("corner %d of the picture is at %s, %s, which is %s from where the plan would have it", i,
					c[i].X.Text(geometry.FeetInches), c[i].Y.Text(geometry.FeetInches), d.Text(geometry.FeetInches))
			}
		}
	}
	files, err := filepath.Glob(filepath.Join(s.home, "*", "*-layout.pdf"))
	if err != nil || len(files) != 1 {
		t.Fatalf("sheets %v, %v", files, err)
	}
	text, err := exec.Command("pdftotext", "-layout", files[0], "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v: go run ./cmd/dev test installs it", err)
	}
	for i, e := range s.want.Slabs[0].Outline {
		lengths := []geometry.Length{s.want.Slabs[0].Outline.Length(i)}
		for _, d := range e.Doors {
			lengths = append(lengths, d.From, d.Width)
		}
		for _, l := range lengths {
			if want := l.Text(geometry.FeetInches); !strings.Contains(string(text), want) {
				t.Errorf("the layout sheet does not show %s", want)
			}
		}
	}
	if !strings.Contains(string(text), s.want.Name) {
		t.Errorf("the layout sheet does not show the job's name")
	}
}

// inBook gives the job of the sketch from the job book.
func (s *sketching) inBook() job.Job {
	s.t.Helper()
	return inBook(s.t, filepath.Join(s.home, "haunchbook", "jobs.book"), s.want.Name)
}
