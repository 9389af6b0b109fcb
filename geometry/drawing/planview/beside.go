package planview

import "haunchbook.example/geometry/drawing"

// beside draws the outlines and names of other slabs.
func (m *Maker) beside() {
	for i := range m.in.Beside {
		s := &m.in.Beside[i]
		for _, l := range s.Plan.Loops() {
			m.d.Ring(drawing.Pencil{Layer: drawing.Names, Style: drawing.NeighborLine}, l.Rim()...)
		}
		if s.Name != "" {
			lo, hi := s.Plan.Outline.Rim().Bounds()
			at := drawing.Between(lo, hi, 0.5)
			m.d.Label(drawing.Label{
				Layer: drawing.Names, Style: drawing.NeighborLine, Type: drawing.Small, At: at, Reach: 20, Weight: againWeight, Optional: true,
			}, []string{s.Name}, drawing.At(at))
		}
	}
}
