package planview

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// overall measures the whole slab both ways, where no single edge does.
func (m *Maker) overall(slab int) {
	l := m.loops[0]
	if len(l) < 3 {
		return
	}
	f := FrameOf(l)
	if m.o.Screen { // typed along the axes
		f = frameAlong(l, geometry.Point{X: 1})
	}
	for k, axis := range [2]plan.Axis{plan.AcrossX, plan.AcrossY} {
		size, spanned := f.Size(k), false
		for i := range l {
			const grain = geometry.Micrometer // a turned side's length is rounded
			a, b := l.Ends(i)
			if l[i].Middle != 0 {
				continue
			}
			spanned = spanned || (l.Length(i)-size).Abs() <= grain && f.runs(b.Sub(a), k)
		}
		if spanned || size <= 0 {
			continue
		}
		a, b := f.at(f.lo[0], f.lo[1]), f.at(f.hi[0], f.lo[1])
		if k == 1 {
			a, b = f.at(f.lo[0], f.hi[1]), f.at(f.lo[0], f.lo[1])
		}
		dim := drawing.Dimension{
			Of: "Overall", A: a, B: b, Short: true, Weight: dimWeight - 1,
		}
		if m.o.Screen {
			dim.First = 11.9
		}
		m.d.Dimension(dim, m.one(0, geometry.Distance(a, b), size, Measure{Kind: Overall, Slab: slab, Edge: -1, Axis: axis, Value: size}))
	}
}

// Frame is the box round a slab, along its sides where those are square to each
// other, else along the axes.
type Frame struct {
	u, v   [2]float64 // unit vectors of its two directions
	origin geometry.Point
	lo, hi [2]float64 // of the corners in it, nanometers from the origin
}

// FrameOf gives the frame of a loop. Its first direction is the one that is nearer
// to the right.
func FrameOf(l plan.Loop) Frame {
	long := 0
	for i := range l {
		if l[i].Middle == 0 && (l[long].Middle != 0 || l.Length(i) > l.Length(long)) {
			long = i
		}
	}
	a, b := l.Ends(long)
	f := frameAlong(l, b.Sub(a))
	if l[long].Middle != 0 {
		return frameAlong(l, geometry.Point{X: 1})
	}
	for i := range l {
		a, b := l.Ends(i)
		if l[i].Middle != 0 {
			continue
		}
		if v := b.Sub(a); !f.runs(v, 0) && !f.runs(v, 1) {
			return frameAlong(l, geometry.Point{X: 1})
		}
	}
	return f
}

// frameAlong gives the frame of a loop along a direction or square to it,
// whichever is nearer to the right.
func frameAlong(l plan.Loop, along geometry.Point) Frame {
	x, y := float64(along.X), float64(along.Y)
	d := math.Hypot(x, y)
	x, y = x/d, y/d
	if math.Abs(x) < math.Abs(y)-1e-9 {
		x, y = y, -x
	}
	if x < 0 {
		x, y = -x, -y
	}
	f := Frame{u: [2]float64{x, y}, v: [2]float64{-y, x}, origin: l[0].At}
	for i := range l {
		if f.take(l[i].At, i == 0); l[i].Middle != 0 {
			for _, at := range l.Chords(i) {
				f.take(at, false)
			}
		}
	}
	return f
}

// take makes the frame hold a place, and nothing else where it is the first.
func (f *Frame) take(at geometry.Point, first bool) {
	d := at.Sub(f.origin)
	for k, w := range [2][2]float64{f.u, f.v} {
		t := float64(d.X)*w[0] + float64(d.Y)*w[1]
		if first {
			f.lo[k], f.hi[k] = t, t
		}
		f.lo[k], f.hi[k] = min(f.lo[k], t), max(f.hi[k], t)
	}
}

// runs tells whether a vector runs along the frame's k-th direction.
func (f *Frame) runs(v geometry.Point, k int) bool {
	w := [2][2]float64{f.u, f.v}[k]
	x, y := float64(v.X), float64(v.Y)
	return math.Abs(x*w[0]+y*w[1]) > (1-1e-6)*math.Hypot(x, y)
}

