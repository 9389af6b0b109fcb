package solid

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// generate gives a random plan: a shape, a set of sections over its edges,
// doors, holes, pads and strips, at any angle. Not every draw is a sound plan.
func generate(r *rand.Rand) plan.Plan {
	shapes := []func(*rand.Rand) []geometry.Point{
		radial, radial, polyomino, polyomino, polyomino, comb, starShape, corridor, wedgeShape, slotted, untangled, untangled,
	}
	corners := turn(r, shapes[r.IntN(len(shapes))](r))
	p := plan.Plan{Field: geometry.Length(4+r.IntN(5)) * in}
	p.Sections = []plan.Section{
		{Name: "a", Depth: p.Field + geometry.Length(1+r.IntN(14))*in, Bottom: geometry.Length(r.IntN(18)) * in, Taper: geometry.Length(1+r.IntN(24)) * in},
		{Name: "b", Depth: p.Field + geometry.Length(1+r.IntN(14))*in, Bottom: geometry.Length(1+r.IntN(18)) * in},
		{Name: "c", Profile: []plan.Station{
			{Inset: 0, Depth: p.Field + 10*in}, {Inset: 8 * in, Depth: p.Field + 10*in},
			{Inset: 14 * in, Depth: p.Field + 4*in}, {Inset: 30 * in, Depth: p.Field},
		}},
		{Name: "d", Profile: []plan.Station{ // a key: deeper inward, with a step
			{Inset: 0, Depth: p.Field + 2*in}, {Inset: 6 * in, Depth: p.Field + 2*in},
			{Inset: 6 * in, Depth: p.Field + 6*in}, {Inset: 12 * in, Depth: p.Field + 8*in}, {Inset: 20 * in, Depth: p.Field + in},
		}},
	}
	same := r.IntN(2) == 0
	name := func() string {
		if same && r.IntN(5) > 0 {
			return "a"
		}
		return []string{"a", "b", "c", "d", ""}[r.IntN(5)]
	}
	for _, c := range corners {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: name()})
	}
	if r.IntN(3) == 0 {
		p.Holes = hole(r, corners, name)
	}
	p = p.Oriented()
	for i := range p.Outline {
		if l := p.Outline.Length(i); r.IntN(4) == 0 && l > 4*ft {
			from := geometry.Length(r.Int64N(int64(l - 3*ft)))
			if r.IntN(3) == 0 {
				from = 0
			}
			p.Outline[i].Doors = []plan.Door{{From: from, Width: 3 * ft, Section: name()}}
		}
	}
	lo, hi := p.Outline.Corners().Bounds()
	somewhere := func() geometry.Point {
		return pt(lo.X+geometry.Length(r.Int64N(int64(hi.X-lo.X+1))), lo.Y+geometry.Length(r.Int64N(int64(hi.Y-lo.Y+1))))
	}
	for range r.IntN(3) {
		if q := somewhere(); plane.In(p.Outline.Corners(), q) {
			p.Pads = append(p.Pads, plan.Pad{Center: q, Width: geometry.Length(12+r.IntN(36)) * in, Length: geometry.Length(12+r.IntN(36)) * in,
				Turn: float64(r.IntN(90)), Depth: p.Field + geometry.Length(1+r.IntN(16))*in, Taper: geometry.Length(r.IntN(13)) * in})
		}
	}
	if r.IntN(3) == 0 {
		var path []geometry.Point
		for range 2 + r.IntN(2) {
			if q := somewhere(); plane.In(p.Outline.Corners(), q) {
				path = append(path, q)
			}
		}
		if len(path) > 1 {
			p.Strips = []plan.Strip{{Path: path, Bottom: geometry.Length(8+r.IntN(16)) * in,
				Depth: p.Field + geometry.Length(2+r.IntN(8))*in, Taper: geometry.Length(r.IntN(12)) * in}}
		}
	}
	return p
}

func feet(x, y float64) geometry.Point {
	return pt(geometry.FromMeters(x*0.3048), geometry.FromMeters(y*0.3048))
}

// turn rotates by a random angle, half of the time.
func turn(r *rand.Rand, ps []geometry.Point) []geometry.Point {
	if r.IntN(2) == 0 {
		return ps
	}
	sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
	out := make([]geometry.Point, len(ps))
	for i, p := range ps {
		x, y := p.X.Meters(), p.Y.Meters()
		out[i] = pt(geometry.FromMeters(x*cos-y*sin), geometry.FromMeters(x*sin+y*cos))
	}
	return out
}

func radial(r *rand.Rand) []geometry.Point {
	n := 3 + r.IntN(12)
	var ps []geometry.Point
	for i := range n {
		a := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		d := 4 + 20*r.Float64()
		ps = append(ps, feet(d*math.Cos(a), d*math.Sin(a)))
	}
	return ps
}

