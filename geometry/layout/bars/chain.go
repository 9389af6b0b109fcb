package bars

import (
	"math"
	"slices"
	"sort"

	"haunchbook.example/geometry"
)

// vertex is a bend or an end of a bar's center line.
type vertex struct {
	Spot
	corner bool            // turns round a corner of the slab
	radius geometry.Length // of the arc that it lies on, along which it bends; 0 of another
	turn   float64         // radians, of the bend
	saving geometry.Length // of the bend: half of it off either stretch
	dev    geometry.Length // developed length from the start, bends deducted
}

// stretch is the straight piece between two vertices, on one edge.
type stretch struct {
	edge     int
	from, to geometry.Length // running distances on the edge
}

// chain is the unbroken center line of a row: an open line, or a closed one
// that ends at the vertex it starts from.
type chain struct {
	loop   int
	row    row
	closed bool
	v      []vertex
	s      []stretch // s[i] lies between v[i] and v[i+1]
}

// chains strings the reaches of a row together.
func (t *steel) chains(loop int, r row, flat geometry.Length) []chain {
	rs := t.reaches(loop, r)
	if len(rs) == 0 {
		return nil
	}
	first, closed := 0, true
	for i, c := range rs {
		if !c.start {
			first, closed = i, false
			break
		}
		if rs[first].jogged { // a ring closes at a corner
			first = i
		}
	}
	rs = slices.Concat(rs[first:], rs[:first])
	var out []chain
	for i := 0; i < len(rs); {
		j := i + 1
		for j < len(rs) && rs[j-1].end && rs[j].start {
			j++
		}
		c := chain{loop: loop, row: r, closed: closed}
		for k := i; k < j; k++ {
			c.add(rs[k], t.profile(rs[k], r, flat))
		}
		c.develop()
		if len(c.v) > 1 {
			out = append(out, c)
		}
		i = j
	}
	return out
}

// add appends a reach; its first bend is the corner that the last one ended at.
func (c *chain) add(r reach, bends []bend) {
	for i, b := range bends {
		if i == 0 && len(c.v) > 0 && !r.jogged {
			v := &c.v[len(c.v)-1]
			v.corner = true
			v.Depth = min(v.Depth, b.depth)
			v.radius = max(v.radius, r.radius)
			continue
		}
		c.v = append(c.v, vertex{Spot: Spot{r.side.At(b.along, c.row.inset), b.depth}, radius: r.radius})
		if i > 0 {
			c.s = append(c.s, stretch{r.side.Edge, bends[i-1].along, b.along})
		} else if len(c.v) > 1 { // past a jog
			c.s = append(c.s, stretch{r.side.Edge, b.along, b.along})
		}
	}
}

// develop computes turns and developed lengths.
func (c *chain) develop() {
	n := len(c.v)
	if c.closed && n > 1 {
		c.v[n-1].corner, c.v[0].corner = true, true
		c.v[n-1].At, c.v[0].Depth = c.v[0].At, min(c.v[0].Depth, c.v[n-1].Depth)
		c.v[n-1].Depth = c.v[0].Depth
		c.v[0].radius = max(c.v[0].radius, c.v[n-1].radius)
		c.v[n-1].radius = c.v[0].radius
	}
	for i := range c.v {
		prev, next := i-1, i+1
		if c.closed {
			if i == 0 {
				prev = n - 2
			}
			if i == n-1 {
				next = 1
			}
		}
		if prev >= 0 && next < n {
			c.v[i].turn = turn(c.v[prev], c.v[i], c.v[next])
			if !c.v[i].eases() {
				c.v[i].saving = bendSaving(c.row.size, c.v[i].turn)
			}
		}
	}
	for i := 1; i < n; i++ {
		a, b := c.v[i-1], c.v[i]
		c.v[i].dev = a.dev + max(1, apart(a.Spot, b.Spot)-a.saving/2-b.saving/2)
	}
}

// eases tells whether a bar goes on along an arc at a vertex, without a bend there.
func (v *vertex) eases() bool { return v.radius > 0 && v.turn < cornerTurn }

func apart(a, b Spot) geometry.Length {
	d := b.At.Sub(a.At)
	return geometry.Rounded(math.Hypot(math.Hypot(float64(d.X), float64(d.Y)), float64(b.Depth-a.Depth)))
}

