package pour

import (
	"fmt"
	"math"

	"haunchbook.example/geometry"
)

// Span is something that goes on from one time of the day to another: a row of a
// timeline, or a part of one.
type Span struct {
	Of       SpanKind
	Row      string // "Truck 1"; those of one row follow each other
	From, To Clock
	Work     Clock // from when on a truck is emptied; From for the rest
	Text     string
	Over     bool // a limit is broken in it
}

// SpanKind is what goes on.
type SpanKind uint8

const (
	OnSite    SpanKind = iota // a truck
	Placing                   // a bay of a lane
	Troweling                 // may start in it, on the first bay or the last
	Weather                   // of an hour
)

// Timeline gives the day as spans, in the order of their rows: trucks, lanes with their
// bays, troweling and the weather of the hours. Times are as expected, whole minutes.
func (d Day) Timeline(u geometry.Units) []Span {
	var out []Span
	minute := func(v float64) Clock { return Clock(math.Round(v)) }
	for i, l := range d.Loads {
		v := l.Visit
		out = append(out, Span{OnSite, fmt.Sprintf("Truck %d", i+1), minute(v.Arrives), minute(v.Ends), minute(v.Starts), l.Volume.String() + " " + d.Unit, false})
	}
	for _, lane := range d.Lanes {
		row := fmt.Sprintf("Lane %d", lane.Number)
		for _, i := range lane.Bays {
			t := d.Times[i]
			from := t.Done - minute(t.Minutes)
			out = append(out, Span{Placing, row, from, t.Done, from, fmt.Sprint(d.Bays[i].Number), d.Bays[i].Station >= 0 && !d.Bays[i].Reached})
		}
	}
	if n := len(d.Times); n > 0 {
		trowel := func(row string, done Clock) {
			if r := d.trowelAfter(done); r != (Range{}) {
				from := done + Clock(r.From)
				out = append(out, Span{Troweling, row, from, done + Clock(r.To), from, "may start", false})
			}
		}
		trowel("Trowel, first bay", d.Times[0].Done)
		if n > 1 {
			trowel("Trowel, last bay", d.Times[n-1].Done)
		}
	}
	for _, h := range d.Hours {
		out = append(out, Span{Weather, "Evaporation", h.Hour.Time, h.Hour.Time + 60, h.Hour.Time, h.Rate.Text(u), h.Rate.Over(u)})
	}
	return out
}
