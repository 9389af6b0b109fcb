package sheet

import (
	"strings"
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/visit"
)

// The list for a visit needs nothing drawn; every thing to look at stands on it once.
func TestVisit(t *testing.T) {
	pages := VisitPages(handover.Of(handover.From{Job: job.New()}), Options{Date: fixedDate})
	if len(pages) != 2 {
		t.Errorf("%d pages, want 2", len(pages))
	}
	all := strings.Join(strings.Fields(strings.Join(texts(pages...), " ")), " ")
	for _, part := range visit.Topics {
		for _, it := range part.Items {
			if strings.Count(all, it) != 1 {
				t.Errorf("%q stands %d times", it, strings.Count(all, it))
			}
		}
	}
	for _, p := range pages {
		for _, s := range overlaps(p) {
			t.Error(s)
		}
	}
}
