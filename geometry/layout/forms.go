package layout

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

var ruleFormDepth = Rule{"Form boards reach the edge's depth", "NIST PS 20 dressed sizes"}

// leastBoard is the shortest board that is cut by choice: common practice, no
// source.
const leastBoard = 2 * geometry.Foot

// forms gives the boards of every edge that is not a joint: whole stock boards
// and a rest, with a stake at each end, at each butt joint and between.
func (t *site) forms() []Form {
	run := t.run(func(e plan.Edge) bool { return !e.Joint })
	if !t.fits("Form boards", run, slices.Max(t.spec.Forms.Stock)) {
		return nil
	}
	staked, braced := t.fits("Stakes", run, t.spec.Forms.Stakes), t.fits("Kickers", run, t.spec.Forms.Kickers)
	out := make([]Form, 0, len(t.region.sides))
	for _, l := range t.sides {
		for _, s := range l {
			if t.edge(s).Joint {
				continue
			}
			f := Form{Loop: s.loop, Edge: s.edge, Depth: t.depthAtFace(s), Length: s.length + t.formLap(s)}
			t.board(&f, s)
			f.Boards = t.formBoards(f.Length)
			at := geometry.Length(0)
			for i, b := range f.Boards {
				if !staked {
					break
				}
				stakes := evenly(at, min(at+b, s.length), t.spec.Forms.Stakes, t.step())
				if i > 0 {
					stakes = stakes[1:]
				}
				f.Stakes = append(f.Stakes, stakes...)
				at += b
			}
			if braced {
				f.Kickers = t.kickers(s)
			}
			out = append(out, f)
		}
	}
	return out
}

// formLap gives by how much a form runs past its end, to its longest point. At an
// outside corner it runs on by a board's thickness, for the board of the next edge
// to butt against; at an inside one it stops short of that board by as much. Where
// the corner turns slightly, both are mitered. No form follows along a joint.
func (t *site) formLap(s side) geometry.Length {
	n := t.after(s)
	if t.edge(n).Joint {
		return 0
	}
	turn := math.Pi - interior(s, n)
	size := math.Abs(turn)
	board := float64(formThickness)
	miter := board * math.Tan(min(size, sharpest)/2)
	square := board / math.Sin(min(size, sharpest))
	switch {
	case turn > 0 && size < leastButt:
		return round(miter)
	case turn > 0:
		return round(max(miter, square))
	}
	lap := miter
	if size > math.Pi/2 {
		lap = min(miter, square)
	}
	return -min(round(lap), s.length/2)
}

// formThickness is of 2-by lumber, PS 20.
const formThickness = 3 * geometry.Inch / 2

// board chooses the board of a form.
func (t *site) board(f *Form, s side) {
	b, deepEnough := lumber.ForDepth(f.Depth)
	if t.spec.Forms.Rip {
		for _, w := range lumber.Boards() {
			if b, deepEnough = w, w.Width >= f.Depth; deepEnough {
				break
			}
		}
	}
	if named, ok := lumber.Named(t.spec.Forms.Board); ok {
		b, deepEnough = named, named.Nominal >= f.Depth
	}
	f.Board = b.Name
	if b.Width > f.Depth {
		f.Ripped = b.Width - f.Depth
	} else {
		f.Below = f.Depth - b.Width
	}
	if !deepEnough && !slices.Contains(t.shallow, f.Depth) {
		t.shallow = append(t.shallow, f.Depth)
		t.find(ruleFormDepth, false, s.at(s.length/2, 0),
			"A %s is %s wide, and edges are %s deep: the trench goes %s below the board.", b.Name, t.text(b.Width), t.text(f.Depth), t.text(f.Below))
	}
}

// formBoards cuts a run into whole boards of the longest stock and a rest.
func (t *site) formBoards(run geometry.Length) []geometry.Length {
	var longest geometry.Length
	for _, l := range t.spec.Forms.Stock {
		longest = max(longest, l)
	}
	var out []geometry.Length
	for _, p := range byStock(run, longest, leastBoard, t.step()) {
		out = append(out, p.to-p.from)
	}
	return out
}

// kickers brace the form between its ends.
func (t *site) kickers(s side) []geometry.Length {
	k := t.spec.Forms.Kickers
	if k <= 0 {
		return nil
	}
	n := max(1, (s.length+k-1)/k)
	out := make([]geometry.Length, 0, n)
	for i := range n {
		out = append(out, place(0, s.length, 2*i+1, 2*n, t.step()))
	}
	return out
}
