package takeoff

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/sawcuts"
)

// joints takes off the saw cuts and the isolation strips.
func (b *builder) sawing() {
	b.sawCuts()
	b.isolation()
}

func (b *builder) sawCuts() {
	var total geometry.Length
	var steps []Step
	for _, s := range b.t.Slabs {
		var order []sawcuts.Why
		count, length := map[sawcuts.Why]int{}, map[sawcuts.Why]geometry.Length{}
		depth := geometry.Length(0)
		for _, j := range s.Layout.SawCuts {
			l := geometry.Distance(j.A, j.B)
			total += l
			if count[j.Why] == 0 {
				order = append(order, j.Why)
			}
			count[j.Why]++
			length[j.Why] += l
			depth = max(depth, j.Depth)
		}
		for _, why := range order {
			steps = append(steps, Step{Text: s.Called(fmt.Sprintf("%d for %s", count[why], why)), Work: b.m.text(depth) + " deep", Result: b.m.lengthText(length[why])})
		}
	}
	if total == 0 {
		return
	}
	for _, s := range b.t.Slabs {
		limit, rule := b.place.SawCuts.Limit(s.Plan.Field, b.place.Concrete)
		steps = append(steps, Step{Text: s.Called("Panels"), Work: "at most " + b.m.text(limit) + " apart", Source: rule.Name + ", " + rule.Source})
	}
	v, u := b.m.length(total)
	b.add(ID{Kind: SawCuts}, v, u, append(steps,
		Step{Text: "Sum", Work: "depth: a quarter of the thickness, at least 1 in", Result: text(v, u), Source: "ACI 302.1R"})...)
}

// isolation takes off the strips between the slab and what it is not bound to.
func (b *builder) isolation() {
	var total geometry.Length
	var steps []Step
	for _, s := range b.t.Slabs {
		round := map[int]geometry.Length{}
		for _, i := range s.Layout.Isolation {
			l := geometry.Distance(i.A, i.B)
			total += l
			if i.Pad > 0 {
				round[i.Pad] += l
				continue
			}
			where := "Along " + s.Layout.Marks.Edge(i.Loop, i.Edge)
			if i.Loop == 0 {
				where += ", not doweled"
			}
			steps = append(steps, Step{Text: s.Called(where), Work: b.m.text(i.Depth) + " deep", Result: b.m.lengthText(l)})
		}
		for _, o := range s.Layout.Outs {
			steps = append(steps, Step{Text: s.Called("Round " + s.Layout.Marks.Pad(o.Pad).String()), Work: b.m.text(s.Plan.Field) + " deep", Result: b.m.lengthText(round[o.Pad+1])})
		}
	}
	if total > 0 {
		v, u := b.m.length(total)
		b.add(ID{Kind: IsolationStrip}, v, u, append(steps, Step{Text: "Sum", Result: text(v, u), Source: "ACI 302.1R"})...)
	}
}
