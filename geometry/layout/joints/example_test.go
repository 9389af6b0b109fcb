package joints_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// shed is 16 ft by 12 ft, walled all round but for one side against an old slab.
func shed() *slab.Slab {
	p := plan.Plan{
		Field:    4 * geometry.Inch,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}},
	}
	for _, q := range [][2]geometry.Length{{0, 0}, {16, 0}, {16, 12}, {0, 12}} {
		at := geometry.Point{X: q[0] * geometry.Foot, Y: q[1] * geometry.Foot}
		p.Outline = append(p.Outline, plan.Edge{At: at, Section: "Edge", Wall: "2x6"})
	}
	p.Outline[3] = plan.Edge{At: p.Outline[3].At, Joint: true}
	return slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Strength: 3000, Slump: 5 * geometry.Inch, Aggregate: 3 * geometry.Inch / 4})
}

func ExampleDowels() {
	spec := joints.Spec{
		Size: 4, Length: 18 * geometry.Inch, Embed: 6 * geometry.Inch, Spacing: 24 * geometry.Inch,
		End: 12 * geometry.Inch, OldSlab: 4 * geometry.Inch,
	}
	for _, d := range joints.Dowels(shed(), spec, bars.NewSegments(nil)) {
		fmt.Print(d.Along.Text(geometry.FeetInches), "  ")
	}
	// Output:
	// 1'-0"  3'-0"  5'-0"  7'-0"  9'-0"  11'-0"
}

// What is filled round a bar of 1/2 in in a hole of 5/8 in, and round a plate of 3/8 by 2 in
// in a slot 1/8 in wider and higher, each 8 in deep, in cubic inches: π/4 (5/8² - 1/2²) 8 and
// (1/2 · 2 1/8 - 3/8 · 2) 8.
func ExampleSpec_HoleVolume() {
	spec := joints.Spec{Size: 4, Embed: 8 * geometry.Inch, Clearance: geometry.Inch / 8}
	plate := joints.Spec{Size: 4, Kind: joints.Plates, PlateEmbed: 8 * geometry.Inch, Clearance: geometry.Inch / 8, Thickness: 3 * geometry.Inch / 8, Width: 2 * geometry.Inch}
	const cubicInch = 0.0254 * 0.0254 * 0.0254
	fmt.Printf("%.4f %.4f", spec.HoleVolume()/cubicInch, plate.HoleVolume()/cubicInch)
	// Output:
	// 0.8836 2.5000
}
