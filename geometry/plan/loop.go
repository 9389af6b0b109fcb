package plan

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Loop is a closed chain of edges; each starts at its corner and ends at the
// next one's.
type Loop []Edge

// Edge is one side of the outline or of a hole.
type Edge struct {
	At      geometry.Point `json:"at"`               // the corner where the edge starts
	Section string         `json:"section,omitzero"` // name of its section; "" for no haunch
	Joint   bool           `json:"joint,omitzero"`   // meets a slab that is already there: doweled, not formed
	Wall    string         `json:"wall,omitzero"`    // the plate of a framed wall on it, such as "2x6"; "" for none
	Doors   []Door         `json:"doors,omitzero"`
	Bolts   []BoltMark     `json:"bolts,omitzero"` // given by the builder

	// OldCuts is where joints and saw cuts of the slab that is already there end on a
	// joint with it, along the edge.
	OldCuts []geometry.Length `json:"oldcuts,omitzero"`

	// Meets is what is done where the edge lies on one of another slab of the job that is
	// poured before.
	Meets EdgeMeets `json:"meets,omitzero"`

	// Middle makes the edge an arc: its middle ordinate, from the middle of the chord out of
	// the slab, or into it where it is negative; 0 is straight. Out of it is to the right of
	// the way from the edge's corner to the next.
	Middle geometry.Length `json:"middle,omitzero"`

	// Curb is how high a curb on the edge stands above the slab's top, from the face CurbWidth
	// inward; 0 for none, and of the width for UsualCurb. See Plan.Curbs.
	Curb      geometry.Length `json:"curb,omitzero"`
	CurbWidth geometry.Length `json:"curbwidth,omitzero"`

	// RunOut matters where the edge goes straight on from the one before: from
	// their corner, the deeper of the two sections ramps up over this length into
	// the other edge; 0 is square.
	RunOut geometry.Length `json:"runout,omitzero"`

	// Datum makes the corner the one that positions on the slab are measured from,
	// along the edge and square off it. It counts on the outline; see Plan.Datum.
	Datum bool `json:"datum,omitzero"`

	// Chord is of a plan whose arcs were parted; it is in no file.
	Chord Chord `json:"-"`
}

// SetJoint makes the edge a joint with a slab that is already there, or a free
// edge. The wall that stands on a joint is the old building's: none is framed.
func (e *Edge) SetJoint(on bool) {
	e.Joint = on
	if on {
		e.Wall = ""
	}
}

// keep leaves what stands on edges of which only the start was moved where it was
// from their end.
func (l Loop) keep(was Loop) {
	for i := range l {
		j := (i + 1) % len(l)
		if l[i].At == was[i].At || l[j].At != was[j].At {
			continue
		}
		by := l.Length(i) - was.Length(i)
		for k := range l[i].Doors {
			l[i].Doors[k].From += by
		}
		for k := range l[i].Bolts {
			l[i].Bolts[k].Along += by
		}
		for k := range l[i].OldCuts {
			l[i].OldCuts[k] += by
		}
	}
}

// Corners gives the corners of the loop.
func (l Loop) Corners() geometry.Ring {
	r := make(geometry.Ring, len(l))
	for i, e := range l {
		r[i] = e.At
	}
	return r
}

// Ends gives the two corners of edge i.
func (l Loop) Ends(i int) (a, b geometry.Point) {
	return l[i].At, l[(i+1)%len(l)].At
}

// Length gives the length of edge i, along it where it is an arc.
func (l Loop) Length(i int) geometry.Length {
	if l[i].Middle != 0 {
		return l.Arc(i).Length()
	}
	a, b := l.Ends(i)
	return geometry.Distance(a, b)
}

// straight is the sine of the greatest turn between two edges that count as one
// straight line; rounding a corner to the nanometer turns far less.
const straight = 1e-6

// StraightOn tells whether edge i goes straight on from the one before.
func (l Loop) StraightOn(i int) bool {
	a, b := l.Ends((i + len(l) - 1) % len(l))
	_, c := l.Ends(i)
	if l[i].Middle != 0 || l[(i+len(l)-1)%len(l)].Middle != 0 {
		return false
	}
	ux, uy := b.Sub(a).X.Meters(), b.Sub(a).Y.Meters()
	wx, wy := c.Sub(b).X.Meters(), c.Sub(b).Y.Meters()
	return ux*wx+uy*wy > 0 && math.Abs(ux*wy-uy*wx) <= straight*math.Hypot(ux, uy)*math.Hypot(wx, wy)
}

