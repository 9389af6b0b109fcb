package tool

import (
	"fmt"
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/app/visit"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

var photos = &list[visit.Photo]{
	called: "photograph",
	help:   "Drag to move; Delete takes it off the plan, and the job keeps it",
	rank:   rankMark,
	in:     func(j *job.Job, _ int) *[]visit.Photo { return &j.Visit.Photos },
	placed: func(p visit.Photo) bool { return p.Placed },
	off:    func(p *visit.Photo) { p.Placed, p.At = false, geometry.Point{} },
	whole:  func(p *visit.Photo) []*geometry.Point { return []*geometry.Point{&p.At} },
	near: func(o On, p visit.Photo, r *Reach, t Target) {
		r.Point(o, rankMark, p.At, t)
	},
	outline: func(m *Machine, o *Overlay, p visit.Photo, _ int, s Style) { o.ring(m, p.At, 16, s) },
	describe: func(_ *Machine, f bind.Fields[visit.Photo], s Sheet) {
		f.At("visit.photos[]").Rows("name", "date", "at")
		s.Picture(func() string { return f.Get().Image })
		s.Explain("All photographs stand in the job book, at the site visit of the job.")
	},
}

// Photo is the kind of the photographs of the site, at where they were taken from.
var Photo Kind = photos

// PlacePhoto sets a photograph, by its place in the job, where it was taken from.
type PlacePhoto struct {
	still
	N int // from 0
}

// Name implements State.
func (*PlacePhoto) Name() string { return "Photograph" }

// Help implements State.
func (s *PlacePhoto) Help(*Machine) Help {
	return Help{"Click where " + visit.Mark(s.N) + " was taken from, or type where that is: 12' right, 4' up", "", "Stop"}
}

// Takes implements State.
func (*PlacePhoto) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (*PlacePhoto) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

// Move implements State.
func (*PlacePhoto) Move(m *Machine) {
	m.Hover = Target{}
	m.Snap = snap.To(m.request())
}

// Press implements State.
func (s *PlacePhoto) Press(m *Machine) {
	s.Move(m)
	s.set(m, m.Snap.At)
}

// Enter implements State.
func (s *PlacePhoto) Enter(m *Machine, text string) {
	if at, ok := typedPlace(m, text); ok {
		s.set(m, at)
	}
}

func (s *PlacePhoto) set(m *Machine, at geometry.Point) {
	j := m.Doc.Base()
	if s.N >= len(j.Visit.Photos) {
		m.say(errGone)
		return
	}
	j.Visit.Photos = slices.Clone(j.Visit.Photos)
	j.Visit.Photos[s.N].Placed, j.Visit.Photos[s.N].At = true, at
	m.Doc.Commit(fmt.Sprintf("Place %s", visit.Mark(s.N)), j)
	m.Use(&Select{})
	m.Selected = Target{Kind: photos, Index: s.N}
}
