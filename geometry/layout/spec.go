package layout

import "haunchbook/geometry"

// Spec says what is placed and by which rules. Default gives a usual one.
type Spec struct {
	Bars   BarSpec   `json:"bars"`
	Field  FieldSpec `json:"field"`
	Dowels DowelSpec `json:"dowels"`
	Bolts  BoltSpec  `json:"bolts"`
	Forms  FormSpec  `json:"forms"`
	Joints JointSpec `json:"joints"`
}

// BarSpec is the steel in the haunches.
type BarSpec struct {
	Size   int               `json:"size"`   // bar number of ASTM A615/A615M
	Rows   []Row             `json:"rows"`   // continuous bars round every haunch
	Grade  int               `json:"grade"`  // yield strength, ksi: 40, 60 or 80
	Coated bool              `json:"coated"` // epoxy-coated
	Lap    Lap               `json:"lap"`
	Corner Corner            `json:"corner"`
	Stock  []geometry.Length `json:"stock"` // stock lengths on sale
	Yard   []geometry.Length `json:"yard"`  // offcuts in the yard, to use first
	Joint  JointSteel        `json:"joint"` // whether rows go on along the joint
}

// Row is one continuous bar, by clear covers.
type Row struct {
	Face   geometry.Length `json:"face"`   // clear of the edge's face
	Bottom geometry.Length `json:"bottom"` // clear of the underside; 0 where Top rules
	Top    geometry.Length `json:"top"`    // clear of the top; 0 where Bottom rules
}

// Lap is how long bars lie side by side.
type Lap struct {
	Rule   LapRule         `json:"rule"`
	Length geometry.Length `json:"length,omitzero"` // for ByLength
}

// DowelSpec is the joint with the slab that is there.
type DowelSpec struct {
	Size      int             `json:"size"`
	Length    geometry.Length `json:"length"`
	Embed     geometry.Length `json:"embed"` // in the old slab
	Spacing   geometry.Length `json:"spacing"`
	End       geometry.Length `json:"end"`       // first and last clear of the joint's ends
	OldSlab   geometry.Length `json:"oldslab"`   // thickness of the old slab
	Clearance geometry.Length `json:"clearance"` // hole over bar diameter
}

// BoltSpec is how sill plates are held.
type BoltSpec struct {
	Diameter   geometry.Length `json:"diameter"`
	Length     geometry.Length `json:"length"`         // of the bolt as bought
	Projection geometry.Length `json:"projection"`     // above the slab
	Embed      geometry.Length `json:"embed"`          // least depth in concrete
	Spacing    geometry.Length `json:"spacing"`        // at most
	EndMax     geometry.Length `json:"endmax"`         // from a plate's end, at most
	EndMin     geometry.Length `json:"endmin"`         // and at least
	Stock      geometry.Length `json:"stock"`          // plate stock length
	Stud       geometry.Length `json:"stud"`           // stud spacing to keep clear of; 0 to ignore
	Marks      []Mark          `json:"marks,omitzero"` // given by the builder: they win, and are checked
}

// Mark is a bolt position that the builder gives.
type Mark struct {
	Edge     int             `json:"edge"` // of the outline
	Along    geometry.Length `json:"along"`
	HoldDown bool            `json:"holddown,omitzero"`
}

// FormSpec is the boards.
type FormSpec struct {
	Stock   []geometry.Length `json:"stock"`
	Stakes  geometry.Length   `json:"stakes"`  // apart, at most
	Kickers geometry.Length   `json:"kickers"` // apart, at most
}

// JointSpec is the saw cuts.
type JointSpec struct {
	Ratio float64 `json:"ratio"` // spacing at most this many times the thickness, 24 to 36
}

// LapRule names how a lap is found.
type LapRule uint8

// Corner names how bars turn a corner.
type Corner uint8

// JointSteel names what rows do along a joint.
type JointSteel uint8

// FieldSpec is the steel or fiber in the field.
type FieldSpec struct{}
