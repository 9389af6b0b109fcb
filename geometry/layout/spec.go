package layout

import "haunchbook.example/geometry"

// Spec says what is placed and by which rules; takeoff.Default gives a usual
// one. Its field names are those of the job file.
type Spec struct {
	Bars     BarSpec    `json:"bars"`
	Pads     PadSpec    `json:"pads"`
	Strips   StripSpec  `json:"strips"`
	Field    FieldSpec  `json:"field"`
	Dowels   DowelSpec  `json:"dowels"`
	Bolts    BoltSpec   `json:"bolts"`
	Forms    FormSpec   `json:"forms"`
	SawCuts  SawCutSpec `json:"sawcuts"`
	StakeOut StakeSpec  `json:"stakeout"`

	// What the rules also depend on; set from the rest of the job.
	Concrete Concrete       `json:"-"`
	Units    geometry.Units `json:"-"` // of texts, and of the step that marks and cuts are rounded to
}

// Concrete is what the rules of layout need to know of the mix.
type Concrete struct {
	Strength  int             // psi at 28 days
	Slump     geometry.Length // at the chute
	Aggregate geometry.Length // nominal maximum size
}

// BarSpec is the steel in the haunches.
type BarSpec struct {
	Size    int               `json:"size"`   // bar number of ASTM A615/A615M: 4 is No. 4
	Rows    []Row             `json:"rows"`   // continuous bars round every haunch; none for no edge steel
	Grade   int               `json:"grade"`  // yield strength, ksi: 40, 60 or 80
	Coated  bool              `json:"coated"` // epoxy-coated
	Lap     Lap               `json:"lap"`
	Stagger geometry.Length   `json:"stagger"` // clear distance between laps of neighboring rows
	Corner  Corner            `json:"corner"`
	Leg     geometry.Length   `json:"leg,omitzero"` // of a corner bar, outside; 0 for the lap and the bend
	Joint   JointSteel        `json:"joint"`        // what rows do along the joint
	Stock   []geometry.Length `json:"stock"`        // stock lengths on sale
	Yard    []geometry.Length `json:"yard"`         // offcuts in the yard, each one bar of Size, to use first
	Kerf    geometry.Length   `json:"kerf"`         // lost at each cut; 0 for a shear
}

// Row is one continuous bar, by clear covers. One of Bottom and Top rules; the
// other is 0.
type Row struct {
	Face   geometry.Length `json:"face"`          // clear of the edge's face
	Bottom geometry.Length `json:"bottom"`        // clear of the underside
	Top    geometry.Length `json:"top"`           // clear of the top
	Size   int             `json:"size,omitzero"` // bar number; 0 for the size of all rows
}

// Lap is how long bars lie side by side.
type Lap struct {
	Rule   LapRule         `json:"rule"`
	Length geometry.Length `json:"length,omitzero"` // for LapByLength
}

// PadSpec is the steel in pads: bars both ways near the bottom.
type PadSpec struct {
	Size    int             `json:"size"`    // bar number; 0 for none
	Spacing geometry.Length `json:"spacing"` // at most
	Cover   geometry.Length `json:"cover"`   // to the bottom and to the ends
}

// StripSpec is the steel in thickened strips: bars along them near the bottom.
type StripSpec struct {
	Size  int             `json:"size"` // bar number
	Count int             `json:"count"`
	Cover geometry.Length `json:"cover"` // to the bottom, the sides and the ends
}

// FieldSpec is what reinforces the field. Only what its Kind names is used.
type FieldSpec struct {
	Kind FieldKind `json:"kind"`

	// Mesh of ASTM A1064/A1064M.
	Style  string          `json:"style"`  // "6x6-W1.4xW1.4"
	Width  geometry.Length `json:"width"`  // of a sheet or roll
	Length geometry.Length `json:"length"` // of a sheet or roll
	Roll   bool            `json:"roll"`

	// Grid of bars.
	Size    int             `json:"size"`
	Spacing geometry.Length `json:"spacing"` // center to center, at most

	// Mesh and grid.
	Cover  geometry.Length `json:"cover"`  // ends clear of the faces
	Depth  geometry.Length `json:"depth"`  // of the steel's center below the top; 0 for the middle of the field
	Chairs geometry.Length `json:"chairs"` // apart both ways; 0 for none
}

// DowelSpec is the joint with the slab that is there.
type DowelSpec struct {
	Size      int             `json:"size"` // bar number; 0 for no dowels
	Length    geometry.Length `json:"length"`
	Embed     geometry.Length `json:"embed"`      // in the old slab
	Spacing   geometry.Length `json:"spacing"`    // at most
	End       geometry.Length `json:"end"`        // first and last clear of the joint's ends
	Doors     bool            `json:"cleardoors"` // none in a door opening
	OldSlab   geometry.Length `json:"oldslab"`    // thickness of the old slab
	Clearance geometry.Length `json:"clearance"`  // hole over bar diameter
	Waste     int             `json:"waste"`      // percent of adhesive over the holes' volume
}

// BoltSpec is how sill plates are held.
type BoltSpec struct {
	Diameter   geometry.Length `json:"diameter"`
	Shape      BoltShape       `json:"shape"`      // bent or headed
	Hook       geometry.Length `json:"hook"`       // of a bent bolt, from its shaft to its tip
	Length     geometry.Length `json:"length"`     // of the bolt as bought, over all
	Projection geometry.Length `json:"projection"` // above the slab
	Embed      geometry.Length `json:"embed"`      // least depth in concrete
	Spacing    geometry.Length `json:"spacing"`    // at most
	End        geometry.Length `json:"end"`        // from a plate's end, as placed
	EndMax     geometry.Length `json:"endmax"`     // from a plate's end, at most
	EndMin     geometry.Length `json:"endmin"`     // and at least
	Apart      geometry.Length `json:"apart"`      // any two at least
	Offset     geometry.Length `json:"offset"`     // from the face; 0 for the middle of the plate
	Washer     geometry.Length `json:"washer"`     // side of a plate washer or diameter of a round one
	Jamb       geometry.Length `json:"jamb"`       // plates stop short of a rough opening by this
	Stock      geometry.Length `json:"stock"`      // plate stock length
	Stud       geometry.Length `json:"stud"`       // stud spacing to keep clear of; 0 to ignore
	Shift      geometry.Length `json:"shift"`      // a bolt under a stud is moved by this at most
}

// FormSpec is the boards.
type FormSpec struct {
	Board   string            `json:"board,omitzero"` // one size for all, "2x12"; "" to go by the depth
	Stock   []geometry.Length `json:"stock"`
	Rip     bool              `json:"rip"`     // rip the next wider board to depth instead of digging below a narrower one
	Stakes  geometry.Length   `json:"stakes"`  // apart, at most
	Kickers geometry.Length   `json:"kickers"` // apart, at most
}

// SawCutSpec is the saw cuts.
type SawCutSpec struct {
	Ratio   float64         `json:"ratio"`   // spacing at most this many times the thickness, 24 to 36; 0 for no saw cuts
	Spacing geometry.Length `json:"spacing"` // at most; 0 for what Ratio and the table give
	Aspect  float64         `json:"aspect"`  // longer over shorter side of a panel, at most
	Early   bool            `json:"early"`   // cut with an early-entry saw
}

// StakeSpec is what the stake-out needs.
type StakeSpec struct {
	Offset    geometry.Length `json:"offset"`    // of the string-line stakes beyond the corners
	Benchmark geometry.Length `json:"benchmark"` // height of the lowest point of the slab's top over the site's benchmark
}
