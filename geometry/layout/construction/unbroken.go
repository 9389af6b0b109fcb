package construction

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// Unbroken gives the parts of a slab through each of which the steel of the field runs on: what
// its construction joints divide it into, joined again over those that steel goes through. It
// is nil where the steel stops at none. Where parts on both sides of a joint that it stops at
// would be one by a way round, none are joined.
func Unbroken(t *slab.Slab) []plane.Region {
	stops := false
	for _, c := range t.Plan.Construction {
		stops = stops || c.Stops()
	}
	if !stops {
		return nil
	}
	d := Divide(t.Plan)
	of := make([]int, len(d.Parts)) // what each is one with
	for i := range of {
		of[i] = i
	}
	across := func(stops bool, visit func(i, j int)) {
		for _, l := range d.Lines {
			if t.Plan.Construction[l.Joint].Stops() != stops {
				continue
			}
			left, right := d.beside(l, true), d.beside(l, false)
			for i := range left {
				for j := range right {
					if overlap(left[i], right[j]) > geometry.Inch {
						visit(i, j)
					}
				}
			}
		}
	}
	across(false, func(i, j int) {
		was, is := of[j], of[i]
		for k := range of {
			if of[k] == was {
				of[k] = is
			}
		}
	})
	round := false
	across(true, func(i, j int) { round = round || of[i] == of[j] })
	for i := range of {
		if round {
			of[i] = i
		}
	}
	var out []plane.Region
	for i := range d.Parts {
		var one []plane.Region
		for k := range of {
			if of[k] == i {
				one = append(one, d.Parts[k].Region)
			}
		}
		if len(one) == 1 {
			out = append(out, one[0].Parts()...)
		} else if len(one) > 1 {
			out = append(out, plane.Union(one...).Parts()...)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}
