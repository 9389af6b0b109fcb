package actual

import (
	"slices"

	"github.com/shopspring/decimal"
)

// seasons are the quarters of the year by the months that concrete is poured in.
var seasons = []string{"December to February", "March to May", "June to August", "September to November"}

// noDay is under what jobs are gathered whose day nobody set.
const noDay = "No day of the pour"

// season names the season of a job.
func (j Job) season() string {
	if !j.Day.Known() {
		return noDay
	}
	return seasons[int(j.Day.Time().Month())%12/3]
}

// Seasons gives the margin of the jobs of Margins by the season of their pours, from
// winter on.
func Seasons(jobs []Job) (out []Margin) {
	for _, name := range append(slices.Clone(seasons), noDay) {
		all := Margin{Name: name}
		byJob, _ := Margins(slices.DeleteFunc(slices.Clone(jobs), func(j Job) bool { return j.season() != name }))
		for _, m := range byJob {
			all.add(m)
		}
		if len(byJob) > 0 {
			out = append(out, all)
		}
	}
	return out
}

// Cost is what a line of the estimate cost.
type Cost struct {
	Name      string
	Estimated decimal.Decimal
	Took      decimal.Decimal
}

// Off gives how much more it cost.
func (c Cost) Off() decimal.Decimal { return c.Took.Sub(c.Estimated) }

// Costs sets the lines of the estimate whose cost is written down against it, in its order.
func Costs(j Job) (out []Cost) {
	for _, l := range j.Estimate.Lines {
		if took, known := j.took(l); known && !l.ByOthers {
			out = append(out, Cost{l.Name, l.Extended, took})
		}
	}
	return out
}
