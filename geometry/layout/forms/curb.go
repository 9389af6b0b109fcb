package forms

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// Curb tells which side of a curb a form stands at.
type Curb uint8

// The sides of a curb. Boards of its outer side stand on those of the edge; those of its inner
// side, and of its ends at doors, hang over the slab.
const (
	NoCurb Curb = iota
	CurbOuter
	CurbInner
	CurbEnd
)

// String says where on a curb a form stands: "curb, inner face".
func (c Curb) String() string {
	return [...]string{"", "curb, outer face", "curb, inner face", "curb, end"}[c]
}

// Curbs gives the boards of the curbs on a slab's edges, as high as these, one course over the
// other: each as the edge boards are cut, the uppermost ripped to the height. Where tops are
// level over a slab that falls, the boards are too, and the lowest are ripped on a taper. Stakes
// of the edge's boards hold the outer ones; the inner ones hang from hangers across, as far apart as
// stakes, so that none is driven through the slab.
func Curbs(s *slab.Slab, spec Spec) []Form {
	t := forming{Slab: s, spec: spec}
	if s.Curbs.None() || !t.Fits("Form boards", t.Run(func(plan.Edge) bool { return true }), spec.Stakes) {
		return nil
	}
	var out []Form
	for k, r := range s.Curbs.Runs {
		outer := Form{Loop: r.Loop, Edge: r.Edge, Curb: CurbOuter, A: r.Arc.A, B: r.Arc.B, Middle: r.Arc.Middle, Length: r.Long()}
		for _, n := range s.Curbs.Runs {
			if n.Loop == r.Loop && n.Arc.A == r.Arc.B && r.Arc.Straight() && n.Arc.Straight() {
				outer.Length = lapped(outer.Length, turnLap(plan.CurbFace{A: r.Arc.A, B: r.Arc.B}, plan.CurbFace{A: n.Arc.A, B: n.Arc.B}))
			}
		}
		for _, f := range append([]Form{outer}, t.innerFaces(k)...) {
			if t.Curbs.Level() {
				out = t.tapered(out, f, r)
			} else {
				out = t.courses(out, f, r.Height)
			}
		}
	}
	return out
}

// innerFaces gives the forms of a run's faces within the slab, without their boards.
func (t *forming) innerFaces(run int) (out []Form) {
	r := t.Curbs.Runs[run]
	if !r.Arc.Straight() { // bent, as long as its arc; the ends meet those of the curbs beside it
		in := arc.Arc{A: r.Arc.At(1, r.Width), B: r.Arc.At(0, r.Width)}
		in.Middle = -r.Arc.Middle + inwardBow(r)
		return []Form{{Loop: r.Loop, Edge: r.Edge, Curb: CurbInner, A: in.A, B: in.B, Middle: in.Middle, Length: in.Length()}}
	}
	faces := t.Curbs.Faces
	for i, f := range faces {
		if f.Run != run {
			continue
		}
		one := Form{Loop: r.Loop, Edge: r.Edge, Curb: CurbInner, A: f.A, B: f.B, Length: geometry.Distance(f.A, f.B)}
		if f.End {
			one.Curb = CurbEnd
		} else if n, ok := following(faces, i); ok {
			one.Length = lapped(one.Length, turnLap(f, n))
		}
		out = append(out, one)
	}
	return out
}

// inwardBow gives by how much nearer to each other, across, the ends and the middle of a bowed
// curb's inner face lie than those of its outer one.
func inwardBow(r plan.CurbRun) geometry.Length {
	return geometry.Rounded(float64(r.Width) * (1 - math.Cos(r.Arc.Sweep()/2)))
}

// following gives the face that starts where another ends.
func following(all []plan.CurbFace, i int) (plan.CurbFace, bool) {
	for k, n := range all {
		if k != i && n.A == all[i].B {
			return n, true
		}
	}
	return plan.CurbFace{}, false
}

// turnLap gives by how much the board of a face runs past its end, or stops short of the board
// that it butts against.
func turnLap(f, n plan.CurbFace) geometry.Length {
	a, b := slab.NewSide(0, 0, f.A, f.B), slab.NewSide(0, 1, n.A, n.B)
	return lapAt(math.Atan2(a.Ux*b.Uy-a.Uy*b.Ux, a.Ux*b.Ux+a.Uy*b.Uy))
}

// lapped gives how long the board of a face is: of a short one, as on a jog, half is left where it
// stops short.
func lapped(face, lap geometry.Length) geometry.Length { return max(face+lap, face/2) }

// courses adds the boards of a form, one over the other, so high from its bottom up.
func (t *forming) courses(out []Form, f Form, high geometry.Length) []Form {
	for i, c := range lumber.Courses(high) {
		one := f
		one.Up, one.Depth = f.Up+c.From, c.High
		one.Board, one.Ripped = c.Board, c.Board.Width-c.High
		if one.Middle != 0 {
			one.Board = lumber.Thin(one.Board)
		}
		one.Boards = t.formBoards(one.Length)
		if (f.Curb == CurbInner || f.Step) && i == 0 {
			one.Hangers = t.hangers(one)
		}
		out = append(out, one)
	}
	return out
}

// hangers gives where an inner form hangs from: near its ends and between, as far apart as
// stakes; twice as close along an arc.
func (t *forming) hangers(f Form) []geometry.Length {
	apart := max(t.spec.Stakes, geometry.Inch)
	if f.Middle != 0 {
		apart = max(apart/closer, geometry.Inch)
	}
	long := geometry.Distance(f.A, f.B)
	if f.Middle != 0 {
		long = f.Arc().Length()
	}
	return slab.Evenly(0, long, apart, t.Step())
}
