package solid

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Surface is the finished top of a slab that falls, as it is set out. Its heights
// are over the lowest place of the top. A level top has none of it.
type Surface struct {
	Heights []TopHeight
	Creases []Crease
	Arrows  []FallArrow
}

// TopHeight is the height of the finished top at a place of the plan.
type TopHeight struct {
	Kind   TopKind
	Loop   int // of corners and doors, as plan.Loops numbers them
	Edge   int // the corner's number, or the edge of the door
	Door   int // on its edge; its start jamb comes first
	At     geometry.Point
	Height geometry.Length
}

// TopKind tells what a place of known height is.
type TopKind uint8

const (
	AtCorner TopKind = iota // of the outline or of a hole
	AtJamb                  // of a door, on the face, lowered by its lip
	AtDrain                 // the low end of a fall inside the slab
	AtBreak                 // where a break of the top meets an edge, between its corners
)

// Crease is a line along which two falls meet, or at which the top breaks.
type Crease struct {
	Break            bool // to an apron or a ramp
	Meet             plan.Meet
	A, B             geometry.Point
	HeightA, HeightB geometry.Length
}

// FallArrow shows which way the top falls: down its steepest way, within the part
// of the slab where its fall is the top, so that no two lie on each other.
type FallArrow struct {
	Fall     int // number of the plan's fall; -1 beyond a break
	Break    int // number of the plan's break that it lies beyond; -1 of a fall
	From, To geometry.Point
	Drop     geometry.Length // from its start to its end
	Grade    float64         // drop over length
}

// Told gives over which run it is told how far the top falls beyond a break: over that of
// the break where the top before it is level; else over so long a one that a sixteenth of an
// inch does not matter.
func (a FallArrow) Told(b plan.Break, level bool, u geometry.Units) geometry.Length {
	switch {
	case level:
		return b.Over
	case u == geometry.Millimeters:
		return max(b.Over, 3*geometry.Meter)
	}
	return max(b.Over, 10*geometry.Foot)
}

// Over gives how far the top falls over a run along the arrow, as it is told.
func (a FallArrow) Over(run geometry.Length, u geometry.Units) geometry.Length {
	step := geometry.SixtyFourth
	if u == geometry.Millimeters {
		step = geometry.Millimeter / 10
	}
	return geometry.FromMeters(a.Grade * run.Meters()).Round(step)
}

// leastCrease is what only rounding makes.
const leastCrease = geometry.Millimeter

// Surface gives the finished top. It is worked out once, and nobody's to change.
func (s *Solid) Surface() Surface {
	s.setOut.Do(func() { s.surface = s.newSurface() })
	return s.surface
}

func (s *Solid) newSurface() Surface {
	var out Surface
	if s.top == nil || !slices.ContainsFunc(s.top.planes, func(f plane.Linear) bool { return f.G != (plane.Vec{}) }) {
		return out
	}
	for k, loop := range s.plan.Loops() {
		for i, e := range loop {
			if loop.Within(i) {
				continue
			}
			edge := loop.Drawn(i)
			out.Heights = append(out.Heights, TopHeight{Kind: AtCorner, Loop: k, Edge: edge, At: e.At, Height: s.TopAt(e.At)})
			a, b := loop.Ends(i)
			for d, door := range e.Doors {
				for _, along := range [...]geometry.Length{door.From, door.From + door.Width} {
					at := geometry.Along(a, b, along)
					out.Heights = append(out.Heights, TopHeight{AtJamb, k, edge, d, at, s.TopAt(at) - door.Lip.Drop})
				}
			}
		}
	}
	for _, f := range s.plan.Top.Falls {
		known := slices.ContainsFunc(out.Heights, func(h TopHeight) bool { return h.Kind == AtDrain && h.At == f.To })
		if !known && s.region.on.Locate(f.To) == plane.Inside {
			out.Heights = append(out.Heights, TopHeight{Kind: AtDrain, At: f.To, Height: s.TopAt(f.To)})
		}
	}
	out.Creases = s.creases()
	out.Heights = append(out.Heights, s.breakEnds(out)...)
	for _, i := range s.top.live {
		out.Arrows = append(out.Arrows, s.arrow(i)...)
	}
	return out
}

