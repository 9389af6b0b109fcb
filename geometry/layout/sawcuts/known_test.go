package sawcuts_test

import (
	"reflect"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// What is kept of a slab is what would be laid on any of its variations: with what was
// varied in its texts and places, or laid anew.
func TestKnown(t *testing.T) {
	spec := sawcuts.Spec{Ratio: 30, Aspect: 1.2, Spacing: 20 * geometry.Foot} // breaks limits, so that there is something to tell
	deeper := func(p plan.Plan) plan.Plan {
		p.Sections = []plan.Section{{Name: "Edge", Depth: 2 * geometry.Foot, Bottom: geometry.Foot}}
		return p
	}
	thicker := func(p plan.Plan) plan.Plan {
		p.Field += geometry.Inch
		return p
	}
	as := func(p plan.Plan) plan.Plan { return p }
	var known sawcuts.Known
	for _, vary := range []func(plan.Plan) plan.Plan{as, deeper, thicker, as} {
		p := vary(shed().Plan)
		one, two := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{}), slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
		want, got := sawcuts.Lay(one, spec), known.Lay(two, spec)
		if len(one.Findings) == 0 {
			t.Error("nothing is found")
		}
		if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(one.Findings, two.Findings) {
			t.Errorf("kept %v %v,\nlaid %v %v", got, two.Findings, want, one.Findings)
		}
		for i := range got {
			got[i].Depth = 0 // what was handed out is the caller's
		}
	}
}
