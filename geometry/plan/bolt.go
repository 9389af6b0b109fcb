package plan

import (
	"slices"

	"haunchbook.example/geometry"
)

// BoltMark is an anchor bolt position that the builder gives on an edge's wall.
// Where a wall has one that is no hold-down, all its bolts are the builder's.
type BoltMark struct {
	Along    geometry.Length `json:"along"` // from the edge's start corner
	HoldDown bool            `json:"holddown,omitzero"`
}

// KindBolt is the kind of the builder's bolt marks. They move along their edge.
const KindBolt Kind = "bolt mark"

func init() {
	register(KindBolt, 20, 4, edgeList[BoltMark]{
		perEdge: perEdge{KindBolt},
		in:      func(e *Edge) *[]BoltMark { return &e.Bolts },
		along:   func(m *BoltMark) *geometry.Length { return &m.Along },
		sorted:  true,
		lies: func(l Loop, i int, m BoltMark) Outline {
			face, inner, ok := l.BoltLine(i, m.Along)
			if !ok {
				return Outline{}
			}
			return Outline{Lines: [][2]geometry.Point{{face, inner}}}
		},
	})
}

// boltInset is how far in from the face a bolt may stand and still be taken: the
// middle of a 2x12 plate.
const boltInset = 6 * geometry.Inch

// BoltLine gives the stretch square to edge i that a bolt mark stands on, from the
// face inward; false where the edge has no length.
func (l Loop) BoltLine(i int, along geometry.Length) (face, inner geometry.Point, ok bool) {
	a, b := l.Ends(i)
	if a == b || along.Abs() > geometry.MaxLength {
		return face, inner, false
	}
	face = geometry.Along(a, b, along)
	return face, face.Add(Turn(geometry.Along(a, b, boltInset).Sub(a), 90)), true
}

// SetBolts gives edge i of a loop the builder's bolt marks, in order along it.
func (p Plan) SetBolts(loop, i int, marks []BoltMark) (Plan, error) {
	return p.SetEdge(loop, i, func(e *Edge) { e.Bolts = slices.Clone(marks) })
}
