package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Line is what runs along or under the slab: the line of a drain, a trench drain, conduit, or
// the loops of hydronic tubing.
type Line struct {
	Name     string           `json:"name,omitzero"`
	Kind     LineKind         `json:"kind"`
	Path     []geometry.Point `json:"path"`              // its middle; of tubing the corners of the floor that it warms, two for a rectangle
	Diameter geometry.Length  `json:"diameter"`          // outside; of a trench drain the width of its channel
	Cover    geometry.Length  `json:"cover"`             // from the top of the slab down to its top, at its one end
	EndCover geometry.Length  `json:"endcover,omitzero"` // at the other end; 0 for the same
	Height   geometry.Length  `json:"height,omitzero"`   // of the channel of a trench drain
	Spacing  geometry.Length  `json:"spacing,omitzero"`  // of tubing, from middle to middle
	Longest  geometry.Length  `json:"longest,omitzero"`  // a circuit of tubing, with its way from the manifold and back
	Lead     geometry.Length  `json:"lead,omitzero"`     // of each circuit from the manifold and back
}

// LineKind tells what a line is.
type LineKind = geometry.Choice[lineKinds]

type lineKinds struct{}

// Names implements geometry.Named.
func (lineKinds) Names() []string {
	return []string{"drain line", "trench drain", "conduit", "tubing"}
}

// The kinds of lines.
const (
	DrainLine   LineKind = iota // a pipe that falls from a drain
	TrenchDrain                 // a channel with a grate, flush with the top
	Conduit                     // a pipe for wires, or for water under pressure
	Tubing                      // loops that warm the floor
)

// KindLine is the kind of lines. The points of a path can be taken one by one.
const KindLine Kind = "line"

func init() {
	path := func(l *Line) []*geometry.Point {
		out := make([]*geometry.Point, len(l.Path))
		for i := range l.Path {
			out[i] = &l.Path[i]
		}
		return out
	}
	register(KindLine, 44, 10, list[Line]{
		kind: KindLine, path: "lines",
		in:   func(s *Site) *[]Line { return &s.Plan.Lines },
		body: path, ends: path,
		lies: func(l Line) Outline {
			out := Outline{Half: l.Diameter / 2}
			if l.Kind == Tubing {
				out.Ring = l.Floor()
			}
			for i := 1; i < len(l.Path); i++ {
				out.Lines = append(out.Lines, [2]geometry.Point{l.Path[i-1], l.Path[i]})
			}
			return out
		},
		deep: func(l *Line) { l.Path = slices.Clone(l.Path) },
		turned: func(l *Line, m motion) {
			if l.Kind == Tubing && len(l.Path) == 2 && m.turn != 0 { // a rectangle that is no longer upright
				back := func(p geometry.Point) geometry.Point { return Turn(p, -m.turn) }
				r := upright(back(l.Path[0]), back(l.Path[1]))
				l.Path = l.Path[:0]
				for _, p := range r {
					l.Path = append(l.Path, Turn(p, m.turn))
				}
			}
		},
		check: (*validator).line,
	})
}

// upright gives the upright rectangle with two opposite corners.
func upright(p, q geometry.Point) geometry.Ring {
	lo := geometry.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)}
	hi := geometry.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)}
	return geometry.Ring{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
}

// Floor gives what tubing is laid in, counter-clockwise.
func (l Line) Floor() geometry.Ring {
	if len(l.Path) == 2 {
		return upright(l.Path[0], l.Path[1])
	}
	r := geometry.Ring(slices.Clone(l.Path))
	if !r.CounterClockwise() {
		slices.Reverse(r)
	}
	return r
}

// Thick gives how high a line is.
func (l Line) Thick() geometry.Length {
	if l.Kind == TrenchDrain {
		return l.Height
	}
	return l.Diameter
}

// Length gives how long the path of a line is; of tubing see where it is laid.
func (l Line) Length() (sum geometry.Length) {
	for i := 1; i < len(l.Path); i++ {
		sum += geometry.Distance(l.Path[i-1], l.Path[i])
	}
	return sum
}

// CoverAt gives the depth of its top so far along a line.
func (l Line) CoverAt(along geometry.Length) geometry.Length {
	long := l.Length()
	if l.EndCover == 0 || l.Kind == Tubing || l.Kind == TrenchDrain || long == 0 {
		return l.Cover
	}
	return l.Cover + geometry.Rounded(float64(l.EndCover-l.Cover)*float64(along)/float64(long))
}

// leastCircuit is what of a circuit must be left for the floor: own figure.
const leastCircuit = 10 * geometry.Foot

func (v *validator) line(path string, l *Line) {
	at := v.home
	if len(l.Path) > 0 {
		at = l.Path[0]
	}
	if len(l.Path) < 2 {
		v.fault(path+".path", at, count(len(l.Path), "point"), "give at least two points")
		return
	}
	inside := l.Kind == Tubing || l.Kind == TrenchDrain
	for k, p := range l.Path {
		on := fmt.Sprintf("%s.path[%d]", path, k)
		switch {
		case tooFar(p.X) || tooFar(p.Y):
			v.fault(on, v.home, v.place(p), "must lie within 10 km of the origin")
			return
		case inside && v.outside(p):
			v.fault(on, v.home, v.place(p), "must lie on the slab")
		case k > 0 && p == l.Path[k-1]:
			v.fault(on, p, "the same point twice", "remove one of them")
		}
	}
	if l.Kind == TrenchDrain && l.Height <= 0 {
		v.fault(path+".height", at, v.text(l.Height), "give the height of the channel")
	}
	if l.Kind != Tubing {
		return
	}
	if l.Spacing <= 0 {
		v.fault(path+".spacing", at, v.text(l.Spacing), "give the spacing of the tubing: 6 to 18 in is usual")
	}
	if r := l.Floor(); r.Area() == 0 || len(plane.Crossings([]geometry.Ring{r}, 1)) > 0 {
		v.fault(path+".path", at, "corners that enclose no floor", "give two opposite corners of a rectangle, or corners one after the other round the floor")
	}
	if l.Longest > 0 && l.Longest-l.Lead < leastCircuit {
		v.fault(path+".lead", at, v.text(l.Lead)+" of a circuit of "+v.text(l.Longest), "must leave at least "+v.text(leastCircuit)+" for the floor")
	}
}
