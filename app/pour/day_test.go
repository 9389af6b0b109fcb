package pour

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"haunchbook/app/takeoff"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

// square is a slab of 27 ft by 24 ft, 6 in thick without haunches: 12 yd³.
func square(t *testing.T) Input {
	p := plan.Plan{Field: 6 * geometry.Inch}
	for _, c := range []geometry.Point{at(0, 0), at(27, 0), at(27, 24), at(0, 24)} {
		p.Outline = append(p.Outline, plan.Edge{At: c})
	}
	s := Default()
	s.Trucks = Trucks{Travel: 20, Loading: 10, SetUp: 5, Limit: 90}
	s.Crew.Rate = dec("30") // 0.5 yd³ a minute
	s.Reach = Reach{Chute: 60 * ft, Straightedge: 10 * ft, Overlap: ft, Turned: true}
	s.Stations = []geometry.Point{at(13.5, -5)}
	return Input{
		Plan: p, Solid: solidOf(t, p), Pour: s, Order: dec("14"),
		Spec: takeoff.Spec{
			Mix:   takeoff.Mix{Strength: 3500, Air: 6, Slump: 5 * geometry.Inch, Aggregate: 3 * geometry.Inch / 4},
			Order: takeoff.Order{Waste: dec("10"), Step: dec("0.5"), Truck: dec("10")},
		},
	}
}

