package takeoff

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Spec is what goes into the slab besides its shape. Its field names are those
// of the job file.
type Spec struct {
	Mix   Mix         `json:"mix"`
	Order Order       `json:"order"`
	Base  Base        `json:"base"`
	Place layout.Spec `json:"place"`
}

// Default gives a usual specification: a garage or shop slab with a haunch round
// its edge. The rows of the fields say where each value comes from.
func Default() Spec {
	var s Spec
	field.Fill("spec", &s, geometry.FeetInches)
	return s
}

// Validate gives the faults of the specification, with paths as in a job file:
// "spec.place.bolts.spacing".
func (s Spec) Validate(u geometry.Units) plan.Faults { return field.Check("spec", s, u) }

// Mix is the concrete asked for.
type Mix struct {
	Strength  int             `json:"strength"`  // psi at 28 days
	Slump     geometry.Length `json:"slump"`     // at the chute
	Aggregate geometry.Length `json:"aggregate"` // nominal maximum size
	Air       float64         `json:"air"`       // percent by volume; 0 for none entrained
	Fiber     float64         `json:"fiber"`     // lb/yd³, in jobs of either unit; 0 for none
	Reducer   bool            `json:"reducer"`   // water reducer, ASTM C494
	Notes     string          `json:"notes,omitzero"`
}

// Order is how concrete is bought. Step and Truck are in cubic yards for a job
// in feet and inches, in cubic meters for one in millimeters.
type Order struct {
	Waste decimal.Decimal `json:"waste"` // percent added for spill and uneven ground
	Step  decimal.Decimal `json:"step"`  // the plant sells whole multiples of this
	Truck decimal.Decimal `json:"truck"` // one truck carries this much
	Loads Loads           `json:"loads"` // balanced, or full with the rest last
}

// Base is what lies under the slab.
type Base struct {
	Under      Under           `json:"under"`      // where gravel and foam lie
	Building   Building        `json:"building"`   // what stands on it
	Above      geometry.Length `json:"above"`      // the lowest top of the slab above the ground that is there
	Gravel     geometry.Length `json:"gravel"`     // compacted depth; 0 for none
	Compaction decimal.Decimal `json:"compaction"` // loose over compacted volume
	Density    decimal.Decimal `json:"density"`    // short tons per loose cubic yard, in jobs of either unit

	Foam       geometry.Length `json:"foam"`       // thickness; 0 for none
	FoamWidth  geometry.Length `json:"foamwidth"`  // of a sheet
	FoamLength geometry.Length `json:"foamlength"` // of a sheet

	Retarder   int             `json:"retarder"`   // of the vapor retarder, mil; 0 for none
	Lap        geometry.Length `json:"lap"`        // of the retarder
	TurnUp     geometry.Length `json:"turnup"`     // of the retarder at the edges
	RollWidth  geometry.Length `json:"rollwidth"`  // of the retarder
	RollLength geometry.Length `json:"rolllength"` // of the retarder

	// Insulation of edges against frost, of heated buildings: see Insulated.
	Upright     geometry.Length `json:"upright,omitzero"`     // thickness of the foam on the face of the edges; 0 for none
	UprightDeep geometry.Length `json:"uprightdeep,omitzero"` // how far down from the top it goes
	UprightR    float64         `json:"uprightr,omitzero"`    // R of it, ft²·°F·h/Btu, as typed from the code's table; 0 where it is not given
	Shallow     geometry.Length `json:"shallow,omitzero"`     // how deep below the ground edges so insulated are to go; 0 for the least: see ShallowDepth
	Wing        geometry.Length `json:"wing,omitzero"`        // thickness of the foam that lies outside; 0 for none
	WingDeep    geometry.Length `json:"wingdeep,omitzero"`    // its top, below the ground
	WingR       float64         `json:"wingr,omitzero"`       // R of it, likewise
	WingWidth   geometry.Length `json:"wingwidth,omitzero"`   // out from the upright foam
	CornerWidth geometry.Length `json:"cornerwidth,omitzero"` // likewise at corners; 0 as elsewhere
	CornerLong  geometry.Length `json:"cornerlong,omitzero"`  // how far along from corners
	FrostFoam   FrostFoam       `json:"frostfoam,omitzero"`   // its type
	FrostWidth  geometry.Length `json:"frostwidth,omitzero"`  // of a sheet of it; 0 as of the foam under the slab
	FrostLength geometry.Length `json:"frostlength,omitzero"` // of a sheet of it; 0 as of the foam under the slab
}

// Layers gives how thick gravel and foam are together, under the field and under
// what is thickened.
func (b Base) Layers() (underField, underThick geometry.Length) {
	underField = b.Gravel + b.Foam
	if b.Under == FieldAndHaunches {
		underThick = underField
	}
	return underField, underThick
}

// Under tells where gravel and foam lie.
type Under = geometry.Choice[unders]

type unders struct{}

// Names implements geometry.Named.
func (unders) Names() []string { return []string{"field and haunches", "field"} }

const (
	// FieldAndHaunches has them under all of the slab: they follow the dug shape of
	// haunches, pads and thickened strips.
	FieldAndHaunches Under = iota
	// FieldOnly leaves them out where the slab is thickened: there it stands on the
	// ground, as footings are to (IRC R403.1: undisturbed soil or engineered fill).
	FieldOnly
)

// Building is what stands on the slab, as far as IRC R403.1.4 tells buildings apart.
type Building = geometry.Choice[buildings]

type buildings struct{}

// Names implements geometry.Named.
func (buildings) Names() []string { return []string{"unstated", "accessory", "other", "heated"} }

const (
	AnyBuilding       Building = iota // not stated
	AccessoryBuilding                 // free-standing, of light frame, eaves at most 10 ft
	OtherBuilding
	HeatedBuilding // kept at 64 °F or more, monthly means: IRC R403.3, from memory
)

// Layout gives the specification of the layout with what it needs to know of the
// rest.
func (s Spec) Layout(u geometry.Units) layout.Spec {
	p := s.Place
	p.Units = u
	p.Layers.Field, p.Layers.Thick = s.Base.Layers()
	p.Concrete = slab.Concrete{Strength: s.Mix.Strength, Slump: s.Mix.Slump, Aggregate: s.Mix.Aggregate}
	return p
}
