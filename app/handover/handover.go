// Package handover is everything about one job that anybody is shown: the
// quantities and how each comes about, where everything lies, the price, the
// variations side by side, the day of the pour, what was found, heights, schedules,
// and the edge sections as they are drawn.
//
// A Handover belongs to one revision of a job, which does not change. Each of its
// parts is computed when it is first asked for, and once; what nobody looks at is
// never computed, and what a change leaves as it was goes on to the next revision. The
// window, the sheets, the bid, the workbook and every file are written from it and
// compute nothing themselves, so that no two of them can disagree.
//
// Every part takes a context, by whose end a wait for it ends, and may be asked for
// from several goroutines at once. A fault of the program itself in a part is that
// part's error.
package handover

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// From is what a handover is made from. None of it may be changed after.
type From struct {
	Job    job.Job
	Prices estimate.PriceList // for a job that has no list of its own
	Frost  geometry.Length    // depth that edges are to reach below the ground; 0 where it does not matter
}

// Handover is what anybody is shown of one revision of a job.
type Handover struct {
	from From

	*drawn
	*founded
	*priced

	faults     part[plan.Faults]
	estimate   part[estimate.Estimate]
	options    part[[]estimate.Outcome]
	sideBySide part[[]estimate.Outcome]
	days       part[[]pour.Day]
	heights    part[Heights]
	ground     part[Ground]
	last       part[LastLoad]
}

// drawn is what depends on the slabs, the specification and the units alone.
type drawn struct {
	known   takeoff.Known
	takeoff part[takeoff.Takeoff]
}

// founded is what depends on these and on the frost depth.
type founded struct {
	thresholds part[[]estimate.Threshold]
	frost      part[[]estimate.FrostReach]
	sections   part[EdgeSections]
	trenches   part[[]Trench]
}

// priced is what depends on all these and on the prices, but not on the options.
type priced struct {
	howDeep part[HowDeep]
}

// Of gives the handover of a job. It computes nothing yet.
func Of(from From) *Handover {
	if len(from.Job.Price.Prices.Items) > 0 {
		from.Prices = from.Job.Price.Prices
	}
	return &Handover{from: from, drawn: &drawn{}, founded: &founded{}, priced: &priced{}}
}

// Next gives the handover of what a revision became, or of the first where h is nil.
// What depends on nothing that changed is one with that of h, computed or not.
func (h *Handover) Next(from From) *Handover {
	next := Of(from)
	if h == nil {
		return next
	}
	a, b := &h.from.Job, &next.from.Job
	if a.Units != b.Units || !reflect.DeepEqual(a.Slabs, b.Slabs) || !reflect.DeepEqual(a.Spec, b.Spec) {
		return next
	}
	next.drawn = h.drawn
	if h.from.Frost != from.Frost {
		return next
	}
	next.founded = h.founded
	if was, is := h.base(nil), next.base(nil); reflect.DeepEqual(was.Price, is.Price) && reflect.DeepEqual(was.Prices, is.Prices) {
		next.priced = h.priced
	}
	return next
}

// Job gives the job, as it was given.
func (h *Handover) Job() job.Job { return h.from.Job }

// Units gives the units that the job's lengths are printed in.
func (h *Handover) Units() geometry.Units { return h.from.Job.Units }

// Prices gives the list that the job is priced with: its own, where it has one.
func (h *Handover) Prices() estimate.PriceList { return h.from.Prices }

// Frost gives the depth that edges are to reach below the ground; 0 where it does
// not matter.
func (h *Handover) Frost() geometry.Length { return h.from.Frost }

// Faults gives what is wrong with the job, each with its field; of a job with
// faults there is no other part.
func (h *Handover) Faults(ctx context.Context) (plan.Faults, error) {
	return h.faults.get(ctx, "what is wrong with the job", func(context.Context) (plan.Faults, error) {
		return h.from.Job.Validate(), nil
	})
}

// Takeoff gives every quantity, with what lies behind it: where everything is
// placed on each slab, and how it is cut from stock. The error of a job with faults
// is a plan.Faults.
func (h *Handover) Takeoff(ctx context.Context) (takeoff.Takeoff, error) {
	return h.takeoff.get(ctx, "the takeoff", func(ctx context.Context) (takeoff.Takeoff, error) {
		j := h.from.Job
		t, err := h.known.Of(ctx, j.Slabs, j.Spec, j.Units)
		if err != nil {
			return t, err
		}
		for _, l := range t.Lines {
			if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
				return t, fmt.Errorf("%s could not be computed", l.Name)
			}
		}
		return t, nil
	})
}

