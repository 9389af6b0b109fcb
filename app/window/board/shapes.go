package board

import (
	"sync"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/solid"
)

// Shapes are the slabs of the last takeoffs made ready to be drawn. They are made
// where the takeoff is computed, beside the window.
type Shapes struct {
	mu   sync.Mutex
	last [2]map[*solid.Solid]planview.Slab // of this takeoff and the one before
}

// After gives a computation that also makes its shapes ready.
func (s *Shapes) After(c document.Compute) document.Compute {
	return func(h *handover.Handover) (*takeoff.Takeoff, error) {
		t, err := c(h)
		if err == nil && t != nil {
			s.Make(t)
		}
		return t, err
	}
}

func (s *Shapes) Make(t *takeoff.Takeoff) {
	made := map[*solid.Solid]planview.Slab{}
	for i := range t.Slabs {
		made[t.Slabs[i].Solid] = handover.Drawn(&t.Slabs[i])
	}
	s.mu.Lock()
	s.last[0], s.last[1] = made, s.last[0]
	s.mu.Unlock()
}

// of gives a slab ready to be drawn, which is made now where it is not there yet.
func (s *Shapes) of(slab *takeoff.Slab) planview.Slab {
	if slab.Solid == nil {
		return planview.Slab{}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, m := range s.last {
		if d, ok := m[slab.Solid]; ok {
			return d
		}
	}
	d := handover.Drawn(slab)
	if s.last[1] == nil || len(s.last[1]) > 64 {
		s.last[1] = map[*solid.Solid]planview.Slab{}
	}
	s.last[1][slab.Solid] = d
	return d
}
