package ground

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Wanted is a place to shoot.
type Wanted struct {
	What string // "corner 3", "door 1", "trench", "pad", "drain", "field"
	At   geometry.Point
}

// How the places to shoot lie, in the order of how much they tell: own figures, no source.
const (
	inTrench   = 8 * geometry.Foot  // along trenches, thickened strips and great pads, no farther apart
	near       = geometry.Foot      // a place nearer to one before is left out
	closest    = 2 * geometry.Foot  // the field's grid is no finer
	widest     = 12 * geometry.Foot // and no wider
	fromEdge   = 3 * geometry.Inch  // of the grid from the edge of the field
	beside     = 16 * geometry.Inch // of the second of two near places, one of every
	pairEach   = 5                  // so many: they tell how rough the ground is between places
	Accuracy   = 0.01               // of the concrete, where nobody says otherwise
	layoutMost = 400                // places
)

// Spacing gives how far apart the field is to be shot so that the concrete is known to a
// share of it: each shot stands for a square, off by what fine grading leaves (see the
// source at Guess), and what n of them are off by together falls with the root of n.
func Spacing(s *solid.Solid, accuracy float64) geometry.Length {
	if accuracy <= 0 {
		accuracy = Accuracy
	}
	area := s.FieldArea()
	if area <= 0 || s.Volume <= 0 {
		return widest
	}
	n := math.Pow(usual*area/(accuracy*s.Volume), 2)
	step := geometry.FromMeters(math.Sqrt(area / math.Max(n, 1))).Round(geometry.Inch)
	return max(closest, min(step, widest))
}

// Layout gives where to shoot the ground under a slab, in walking order: round the
// trenches from the first corner, with doors, then pads, strips and drains, then the field
// to and fro by a grid of a spacing. Some places lie in pairs near each other (P. J. Diggle
// and P. J. Ribeiro, Model-based Geostatistics, 2007, 8: a lattice with close pairs): without
// them ground that is smooth looks like ground that is rough.
func Layout(s *solid.Solid, p plan.Plan, spacing geometry.Length) []Wanted {
	l := &laying{zones: Zones(s, p.Region()), plan: p}
	for k, loop := range p.Loops() {
		for i := range loop {
			l.edge(k, loop, i)
		}
	}
	for i, d := range p.Pads {
		l.over(Pad, fmt.Sprintf("pad %d", i+1), d.Center)
	}
	for _, t := range p.Strips {
		for i := 1; i < len(t.Path); i++ {
			l.line(Pad, "strip", t.Path[i-1], t.Path[i])
		}
	}
	for _, f := range p.Top.Falls {
		if zoneAt(l.zones, f.To) >= 0 {
			l.put("drain", f.To)
		}
	}
	l.grid(max(spacing, closest))
	return l.out
}

type laying struct {
	zones []Zone
	plan  plan.Plan
	out   []Wanted

	trench int // places between the corners of trenches
}

func (l *laying) put(what string, at geometry.Point) {
	if len(l.out) >= layoutMost || slices.ContainsFunc(l.out, func(w Wanted) bool { return geometry.Distance(w.At, at) < near }) {
		return
	}
	l.out = append(l.out, Wanted{what, at})
}

// over puts a place where the ground is of a class.
func (l *laying) over(c Class, what string, at geometry.Point) bool {
	k := zoneAt(l.zones, at)
	if k < 0 || l.zones[k].Class != c {
		return false
	}
	l.put(what, at)
	return true
}

// line puts places along a line.
func (l *laying) line(c Class, what string, a, b geometry.Point) {
	long := geometry.Distance(a, b)
	if long == 0 {
		return
	}
	n := (long + inTrench - 1) / inTrench
	for k := range n + 1 {
		l.over(c, what, geometry.Along(a, b, min(max(long*k/n, near/2), max(long-near/2, long/2))))
	}
}

