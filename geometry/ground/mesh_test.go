package ground

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/testdata/exact"
)

var live = flag.Bool("live", false, "run the reference program")

func square(size geometry.Length) plane.Region {
	return plane.Region{{{}, {X: size}, {X: size, Y: size}, {Y: size}}}
}

// anyGround gives a region with a hole now and then, and points in it and about it,
// some of them on a grid, so that many lie on circles and lines together.
func anyGround(r *rand.Rand, most int, round geometry.Length) (plane.Region, []geometry.Point) {
	const size = 10 * geometry.Meter
	at := func() geometry.Length { return geometry.Length(r.Int64N(int64(size))).Round(round) }
	g := square(size)
	for range r.IntN(4) {
		x, y := at(), at()
		g = plane.Subtract(g, plane.Region{{{X: x, Y: y}, {X: x + at()/3 + round, Y: y}, {X: x + at()/2, Y: y + at()/2 + round}}})
	}
	ps := make([]geometry.Point, r.IntN(most))
	for i := range ps {
		ps[i] = geometry.Point{X: at()*5/4 - size/8, Y: at()*5/4 - size/8}
		if round > 1 {
			ps[i] = geometry.Point{X: ps[i].X.Round(round), Y: ps[i].Y.Round(round)}
		}
	}
	return g, ps
}

// Triangles cover the region once, none is without area, and no point that is seen from
// one lies in the circle round it: of two that share a side that is none of the region,
// neither holds the other's corner.
func TestTriangulate(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	for k := range 400 {
		round := geometry.Length(1)
		if k%2 == 0 {
			round = geometry.Meter
		}
		g, ps := anyGround(r, 60, round)
		m := Triangulate(g, ps)
		area, sides := 0.0, map[[2]int]int{}
		for _, tri := range m.Triangles {
			a, b, c := m.Points[tri[0]], m.Points[tri[1]], m.Points[tri[2]]
			if geometry.Orientation(a, b, c) <= 0 {
				t.Fatalf("case %d: triangle %v %v %v", k, a, b, c)
			}
			area += geometry.Ring{a, b, c}.Area()
			for i := range 3 {
				sides[[2]int{tri[i], tri[(i+1)%3]}] = tri[(i+2)%3]
			}
		}
		if want := g.Area(); math.Abs(area-want) > 1e-9 {
			t.Fatalf("case %d: triangles cover %v m² of %v\n%v\n%v", k, area, want, g, ps)
		}
		border := plane.NewSides(g)
		for s, c := range sides {
			d, ok := sides[[2]int{s[1], s[0]}]
			a, b := m.Points[s[0]], m.Points[s[1]]
			middle := geometry.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
			if !ok {
				if at := border.Locate(middle); at == plane.Inside && g.Distance(middle) > 2 {
					t.Fatalf("case %d: %v-%v ends within the region", k, a, b)
				}
				continue
			}
			if inCircle(a, b, m.Points[c], m.Points[d]) {
				t.Fatalf("case %d: %v lies in the circle of a triangle beside it", k, m.Points[d])
			}
		}
	}
}

// A grid, a line, one point many times, points outside: all is well.
func TestTriangulateAwkward(t *testing.T) {
	g := square(geometry.Meter)
	grid := []geometry.Point{}
	for i := range geometry.Length(11) {
		for j := range geometry.Length(11) {
			grid = append(grid, geometry.Point{X: i * geometry.Meter / 10, Y: j * geometry.Meter / 10})
		}
	}
	same, line := make([]geometry.Point, 50), make([]geometry.Point, 50)
	for i := range line {
		line[i] = geometry.Point{X: geometry.Length(i) * geometry.Meter / 49, Y: geometry.Meter / 2}
	}
	for name, c := range map[string]struct {
		ps   []geometry.Point
		want int
	}{"nothing": {nil, 2}, "a grid": {grid, 200}, "one place": {same, 2}, "outside": {[]geometry.Point{{X: -1}, {Y: geometry.MaxLength}}, 2}} {
		if m := Triangulate(g, c.ps); len(m.Triangles) != c.want {
			t.Errorf("%s: %d triangles, want %d", name, len(m.Triangles), c.want)
		}
	}
	if m := Triangulate(g, line); len(m.Triangles) != 2+48*2+2 {
		t.Errorf("a line: %d triangles", len(m.Triangles))
	}
	if m := Triangulate(nil, grid); len(m.Triangles) > 0 {
		t.Errorf("no region has %d triangles", len(m.Triangles))
	}
}

// TestReference compares volumes under triangulated points with those of CGAL's
// constrained Delaunay triangulation (testdata/exact/cgal).
func TestReference(t *testing.T) {
	if os.Getenv("CI") == "" && !*live {
		t.Skip("takes a minute: give -live")
	}
	r := rand.New(rand.NewPCG(3, 17))
	var texts []string
	var volumes []float64
	for range 300 {
		g, ps := anyGround(r, 200, 1)
		var in strings.Builder
		for _, ring := range g {
			fmt.Fprint(&in, "breaks")
			for _, p := range ring {
				fmt.Fprint(&in, " ", int64(p.X), " ", int64(p.Y))
			}
			fmt.Fprintln(&in)
		}
		height := func(p geometry.Point) float64 {
			return math.Sin(p.X.Meters()*3) + math.Cos(p.Y.Meters()*2+p.X.Meters())
		}
		m := Triangulate(g, ps)
		heights := make([]float64, len(m.Points))
		for i, p := range m.Points {
			heights[i] = height(p)
			fmt.Fprintf(&in, "shot %d %d %.17g\n", int64(p.X), int64(p.Y), heights[i])
		}
		fmt.Fprintln(&in, "end")
		texts, volumes = append(texts, in.String()), append(volumes, m.Integral(heights))
	}
	worst := 0.0
	for i, line := range exact.Run(t, texts) {
		var want float64
		if _, err := fmt.Sscan(line, &want); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		off := math.Abs(volumes[i] - want)
		worst = max(worst, off)
		if off > 1e-9 {
			t.Errorf("case %d: %v m³, reference %v", i, volumes[i], want)
		}
	}
	t.Logf("volumes of %d cases are off by at most %.2g m³", len(texts), worst)
}
