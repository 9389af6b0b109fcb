package takeoff

import (
	"fmt"

	"haunchbook/geometry"
)

// joints takes off the saw cuts and the isolation strips.
func (b *builder) joints() {
	b.sawCuts()
	b.isolation()
}

func (b *builder) sawCuts() {
	js := b.t.Layout.Joints
	if len(js) == 0 {
		return
	}
	var order []string
	count, length := map[string]int{}, map[string]geometry.Length{}
	var total geometry.Length
	for _, j := range js {
		l := geometry.Distance(j.A, j.B)
		total += l
		if count[j.Why] == 0 {
			order = append(order, j.Why)
		}
		count[j.Why]++
		length[j.Why] += l
	}
	limit, rule := b.place.JointLimit(b.plan.Field)
	var steps []Step
	for _, why := range order {
		steps = append(steps, Step{Text: fmt.Sprintf("%d for %s", count[why], why), Result: b.m.lengthText(length[why])})
	}
	v, u := b.m.length(total)
	b.add("joints.length", Saw, fmt.Sprintf("Saw cuts, %s deep", b.m.text(js[0].Depth)), v, u, append(steps,
		Step{Text: "Panels", Work: "at most " + b.m.text(limit) + " apart", Source: rule.Name + ", " + rule.Source},
		Step{Text: "Sum", Work: "depth: a quarter of the thickness, at least 1 in", Result: text(v, u), Source: "ACI 302.1R"})...)
}

// isolation takes off the strip along a joint with a slab that is there and not
// dowelled to it.
func (b *builder) isolation() {
	if b.place.Dowels.Size != 0 {
		return
	}
	var total geometry.Length
	var steps []Step
	for i, e := range b.plan.Outline {
		if e.Joint {
			l := b.plan.Outline.Length(i)
			total += l
			steps = append(steps, Step{Text: fmt.Sprintf("Edge %d, not dowelled", i+1), Result: b.m.lengthText(l)})
		}
	}
	if total > 0 {
		v, u := b.m.length(total)
		b.buy("isolation.length", Saw, "Isolation strip", v, u, append(steps, Step{Text: "Sum", Result: text(v, u), Source: "ACI 302.1R"})...)
	}
}
