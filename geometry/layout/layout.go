// Package layout places everything the crew places: edge bars, field steel,
// dowels, sill plates with their anchor bolts, form boards, saw cuts, and
// the diagonals that square the forms. Positions are on the plan, piece by
// piece, and the lists to order and cut from follow from them.
//
// Each rule has a name, a source and a limit. What breaks a rule is reported as
// a Finding at its place and never silently mended.
package layout

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/lines"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// Layout is all that is placed on one plan. Loops are numbered as plan.Loops
// gives them: 0 is the outline.
type Layout struct {
	Marks        mark.Names          // of what is drawn on the plan
	Meetings     []Meeting           // where it lies against other slabs of the job
	Parts        []construction.Part // what is poured in one go, in the order of their days
	Construction []construction.Joint
	Bars         []bars.Bar
	Laps         []bars.LaidLap // of the bars that run on from piece to piece
	Mesh         []cover.Sheet
	Chairs       int // under the field steel
	Dowels       []joints.Dowel
	Walls        []bolts.Wall
	LaidLines    []lines.Line
	Forms        []forms.Form
	SawCuts      []sawcuts.Cut
	Isolation    []joints.Isolation
	Curbs        plan.Curbs      // on its edges
	Outs         []plan.BlockOut // left open round columns, and filled later
	stakeout.StakeOut
	Findings []rule.Finding

	MeshCount   int  // sheets or rolls of mesh to buy
	MeshOptimal bool // proven the fewest that Mesh can be cut from
}

// Meeting is a stretch of an edge that lies against another slab of the job.
type Meeting struct {
	plan.Meeting
	Name           string          // of the other slab
	Curb, CurbWide geometry.Length // of the other slab, which this one is poured against: where it is highest; 0 for none
}

// Met gives the meetings by themselves.
func (l Layout) Met() (out []plan.Meeting) {
	for _, m := range l.Meetings {
		out = append(out, m.Meeting)
	}
	return out
}

// Lists tells how what is placed on all slabs of a job is cut from stock.
type Lists struct {
	Cuts     cutlist.List // of bars and dowels
	Lumber   cutlist.List // of form boards
	Plates   cutlist.List // of sill plates
	Findings []rule.Finding
}
