package planview

import (
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

var _ = add(kind{layer: drawing.BlockOuts, stage: lines, order: 9, draw: (*Maker).blockOuts})

// blockOuts draws what is left open round columns.
func (m *Maker) blockOuts() {
	for _, o := range m.s.Plan.BlockOuts() {
		if r := o.Ring(); m.seen(r...) {
			m.d.Ring(drawing.Pencil{Layer: drawing.BlockOuts, Style: drawing.BlockOutLine}, r...)
		}
	}
}

// blockOutOf says what is left open round the column on a pad; "" for nothing.
func (m *Maker) blockOutOf(pad int) string {
	for _, o := range m.s.Plan.BlockOuts() {
		switch {
		case o.Pad != pad:
		case o.Shape == plan.RoundOut:
			return m.d.Join("block-out round, ", m.d.Text(o.Size))
		case o.Shape == plan.DiamondOut:
			return m.d.Join("block-out diamond, ", m.d.Text(o.Size))
		default:
			return m.d.Join("block-out square, ", m.d.Text(o.Size))
		}
	}
	return ""
}
