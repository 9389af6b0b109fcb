package rule_test

import (
	"fmt"

	"haunchbook.example/geometry/layout/rule"
)

func ExampleFinding() {
	f := rule.Finding{Rule: rule.Rule{Name: "Bolt spacing", Source: "IRC R403.1.6"}, Severe: true, Text: "7'-0\" between two bolts; at most 6'-0\"."}
	fmt.Printf("%s (%s): %s\n", f.Rule.Name, f.Rule.Source, f.Text)
	// Output: Bolt spacing (IRC R403.1.6): 7'-0" between two bolts; at most 6'-0".
}
