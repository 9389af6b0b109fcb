package field_test

import (
	"fmt"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// A row reads what is typed in its field, and asks about what the trade would not
// use.
func ExampleRow_Parse() {
	foam, _ := field.At("spec.base.foam")
	for _, typed := range []string{"2", "=2 + 1/2", "14", "3'"} {
		got, err := foam.Parse(typed, geometry.FeetInches)
		fmt.Println(got.Meaning, got.Question, err)
	}
	// Output:
	// 2"  <nil>
	// 2 1/2"  <nil>
	// 1'-2" 1'-2"? The trade uses 1/2" to 8" (common practice, no source). <nil>
	//   found 3'-0"; must be from 0" to 2'-0", or 0: none
}

// What stands at a path is checked by the rows below it.
func ExampleCheck() {
	s := takeoff.Default()
	s.Place.Bolts.Spacing = geometry.Inch
	for _, f := range field.Check("spec", s, geometry.FeetInches) {
		fmt.Println(f)
	}
	// Output:
	// spec.place.bolts.spacing: found 1"; must be from 6" to 100'-0"
}
