package estimate

import (
	"slices"
	"testing"
)

// Each job has its own list.
func TestDefaultTermsAreNotShared(t *testing.T) {
	a := Default()
	a.Terms.Excluded[0] = "changed"
	if slices.Contains(Default().Terms.Excluded, "changed") {
		t.Error("a change of one job's terms changes the default")
	}
}
