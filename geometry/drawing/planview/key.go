package planview

import "haunchbook.example/geometry/drawing"

// Key draws where the slabs of a job lie, small: their outlines, the one of a
// number in the job dark; -1 for none.
func Key(slabs []Slab, own int) *drawing.Drawing {
	d := &drawing.Drawing{}
	for i := range slabs {
		corners := slabs[i].Plan.Outline.Rim()
		if len(corners) < 3 {
			continue
		}
		if slabs[i].Number == own {
			d.Fill(drawing.Pencil{Layer: drawing.Outline, Style: drawing.OwnFill}, corners...)
		}
		d.Ring(drawing.Pencil{Layer: drawing.Outline, Style: drawing.RuleLine}, corners...)
	}
	return d
}
