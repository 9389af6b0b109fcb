package actual

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"
	"gonum.org/v1/gonum/stat/distuv"

	"haunchbook.example/app/order"
	"haunchbook.example/app/takeoff"
)

// Lesson is what several jobs say of one figure.
type Lesson struct {
	Name    string          // Waste, GroundTook, Lost, or the task
	Unit    string          // "%", or what is done in an hour: "ft/h"
	Now     decimal.Decimal // what estimates use, of the newest job
	Jobs    int
	Mean    decimal.Decimal // of all jobs together, by the ratio of the sums: a large job weighs more
	Spread  decimal.Decimal // sample standard deviation, weighted likewise; 0 for one job
	Least   decimal.Decimal
	Most    decimal.Decimal
	Far     []Outlier // jobs far from the others; they are counted all the same
	Offered bool      // enough jobs to offer Takes as a default
	// Of concrete, what the next job is expected to stay below 9 times in 10, and the spread
	// about Mean that goes with it: the mean alone is passed by every other job. Both are 0
	// where fewer than EnoughJobs tell of it.
	Bound, Stray decimal.Decimal
}

// Figures of concrete, each in percent.
const (
	Waste      = "Waste"                 // used beyond the plan
	GroundTook = "Ground as it was shot" // needed beyond the plan, down to the ground
	Lost       = "Yield and spill"       // used beyond what was to fill down to the ground
)

// Takes gives what is offered: of concrete the bound, of rates the mean.
func (l Lesson) Takes() decimal.Decimal {
	if l.Name == Waste && l.Unit == "%" {
		return l.Bound
	}
	return l.Mean
}

// chance is how often the next job is to stay below a bound.
const chance = 0.9

// Outlier is a job whose figure lies far from that of the others.
type Outlier struct {
	Job   string
	Value decimal.Decimal
}

// fewGuessed is of how much concrete the ground may be unmeasured before a job tells nothing
// of what is lost: own figure.
const fewGuessed = 0.05

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
	vague      []float64 // of each ratio, its standard error, where that is known
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
			add(Waste, "%", now, 1, 100, j.Name, used, net)
			// Where nothing of some of the ground was shot, what it took and what was lost
			// cannot be told apart.
			if fill := decimal.NewFromFloat(j.Ground.Fill.Mean); j.Ground.Shot && j.Ground.Guessed < fewGuessed*j.Ground.Fill.Mean {
				add(GroundTook, "%", decimal.Zero, 1, 100, j.Name, fill, net)
				add(Lost, "%", j.Ground.Lost, 1, 100, j.Name, used, fill)
				i := slices.IndexFunc(all, func(s *series) bool { return s.name == Lost })
				s := all[i]
				s.vague = append(s.vague, 100*j.Ground.Fill.Error/j.Ground.Fill.Mean)
			}
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
	slices.SortStableFunc(lessons, func(a, b Lesson) int { return cmp.Compare(btoi(a.Unit != "%"), btoi(b.Unit != "%")) })
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
	if l.Unit == "%" {
		s.bound(&l, values, mean)
	}
	for _, i := range far(values) {
		l.Far = append(l.Far, Outlier{s.jobs[i], two(values[i])})
	}
	return l
}

// bound finds what the next job stays below. What the shots left open of the ground is no
// part of what is lost, and is taken off; at most three quarters of the variance, since that
// is itself known by few jobs only: own figure.
func (s *series) bound(l *Lesson, values []float64, mean float64) {
	l.Offered = l.Offered && l.Name != GroundTook
	if len(values) < EnoughJobs {
		return
	}
	off := 0.0
	if b, ok := order.Bound(values, s.of, chance); ok {
		off = b - mean
	}
	square, open := 0.0, 0.0
	for i, v := range values {
		square += (v - mean) * (v - mean)
		if s.vague != nil {
			open += s.vague[i] * s.vague[i]
		}
	}
	if square > 0 {
		off *= math.Sqrt(math.Max(1-open/square, 0.25))
	}
	l.Bound, l.Stray = two(mean+off), two(off/distuv.UnitNormal.Quantile(chance))
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
