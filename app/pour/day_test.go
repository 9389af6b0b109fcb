package pour

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var within = cmpopts.EquateApprox(0, 1e-9)

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
	s.Weathering, s.Finish = Moderate, Broom
	s.Stations = []geometry.Point{at(13.5, -5)}
	return Input{
		Slabs: []Slab{{Plan: p, Solid: solidOf(t, p)}}, Pour: s, Order: dec("14"),
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
// 24 ft by 9 ft of straightedge are three lanes of 8 ft, of 4.4 yd³ with waste.
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
	if len(d.Lanes) != 3 || len(d.Bays) != 3 {
		t.Fatalf("%d lanes, %d bays", len(d.Lanes), len(d.Bays))
	}
	// Lane 1: 4.4 yd³ in 8.8 min, from 07:05. Lane 2: 2.6 from the first truck
	// (5.2 min, 07:19) and 1.8 from the second (3.6 min, from 07:25). Lane 3: 8.8.
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
	if got, want := d.LaneText(2), "at the end of lane 2: 8.8 yd³ used, 5.2 yd³ left, by 07:29"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// The second load is batched at 06:50, before the first truck is here. Held
	// until half of the first is placed, 3.5 yd³ at 07:12 in bay 1, it comes 30 min
	// later, at 07:42: 23 min after the first is empty. Of the 13.2 yd³, 9.7 are to
	// go then; the first load does not bring 6.2.
	want := Call{Needed: true, At: 432, Bay: 1, Placed: 3.5, Left: 9.7, Bring: 6.2, Held: true, Idle: 23}
	if !cmp.Equal(d.Call, want, within) {
		t.Errorf("call %+v, want %+v", d.Call, want)
	}
	if s := d.CallText(); !strings.Contains(s, "before any") || !strings.Contains(s, "call at 07:12, in bay 1: 3.5 yd³") || !strings.Contains(s, "waits 23 min") {
		t.Error(s)
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
	if want := (Call{Needed: true, At: 430, Bay: 1, Placed: 2.5, Left: 10.7, Bring: 6.2}); !cmp.Equal(d.Call, want, within) {
		t.Errorf("call %+v, want %+v", d.Call, want)
	}
	if got, want := d.CallText(), "Call the last load by 07:10, in bay 1: 2.5 yd³ placed, 10.7 yd³ to go. Measure what is left to fill first; by the plan the last load brings 6.2 of its 7 yd³."; got != want {
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
		{"a far plant", func(in *Input) { in.Pour.Trucks.Travel = 70 }, "Discharge limit!"},
		{"one truck in rotation", func(in *Input) { in.Pour.Trucks.Fleet = 1 }, "Gap between trucks!"},
		{"some raking", func(in *Input) { in.Pour.Reach.Chute = 30 * ft; in.Pour.Reach.Rake = 4 * ft }, "Raking"},
		{"bolts", func(in *Input) { in.Slabs[0].Bolts = []geometry.Point{at(1, 1)} }, "Bolts set wet"},
		{"no truck's place", func(in *Input) { in.Pour.Stations = nil }, "Truck place"},
		{"a short chute", func(in *Input) { in.Pour.Reach.Chute = 17 * ft }, "Reach!"},
		{"buggies go anywhere", func(in *Input) { in.Pour.Reach.Chute, in.Pour.Reach.Method = 0, Buggy }, ""},
		{"bays along the truck's own lane", func(in *Input) { in.Pour.Reach.Bay = 9 * ft }, ""},
		// Lanes along Y, the last at the west; the truck at the south is nearest to the middle.
		{"a truck beside the lanes", func(in *Input) { in.Pour.Reach.Turn, in.Pour.Stations = 90, []geometry.Point{at(13.5, -5)} }, "Order of bays"},
		{"a weak mix", func(in *Input) { in.Pour.Weathering, in.Spec.Mix.Strength = Severe, 3000 }, "Strength!"},
		{"an order too small", func(in *Input) { in.Order = dec("11.5") }, "Order!"},
		{"a full truck and a rest", func(in *Input) {
			in.Spec.Order.Loads, in.Order, in.Spec.Order.Truck = takeoff.Full, dec("12.5"), dec("11")
		}, "Small last load"},
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
		{func(in *Input) { in.Slabs = nil }, "volume"},
		{func(in *Input) { in.Slabs = append(in.Slabs, Slab{Plan: in.Slabs[0].Plan}) }, "volume"},
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
	want := `Job:                Shop
Deliver to:         Lot 7
Concrete to order:  14 yd³
Strength:           3500 psi at 28 days
Slump:              5" on arrival
Aggregate:          3/4"
Entrained air:      6 %
Fibers, ASTM C1116: 1.5 lb/yd³
Water reducer:      ASTM C494; no water added on site
Temperature:        65 °F on arrival
Truck 1:            7 yd³, on site at 07:00
Truck 2:            7 yd³, on site at 07:20, 20 min after the one before
Placed by:          chute, 5 people
Finish:             broom
Ask:                that each load is empty within 90 min of batching
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A metric job orders in cubic meters: 3,500 psi is 24.1 MPa (NIST SP 811: 1 psi
// is 6,894.757 Pa), 1.5 lb/yd³ is 0.89 kg/m³.
func TestMetricOrderText(t *testing.T) {
	in := square(t)
	in.Units, in.Spec.Mix.Fiber = geometry.Millimeters, 1.5
	in.Order, in.Spec.Order.Truck, in.Pour.Crew.Rate = dec("10"), dec("8"), dec("25")
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	got := d.OrderText("", "", "", in.Spec.Mix, in.Pour, in.Units)
	for _, want := range []string{"10 m³", "24.1 MPa", "127 mm on arrival", "0.89 kg/m³", "Truck 2:            5 m³"} {
		if !bytes.Contains([]byte(got), []byte(want)) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// A job in millimeters shows nothing in feet, pounds or °F, whatever was typed; one
// in feet shows nothing in meters. Strength is kept in psi and named in brackets.
func TestUnitsOfTheJob(t *testing.T) {
	brackets := regexp.MustCompile(` \(\d+ psi\)`)
	for _, c := range []struct {
		units   geometry.Units
		weather []Hour
		foreign *regexp.Regexp
	}{
		{geometry.Millimeters, []Hour{
			{Time: 420, Air: Fahrenheit(96), Concrete: Fahrenheit(97), Humidity: 20, Wind: MilesPerHour(15)},
			{Time: 480, Air: Fahrenheit(38), Concrete: Fahrenheit(50), Humidity: 50},
		}, regexp.MustCompile(`°F|mph|yd|lb|\bft\b|\bin\b \(|\d'|\d"|psi`)},
		{geometry.FeetInches, []Hour{
			{Time: 420, Air: Celsius(36), Concrete: Celsius(36.5), Humidity: 20, Wind: KilometersPerHour(25)},
			{Time: 480, Air: Celsius(3), Concrete: Celsius(10), Humidity: 50},
		}, regexp.MustCompile(`°C|km/h|\bmm?\b|m³|kg|MPa`)},
	} {
		in := square(t)
		in.Units, in.Pour.Weather, in.Spec.Mix.Fiber = c.units, c.weather, 1.5
		in.Spec.Mix.Strength, in.Pour.Weathering = 3000, Severe
		in.Spec.Base = takeoff.Base{Foam: 2 * geometry.Inch, Retarder: 10}
		in.Pour.Trucks.AskTemp, in.ShortLoad = c.weather[0].Concrete, dec("9")
		in.Pour.Reach.Float = 8 * ft
		in.Pour.Reach.Chute = 17 * ft
		in.Order, in.Pour.Crew.Rate = dec("12"), dec("20")
		d, err := Of(in)
		if err != nil {
			t.Fatal(err)
		}
		texts := []string{d.OrderText("", "", "", in.Spec.Mix, in.Pour, c.units), d.NeedText(in.Spec.Order.Waste), d.CallText(), d.LaneText(1),
			d.FloatText(0, in.Pour.Reach, c.units), d.PlaceText(0, c.units), d.TrowelText(), TrowelBasis(c.units)}
		for _, f := range d.Findings {
			texts = append(texts, f.Text)
		}
		for _, s := range d.Cure {
			texts = append(texts, s.From+s.Note)
		}
		for _, h := range d.Hours {
			texts = append(texts, h.Rate.Text(c.units), h.Hour.Air.Text(c.units), h.Hour.Wind.Text(c.units))
		}
		if len(d.Findings) < 6 {
			t.Errorf("only %s", namesOf(d.Findings))
		}
		for _, s := range texts {
			if found := c.foreign.FindString(brackets.ReplaceAllString(s, "")); found != "" {
				t.Errorf("a job in %s shows %q in: %s", c.units, found, s)
			}
		}
	}
}

// Nurse-Saul, by hand: at 40 °F, 4.44 degrees above the datum of 0 °C against 20 at
// 20 °C: 4.5 times as long.
func TestCureIsLongerInTheCold(t *testing.T) {
	if f := coldFactor(Fahrenheit(40)); math.Abs(f-4.5) > 1e-3 {
		t.Errorf("at 40 °F %.3f times as long", f)
	}
	if f := coldFactor(Celsius(20)); f != 1 {
		t.Errorf("at 20 °C %.3f times as long", f)
	}
	warm := cureStages([]Hour{{Air: Fahrenheit(50)}}, UsualSaw, geometry.FeetInches)
	for _, c := range []struct {
		air  float64
		want string
	}{{45, "at 45 °F about 2.8 times"}, {38, "at 40 °F, kept so by cover or heat, about 4.5 times"}, {32, "freezing, 32 °F: no time is given"}, {25, "freezing, 25 °F"}} {
		cold := cureStages([]Hour{{Air: Fahrenheit(60)}, {Air: Fahrenheit(c.air)}}, UsualSaw, geometry.FeetInches)
		for i, s := range warm {
			if s.Source == "" || s.From == "" || strings.Contains(s.Note, "times") {
				t.Errorf("%+v", s)
			}
			if i > 0 && !strings.Contains(cold[i].Note, c.want) {
				t.Errorf("at %v °F: %q, want %q", c.air, cold[i].Note, c.want)
			}
		}
	}
	for _, c := range Cautions() {
		if c.Step == "" || c.Text == "" || c.Source == "" {
			t.Errorf("caution %+v", c)
		}
	}
}

func TestNumbered(t *testing.T) {
	for want, ns := range map[string][]int{
		"bay 3":                {3},
		"bays 3 and 4":         {3, 4},
		"bays 1 to 4 and 7":    {1, 2, 3, 4, 7},
		"bays 1, 3 and 5 to 7": {1, 3, 5, 6, 7},
	} {
		if got := numbered("bay", ns); got != want {
			t.Errorf("%v: %q, want %q", ns, got, want)
		}
	}
}

// Common practice, no source: a slab of 24 ft by 20 ft, 6 in thick with a 12 in edge
// and its taper, takes about 11 yd³ on one truck, which a crew of five places in 30
// to 35 min straight off the chute.
func TestUsualSlab(t *testing.T) {
	p := slab(at(0, 0), at(24, 0), at(24, 20), at(0, 20))
	in := square(t)
	in.Slabs = []Slab{{Plan: p, Solid: solidOf(t, p)}}
	in.Pour.Crew = Crew{People: 5}
	in.Order, in.Spec.Order.Waste, in.Spec.Order.Truck = dec("11"), dec("0"), dec("11")
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	if d.Net < 10 || d.Net > 11.5 {
		t.Errorf("%.2f yd³, want about 11", d.Net)
	}
	if len(d.Loads) != 1 || d.Call.Needed || d.CallText() != "" {
		t.Fatalf("%d loads, call %+v", len(d.Loads), d.Call)
	}
	if v := d.Loads[0].Visit; v.Ends-v.Starts < 30 || v.Ends-v.Starts > 35 {
		t.Errorf("11 yd³ take %.1f min, want 30 to 35", v.Ends-v.Starts)
	}
}

// Two slabs of 6 yd³: the second goes on where the first ends.
func TestSlabAfterSlab(t *testing.T) {
	in := square(t)
	in.Slabs = nil
	for i, name := range []string{"Shop", "Apron"} {
		p := plan.Plan{Field: 6 * geometry.Inch}
		y := 40 * float64(i)
		for _, c := range []geometry.Point{at(0, y), at(27, y), at(27, y+12), at(0, y+12)} {
			p.Outline = append(p.Outline, plan.Edge{At: c})
		}
		in.Slabs = append(in.Slabs, Slab{Number: 2 * i, Name: name, Plan: p, Solid: solidOf(t, p), Bolts: []geometry.Point{at(1, y+1)}})
	}
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	// 12 ft by 9 ft of straightedge are two lanes of 6 ft in each, of 3.3 yd³.
	if len(d.Lanes) != 4 || len(d.Bays) != 4 || len(d.Loads) != 2 {
		t.Fatalf("%d lanes, %d bays, %d loads", len(d.Lanes), len(d.Bays), len(d.Loads))
	}
	for i, b := range d.Bays {
		slab := []int{0, 0, 2, 2}[i]
		if b.Number != i+1 || b.Lane != i+1 || b.Slab != slab || d.Lanes[i].Slab != slab || d.Lanes[i].Number != i+1 {
			t.Errorf("bay %+v of lane %+v", b, d.Lanes[i])
		}
		if used := d.Times[i].Used; math.Abs(used-3.3*float64(i+1)) > 1e-9 {
			t.Errorf("after bay %d: %v yd³", i+1, used)
		}
	}
	// The truck is at the south: each slab from its north, a bolt in its last bay.
	for i, bolts := range []int{0, 1, 0, 1} {
		if d.Bays[i].Bolts != bolts {
			t.Errorf("%d bolts in bay %d, want %d", d.Bays[i].Bolts, i+1, bolts)
		}
	}
	if len(d.Pads) < 2 || d.Pads[0].Slab != 0 || d.Pads[len(d.Pads)-1].Slab != 2 || d.Pads[len(d.Pads)-1].Number != len(d.Pads) {
		t.Errorf("pads %+v", d.Pads)
	}
	if got, want := d.LaneText(4), "at the end of lane 4, Apron: 13.2 yd³ used, 0.8 yd³ left, by 07:37"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if d.Places[0].Reach != 60*ft || len(d.Places[0].Bays) != 4 {
		t.Errorf("places %+v", d.Places)
	}
	if got, want := d.NeedText(in.Spec.Order.Waste), "slab 12.00 yd³, with 10 % waste 13.20 yd³, ordered 14 yd³: 0.80 yd³ in hand"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Whatever is drawn: the loads add up to the order, the last bay ends with what is
// needed, no bay is done before the one before it, numbers run on over the slabs,
// and every bay of a slab lies in one of its lanes.
func TestAnyDayHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Spec: takeoff.Default(), Pour: Default()}
		in.Pour.Reach.Method = Method(rapid.IntRange(0, 2).Draw(t, "method"))
		in.Spec.Order.Loads = takeoff.Loads(rapid.IntRange(0, 1).Draw(t, "loads"))
		in.Pour.Trucks.Fleet = rapid.IntRange(0, 2).Draw(t, "fleet")
		for range rapid.IntRange(0, 3).Draw(t, "stations") {
			in.Pour.Stations = append(in.Pour.Stations, at(rapid.Float64Range(-150, 150).Draw(t, "x"), rapid.Float64Range(-150, 150).Draw(t, "y")))
		}
		for i := range rapid.IntRange(1, 3).Draw(t, "slabs") {
			p := anyPlan(t)
			if len(p.Validate(geometry.FeetInches)) > 0 {
				t.Skip("not a slab")
			}
			in.Slabs = append(in.Slabs, Slab{Number: 2 * i, Plan: p, Solid: solidOf(t, p)})
		}
		in.Order = decimal.NewFromFloat(in.volume() / cubicYard * rapid.Float64Range(0.9, 1.2).Draw(t, "share")).RoundUp(2)
		d, err := Of(in)
		if err != nil {
			t.Fatal(err)
		}
		sum := decimal.Zero
		for _, l := range d.Loads {
			sum = sum.Add(l.Volume)
		}
		if !sum.Equal(d.Order) || d.Order.LessThan(in.Order) || len(d.Times) != len(d.Bays) {
			t.Fatalf("loads of %s, ordered %s for %s; %d bays and %d times", sum, d.Order, in.Order, len(d.Bays), len(d.Times))
		}
		if used := d.Times[len(d.Times)-1].Used; math.Abs(used-d.Need) > 1e-6*d.Need {
			t.Fatalf("the last bay ends with %v, need %v", used, d.Need)
		}
		for i, b := range d.Bays {
			s := d.Lanes[b.Lane-1]
			if b.Number != i+1 || s.Slab != b.Slab || !slices.Contains(s.Bays, i) {
				t.Fatalf("bay %+v of lane %+v", b, s)
			}
			if i > 0 && (d.Times[i].Done < d.Times[i-1].Done || b.Slab < d.Bays[i-1].Slab) {
				t.Fatalf("bay %d comes before bay %d", i+1, i)
			}
		}
		if d.Call.Needed != (len(d.Loads) > 1) || d.Call.Needed && (d.Call.Bay < 1 || d.Call.Bay > len(d.Bays)) {
			t.Fatalf("call %+v", d.Call)
		}
	})
}

