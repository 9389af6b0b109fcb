package cutlist_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/mark"
)

func ExampleCutter_Together() {
	var c cutlist.Cutter
	list := c.Together([][]cutlist.Wanted{{
		{Name: "2x12", Count: 3, Piece: cutlist.Piece{Mark: mark.Mark{Kind: mark.Form, N: 1, Part: 1}, Length: 9 * geometry.Foot}},
		{Name: "2x12", Count: 2, Piece: cutlist.Piece{Mark: mark.Mark{Kind: mark.Form, N: 1, Part: 2}, Length: 3 * geometry.Foot}},
	}}, []geometry.Length{12 * geometry.Foot, 16 * geometry.Foot}, nil, 0, 0)
	for _, s := range list.Stock {
		fmt.Println(s.Name, s.Length.Text(geometry.FeetInches), s.Pieces)
	}
	fmt.Println("proven:", list.Optimal)
	// Output:
	// 2x12 12'-0" [{F1.1 2743200000}]
	// 2x12 12'-0" [{F1.1 2743200000} {F1.2 914400000}]
	// 2x12 12'-0" [{F1.1 2743200000} {F1.2 914400000}]
	// proven: true
}
