// Package frost lays the insulation that lets the edges of a heated building stop above
// the frost depth, IRC R403.3: foam upright on the face of the free edges, and wings of it
// lying in the ground outside. How thick, high and wide it is, the code's table says by the
// air-freezing index; here that is given.
package frost

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Spec is what lies at the edges.
type Spec struct {
	Upright    geometry.Length // thickness on the face; 0 for none at all
	Height     geometry.Length // of the upright foam, from the top of the slab down
	Wing       geometry.Length // thickness of the wings; 0 for none
	Width      geometry.Length // of the wings, out from the upright foam
	Corner     geometry.Length // their width at corners; 0 as elsewhere
	CornerLong geometry.Length // how far from a corner along each edge they are that wide
}

// Run is a free stretch of an edge of the outline of a slab.
type Run struct {
	Slab, Edge int
	From, To   geometry.Length // along the edge
}

// Laid is the insulation of the slabs of a job.
type Laid struct {
	Runs     []Run         // in the order of slabs and edges
	Wings    plane.Region  // as they lie, each place once
	Slabs    []Placed      // what stands and lies at each slab, by its place among them
	Upright  []cover.Sheet // pieces, as long as the runs
	Lying    []cover.Sheet // pieces, rectangles that cover the wings
	UprightA float64       // m² on the face of the edges
	LyingA   float64       // m² of Wings
}

// Placed is the insulation at the edges of one slab, from above.
type Placed struct {
	Spec
	Upright, Lying plane.Region
	A, B           geometry.Point // the middle of the wing, or the face, along the longest of its edges; equal for none
}

// Of lays it on the free edges of the outlines of slabs, oriented, by the meetings of each
// with the others: none where a slab is that stands there already, nor against another slab
// of the job, nor in holes, nor at slabs that are unheated. At a corner between two free edges the wings go round.
func Of(slabs []plan.Plan, met [][]plan.Meeting, s Spec) Laid {
	var out Laid
	if s.Upright <= 0 {
		return out
	}
	var outlines, taken, outer plane.Region
	own, faces := make([]plane.Region, len(slabs)), make([]plane.Region, len(slabs))
	out.Slabs = make([]Placed, len(slabs))
	for k, p := range slabs {
		if p.Blank() {
			continue
		}
		p = p.Chorded()
		outlines = append(outlines, p.Outline.Corners())
		longest := geometry.Length(0)
		sides := freeSides(p, met[k])
		for _, d := range sides {
			long := d.to - d.from
			if n := len(out.Runs) - 1; d.goesOn {
				out.Runs[n].To += long
				out.Upright[n].Length += long
			} else {
				out.Runs = append(out.Runs, Run{k, d.edge, d.from, d.to})
				out.Upright = append(out.Upright, cover.Sheet{Width: s.Height, Length: long})
			}
			out.UprightA += long.Meters() * s.Height.Meters()
			faces[k] = append(faces[k], d.band(0, long, s.Upright))
			if d.round {
				faces[k] = append(faces[k], d.kite(s.Upright)...)
			}
			if long > longest {
				longest, out.Slabs[k].A, out.Slabs[k].B = long, moved(d.a, d.out, s.middle()), moved(d.b, d.out, s.middle())
			}
			if s.Lies() {
				own[k] = append(own[k], d.band(0, long, s.Upright+s.Width))
				s.corners(d, &own[k])
				out.Lying = append(out.Lying, s.pieces(d)...)
			}
		}
		taken, outer = append(taken, faces[k]...), append(outer, own[k]...)
	}
	outlines = plane.Union(outlines)
	taken = plane.Union(outlines, taken)
	for k := range slabs {
		at := &out.Slabs[k]
		at.Spec, at.Upright = s, plane.Subtract(plane.Union(faces[k]), outlines)
		if s.Lies() && len(own[k]) > 0 {
			at.Lying = plane.Subtract(plane.Union(own[k]), taken)
		}
	}
	if s.Lies() {
		out.Wings = plane.Subtract(plane.Union(outer), taken)
		out.LyingA = out.Wings.Area()
	}
	return out
}

// Lies tells whether there are wings.
func (s Spec) Lies() bool { return s.Wing > 0 && s.Width > 0 }

// middle gives how far out the middle of the wings is; the face where there are none.
func (s Spec) middle() geometry.Length {
	if !s.Lies() {
		return 0
	}
	return s.Upright + s.Width/2
}

// wide gives the width of the wings at corners, and how far along from them.
func (s Spec) wide() (width, long geometry.Length) {
	if s.Corner > s.Width && s.CornerLong > 0 {
		return s.Corner, s.CornerLong
	}
	return s.Width, 0
}

// corners adds what the wings are at the corners of a side, with the foam on the face.
func (s Spec) corners(d side, to *plane.Region) {
	width, long := s.wide()
	long = min(long, d.to-d.from)
	switch {
	case d.round && d.smooth:
		*to = append(*to, d.kite(s.Upright+s.Width)...)
	case d.round:
		*to = append(*to, d.kite(s.Upright+width)...)
		if long > 0 {
			*to = append(*to, d.band(d.to-d.from-long, d.to-d.from, s.Upright+width))
		}
	}
	if d.before && !d.smoothBefore && long > 0 {
		*to = append(*to, d.band(0, long, s.Upright+width))
	}
}

