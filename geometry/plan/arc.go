package plan

import (
	"errors"
	"fmt"
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
)

// Chord tells of an edge of a plan whose arcs were parted into chords which edge that is
// drawn it is a part of. The zero Chord is of an edge as it is drawn.
type Chord struct {
	Of   int // number of the drawn edge in its loop, from 1
	K, N int // it is the K-th, from 0, of N chords; N is 1 for a straight edge

	Middle geometry.Length // middle ordinate of the drawn edge
}

// Near is how near to an arc its chords lie where things are placed and drawn by them.
const Near = geometry.Sixteenth

// LeastRadius is the least that an edge may be rounded by: about what an edger does by
// itself. Own figure.
const LeastRadius = geometry.Inch

// Arc gives edge i as an arc; a straight one where it is none.
func (l Loop) Arc(i int) arc.Arc {
	a, b := l.Ends(i)
	return arc.Arc{A: a, B: b, Middle: l[i].Middle}
}

// Curved tells whether an edge of the loop is an arc.
func (l Loop) Curved() bool {
	for i := range l {
		if l[i].Middle != 0 {
			return true
		}
	}
	return false
}

// Drawn gives the number that edge i has on the plan as it is drawn.
func (l Loop) Drawn(i int) int {
	if of := l[i].Chord.Of; of > 0 {
		return of - 1
	}
	return i
}

// OfArc tells whether edge i is a chord of an arc.
func (l Loop) OfArc(i int) bool { return l[i].Chord.N > 1 }

// Within tells whether corner i lies within an arc: it is none of those that are drawn.
func (l Loop) Within(i int) bool { return l[i].Chord.K > 0 }

// Whole gives the drawn edge that edge i is a part of, and how many edges from i it takes;
// i starts it.
func (l Loop) Whole(i int) (arc.Arc, int) {
	if !l.OfArc(i) {
		return l.Arc(i), 1
	}
	c := l[i].Chord
	return arc.Arc{A: l[i].At, B: l[(i+c.N)%len(l)].At, Middle: c.Middle}, c.N
}

// Along gives the point of edge i at a running distance from its corner, along it where it is
// an arc. The edge has a length.
func (l Loop) Along(i int, along geometry.Length) geometry.Point {
	a := l.Arc(i)
	if a.Straight() {
		return geometry.Along(a.A, a.B, along)
	}
	return a.At(float64(along)/float64(a.Length()), 0)
}

// Chords gives edge i as lines within Near of it: one of a straight edge.
func (l Loop) Chords(i int) []geometry.Point {
	a := l.Arc(i)
	return a.Chords(a.Parts(Near))
}

// Rim gives the ring of the loop, its arcs as chords that lie within Near of them.
func (l Loop) Rim() geometry.Ring {
	if !l.Curved() {
		return l.Corners()
	}
	r := make(geometry.Ring, 0, 8*len(l))
	for i := range l {
		ps := l.Chords(i)
		r = append(r, ps[:len(ps)-1]...)
	}
	return r
}

// Perimeter gives the length of the loop, along its arcs.
func (l Loop) Perimeter() (sum geometry.Length) {
	for i := range l {
		sum += l.Length(i)
	}
	return sum
}

// Area gives the area of the loop in square meters, positive where it runs
// counter-clockwise, with what its arcs add to their chords.
func (l Loop) Area() float64 {
	sum := l.Corners().Area()
	for i := range l {
		sum += l.Arc(i).Segment()
	}
	return sum
}

// Curved tells whether an edge of the plan is an arc.
func (p Plan) Curved() bool {
	for _, l := range p.Loops() {
		if l.Curved() {
			return true
		}
	}
	return false
}

// Chorded gives the plan with each arc parted into chords that lie within Near of it, for
// what places things along edges. Its edges know which drawn edge each is of. A plan without
// arcs is as it was.
func (p Plan) Chorded() Plan {
	return p.parted(func(a arc.Arc) []geometry.Point { return a.Chords(a.Parts(Near)) })
}

// volumeShare is by how much of the slab's volume its arcs as chords may be wrong at most,
// less than half of what is promised.
const volumeShare = 4e-7

