package sheet

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/plan"
)

// constructionDetails draws each kind of construction joint that is more than a plain face
// once: with its key, or with a dowel.
func (s *set) constructionDetails(slab takeoff.Slab) (out []block) {
	u := s.job.Units
	for _, j := range slab.Layout.Construction {
		of := detail.Section{Field: slab.Plan.Field, Inside: true, Said: true}
		switch {
		case j.Kind == plan.Keyed:
			k := j.Key
			of.Key = (*detail.Key)(&k)
			out = append(out, s.sectionBlock("Keyed construction joint", []string{
				fmt.Sprintf("key %s high × %s deep, in the middle of the face; its sides bevel %s", k.High.Text(u), k.Deep.Text(u), k.Bevel.Text(u)),
				"its groove is in the first pour, left, by a strip on the bulkhead",
			}, of))
		case len(j.Dowels) > 0:
			of.Key = &detail.Key{}
			of.Lying = &detail.LyingBar{From: -j.Bar.Length / 2, To: j.Bar.Length / 2, Depth: j.Dowels[0].Depth, Diameter: j.Bar.Diameter}
			out = append(out, s.sectionBlock("Doweled construction joint", []string{
				fmt.Sprintf("smooth dowels %s × %s at most %s apart, %s down", j.Bar.Diameter.Text(u), j.Bar.Length.Text(u), j.Bar.Spacing.Text(u), j.Dowels[0].Depth.Text(u)),
				"half in each pour; sleeve or grease one half; level, square to the joint",
			}, of))
		}
	}
	return out
}