// Size gives how large the slab is along the frame's k-th direction.
func (f *Frame) Size(k int) geometry.Length { return geometry.Length(math.Round(f.hi[k] - f.lo[k])) }

func (f *Frame) at(s, t float64) geometry.Point {
	return f.origin.Add(geometry.Point{
		X: geometry.Length(math.Round(s*f.u[0] + t*f.v[0])), Y: geometry.Length(math.Round(s*f.u[1] + t*f.v[1])),
	})
}

// boltMark measures the selected bolt mark from both corners.
func (m *Maker) boltMark(slab int) {
	sel := m.o.Selected
	if sel.Bolt < 0 || sel.Loop >= len(m.loops) || sel.Edge < 0 || sel.Edge >= len(m.loops[sel.Loop]) {
		return
	}
	l := m.loops[sel.Loop]
	if sel.Bolt >= len(l[sel.Edge].Bolts) {
		return
	}
	a, b := l.Ends(sel.Edge)
	along, length := l[sel.Edge].Bolts[sel.Bolt].Along, l.Length(sel.Edge)
	if a == b || along < 0 || along > length {
		return
	}
	base := Measure{Slab: slab, Loop: sel.Loop, Edge: sel.Edge, Sub: sel.Bolt}
	m.part(base, BoltFrom, a, b, 0, along, 10.8)
	m.part(base, BoltTo, a, b, along, length, 10.8)
}

// gaps measures the clear distance to each slab beside this one, where two level
// or plumb edges face each other.
func (m *Maker) gaps(slab int) {
	for k := range m.in.Slabs {
		if k == slab {
			continue
		}
		for _, axis := range [2]plan.Axis{plan.AcrossX, plan.AcrossY} {
			from, to, ok := facing(m.s.Plan.Outline, m.in.Slabs[k].Plan.Outline, axis)
			if !ok {
				continue
			}
			gap := geometry.Distance(from, to)
			m.d.Dimension(drawing.Dimension{A: from, B: to, Weight: dimWeight + 1, First: 0.01},
				m.one(0, gap, gap, Measure{Kind: Gap, Slab: slab, Edge: -1, Axis: axis, Other: k, Back: to.X < from.X || to.Y < from.Y, Value: gap}))
		}
	}
}

// facing gives the shortest way between two outlines along an axis, in the middle
// of where the two edges that it joins face each other.
func facing(p, q plan.Loop, axis plan.Axis) (from, to geometry.Point, ok bool) {
	best := geometry.Length(0)
	for i := range p {
		a, b, out := across(p, i, axis)
		if out == 0 {
			continue
		}
		for j := range q {
			c, d, back := across(q, j, axis)
			lo, hi := max(min(a.Y, b.Y), min(c.Y, d.Y)), min(max(a.Y, b.Y), max(c.Y, d.Y))
			gap := (c.X - a.X) * out
			if back != -out || lo >= hi || gap <= 0 || ok && gap >= best {
				continue
			}
			best, ok = gap, true
			mid := lo + (hi-lo)/2
			from, to = swap(geometry.Point{X: a.X, Y: mid}, axis), swap(geometry.Point{X: c.X, Y: mid}, axis)
		}
	}
	return from, to, ok
}

// across gives edge i as if distances along the axis were along X, and which way
// is out of the slab: 1, -1, or 0 for an edge that does not stand across the axis.
func across(l plan.Loop, i int, axis plan.Axis) (a, b geometry.Point, out geometry.Length) {
	a, b = l.Ends(i)
	a, b = swap(a, axis), swap(b, axis)
	if a.X != b.X || a.Y == b.Y || l[i].Middle != 0 {
		return a, b, 0
	}
	out = 1
	if (b.Y < a.Y) != (axis == plan.AcrossY) {
		out = -1
	}
	return a, b, out
}

func swap(p geometry.Point, axis plan.Axis) geometry.Point {
	if axis == plan.AcrossY {
		return geometry.Point{X: p.Y, Y: p.X}
	}
	return p
}
