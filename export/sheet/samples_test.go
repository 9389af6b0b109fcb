package sheet

import (
	"bytes"
	"testing"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry/layout/rule"
)

// The sample jobs are what a beginner sees first: they read without a fault, break no
// rule that is severe, and go on as few sheets as are counted here.
func TestSampleJobs(t *testing.T) {
	most := []int{4, 5, 4, 3, 9}
	for i, s := range assets.Samples() {
		j, err := job.Read(bytes.NewReader(s.Data))
		if err != nil {
			t.Errorf("%s: %v", s.Name, err)
			continue
		}
		h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
		takeoff, err := h.Takeoff(t.Context())
		if err != nil {
			t.Errorf("%s: %v", s.Name, err)
			continue
		}
		day, err := h.DayFindings(t.Context())
		if err != nil {
			t.Errorf("%s: %v", s.Name, err)
		}
		for _, f := range append(takeoff.Findings, day...) {
			if f.Severity == rule.Severe {
				t.Errorf("%s: %s", s.Name, f.Text)
			}
		}
		pages, err := Pages(t.Context(), h, Options{Date: time.Date(2026, 4, 12, 0, 0, 0, 0, time.UTC)})
		if err != nil || len(pages) > most[i] {
			t.Errorf("%s: %d sheets, want at most %d; %v", s.Name, len(pages), most[i], err)
		}
	}
}
