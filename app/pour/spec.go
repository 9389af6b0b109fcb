package pour

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Spec says how the slab is poured. Volumes and rates by volume are in cubic
// yards for a job in feet and inches, in cubic meters for one in millimeters.
type Spec struct {
	Weathering Weathering       `json:"weathering"` // region of the site; see Weathering
	Use        Use              `json:"use"`        // what the slab is for; see Use
	Start      Clock            `json:"start"`      // the first truck is to be here
	Weather    []Hour           `json:"weather,omitzero"`
	Crew       Crew             `json:"crew"`
	Trucks     Trucks           `json:"trucks"`
	Reach      Reach            `json:"reach"`
	Stations   []geometry.Point `json:"stations,omitzero"` // where a truck or pump may stand
}

// Crew is who places the concrete.
type Crew struct {
	People int             `json:"people"`
	Rate   decimal.Decimal `json:"rate,omitzero"` // placed per hour; 0 to take it from the number of people
}

// Trucks is how the concrete comes.
type Trucks struct {
	Loads   Loads       `json:"loads"`                // balanced, or full with the rest last
	Travel  int         `json:"travel"`               // minutes from the plant
	Loading int         `json:"loading"`              // minutes at the plant
	SetUp   int         `json:"setup"`                // minutes from arrival, or from the truck before, to discharge
	Fleet   int         `json:"fleet,omitzero"`       // trucks that go back and forth; 0 for as many as loads
	Limit   int         `json:"limit"`                // minutes from batching to the end of discharge
	AskTemp Temperature `json:"temperature,omitzero"` // asked of the concrete on arrival
}

// Reach is how far tools go.
type Reach struct {
	Method       Method          `json:"method"`        // how concrete gets from the truck to its place
	Chute        geometry.Length `json:"chute"`         // from the truck's or pump's station
	Straightedge geometry.Length `json:"straightedge"`  // its length
	Overlap      geometry.Length `json:"overlap"`       // of the straightedge on pads and forms, both ends together
	Float        geometry.Length `json:"float"`         // of the bull float with its handle
	Bay          geometry.Length `json:"bay"`           // longest bay along a lane; 0 for whole lanes
	Turn         float64         `json:"turn,omitzero"` // degrees from the X axis to the lanes, where Turned
	Turned       bool            `json:"turned,omitzero"`
}

// Loads says how an order is split.
type Loads uint8

const (
	// Balanced loads are as equal as the plant's step allows.
	Balanced Loads = iota
	// Full loads fill each truck; the last brings the rest, called off by eye.
	Full
)

var loadsNames = []string{"balanced", "full"}

// String gives the name used in job files.
func (l Loads) String() string { return loadsNames[l] }

// MarshalText gives the name that String gives.
func (l Loads) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText reads the name that String gives.
func (l *Loads) UnmarshalText(text []byte) error { return choose(l, loadsNames, text) }

// Method is how concrete gets from the truck to its place.
type Method uint8

// The methods.
const (
	Chute Method = iota // straight off the truck
	Pump                // the reach is the boom's or the hose's
	Buggy               // wheelbarrow or buggy: it goes anywhere
)

var methodNames = []string{"chute", "pump", "buggy"}

// String gives the name used in job files.
func (m Method) String() string { return methodNames[m] }

// MarshalText gives the name that String gives.
func (m Method) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads the name that String gives.
func (m *Method) UnmarshalText(text []byte) error { return choose(m, methodNames, text) }

// Default gives a usual pour: common practice, each to be set to the job.
func Default() Spec {
	return Spec{
		Start: 7 * 60,
		Crew:  Crew{People: 5},
		Trucks: Trucks{
			Travel:  25,
			Loading: 10,
			SetUp:   5,
			Limit:   90, // ASTM C94/C94M, where the purchaser does not agree otherwise; editions differ
		},
		Reach: Reach{
			Chute:        16 * geometry.Foot,
			Straightedge: 14 * geometry.Foot,
			Overlap:      12 * geometry.Inch,
			Float:        18 * geometry.Foot,
			Bay:          12 * geometry.Foot,
		},
	}
}

// Bounds that no real pour comes near; they keep every loop short.
const (
	maxPeople  = 100
	maxMinutes = 24 * 60
	maxHours   = 48
	maxFleet   = 100
	maxPlaces  = 20
)

