// Package dim places the dimensions of a plan on the screen, so that drawing and
// pointing agree about where each number stands.
package dim

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/app/window/canvas/room"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Kind tells what a dimension measures.
type Kind uint8

const (
	Edge      Kind = iota // the length of an edge
	Overall               // the whole width or length of the outline
	DoorWidth             // a rough opening
	DoorFrom              // from the edge's start corner to the near jamb
	DoorTo                // from the far jamb to the edge's end corner
	BoltFrom              // from the edge's start corner to a bolt mark
	BoltTo                // from a bolt mark to the edge's end corner
	Gap                   // clear between this slab and another
)

// Dim is one dimension with its place on the screen.
type Dim struct {
	Kind       Kind
	Loop, Edge int
	Door       int       // the door, or the bolt mark, on the edge
	Other      int       // number of the other slab of Gap
	Axis       plan.Axis // of Overall and Gap
	Value      geometry.Length
	Text       string
	A, B       view.XY // ends of the dimension line
	FromA      view.XY // where the witness line to A begins; the same for B
	FromB      view.XY
	At         view.XY // center of the text
	Turn       bool    // the text is read from the right
	W, H       float64 // size of the text as it stands
}

// Covers tells whether s lies on the number.
func (d Dim) Covers(s view.XY) bool {
	return math.Abs(s.X-d.At.X) <= d.W/2+3 && math.Abs(s.Y-d.At.Y) <= d.H/2+2
}

// box gives the room that the number takes.
func (d *Dim) box() room.Box { return room.Around(d.At.X, d.At.Y, d.W+2, d.H) }

// Same tells whether two dimensions measure the same thing.
func (d Dim) Same(e Dim) bool {
	return d.Kind == e.Kind && d.Loop == e.Loop && d.Edge == e.Edge && d.Door == e.Door && d.Axis == e.Axis && d.Other == e.Other
}

// Measure gives the size of text on the screen.
type Measure func(text string) (w, h float64)

// Distances of dimension lines from what they measure, pixels.
const (
	first = 24
	step  = 21
	tries = 3
	inner = 20
)

// Place gives the dimensions of a plan. Those for which there is no room are
// left out, the shortest first; zooming in brings them back. The doors of the
// edge given by loop and edge are dimensioned too; edge -1 is none.
func Place(p plan.Plan, v view.View, u geometry.Units, measure Measure, loop, edge int, also ...Also) []Dim {
	pl := placer{v: v, u: u, measure: measure}
	loops := p.Loops()
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	pl.dims = make([]Dim, 0, n+8)
	for _, a := range also {
		pl.bolt(p, a.Bolt)
	}
	type side struct {
		loop, edge int
		length     geometry.Length
	}
	sides := make([]side, 0, n)
	for k, l := range loops {
		for i := range l {
			sides = append(sides, side{k, i, l.Length(i)})
		}
	}
	if edge >= 0 && loop < len(loops) && edge < len(loops[loop]) {
		pl.doors(loops[loop], loop, edge)
	}
	slices.SortStableFunc(sides, func(a, b side) int {
		return cmp.Compare(b.length, a.length)
	})
	for _, s := range sides {
		l := loops[s.loop]
		a, b := l.Ends(s.edge)
		if a == b {
			continue
		}
		offset := float64(first)
		if s.loop > 0 { // holes are small: their numbers stand on the slab
			offset = -first
		}
		pl.put(Dim{Kind: Edge, Loop: s.loop, Edge: s.edge, Value: s.length}, a, b, offset)
	}
	pl.overall(p)
	for _, a := range also {
		pl.gaps(p, a)
	}
	return pl.dims
}

type placer struct {
	v       view.View
	u       geometry.Units
	measure Measure
	dims    []Dim
	taken   room.Room
}

