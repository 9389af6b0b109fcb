// Package hit finds what lies under the pointer.
package hit

import (
	"math"

	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Kind tells what a target is.
type Kind uint8

const (
	Nothing Kind = iota
	Corner
	Edge
	Door
	Dim
	Pad
	Strip
	Fall
	Slab // the area of the slab, or of a hole
	Bolt // a mark that the builder gave
	Benchmark
	Note
	North // the arrow in the corner of the screen
	Other // a slab beside the one that is worked on
)

// Target is a thing on the plan.
type Target struct {
	Kind  Kind
	Loop  int // of Corner, Edge, Door, Bolt, Slab
	Index int // of the corner or edge in its loop; of the pad, strip, fall, benchmark, note, slab
	Sub   int // the door or bolt on its edge; the point of a strip or fall, -1 for the whole; 1 for a note's leader
	Dim   size.Dim
}

// On tells whether two targets are the same thing.
func (t Target) On(u Target) bool {
	if t.Kind == Dim && u.Kind == Dim {
		return t.Dim.Same(u.Dim)
	}
	return t.Kind == u.Kind && t.Loop == u.Loop && t.Index == u.Index && t.Sub == u.Sub
}

// How near the pointer must be, pixels: a corner wins over an edge.
const (
	cornerReach = 9
	edgeReach   = 7
)

// At gives the target under s: a number, then a corner, a bolt mark, a door, an
// edge, a thickening, the slab.
func At(p plan.Plan, v view.View, dims []size.Dim, s view.XY) Target {
	for _, d := range dims {
		if d.Covers(s) {
			return Target{Kind: Dim, Loop: d.Loop, Index: d.Edge, Sub: d.Sub, Dim: d}
		}
	}
	best, reach := Target{}, float64(cornerReach)
	for k, l := range p.Loops() {
		for i, e := range l {
			if d := view.Distance(v.Screen(e.At), s); d < reach {
				best, reach = Target{Kind: Corner, Loop: k, Index: i}, d
			}
		}
	}
	for k, f := range p.Top.Falls {
		for sub, q := range []geometry.Point{f.From, f.To} {
			if d := view.Distance(v.Screen(q), s); d < reach {
				best, reach = Target{Kind: Fall, Index: k, Sub: sub}, d
			}
		}
	}
	for k, st := range p.Strips {
		for sub, q := range st.Path {
			if d := view.Distance(v.Screen(q), s); d < reach {
				best, reach = Target{Kind: Strip, Index: k, Sub: sub}, d
			}
		}
	}
	if best.Kind != Nothing {
		return best
	}
	if t := onBolts(p, v, s); t.Kind != Nothing {
		return t
	}
	if t := onEdges(p, v, s); t.Kind != Nothing {
		return t
	}
	if t := inside(p, v, s); t.Kind != Nothing {
		return t
	}
	at := v.Plan(s)
	for k, h := range p.Holes {
		if plane.In(h.Loop.Corners(), at) {
			return Target{Kind: Slab, Loop: k + 1}
		}
	}
	if len(p.Outline) > 2 && plane.In(p.Outline.Corners(), at) {
		return Target{Kind: Slab}
	}
	return Target{}
}

// onEdges gives the door or edge nearest to s within reach.
func onEdges(p plan.Plan, v view.View, s view.XY) Target {
	best, reach := Target{}, float64(edgeReach)
	for k, l := range p.Loops() {
		for i, e := range l {
			a, b := l.Ends(i)
			d := ToSegment(v.Screen(a), v.Screen(b), s)
			if !(d < reach) {
				continue
			}
			best, reach = Target{Kind: Edge, Loop: k, Index: i}, d
			along := plan.Foot(a, b, v.Plan(s))
			for n, door := range e.Doors {
				if along >= door.From && along <= door.From+door.Width {
					best = Target{Kind: Door, Loop: k, Index: i, Sub: n}
				}
			}
		}
	}
	return best
}

// inside gives the pad, strip or fall under s.
func inside(p plan.Plan, v view.View, s view.XY) Target {
	for k, pad := range p.Pads {
		if plane.In(pad.Ring(), v.Plan(s)) {
			return Target{Kind: Pad, Index: k, Sub: -1}
		}
	}
	for k, st := range p.Strips {
		for i := 1; i < len(st.Path); i++ {
			half := max(v.Pixels(st.Bottom)/2, edgeReach)
			if ToSegment(v.Screen(st.Path[i-1]), v.Screen(st.Path[i]), s) < half {
				return Target{Kind: Strip, Index: k, Sub: -1}
			}
		}
	}
	for k, f := range p.Top.Falls {
		if ToSegment(v.Screen(f.From), v.Screen(f.To), s) < edgeReach {
			return Target{Kind: Fall, Index: k, Sub: -1}
		}
	}
	return Target{}
}

// ToSegment gives the distance from s to the segment a-b.
func ToSegment(a, b, s view.XY) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l2 := dx*dx + dy*dy
	t := 0.0
	if l2 > 0 {
		t = min(max(((s.X-a.X)*dx+(s.Y-a.Y)*dy)/l2, 0), 1)
	}
	return math.Hypot(a.X+t*dx-s.X, a.Y+t*dy-s.Y)
}