// edge puts places in the trench along an edge: its corner, its doors, and between.
func (l *laying) edge(loop int, edges plan.Loop, i int) {
	a, b := edges.Ends(i)
	long := edges.Length(i)
	if long == 0 {
		return
	}
	place := func(along, inset geometry.Length) geometry.Point {
		if edges[i].Middle != 0 {
			return edges.Arc(i).At(float64(along)/float64(long), inset)
		}
		q := geometry.Along(a, b, along)
		return geometry.Along(q, q.Add(plan.Turn(b.Sub(a), 90)), inset)
	}
	in := func(along geometry.Length, what string) {
		for _, inset := range []geometry.Length{6, 4, 2, 1} {
			if l.over(Trench, what, place(along, inset*geometry.Inch)) {
				return
			}
		}
	}
	aside := min(6*geometry.Inch, long/4)
	name := "trench"
	if loop == 0 {
		name = fmt.Sprintf("corner %d", i+1)
	}
	in(aside, name)
	n := (long + inTrench - 1) / inTrench
	type spot struct {
		at   geometry.Length
		what string
	}
	var spots []spot
	for k, d := range edges[i].Doors {
		spots = append(spots, spot{d.From + d.Width/2, fmt.Sprintf("door %d", k+1)})
	}
	for k := geometry.Length(1); k < n; k++ {
		spots = append(spots, spot{long * k / n, "trench"})
	}
	slices.SortStableFunc(spots, func(x, y spot) int { return cmp.Compare(x.at, y.at) })
	for _, s := range spots {
		in(s.at, s.what)
		if l.trench++; l.trench%pairEach == pairEach/2 && s.at+beside < long-aside {
			in(s.at+beside, "trench")
		}
	}
	in(long-aside, "trench")
}

// grid puts places on the field: in rows along the datum's side, to and fro.
func (l *laying) grid(step geometry.Length) {
	k := slices.IndexFunc(l.zones, func(z Zone) bool { return z.Class == Field })
	if k < 0 {
		return
	}
	// One with too many places is made wider.
	for ; ; step = step * 5 / 4 {
		if at := l.rows(l.zones[k].Region, step); len(l.out)+len(at) <= layoutMost {
			for _, p := range at {
				l.put("field", p)
			}
			if len(at) == 0 {
				if p, ok := l.zones[k].Region.Middle(); ok {
					l.put("field", p)
				}
			}
			return
		}
	}
}

func (l *laying) rows(g plane.Region, step geometry.Length) []geometry.Point {
	d := l.plan.Datum()
	inner := g.Offset(-fromEdge)
	if len(inner) == 0 {
		return nil
	}
	a, b := l.plan.Outline.Ends(d.Corner)
	if a == b {
		return nil
	}
	frame := plane.FrameAlong(a, b)
	box := frame.Bounds(inner)
	sides := plane.NewSides(inner)
	s := step.Meters()
	nx, ny := math.Max(1, math.Ceil((box.MaxX-box.MinX)/s)), math.Max(1, math.Ceil((box.MaxY-box.MinY)/s))
	if nx*ny > 100_000 {
		return make([]geometry.Point, layoutMost+1)
	}
	var out []geometry.Point
	shots := 0
	for r := range int(ny) {
		for c := range int(nx) {
			if r%2 == 1 {
				c = int(nx) - 1 - c
			}
			// To the inch, as it is taped.
			whole := func(m float64) float64 { return geometry.FromMeters(m).Round(geometry.Inch).Meters() }
			p := frame.Out(plane.Vec{X: whole(box.MinX + (float64(c)+0.5)*(box.MaxX-box.MinX)/nx), Y: whole(box.MinY + (float64(r)+0.5)*(box.MaxY-box.MinY)/ny)})
			if !sides.Contains(p) {
				continue
			}
			out = append(out, p)
			if shots++; shots%pairEach == pairEach/2 {
				v := frame.In(p)
				if q := frame.Out(plane.Vec{X: v.X + beside.Meters(), Y: v.Y}); sides.Contains(q) {
					out = append(out, q)
				}
			}
		}
	}
	return out
}