// turn gives the angle by which the line a-b-c bends at b, in radians.
func turn(a, b, c vertex) float64 {
	u := [3]float64{float64(b.At.X - a.At.X), float64(b.At.Y - a.At.Y), float64(b.Depth - a.Depth)}
	w := [3]float64{float64(c.At.X - b.At.X), float64(c.At.Y - b.At.Y), float64(c.Depth - b.Depth)}
	x := [3]float64{u[1]*w[2] - u[2]*w[1], u[2]*w[0] - u[0]*w[2], u[0]*w[1] - u[1]*w[0]}
	cross := math.Sqrt(x[0]*x[0] + x[1]*x[1] + x[2]*x[2])
	angle := math.Atan2(cross, u[0]*w[0]+u[1]*w[1]+u[2]*w[2])
	if angle < 1e-4 {
		return 0
	}
	return angle
}

// length gives the developed length.
func (c *chain) length() geometry.Length { return c.v[len(c.v)-1].dev }

// twice gives a closed chain run round two times, so that a bar may lie over
// its start.
func (c *chain) twice() chain {
	d := *c
	total := c.length()
	d.v = slices.Clone(c.v)
	for _, v := range c.v[1:] {
		v.dev += total
		d.v = append(d.v, v)
	}
	d.s = slices.Concat(c.s, c.s)
	return d
}

// at gives the place at a developed length.
func (c *chain) at(dev geometry.Length) (p geometry.Point, depth geometry.Length) {
	i := c.segment(dev)
	a, b := c.v[i], c.v[i+1]
	f := float64(dev-a.dev+a.saving/2) / float64(apart(a.Spot, b.Spot))
	switch {
	case dev == a.dev:
		f = 0
	case dev == b.dev:
		f = 1
	}
	f = math.Min(math.Max(f, 0), 1)
	return geometry.Point{
		X: a.At.X + geometry.Rounded(f*float64(b.At.X-a.At.X)),
		Y: a.At.Y + geometry.Rounded(f*float64(b.At.Y-a.At.Y)),
	}, a.Depth + geometry.Rounded(f*float64(b.Depth-a.Depth))
}

// segment gives the stretch that holds a developed length.
func (c *chain) segment(dev geometry.Length) int {
	i := sort.Search(len(c.v), func(i int) bool { return c.v[i].dev > dev })
	return min(max(i-1, 0), len(c.v)-2)
}

// cut gives the bar between two developed lengths.
func (c *chain) cut(from, to geometry.Length) Bar {
	b := Bar{Size: c.row.size, Cut: to - from}
	first := c.segment(from)
	n := 2
	for i := first + 1; i < len(c.v) && c.v[i].dev < to; i++ {
		n++
	}
	b.Path, b.Depths = make([]geometry.Point, 0, n), make([]geometry.Length, 0, n)
	add := func(p geometry.Point, d geometry.Length) {
		b.Path = append(b.Path, p)
		b.Depths = append(b.Depths, d)
	}
	add(c.at(from))
	for i := first + 1; i < len(c.v) && c.v[i].dev < to; i++ {
		if v := c.v[i]; v.dev > from && v.turn > 0 {
			add(v.At, v.Depth)
			if v.eases() {
				if b.Radius == 0 || v.radius < b.Radius {
					b.Radius = v.radius
				}
				continue
			}
			b.Bends = append(b.Bends, Bend{v.turn * 180 / math.Pi, len(b.Path) - 1})
		}
	}
	add(c.at(to))
	b.Depth = b.Depths[0]
	flat := true
	for _, d := range b.Depths {
		flat = flat && d == b.Depth
		b.Depth = min(b.Depth, d)
	}
	if flat {
		b.Depths = nil
	}
	b.legs()
	return b
}

// legs sets the legs of a bent bar, measured over the outside of its bends.
func (b *Bar) legs() {
	if len(b.Bends) == 0 {
		return
	}
	half := float64(b.Size.Diameter()) / 2
	grow := func(i int) geometry.Length {
		if i < 0 || i >= len(b.Bends) {
			return 0
		}
		return geometry.Rounded(half * math.Tan(math.Min(b.Bends[i].Turn*math.Pi/180, sharpest)/2))
	}
	from := 0
	for n := range len(b.Bends) + 1 {
		to, long := len(b.Path)-1, grow(n-1)+grow(n)
		if n < len(b.Bends) {
			to = b.Bends[n].At
		}
		for i := from + 1; i <= to; i++ {
			long += apart(b.spot(i-1), b.spot(i))
		}
		b.Legs, from = append(b.Legs, long), to
	}
}

func (b *Bar) spot(i int) Spot {
	s := Spot{b.Path[i], b.Depth}
	if b.Depths != nil {
		s.Depth = b.Depths[i]
	}
	return s
}
