package takeoff

import (
	"github.com/shopspring/decimal"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
)

// Spec is what goes into the slab besides its shape.
type Spec struct {
	Mix   Mix         `json:"mix"`
	Order Order       `json:"order"`
	Under Under       `json:"under"`
	Place layout.Spec `json:"place"`
}

// Mix is the concrete asked for.
type Mix struct {
	Strength  int             `json:"strength"`  // psi at 28 days
	Slump     geometry.Length `json:"slump"`     // at the chute
	Aggregate geometry.Length `json:"aggregate"` // nominal maximum size
	Air       float64         `json:"air"`       // percent by volume; 0 for none entrained
	Fiber     float64         `json:"fiber"`     // lb/yd³; 0 for none
	Reducer   bool            `json:"reducer"`   // water reducer, ASTM C494
	Notes     string          `json:"notes,omitzero"`
}

// Order is how concrete is bought. Step and Truck are in cubic yards for a job
// in feet and inches, in cubic metres for one in millimetres.
type Order struct {
	Waste decimal.Decimal `json:"waste"` // percent added for spill and uneven ground
	Step  decimal.Decimal `json:"step"`  // the plant sells whole multiples of this
	Truck decimal.Decimal `json:"truck"` // one truck carries this much
}

// Under is what lies under the slab.
type Under struct {
	Gravel     geometry.Length `json:"gravel"`     // compacted depth; 0 for none
	Compaction decimal.Decimal `json:"compaction"` // loose over compacted volume
	Density    decimal.Decimal `json:"density"`    // short tons per loose cubic yard
	Foam       geometry.Length `json:"foam"`       // thickness; 0 for none
	Retarder   int             `json:"retarder"`   // mil; 0 for none
	Lap        geometry.Length `json:"lap"`        // of the retarder
}
