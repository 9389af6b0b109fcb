package visit_test

import (
	"fmt"

	"haunchbook.example/app/field"
	"haunchbook.example/app/visit"
)

// What to look at, and the fields that the answers go into.
func ExampleTopics() {
	t := visit.Topics[3]
	r, _ := field.At("visit." + t.Field)
	fmt.Println(r.Label + ": " + t.Items[0])
	for _, path := range t.Job {
		r, _ := field.At(path)
		fmt.Println("goes into", r.Label)
	}
	// Output:
	// Old slab: Thickness at the edge
	// goes into Old slab, thickness
}
