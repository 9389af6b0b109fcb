// Package lines lays what runs along or under a slab: the lines of drains, trench drains,
// conduit, and hydronic tubing in loops. It moves nothing for them, and says what they meet.
package lines

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Line is a line as it is laid.
type Line struct {
	Index  int // among the plan's
	Kind   plan.LineKind
	Runs   [][]geometry.Point // its middle; of tubing one for each circuit
	Length geometry.Length    // to buy: of tubing with the ways from the manifold and back
	Each   geometry.Length    // the longest circuit of tubing, with its way; 0 of another line
}

// Lay lays the lines of a slab.
func Lay(t *slab.Slab) []Line {
	var out []Line
	for i, l := range t.Plan.Lines {
		one := Line{Index: i, Kind: l.Kind}
		if l.Kind == plan.Tubing {
			one.circuits(t, l)
		} else {
			one.Runs, one.Length = [][]geometry.Point{l.Path}, l.Length()
		}
		out = append(out, one)
	}
	return out
}

// circuits lays tubing: loops over the floor, cut into circuits alike that are no longer than
// the longest.
func (o *Line) circuits(t *slab.Slab, l plan.Line) {
	for _, path := range loops(t, l) {
		long := pathLength(path)
		n := geometry.Length(1)
		if room := l.Longest - l.Lead; room > 0 {
			n = max(1, (long+room-1)/room)
		}
		for k := range n {
			o.Runs = append(o.Runs, piece(path, long*k/n, long*(k+1)/n))
		}
		o.Length += long + n*l.Lead
		o.Each = max(o.Each, (long+n-1)/n+l.Lead)
	}
}

func pathLength(path []geometry.Point) (sum geometry.Length) {
	for i := 1; i < len(path); i++ {
		sum += geometry.Distance(path[i-1], path[i])
	}
	return sum
}

// piece gives what of a path lies from one distance along it to another.
func piece(path []geometry.Point, from, to geometry.Length) (out []geometry.Point) {
	at := geometry.Length(0)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		long := geometry.Distance(a, b)
		lo, hi := max(from-at, 0), min(to-at, long)
		if hi > lo {
			if len(out) == 0 {
				out = append(out, within(a, b, lo, long))
			}
			out = append(out, within(a, b, hi, long))
		}
		at += long
	}
	return out
}

func within(a, b geometry.Point, along, long geometry.Length) geometry.Point {
	switch along {
	case 0:
		return a
	case long:
		return b
	}
	return geometry.Along(a, b, along)
}
