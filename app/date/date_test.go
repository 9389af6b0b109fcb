package date

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestRead(t *testing.T) {
	for in, want := range map[string]string{
		"2026-12-03": "2026-12-03", "2026-1-2": "2026-01-02", "Dec 3, 2026": "2026-12-03", "  december 3 2026 ": "2026-12-03",
		"3 Dec 2026": "2026-12-03", "": "", "2028-02-29": "2028-02-29",
	} {
		var d Day
		if err := d.UnmarshalText([]byte(in)); err != nil || d.String() != want {
			t.Errorf("%q: %s, %v; want %s", in, d, err, want)
		}
	}
	for _, in := range []string{"3/12/2026", "2026-02-29", "tomorrow", "1812-01-01", "2026-13-01", "20261203"} {
		d := Of(2026, 1, 2)
		if err := d.UnmarshalText([]byte(in)); err == nil {
			t.Errorf("%q was read as %s", in, d)
		} else if d != Of(2026, 1, 2) {
			t.Errorf("%q was refused and left %s", in, d)
		}
	}
}

// Days are counted as package time counts them, over leap years too.
func TestDaysAreCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Of(rapid.IntRange(firstYear, lastYear-30).Draw(t, "year"), time.Month(rapid.IntRange(1, 12).Draw(t, "month")), rapid.IntRange(1, 28).Draw(t, "day"))
		n := rapid.IntRange(-300, 10000).Draw(t, "days")
		b := a.Plus(n)
		if want := a.Time().AddDate(0, 0, n); !b.Time().Equal(want) || b.Since(a) != n || b.Before(a) != (n < 0) {
			t.Fatalf("%s and %d days: %s, want %s", a, n, b, want)
		}
		var read Day
		if err := read.UnmarshalText([]byte(a.String())); err != nil || read != a {
			t.Fatalf("%s came back as %s, %v", a, read, err)
		}
	})
	if (Day{}).Known() || (Day{}).Before(Of(2026, 1, 1)) || Of(2026, 1, 1).Before(Day{}) {
		t.Error("no day comes before one")
	}
}
