package layout

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/layout/stakeout"
)

// Spec says what is placed and by which rules; takeoff.Default gives a usual
// one. Its field names are those of the job file.
type Spec struct {
	Bars     bars.Spec      `json:"bars"`
	Pads     bars.PadSpec   `json:"pads"`
	Strips   bars.StripSpec `json:"strips"`
	Curbs    bars.CurbSpec  `json:"curbs"`
	Field    field.Spec     `json:"field"`
	Dowels   joints.Spec    `json:"dowels"`
	Bolts    bolts.Spec     `json:"bolts"`
	Forms    forms.Spec     `json:"forms"`
	SawCuts  sawcuts.Spec   `json:"sawcuts"`
	StakeOut stakeout.Spec  `json:"stakeout"`

	// What the rules also depend on; set from the rest of the job.
	Concrete slab.Concrete  `json:"-"`
	Layers   slab.Layers    `json:"-"`
	Units    geometry.Units `json:"-"` // of texts, and of the step that marks and cuts are rounded to

	Each func(...func()) `json:"-"` // runs the work on several slabs; nil does one after the other

	Cuts *sawcuts.Known `json:"-"` // saw cuts that are shared with variations of the job; nil for none
}
