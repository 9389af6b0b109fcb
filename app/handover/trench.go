package handover

import (
	"context"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Trench is what to dig in one place: measured from the finished top, to which the
// strings are set.
type Trench struct {
	Slab   int             // number of its slab in the job
	Name   string          // "A Edge 12", "P1 pad", "T1 strip", "field"
	Wide   geometry.Length // flat bottom of the concrete; 0 for the field
	Long   geometry.Length // of a pad; 0 where it runs on
	Slope  geometry.Length // run of the side that then rises to the field
	Deep   geometry.Length // bottom of the concrete below the top
	Dig    geometry.Length // of the ground, under base and foam, below the top
	Ground geometry.Length // base and foam together
}

// Trenches gives what to dig, slab by slab: under each edge section, pad and
// thickened strip, and under the field.
func (h *Handover) Trenches(ctx context.Context) ([]Trench, error) {
	return h.trenches.get(ctx, "what to dig", func(ctx context.Context) ([]Trench, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return nil, err
		}
		sections, err := h.EdgeSections(ctx)
		if err != nil {
			return nil, err
		}
		var out []Trench
		for _, s := range t.Slabs {
			out = append(out, trenches(s, sections, h.from.Job.Spec.Base)...)
		}
		return out, nil
	})
}

func trenches(s takeoff.Slab, sections EdgeSections, base takeoff.Base) []Trench {
	underField, underThick := base.Layers()
	var out []Trench
	add := func(t Trench) {
		t.Slab, t.Ground = s.Number, underThick
		if t.Deep <= s.Plan.Field {
			t.Ground = underField
		}
		t.Dig = t.Deep + t.Ground
		out = append(out, t)
	}
	on := sections.Letters(s.Number)
	for _, e := range sections {
		if on[e.Section.Name] == e.Letter {
			wide, slope, deep := bottomOf(e.Under)
			add(Trench{Name: e.Letter + " " + e.Section.Name, Wide: wide, Slope: slope, Deep: deep})
		}
	}
	for i, p := range s.Plan.Pads {
		add(Trench{Name: s.Layout.Marks.Pad(i).Called(p.Name) + " pad", Wide: p.Width, Long: p.Length, Slope: p.Taper, Deep: p.Depth})
	}
	for i, p := range s.Plan.Strips {
		add(Trench{Name: s.Layout.Marks.Strip(i).Called(p.Name) + " thickened strip", Wide: p.Bottom, Slope: p.Taper, Deep: p.Depth})
	}
	add(Trench{Name: "field", Deep: s.Plan.Field})
	return out
}

// bottomOf gives the flat bottom of an underside at its deepest, the run beside it
// and its depth.
func bottomOf(under []plan.Station) (wide, slope, deep geometry.Length) {
	for _, st := range under {
		deep = max(deep, st.Depth)
	}
	first, last := geometry.Length(-1), geometry.Length(0)
	for _, st := range under {
		if st.Depth == deep {
			if first < 0 {
				first = st.Inset
			}
			last = st.Inset
		}
	}
	if n := len(under); n > 0 {
		return last - max(first, 0), under[n-1].Inset - last, deep
	}
	return 0, 0, deep
}
