package cutlist_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cutlist"
)

func ExampleCutter_Together() {
	var c cutlist.Cutter
	list := c.Together([][]cutlist.Wanted{{
		{Name: "2x12", Count: 3, Piece: cutlist.Piece{Mark: "long", Length: 9 * geometry.Foot}},
		{Name: "2x12", Count: 2, Piece: cutlist.Piece{Mark: "short", Length: 3 * geometry.Foot}},
	}}, []geometry.Length{12 * geometry.Foot, 16 * geometry.Foot}, nil, 0, 0)
	for _, s := range list.Stock {
		fmt.Println(s.Name, s.Length.Text(geometry.FeetInches), s.Pieces)
	}
	fmt.Println("proven:", list.Optimal)
	// Output:
	// 2x12 12'-0" [{long 2743200000}]
	// 2x12 12'-0" [{long 2743200000} {short 914400000}]
	// 2x12 12'-0" [{long 2743200000} {short 914400000}]
	// proven: true
}
