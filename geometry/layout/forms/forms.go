// Package forms sets the form boards on the free edges, with stakes and kickers.
package forms

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

var ruleFormDepth = rule.Rule{Name: "Form boards reach the edge's depth", Source: "NIST PS 20 dressed sizes", Step: rule.Forms}

// leastBoard is the shortest board that is cut by choice: common practice, no
// source.
const leastBoard = 2 * geometry.Foot

// Lay gives the boards of every edge that is not a joint: whole stock boards
// and a rest, with a stake at each end, at each butt joint and between.
func Lay(s *slab.Slab, spec Spec) []Form {
	t := forming{Slab: s, spec: spec}
	return t.forms()
}

// forming sets the form boards.
type forming struct {
	*slab.Slab
	spec    Spec
	shallow []geometry.Length // depths of edges that are known to be below their board
}

func (t *forming) forms() []Form {
	run := t.Run(func(e plan.Edge) bool { return !e.Joint })
	if !t.Fits("Form boards", run, slices.Max(t.spec.Stock)) {
		return nil
	}
	staked, braced := t.Fits("Stakes", run, t.spec.Stakes), t.Fits("Kickers", run, t.spec.Kickers)
	out := make([]Form, 0, len(t.All))
	for _, l := range t.Sides {
		for _, s := range l {
			if t.Bent(s) {
				if !t.Loops[s.Loop].Within(s.Edge) {
					out = append(out, t.bent(s, staked, braced))
				}
				continue
			}
			for _, on := range t.Formed(s) {
				out = append(out, t.form(s, on, staked, braced))
			}
		}
	}
	return out
}

// form gives the boards of a stretch of an edge.
func (t *forming) form(s slab.Side, on slab.Interval, staked, braced bool) Form {
	f := Form{Loop: s.Loop, Edge: s.Edge, A: s.A, B: s.B, Depth: t.DepthAtFace(s)}
	run := s
	if on.To-on.From < s.Length { // the rest of the edge is poured against another slab
		if on.From > 0 {
			f.A = s.At(on.From, 0)
		}
		if on.To < s.Length {
			f.B = s.At(on.To, 0)
		}
		run = slab.NewSide(s.Loop, s.Edge, f.A, f.B)
	}
	f.Length = run.Length
	if on.To == s.Length {
		f.Length += t.formLap(s)
	}
	t.board(&f, s)
	f.Boards = t.formBoards(f.Length)
	at := geometry.Length(0)
	for i, b := range f.Boards {
		if !staked {
			break
		}
		stakes := slab.Evenly(at, min(at+b, run.Length), t.spec.Stakes, t.Step())
		if i > 0 {
			stakes = stakes[1:]
		}
		f.Stakes = append(f.Stakes, stakes...)
		at += b
	}
	if braced {
		f.Kickers = t.kickers(run)
	}
	return f
}

// formLap gives by how much a form runs past its end, to its longest point. At an
// outside corner it runs on by a board's thickness, for the board of the next edge
// to butt against; at an inside one it stops short of that board by as much. Where
// the corner turns slightly, both are mitered. No form follows along a joint.
func (t *forming) formLap(s slab.Side) geometry.Length {
	n := t.After(s)
	if next := t.Formed(n); len(next) == 0 || next[0].From > 0 {
		return 0
	}
	return max(lapAt(math.Pi-slab.Interior(s, n)), -s.Length/2)
}

// lapAt gives by how much a board runs past a corner of a turn, in radians, positive outside;
// less than 0 where it stops short.
func lapAt(turn float64) geometry.Length {
	size := math.Abs(turn)
	board := float64(formThickness)
	miter := board * math.Tan(min(size, lumber.Sharpest)/2)
	square := board / math.Sin(min(size, lumber.Sharpest))
	switch {
	case turn > 0 && size < lumber.LeastButt:
		return geometry.Rounded(miter)
	case turn > 0:
		return geometry.Rounded(max(miter, square))
	case size > math.Pi/2:
		miter = min(miter, square)
	}
	return -geometry.Rounded(miter)
}

// formThickness is of 2-by lumber, PS 20.
const formThickness = 3 * geometry.Inch / 2

// board chooses the board of a form.
func (t *forming) board(f *Form, s slab.Side) {
	b, deepEnough := lumber.ForDepth(f.Depth)
	if t.spec.Rip {
		for _, w := range lumber.Boards() {
			if b, deepEnough = w, w.Width >= f.Depth; deepEnough {
				break
			}
		}
	}
	if named, ok := lumber.Named(t.spec.Board); ok {
		b, deepEnough = named, named.Nominal >= f.Depth
	}
	f.Board = b
	f.Ripped = max(0, b.Width-f.Depth)
	f.Below = max(0, f.Depth+t.Under(f.Depth)-b.Width)
	if !deepEnough && !slices.Contains(t.shallow, f.Depth) {
		t.shallow = append(t.shallow, f.Depth)
		t.Find(ruleFormDepth, rule.Note, s.At(s.Length/2, 0),
			"A %s is %s wide, and edges are %s deep: the trench goes %s below the board.", b.Name, t.Text(b.Width), t.Text(f.Depth), t.Text(f.Below))
	}
}

// formBoards cuts a run into whole boards of the longest stock and a rest.
func (t *forming) formBoards(run geometry.Length) []geometry.Length {
	var longest geometry.Length
	for _, l := range t.spec.Stock {
		longest = max(longest, l)
	}
	return lumber.Pieces(run, longest, leastBoard, t.Step())
}

// kickers brace the form between its ends.
func (t *forming) kickers(s slab.Side) []geometry.Length {
	k := t.spec.Kickers
	if k <= 0 {
		return nil
	}
	n := max(1, (s.Length+k-1)/k)
	out := make([]geometry.Length, 0, n)
	for i := range n {
		out = append(out, slab.Place(0, s.Length, 2*i+1, 2*n, t.Step()))
	}
	return out
}