// breakEnds gives the places where breaks of the top meet edges, but for the corners.
func (s *Solid) breakEnds(known Surface) []TopHeight {
	var out []TopHeight
	for _, c := range known.Creases {
		if !c.Break {
			continue
		}
		for _, at := range [...]geometry.Point{c.A, c.B} {
			near := func(h TopHeight) bool { return h.Kind != AtJamb && geometry.Distance(h.At, at) <= leastCrease }
			loop, edge, _, on := s.plan.OnSide(at)
			if !on || slices.ContainsFunc(known.Heights, near) || slices.ContainsFunc(out, near) {
				continue
			}
			out = append(out, TopHeight{Kind: AtBreak, Loop: loop, Edge: s.plan.Loops()[loop].Drawn(edge), At: at, Height: s.TopAt(at)})
		}
	}
	return out
}

// Breaks gives where breaks of the top meet edges, between their corners.
func (s Surface) Breaks() []TopHeight {
	var out []TopHeight
	for _, h := range s.Heights {
		if h.Kind == AtBreak {
			out = append(out, h)
		}
	}
	return out
}

// Drains gives where water gathers: the drain points, and of each hole its lowest
// corner.
func (s Surface) Drains() []TopHeight {
	var out []TopHeight
	lowest := map[int]int{} // by the loop, its place in out
	for _, h := range s.Heights {
		at, known := lowest[h.Loop]
		switch {
		case h.Kind == AtDrain:
			out = append(out, h)
		case h.Kind != AtCorner || h.Loop == 0:
		case !known:
			lowest[h.Loop] = len(out)
			out = append(out, h)
		case h.Height < out[at].Height:
			out[at] = h
		}
	}
	return out
}

// higher gives a function that is not negative where fall i is the top rather than
// fall j.
func (t *top) higher(i, j int) plane.Linear {
	d := t.planes[i].Minus(t.planes[j])
	if t.ridge {
		d = d.Negated()
	}
	return d
}

// line gives two places far off the slab on the line where f is zero, with f
// growing to its left; false where f is the same everywhere.
func (r *region) line(f plane.Linear) (a, b plane.Vec, ok bool) {
	h := f.G.Length()
	if h < level {
		return a, b, false
	}
	box := plane.BoxAround(r.loops[0]...)
	mid := plane.Vec{X: (box.MinX + box.MaxX) / 2, Y: (box.MinY + box.MaxY) / 2}
	foot := mid.Sub(f.G.Times(f.At(mid) / (h * h)))
	way := f.G.Left().Times(-(box.MaxX - box.MinX + box.MaxY - box.MinY + 1) / h)
	return foot.Sub(way), foot.Add(way), true
}

