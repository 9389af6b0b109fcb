package document

import (
	"errors"
	"fmt"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Change makes a change of the job one step of its history, unless the job would then
// have a fault it has not now. What is given to change is its own to alter.
func (d *Document) Change(label string, change func(*job.Job)) error {
	j := d.Base().Clone()
	change(&j)
	before := map[string]bool{}
	for _, f := range d.Base().Validate() {
		before[f.Error()] = true
	}
	for _, f := range j.Validate() {
		if !before[f.Error()] {
			return fmt.Errorf("found %s; %s", f.Found, f.Want)
		}
	}
	d.Commit(label, j)
	return nil
}

// ChangePlan makes a change of the slab that is worked on a step of the history. A
// fault that it brings is shown at its place.
func (d *Document) ChangePlan(label string, change func(*plan.Plan)) {
	p := d.BasePlan().Clone()
	change(&p)
	d.CommitPlan(label, p)
}

// ChangeSurvey is ChangePlan for what stands around the slabs.
func (d *Document) ChangeSurvey(label string, change func(*plan.Survey)) {
	j := d.Base().Clone()
	change(&j.Survey)
	d.Commit(label, j)
}

// ChangePour is Change for the day of the pour.
func (d *Document) ChangePour(label string, change func(*pour.Spec)) error {
	return d.Change(label, func(j *job.Job) { change(&j.Pour) })
}

// ChangePricing is Change for how the job is priced, besides the list.
func (d *Document) ChangePricing(label string, change func(*estimate.Spec)) error {
	return d.Change(label, func(j *job.Job) { change(&j.Price) })
}

// Prices gives the list that the job is priced with: its own, or the one kept for its
// units, or the starting list.
func (d *Document) Prices() estimate.PriceList {
	if list := d.job.Price.Prices; len(list.Items) > 0 {
		return list
	}
	return d.keptPrices(d.job.Units)
}

func (d *Document) keptPrices(u geometry.Units) estimate.PriceList {
	if list, ok := d.kept[u]; ok {
		return list
	}
	list := estimate.Starting(u)
	if d.Kept != nil {
		if kept, err := d.Kept(u); err == nil {
			list = kept
		} else {
			d.fail(err)
		}
	}
	if d.kept == nil {
		d.kept = map[geometry.Units]estimate.PriceList{}
	}
	d.kept[u] = list
	return list
}

// ForgetPrices has the kept lists read anew, once they are others.
func (d *Document) ForgetPrices() { d.kept, d.shown = nil, nil }

// ChangePrices changes the job's list; a job without one gets its own.
func (d *Document) ChangePrices(label string, change func(*estimate.PriceList)) error {
	j := job.Job{Price: estimate.Spec{Prices: d.Prices()}}.Clone()
	list := j.Price.Prices
	change(&list)
	var faults plan.Faults
	if errors.As(list.Validate(), &faults) {
		return fmt.Errorf("found %s; %s", faults[0].Found, faults[0].Want)
	}
	return d.ChangePricing(label, func(s *estimate.Spec) { s.Prices = list })
}

// OwnPrices puts the list that the job is priced with into it, where it has none.
func (d *Document) OwnPrices(label string) error {
	if len(d.Base().Price.Prices.Items) > 0 {
		return nil
	}
	return d.ChangePrices(label, func(*estimate.PriceList) {})
}