func starShape(r *rand.Rand) []geometry.Point {
	n := 3 + r.IntN(5)
	inner := 2 + 5*r.Float64()
	var ps []geometry.Point
	for i := range 2 * n {
		a, d := math.Pi*float64(i)/float64(n), 15.0
		if i%2 == 1 {
			d = inner
		}
		ps = append(ps, feet(d*math.Cos(a), d*math.Sin(a)))
	}
	return ps
}

func comb(r *rand.Rand) []geometry.Point {
	n := 2 + r.IntN(4)
	w, gap, deep := 1+4*r.Float64(), 0.5+3*r.Float64(), 4+8*r.Float64()
	ps := []geometry.Point{feet(0, 0), feet(float64(n)*w+float64(n-1)*gap, 0)}
	for i := n - 1; i >= 0; i-- {
		x := float64(i) * (w + gap)
		ps = append(ps, feet(x+w, 5+deep))
		ps = append(ps, feet(x, 5+deep))
		if i > 0 {
			ps = append(ps, feet(x, 3), feet(x-gap, 3))
		}
	}
	return ps
}

func corridor(r *rand.Rand) []geometry.Point {
	w := 1 + 4*r.Float64()
	return []geometry.Point{feet(0, 0), feet(12+w, 0), feet(12+w, 10), feet(20, 10), feet(20, 10+w), feet(12, 10+w), feet(12, w), feet(0, w)}
}

func wedgeShape(r *rand.Rand) []geometry.Point {
	return []geometry.Point{feet(0, 0), feet(10+20*r.Float64(), 0), feet(10+20*r.Float64(), 1+6*r.Float64())}
}

// slotted is a rectangle with a T-shaped slot let in from the top: a haunch
// along the bottom may find the slot's arms in its way.
func slotted(r *rand.Rand) []geometry.Point {
	y, h, w, arm := 0.5+3*r.Float64(), 0.3+r.Float64(), 0.5+r.Float64(), 1+3*r.Float64()
	return []geometry.Point{
		feet(0, 0), feet(20, 0), feet(20, 14), feet(10+w, 14), feet(10+w, y+h), feet(10+w+arm, y+h),
		feet(10+w+arm, y), feet(10-arm, y), feet(10-arm, y+h), feet(10, y+h), feet(10, 14), feet(0, 14),
	}
}

// polyomino walks round a random set of joined squares.
func polyomino(r *rand.Rand) []geometry.Point {
	type cell struct{ x, y int }
	set := map[cell]bool{{0, 0}: true}
	cells := []cell{{0, 0}}
	for range 2 + r.IntN(9) {
		c := cells[r.IntN(len(cells))]
		d := [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}[r.IntN(4)]
		n := cell{c.x + d[0], c.y + d[1]}
		if !set[n] {
			set[n] = true
			cells = append(cells, n)
		}
	}
	// Follow the border with the squares on the left, from the lowest leftmost.
	start := cells[0]
	for _, c := range cells {
		if c.y < start.y || c.y == start.y && c.x < start.x {
			start = c
		}
	}
	side := 2 + 6*r.Float64()
	keep := r.IntN(2) == 0 // collinear corners
	x, y, dx, dy := start.x, start.y, 1, 0
	var ps []geometry.Point
	at := func(cx, cy int) bool { return set[cell{cx, cy}] }
	for range 200 {
		px, py := dx, dy
		x, y = x+dx, y+dy
		// The squares ahead, left and right of the direction of travel.
		l, rr := ahead(x, y, dx, dy, true), ahead(x, y, dx, dy, false)
		switch {
		case !at(l[0], l[1]):
			dx, dy = -dy, dx
		case at(rr[0], rr[1]):
			dx, dy = dy, -dx
		}
		if keep || dx != px || dy != py {
			ps = append(ps, feet(float64(x)*side, float64(y)*side))
		}
		if x == start.x && y == start.y {
			break
		}
	}
	return ps
}

// ahead gives the square beyond lattice point (x, y) in direction (dx, dy), on
// the left or the right of it.
func ahead(x, y, dx, dy int, left bool) [2]int {
	sx, sy := dy, -dx // right
	if left {
		sx, sy = -dy, dx
	}
	fx, fy := x, y
	if dx+sx < 0 {
		fx--
	}
	if dy+sy < 0 {
		fy--
	}
	return [2]int{fx, fy}
}

// untangled joins random points and takes crossings out by turning chains round.
func untangled(r *rand.Rand) []geometry.Point {
	n := 5 + r.IntN(14)
	ps := make(geometry.Ring, n)
	for i := range ps {
		ps[i] = feet(30*r.Float64(), 20*r.Float64())
	}
	for range 500 {
		c := plane.Crossings([]geometry.Ring{ps}, 1)
		if len(c) == 0 {
			break
		}
		for i, j := c[0].I+1, c[0].J; i < j; i, j = i+1, j-1 {
			ps[i], ps[j] = ps[j], ps[i]
		}
	}
	return ps
}

