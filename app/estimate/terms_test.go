package estimate

import (
	"slices"
	"strings"
	"testing"
)

func TestTermsAreChecked(t *testing.T) {
	long := strings.Repeat("x", maxText+1)
	for _, c := range []struct {
		field string
		terms Terms
	}{
		{"", Default().Terms},
		{"", Terms{Days: maxDays, Payment: strings.Repeat("x", maxText), Included: make([]string, maxItems)}},
		{"terms.days", Terms{Days: -1}},
		{"terms.days", Terms{Days: maxDays + 1}},
		{"terms.included", Terms{Included: make([]string, maxItems+1)}},
		{"terms.excluded[1]", Terms{Excluded: []string{"Permits", long}}},
		{"terms.payment", Terms{Payment: long}},
		{"terms.start", Terms{Start: "May\nJune"}},
		{"terms.finish", Terms{Finish: long}},
	} {
		s := Default()
		s.Terms = c.terms
		got := s.Validate()
		if c.field == "" && len(got) > 0 || c.field != "" && (len(got) != 1 || got[0].Path != c.field) {
			t.Errorf("%+v: %v, want a fault of %q", c.terms, got, c.field)
		}
	}
}

// Each job has its own list.
func TestDefaultTermsAreNotShared(t *testing.T) {
	a := Default()
	a.Terms.Excluded[0] = "changed"
	if slices.Contains(Default().Terms.Excluded, "changed") {
		t.Error("a change of one job's terms changes the default")
	}
}
