// Package layout places everything the crew places: edge bars, field steel,
// dowels, sill plates with their anchor bolts, form boards, saw cuts, and
// the diagonals that square the forms. Positions are on the plan, piece by
// piece, and the lists to order and cut from follow from them.
//
// Each rule has a name, a source and a limit. What breaks a rule is reported as
// a Finding at its place and never silently mended.
package layout

import "haunchbook.example/geometry"

// Layout is all that is placed on one plan. Loops are numbered as plan.Loops
// gives them: 0 is the outline.
type Layout struct {
	Bars      []Bar
	Laps      []LaidLap // of the bars that run on from piece to piece
	Mesh      []Sheet
	Chairs    int // under the field steel
	Dowels    []Dowel
	Walls     []Wall
	Forms     []Form
	SawCuts   []SawCut
	Isolation []Isolation
	Diagonals []Diagonal
	Squares   []Square
	Lines     []StringLine
	Grades    []Grade
	Findings  []Finding

	MeshCount   int  // sheets or rolls of mesh to buy
	MeshOptimal bool // proven the fewest that Mesh can be cut from
}

// Lists tells how what is placed on all slabs of a job is cut from stock.
type Lists struct {
	Cuts     CutList // of bars and dowels
	Lumber   CutList // of form boards
	Plates   CutList // of sill plates
	Findings []Finding
}

// Bar is one piece of reinforcing bar as it lies in the slab, laps included.
type Bar struct {
	Mark   string            // marks of equal shape are equal: "A1"
	Size   int               // bar number of ASTM A615: 4 is No. 4
	Row    string            // what it belongs to: "edge row 1", "field grid", "pad P1"
	Path   []geometry.Point  // along its center line, bends as corners
	Depth  geometry.Length   // of its center below the top, the least
	Depths []geometry.Length // at each point of Path; nil where all are Depth
	Cut    geometry.Length   // length to cut, bend deductions made
	Bends  []Bend            // at the inner points of Path, in order
	Legs   []geometry.Length // of a bent bar, over the outside of its bends
}

// LaidLap is how long bars that run on from piece to piece lie side by side, as
// they are laid.
type LaidLap struct {
	Of      Lapped
	Row     int // of edge bars, from 1
	Size    int // bar number
	Length  geometry.Length
	TopCast bool // longer, since more than 12 in of concrete is cast below them: ACI 318-19 table 25.4.2.5
}

// Lapped tells what laps belong to.
type Lapped uint8

const (
	EdgeLaps  Lapped = iota // a row of edge bars
	StripLaps               // the bars of thickened strips
	FieldLaps               // the grid of the field
)

// Bend is one bend of a bar.
type Bend struct {
	Turn float64 // degrees
}

// CutList tells how pieces are cut from stock.
type CutList struct {
	Stock   []StockBar
	Optimal bool            // proven to buy the least stock
	Bought  geometry.Length // total length bought
	Bound   geometry.Length // proven: no cutting buys less than this
	Waste   geometry.Length // left over in all
}

// StockBar is one bar as bought, with the pieces sawn from it in order.
type StockBar struct {
	Size   int    // bar number; 0 for a board
	Name   string // "No. 4", "2x12"
	Length geometry.Length
	Yard   bool // an offcut from the yard: not bought
	Pieces []Piece
	Rest   geometry.Length
}

// Piece is one cut.
type Piece struct {
	Mark   string
	Length geometry.Length
}

// Sheet is a rectangular piece of mesh, foam or vapor retarder on the plan, before
// it is trimmed to the outline.
type Sheet struct {
	Corners       [4]geometry.Point // Width runs from the first to the last
	Width, Length geometry.Length   // as cut: on a slope, along it
	Roll          bool              // cut from a roll
}

// Area gives the sheet's area, in m².
func (s Sheet) Area() float64 { return s.Width.Meters() * s.Length.Meters() }

// Dowel is a bar drilled into the slab that is already there.
type Dowel struct {
	Edge  int             // of the outline
	Along geometry.Length // running distance from the edge's start corner
	At    geometry.Point  // on the joint
	Outer geometry.Point  // its end in the old slab
	Inner geometry.Point  // its end in the new slab
	Depth geometry.Length // of its center below the top
}

// Wall is a framed wall on one edge: its plates and the bolts that hold them.
type Wall struct {
	Loop, Edge int
	Plate      string          // "2x6"
	Name       string          // "Wall A"
	Length     geometry.Length // of the edge
	Pieces     []Plate
	Bolts      []Bolt
}

// Plate is one piece of sill plate. From and To are the running distances of its
// longest points from the wall's start corner. One that runs through at an inside
// corner ends past it: To is then more than the wall's length.
type Plate struct {
	From, To geometry.Length
	Outline  []geometry.Point // on the plan, counter-clockwise: square ends but where it is mitered
}

// Bolt is one anchor bolt.
type Bolt struct {
	Mark  int             // number on the sheet, counted through all walls of all slabs
	Along geometry.Length // running distance from the wall's start corner
	Back  geometry.Length // running distance from its end corner: the same tape hooked there
	At    geometry.Point

	Builder  bool // given by the builder
	HoldDown bool // of a hold-down: not counted as an anchor bolt of the plate
}

// Form is a run of form boards on one free edge.
type Form struct {
	Loop, Edge int
	Board      string            // "2x12"
	Depth      geometry.Length   // of the slab at the face
	Below      geometry.Length   // of the trench below the board
	Ripped     geometry.Length   // off the board's width, or set into the ground
	Length     geometry.Length   // of the boards: past an outside corner by a board's thickness
	Boards     []geometry.Length // stock pieces, in order
	Stakes     []geometry.Length // running distances
	Kickers    []geometry.Length
}

// Joint is a saw cut.
type SawCut struct {
	A, B  geometry.Point
	Depth geometry.Length
	Why   string // "re-entrant corner", "door jamb" or "spacing"
}

// Diagonal is a check measure between two corners of the outline.
type Diagonal struct {
	I, J   int
	Length geometry.Length
}

// Square is a 3-4-5 check at a right-angled corner: Unit times 3 along one edge
// and times 4 along the other make Unit times 5 across.
type Square struct {
	Corner int
	Unit   geometry.Length
	A, B   geometry.Point // the ends of the legs
}

// StringLine is a line stretched along an edge of the outline between stakes
// beyond its corners.
type StringLine struct {
	Edge int
	A, B geometry.Point
}

// Grade is the height of a corner over the site's benchmark.
type Grade struct {
	Corner      int
	At          geometry.Point
	Top, Bottom geometry.Length // of the slab: base and foam lie below its bottom
}

// Rule is what a finding appeals to.
type Rule struct {
	Name   string // "Bolt spacing"
	Source string // "IRC R403.1.6" or "common practice"
}

// Finding is a broken rule or a thing to know, at its place.
type Finding struct {
	Rule   Rule
	Severe bool // breaks a limit, as against a thing to know
	At     geometry.Point
	Text   string // what was found and what would do
}
