package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Input is what the day is planned from.
type Input struct {
	Slabs []Slab // in the order they are placed
	Units geometry.Units
	Spec  takeoff.Spec
	Pour  Spec
	Order decimal.Decimal // concrete to order, in yd³ or m³ as the job's units say

	ShortLoad decimal.Decimal // the plant charges a fee for loads below this; 0 where it does not

	Held []rule.Finding // what holds the pour back; see package hold

	Of    takeoff.Pour // that is placed, with its number and its day
	Pours int          // of the job
	After *Day         // the pour before, after which lanes, bays and pads are numbered; nil for the first
}

// Slab is one slab to place, or what of it is placed in one go.
type Slab struct {
	Number int              // in the job, from 0
	Name   string           // for people, "" where the job has but one
	Plan   plan.Plan        // sound and oriented
	Solid  *solid.Solid     // of the plan
	Curbs  plan.Curbs       // on its edges
	Met    []plan.Meeting   // of it with other slabs of the job
	Part   plane.Region     // what of it is placed; none for all of it
	Volume float64          // m³ of that part
	Cuts   []sawcuts.Cut    // saw cuts, with their marks
	Bolts  []geometry.Point // anchor bolts to set in the fresh concrete
}

// region gives what of the slab is placed.
func (s Slab) region() plane.Region {
	if s.Part != nil {
		return s.Part
	}
	return s.Plan.Region()
}

// volume gives the concrete of that, m³.
func (s Slab) volume() float64 {
	if s.Part != nil {
		return s.Volume
	}
	return s.Solid.Volume + s.Curbs.Volume
}

// within gives what of it lies within a region, m³.
func (s Slab) within(g plane.Region) float64 {
	return s.Solid.VolumeWithin(g) + s.Curbs.Within(g)
}

// leftOf gives what of it lies left of the line from a to b, m³. Of a whole slab that is what
// of its solid lies in a rectangle, for which no overlay with all its sides is needed.
func (s Slab) leftOf(a, b geometry.Point) float64 {
	if s.Part != nil {
		return s.within(s.Part.Left(a, b))
	}
	return s.within(s.region().Half(a, b))
}

// From gathers the input of each pour from a takeoff: one slab after the other, in the
// order of the job. The weather is that of the first pour: of another day nothing is known.
func From(s takeoff.Spec, t takeoff.Takeoff, spec Spec) []Input {
	var out []Input
	wet := s.Place.Bolts.Setting == bars.Wet // else they are there before the pour
	for _, p := range t.Pours {
		in := Input{Units: t.Units, Spec: s, Pour: spec, Order: p.Order, Of: p, Pours: len(t.Pours)}
		if p.Number > 1 {
			in.Pour.Weather = nil
		}
		if spec.Date.Known() {
			in.Pour.Date = spec.Date.Plus(p.Day - 1)
		}
		for _, part := range p.Parts {
			in.Slabs = append(in.Slabs, slabOf(t.Slabs[part.Slab], part, wet))
		}
		out = append(out, in)
	}
	return out
}

// slabOf gives what of a slab is placed in a pour, with what lies on it.
func slabOf(s takeoff.Slab, part takeoff.PourPart, wet bool) Slab {
	out := Slab{Number: s.Number, Name: s.Name, Plan: s.Plan, Solid: s.Solid, Curbs: s.Curbs, Met: s.Layout.Met()}
	if !part.Part.Whole {
		out.Part, out.Volume = part.Part.Region, part.Volume
	}
	on := func(p geometry.Point) bool { return part.Part.Whole || part.Part.Region.Contains(p) }
	out.Cuts = s.Layout.SawCuts
	if !part.Part.Whole {
		out.Cuts = cutsWithin(out.Cuts, part.Part.Region)
	}
	for _, w := range s.Layout.Walls {
		for _, b := range w.Bolts {
			if wet && on(b.At) {
				out.Bolts = append(out.Bolts, b.At)
			}
		}
	}
	return out
}

// cutsWithin gives what of saw cuts is sawn in a part of a slab: one that runs on over a
// construction joint is sawn in each pour by itself, on its own day.
func cutsWithin(cuts []sawcuts.Cut, part plane.Region) (out []sawcuts.Cut) {
	sides := plane.NewSides(part)
	for _, c := range cuts {
		for _, in := range sides.Stretches(c.A, c.B, plane.Through, nil) {
			one := c
			one.A, one.B = geometry.Along(c.A, c.B, in.From), geometry.Along(c.A, c.B, in.To)
			out = append(out, one)
		}
	}
	return out
}

// volume gives the concrete of the pour, m³.
func (in Input) volume() float64 {
	sum := 0.0
	for _, s := range in.Slabs {
		sum += s.volume()
	}
	return sum
}

