package plan

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Fault is one thing wrong with a plan: which field, where it lies on the plan,
// what was found and what would do.
type Fault struct {
	Path  string         // the field, as in a job file: "outline[3].doors[0].width"
	At    geometry.Point // a place on the plan to show it at
	Found string
	Want  string
}

// Error gives the fault in one line.
func (f Fault) Error() string {
	return fmt.Sprintf("%s: found %s; %s", f.Path, f.Found, f.Want)
}

// Faults is every fault of a plan, in the order of its fields.
type Faults []Fault

// Error gives the faults, a line each.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Of tells whether one of the faults is of the field at a path.
func (fs Faults) Of(path string) bool {
	return slices.ContainsFunc(fs, func(f Fault) bool { return f.Path == path })
}

// maxCrossings bounds how many crossings of one plan are listed.
const maxCrossings = 20

// Validate gives what makes no slab of the plan, none for a sound one, with lengths
// printed in u: outlines that cross, doors beyond their edges, pads off the slab.
// Sizes by themselves, as a width below 0, are checked by the rows of their fields.
// It never panics, whatever the plan holds.
func (p Plan) Validate(u geometry.Units) Faults {
	v := validator{p: p, u: u}
	if len(p.Outline) > 0 {
		v.home = p.Outline[0].At
	}
	v.sections()
	v.loops()
	keeping(func(k kept) { k.validate(&v) })
	v.blockOuts()
	return v.faults
}

type validator struct {
	p      Plan
	u      geometry.Units
	home   geometry.Point // where faults without a place are shown
	faults Faults
}

func (v *validator) fault(path string, at geometry.Point, found, want string) {
	v.faults = append(v.faults, Fault{path, at, found, want})
}

func (v *validator) text(l geometry.Length) string { return l.Exact(v.u) }

// tooFar tells whether a coordinate or a height is beyond what a plan may hold.
func tooFar(l geometry.Length) bool {
	return l > geometry.MaxLength || l < -geometry.MaxLength
}

// deepEnough faults a depth that is less than the field's thickness.
func (v *validator) deepEnough(path string, at geometry.Point, depth geometry.Length) {
	if depth < v.p.Field {
		v.fault(path, at, v.text(depth), "must be at least the field's thickness, "+v.text(v.p.Field)+
			": both are measured from the top of the slab")
	}
}

func (v *validator) loops() {
	sound := v.loop("outline", v.p.Outline)
	for i, h := range v.p.Holes {
		sound = v.loop(fmt.Sprintf("holes[%d].edges", i), h.Loop) && sound
	}
	if !sound || !v.span() {
		return
	}
	rings := make([]geometry.Ring, 0, 1+len(v.p.Holes))
	var names []string
	for k, l := range v.p.Chorded().Loops() {
		rings = append(rings, l.Corners())
		for i := range l {
			if k == 0 {
				names = append(names, fmt.Sprintf("outline[%d]", l.Drawn(i)))
			} else {
				names = append(names, fmt.Sprintf("holes[%d].edges[%d]", k-1, l.Drawn(i)))
			}
		}
	}
	crossings := plane.Crossings(rings, maxCrossings)
	for _, c := range crossings {
		v.fault(names[c.J], c.At, "an edge that meets "+names[c.I]+" at "+v.place(c.At), "edges may touch only their neighbors, at the corner between them; move a corner")
	}
	if len(crossings) > 0 {
		return
	}
	for k, r := range rings {
		want, path := k == 0, "outline"
		if k > 0 {
			path = fmt.Sprintf("holes[%d].edges", k-1)
		}
		if r.CounterClockwise() != want {
			order := "counter-clockwise"
			if !want {
				order = "clockwise"
			}
			v.fault(path, r[0], "edges that run the other way round", "the slab must be left of each edge: list them "+order)
		}
		if k > 0 && !plane.In(rings[0], r[0]) {
			v.fault(path, r[0], "a hole outside the outline, at "+v.place(r[0]), "move it inside the slab")
		}
		for m := 1; m < k; m++ {
			if plane.In(rings[m], r[0]) || plane.In(r, rings[m][0]) {
				v.fault(path, r[0], fmt.Sprintf("a hole that overlaps holes[%d]", m-1), "join the two into one")
			}
		}
	}
}

func (v *validator) place(p geometry.Point) string {
	return p.X.Text(v.u) + ", " + p.Y.Text(v.u)
}

// loop checks one loop for all but crossings.
func (v *validator) loop(path string, l Loop) bool {
	sound := true
	if len(l) < 3 {
		v.fault(path, v.home, count(len(l), "edge"), "give at least three edges")
		sound = false
	}
	for i, e := range l {
		at := fmt.Sprintf("%s[%d]", path, i)
		for _, c := range []geometry.Length{e.At.X, e.At.Y} {
			if tooFar(c) {
				v.fault(at+".at", v.home, c.Exact(v.u), "must lie within 10 km of the origin")
				return false
			}
		}
	}
	for i, e := range l {
		at := fmt.Sprintf("%s[%d]", path, i)
		if a, b := l.Ends(i); len(l) > 1 && a == b {
			v.fault(at+".at", a, "an edge of no length at "+v.place(a), "remove this corner or move it")
			sound = false
		}
		v.sectionName(at+".section", e.At, e.Section)
		v.doors(at, l, i)
		v.arcs(at, l, i)
	}
	return sound
}

// outside tells whether a point of a thickening lies off the outline.
func (v *validator) outside(p geometry.Point) bool {
	return p.X.Abs() > geometry.MaxLength || p.Y.Abs() > geometry.MaxLength || !plane.In(v.p.Outline.Rim(), p)
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
