package pour

import (
	"cmp"
	"container/heap"
	"slices"
)

// Delivery is one load on its way, in minutes after midnight.
type Delivery struct {
	Volume float64 // in the unit of Site.Pace
	Load   float64 // when the plant is asked to begin loading it
	Delay  float64 // on the road, beyond the usual way
}

// Site is what the trucks and the crew share.
type Site struct {
	Loading float64 // minutes to load a truck; the plant loads one at a time
	Travel  float64 // minutes each way
	SetUp   float64 // minutes from a truck's turn to its discharge
	Pace    float64 // volume placed in a minute
	Fleet   int     // trucks that go back and forth; 0 for enough
}

// Visit is how one load went, in minutes after midnight.
type Visit struct {
	Volume  float64
	Batched float64 // loading began: water meets cement
	Arrives float64
	Starts  float64 // discharge
	Ends    float64
	Waits   float64 // truck, for its turn
	Idle    float64 // crew, before this discharge and beyond the set-up; 0 for the first
}

// Age gives how old the last of the load is when it is placed, from batching.
func (v Visit) Age() float64 { return v.Ends - v.Batched }

// Simulate runs the trucks through the day, event by event: the plant loads one
// truck at a time, in order, when the load is due and a truck is there; trucks
// are discharged one at a time in the order they arrive; a truck of a limited
// fleet drives back before it is loaded again. The visits come in the order of
// discharge. The pace and every volume must be more than 0.
func Simulate(ds []Delivery, s Site) []Visit {
	sim := simulation{site: s, due: ds, trucks: len(ds)}
	if s.Fleet > 0 {
		sim.trucks = s.Fleet
	}
	for _, d := range ds {
		sim.at(d.Load, func() {})
	}
	for sim.events.Len() > 0 {
		e := heap.Pop(&sim.events).(event)
		sim.now = e.time
		e.do()
		sim.load()
		sim.discharge()
	}
	slices.SortStableFunc(sim.visits, func(a, b Visit) int { return cmp.Compare(a.Starts, b.Starts) })
	return sim.visits
}

type event struct {
	time  float64
	order int // events of one time in the order they were made
	do    func()
}

type events []event

func (e events) Len() int      { return len(e) }
func (e events) Swap(i, j int) { e[i], e[j] = e[j], e[i] }
func (e events) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(e[i].time, e[j].time), cmp.Compare(e[i].order, e[j].order)) < 0
}
func (e *events) Push(x any) { *e = append(*e, x.(event)) }
func (e *events) Pop() any {
	last := (*e)[len(*e)-1]
	*e = (*e)[:len(*e)-1]
	return last
}

type simulation struct {
	site   Site
	due    []Delivery // not yet loaded
	trucks int        // at the plant
	now    float64
	made   int
	events events

	loading bool
	busy    bool
	queue   []Visit // trucks on site, by arrival
	visits  []Visit
	ended   float64 // of the last discharge
}

func (s *simulation) at(t float64, do func()) {
	s.made++
	heap.Push(&s.events, event{t, s.made, do})
}

// load begins the next load if everything it takes is there.
func (s *simulation) load() {
	if s.loading || s.trucks == 0 || len(s.due) == 0 || s.due[0].Load > s.now {
		return
	}
	d := s.due[0]
	s.due = s.due[1:]
	s.trucks--
	s.loading = true
	v := Visit{Volume: d.Volume, Batched: s.now}
	s.at(s.now+s.site.Loading, func() {
		s.loading = false
		s.at(s.now+s.site.Travel+d.Delay, func() {
			v.Arrives = s.now
			s.queue = append(s.queue, v)
		})
	})
}

// discharge lets the first truck in the queue back up if the crew is free.
func (s *simulation) discharge() {
	if s.busy || len(s.queue) == 0 {
		return
	}
	v := s.queue[0]
	s.queue = s.queue[1:]
	s.busy = true
	v.Waits = s.now - v.Arrives
	if len(s.visits) > 0 {
		v.Idle = s.now - s.ended
	}
	v.Starts = s.now + s.site.SetUp
	v.Ends = v.Starts + v.Volume/s.site.Pace
	s.at(v.Ends, func() {
		s.busy = false
		s.ended = s.now
		s.at(s.now+s.site.Travel, func() { s.trucks++ })
	})
	s.visits = append(s.visits, v)
}

// PlacedBy gives when so much had been placed in all, by the visits in order.
// Beyond the last load it gives the end of the last.
func PlacedBy(vs []Visit, volume float64) float64 {
	before := 0.0
	for _, v := range vs {
		if volume <= before+v.Volume {
			return v.Starts + (v.Ends-v.Starts)*(volume-before)/v.Volume
		}
		before += v.Volume
	}
	if len(vs) == 0 {
		return 0
	}
	return vs[len(vs)-1].Ends
}

// PlacedAt gives how much had been placed at a time.
func PlacedAt(vs []Visit, time float64) float64 {
	sum := 0.0
	for _, v := range vs {
		if time <= v.Starts {
			break
		}
		sum += v.Volume * min(1, (time-v.Starts)/(v.Ends-v.Starts))
	}
	return sum
}
