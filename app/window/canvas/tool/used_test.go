package tool_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// Beside the plan stand only the fields that the thing uses as it is: what turns a round
// pipe, or the dowels of a joint that has none, is asked of nobody.
func TestUnusedFieldsAreNotShown(t *testing.T) {
	p := shop()
	p.Embeds = []plan.Embed{{Center: pt(6*ft, 6*ft), Width: 6 * in}}
	p.Construction = []plan.Construction{{From: pt(12*ft, 0), To: pt(12*ft, 20*ft)}}
	for _, c := range []struct {
		on     tool.Kind
		use    tool.State // instead of what is selected
		fields []string
		then   string // what has them shown
		off    string // and no more
	}{
		{tool.Embed, nil, []string{"Turned"}, "Length=6\"", "Length=0"},
		{tool.Construction, nil, []string{"Dowels, diameter", "Dowels, length", "Dowels, at most apart"}, "It is:smooth dowels", "It is:face with a key"},
		{nil, &tool.PlaceConstruction{}, []string{"Dowels, diameter", "Dowels, length", "Dowels, at most apart"}, "It is:smooth dowels", "It is:plain face"},
	} {
		b := newBench(t, p)
		b.m.Selected = tool.Target{Kind: c.on}
		if c.use != nil {
			b.m.Use(c.use)
		}
		for i, does := range []string{"", c.then, c.off} {
			if does != "" {
				if err := b.does(does); err != nil {
					t.Fatalf("%s: %v", does, err)
				}
			}
			for _, f := range c.fields {
				if _, shown := b.panel().texts[f]; shown != (i == 1) {
					t.Errorf("%v: after %q %s is shown: %t", c.on, does, f, shown)
				}
			}
		}
	}
}