// Even gives the plan with each arc parted into chords that enclose its very area, so fine
// that the volume of a slab with haunches is within 1e-6 of that with arcs. A plan without
// arcs is as it was.
//
// With chords of half the angle h, the area between an edge and the line at an inset v is
// wrong by φ·h²·v·(R-v)/6 on an arc of radius R and angle φ. So the haunches' volume beyond
// the field is wrong by no more than that for v of their reach, or R/2, which makes it most,
// times their depth beyond the field.
func (p Plan) Even() Plan {
	if !p.Curved() {
		return p
	}
	area := math.Abs(p.Outline.Area())
	reach, excess := 0.0, 0.0
	for _, s := range p.Sections {
		reach, excess = max(reach, s.Reach().Meters()), max(excess, (s.Deepest()-p.Field).Meters())
	}
	n := 0.0
	for _, l := range p.Loops() {
		for i := range l {
			if l[i].Middle != 0 {
				n++
			}
		}
	}
	return p.parted(func(a arc.Arc) []geometry.Point {
		r, phi := a.Radius().Meters(), math.Abs(a.Sweep())
		v := min(reach, r/2)
		worst := phi * v * (r + v) / 6 * excess // over h²; r+v on an arc that bows into the slab
		h := math.Pi / 48
		if allowed := volumeShare * area * p.Field.Meters() / n; worst*h*h > allowed {
			h = math.Sqrt(allowed / worst)
		}
		const least, most = 8, 4000
		return a.Even(int(min(max(math.Ceil(phi/(2*h)), least), most)))
	})
}

// parted gives the plan with its arcs parted at points.
func (p Plan) parted(by func(arc.Arc) []geometry.Point) Plan {
	if !p.Curved() {
		return p
	}
	p = p.Clone()
	for k := range 1 + len(p.Holes) {
		l, _ := p.loopAt(k)
		*l = l.parted(by)
	}
	return p
}

func (l Loop) parted(by func(arc.Arc) []geometry.Point) Loop {
	out := make(Loop, 0, 4*len(l))
	for i, e := range l {
		if e.Middle == 0 {
			e.Chord = Chord{Of: i + 1, N: 1}
			out = append(out, e)
			continue
		}
		ps := by(l.Arc(i))
		n := len(ps) - 1
		e.Middle = 0
		for k, at := range ps[:n] {
			e.At, e.Chord = at, Chord{i + 1, k, n, l[i].Middle}
			out = append(out, e)
			e.Datum, e.RunOut, e.Doors, e.Bolts, e.OldCuts = false, 0, nil, nil, nil
		}
	}
	return out
}

// RoundCorner rounds corner i of a loop by a radius: two corners take its place, where the arc
// between touches the edges that met there. It keeps the section of the edge after it.
func (p Plan) RoundCorner(loop, i int, radius geometry.Length) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	n := len(l)
	before := (i + n - 1) % n
	if l[before].Middle != 0 || l[i].Middle != 0 {
		return p, errors.New("a corner beside an arc is not rounded: straighten that edge first, with a middle ordinate of 0")
	}
	if radius < LeastRadius {
		return p, errors.New("a corner is rounded by a radius of at least an inch, 25 mm")
	}
	a, ok := arc.Rounded(l[before].At, l[i].At, l[(i+1)%n].At, radius)
	if !ok {
		return p, errors.New("the radius finds no room: its arc must touch both edges of the corner between their ends; give a lesser one")
	}
	for _, e := range [2]int{before, i} {
		if len(l[e].Doors)+len(l[e].Bolts)+len(l[e].OldCuts) > 0 && !clearOf(l, e, e == before, a) {
			return p, errors.New("a door, a bolt mark or a cut of the old slab is in the way of the arc: move it first, or give a lesser radius")
		}
	}
	q := p.Clone()
	m, _ := q.loopAt(loop)
	e := (*m)[i]
	round := Edge{At: a.A, Section: e.Section, Middle: a.Middle, Meets: e.Meets, Curb: e.Curb, CurbWidth: e.CurbWidth}
	gone := geometry.Distance(e.At, a.B)
	e.At, e.RunOut = a.B, 0
	for k := range e.Doors {
		e.Doors[k].From -= gone
	}
	for k := range e.Bolts {
		e.Bolts[k].Along -= gone
	}
	for k := range e.OldCuts {
		e.OldCuts[k] -= gone
	}
	out := append(Loop{}, (*m)[:i]...)
	out = append(out, round, e)
	*m = append(out, (*m)[i+1:]...)
	return q, nil
}

