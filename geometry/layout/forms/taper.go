package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// leastBend is how near to the end of a form, or to another, the top may bend under it without
// another board: own figure.
const leastBend = 3 * geometry.Inch

// tapered adds the boards of a form of a curb with a level top, from bend to bend of the top
// under it. A bent one is as high as where the slab lies lowest, and cut to the slab.
func (t *forming) tapered(out []Form, f Form, r plan.CurbRun) []Form {
	if f.Middle != 0 {
		_, most := t.Curbs.Range(r)
		return t.courses(out, f, most)
	}
	a, b, long := f.A, f.B, geometry.Distance(f.A, f.B)
	lap, from := f.Length-long, geometry.Length(0)
	for _, share := range append(t.Curbs.Over.Bends(a, b), 1) {
		to := geometry.Rounded(share * float64(long))
		if to < long && (to-from < leastBend || long-to < leastBend) {
			continue
		}
		one := f
		if from > 0 {
			one.A = geometry.Along(a, b, from)
		}
		if one.Length = to - from; to < long {
			one.B = geometry.Along(a, b, to)
		} else {
			one.Length = lapped(one.Length, lap)
		}
		out, from = t.taper(out, one, t.Curbs.High(r, one.A), t.Curbs.High(r, one.B)), to
	}
	return out
}

// taper adds the boards of a form whose concrete stands a high at its one end and b at the
// other, with a level top: level boards one over the other, each down to the slab as far as it
// reaches it.
func (t *forming) taper(out []Form, f Form, a, b geometry.Length) []Form {
	most := max(a, b)
	if (a - b).Abs() < t.Step() {
		return t.courses(out, f, most)
	}
	long := geometry.Distance(f.A, f.B)
	all := lumber.Courses(most)
	for i, c := range all {
		top := most - c.From - c.High // below that of the curb
		one := f
		ha, hb := min(max(a-top, 0), c.High), min(max(b-top, 0), c.High)
		if ha == 0 || hb == 0 { // the slab comes up over it
			off := geometry.Rounded(float64(long) * float64(top-a) / float64(b-a))
			if ha == 0 {
				one.A, one.Length = geometry.Along(f.A, f.B, off), f.Length-off
			} else {
				one.B, one.Length = geometry.Along(f.A, f.B, off), off
			}
		}
		one.Up, one.Depth, one.Fall = f.Up+c.From, max(ha, hb), ha-hb
		if one.Depth < t.Step() || one.Length < t.Step() {
			continue
		}
		one.Board, one.Ripped = c.Board, c.Board.Width-one.Depth
		one.Boards = t.formBoards(one.Length)
		if f.Curb == CurbInner && i == len(all)-1 { // the uppermost goes all along
			one.Hangers = t.hangers(one)
		}
		out = append(out, one)
	}
	return out
}
