// Package construction is construction joints: lines across a slab at which one pour ends and
// the next begins. It divides the slab into what is poured at one time, says on which day,
// and places what holds the two sides level.
package construction

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Part is what of a slab is poured in one go.
type Part struct {
	Day    int          // of the pour, from 1
	Region plane.Region // of the slab
	Whole  bool         // it is the whole slab
}

// Line is a straight stretch of a construction joint. The side that is poured first lies
// left of it.
type Line struct {
	Joint int // among the plan's, from 0
	A, B  geometry.Point
}

// Length gives how long the stretch is.
func (l Line) Length() geometry.Length { return geometry.Distance(l.A, l.B) }

// Division is a slab as its construction joints divide it.
type Division struct {
	Parts []Part // in the order of their days
	Lines []Line // joint by joint
	Idle  []int  // joints that divide nothing
}

// hair is a width that only rounding makes.
const hair = 10 * geometry.Nanometer

// Divide divides a sound plan. Joints are looked at in their order: each divides the parts
// that are there by then, where its line, or most of what was drawn of it, lies on them.
func Divide(p plan.Plan) Division {
	d := Division{Parts: []Part{{Day: 1, Region: p.Region(), Whole: true}}}
	if len(p.Construction) == 0 {
		return d
	}
	for k, c := range p.Construction {
		a, b := c.From, c.To
		if c.First == plan.RightFirst {
			a, b = b, a
		}
		var parts []Part
		idle := true
		for _, part := range d.Parts {
			pieces, lines := divide(part.Region, a, b)
			if len(pieces) < 2 {
				parts = append(parts, part)
				continue
			}
			idle = false
			for _, g := range pieces {
				parts = append(parts, Part{Day: 1, Region: g})
			}
			for _, l := range lines {
				d.Lines = append(d.Lines, Line{k, l[0], l[1]})
			}
		}
		if d.Parts = parts; idle {
			d.Idle = append(d.Idle, k)
		}
	}
	d.days(p)
	return d
}

// divide divides a region along the line through a and b. The lines run the way from a to b.
func divide(g plane.Region, a, b geometry.Point) (pieces []plane.Region, lines [][2]geometry.Point) {
	f := plane.FrameAlong(a, b)
	box := f.Bounds(g)
	from, to := f.Out(plane.Vec{X: box.MinX - 1}), f.Out(plane.Vec{X: box.MaxX + 1})
	first, last := geometry.FromMeters(f.In(a).X-box.MinX+1), geometry.FromMeters(f.In(b).X-box.MinX+1)
	var open [][2]geometry.Point // where the line is no joint
	for _, s := range plane.NewSides(g).Stretches(from, to, plane.Through, nil) {
		on := min(s.To, last) - max(s.From, first)
		line := [2]geometry.Point{geometry.Along(from, to, s.From), geometry.Along(from, to, s.To)}
		if on > 0 && (2*on >= s.To-s.From || 2*on >= last-first) {
			lines = append(lines, line)
		} else {
			open = append(open, line)
		}
	}
	if len(lines) == 0 {
		return nil, nil
	}
	left, right := g.Left(from, to).Without(hair).Parts(), g.Left(to, from).Without(hair).Parts()
	pieces = append(left, right...)
	of := make([]int, len(pieces)) // what each is one with
	for i := range of {
		of[i] = i
	}
	for _, line := range open {
		mid := between(line)
		i, j := nearest(left, mid), len(left)+nearest(right, mid)
		if was, is := of[j], of[i]; was != is {
			for k := range of {
				if of[k] == was {
					of[k] = is
				}
			}
		}
	}
	var out []plane.Region
	for i := range pieces {
		if of[i] != i {
			continue
		}
		var one []plane.Region
		for j := range pieces {
			if of[j] == i {
				one = append(one, pieces[j])
			}
		}
		if len(one) == 1 {
			out = append(out, one[0])
		} else {
			out = append(out, plane.Union(one...))
		}
	}
	return out, lines
}

func between(l [2]geometry.Point) geometry.Point {
	return geometry.Point{X: l[0].X + (l[1].X-l[0].X)/2, Y: l[0].Y + (l[1].Y-l[0].Y)/2}
}

// nearest gives which of the regions a place on their border belongs to.
func nearest(gs []plane.Region, at geometry.Point) int {
	best := 0
	for i := range gs {
		if gs[i].Distance(at) < gs[best].Distance(at) {
			best = i
		}
	}
	return best
}

// days gives each part its day: as early as the joints that bound it let it be.
func (d *Division) days(p plan.Plan) {
	type wait struct{ before, after, days int }
	var waits []wait
	for _, l := range d.Lines {
		left, right := d.beside(l, true), d.beside(l, false)
		for i := range left {
			for j := range right {
				if i != j && overlap(left[i], right[j]) > geometry.Inch {
					waits = append(waits, wait{i, j, p.Construction[l.Joint].Wait()})
				}
			}
		}
	}
	// As many rounds as there are parts will do: a joint divides whole parts, all of one
	// side before all of the other.
	for range d.Parts {
		for _, w := range waits {
			d.Parts[w.after].Day = max(d.Parts[w.after].Day, d.Parts[w.before].Day+w.days)
		}
	}
	slices.SortStableFunc(d.Parts, func(a, b Part) int { return cmp.Compare(a.Day, b.Day) })
}

// beside gives, of each part, the stretches along a line that it has on one side.
func (d *Division) beside(l Line, left bool) [][]plane.Stretch {
	by := plan.Turn(geometry.Along(l.A, l.B, 10*hair).Sub(l.A), 90)
	if !left {
		by = geometry.Point{}.Sub(by)
	}
	out := make([][]plane.Stretch, len(d.Parts))
	for i, part := range d.Parts {
		out[i] = plane.NewSides(part.Region).Stretches(l.A.Add(by), l.B.Add(by), plane.Through, nil)
	}
	return out
}

// overlap gives the length that stretches of two lists have in common.
func overlap(a, b []plane.Stretch) (sum geometry.Length) {
	for _, s := range a {
		for _, t := range b {
			sum += max(0, min(s.To, t.To)-max(s.From, t.From))
		}
	}
	return sum
}