// Who reaches what, with a chute of 17 ft from 5 ft south of the middle: lane 1
// of square is 8 ft wide and ends 29 ft up.
func TestReachTexts(t *testing.T) {
	in := square(t)
	in.Pour.Reach.Chute, in.Pour.Reach.Float = 17*ft, 18*ft
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := d.PlaceText(0, geometry.FeetInches), "TR1: bays 1 to 3, none within 17'-0\""; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for slab, want := range []string{
		`bull float across lanes 1 to 3, 8'-0" wide, from the base of the next one and the last from outside the form; its handle reaches 18'-0"`,
		"",
	} {
		if got := d.FloatText(slab, in.Pour.Reach, geometry.FeetInches); got != want {
			t.Errorf("slab %d: %q, want %q", slab, got, want)
		}
	}
}

// Lane 1 is done at 07:14 and 3 at 07:37; at 80 °F, 45 to 60 min after.
func TestTrowelText(t *testing.T) {
	in := square(t)
	h := Hour{Air: Fahrenheit(80), Concrete: Fahrenheit(80), Humidity: 80}
	cold := h
	h.Time, cold.Time, cold.Air = 420, 500, Fahrenheit(40)
	in.Pour.Weather = []Hour{h, cold}
	d, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := d.TrowelText(), "Power troweling may start on the first bay between 07:59 and 08:14, on the last between 08:22 and 08:37."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !strings.Contains(TrowelBasis(geometry.Millimeters), "27 °C") || !strings.Contains(TrowelBasis(geometry.FeetInches), "80 °F") {
		t.Error(TrowelBasis(geometry.FeetInches))
	}
}