// Day is the plan of a pour.
type Day struct {
	Number int             // of the pour, from 1
	Pours  int             // of the job
	On     int             // the day it is placed on, from that of the first, which is 1
	Unit   string          // of volumes: "yd³" or "m³"
	Net    float64         // of the slabs, no waste
	Need   float64         // of the slabs with their waste
	Order  decimal.Decimal // Need in whole steps of the plant, or as the takeoff says
	Slow   float64         // the crew's pace, volume an hour
	Fast   float64
	Loads  []Load
	Lanes  []Lane
	Bays   []Bay
	Times  []BayTime // of each bay
	Pads   []Pad
	Places []Place
	Call   Call
	Hours  []HourReport
	Saw    Saw
	Cuts   map[int][]sawcuts.Cut // the saw cuts that run on it, by the number of the slab in the job

	Held     []rule.Finding // what holds the pour and its order back; among Findings too
	Findings []rule.Finding // the gravest first, what is said of several places once
	Cure     []Stage

	lastLane, lastBay, lastPad int // the last numbers of the pour before
}

// Load is one truck load, ordered and as it is expected to go.
type Load struct {
	Volume decimal.Decimal
	Due    Clock // asked to be on site
	Visit  Visit
}

// BayTime tells a foreman where he should be: what a bay takes, and what has been
// used by its end, waste included.
type BayTime struct {
	Volume  float64 // in the day's unit, waste included
	Used    float64 // from the start to the end of this bay
	Left    float64 // of the order
	Minutes float64 // of placing
	Done    Clock   // expected
	Load    int     // number of the load that it is finished from
}

// HourReport is what one hour's weather means.
type HourReport struct {
	Hour     Hour
	Humidity float64 // 0 to 1
	Rate     Rate
	Trowel   Range // after bull-floating
}

// roundTo is the step in which truck times are asked for, minutes.
const roundTo = 5