func hole(r *rand.Rand, corners []geometry.Point, name func() string) []plan.Hole {
	lo, hi := geometry.Ring(corners).Bounds()
	c := pt((lo.X+hi.X)/2, (lo.Y+hi.Y)/2)
	var h plan.Hole
	for _, d := range [][2]float64{{-1, -1}, {-1, 1}, {1, 1}, {1, -1}} {
		h.Loop = append(h.Loop, plan.Edge{At: c.Add(feet(d[0]*(0.5+r.Float64()), d[1]*(0.5+r.Float64()))), Section: name()})
	}
	return []plan.Hole{h}
}

// The corpus file holds plans as lines of words, lengths in nanometers:
//
//	plan FIELD
//	section NAME INSET DEPTH [INSET DEPTH ...]
//	loop
//	edge X Y SECTION [FROM WIDTH SECTION ...]     "-" for no section
//	pad X Y WIDTH LENGTH TURN DEPTH TAPER
//	strip BOTTOM DEPTH TAPER X Y X Y [X Y ...]
//	end

func writePlan(w io.Writer, p plan.Plan) {
	fmt.Fprintln(w, "plan", int64(p.Field))
	for _, s := range p.Sections {
		fmt.Fprint(w, "section ", s.Name)
		for _, st := range s.Stations(p.Field) {
			fmt.Fprint(w, " ", int64(st.Inset), " ", int64(st.Depth))
		}
		fmt.Fprintln(w)
	}
	dash := func(s string) string {
		if s == "" {
			return "-"
		}
		return s
	}
	for _, l := range p.Loops() {
		fmt.Fprintln(w, "loop")
		for _, e := range l {
			fmt.Fprint(w, "edge ", int64(e.At.X), " ", int64(e.At.Y), " ", dash(e.Section))
			for _, d := range e.Doors {
				fmt.Fprint(w, " ", int64(d.From), " ", int64(d.Width), " ", dash(d.Section))
			}
			fmt.Fprintln(w)
		}
	}
	for _, d := range p.Pads {
		fmt.Fprintln(w, "pad", int64(d.Center.X), int64(d.Center.Y), int64(d.Width), int64(d.Length), d.Turn, int64(d.Depth), int64(d.Taper))
	}
	for _, s := range p.Strips {
		fmt.Fprint(w, "strip ", int64(s.Bottom), " ", int64(s.Depth), " ", int64(s.Taper))
		for _, q := range s.Path {
			fmt.Fprint(w, " ", int64(q.X), " ", int64(q.Y))
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w, "end")
}

func readPlans(r io.Reader) ([]plan.Plan, error) {
	var all []plan.Plan
	var p plan.Plan
	sc := bufio.NewScanner(r)
	for sc.Scan() {
		f := strings.Fields(sc.Text())
		num := func(i int) geometry.Length {
			var n int64
			fmt.Sscan(f[i], &n)
			return geometry.Length(n)
		}
		name := func(i int) string { return strings.TrimPrefix(f[i], "-") }
		switch {
		case len(f) == 0 || f[0][0] == '#':
		case f[0] == "plan":
			p = plan.Plan{Field: num(1)}
		case f[0] == "section":
			s := plan.Section{Name: f[1]}
			for i := 2; i < len(f); i += 2 {
				s.Profile = append(s.Profile, plan.Station{Inset: num(i), Depth: num(i + 1)})
			}
			p.Sections = append(p.Sections, s)
		case f[0] == "loop":
			if len(p.Outline) > 0 {
				p.Holes = append(p.Holes, plan.Hole{})
			}
		case f[0] == "edge":
			e := plan.Edge{At: pt(num(1), num(2)), Section: name(3)}
			for i := 4; i < len(f); i += 3 {
				e.Doors = append(e.Doors, plan.Door{From: num(i), Width: num(i + 1), Section: name(i + 2)})
			}
			if n := len(p.Holes); n > 0 {
				p.Holes[n-1].Loop = append(p.Holes[n-1].Loop, e)
			} else {
				p.Outline = append(p.Outline, e)
			}
		case f[0] == "pad":
			d := plan.Pad{Center: pt(num(1), num(2)), Width: num(3), Length: num(4), Depth: num(6), Taper: num(7)}
			fmt.Sscan(f[5], &d.Turn)
			p.Pads = append(p.Pads, d)
		case f[0] == "strip":
			s := plan.Strip{Bottom: num(1), Depth: num(2), Taper: num(3)}
			for i := 4; i < len(f); i += 2 {
				s.Path = append(s.Path, pt(num(i), num(i+1)))
			}
			p.Strips = append(p.Strips, s)
		case f[0] == "end":
			all = append(all, p)
		default:
			return nil, fmt.Errorf("line %q", sc.Text())
		}
	}
	return all, sc.Err()
}
