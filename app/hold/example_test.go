package hold_test

import (
	"fmt"

	"haunchbook.example/app/date"
	"haunchbook.example/app/hold"
)

// A locate that runs out before the pour holds it back, and so does an inspection that was
// not passed.
func ExampleCheck() {
	pour := date.Of(2026, 12, 10)
	found := hold.Check([]hold.Hold{
		{Kind: hold.Locate, Number: "A-1182", From: pour.Plus(-14), Until: pour.Plus(-2)},
		{Kind: hold.Footing, From: pour.Plus(-2)},
		{Kind: hold.Permit, Number: "77", From: pour.Plus(-60)},
	}, pour)
	fmt.Println(hold.Line(found))
	// Output:
	// utility locate A-1182: runs out on 2026-12-08, before the pour on 2026-12-10; footing inspection: not passed, set for 2026-12-08
}