// put places a dimension of the stretch a-b, on its right-hand side for a
// positive offset, at the first distance where its number is free.
func (pl *placer) put(d Dim, a, b geometry.Point, offset float64) bool {
	sa, sb := pl.v.Screen(a), pl.v.Screen(b)
	length := view.Distance(sa, sb)
	if length < 9 || !pl.near(sa, sb) {
		return false
	}
	d.Text = d.Value.Text(pl.u)
	nx, ny := -(sb.Y-sa.Y)/length, (sb.X-sa.X)/length // right of a-b, with Y down
	w, h := pl.measure(d.Text)
	d.W, d.H = w, h
	if math.Abs(sb.X-sa.X) < 0.2*length {
		d.Turn = true
		d.W, d.H = h, w
	}
	for t := range tries {
		o := offset + math.Copysign(step*float64(t), offset)
		d.A = view.XY{X: sa.X + nx*o, Y: sa.Y + ny*o}
		d.B = view.XY{X: sb.X + nx*o, Y: sb.Y + ny*o}
		gap := math.Copysign(4, offset)
		d.FromA = view.XY{X: sa.X + nx*gap, Y: sa.Y + ny*gap}
		d.FromB = view.XY{X: sb.X + nx*gap, Y: sb.Y + ny*gap}
		d.At = view.XY{X: (d.A.X + d.B.X) / 2, Y: (d.A.Y + d.B.Y) / 2}
		// On a slant, the upright number keeps clear of the edge.
		if half := (d.W*math.Abs(nx) + d.H*math.Abs(ny)) / 2; half+7 > math.Abs(o) {
			d.At.X += nx * math.Copysign(half+7-math.Abs(o), offset)
			d.At.Y += ny * math.Copysign(half+7-math.Abs(o), offset)
		}
		// A number wider than its line steps aside, away from the plan.
		if along := pl.along(d, sa, sb, length); along > length-6 {
			d.At.X += nx * math.Copysign((d.W*math.Abs(nx)+d.H*math.Abs(ny))/2+5, offset)
			d.At.Y += ny * math.Copysign((d.W*math.Abs(nx)+d.H*math.Abs(ny))/2+5, offset)
		}
		if b := d.box(); pl.taken.Free(b) {
			pl.taken.Take(b)
			pl.dims = append(pl.dims, d)
			return true
		}
	}
	return false
}

// near tells whether anything of a dimension of sa-sb can be on the screen.
func (pl *placer) near(sa, sb view.XY) bool {
	const far = 200 // more than lines and numbers stand off
	return min(sa.X, sb.X) < pl.v.W+far && max(sa.X, sb.X) > -far && min(sa.Y, sb.Y) < pl.v.H+far && max(sa.Y, sb.Y) > -far
}

// along gives how much of the line a number takes.
func (pl *placer) along(d Dim, sa, sb view.XY, length float64) float64 {
	return d.W*math.Abs(sb.X-sa.X)/length + d.H*math.Abs(sb.Y-sa.Y)/length
}

// overall dimensions the whole outline where no single edge shows it.
func (pl *placer) overall(p plan.Plan) {
	if len(p.Outline) < 3 {
		return
	}
	lo, hi := p.Outline.Corners().Bounds()
	for _, axis := range []plan.Axis{plan.AcrossX, plan.AcrossY} {
		value := hi.X - lo.X
		a, b := lo, geometry.Point{X: hi.X, Y: lo.Y}
		if axis == plan.AcrossY {
			value = hi.Y - lo.Y
			a, b = geometry.Point{X: lo.X, Y: hi.Y}, lo
		}
		spanned := false
		for i := range p.Outline {
			s, t := p.Outline.Ends(i)
			d := t.Sub(s)
			spanned = spanned || axis == plan.AcrossX && d.Y == 0 && d.X.Abs() == value ||
				axis == plan.AcrossY && d.X == 0 && d.Y.Abs() == value
		}
		if !spanned && value > 0 {
			pl.put(Dim{Kind: Overall, Axis: axis, Edge: -1, Value: value}, a, b, first+step)
		}
	}
}

// doors dimensions the doors of one edge on the slab's side of it.
func (pl *placer) doors(l plan.Loop, loop, edge int) {
	a, b := l.Ends(edge)
	if a == b {
		return
	}
	length := l.Length(edge)
	for k, d := range l[edge].Doors {
		if d.From.Abs() > geometry.MaxLength || d.Width.Abs() > geometry.MaxLength {
			continue
		}
		near, far := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
		base := Dim{Loop: loop, Edge: edge, Door: k}
		parts := []struct {
			kind  Kind
			value geometry.Length
			p, q  geometry.Point
		}{{DoorWidth, d.Width, near, far}, {DoorFrom, d.From, a, near}, {DoorTo, length - d.From - d.Width, far, b}}
		for _, part := range parts {
			if part.value > 0 {
				base.Kind, base.Value = part.kind, part.value
				pl.put(base, part.p, part.q, -inner)
			}
		}
	}
}
