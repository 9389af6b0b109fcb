package estimate

import (
	"fmt"
	"strings"

	"haunchbook.example/geometry/plan"
)

// Terms is what a bid says besides its price. What is empty is printed as a blank
// to fill in by hand.
type Terms struct {
	Included []string `json:"included,omitzero"` // beyond what the drawing holds
	Excluded []string `json:"excluded"`          // what the price does not hold
	Days     int      `json:"days,omitzero"`     // that the bid is good for, from its date; 0 for a blank
	Payment  string   `json:"payment,omitzero"`
	Start    string   `json:"start,omitzero"`  // of the work
	Finish   string   `json:"finish,omitzero"` // of the work
}

// usualExclusions are what a customer might take for granted: common practice, no
// source.
var usualExclusions = []string{
	"Permits, engineering and inspections",
	"Moving pipes, cables and drains",
	"Rock, unsuitable ground and dewatering",
	"Protection from weather beyond curing",
}

// Limits of the terms, so that a bid goes on one page.
const (
	maxItems = 10
	maxText  = 90 // letters of one text
	maxDays  = 365
)

// validate gives the faults of the terms.
func (t Terms) validate() (out plan.Faults) {
	text := func(field, s string) {
		if n := len([]rune(s)); n > maxText || strings.ContainsAny(s, "\n\r") {
			out = append(out, plan.Fault{Path: field, Found: fmt.Sprintf("%d letters", n), Want: fmt.Sprintf("write one line of at most %d", maxText)})
		}
	}
	list := func(field string, items []string) {
		if len(items) > maxItems {
			out = append(out, plan.Fault{Path: field, Found: fmt.Sprint(len(items), " items"), Want: fmt.Sprintf("a bid is one page: keep %d at most", maxItems)})
		}
		for i, s := range items {
			text(fmt.Sprintf("%s[%d]", field, i), s)
		}
	}
	list("terms.included", t.Included)
	list("terms.excluded", t.Excluded)
	if t.Days < 0 || t.Days > maxDays {
		out = append(out, plan.Fault{Path: "terms.days", Found: fmt.Sprint(t.Days), Want: fmt.Sprintf("write a number of days from 0, for a blank, to %d", maxDays)})
	}
	text("terms.payment", t.Payment)
	text("terms.start", t.Start)
	text("terms.finish", t.Finish)
	return out
}
