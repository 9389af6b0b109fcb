package takeoff

import (
	"fmt"

	"haunchbook/geometry"
)

// joints takes off the saw cuts.
func (b *builder) joints() {
	js := b.t.Layout.Joints
	if len(js) == 0 {
		return
	}
	var total geometry.Length
	for _, j := range js {
		total += geometry.Distance(j.A, j.B)
	}
	v, u := b.m.length(total)
	b.add("joints.length", Saw, "Saw cuts", v, u,
		Step{Text: fmt.Sprintf("%d cuts", len(js)), Work: "summed on the plan", Result: text(v, u)})
}
