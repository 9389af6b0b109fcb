package handover_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func howDeep(t *testing.T, j job.Job, frost geometry.Length) (*handover.Handover, handover.HowDeep) {
	t.Helper()
	h := handover.Of(handover.From{Job: j, Prices: own(j), Frost: frost})
	d, err := h.HowDeep(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return h, d
}

// Over the depths the job as drawn is what the estimate says, an option at a depth
// what the options say, and no step of trucks lies elsewhere than the exact search for
// it has it.
func TestHowDeepAgreesWithTheRest(t *testing.T) {
	j := demo(t)
	j.Price.Options = []estimate.Option{{Name: "Deep", Edge: estimate.To(16 * geometry.Inch)}}
	h, d := howDeep(t, j, 30*geometry.Inch)
	e, err := h.Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	options, err := h.Options(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if at := d.At[d.Drawn]; !at.Bid.Equal(e.Bid) || !at.Difference.IsZero() {
		t.Errorf("as drawn %s, the estimate says %s", at.Bid, e.Bid)
	}
	i := slices.IndexFunc(d.At, func(a handover.AtDepth) bool { return a.Edge == 16*geometry.Inch })
	if at := d.At[i]; !at.Bid.Equal(options[1].Bid) || !at.Ordered.Equal(options[1].Ordered) || at.Section.Section.Depth != at.Edge {
		t.Errorf("at 16 in %s and a section of %v, the option says %s", at.Bid, at.Section.Section.Depth, options[1].Bid)
	}
	for i := 1; i < len(d.At); i++ {
		if d.At[i].Edge <= d.At[i-1].Edge || d.At[i].Ordered.LessThan(d.At[i-1].Ordered) {
			t.Errorf("from %v to %v the concrete goes from %s to %s", d.At[i-1].Edge, d.At[i].Edge, d.At[i-1].Ordered, d.At[i].Ordered)
		}
	}
	thresholds, err := h.Thresholds(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	met := 0
	for _, th := range thresholds {
		var text string
		switch {
		case !th.Found || th.Depth > d.At[len(d.At)-1].Edge:
			continue
		case strings.Contains(th.Text, "truck 3"):
			text = "truck 3"
		case strings.Contains(th.Text, "frost"):
			text = "below frost"
		default:
			continue
		}
		met++
		if !slices.ContainsFunc(d.Steps, func(s handover.DepthStep) bool {
			return s.Text == text && s.Depth >= th.Depth && s.Depth-th.Depth < geometry.Inch
		}) {
			t.Errorf("%s from %v on; the steps are %v", text, th.Depth, d.Steps)
		}
	}
	if met != 2 {
		t.Errorf("%d of the depths that matter were looked for, not truck 3 and frost", met)
	}
	if !slices.ContainsFunc(d.Steps, func(s handover.DepthStep) bool { return s.Text == "2x8 forms" || s.Text == "2x10 forms" }) {
		t.Errorf("no step of the boards: %v", d.Steps)
	}
}

// What moves the price most stands first, each as the option by itself would be.
func TestMovers(t *testing.T) {
	j := demo(t)
	_, d := howDeep(t, j, 0)
	names := map[string]bool{}
	j.Price.Options = nil
	for i, m := range d.Movers {
		names[m.Option.Name] = true
		if i > 0 && m.Difference.Abs().GreaterThan(d.Movers[i-1].Difference.Abs()) {
			t.Errorf("%s stands below less", m.Option.Name)
		}
		if len(j.Price.Options) < estimate.MaxOptions {
			j.Price.Options = append(j.Price.Options, m.Option)
		}
	}
	for _, n := range []string{"Edges 4\" deeper", "Field 1\" thicker", "2\" of foam", "Mesh in the field", "Edge bars No. 5", "Mix of 4000 psi", "Bolts at most 4'-0\" apart"} {
		if !names[n] {
			t.Errorf("no %q among %v", n, names)
		}
	}
	all, err := handover.Of(handover.From{Job: j, Prices: own(j)}).Options(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range all[1:] {
		if !o.Difference.Equal(d.Movers[i].Difference) {
			t.Errorf("%s: %s, as an option %s", o.Name, d.Movers[i].Difference, o.Difference)
		}
	}
}

func TestHowDeepStopsAndRefuses(t *testing.T) {
	j := demo(t)
	ctx, end := context.WithCancel(t.Context())
	end()
	if _, err := handover.Of(handover.From{Job: j, Prices: own(j)}).HowDeep(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it says %v", err)
	}
	for i := range j.Slabs[0].Sections {
		j.Slabs[0].Sections[i].Profile = []plan.Station{{Depth: 12 * geometry.Inch}, {Inset: 12 * geometry.Inch, Depth: 12 * geometry.Inch}}
	}
	if _, err := handover.Of(handover.From{Job: j, Prices: own(j)}).HowDeep(t.Context()); !errors.Is(err, estimate.ErrNoEdge) {
		t.Errorf("without a haunch it says %v", err)
	}
}

// Another option leaves the price over the depth as it was; another price does not.
func TestHowDeepGoesOn(t *testing.T) {
	j := demo(t)
	h, was := howDeep(t, j, 0)
	j.Price.Options = []estimate.Option{{Name: "Other", Strength: 4000}}
	next := h.Next(handover.From{Job: j, Prices: own(j)})
	if is, err := next.HowDeep(t.Context()); err != nil || &is.At[0] != &was.At[0] {
		t.Error("with another option it is computed anew")
	}
	j.Price.Overhead = j.Price.Overhead.Add(dollars("1"))
	if is, err := next.Next(handover.From{Job: j, Prices: own(j)}).HowDeep(t.Context()); err != nil || is.At[0].Bid.Equal(was.At[0].Bid) {
		t.Error("with another overhead it is what it was")
	}
}
