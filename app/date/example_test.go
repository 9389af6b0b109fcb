package date_test

import (
	"fmt"

	"haunchbook.example/app/date"
)

func ExampleDay() {
	var d date.Day
	if err := d.UnmarshalText([]byte("Dec 3, 2026")); err != nil {
		fmt.Println(err)
	}
	fmt.Println(d, d.Plus(30))
	fmt.Println(d.UnmarshalText([]byte("12/3/2026")))
	// Output:
	// 2026-12-03 2027-01-02
	// write a day, such as 2026-12-03 or Dec 3, 2026
}
