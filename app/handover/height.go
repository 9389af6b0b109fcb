package handover

import (
	"context"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
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
	Level   bool            // the top is as high at every corner
}

// Height is that of a corner.
type Height struct {
	Corner int // from 0
	At     geometry.Point
	Top    geometry.Length // finished
	Bottom geometry.Length // of the concrete
	Dig    geometry.Length // of the trench, under base and foam
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
	out := SlabHeights{Slab: s.Number, Top: spec.Place.StakeOut.Benchmark + s.Plan.Height, Level: true}
	for _, g := range s.Layout.Grades {
		out.Corners = append(out.Corners, Height{g.Corner, g.At, g.Top, g.Bottom, g.Dig})
		out.Level = out.Level && g.Top == out.Corners[0].Top
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
