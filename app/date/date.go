// Package date is a day of the calendar, without a time or a place.
package date

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// Day is a day of the calendar (Gregorian). The zero Day is none: nobody wrote it down.
type Day struct {
	n int32 // days since 1969-12-31, so that none is 0
}

// Of gives a day; one that no calendar has goes on into the month after, as in package
// time.
func Of(year int, month time.Month, day int) Day {
	return Day{int32(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix()/secondsADay) + 1}
}

const secondsADay = 24 * 60 * 60

// On gives the day of a time where it was taken.
func On(t time.Time) Day { return Of(t.Date()) }

// Known tells whether there is a day.
func (d Day) Known() bool { return d.n != 0 }

// Time gives the start of the day, UTC.
func (d Day) Time() time.Time { return time.Unix(int64(d.n-1)*secondsADay, 0).UTC() }

// Plus gives the day so many days later.
func (d Day) Plus(days int) Day { return Day{d.n + int32(days)} }

// Since gives the days from another day to this one.
func (d Day) Since(e Day) int { return int(d.n - e.n) }

// Before tells whether both days are known and d comes first.
func (d Day) Before(e Day) bool { return d.Known() && e.Known() && d.n < e.n }

// String gives "2026-12-03" (ISO 8601), or nothing for none.
func (d Day) String() string {
	if !d.Known() {
		return ""
	}
	return d.Time().Format(time.DateOnly)
}

// MarshalText gives what String gives.
func (d Day) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// The years that a job may be of.
const firstYear, lastYear = 1971, 2199

// forms are the ways in which a day is read. One with strokes is not among them: 3/12 is
// the third of December or the twelfth of March, by who writes it.
var forms = []string{time.DateOnly, "2006-1-2", "Jan 2 2006", "January 2 2006", "2 Jan 2006", "2 January 2006"}

// UnmarshalText reads "2026-12-03", "Dec 3, 2026" and "3 December 2026"; an empty text is
// no day.
func (d *Day) UnmarshalText(text []byte) error {
	s := strings.Join(strings.Fields(strings.NewReplacer(",", " ", "–", "-").Replace(string(text))), " ")
	if s == "" {
		*d = Day{}
		return nil
	}
	for _, f := range forms {
		t, err := time.Parse(f, s)
		if err != nil {
			continue
		}
		if y := t.Year(); y < firstYear || y > lastYear {
			return fmt.Errorf("write a year from %d to %d", firstYear, lastYear)
		}
		*d = On(t)
		return nil
	}
	return errors.New("write a day, such as 2026-12-03 or Dec 3, 2026")
}
