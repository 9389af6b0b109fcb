package pour

import (
	"testing"

	"haunchbook.example/geometry"
)

// The spans of the day that TestDayByHand works out: trucks at 07:00 and 07:20, emptied
// from 07:05 to 07:19 and from 07:25 to 07:39; three lanes one after the other; of the
// hour at 70 °F, see TestTrowel, the trowel after each bay's end.
func TestTimeline(t *testing.T) {
	in := square(t)
	in.Pour.Weather = []Hour{{Time: 480, Air: Fahrenheit(70), Concrete: Fahrenheit(70), Humidity: 5, Wind: MilesPerHour(30)}}
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	var trucks, lanes, trowel, hours []Span
	for _, s := range d.Timeline(geometry.FeetInches) {
		if s.To < s.From || s.Work < s.From || s.Work > s.To {
			t.Errorf("%+v goes back", s)
		}
		switch s.Of {
		case OnSite:
			trucks = append(trucks, s)
		case Placing:
			lanes = append(lanes, s)
		case Troweling:
			trowel = append(trowel, s)
		case Weather:
			hours = append(hours, s)
		}
	}
	if len(trucks) != 2 || trucks[0] != (Span{OnSite, "Truck 1", 420, 439, 425, "7 yd³", false}) || trucks[1] != (Span{OnSite, "Truck 2", 440, 459, 445, "7 yd³", false}) {
		t.Errorf("trucks %+v", trucks)
	}
	if len(lanes) != len(d.Bays) || lanes[0].Row != "Lane 1" || lanes[len(lanes)-1].To != d.Times[len(d.Times)-1].Done {
		t.Errorf("lanes %+v", lanes)
	}
	for i := 1; i < len(lanes); i++ {
		if lanes[i].From < lanes[i-1].To-1 { // whole minutes
			t.Errorf("bay %s begins before bay %s is done", lanes[i].Text, lanes[i-1].Text)
		}
	}
	r := in.Pour.Weather[0].Trowel()
	if len(trowel) != 2 || trowel[0].From != d.Times[0].Done+Clock(r.From) || trowel[1].To != d.Times[len(d.Times)-1].Done+Clock(r.To) {
		t.Errorf("trowel %+v", trowel)
	}
	if len(hours) != 1 || hours[0].From != 480 || !hours[0].Over {
		t.Errorf("hours %+v", hours)
	}
	in.Pour.Weather = nil
	if d, err = Of(in); err != nil {
		t.Fatal(err)
	}
	for _, s := range d.Timeline(geometry.FeetInches) {
		if s.Of == Troweling || s.Of == Weather {
			t.Errorf("without weather %+v", s)
		}
	}
}