// creases gives the lines where two falls meet and no other is the top.
func (s *Solid) creases() []Crease {
	var out []Crease
	live := s.top.live
	for n, i := range live {
		for _, j := range live[:n] {
			a, b, ok := s.region.line(s.top.higher(i, j))
			if !ok {
				continue
			}
			t0, t1 := 0.0, 1.0
			for _, k := range live {
				if t0 >= t1 {
					break
				}
				if k != i && k != j {
					t0, t1 = plane.ClipLine(a, b, s.top.higher(i, k), t0, t1)
				}
			}
			if t0 >= t1 {
				continue
			}
			p, q := s.region.Out(plane.Lerp(a, b, t0)), s.region.Out(plane.Lerp(a, b, t1))
			for _, on := range s.region.on.Stretches(p, q, plane.Through, nil) {
				c := Crease{Break: i >= s.top.breaks && j < s.top.breaks, Meet: s.meet(), A: geometry.Along(p, q, on.From), B: geometry.Along(p, q, on.To)}
				c.HeightA, c.HeightB = s.TopAt(c.A), s.TopAt(c.B)
				if on.To-on.From > leastCrease && !slices.ContainsFunc(out, c.lies) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// meet tells how the planes of the top meet.
func (s *Solid) meet() plan.Meet {
	if s.top.ridge {
		return plan.Ridge
	}
	return plan.Valley
}

// lies tells whether two creases are one line, as where three falls meet in it.
func (c Crease) lies(d Crease) bool {
	near := func(p, q geometry.Point) bool { return geometry.Distance(p, q) <= leastCrease }
	return near(c.A, d.A) && near(c.B, d.B) || near(c.A, d.B) && near(c.B, d.A)
}

// arrow gives the arrow of fall i: none where it falls nowhere or nowhere is the
// top.
func (s *Solid) arrow(i int) []FallArrow {
	f := s.top.planes[i]
	if f.G == (plane.Vec{}) {
		return nil
	}
	where, part := s.plan.Region(), s.region.frame()
	for _, j := range s.top.live {
		if j == i {
			continue
		}
		d := s.top.higher(i, j)
		a, b, ok := s.region.line(d)
		switch {
		case ok:
			if slices.ContainsFunc(part, func(v plane.Vec) bool { return d.At(v) < hairOver }) { // else it is far below
				where, part = where.Left(s.region.Out(a), s.region.Out(b)), plane.Clip(nil, part, d.Plus(hairOver))
			}
		case d.C < -level || j < i && d.C <= level:
			return nil
		}
	}
	down := f.G.Unit().Times(-1)
	from, to, ok := where.Widest(plane.Frame{Origin: s.region.Origin, Along: down})
	long := geometry.Distance(from, to)
	if !ok || long <= leastCrease {
		return nil
	}
	out := FallArrow{From: geometry.Along(from, to, long/10), To: geometry.Along(from, to, long-long/10), Grade: f.G.Length()}
	out.Fall, out.Break = s.top.drawn(i, len(s.plan.Top.Falls))
	out.Drop = s.TopAt(out.From) - s.TopAt(out.To)
	return []FallArrow{out}
}

// first gives the plane that is the top at the start of a segment, of several there the
// one that is the top after it.
func (t *top) first(p, q plane.Vec) int {
	on := t.live[0]
	for _, i := range t.live[1:] {
		d := t.higher(i, on)
		if at := d.At(p); at > 0 || at == 0 && d.At(q) > 0 {
			on = i
		}
	}
	return on
}

// hairOver is how much a plane may lie over another before that is found to limit it, m.
const hairOver = 1e-6

// TopRange gives the least and the greatest height of the top along the segment
// a-b, over its lowest place on the slab. They lie at its ends or where falls meet.
func (s *Solid) TopRange(a, b geometry.Point) (lo, hi geometry.Length) {
	if s.top == nil {
		return 0, 0
	}
	p, q := s.region.In(a), s.region.In(b)
	least, most := math.Inf(1), math.Inf(-1)
	add := func(v plane.Vec) {
		h := s.top.at(v)
		least, most = min(least, h), max(most, h)
	}
	add(p)
	add(q)
	// Along the segment each plane is the top in one stretch at most, from where it meets
	// one less steep to where it meets one steeper.
	for t, on := 0.0, s.top.first(p, q); ; {
		next, to := 1.0, on
		for _, i := range s.top.live {
			d := s.top.higher(i, on)
			if d.At(p) >= d.At(q) {
				continue // no steeper
			}
			if at := max(t, d.At(p)/(d.At(p)-d.At(q))); at < next {
				next, to = at, i
			}
		}
		if to == on {
			break
		}
		add(plane.Lerp(p, q, next))
		t, on = next, to
	}
	return geometry.FromMeters(least), geometry.FromMeters(most)
}