// Of plans the day. The error names what of the input will not do.
func Of(in Input) (Day, error) {
	if faults := in.Pour.Validate(in.Units); len(faults) > 0 {
		return Day{}, faults
	}
	if slices.ContainsFunc(in.Slabs, func(s Slab) bool { return s.Solid == nil }) || !(in.volume() > 0) {
		return Day{}, fmt.Errorf("found a slab of no volume; draw its outline first")
	}
	volumes, err := in.Spec.Order.Split(in.Order)
	if err != nil {
		return Day{}, err
	}
	size, unit := volumeUnit(in.Units)
	day := Day{Unit: unit, Order: decimal.Sum(decimal.Zero, volumes...)}
	day.Slow, day.Fast = in.Pour.Pace(in.Units)
	day.Loads = schedule(volumes, in.Pour, in.Pour.middlePace(in.Units)/60)
	day.Number, day.Pours, day.On = in.Of.Number, in.Pours, in.Of.Day
	c := course{reach: in.Pour.Reach, stations: in.Pour.Stations}
	c.begin(in.After)
	for _, s := range in.Slabs {
		if err := c.lay(s); err != nil {
			return Day{}, err
		}
	}
	day.Cuts = map[int][]sawcuts.Cut{}
	for _, s := range in.Slabs {
		for _, c := range s.Cuts {
			if !slices.ContainsFunc(day.Cuts[s.Number], func(known sawcuts.Cut) bool { return known.Mark == c.Mark }) {
				day.Cuts[s.Number] = append(day.Cuts[s.Number], c)
			}
		}
	}
	if len(day.Cuts) > 0 {
		day.Saw = UsualSaw
		if in.Spec.Place.SawCuts.Early {
			day.Saw = EarlySaw
		}
	}
	day.Lanes, day.Bays, day.Pads, day.Places = c.lanes, c.bays, c.pads, c.places()
	day.lastLane, day.lastBay, day.lastPad = c.lastLane, c.lastBay, c.lastPad

	waste := 1 + in.Spec.Order.Waste.InexactFloat64()/100
	day.Net = in.volume() / size
	day.Need = day.Net * waste
	day.time(size, waste)
	day.callOff(in.Pour.Trucks)
	day.Held = in.Held
	day.Findings = slices.Clone(in.Held)
	day.weather(in)
	day.Findings = append(day.Findings, MixFindings(in.Spec.Mix, in.Pour, in.Units)...)
	day.Findings = append(day.Findings, loadFindings(volumes, in.Spec.Order.Truck, decimal.NewFromFloat(day.Net), in.ShortLoad, unit)...)
	day.Findings = append(day.Findings, visitFindings(day.Loads, in.Pour.Trucks, func() int { return enoughTrucks(volumes, in.Pour, in.Pour.middlePace(in.Units)/60) })...)
	day.Findings = append(day.Findings, largerTruck(in.Spec.Order, volumes, unit)...)
	day.Findings = append(day.Findings, day.longFindings(in)...)
	day.Findings = append(day.Findings, day.reachFindings(in)...)
	day.Findings = append(day.Findings, wetSet(in)...)
	day.Findings = rule.Once(day.Findings)
	slices.SortStableFunc(day.Findings, func(a, b rule.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	day.Cure = cureStages(in.Pour.Weather, day.Saw, in.Units)
	return day, nil
}

// schedule asks for each truck when the one before should be empty, and runs the
// day as asked.
func schedule(volumes []decimal.Decimal, s Spec, pace float64) []Load {
	loads, ds := asked(volumes, s, pace)
	visits := Simulate(ds, s.site(pace, s.Trucks.Fleet))
	for i := range loads {
		loads[i].Visit = visits[i]
	}
	return loads
}

// enoughTrucks gives how many trucks going back and forth leave the crew no gap worth a
// word between two loads.
func enoughTrucks(volumes []decimal.Decimal, s Spec, pace float64) int {
	_, ds := asked(volumes, s, pace)
	return 1 + sort.Search(len(volumes)-1, func(n int) bool {
		return !slices.ContainsFunc(Simulate(ds, s.site(pace, n+1)), func(v Visit) bool { return v.Idle > gapNote })
	})
}

// site is what the trucks and the crew share on the day.
func (s Spec) site(pace float64, fleet int) Site {
	t := s.Trucks
	return Site{Loading: float64(t.Loading), Travel: float64(t.Travel), SetUp: float64(t.SetUp), Pace: pace, Fleet: fleet}
}

// asked is when each truck is asked for, on site and at the plant.
func asked(volumes []decimal.Decimal, s Spec, pace float64) ([]Load, []Delivery) {
	t := s.Trucks
	loads := make([]Load, len(volumes))
	ds := make([]Delivery, len(volumes))
	due := float64(s.Start)
	for i, v := range volumes {
		loads[i] = Load{Volume: v, Due: Clock(due)}
		ds[i] = Delivery{Volume: v.InexactFloat64(), Load: due - float64(t.Travel) - float64(t.Loading)}
		interval := float64(t.SetUp) + v.InexactFloat64()/pace
		due += max(roundTo, math.Round(interval/roundTo)*roundTo)
	}
	return loads, ds
}

func (d *Day) visits() []Visit {
	out := make([]Visit, len(d.Loads))
	for i, l := range d.Loads {
		out[i] = l.Visit
	}
	return out
}

// time follows the concrete through the bays.
func (d *Day) time(size, waste float64) {
	visits, order := d.visits(), d.Order.InexactFloat64()
	before := 0.0
	for _, b := range d.Bays {
		used := b.Running / size * waste
		t := BayTime{Volume: b.Volume / size * waste, Used: used, Left: order - used}
		done := PlacedBy(visits, used)
		t.Done = Clock(math.Round(done))
		t.Load = len(visits)
		sum := 0.0
		for i, v := range visits {
			if sum += v.Volume; used <= sum+1e-9 {
				t.Load = i + 1
				break
			}
		}
		t.Minutes = placing(visits, before, used)
		before = used
		d.Times = append(d.Times, t)
	}
}

// placing gives the minutes of discharge between two running volumes, waits
// between trucks left out.
func placing(vs []Visit, from, to float64) float64 {
	sum, before := 0.0, 0.0
	for _, v := range vs {
		part := max(0, min(to, before+v.Volume)-max(from, before))
		sum += part / v.Volume * (v.Ends - v.Starts)
		before += v.Volume
	}
	return sum
}

func (d *Day) weather(in Input) {
	for _, h := range in.Pour.Weather {
		d.Hours = append(d.Hours, HourReport{h, h.RelativeHumidity(), h.Evaporation(), h.Trowel()})
	}
	d.Findings = append(d.Findings, forecastFindings(in.Pour.Forecast, in.Pour.Date, in.Units)...)
	d.Findings = append(d.Findings, weatherFindings(in.Pour.Weather, thinnest(in.Slabs), in.Units)...)
	d.Findings = append(d.Findings, underFindings(in.Spec.Base, in.Pour.Use, in.Pour.Weather)...)
}

// thinnest gives the least field thickness of slabs, of which there is one.
func thinnest(slabs []Slab) geometry.Length {
	return slices.MinFunc(slabs, func(a, b Slab) int { return cmp.Compare(a.Plan.Field, b.Plan.Field) }).Plan.Field
}
