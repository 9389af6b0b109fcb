package handover

import (
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/plan"
)

// plainEdge is what the section of edges without a haunch is called.
const plainEdge = "plain edge"

// Curb is a curb on an edge, as its section shows it.
type Curb struct {
	Height, Width geometry.Length // where it is highest over the slab's top
	Least         geometry.Length // where it is lowest
	Asked         geometry.Length // as its edge says: with a level top, over the slab's highest place
	Level         bool            // its top, over a slab that falls
	Runs          []CurbOn
	Boards        []forms.Form // of its outer face, from below; the inner ones are alike
	Bars          []Row        // along it, near the top; depths are below the top of the curb
	Upright       *Upright     // nil for none
}

// CurbOn is a stretch of curb, with the slab that it is of.
type CurbOn struct {
	Slab int
	plan.CurbRun
	Least, Most geometry.Length // over the slab's top
}

// Upright is an upright bar in a curb, with its hook along the edge.
type Upright struct {
	Size            bars.Size
	Diameter, Inset geometry.Length
	Top, Low        geometry.Length // depths of its ends below the slab's top
	Spacing         geometry.Length // at most
}

// curbOn gives the curb on the edges of a slab that have a section; nil for none.
func curbOn(s takeoff.Slab, section string, spec layout.Spec) *Curb {
	var out *Curb
	var shown plan.CurbRun // the highest of those that are as the first
	loops := s.Plan.Loops()
	for _, r := range s.Curbs.Runs {
		if loops[r.Loop][r.Edge].Section != section {
			continue
		}
		least, most := s.Curbs.Range(r)
		switch {
		case out == nil:
			out, shown = &Curb{Height: most, Width: r.Width, Least: least, Asked: r.Height, Level: s.Curbs.Level()}, r
		case r.Height == out.Asked && r.Width == out.Width:
			if out.Least = min(out.Least, least); most > out.Height {
				out.Height, shown = most, r
			}
		}
		out.Runs = append(out.Runs, CurbOn{s.Number, r, least, most})
	}
	if out == nil {
		return nil
	}
	for _, f := range s.Layout.Forms {
		if f.Curb == forms.CurbOuter && f.Loop == shown.Loop && f.Edge == shown.Edge && out.tallest(s.Curbs, shown, f) && !slices.ContainsFunc(out.Boards, func(o forms.Form) bool { return o.Up == f.Up }) {
			out.Boards = append(out.Boards, f)
		}
	}
	out.lay(s, shown, spec.Curbs)
	return out
}

// tallest tells whether a form stands where the curb is highest: of one whose top follows the
// slab's, those of the run that is shown.
func (c *Curb) tallest(of plan.Curbs, r plan.CurbRun, f forms.Form) bool {
	if !c.Level || f.Middle != 0 {
		return f.A == r.Arc.A
	}
	stands := func(p geometry.Point) bool {
		return (of.High(r, p) - c.Height).Abs() < geometry.Sixteenth
	}
	return stands(f.A) || stands(f.B)
}

// lay puts the bars into a curb, as they are laid.
func (c *Curb) lay(s takeoff.Slab, r plan.CurbRun, spec bars.CurbSpec) {
	db, near := spec.Size.Diameter(), geometry.MaxLength // of the upright bar to the middle of the run, off what lies round its corners
	middle := r.Arc.At(0.5, 0)
	for _, b := range s.Layout.Bars {
		if b.Of.Kind != bars.InCurb {
			continue
		}
		if b.Of.N == 0 {
			at := b.Path[0]
			if inset, ok := r.Holds(at); ok && geometry.Distance(at, middle) < near {
				near = geometry.Distance(at, middle)
				c.Upright = &Upright{Size: b.Size, Diameter: b.Size.Diameter(), Inset: inset, Top: b.Depths[0], Low: b.Depths[1], Spacing: spec.Spacing}
				if c.Level { // as far below the curb's top as there
					c.Upright.Top += s.Curbs.High(r, at) - c.Height
				}
			}
			continue
		}
		if slices.ContainsFunc(c.Bars, func(o Row) bool { return o.Number == b.Of.N }) {
			continue
		}
		for k := 1; k < len(b.Path); k++ {
			mid := geometry.Along(b.Path[k-1], b.Path[k], geometry.Distance(b.Path[k-1], b.Path[k])/2)
			if inset, ok := r.Holds(mid); ok {
				row := Row{Number: b.Of.N, Size: b.Size, Diameter: db, Inset: inset, Depth: spec.Cover + db/2, Face: inset - db/2, Top: spec.Cover}
				for _, l := range s.Layout.Laps {
					if l.Of == bars.CurbLaps && l.Row == b.Of.N {
						row.Lap = l.Length
					}
				}
				c.Bars = append(c.Bars, row)
				break
			}
		}
	}
	slices.SortFunc(c.Bars, func(a, b Row) int { return a.Number - b.Number })
}
