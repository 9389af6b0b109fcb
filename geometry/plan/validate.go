package plan

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
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
	v.pads()
	v.strips()
	v.top()
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

func (v *validator) sections() {
	for i, s := range v.p.Sections {
		path := fmt.Sprintf("sections[%d]", i)
		if len(s.Profile) > 0 {
			v.profile(path, s.Profile)
			continue
		}
		v.deepEnough(path+".depth", v.home, s.Depth)
	}
}

func (v *validator) profile(path string, ps []Station) {
	if len(ps) < 2 {
		v.fault(path+".profile", v.home, "1 station", "give at least two stations, from the face inward")
		return
	}
	if ps[0].Inset != 0 {
		v.fault(path+".profile[0].inset", v.home, v.text(ps[0].Inset), "the first station must lie on the face, at 0")
	}
	for i, st := range ps {
		at := fmt.Sprintf("%s.profile[%d]", path, i)
		v.deepEnough(at+".depth", v.home, st.Depth)
		if i > 0 && st.Inset < ps[i-1].Inset {
			v.fault(at+".inset", v.home, v.text(st.Inset), "must not be less than the station before it, "+v.text(ps[i-1].Inset))
		}
	}
	if ps[len(ps)-1].Inset <= 0 {
		v.fault(path+".profile", v.home, "no width", "the last station must lie inside the face")
	}
}

func (v *validator) loops() {
	sound := v.loop("outline", v.p.Outline)
	for i, h := range v.p.Holes {
		sound = v.loop(fmt.Sprintf("holes[%d].edges", i), h.Loop) && sound
	}
	if !sound {
		return
	}
	rings := make([]geometry.Ring, 0, 1+len(v.p.Holes))
	var names []string
	for k, l := range v.p.Loops() {
		rings = append(rings, l.Corners())
		for i := range l {
			if k == 0 {
				names = append(names, fmt.Sprintf("outline[%d]", i))
			} else {
				names = append(names, fmt.Sprintf("holes[%d].edges[%d]", k-1, i))
			}
		}
	}
	crossings := geometry.Crossings(rings, maxCrossings)
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
		if k > 0 && !rings[0].Contains(r[0]) {
			v.fault(path, r[0], "a hole outside the outline, at "+v.place(r[0]), "move it inside the slab")
		}
		for m := 1; m < k; m++ {
			if rings[m].Contains(r[0]) || r.Contains(rings[m][0]) {
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
	}
	return sound
}

func (v *validator) sectionName(path string, at geometry.Point, name string) {
	if _, ok := v.p.SectionNamed(name); ok || name == "" {
		return
	}
	known := "there are none yet: add it to sections"
	if len(v.p.Sections) > 0 {
		names := make([]string, len(v.p.Sections))
		for i, s := range v.p.Sections {
			names[i] = s.Name
		}
		known = "the sections are " + strings.Join(names, ", ")
	}
	v.fault(path, at, "“"+name+"”, which is no section", known)
}

func (v *validator) doors(path string, l Loop, i int) {
	a, b := l.Ends(i)
	length := geometry.Distance(a, b)
	for k, d := range l[i].Doors {
		dp := fmt.Sprintf("%s.doors[%d]", path, k)
		at := a
		if a != b && d.From.Abs() <= geometry.MaxLength {
			at = geometry.Along(a, b, min(max(d.From, 0), length))
		}
		v.sectionName(dp+".section", at, d.Section)
		if d.Lip.Drop > 0 && d.Lip.Drop >= v.p.Field {
			v.fault(dp+".lip.drop", at, v.text(d.Lip.Drop), "must be less than the field's thickness, "+v.text(v.p.Field))
		}
		switch {
		case d.Width <= 0, d.From < 0, tooFar(d.Width), tooFar(d.From):
			continue // no opening
		case d.Width > length:
			v.fault(dp+".width", at, v.text(d.Width)+" on an edge of "+v.text(length), "an opening must fit its edge")
			continue
		case d.From+d.Width > length:
			v.fault(dp+".from", at, "an opening from "+v.text(d.From)+" to "+v.text(d.From+d.Width)+" on an edge of "+v.text(length),
				"an opening must not run over the corner; the far jamb can be at most at "+v.text(length))
			continue
		}
		for m, o := range l[i].Doors[:k] {
			if d.From < o.From+o.Width && o.From < d.From+d.Width {
				v.fault(dp+".from", at, "an opening that overlaps doors["+fmt.Sprint(m)+"]", "move one of them or make it narrower")
			}
		}
	}
}

// outside tells whether a point of a thickening lies off the outline.
func (v *validator) outside(p geometry.Point) bool {
	return p.X.Abs() > geometry.MaxLength || p.Y.Abs() > geometry.MaxLength || !v.p.Outline.Corners().Contains(p)
}

func (v *validator) pads() {
	for i, p := range v.p.Pads {
		path := fmt.Sprintf("pads[%d]", i)
		v.deepEnough(path+".depth", p.Center, p.Depth)
		if v.outside(p.Center) {
			v.fault(path+".center", v.home, v.place(p.Center), "must lie on the slab")
		}
	}
}

func (v *validator) strips() {
	for i, s := range v.p.Strips {
		path := fmt.Sprintf("strips[%d]", i)
		at := v.home
		if len(s.Path) > 0 {
			at = s.Path[0]
		}
		v.deepEnough(path+".depth", at, s.Depth)
		if len(s.Path) < 2 {
			v.fault(path+".path", at, count(len(s.Path), "point"), "give at least two points")
		}
		for k, p := range s.Path {
			if v.outside(p) {
				v.fault(fmt.Sprintf("%s.path[%d]", path, k), v.home, v.place(p), "must lie on the slab")
			}
			if k > 0 && p == s.Path[k-1] {
				v.fault(fmt.Sprintf("%s.path[%d]", path, k), p, "the same point twice", "remove one of them")
			}
		}
	}
}

func (v *validator) top() {
	for i, f := range v.p.Top.Falls {
		path := fmt.Sprintf("top.falls[%d]", i)
		if f.From == f.To {
			v.fault(path+".to", f.To, "the point it falls from", "give two different points: from high to low")
		}
	}
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
