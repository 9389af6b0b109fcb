package plan

import (
	"errors"

	"haunchbook.example/geometry"
)

// North tells where north is on the drawing. The zero North is unknown.
type North struct {
	Known bool    `json:"known"`
	Turn  float64 `json:"turn"` // degrees clockwise from straight up the drawing
}

// KindNorth is the kind of the arrow that points north. It has no place on the
// plan.
const KindNorth Kind = "north"

func init() { register(KindNorth, 50, 10, arrow{}) }

type arrow struct{}

func (arrow) each(s *Site, visit func(Thing)) {
	if s.Survey.North.Known {
		visit(Thing{Kind: KindNorth})
	}
}

func (arrow) has(s *Site, _ Thing) bool    { return s.Survey.North.Known }
func (arrow) outline(*Site, Thing) Outline { return Outline{} }

func (arrow) move(_ *Site, t Thing, _ geometry.Point) (Thing, error) {
	return t, errors.New("north is turned, not moved")
}

func (arrow) remove(s *Site, _ Thing) error {
	s.Survey.North = North{}
	return nil
}
