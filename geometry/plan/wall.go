package plan

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
)

// Wall is a framed wall on the slab, along a line of its own: within it, or along a part of
// an edge. One along an edge stands flush with its face; of another the line is the middle
// of its plate.
type Wall struct {
	Name  string         `json:"name,omitzero"`
	Kind  WallKind       `json:"kind"`
	Plate string         `json:"plate"` // the board of its sill plate: "2x4"
	From  geometry.Point `json:"from"`  // where its tape hooks
	To    geometry.Point `json:"to"`
	Doors []Opening      `json:"doors,omitzero"`
	Bolts []BoltMark     `json:"bolts,omitzero"` // given by the builder, measured from From
}

// Opening is a door in a wall that stands on the slab: its rough opening.
type Opening struct {
	From  geometry.Length `json:"from"` // from the wall's start to the near jamb
	Width geometry.Length `json:"width"`
}

// WallKind tells what a wall within the slab does.
type WallKind = geometry.Choice[wallKinds]

type wallKinds struct{}

// Names implements geometry.Named.
func (wallKinds) Names() []string { return []string{"bearing", "braced"} }

// The kinds of walls.
const (
	Bearing WallKind = iota // it carries a floor or a roof
	Braced                  // it holds the building against wind and earthquake alone
)

// Board gives the board of its plate, of no width for an unknown one.
func (w Wall) Board() lumber.Board {
	b, _ := lumber.Named(w.Plate)
	return b
}

// Length gives how long the wall is, doors included.
func (w Wall) Length() geometry.Length { return geometry.Distance(w.From, w.To) }

// Along gives the edge that a wall stands along, flush with its face, and whether it runs
// the other way than the edge does; false for one within the slab.
func (p Plan) Along(w Wall) (loop, edge int, back, ok bool) {
	for k, l := range p.Loops() {
		for i := range l {
			if l[i].Middle != 0 {
				continue
			}
			a, b := l.Ends(i)
			from, off := geometry.Nearest(w.From, a, b)
			to, other := geometry.Nearest(w.To, a, b)
			if off < geometry.Sixteenth && other < geometry.Sixteenth && from != to {
				return k, i, to < from, true
			}
		}
	}
	return 0, 0, false, false
}

// Lies gives where the right side of a wall's plate lies, looking from its one end to the
// other, as an inset to the left of its line: 0 or less. The slab is right of a wall that
// runs back along an edge.
func (p Plan) Lies(w Wall) (right geometry.Length, along, back bool) {
	width := w.Board().Width
	switch _, _, back, along := p.Along(w); {
	case back:
		return -width, true, true
	case along:
		return 0, true, false
	}
	return -width / 2, false, false
}

// KindWall is the kind of walls along lines of their own. Both ends can be taken alone.
const KindWall Kind = "wall"

func init() {
	ends := func(w *Wall) []*geometry.Point { return []*geometry.Point{&w.From, &w.To} }
	register(KindWall, 42, 9, list[Wall]{
		kind: KindWall, path: "walls",
		in:   func(s *Site) *[]Wall { return &s.Plan.Walls },
		body: ends, ends: ends,
		lies: func(w Wall) Outline {
			return Outline{Lines: [][2]geometry.Point{{w.From, w.To}}, Half: w.Board().Width / 2}
		},
		deep: func(w *Wall) { w.Doors, w.Bolts = slices.Clone(w.Doors), slices.Clone(w.Bolts) },
		check: func(v *validator, path string, w *Wall) {
			if w.From == w.To {
				v.fault(path+".to", w.To, "the point it runs from", "give two different points")
			}
			if v.outside(w.From) {
				v.fault(path+".from", v.home, v.place(w.From), "must lie on the slab")
			}
			if v.outside(w.To) {
				v.fault(path+".to", v.home, v.place(w.To), "must lie on the slab")
			}
			if _, ok := lumber.Named(w.Plate); !ok {
				v.fault(path+".plate", w.From, fmt.Sprintf("%q", w.Plate), "give a board: 2x4, 2x6, 2x8, 2x10 or 2x12")
			}
			v.openings(path, w)
		},
	})
}

// openings checks the doors of a wall: within it, and apart from each other.
func (v *validator) openings(path string, w *Wall) {
	long := w.Length()
	for i, d := range w.Doors {
		at := path + fmt.Sprintf(".doors[%d]", i)
		if d.From < 0 || d.Width <= 0 || d.From > long || d.Width > long-d.From {
			v.fault(at, w.From, v.text(d.From)+" to "+v.text(d.From+d.Width), "must lie within the wall, which is "+v.text(long)+" long")
			continue
		}
		for k, o := range w.Doors[:i] {
			if d.From < o.From+o.Width && o.From < d.From+d.Width {
				v.fault(at, w.From, fmt.Sprintf("an opening that overlaps doors[%d]", k), "move one of them or make it narrower")
			}
		}
	}
}

// Free gives the stretches of a wall between its doors, in order, each with a jamb's width
// less beside a door.
func (w Wall) Free(jamb geometry.Length) (out [][2]geometry.Length) {
	doors := slices.Clone(w.Doors)
	slices.SortFunc(doors, func(a, b Opening) int { return cmp.Compare(a.From, b.From) })
	at := geometry.Length(0)
	for _, d := range doors {
		if to := d.From - jamb; to > at {
			out = append(out, [2]geometry.Length{at, to})
		}
		at = max(at, d.From+d.Width+jamb)
	}
	if end := w.Length(); end > at {
		out = append(out, [2]geometry.Length{at, end})
	}
	return out
}
