package actual

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// Lesson is what several jobs say of one figure.
type Lesson struct {
	Name    string          // "Waste", or the task
	Unit    string          // "%", or what is done in an hour: "ft/h"
	Now     decimal.Decimal // what estimates use, of the newest job
	Jobs    int
	Mean    decimal.Decimal // of all jobs together, by the ratio of the sums: a large job weighs more
	Spread  decimal.Decimal // sample standard deviation, weighted likewise; 0 for one job
	Least   decimal.Decimal
	Most    decimal.Decimal
	Far     []Outlier // jobs far from the others; they are counted all the same
	Offered bool      // enough jobs to offer Mean as a default
}

// Outlier is a job whose figure lies far from that of the others.
type Outlier struct {
	Job   string
	Value decimal.Decimal
}

// EnoughJobs is how many jobs it takes before a mean is offered as a default:
// common practice, no source.
const EnoughJobs = 3

// series is a figure of several jobs: how much there is, of how much.
type series struct {
	name, unit string
	now        decimal.Decimal
	less       float64 // taken off the ratio: 1 of waste, which is what is used beyond the slab
	scale      float64
	jobs       []string
	over, of   []float64
}

// ratio gives the figure of one job.
func (s *series) ratio(i int) float64 { return (s.over[i]/s.of[i] - s.less) * s.scale }

// Learn finds one's own waste and production rates from several jobs, the newest
// last. Nothing is changed by it: what is Offered is for the user to take. What nobody
// wrote down is not known, and not counted.
func Learn(jobs []Job) []Lesson {
	var all []*series
	add := func(name, unit string, now decimal.Decimal, less, scale float64, j string, over, of decimal.Decimal) {
		i := slices.IndexFunc(all, func(s *series) bool { return s.name == name && s.unit == unit })
		if i < 0 {
			i, all = len(all), append(all, &series{name: name, unit: unit, less: less, scale: scale})
		}
		s := all[i]
		s.now, s.jobs, s.over, s.of = now, append(s.jobs, j), append(s.over, over.InexactFloat64()), append(s.of, of.InexactFloat64())
	}
	for _, j := range jobs {
		net := value(line(j.Takeoff, takeoff.ConcreteNet))
		if used, known := j.Record.Used(); known && net.IsPositive() {
			now := value(line(j.Takeoff, takeoff.ConcreteWaste)).Div(net).Shift(2).Round(2)
			add("Waste", "%", now, 1, 100, j.Name, used, net)
		}
		for _, h := range j.Record.Hours {
			l := taskLine(j.Estimate, h.Task)
			// The hours once per job are none of the rate.
			if at := h.Hours.Sub(l.Each); l.Need.IsPositive() && at.IsPositive() {
				add(h.Task, string(l.Of)+"/h", l.Rate, 0, 1, j.Name, l.Need, at)
			}
		}
	}
	lessons := make([]Lesson, len(all))
	for i, s := range all {
		lessons[i] = s.lesson()
	}
	slices.SortStableFunc(lessons, func(a, b Lesson) int { return cmp.Compare(btoi(a.Name != "Waste"), btoi(b.Name != "Waste")) })
	return lessons
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (s *series) lesson() Lesson {
	n := len(s.jobs)
	values := make([]float64, n)
	over, of := 0.0, 0.0
	for i := range values {
		values[i] = s.ratio(i)
		over, of = over+s.over[i], of+s.of[i]
	}
	mean := (over/of - s.less) * s.scale
	square := 0.0
	for i, v := range values {
		square += s.of[i] / of * (v - mean) * (v - mean)
	}
	l := Lesson{Name: s.name, Unit: s.unit, Now: s.now, Jobs: n, Mean: two(mean), Least: two(slices.Min(values)), Most: two(slices.Max(values)), Offered: n >= EnoughJobs}
	if n > 1 {
		l.Spread = two(math.Sqrt(square * float64(n) / float64(n-1)))
	}
	for _, i := range far(values) {
		l.Far = append(l.Far, Outlier{s.jobs[i], two(values[i])})
	}
	return l
}

func two(v float64) decimal.Decimal { return decimal.NewFromFloat(v).Round(2) }

// farOff is how many standard deviations, told from the median deviation, a value may lie
// from the median: Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993 (from
// memory).
const farOff = 3.5

// far gives which of the values lie far from the others.
func far(values []float64) []int {
	middle := median(values)
	off := make([]float64, len(values))
	for i, v := range values {
		off[i] = math.Abs(v - middle)
	}
	usual := median(off)
	var out []int
	for i, o := range off {
		if len(values) > EnoughJobs && usual > 0 && 0.6745*o/usual > farOff {
			out = append(out, i)
		}
	}
	return out
}

func median(values []float64) float64 {
	v := slices.Sorted(slices.Values(values))
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}