// The whole day by hand. 12 yd³ and 10 % are 13.2; 14 ordered make two loads of
// 7. At 0.5 yd³ a minute a load takes 14 min after 5 of setting up: 19, asked
// for as 20. Trucks are due at 07:00 and 07:20 and begin at 07:05 and 07:25;
// the first is empty at 07:19, so that the crew waits a minute for the second.
// 24 ft by 9 ft of straightedge are three strips of 8 ft, of 4.4 yd³ with waste.
func TestDayByHand(t *testing.T) {
	d, err := Of(square(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Loads) != 2 || !d.Loads[0].Volume.Equal(dec("7")) || !d.Loads[1].Volume.Equal(dec("7")) || d.Unit != "yd³" {
		t.Fatalf("loads %v", d.Loads)
	}
	if d.Loads[0].Due != 420 || d.Loads[1].Due != 440 {
		t.Errorf("due %s and %s", d.Loads[0].Due, d.Loads[1].Due)
	}
	for i, want := range []Visit{
		{Volume: 7, Batched: 390, Arrives: 420, Starts: 425, Ends: 439},
		{Volume: 7, Batched: 410, Arrives: 440, Starts: 445, Ends: 459, Idle: 1},
	} {
		if got := d.Loads[i].Visit; got != want {
			t.Errorf("visit %d: %+v, want %+v", i, got, want)
		}
	}
	if len(d.Strips) != 3 || len(d.Bays) != 3 {
		t.Fatalf("%d strips, %d bays", len(d.Strips), len(d.Bays))
	}
	// Strip 1: 4.4 yd³ in 8.8 min, from 07:05. Strip 2: 2.6 from the first truck
	// (5.2 min, 07:19) and 1.8 from the second (3.6 min, from 07:25). Strip 3: 8.8.
	for i, want := range []BayTime{
		{Volume: 4.4, Used: 4.4, Left: 9.6, Minutes: 8.8, Done: 434, Load: 1},
		{Volume: 4.4, Used: 8.8, Left: 5.2, Minutes: 8.8, Done: 449, Load: 2},
		{Volume: 4.4, Used: 13.2, Left: 0.8, Minutes: 8.8, Done: 457, Load: 2},
	} {
		got := d.Times[i]
		for _, x := range [][2]float64{{got.Volume, want.Volume}, {got.Used, want.Used}, {got.Left, want.Left}, {got.Minutes, want.Minutes}} {
			if math.Abs(x[0]-x[1]) > 1e-9 {
				t.Errorf("bay %d: %+v, want %+v", i+1, got, want)
			}
		}
		if got.Done != want.Done || got.Load != want.Load {
			t.Errorf("bay %d: %+v, want %+v", i+1, got, want)
		}
	}
	if got, want := d.StripText(2), "at the end of strip 2: 8.8 yd³ used, 5.2 yd³ left, by 07:29"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// The second load is batched at 06:50, before the first truck is here.
	if d.Call.Needed || !strings.Contains(d.CallText(), "before any") {
		t.Errorf("call %+v: %s", d.Call, d.CallText())
	}
}

// With the plant 10 min away the second load is batched at 07:10: 5 min into the
// first, when 2.5 yd³ lie in bay 1, and 10.7 of the 13.2 are to go.
func TestCallByHand(t *testing.T) {
	in := square(t)
	in.Pour.Trucks.Travel, in.Pour.Trucks.Loading = 5, 5
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	if c := d.Call; !c.Needed || c.At != 430 || c.Bay != 1 || math.Abs(c.Placed-2.5) > 1e-9 || math.Abs(c.Left-10.7) > 1e-9 {
		t.Errorf("call %+v", c)
	}
	if got, want := d.CallText(), "Call the last load off by 07:10, in bay 1: 2.5 yd³ placed by then and 10.7 yd³ to go. Measure what is left to fill before calling."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestDayFindings(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Input)
		want   string
	}{
		{"sound", func(*Input) {}, ""},
		{"a far plant", func(in *Input) { in.Pour.Trucks.Travel = 70 }, "Discharge limit!, Discharge limit!"},
		{"one truck in rotation", func(in *Input) { in.Pour.Trucks.Fleet = 1 }, "Gap between trucks!"},
		{"no truck's place", func(in *Input) { in.Pour.Stations = nil }, "Truck place"},
		{"a short chute", func(in *Input) { in.Pour.Reach.Chute = 17 * ft }, "Reach!"},
		{"buggies go anywhere", func(in *Input) { in.Pour.Reach.Chute, in.Pour.Reach.Method = 0, Buggy }, ""},
		{"a weak mix", func(in *Input) { in.Pour.Weathering, in.Spec.Mix.Strength = Severe, 3000 }, "Strength!"},
		{"an order too small", func(in *Input) { in.Order = dec("11.5") }, "Order!"},
		{"a full truck and a rest", func(in *Input) { in.Pour.Trucks.Loads, in.Order, in.Spec.Order.Truck = Full, dec("12.5"), dec("11") }, "Small last load"},
		{"a drying wind", func(in *Input) {
			in.Pour.Weather = []Hour{{Time: 600, Air: Fahrenheit(80), Concrete: Fahrenheit(87), Humidity: 50, Wind: MilesPerHour(12)}}
		}, "Evaporation!, Hot weather"},
	} {
		in := square(t)
		c.change(&in)
		d, err := Of(in)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := namesOf(d.Findings); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestDayRefuses(t *testing.T) {
	for _, c := range []struct {
		change func(*Input)
		want   string
	}{
		{func(in *Input) { in.Order = dec("0") }, "order"},
		{func(in *Input) { in.Spec.Order.Truck = dec("0") }, "truck"},
		{func(in *Input) { in.Solid = nil }, "volume"},
		{func(in *Input) { in.Pour.Crew.People = 0 }, "crew.people"},
		{func(in *Input) { in.Pour.Crew.Rate = dec("0.01") }, "crew.rate"},
		{func(in *Input) { in.Pour.Reach.Straightedge = 0 }, "reach.straightedge"},
		{func(in *Input) { in.Pour.Reach.Overlap = 10 * ft }, "reach.overlap"},
		{func(in *Input) { in.Pour.Reach.Turn = math.NaN() }, "reach.turn"},
		{func(in *Input) { in.Pour.Trucks.Limit = 0 }, "trucks.limit"},
		{func(in *Input) { in.Pour.Weather = []Hour{{Air: Fahrenheit(80), Humidity: 50}} }, "weather[0].concrete"},
		{func(in *Input) {
			in.Pour.Weather = []Hour{{Air: Fahrenheit(80), Concrete: Fahrenheit(80), Humidity: math.NaN()}}
		}, "weather[0].humidity"},
		{func(in *Input) {
			in.Pour.Weather = []Hour{{Air: Fahrenheit(60), Concrete: Fahrenheit(80), Dew: Fahrenheit(61)}}
		}, "weather[0].dew"},
		{func(in *Input) {
			h := Hour{Air: Fahrenheit(60), Concrete: Fahrenheit(80), Humidity: 50}
			in.Pour.Weather = []Hour{h, h}
		}, "weather[1].time"},
	} {
		in := square(t)
		c.change(&in)
		if _, err := Of(in); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("the error is %v, want one that names %s", err, c.want)
		}
	}
}

func TestDefaultIsSound(t *testing.T) {
	if faults := Default().Validate(geometry.FeetInches); len(faults) > 0 {
		t.Error(faults)
	}
}

func TestOrderText(t *testing.T) {
	in := square(t)
	in.Spec.Mix.Fiber, in.Spec.Mix.Reducer = 1.5, true
	in.Pour.Trucks.AskTemp = Fahrenheit(65)
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	got := d.OrderText("Shop", "Lot 7", "", in.Spec.Mix, in.Pour, geometry.FeetInches)
	want := `Job:         Shop
Deliver to:  Lot 7
Concrete:    14 yd³
Strength:    3500 psi at 28 days
Slump:       5" on arrival
Aggregate:   3/4"
Air:         6 % entrained
Fiber:       1.5 lb/yd³
Admixtures:  water reducer; no water added on site
Temperature: 65 °F on arrival
Truck 1:     7 yd³, on site at 07:00
Truck 2:     7 yd³, on site at 07:20
Placed by:   chute, 5 people
Ask:         that each load is empty within 90 min of batching
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A metric job orders in cubic metres: 3,500 psi is 24.1 MPa (NIST SP 811: 1 psi
// is 6,894.757 Pa), 1.5 lb/yd³ is 0.89 kg/m³.
func TestMetricOrderText(t *testing.T) {
	in := square(t)
	in.Units, in.Spec.Mix.Fiber = geometry.Millimetres, 1.5
	in.Order, in.Spec.Order.Truck, in.Pour.Crew.Rate = dec("10"), dec("8"), dec("25")
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	got := d.OrderText("", "", "", in.Spec.Mix, in.Pour, in.Units)
	for _, want := range []string{"10 m³", "24.1 MPa", "127 mm on arrival", "0.89 kg/m³", "Truck 2:     5 m³"} {
		if !bytes.Contains([]byte(got), []byte(want)) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

func TestCureIsLongerInTheCold(t *testing.T) {
	warm, cold := cureStages(nil), cureStages([]Hour{{Air: Fahrenheit(38)}})
	for i := range warm {
		if warm[i].Source == "" || warm[i].From == "" {
			t.Errorf("%s has no range or no source", warm[i].Name)
		}
		if i > 0 && !strings.Contains(cold[i].Note, "cold") {
			t.Errorf("%s says nothing of the cold", cold[i].Name)
		}
	}
	for _, c := range Cautions() {
		if c.Step == "" || c.Text == "" || c.Source == "" {
			t.Errorf("caution %+v", c)
		}
	}
}
