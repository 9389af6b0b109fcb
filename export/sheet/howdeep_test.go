package sheet

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The page to talk over says of each depth what the options say, holds its texts apart
// on one page, and tells no cost.
func TestHowDeepPage(t *testing.T) {
	for name, u := range map[string]geometry.Units{"feet": geometry.FeetInches, "metric": geometry.Millimeters} {
		j := demoJob(t).In(u)
		if u == geometry.FeetInches { // as many as there may be
			for _, n := range []geometry.Length{8, 10, 14, 16, 20, 24} {
				d := n * geometry.Inch
				j.Price.Options = append(j.Price.Options, estimate.Option{Name: "A long name of an option, " + d.Text(u), Edge: estimate.To(d)})
			}
		}
		own := estimate.Starting(j.Units)
		own.Invented = false
		h := handover.Of(handover.From{Job: j, Prices: own, Frost: 30 * geometry.Inch})
		o := Options{Date: fixedDate, Company: Company{Name: "Example Concrete"}}
		p, err := HowDeepPages(t.Context(), h, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range overlaps(p[0]) {
			t.Errorf("%s: %s", name, s)
		}
		var b bytes.Buffer
		if err := WriteHowDeep(t.Context(), &b, h, o); err != nil {
			t.Fatal(err)
		}
		show(t, "howdeep-"+name+".pdf", b.Bytes())
		text := tool(t, b.Bytes(), "pdftotext", "-layout", "FILE", "-")
		if strings.Count(text, "\f") != 1 {
			t.Errorf("%s: more than one page", name)
		}
		of, err := h.HowDeep(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		outcomes, err := h.SideBySide(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		wants := []string{"How deep?", "truck 3", "Below frost", of.Movers[0].Option.Name, estimate.Money("$", of.At[0].Bid), "To compare by; the bid rules"}
		for _, o := range outcomes {
			wants = append(wants, estimate.Money("$", o.Bid), o.Ordered.String()+" "+string(o.Volume), o.Edge.Text(u))
			if strings.Contains(text, estimate.Money("$", o.Cost)) {
				t.Errorf("%s: the page tells the cost %s", name, estimate.Money("$", o.Cost))
			}
		}
		for _, w := range wants {
			if !says(text, w) {
				t.Errorf("%s: no %q", name, w)
			}
		}
		if strings.Contains(text, "DRAFT") {
			t.Errorf("%s: a draft with prices of one's own", name)
		}
	}
}

// With invented prices it is a draft, and without a haunch there is none.
func TestHowDeepPageOfOthers(t *testing.T) {
	j := demoJob(t)
	var b bytes.Buffer
	if err := WriteHowDeep(t.Context(), &b, handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)}), Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	if text := tool(t, b.Bytes(), "pdftotext", "-layout", "FILE", "-"); !says(text, "DRAFT. Not an offer") {
		t.Error("with invented prices it is no draft")
	}
	for i := range j.Slabs[0].Sections {
		j.Slabs[0].Sections[i].Profile = []plan.Station{{Depth: 12 * geometry.Inch}, {Inset: 12 * geometry.Inch, Depth: 12 * geometry.Inch}}
	}
	if err := WriteHowDeep(t.Context(), &b, handover.Of(handover.From{Job: j}), Options{}); !errors.Is(err, estimate.ErrNoEdge) {
		t.Errorf("without a haunch: %v", err)
	}
}
