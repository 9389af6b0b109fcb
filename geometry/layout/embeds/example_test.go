package embeds_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/embeds"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// A sleeve of 4 in stands in the way of a No. 4 bar.
func ExampleCheck() {
	const ft, in = geometry.Foot, geometry.Inch
	p := plan.Plan{Field: 6 * in, Embeds: []plan.Embed{{Center: geometry.Point{X: 4 * ft, Y: 3 * ft}, Width: 4 * in}}}
	for _, q := range [][2]geometry.Length{{0, 0}, {10, 0}, {10, 8}, {0, 8}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * ft, Y: q[1] * ft}})
	}
	t := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Strength: 3000, Slump: 5 * in, Aggregate: 3 * in / 4})
	across := bars.Bar{Size: 4, Depth: 3 * in, Path: []geometry.Point{{X: 3 * in, Y: 3 * ft}, {X: 117 * in, Y: 3 * ft}}}
	embeds.Check(t, embeds.Placed{Bars: []bars.Bar{across}})
	for _, f := range t.Findings {
		fmt.Println(f.Text)
	}
	// Output:
	// Bars run into the embed E1, or pass nearer than 1": 1. Tie them aside; none is cut for it.
}