// Estimate gives what the job costs and what is asked for it.
func (h *Handover) Estimate(ctx context.Context) (estimate.Estimate, error) {
	return h.estimate.get(ctx, "the estimate", func(ctx context.Context) (estimate.Estimate, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return estimate.Estimate{}, err
		}
		return estimate.Of(t, h.from.Job.Pricing(), h.from.Prices), nil
	})
}

// base gives what options vary.
func (h *Handover) base(options []estimate.Option) estimate.Base {
	j := h.from.Job
	price := j.Pricing()
	price.Options = options
	return estimate.Base{Slabs: j.Slabs, Spec: j.Spec, Units: j.Units, Price: price, Prices: h.from.Prices, Frost: h.from.Frost, Known: &h.known}
}

// varied is base with the takeoff of the slabs as they are drawn.
func (h *Handover) varied(ctx context.Context, options []estimate.Option) estimate.Base {
	b := h.base(options)
	if t, err := h.Takeoff(ctx); err == nil {
		b.Drawn = &t
	}
	return b
}

// Options gives the job as it is drawn, first, and each of its options.
func (h *Handover) Options(ctx context.Context) ([]estimate.Outcome, error) {
	return h.options.get(ctx, "the options", func(ctx context.Context) ([]estimate.Outcome, error) {
		return estimate.Compare(ctx, h.varied(ctx, h.from.Job.Price.Options)), nil
	})
}

// SideBySide gives the options; of a job that has none, the usual edge depths in
// their place.
func (h *Handover) SideBySide(ctx context.Context) ([]estimate.Outcome, error) {
	j := h.from.Job
	if len(j.Price.Options) > 0 {
		return h.Options(ctx)
	}
	return h.sideBySide.get(ctx, "the usual edge depths", func(ctx context.Context) ([]estimate.Outcome, error) {
		return estimate.Compare(ctx, h.varied(ctx, estimate.EdgeOptions(j.Slabs, j.Units))), nil
	})
}

// Thresholds gives the edge depths at which something changes. The error is
// estimate.ErrNoEdge for a job without a haunch that could vary.
func (h *Handover) Thresholds(ctx context.Context) ([]estimate.Threshold, error) {
	return h.thresholds.get(ctx, "the depths that matter", func(ctx context.Context) ([]estimate.Threshold, error) {
		return estimate.Thresholds(ctx, h.varied(ctx, nil))
	})
}

// Days gives the plan of each pour, in the order of their days: of a job without
// construction joints there is one. What is found of the first pour is not told again of
// the others. The error says what of the job will not do.
func (h *Handover) Days(ctx context.Context) ([]pour.Day, error) {
	return h.days.get(ctx, "the plan of the pour", func(ctx context.Context) ([]pour.Day, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return nil, err
		}
		var out []pour.Day
		for k, in := range pour.From(h.from.Job.Spec, t, h.from.Job.Pour) {
			in.ShortLoad, in.Held = h.from.Prices.ShortLoad(), hold.Check(h.from.Job.Holds, in.Pour.Date)
			if k > 0 {
				in.After = &out[k-1]
			}
			day, err := pour.Of(in)
			if err != nil {
				return nil, err
			}
			if k > 0 {
				day.Findings = slices.DeleteFunc(day.Findings, func(f rule.Finding) bool {
					return slices.ContainsFunc(out[0].Findings, func(g rule.Finding) bool { return f.Text == g.Text })
				})
			}
			out = append(out, day)
		}
		return out, nil
	})
}

// Held gives what holds the pour back, by what was written down and the day that is set.
func (h *Handover) Held() []rule.Finding { return hold.Check(h.from.Job.Holds, h.from.Job.Pour.Date) }

// DayFindings gives what the plans of the pours found, or that there is none, and why.
func (h *Handover) DayFindings(ctx context.Context) ([]rule.Finding, error) {
	days, err := h.Days(ctx)
	if err != nil && ctx.Err() == nil {
		if _, err := h.Takeoff(ctx); err != nil {
			return nil, err
		}
		return append(h.Held(), rule.Finding{Rule: pour.RuleNone, Severity: rule.Severe, Text: "No plan of the pour: " + err.Error() + "."}), nil
	}
	var out []rule.Finding
	for k, day := range days {
		for _, f := range day.Findings {
			if k > 0 {
				f.Text = day.Called() + ": " + f.Text
			}
			out = append(out, f)
		}
	}
	return out, err
}

// Blank tells whether nothing is drawn.
func (h *Handover) Blank() bool {
	return !slices.ContainsFunc(h.from.Job.Slabs, func(p plan.Plan) bool { return !p.Blank() })
}
