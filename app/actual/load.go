package actual

import (
	"errors"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
)

// Load is what is written down of one load, by its ticket and on the site. What is empty,
// or 0, nobody wrote down.
type Load struct {
	Ticket      string           `json:"ticket,omitzero"`
	Volume      decimal.Decimal  `json:"volume,omitzero"` // in the unit that the job orders concrete in
	Batched     Time             `json:"batched,omitzero"`
	Arrived     Time             `json:"arrived,omitzero"`
	Started     Time             `json:"started,omitzero"` // of discharge
	Emptied     Time             `json:"emptied,omitzero"`
	Slump       geometry.Length  `json:"slump,omitzero"`
	Air         decimal.Decimal  `json:"air,omitzero"` // percent
	Temperature pour.Temperature `json:"temperature,omitzero"`
	Water       decimal.Decimal  `json:"water,omitzero"`    // added on the site: gal, or L in a metric job
	Bay         int              `json:"bay,omitzero"`      // where it went, by its number on the sheet
	Rejected    bool             `json:"rejected,omitzero"` // sent back: it is not counted
}

// Cylinders are those made of one load: the mean strengths, psi.
type Cylinders struct {
	Ticket      string `json:"ticket"`
	Seven       int    `json:"days7,omitzero"`
	TwentyEight int    `json:"days28,omitzero"`
}

// Time is a time of day that somebody may have written down.
type Time struct {
	Set bool
	To  pour.Clock
}

// At gives a time of day.
func At(hour, minute int) Time { return Time{true, pour.Clock(60*hour + minute)} }

// String gives "07:05", or nothing.
func (t Time) String() string {
	if !t.Set {
		return ""
	}
	return t.To.String()
}

// MarshalText gives what String gives.
func (t Time) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads "7:05", and also "705" and "7.05" as it is typed in a hurry; an empty
// text is no time.
func (t *Time) UnmarshalText(text []byte) error {
	s := strings.ReplaceAll(strings.TrimSpace(string(text)), ".", ":")
	if s == "" {
		*t = Time{}
		return nil
	}
	if n := len(s); !strings.Contains(s, ":") && (n == 3 || n == 4) {
		s = s[:n-2] + ":" + s[n-2:]
	}
	var c pour.Clock
	if c.UnmarshalText([]byte(s)) != nil {
		return errors.New("write a time of day, such as 07:05")
	}
	*t = Time{true, c}
	return nil
}

// since gives the minutes from one time to another, which may be past midnight; false where
// one of them is not known.
func (t Time) since(from Time) (int, bool) {
	return (int(t.To) - int(from.To) + 24*60) % (24 * 60), t.Set && from.Set
}

// Age gives how old a load was when it was empty, in minutes; where nobody wrote that down,
// when its discharge began.
func (l Load) Age() (int, bool) {
	if age, ok := l.Emptied.since(l.Batched); ok {
		return age, true
	}
	return l.Started.since(l.Batched)
}

// Waited gives for how many minutes a load waited on the site.
func (l Load) Waited() (int, bool) { return l.Started.since(l.Arrived) }

// longDay is more minutes than a load is ever under way: times that lie so far apart are in
// the wrong order.
const longDay = 12 * 60

// disordered names the first two times of a load that are in the wrong order; "" for none.
func (l Load) disordered() string {
	all := []struct {
		name string
		at   Time
	}{{"batched", l.Batched}, {"arrived", l.Arrived}, {"started", l.Started}, {"emptied", l.Emptied}}
	for i := range all {
		for k := i + 1; k < len(all); k++ {
			if m, ok := all[k].at.since(all[i].at); ok && m > longDay {
				return fmt.Sprintf("%s at %s and %s at %s", all[i].name, all[i].at, all[k].name, all[k].at)
			}
		}
	}
	return ""
}

// weighed tells whether the yards of a load are written down.
func (r Record) weighed() bool {
	for _, l := range r.Loads {
		if l.Volume.IsPositive() {
			return true
		}
	}
	return false
}

// Came gives the concrete that came: of the loads that were not sent back, where they are
// written down, else what is written down as delivered.
func (r Record) Came() decimal.Decimal {
	if !r.weighed() {
		return r.Delivered
	}
	sum := decimal.Zero
	for _, l := range r.Loads {
		if !l.Rejected {
			sum = sum.Add(l.Volume)
		}
	}
	return sum
}

// Visits gives how many loads came, those sent back too.
func (r Record) Visits() int { return max(r.Trucks, len(r.Loads)) }
