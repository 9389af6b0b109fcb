package exchange

import (
	"bytes"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"pgregory.net/rapid"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/date"
	"haunchbook.example/app/pour"
)

var stamp = time.Date(2026, 11, 29, 14, 0, 0, 0, time.UTC)

// A library reads what was written: every event with its texts whole, whatever letters are
// in them, and its times; and no line is longer than RFC 5545 allows, nor cut in a letter.
func TestCalendarIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("ab Ä漢🙂,;:\\\"'\nNn=")), 0, 90, -1)
		var entries []calendar.Entry
		for i := range rapid.IntRange(0, 4).Draw(t, "entries") {
			e := calendar.Entry{UID: string(rune('a'+i)) + "-pour", Day: date.Of(2026, 1, 1).Plus(rapid.IntRange(0, 900).Draw(t, "day")),
				What: "Pour", Job: text.Draw(t, "job"), Site: text.Draw(t, "site"), Timed: rapid.Bool().Draw(t, "timed"), Held: text.Draw(t, "held"), Notes: []string{text.Draw(t, "note"), "crew"}}
			if e.Timed {
				e.From = pour.Clock(rapid.IntRange(0, 1439).Draw(t, "from"))
				e.To = e.From + pour.Clock(rapid.IntRange(0, 600).Draw(t, "minutes"))
			}
			entries = append(entries, e)
		}
		var b bytes.Buffer
		if err := WriteCalendar(&b, entries, stamp); err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.SplitAfter(b.String(), "\r\n") {
			if len(l) > fold+2 || l != "" && !strings.HasSuffix(l, "\r\n") || l != strings.ToValidUTF8(l, "?") {
				t.Fatalf("a line of %d octets: %q", len(l), l)
			}
		}
		cal, err := ics.ParseCalendar(&b)
		if err != nil {
			t.Fatal(err)
		}
		if len(cal.Events()) != len(entries) {
			t.Fatalf("%d events of %d", len(cal.Events()), len(entries))
		}
		for i, ev := range cal.Events() {
			e := entries[i]
			title := "Pour: " + e.Job
			if e.Held != "" {
				title = "NOT YET: " + title
			}
			get := func(p ics.ComponentProperty) string {
				if got := ev.GetProperty(p); got != nil {
					return got.Value
				}
				return ""
			}
			if got := get(ics.ComponentPropertySummary); got != title {
				t.Fatalf("title %q, want %q", got, title)
			}
			if got := get(ics.ComponentPropertyLocation); got != e.Site {
				t.Fatalf("site %q, want %q", got, e.Site)
			}
			if got := get(ics.ComponentPropertyDescription); got != strings.Join(said(e), "\n") {
				t.Fatalf("text %q, want %q", got, said(e))
			}
			from := ev.GetProperty(ics.ComponentPropertyDtStart).Value
			want := e.Day.Time().Format("20060102")
			if e.Timed {
				want += e.Day.Time().Add(time.Duration(e.From) * time.Minute).Format("T150405")
			}
			if from != want || ev.Id() != e.UID+"@haunchbook.example" {
				t.Fatalf("%s begins %s, want %s", ev.Id(), from, want)
			}
		}
	})
}
