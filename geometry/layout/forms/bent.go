package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
)

var ruleBent = rule.Rule{Name: "Form boards that bend", Source: "common practice", Step: rule.Forms}

const (
	// bendsTo is to how many times its thickness a board bends by itself: common practice,
	// no source. Tighter it is kerfed, or built up of thin stock.
	bendsTo = 100
	// closer is by how much stakes stand closer along an arc: common practice, no source.
	closer = 2
)

// bent gives the boards of an arc, which starts with a side: thin boards that bend, as long
// as the arc, with the stakes closer.
func (t *forming) bent(s slab.Side, staked, braced bool) Form {
	l := t.Loops[s.Loop]
	a, n := l.Whole(s.Edge)
	f := Form{Loop: s.Loop, Edge: l.Drawn(s.Edge), A: a.A, B: a.B, Middle: a.Middle, Depth: t.DepthAtFace(s)}
	long := a.Length()
	f.Length = long
	t.board(&f, s)
	f.Board = lumber.Thin(f.Board)
	if r := a.Radius(); r < bendsTo*f.Board.Thickness {
		t.Find(ruleBent, rule.Note, a.At(0.5, 0), "A form is bent to a radius of %s: %s boards bend to about %s by themselves. Kerf their backs, or build it up of thin stock, ripped to depth.",
			t.Text(r), f.Board.Name, t.Text(bendsTo*f.Board.Thickness))
	}
	last := t.Sides[s.Loop][(s.Edge+n-1)%len(l)]
	f.Length += max(0, t.formLap(last))
	f.Boards = t.formBoards(f.Length)
	at := geometry.Length(0)
	for i, b := range f.Boards {
		if !staked {
			break
		}
		stakes := slab.Evenly(at, min(at+b, long), t.spec.Stakes/closer, t.Step())
		if i > 0 {
			stakes = stakes[1:]
		}
		f.Stakes = append(f.Stakes, stakes...)
		at += b
	}
	if braced {
		f.Kickers = t.kickers(slab.Side{Length: long})
	}
	return f
}
