package sheet

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/language"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
)

// daysAhead are the entries of many jobs.
func daysAhead(t *testing.T) []calendar.Entry {
	t.Helper()
	var jobs []calendar.Job
	for n := range 18 {
		j := demoJob(t)
		j.Name = fmt.Sprintf("Job %d", n+1)
		j.Pour.Date, j.Pour.Start = heldOn.Plus(n*n%14), pour.Clock(6*60+15*n)
		if n%3 == 0 {
			j.Holds = []hold.Hold{{Kind: hold.Locate, Number: "A-1182", Until: heldOn.Plus(n % 5)}, {Kind: hold.Footing, From: heldOn.Plus(n % 7)}, {Kind: hold.Strip, From: j.Pour.Date.Plus(2)}, {Kind: hold.Cure, From: j.Pour.Date.Plus(7)}}
			j.Pour.Weather[0].Air = pour.Fahrenheit(30)
		}
		if n == 5 {
			j.Slabs[0].Outline, j.Pour.Trucks.Fleet = nil, 2
		}
		if n == 7 {
			j.Pour.Trucks.Fleet = 2
		}
		jobs = append(jobs, calendar.Job{ID: fmt.Sprint("J-", n), Handover: handover.Of(handover.From{Job: j})})
	}
	entries, err := calendar.Of(t.Context(), jobs, heldOn, 14)
	if err != nil || len(entries) < 20 {
		t.Fatal(len(entries), err)
	}
	return entries
}

// Every entry stands on the list, on its day, and nothing overlaps; each language has its
// texts.
func TestDaysAhead(t *testing.T) {
	entries := daysAhead(t)
	pages := CalendarPages(entries, heldOn, 14, geometry.FeetInches, Options{Date: fixedDate})
	all := strings.Join(texts(pages...), "\n")
	for n := range 14 {
		if on := heldOn.Plus(n); !strings.Contains(all, on.Time().Weekday().String()+", "+on.String()) {
			t.Errorf("no %s", on)
		}
	}
	for _, e := range entries {
		if !strings.Contains(all, e.What+": "+e.Job) {
			t.Errorf("no %s of %s", e.What, e.Job)
		}
	}
	for _, l := range append([]language.Language{language.English}, others(t)...) {
		p := pinned(entries, geometry.FeetInches, l, Options{Date: fixedDate})
		p.days(entries, heldOn, 14)
		for _, d := range p.pages {
			for _, s := range overlaps(d.finish()) {
				t.Errorf("%s: %s", l.Code, s)
			}
		}
		if l.Code != language.English.Code {
			for _, key := range p.say.Unknown() {
				t.Errorf("assets/languages/%s.json: texts: no %q, which stands on the days ahead", l.Code, key)
			}
		}
	}
	var b bytes.Buffer
	if err := WriteCalendar(t.Context(), &b, entries, heldOn, 14, geometry.FeetInches, Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("HAUNCHBOOK_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "days.pdf"), b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
