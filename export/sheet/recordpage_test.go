package sheet

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
)

// wholeRecord is one that has all there is to write down, with every limit passed.
func wholeRecord() actual.Record {
	d := decimal.RequireFromString
	load := actual.Load{Ticket: "4471", Volume: d("9.5"), Batched: actual.At(7, 0), Arrived: actual.At(7, 25), Started: actual.At(7, 30), Emptied: actual.At(8, 5), Slump: 5 * geometry.Inch, Air: d("5.5"), Temperature: pour.Fahrenheit(66), Bay: 1}
	late := actual.Load{Ticket: "=4472", Volume: d("9"), Batched: actual.At(7, 40), Arrived: actual.At(8, 20), Started: actual.At(8, 30), Emptied: actual.At(9, 40), Slump: 8 * geometry.Inch, Air: d("2"), Temperature: pour.Fahrenheit(97), Water: d("5"), Bay: 2}
	cold := actual.Load{Ticket: "4473", Volume: d("9"), Temperature: pour.Fahrenheit(45), Rejected: true}
	wrong := actual.Load{Volume: d("2.25"), Arrived: actual.At(9, 20), Started: actual.At(9, 10)}
	return actual.Record{
		Poured: "2026-05-02", Weather: "fair", Notes: "went well", Ordered: d("21"), Delivered: d("21"), Left: decimal.NewNullDecimal(d("0.25")),
		Loads:     []actual.Load{load, late, cold, wrong},
		Cylinders: []actual.Cylinders{{Ticket: "4471", Seven: 2100, TwentyEight: 3150}, {Ticket: "4472", Seven: 1200}, {Ticket: "4474", TwentyEight: 2900}, {Ticket: "4475", TwentyEight: 1900}},
	}
}

// recordUnknown gives the keys of the page of a record that a language lacks.
func recordUnknown(t *testing.T, l language.Language, h *handover.Handover) []string {
	t.Helper()
	a, err := h.After(t.Context(), wholeRecord())
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSet(t.Context(), h, Options{})
	if err != nil {
		t.Fatal(err)
	}
	s.say = l.Speaker(append(own(h.Job(), Options{}), ownOf(a.Record)...))
	p := s.paged()
	p.record(a)
	p.done()
	return s.say.Unknown()
}

// The page of a record names every load with what is written down of it, and tells which
// limits were passed. No text stands off the paper or on another.
func TestRecordPages(t *testing.T) {
	j := demoJob(t)
	j.Units = geometry.FeetInches
	for _, c := range []struct {
		name string
		of   *handover.Handover
		want []string
	}{
		{"without shots", handed(t, j), []string{"Ground, yield, spill and forms"}},
		{"with shots", handed(t, shot(t, handed(t, j))), []string{"Ground, as it was shot", "Yield, spill and forms"}},
	} {
		pages, err := RecordPages(t.Context(), c.of, wholeRecord(), Options{})
		if err != nil || len(pages) != 1 {
			t.Fatalf("%s: %d pages, %v", c.name, len(pages), err)
		}
		var all strings.Builder
		for _, it := range pages[0].Items {
			if text, ok := it.(Text); ok {
				all.WriteString(text.Text + "\n")
				if text.At.X < 0 || text.At.X+text.Width() > pages[0].Width || text.At.Y < 0 {
					t.Errorf("%s: %q stands off the paper", c.name, text.Text)
				}
			}
		}
		for _, s := range overlaps(pages[0]) {
			if !strings.Contains(s, `"1 / 1"`) { // the number of the page stands below all else
				t.Errorf("%s: %s", c.name, s)
			}
		}
		for _, w := range append(c.want, "4471", "9.50", "07:25", "sent back", "65", "120", "66 °F", "Cylinders, psi", "Delivered", "20.75", "was 120 min old") {
			if !strings.Contains(all.String(), w) {
				t.Errorf("%s: no %q", c.name, w)
			}
		}
	}
	var b bytes.Buffer
	if err := WriteRecord(t.Context(), &b, handed(t, j), wholeRecord(), Options{}); err != nil || !bytes.HasPrefix(b.Bytes(), []byte("%PDF")) {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
	b.Reset()
	if err := WriteLoads(t.Context(), &b, handed(t, j), wholeRecord(), Options{}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 5 || rows[2][1] != "'=4472" || rows[3][13] != "sent back" || rows[1][7] != "65" {
		t.Errorf("%q, %v", rows, err)
	}
}