// clearOf tells whether what stands on edge e of a loop lies outside the arc at its one end.
func clearOf(l Loop, e int, atEnd bool, a arc.Arc) bool {
	from, to := geometry.Length(0), l.Length(e)
	if atEnd {
		to = geometry.Distance(l[e].At, a.A)
	} else {
		from = geometry.Distance(l[e].At, a.B)
	}
	for _, d := range l[e].Doors {
		if d.From < from || d.From+d.Width > to {
			return false
		}
	}
	for _, b := range l[e].Bolts {
		if b.Along < from || b.Along > to {
			return false
		}
	}
	for _, c := range l[e].OldCuts {
		if c < from || c > to {
			return false
		}
	}
	return true
}

// SetMiddle makes edge i of a loop an arc of a middle ordinate, out of the slab for a positive
// one and into it for a negative one; straight for 0.
func (p Plan) SetMiddle(loop, i int, middle geometry.Length) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		if 2*middle.Abs() > geometry.Distance(l.Ends(i)) {
			return errors.New("an arc is at most half a circle: its middle ordinate is at most half its chord")
		}
		(*l)[i].Middle = middle
		return nil
	})
}

// SetRadius makes edge i of a loop an arc of a radius. It bows the way that it did, out of
// the slab where it was straight; a negative radius bows it into the slab.
func (p Plan) SetRadius(loop, i int, radius geometry.Length) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		chord := geometry.Distance(l.Ends(i))
		m, ok := arc.OfRadius(chord, radius.Abs())
		if !ok {
			return errors.New("the radius must be at least half the distance between the edge's corners")
		}
		if radius < 0 || (*l)[i].Middle < 0 {
			m = -m
		}
		(*l)[i].Middle = m
		return nil
	})
}

// ArcThrough makes edge i of a loop the arc that passes a point.
func (p Plan) ArcThrough(loop, i int, by geometry.Point) (Plan, error) {
	l, err := p.edge(loop, i)
	if err != nil {
		return p, err
	}
	a, b := l.Ends(i)
	through, ok := arc.Through(a, by, b)
	if !ok {
		return p.SetMiddle(loop, i, 0)
	}
	return p.SetMiddle(loop, i, through.Middle)
}

// arcs faults what an arc cannot be, and what cannot stand on one.
func (v *validator) arcs(path string, l Loop, i int) {
	e := l[i]
	if e.Middle == 0 {
		return
	}
	a := l.Arc(i)
	at := a.At(0.5, 0)
	switch {
	case tooFar(e.Middle) || a.A == a.B:
		return // of no use, and told already
	case 2*e.Middle.Abs() > a.Chord()+1:
		v.fault(path+".middle", at, v.text(e.Middle)+" over a chord of "+v.text(a.Chord()), "an arc is at most half a circle: its middle ordinate is at most half its chord; part it by a corner")
	case a.Radius() < LeastRadius:
		v.fault(path+".middle", at, "an arc of a radius of "+v.text(a.Radius()), "give a radius of at least "+v.text(LeastRadius))
	case e.Middle > 0 && e.Curb > 0 && a.Radius() < e.CurbWide()+LeastRadius:
		v.fault(path+".curbwidth", at, v.text(e.CurbWide())+" on an arc of a radius of "+v.text(a.Radius()), "a curb must be narrower than the arc's radius by at least "+v.text(LeastRadius))
	}
	for _, on := range []struct {
		field string
		there bool
		found string
	}{
		{"joint", e.Joint, "a joint with the old slab on an arc"},
		{"wall", e.Wall != "", "a wall on an arc"},
		{"doors", len(e.Doors) > 0, "a door on an arc"},
		{"bolts", len(e.Bolts) > 0, "bolt marks on an arc"},
		{"oldcuts", len(e.OldCuts) > 0, "joints of the old slab on an arc"},
	} {
		if on.there {
			v.fault(path+"."+on.field, at, on.found, fmt.Sprintf("only straight edges have one: take it off, or make the edge straight, with a %s of 0", "middle ordinate"))
		}
	}
}
