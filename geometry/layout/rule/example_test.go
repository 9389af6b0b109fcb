package rule_test

import (
	"fmt"

	"haunchbook.example/geometry/layout/rule"
)

func ExampleFinding() {
	f := rule.Finding{Rule: rule.Rule{Name: "Bolt spacing", Source: "IRC R403.1.6"}, Severity: rule.Limit, Text: "7'-0\" between two bolts; at most 6'-0\"."}
	fmt.Printf("%v: %s (%s): %s\n", f.Severity, f.Rule.Name, f.Rule.Source, f.Text)
	// Output: limit: Bolt spacing (IRC R403.1.6): 7'-0" between two bolts; at most 6'-0".
}
