package plan

import (
	"haunchbook.example/geometry"
)

// Note is a text on the drawing, with a leader from it to what it speaks of
// where Leader is set.
type Note struct {
	Text   string         `json:"text"`
	At     geometry.Point `json:"at"` // where the text stands: the middle of its left edge
	Leader bool           `json:"leader,omitzero"`
	To     geometry.Point `json:"to,omitzero"` // where the leader ends
}

// KindNote is the kind of notes. The end of a leader is taken alone.
const KindNote Kind = "note"

func init() {
	register(KindNote, 52, 12, list[Note]{
		kind: KindNote,
		in:   func(s *Site) *[]Note { return &s.Survey.Notes },
		body: func(n *Note) []*geometry.Point { return []*geometry.Point{&n.At} },
		ends: func(n *Note) []*geometry.Point {
			if !n.Leader {
				return nil
			}
			return []*geometry.Point{&n.To}
		},
		lies: func(Note) Outline { return Outline{} },
		drop: func(n *Note) { n.Leader, n.To = false, geometry.Point{} },
	})
}
