package handover_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func demo(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// slab gives a rectangle with one edge section all round and a wall on each side.
func slab(name string, x, w, h, field geometry.Length, s plan.Section) plan.Plan {
	p := plan.Plan{Name: name, Field: field, Sections: []plan.Section{s}}
	for _, c := range []geometry.Point{{X: x}, {X: x + w}, {X: x + w, Y: h}, {X: x, Y: h}} {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: s.Name, Wall: "2x6"})
	}
	return p
}

func of(j job.Job, frost geometry.Length) *handover.Handover {
	return handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units), Frost: frost})
}

// must gives a part that has no error.
func must[T any](t testing.TB, get func(context.Context) (T, error)) T {
	t.Helper()
	v, err := get(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A job with faults has no other part than its faults, and says them alike.
func TestFaults(t *testing.T) {
	j := demo(t)
	j.Slabs[0].Outline[0].Doors[0].Width = 100 * ft
	h := of(j, 0)
	want := must(t, h.Faults)
	if len(want) == 0 {
		t.Fatal("no fault")
	}
	for name, get := range map[string]func() error{
		"takeoff":  func() error { _, err := h.Takeoff(t.Context()); return err },
		"estimate": func() error { _, err := h.Estimate(t.Context()); return err },
		"day":      func() error { _, err := h.Days(t.Context()); return err },
		"heights":  func() error { _, err := h.Heights(t.Context()); return err },
		"sections": func() error { _, err := h.EdgeSections(t.Context()); return err },
	} {
		var got plan.Faults
		if err := get(); !errors.As(err, &got) || got[0] != want[0] {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The job's own price list goes before the one that is given.
func TestPrices(t *testing.T) {
	j := demo(t)
	if p := of(j, 0).Prices(); p.Name != estimate.Starting(j.Units).Name {
		t.Errorf("priced with %q", p.Name)
	}
	j.Price.Prices = estimate.Starting(j.Units)
	j.Price.Prices.Name = "Mine"
	if p := of(j, 0).Prices(); p.Name != "Mine" {
		t.Errorf("priced with %q", p.Name)
	}
}

// Frost is measured from the ground outside, over which the slab stands as the job
// says: an edge 24 in deep whose top stands 8 in above the ground goes 16 in below
// it. Options and edge sections say the same.
func TestFrost(t *testing.T) {
	j := job.New()
	j.Slabs = []plan.Plan{slab("", 0, 30*ft, 20*ft, 6*in, plan.Section{Name: "Edge", Depth: 24 * in, Bottom: 12 * in, Taper: 8 * in})}
	j.Spec.Base.Above = 8 * in
	for _, c := range []struct{ frost, short geometry.Length }{{15 * in, 0}, {16 * in, 0}, {17 * in, in}, {24 * in, 8 * in}} {
		h := of(j, c.frost)
		sections := must(t, h.EdgeSections)
		if got := sections[0].Frost.Short(); got != c.short {
			t.Errorf("frost %s: the section is %s short, want %s", c.frost.Text(0), got.Text(0), c.short.Text(0))
		}
		if drawn := must(t, h.SideBySide)[0]; drawn.Frost != (c.short == 0) {
			t.Errorf("frost %s: the options say reached: %v, the section is %s short", c.frost.Text(0), drawn.Frost, c.short.Text(0))
		}
	}
	// Where the ground rises with a fall of the top, the edge along its high side
	// goes less deep below the ground than one along its low side.
	j.Slabs[0].Top.Falls = []plan.Fall{{From: geometry.Point{Y: 20 * ft}, To: geometry.Point{}, Drop: 3 * in}}
	if s := must(t, of(j, 16*in).EdgeSections)[0]; s.Frost.Short() != 3*in {
		t.Errorf("with a fall of 3 in: %s short", s.Frost.Short().Text(0))
	}
	if s := must(t, of(j, 0).EdgeSections)[0]; s.Frost != nil {
		t.Errorf("frost of no depth: %+v", s.Frost)
	}
}

// The data of a section carry what stands on it as it is specified.
func TestEdgeSection(t *testing.T) {
	j := job.New()
	j.Slabs = []plan.Plan{slab("", 0, 40*ft, 30*ft, 6*in, plan.Section{Name: "Edge", Depth: 24 * in, Bottom: 12 * in, Taper: 18 * in})}
	j.Slabs[0].Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 16 * ft, Lip: plan.Lip{Inset: 5 * in, Drop: 3 * in / 4}}}
	p := &j.Spec.Place
	p.Bars.Rows = append(p.Bars.Rows, bars.Row{Face: 3 * in, Top: 2 * in, Size: 5})
	p.Bolts.Hook, p.Bolts.Length, p.Bolts.Projection, p.Bolts.Diameter = 5*in/2, 14*in, 3*in, 5*in/8
	p.Field.Kind = field.Grid
	sections := must(t, of(j, 0).EdgeSections)
	if len(sections) != 1 {
		t.Fatalf("%d sections", len(sections))
	}
	s := sections[0]
	if b := s.Bolt; b == nil || b.Shape != bolts.Bent || b.Hook != 5*in/2 || b.Length != 14*in || b.Projection != 3*in || b.Deep() != 11*in || b.Diameter != 5*in/8 || b.Inset != 11*in/4 {
		t.Errorf("the bolt is %+v", s.Bolt)
	}
	// The plate stands on the slab beside the door, 3/4 in above the lip.
	if s.Plate == nil || s.Plate.Name != "2x6" || s.Plate.Over != 3*in/4 || s.Lip.Drop != 3*in/4 {
		t.Errorf("plate %+v, lip %+v", s.Plate, s.Lip)
	}
	// Rows: 3 in clear of face and underside; the last 2 in clear of the top.
	want := []handover.Row{
		{Number: 1, Size: 4, Diameter: in / 2, Inset: 13 * in / 4, Depth: 83 * in / 4, Face: 3 * in, Bottom: 3 * in},
		{Number: 2, Size: 4, Diameter: in / 2, Inset: 33 * in / 4, Depth: 83 * in / 4, Face: 8 * in, Bottom: 3 * in},
		{Number: 3, Size: 5, Diameter: 5 * in / 8, Inset: 3*in + 5*in/16, Depth: 2*in + 5*in/16, Face: 3 * in, Top: 2 * in},
	}
	spec := j.Spec.Layout(j.Units)
	for i, r := range s.Rows {
		want[i].Lap = spec.Bars.LapLength(r.Size, r.Top > 0, spec.Concrete)
		if r != want[i] {
			t.Errorf("row %d is %+v, want %+v", i+1, r, want[i])
		}
	}
	if len(s.Rows) != 3 || s.Steel == nil || s.Steel.Name != `No. 4, 1'-6" both ways` || s.Steel.Depth != 3*in {
		t.Errorf("%d rows, field steel %+v", len(s.Rows), s.Steel)
	}
	p.Bolts.Shape = bolts.Headed
	if b := must(t, of(j, 0).EdgeSections)[0].Bolt; b.Shape != bolts.Headed || b.Hook != 0 {
		t.Errorf("headed: %+v", b)
	}
	p.Bars.Size = 4
	j.Slabs[0].Trench = plan.ToBoard // a 2x12 is 11 1/4 in wide
	j.Slabs[0].Sections[0].Depth = 12 * in
	if s := must(t, of(j, 0).EdgeSections)[0]; s.Under[0].Depth != 45*in/4 || s.Board.Name != "2x12" {
		t.Errorf("dug to the board: %s deep with a %s", s.Under[0].Depth.Text(0), s.Board.Name)
	}
}

// What a section shows of base and foam is what is bought: as thick across every
// slope as on the flat, and under the field alone where the job says so.
func TestLayers(t *testing.T) {
	j := job.New()
	j.Slabs = []plan.Plan{slab("", 0, 40*ft, 30*ft, 6*in, plan.Section{Name: "Edge", Depth: 18 * in, Bottom: 12 * in, Taper: 9 * in})}
	j.Spec.Base.Gravel, j.Spec.Base.Foam = 4*in, 2*in
	s := must(t, of(j, 0).EdgeSections)[0]
	if len(s.Layers) != 2 || s.Layers[0].Kind != takeoff.FoamStock || s.Layers[1].Kind != takeoff.GravelVolume {
		t.Fatalf("layers %+v", s.Layers)
	}
	for i, l := range s.Layers {
		if l.Upper[0].Inset != 0 || l.Lower[0].Inset != 0 || l.Lower[len(l.Lower)-1].Inset != 21*in+s.Reach() {
			t.Errorf("layer %d runs from %v to %v", i, l.Lower[0], l.Lower[len(l.Lower)-1])
		}
		// Across each stretch: the distance of two parallels.
		for k := 1; k < len(l.Upper); k++ {
			a, b, c := l.Upper[k-1], l.Upper[k], l.Lower[k]
			ux, uy := float64(b.Inset-a.Inset), float64(b.Depth-a.Depth)
			off := (float64(c.Depth-a.Depth)*ux - float64(c.Inset-a.Inset)*uy) / math.Hypot(ux, uy)
			if math.Abs(off-float64(l.Thickness)) > 10 {
				t.Errorf("layer %d, stretch %d: %.4f in thick", i, k, off/float64(in))
			}
		}
	}
	j.Spec.Base.Under = takeoff.FieldOnly
	for i, l := range must(t, of(j, 0).EdgeSections)[0].Layers {
		if len(l.Upper) != 2 || l.Upper[0].Inset != 21*in || l.Lower[0].Depth-l.Upper[0].Depth != l.Thickness {
			t.Errorf("under the field only, layer %d is %+v", i, l)
		}
	}
	// A step has none against it.
	j.Spec.Base.Under = takeoff.FieldAndHaunches
	j.Slabs[0].Sections[0].Taper = 0
	if l := must(t, of(j, 0).EdgeSections)[0].Layers[0]; len(l.Lower) != 4 || l.Lower[1].Inset != 12*in || l.Lower[2].Inset != 12*in || l.Lower[2].Depth != 8*in {
		t.Errorf("beside a step: %+v", l.Lower)
	}
}

// Sections that are built alike share a letter; those that only are called alike do
// not.
func TestLetters(t *testing.T) {
	edge := plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 8 * in, Taper: 6 * in}
	deep := plan.Section{Name: "Edge", Depth: 20 * in, Bottom: 8 * in, Taper: 6 * in}
	j := job.New()
	j.Slabs = []plan.Plan{slab("One", 0, 20*ft, 20*ft, 6*in, edge), slab("Two", 40*ft, 20*ft, 20*ft, 6*in, edge), slab("Three", 80*ft, 20*ft, 20*ft, 6*in, deep)}
	sections := must(t, of(j, 0).EdgeSections)
	if len(sections) != 2 || sections.Letters(0)["Edge"] != "A" || sections.Letters(1)["Edge"] != "A" || sections.Letters(2)["Edge"] != "B" {
		t.Errorf("letters %v %v %v", sections.Letters(0), sections.Letters(1), sections.Letters(2))
	}
}

// A slab's height is one figure: over the datum, whatever is shown of it.
func TestHeights(t *testing.T) {
	edge := plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 8 * in, Taper: 6 * in}
	j := job.New()
	j.Slabs = []plan.Plan{slab("House", 0, 20*ft, 20*ft, 6*in, edge), slab("Step", 40*ft, 20*ft, 10*ft, 4*in, edge)}
	j.Slabs[1].Height = -6 * in
	j.Slabs[1].Top.Falls = []plan.Fall{{From: geometry.Point{Y: 10 * ft}, To: geometry.Point{}, Drop: 2 * in}}
	j.Spec.Place.StakeOut.Benchmark = 28 * in
	j.Spec.Base.Gravel = 4 * in
	j.Survey.Benchmarks = []plan.Benchmark{{Name: "BM 1, nail in the curb"}}
	h := must(t, of(j, 0).Heights)
	if h.Datum != "BM 1" || h.Of(0).Top != 28*in || h.Of(1).Top != 22*in || !h.Of(0).Level || h.Of(1).Level {
		t.Errorf("heights %+v", h)
	}
	for _, c := range h.Of(0).Corners {
		if c.Top != 28*in || c.Bottom != 16*in || c.Dig != 12*in {
			t.Errorf("corner %d: %+v", c.Corner+1, c)
		}
	}
	if c := h.Of(1).Corners; c[0].Top != 22*in || c[2].Top != 24*in || c[2].Bottom != 12*in {
		t.Errorf("corners of a fall: %+v", c)
	}
}

// What a change leaves as it was is not computed again: a price takes over the takeoff
// and the depths that matter, a frost depth the takeoff, a wider slab nothing. What
// depends on a change is as if it had been computed alone.
func TestNext(t *testing.T) {
	var none *handover.Handover
	j := demo(t)
	from := handover.From{Job: j, Prices: estimate.Starting(j.Units), Frost: 20 * in}
	h := none.Next(from)
	priced, frosty, wide := from, from, from
	priced.Job.Price.Overhead = decimal.NewFromInt(17)
	frosty.Frost = 40 * in
	wide.Job = j.Clone()
	wide.Job.Slabs[0].Field += in
	for _, c := range []struct {
		name            string
		next            handover.From
		takeoff, depths bool // taken over
	}{{"price", priced, true, true}, {"frost", frosty, true, false}, {"slab", wide, false, false}} {
		next := h.Next(c.next)
		if got := must(t, next.Takeoff).Slabs[0].Solid == must(t, h.Takeoff).Slabs[0].Solid; got != c.takeoff {
			t.Errorf("%s: takeoff taken over: %v", c.name, got)
		}
		if got := &must(t, next.EdgeSections)[0] == &must(t, h.EdgeSections)[0]; got != c.depths {
			t.Errorf("%s: sections taken over: %v", c.name, got)
		}
		alone := handover.Of(c.next)
		if got, want := must(t, next.Estimate).Bid, must(t, alone.Estimate).Bid; !got.Equal(want) {
			t.Errorf("%s: the bid is %s, alone %s", c.name, got, want)
		}
		if got, want := must(t, next.EdgeSections)[0].Frost.Short(), must(t, alone.EdgeSections)[0].Frost.Short(); got != want {
			t.Errorf("%s: %s short of frost, alone %s", c.name, got.Text(j.Units), want.Text(j.Units))
		}
	}
}
