package plane_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

const ft = geometry.Foot

func rectangle(x0, y0, x1, y1 geometry.Length) geometry.Ring {
	return geometry.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// A slab of 20 by 10 ft with a pit of 2 by 2 ft, and what lies left of a line
// through the pit.
func ExampleRegion_Left() {
	slab := plane.Subtract(plane.Region{rectangle(0, 0, 20*ft, 10*ft)}, plane.Region{rectangle(9*ft, 4*ft, 11*ft, 6*ft)})
	half := slab.Left(geometry.Point{X: 10 * ft}, geometry.Point{X: 10 * ft, Y: ft})
	square := ft.Meters() * ft.Meters()
	fmt.Printf("%.0f of %.0f ft²\n", half.Area()/square, slab.Area()/square)
	fmt.Println(slab.Contains(geometry.Point{X: 10 * ft, Y: 5 * ft}))
	// Output:
	// 98 of 196 ft²
	// false
}

// Where a saw cut across a slab with a notch runs.
func ExampleSides_Stretches() {
	sides := plane.NewSides(plane.Subtract(plane.Region{rectangle(0, 0, 20*ft, 10*ft)}, plane.Region{rectangle(8*ft, 5*ft, 12*ft, 10*ft)}))
	for _, s := range sides.Stretches(geometry.Point{Y: 8 * ft}, geometry.Point{X: 20 * ft, Y: 8 * ft}, plane.Through, nil) {
		fmt.Println(s.From.Text(geometry.FeetInches), "to", s.To.Text(geometry.FeetInches))
	}
	// Output:
	// 0" to 8'-0"
	// 12'-0" to 20'-0"
}

// Labels find room as they come.
func ExampleIndex() {
	var taken plane.Index
	taken.Reset(64)
	taken.Add(plane.Box{MinX: 0, MinY: 0, MaxX: 40, MaxY: 12})
	taken.Add(plane.Box{MinX: 100, MinY: 0, MaxX: 140, MaxY: 12})
	fmt.Println(taken.Near(plane.Box{MinX: 30, MinY: 10, MaxX: 70, MaxY: 22}, nil))
	fmt.Println(taken.Near(plane.Box{MinX: 50, MinY: 0, MaxX: 90, MaxY: 12}, nil))
	// Output:
	// [0]
	// []
}
