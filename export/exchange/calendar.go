package exchange

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/pour"
)

// WriteCalendar writes entries as iCalendar (RFC 5545), for any program that keeps a
// calendar. Times are those of the site, without a zone (3.3.5, form 1: local time). stamp
// is when it was written. The same entries and stamp give the same bytes.
func WriteCalendar(w io.Writer, entries []calendar.Entry, stamp time.Time) error {
	c := lines{w: w}
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//Haunchbook//Pours//EN")
	c.line("CALSCALE", "GREGORIAN")
	for _, e := range entries {
		c.line("BEGIN", "VEVENT")
		c.line("UID", escaped(e.UID)+"@haunchbook.example")
		c.line("DTSTAMP", stamp.UTC().Format("20060102T150405Z"))
		day := strings.ReplaceAll(e.Day.String(), "-", "")
		if e.Timed {
			c.line("DTSTART", day+at(e.From))
			c.line("DURATION", fmt.Sprintf("PT%dM", max(0, int(e.To-e.From))))
		} else {
			c.line("DTSTART;VALUE=DATE", day)
		}
		title, status := e.What+": "+e.Job, "CONFIRMED"
		if e.Held != "" {
			title, status = "NOT YET: "+title, "TENTATIVE"
		}
		c.line("SUMMARY", escaped(title))
		c.line("STATUS", status)
		if e.Site != "" {
			c.line("LOCATION", escaped(e.Site))
		}
		if text := strings.Join(said(e), "\n"); text != "" {
			c.line("DESCRIPTION", escaped(text))
		}
		c.line("END", "VEVENT")
	}
	c.line("END", "VCALENDAR")
	return c.err
}

// said gives what there is to say of an entry, in lines.
func said(e calendar.Entry) (out []string) {
	if len(e.Notes) > 0 {
		out = append(out, strings.Join(e.Notes, ", "))
	}
	if e.Held != "" {
		out = append(out, "Held back: "+e.Held)
	}
	return append(out, e.Limits...)
}

// at writes a time of the day.
func at(c pour.Clock) string { return fmt.Sprintf("T%02d%02d00", int(c)/60, int(c)%60) }

// escaped writes a text as RFC 5545, 3.3.11 asks.
func escaped(s string) string {
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`).Replace(s)
}

// lines writes content lines.
type lines struct {
	w   io.Writer
	err error
}

// fold is how many octets a line has at most, without its break: RFC 5545, 3.1.
const fold = 75

// line writes one, folded where it is long, and nowhere within a letter.
func (l *lines) line(name, value string) {
	rest := name + ":" + value
	for first := true; l.err == nil; first = false {
		room := fold
		if !first {
			room-- // the space that begins it
		}
		n := len(rest)
		if n > room {
			for n = room; !utf8.RuneStart(rest[n]); n-- {
			}
		}
		begin := " "
		if first {
			begin = ""
		}
		_, l.err = io.WriteString(l.w, begin+rest[:n]+"\r\n")
		if rest = rest[n:]; rest == "" {
			return
		}
	}
}
