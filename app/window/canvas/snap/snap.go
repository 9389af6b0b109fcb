// Package snap draws the pointer to places that mean something: corners,
// midpoints, square to the last point, in line with a corner, the grid.
package snap

import (
	"fmt"
	"math"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Request is what a snap depends on.
type Request struct {
	View    view.View
	Units   geometry.Units
	Plan    plan.Plan
	Others  []Other          // the other slabs
	Extra   []geometry.Point // corners of what is being drawn, to line up with
	Anchor  *geometry.Point  // the point drawn from, if any
	Pointer view.XY
	Free    bool // neither square nor grid: only the places of the plan
	Grid    bool
	Square  bool // hold right angles and 45 degrees from the anchor
	// Except leaves out the corner that is being dragged.
	Except func(loop, i int) bool
	// Sketch finds a corner or a line on the picture under the plan, near a place;
	// nil where there is no picture.
	Sketch func(at geometry.Point, reach geometry.Length) (Mark, bool)
}

// Other is a slab beside the one that is worked on.
type Other struct {
	Name string
	Plan plan.Plan
}

// Mark is something that was found on the picture under the plan.
type Mark struct {
	At     geometry.Point
	Corner bool // as against a place on a line
}

// Name says what was found.
func (m Mark) Name() string {
	if m.Corner {
		return "corner of the sketch"
	}
	return "line of the sketch"
}

// Sort says what the pointer is drawn to.
type Sort uint8

const (
	Free   Sort = iota // a place of its own, on the grid or in line with something
	Corner             // of a slab or of the sketch
	Middle             // of an edge
	Line               // an edge, or a line of the sketch
)

// Result is where the pointer is drawn to.
type Result struct {
	At     geometry.Point
	Sort   Sort
	Name   string              // "corner", "middle", "in line with corner 3", …; "" for none
	Guides [][2]geometry.Point // lines that show why
}

// Reach is how near the pointer must come to a place to be drawn to it, pixels.
const Reach = 10

// To gives the snap for a request.
func To(r Request) Result {
	at := r.View.Plan(r.Pointer)
	if res, ok := r.places(); ok {
		return res
	}
	if res, ok := r.perpendicular(); ok {
		return res
	}
	mark, drawn := r.mark(at)
	if r.Anchor != nil && r.Square && !r.Free {
		return r.square(*r.Anchor, at, mark, drawn)
	}
	if drawn && mark.Corner {
		return Result{At: mark.At, Sort: Corner, Name: mark.Name()}
	}
	if res, ok := r.onEdge(at); ok {
		return res
	}
	if drawn {
		return Result{At: mark.At, Sort: Line, Name: mark.Name()}
	}
	if r.Free {
		return Result{At: r.rounded(at)}
	}
	return r.aligned(at)
}

// mark looks on the picture under the plan.
func (r Request) mark(at geometry.Point) (Mark, bool) {
	if r.Sketch == nil {
		return Mark{}, false
	}
	return r.Sketch(at, r.View.Length(Reach))
}

// corner is a place to snap to. It is named only when it is the one.
type corner struct {
	at      geometry.Point
	slab    string // "" for the slab that is worked on
	loop, i int    // loop is -1 for a point that is being drawn
}

func (c corner) name() string {
	name := fmt.Sprintf("corner %d", c.i+1)
	switch {
	case c.loop < 0 && c.i == 0:
		return "first point"
	case c.loop < 0:
		return "drawn point"
	case c.loop > 0:
		name = fmt.Sprintf("hole %d corner %d", c.loop, c.i+1)
	}
	if c.slab != "" {
		name += " of " + c.slab
	}
	return name
}

// corners calls visit for every corner to snap to.
func (r Request) corners(visit func(corner)) {
	loops(r.Plan, func(k int, l plan.Loop) {
		for i, e := range l {
			if r.Except == nil || !r.Except(k, i) {
				visit(corner{e.At, "", k, i})
			}
		}
	})
	for _, o := range r.Others {
		loops(o.Plan, func(k int, l plan.Loop) {
			for i, e := range l {
				visit(corner{e.At, o.Name, k, i})
			}
		})
	}
	for i, p := range r.Extra {
		visit(corner{p, "", -1, i})
	}
}

// loops calls visit for the outline and each hole.
func loops(p plan.Plan, visit func(k int, l plan.Loop)) {
	visit(0, p.Outline)
	for i, h := range p.Holes {
		visit(i+1, h.Loop)
	}
}

// places snaps to corners and then to midpoints.
func (r Request) places() (Result, bool) {
	var best corner
	near := float64(Reach)
	r.corners(func(c corner) {
		if d := view.Distance(r.View.Screen(c.at), r.Pointer); d < near && (r.Anchor == nil || c.at != *r.Anchor) {
			best, near = c, d
		}
	})
	if near < Reach {
		return Result{At: best.at, Sort: Corner, Name: best.name()}, true
	}
	var mid Result
	r.edges(func(slab string, a, b geometry.Point) {
		if r.View.Pixels(geometry.Distance(a, b)) < 4*Reach {
			return
		}
		m := geometry.Point{X: a.X + (b.X-a.X)/2, Y: a.Y + (b.Y-a.Y)/2}
		if d := view.Distance(r.View.Screen(m), r.Pointer); d < near {
			mid, near = Result{At: m, Sort: Middle, Name: of("middle", slab)}, d
		}
	})
	return mid, mid.Name != ""
}

// of names a place with the slab it is on, if that is another.
func of(name, slab string) string {
	if slab == "" {
		return name
	}
	return name + " of " + slab
}

// edges calls visit for every edge that is not being dragged.
func (r Request) edges(visit func(slab string, a, b geometry.Point)) {
	loops(r.Plan, func(k int, l plan.Loop) {
		for i := range l {
			if r.Except != nil && (r.Except(k, i) || r.Except(k, (i+1)%len(l))) {
				continue
			}
			sides(l, i, func(a, b geometry.Point) { visit("", a, b) })
		}
	})
	for _, o := range r.Others {
		loops(o.Plan, func(_ int, l plan.Loop) {
			for i := range l {
				sides(l, i, func(a, b geometry.Point) { visit(o.Name, a, b) })
			}
		})
	}
}

// sides calls visit for an edge of some length, or for the chords of an arc.
func sides(l plan.Loop, i int, visit func(a, b geometry.Point)) {
	a, b := l.Ends(i)
	switch {
	case a == b:
	case l[i].Middle == 0:
		visit(a, b)
	default:
		for ps := l.Chords(i); len(ps) > 1; ps = ps[1:] {
			visit(ps[0], ps[1])
		}
	}
}

// perpendicular snaps to the foot of the square from the anchor on an edge.
func (r Request) perpendicular() (Result, bool) {
	if r.Anchor == nil {
		return Result{}, false
	}
	var best Result
	near := float64(Reach)
	r.edges(func(slab string, a, b geometry.Point) {
		along := plan.Foot(a, b, *r.Anchor)
		if along <= 0 || along >= geometry.Distance(a, b) {
			return
		}
		f := geometry.Along(a, b, along)
		if d := view.Distance(r.View.Screen(f), r.Pointer); d < near && f != *r.Anchor {
			best, near = Result{At: f, Sort: Line, Name: of("square on edge", slab), Guides: [][2]geometry.Point{{*r.Anchor, f}}}, d
		}
	})
	return best, best.Name != ""
}

// onEdge snaps to the nearest point of an edge, rounded along it.
func (r Request) onEdge(at geometry.Point) (Result, bool) {
	var best Result
	near := float64(Reach) * 0.7
	r.edges(func(slab string, a, b geometry.Point) {
		if d := hit.ToSegment(r.View.Screen(a), r.View.Screen(b), r.Pointer); d < near {
			along := min(max(plan.Foot(a, b, at).Round(r.step()), 0), geometry.Distance(a, b))
			best, near = Result{At: geometry.Along(a, b, along), Sort: Line, Name: of("on edge", slab)}, d
		}
	})
	return best, best.Name != ""
}

// square holds the direction from the anchor to a multiple of 45 degrees and
// then looks for the place along it: in line with a corner, as far as what is on
// the picture, else a round length.
func (r Request) square(anchor, at geometry.Point, mark Mark, drawn bool) Result {
	v := at.Sub(anchor)
	octant := int(math.Round(math.Atan2(float64(v.Y), float64(v.X)) / (math.Pi / 4)))
	d := unit(octant)
	length := geometry.Length(math.Round(float64(v.X)*d.x + float64(v.Y)*d.y))
	name := "square"
	if octant%2 != 0 {
		name = "45°"
	}
	res := Result{At: r.roundAlong(anchor, octant, length), Name: name}
	if drawn {
		// A sketch is no drawing: the length that it leads to is round.
		v := mark.At.Sub(anchor)
		length := geometry.Length(math.Round(float64(v.X)*d.x + float64(v.Y)*d.y))
		at := r.roundAlong(anchor, octant, length)
		res = Result{At: at, Name: name + ", " + mark.Name(), Guides: [][2]geometry.Point{{mark.At, at}}}
	}
	near := float64(Reach)
	pointed := r.View.Screen(along(anchor, octant, length))
	far := along(anchor, octant, length+r.View.Length(Reach))
	r.edges(func(slab string, a, b geometry.Point) {
		q, ok := geometry.Meet(anchor, far, a, b)
		if !ok || q == anchor {
			return
		}
		if dist := view.Distance(r.View.Screen(q), pointed); dist < near {
			near = dist
			res = Result{At: q, Sort: Line, Name: name + ", " + of("on edge", slab)}
		}
	})
	r.corners(func(c corner) {
		for _, q := range crossings(anchor, octant, c.at) {
			if q == anchor || c.at == anchor {
				continue
			}
			if dist := view.Distance(r.View.Screen(q), pointed); dist < near {
				near = dist
				res = Result{At: q, Name: name + ", in line with " + c.name(), Guides: [][2]geometry.Point{{c.at, q}}}
			}
		}
	})
	return res
}

type direction struct{ x, y float64 }

func unit(octant int) direction {
	s, c := math.Sincos(float64(octant) * math.Pi / 4)
	return direction{c, s}
}

// along gives the point at a length from p in one of eight directions.
func along(p geometry.Point, octant int, length geometry.Length) geometry.Point {
	return p.Add(plan.Turn(geometry.Point{X: length}, float64(octant)*45))
}

// crossings gives where the ray from anchor is level with p or plumb with it.
func crossings(anchor geometry.Point, octant int, p geometry.Point) []geometry.Point {
	d := unit(octant)
	v := p.Sub(anchor)
	sx, sy := geometry.Length(math.Round(d.x)), geometry.Length(math.Round(d.y))
	var out []geometry.Point
	if sx != 0 && v.X*sx > 0 {
		k := v.X * sx
		out = append(out, geometry.Point{X: p.X, Y: anchor.Y + sy*k})
	}
	if sy != 0 && v.Y*sy > 0 {
		k := v.Y * sy
		out = append(out, geometry.Point{X: anchor.X + sx*k, Y: p.Y})
	}
	return out
}

// aligned snaps each coordinate to that of a corner, else to the grid.
func (r Request) aligned(at geometry.Point) Result {
	res := Result{At: r.rounded(at)}
	if r.Grid {
		fine, _ := r.View.Grid(r.Units)
		res = Result{At: geometry.Point{X: at.X.Round(fine), Y: at.Y.Round(fine)}, Name: "grid " + fine.Text(r.Units)}
	}
	nearX, nearY := float64(Reach)*0.8, float64(Reach)*0.8
	var onX, onY corner
	var foundX, foundY bool
	r.corners(func(c corner) {
		s := r.View.Screen(c.at)
		if d := math.Abs(s.X - r.Pointer.X); d < nearX {
			nearX, onX, foundX = d, c, true
		}
		if d := math.Abs(s.Y - r.Pointer.Y); d < nearY {
			nearY, onY, foundY = d, c, true
		}
	})
	var nameX, nameY string
	if foundX {
		res.At.X, nameX = onX.at.X, onX.name()
	}
	if foundY {
		res.At.Y, nameY = onY.at.Y, onY.name()
	}
	switch {
	case nameX != "" && nameY != "" && nameX != nameY:
		res.Name = "in line with " + nameX + " and " + nameY
	case nameX != "":
		res.Name = "in line with " + nameX
	case nameY != "":
		res.Name = "in line with " + nameY
	}
	if nameX != "" {
		res.Guides = append(res.Guides, [2]geometry.Point{onX.at, res.At})
	}
	if nameY != "" {
		res.Guides = append(res.Guides, [2]geometry.Point{onY.at, res.At})
	}
	return res
}
