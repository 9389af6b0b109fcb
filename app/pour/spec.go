package pour

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/app/date"
	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Spec says how the slab is poured. Volumes and rates by volume are in cubic
// yards for a job in feet and inches, in cubic meters for one in millimeters.
type Spec struct {
	Weathering Weathering       `json:"weathering"` // region of the site; see Weathering
	Use        Use              `json:"use"`        // what the slab is for; see Use
	Finish     Finish           `json:"finish"`     // how the top is finished; see Finish
	Date       date.Day         `json:"date,omitzero"`
	Start      Clock            `json:"start"` // the first truck is to be here
	Weather    []Hour           `json:"weather,omitzero"`
	Forecast   []Forecast       `json:"forecast,omitzero"`
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
	Rake         geometry.Length `json:"rake"`          // how far concrete is raked beyond the end of a chute
	Straightedge geometry.Length `json:"straightedge"`  // its length
	Overlap      geometry.Length `json:"overlap"`       // of the straightedge on pads and forms, both ends together
	Float        geometry.Length `json:"float"`         // of the bull float with its handle
	Bay          geometry.Length `json:"bay"`           // longest bay along a lane; 0 for whole lanes
	Turn         float64         `json:"turn,omitzero"` // degrees from the X axis to the lanes, where Turned
	Turned       bool            `json:"turned,omitzero"`
}

// Method is how concrete gets from the truck to its place.
type Method = geometry.Choice[methods]

type methods struct{}

// Names implements geometry.Named.
func (methods) Names() []string { return []string{"chute", "pump", "buggy"} }

// The methods.
const (
	Chute Method = iota // straight off the truck
	Pump                // the reach is the boom's or the hose's
	Buggy               // wheelbarrow or buggy: it goes anywhere
)

// Far gives how far from the truck concrete comes: as far as the chute and the rakes,
// or the hose, go.
func (r Reach) Far() geometry.Length {
	if r.Method == Chute {
		return r.Chute + r.Rake
	}
	return r.Chute
}

// rakedText says that raking is counted with; "" where it is not.
func (r Reach) rakedText(u geometry.Units) string {
	if r.Method != Chute || r.Rake == 0 {
		return ""
	}
	return " and " + r.Rake.Text(u) + " of raking"
}

// Default gives a usual pour, to be set to the job. The rows of the fields say
// where each value comes from.
func Default() Spec {
	var s Spec
	field.Fill("pour", &s, geometry.FeetInches)
	return s
}

// Validate gives what is wrong with the specification, with paths as in a job file
// and lengths in u.
func (s Spec) Validate(u geometry.Units) plan.Faults { return field.Check("pour", s, u) }
