package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// lineKinds are what lines are bought as.
var lineKinds = map[plan.LineKind]Kind{
	plan.DrainLine: DrainLines, plan.TrenchDrain: TrenchDrain, plan.Conduit: Conduits, plan.Tubing: Tubing,
}

// lines adds up what runs along and under the slabs, each kind and size by itself, without
// waste and fittings. The concrete that it takes up is not deducted: common practice, no source.
func (b *builder) lines() {
	var order []ID
	sum, steps := map[ID]geometry.Length{}, map[ID][]Step{}
	circuits, each := 0, []Step{}
	for _, s := range b.t.Slabs {
		for _, l := range s.Layout.LaidLines {
			drawn := s.Plan.Lines[l.Index]
			id := ID{Kind: lineKinds[l.Kind], Diameter: drawn.Diameter}
			if l.Kind == plan.TrenchDrain {
				id.Diameter, id.Width, id.Depth = 0, drawn.Diameter, drawn.Height
			}
			if _, ok := sum[id]; !ok {
				order = append(order, id)
			}
			sum[id] += l.Length
			step := Step{Text: s.Called(s.Layout.Marks.Line(l.Index).Called(drawn.Name)), Work: "along its middle", Result: b.m.lengthText(l.Length)}
			if l.Kind == plan.Tubing {
				step.Work = fmt.Sprintf("rows %s apart over %s; circuits: %d, the longest %s", b.m.text(drawn.Spacing), b.m.areaText(drawn.Floor().Area()), len(l.Runs), b.m.text(l.Each))
				circuits += len(l.Runs)
				each = append(each, Step{Text: step.Text, Work: "of at most " + b.m.text(drawn.Longest), Result: fmt.Sprint(len(l.Runs))})
			}
			steps[id] = append(steps[id], step)
		}
	}
	slices.SortStableFunc(order, func(a, b ID) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Diameter, b.Diameter), cmp.Compare(a.Width, b.Width), cmp.Compare(a.Depth, b.Depth))
	})
	for _, id := range order {
		v, u := b.m.length(sum[id])
		b.add(id, v, u, append(steps[id], Step{Text: "Sum", Result: text(v, u)})...)
	}
	if circuits > 0 {
		b.add(ID{Kind: Circuits}, float64(circuits), Each, each...)
	}
}
