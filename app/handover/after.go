package handover

import (
	"context"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/rule"
)

// After is what was written down after the pour, beside what was planned.
type After struct {
	Record   actual.Record
	Unit     takeoff.Unit // of concrete
	Rows     []actual.Row
	Causes   []actual.Cause
	Findings []rule.Finding
}

// After sets a record beside the job.
func (h *Handover) After(ctx context.Context, r actual.Record) (After, error) {
	worked, err := h.Worked(ctx, r)
	if err != nil {
		return After{}, err
	}
	j := h.from.Job
	asked := actual.Asked{Units: j.Units, Mix: j.Spec.Mix, Limit: j.Pour.Trucks.Limit}
	for i, s := range j.Slabs {
		if i == 0 || s.Field < asked.Thinnest {
			asked.Thinnest = s.Field
		}
	}
	out := After{Record: r, Unit: takeoff.ConcreteUnit(j.Units), Rows: actual.Against(worked), Causes: actual.Causes(worked), Findings: r.Findings(asked)}
	return out, nil
}

// Worked gives the job with its record as one's own figures are learned from it.
func (h *Handover) Worked(ctx context.Context, r actual.Record) (actual.Job, error) {
	t, err := h.Takeoff(ctx)
	if err != nil {
		return actual.Job{}, err
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return actual.Job{}, err
	}
	out := actual.Job{Name: h.from.Job.Name, Takeoff: t, Estimate: e, Record: r, Day: h.from.Job.Pour.Date}
	if len(h.from.Job.Survey.Shots) == 0 {
		return out, nil
	}
	g, err := h.Ground(ctx)
	if err == nil && g.Shot {
		out.Ground = actual.Ground{Shot: true, Fill: g.Decision.Need.Fill, Guessed: g.Decision.Need.Guessed, Lost: g.Decision.Need.Lost.Percent()}
	}
	return out, err
}
