package plan

import "haunchbook.example/geometry"

// Shot is a place of the ground, as it is ready for concrete, whose height was measured.
type Shot struct {
	At     geometry.Point  `json:"at"`
	Height geometry.Length `json:"height"` // over the datum
}

// KindShot is the kind of shots.
const KindShot Kind = "shot"

func init() {
	register(KindShot, 53, 13, list[Shot]{
		kind: KindShot,
		in:   func(s *Site) *[]Shot { return &s.Survey.Shots },
		body: func(s *Shot) []*geometry.Point { return []*geometry.Point{&s.At} },
		lies: func(s Shot) Outline { return Outline{Grips: []Grip{{At: s.At}}} },
	})
}