// LeastWall is the shortest edge whose plate can hold a bolt: of 1/2 in, 7 diameters from
// either end of the plate (IRC R403.1.6).
const LeastWall = 7 * geometry.Inch

// Jog tells whether edge i is a jog of the edge before it, which runs on beyond it within 15
// degrees: walls and bars run past it.
func (l Loop) Jog(i int) bool {
	n := len(l)
	if n < 5 || l[i].Middle != 0 || l.OfArc(i) || l[i].Joint || len(l[i].Doors) > 0 || l.Length(i) >= LeastWall {
		return false
	}
	a, p := l.Ends((i + n - 1) % n)
	q, b := l.Ends((i + 1) % n)
	u, v := p.Sub(a), b.Sub(q)
	ux, uy, vx, vy := u.X.Meters(), u.Y.Meters(), v.X.Meters(), v.Y.Meters()
	const slight = 15 * math.Pi / 180
	if math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)) > slight {
		return false
	}
	w := q.Sub(p)
	wx, wy := w.X.Meters(), w.Y.Meters()
	return math.Abs(math.Atan2(ux*wy-uy*wx, ux*wx+uy*wy)) > slight // else it runs on itself
}

// Reversed gives the same loop run the other way round: every edge keeps its
// section, joint, wall, doors and bolts, and bows to the side that it did, and every corner
// its run-out and whether it is the datum.
func (l Loop) Reversed() Loop {
	n := len(l)
	out := make(Loop, n)
	for i := range l {
		// Edge i runs from corner i to i+1; reversed it starts at corner i+1.
		length := l.Length(i)
		e := l[i]
		start := l[(i+1)%n]
		e.At, e.RunOut, e.Datum = start.At, start.RunOut, start.Datum
		e.Middle = -e.Middle // to its other side, as it runs the other way
		e.Doors = slices.Clone(e.Doors)
		for k := range e.Doors {
			e.Doors[k].From = length - e.Doors[k].From - e.Doors[k].Width
		}
		slices.Reverse(e.Doors)
		e.Bolts = slices.Clone(e.Bolts)
		for k := range e.Bolts {
			e.Bolts[k].Along = length - e.Bolts[k].Along
		}
		slices.Reverse(e.Bolts)
		e.OldCuts = slices.Clone(e.OldCuts)
		for k := range e.OldCuts {
			e.OldCuts[k] = length - e.OldCuts[k]
		}
		slices.Reverse(e.OldCuts)
		out[n-1-i] = e
	}
	return out
}

func (l Loop) clone() Loop {
	l = slices.Clone(l)
	for i := range l {
		l[i].Doors = slices.Clone(l[i].Doors)
		l[i].Bolts = slices.Clone(l[i].Bolts)
		l[i].OldCuts = slices.Clone(l[i].OldCuts)
	}
	return l
}

// Like makes edges of a new loop: one per corner of the ring, each with the
// section and wall of the edge e.
func Like(ring geometry.Ring, e Edge) Loop {
	l := make(Loop, len(ring))
	for i, at := range ring {
		l[i] = Edge{At: at, Section: e.Section, Wall: e.Wall}
	}
	return l
}

// loopAt gives the loop numbered k for changing in place.
func (p *Plan) loopAt(k int) (*Loop, error) {
	switch {
	case k == 0:
		return &p.Outline, nil
	case k > 0 && k <= len(p.Holes):
		return &p.Holes[k-1].Loop, nil
	}
	return nil, noSuch("loop", k, 1+len(p.Holes))
}

// edge gives the loop numbered k if it has an edge i.
func (p Plan) edge(k, i int) (Loop, error) {
	l, err := p.loopAt(k)
	if err != nil {
		return nil, err
	}
	if i < 0 || i >= len(*l) {
		return nil, noSuch("edge", i, len(*l))
	}
	return *l, nil
}

func noSuch(what string, i, n int) error {
	return fmt.Errorf("there is no %s %d; there are %d, counted from 0", what, i, n)
}
