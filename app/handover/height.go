package handover

import (
	"context"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Heights are those of all slabs, over one datum. Whoever shows a height shows one
// of these.
type Heights struct {
	Datum string // what they are over: "BM 1", "the benchmark" or "the datum"
	Slabs []SlabHeights
}

// SlabHeights are the heights of one slab.
type SlabHeights struct {
	Slab    int             // its number in the job
	Top     geometry.Length // the lowest of its finished top
	Corners []Height        // of its outline, in order
	Level   bool            // the top is as high everywhere
	Curbs   []CurbHeight    // in the order of their edges
	Highest geometry.Length // place of the finished top, where curbs have level tops
	LevelOn bool            // curbs have level tops, which are measured from the highest place
	Drains  []Spot          // the low ends of falls inside the slab, and the lowest corner of each hole
	Lips    []LipHeight     // the lowered strips of the top at doors
	Breaks  []BreakEnd      // where the top breaks at an edge, to an apron or a ramp
	Surface solid.Surface   // the finished top, whose own heights are over its lowest place
}

// Height is that of a corner.
type Height struct {
	Corner int // from 0
	At     geometry.Point
	Top    geometry.Length // finished
	Bottom geometry.Length // of the concrete
	Dig    geometry.Length // of the trench, under base and foam
}

// CurbHeight is how high the top of a curb lies at the ends of its stretch of an edge.
type CurbHeight struct {
	plan.CurbRun
	Start, End geometry.Length
}

// Spot is a place of the finished top.
type Spot struct {
	Hole int // the hole whose lowest corner it is, from 1; 0 for a drain point
	At   geometry.Point
	Top  geometry.Length
}

// LipHeight is how high the lowered strip at a door lies, at its jambs.
type LipHeight struct {
	Door      string // its name for people
	Near, Far geometry.Length
}

// BreakEnd is where a break of the top meets an edge: the form bends there.
type BreakEnd struct {
	Loop, Edge int // as they are drawn
	Along      geometry.Length
	At         geometry.Point
	Top        geometry.Length
}

// Of gives the heights of the slab with a number; the zero SlabHeights for one that
// is not drawn.
func (h Heights) Of(slab int) SlabHeights {
	for _, s := range h.Slabs {
		if s.Slab == slab {
			return s
		}
	}
	return SlabHeights{}
}

// Heights gives the heights of every slab and of its corners.
func (h *Handover) Heights(ctx context.Context) (Heights, error) {
	return h.heights.get(ctx, "the heights", func(ctx context.Context) (Heights, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return Heights{}, err
		}
		out := Heights{Datum: datum(h.from.Job.Survey)}
		for _, s := range t.Slabs {
			out.Slabs = append(out.Slabs, slabHeights(s, h.from.Job.Spec))
		}
		return out, nil
	})
}

func slabHeights(s takeoff.Slab, spec takeoff.Spec) SlabHeights {
	out := SlabHeights{Slab: s.Number, Top: spec.Place.StakeOut.Top(s.Plan)}
	for _, g := range s.Layout.Grades {
		out.Corners = append(out.Corners, Height{g.Corner, g.At, g.Top, g.Bottom, g.Dig})
	}
	for _, r := range s.Curbs.Runs {
		top := CurbHeight{r, out.Top + s.Solid.TopAt(r.Arc.A) + r.Height, out.Top + s.Solid.TopAt(r.Arc.B) + r.Height}
		if s.Curbs.Level() {
			out.LevelOn, out.Highest = true, out.Top+s.Curbs.Over.High
			top.Start, top.End = out.Highest+r.Height, out.Highest+r.Height
		}
		out.Curbs = append(out.Curbs, top)
	}
	out.Surface = s.Solid.Surface()
	out.Level = len(out.Surface.Heights) == 0 // round a drain all corners may be as high
	for _, h := range out.Surface.Drains() {
		out.Drains = append(out.Drains, Spot{h.Loop, h.At, out.Top + h.Height})
	}
	for _, l := range s.Lips() {
		top := out.Top - l.Door.Lip.Drop
		out.Lips = append(out.Lips, LipHeight{s.DoorOf(l), top + s.Solid.TopAt(l.Near), top + s.Solid.TopAt(l.Far)})
	}
	for _, h := range out.Surface.Breaks() {
		if loop, edge, along, on := s.Plan.OnSide(h.At); on {
			out.Breaks = append(out.Breaks, BreakEnd{loop, edge, along, h.At, out.Top + h.Height})
		}
	}
	return out
}

// datum names what heights are measured from: "BM 1" of "BM 1, nail in the curb".
func datum(s plan.Survey) string {
	switch {
	case len(s.Benchmarks) == 0:
		return "the benchmark"
	case s.Benchmarks[0].Height == 0:
		name, _, _ := strings.Cut(s.Benchmarks[0].Name, ",")
		return name
	}
	return "the datum"
}