// pieces gives rectangles that cover the wing of a side: at a corner one side's goes
// through to the end, the other's abuts. Those of other corners than square ones are
// longer by what is trimmed.
func (s Spec) pieces(d side) []cover.Sheet {
	width, long := s.wide()
	whole := d.to - d.from
	first, last := geometry.Length(0), geometry.Length(0) // of the wider pieces, on the edge
	if d.before && !d.smoothBefore {
		first = min(long, whole)
	}
	if d.round && !d.smooth {
		last = min(long, whole-first)
	}
	start, end := geometry.Length(0), geometry.Length(0) // beyond it
	if d.before {
		start = scaled(s.Upright, d.tanBefore)
	}
	if d.round {
		end = scaled(s.Upright+width, d.tanAfter)
	}
	if d.smooth {
		end = scaled(s.Upright+s.Width, d.tanAfter)
	}
	var out []cover.Sheet
	add := func(w, l geometry.Length) {
		if w > 0 && l > 0 {
			out = append(out, cover.Sheet{Width: w, Length: l})
		}
	}
	if first+last == 0 {
		if d.smooth || d.smoothBefore {
			width = s.Width
		}
		add(width, whole+start+end)
		return out
	}
	add(width, first+start)
	add(s.Width, whole-first-last)
	add(width, last+end)
	return out
}

func scaled(l geometry.Length, by float64) geometry.Length {
	return geometry.Rounded(float64(l) * by)
}

// side is a free stretch of an edge, and how it goes on round its ends.
type side struct {
	edge                int
	from, to            geometry.Length
	a, b                geometry.Point
	out                 plane.Vec // across, outward, of length 1
	next                plane.Vec // that of the next edge
	before, round       bool      // a corner stands out at its start, at its end, with free edges on both sides
	tanBefore, tanAfter float64   // of half the angle that it turns there

	smoothBefore, smooth bool // the corner is none: it goes on along an arc
	goesOn               bool // it is a further chord of the arc that the side before is of
}

// sharpest is the tangent of half the greatest turn that wings go round to a point; at
// sharper corners they are cut off across. Own figure.
const sharpest = 2

// smoothTurn is the greatest turn, 15 degrees, at which an arc goes on smoothly: own figure.
const smoothTurn = math.Pi / 12

func freeSides(p plan.Plan, met []plan.Meeting) []side {
	if p.Unheated {
		return nil
	}
	n := len(p.Outline)
	free := make([][]side, n)
	across := make([]plane.Vec, n)
	for i, e := range p.Outline {
		a, b := p.Outline.Ends(i)
		along := plane.Vec{X: (b.X - a.X).Meters(), Y: (b.Y - a.Y).Meters()}.Unit()
		across[i] = along.Left().Times(-1) // the slab lies left of its edges
		edge := p.Outline.Drawn(i)
		for _, f := range plan.Free(met, e, 0, edge, p.Outline.Length(i)) {
			free[i] = append(free[i], side{edge: edge, goesOn: p.Outline.Within(i), from: f.From, to: f.To, a: geometry.Along(a, b, f.From), b: geometry.Along(a, b, f.To), out: across[i]})
		}
	}
	var all []side
	for i := range free {
		j := (i + 1) % n
		if len(free[i]) > 0 && len(free[j]) > 0 {
			last, first := &free[i][len(free[i])-1], &free[j][0]
			turn := math.Atan2(across[i].Cross(across[j]), across[i].Dot(across[j]))
			if last.to >= p.Outline.Length(i)-plan.LeastMeeting && first.from <= plan.LeastMeeting && turn > 1e-6 {
				last.round, first.before, last.next = true, true, across[j]
				last.smooth = (p.Outline.OfArc(i) || p.Outline.OfArc(j)) && turn < smoothTurn
				first.smoothBefore = last.smooth
				last.tanAfter = min(sharpest, math.Tan(turn/2))
				first.tanBefore = last.tanAfter
			}
		}
	}
	for _, f := range free {
		all = append(all, f...)
	}
	return all
}

// moved gives a point so far out.
func moved(p geometry.Point, u plane.Vec, by geometry.Length) geometry.Point {
	return geometry.Point{X: p.X + geometry.Rounded(u.X*float64(by)), Y: p.Y + geometry.Rounded(u.Y*float64(by))}
}

// band gives the strip along the side between two places on it, so far out.
func (d side) band(from, to, reach geometry.Length) geometry.Ring {
	p, q := geometry.Along(d.a, d.b, from), geometry.Along(d.a, d.b, to)
	return geometry.Ring{q, p, moved(p, d.out, reach), moved(q, d.out, reach)}
}

// kite gives what lies round the corner at the end, so far out from both edges.
func (d side) kite(reach geometry.Length) plane.Region {
	one, other := moved(d.b, d.out, reach), moved(d.b, d.next, reach)
	if d.tanAfter >= sharpest {
		return plane.Region{{d.b, one, other}}
	}
	tip := moved(one, d.out.Left(), scaled(reach, d.tanAfter))
	return plane.Region{{d.b, one, tip, other}}
}