// Validate gives what is wrong with the specification, with lengths in u. The
// faults' paths begin within it.
func (s Spec) Validate(u geometry.Units) plan.Faults {
	var out plan.Faults
	fault := func(path, found, want string, args ...any) {
		out = append(out, plan.Fault{Path: path, Found: found, Want: fmt.Sprintf(want, args...)})
	}
	whole := func(path string, v, least, most int) {
		if v < least || v > most {
			fault(path, fmt.Sprint(v), "must be from %d to %d", least, most)
		}
	}
	length := func(path string, l, most geometry.Length) {
		if l < 0 || l > most {
			fault(path, l.Text(u), "must be from 0 to %s", most.Text(u))
		}
	}
	amount := func(path string, d decimal.Decimal) {
		if d.IsNegative() || d.GreaterThan(decimal.NewFromInt(10_000)) {
			fault(path, d.String(), "must be from 0 to 10000")
		}
	}
	if len(s.Weather) > maxHours {
		fault("weather", fmt.Sprintf("%d hours", len(s.Weather)), "give at most %d", maxHours)
	}
	for i, h := range s.Weather {
		path := fmt.Sprintf("weather[%d]", i)
		if !h.Air.Known() {
			fault(path+".air", "nothing", `give the air temperature, such as "80 °F"`)
		}
		if !h.Concrete.Known() {
			fault(path+".concrete", "nothing", `give the concrete's temperature, such as "75 °F"`)
		}
		switch {
		case !(h.Humidity >= 0 && h.Humidity <= 100):
			fault(path+".humidity", fmt.Sprint(h.Humidity), "must be from 0 to 100 percent")
		case h.Humidity == 0 && !h.Dew.Known():
			fault(path+".humidity", "nothing", "give the relative humidity in percent, or a dew point")
		case h.Humidity > 0 && h.Dew.Known():
			fault(path+".dew", h.Dew.String(), "give either the humidity or a dew point, not both")
		case h.Dew.Known() && h.Air.Known() && h.Dew.C() > h.Air.C():
			fault(path+".dew", h.Dew.String(), "a dew point is not above the air's temperature, %s", h.Air)
		}
		if i > 0 && h.Time <= s.Weather[i-1].Time {
			fault(path+".time", h.Time.String(), "must be later than the hour before it, %s", s.Weather[i-1].Time)
		}
	}
	whole("crew.people", s.Crew.People, 1, maxPeople)
	amount("crew.rate", s.Crew.Rate)
	if r := s.Crew.Rate; !r.IsZero() && r.LessThan(decimal.New(1, -1)) {
		fault("crew.rate", r.String(), "must be at least 0.1 an hour, or 0 to take it from the number of people")
	}
	whole("trucks.travel", s.Trucks.Travel, 0, maxMinutes)
	whole("trucks.loading", s.Trucks.Loading, 0, maxMinutes)
	whole("trucks.setup", s.Trucks.SetUp, 0, maxMinutes)
	whole("trucks.limit", s.Trucks.Limit, 1, maxMinutes)
	whole("trucks.fleet", s.Trucks.Fleet, 0, maxFleet)
	length("reach.chute", s.Reach.Chute, geometry.MaxLength)
	length("reach.float", s.Reach.Float, geometry.MaxLength)
	length("reach.bay", s.Reach.Bay, geometry.MaxLength)
	length("reach.overlap", s.Reach.Overlap, geometry.MaxLength)
	if s.Reach.Straightedge < geometry.Foot || s.Reach.Straightedge > 30*geometry.Foot {
		fault("reach.straightedge", s.Reach.Straightedge.Text(u), "must be from %s to %s",
			geometry.Foot.Text(u), (30 * geometry.Foot).Text(u))
	} else if s.Reach.Straightedge-s.Reach.Overlap < geometry.Foot/2 {
		fault("reach.overlap", s.Reach.Overlap.Text(u), "must leave at least %s of the straightedge, which is %s",
			(geometry.Foot / 2).Text(u), s.Reach.Straightedge.Text(u))
	}
	if !(s.Reach.Turn >= -360 && s.Reach.Turn <= 360) {
		fault("reach.turn", fmt.Sprint(s.Reach.Turn), "must be from -360 to 360 degrees")
	}
	if len(s.Stations) > maxPlaces {
		fault("stations", fmt.Sprintf("%d places", len(s.Stations)), "give at most %d", maxPlaces)
	}
	for i, p := range s.Stations {
		if p.X.Abs() > geometry.MaxLength || p.Y.Abs() > geometry.MaxLength {
			fault(fmt.Sprintf("stations[%d]", i), "a place too far away", "must lie within %s of the origin", geometry.MaxLength.Text(u))
		}
	}
	return out
}
