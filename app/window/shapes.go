package window

import (
	"sync"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry/solid"
)

// shapes are the slabs of the last takeoffs made ready to be drawn. They are made
// where the takeoff is computed, beside the window.
type shapes struct {
	mu   sync.Mutex
	last [2]map[*solid.Solid]ready // of this takeoff and the one before
}

// ready is a slab made ready to be drawn.
type ready struct {
	shape                *scene.Shape
	foam, retarder, mesh *scene.Cover
}

func readyOf(s *takeoff.Slab) ready {
	loops := s.Plan.Loops()
	return ready{
		scene.ShapeOf(s.Solid, s.Plan.Field), scene.CoverOf(s.Foam.Sheets, loops),
		scene.CoverOf(s.Retarder.Sheets, nil), // it is turned up at the edges
		scene.CoverOf(s.Layout.Mesh, loops),
	}
}

// after gives a computation that also makes its shapes ready.
func (s *shapes) after(c document.Compute) document.Compute {
	return func(j job.Job) (*takeoff.Takeoff, error) {
		t, err := c(j)
		if err == nil && t != nil {
			s.make(t)
		}
		return t, err
	}
}

func (s *shapes) make(t *takeoff.Takeoff) {
	made := map[*solid.Solid]ready{}
	for i := range t.Slabs {
		made[t.Slabs[i].Solid] = readyOf(&t.Slabs[i])
	}
	s.mu.Lock()
	s.last[0], s.last[1] = made, s.last[0]
	s.mu.Unlock()
}

// of gives a slab as it is drawn, which is made now where it is not ready.
func (s *shapes) of(slab *takeoff.Slab) ready {
	if slab.Solid == nil {
		return ready{}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, m := range s.last {
		if d, ok := m[slab.Solid]; ok {
			return d
		}
	}
	d := readyOf(slab)
	if s.last[1] == nil || len(s.last[1]) > 64 {
		s.last[1] = map[*solid.Solid]ready{}
	}
	s.last[1][slab.Solid] = d
	return d
}
