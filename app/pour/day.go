package pour

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"haunchbook/app/takeoff"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Input is what the day is planned from.
type Input struct {
	Plan  plan.Plan    // sound and oriented
	Solid *solid.Solid // of the plan
	Units geometry.Units
	Spec  takeoff.Spec
	Pour  Spec
	Order decimal.Decimal  // concrete to order, in yd³ or m³ as the job's units say
	Bolts []geometry.Point // anchor bolts to set in the fresh concrete
}

// From gathers the input from a takeoff of the plan.
func From(s takeoff.Spec, t takeoff.Takeoff, pour Spec) Input {
	in := Input{Units: t.Units, Spec: s, Pour: pour}
	if len(t.Slabs) > 0 {
		in.Plan, in.Solid = t.Slabs[0].Plan, t.Slabs[0].Solid
	}
	if l, ok := t.Line("concrete.order"); ok {
		// The line is a whole number of steps, printed from a decimal.
		in.Order = decimal.NewFromFloat(l.Value)
	}
	for _, s := range t.Slabs {
		for _, w := range s.Layout.Walls {
			for _, b := range w.Bolts {
				in.Bolts = append(in.Bolts, b.At)
			}
		}
	}
	return in
}

// Day is the plan of the pour.
type Day struct {
	Unit   string // of volumes: "yd³" or "m³"
	Order  decimal.Decimal
	Slow   float64 // the crew's pace, volume an hour
	Fast   float64
	Loads  []Load
	Strips []Strip
	Bays   []Bay
	Times  []BayTime // of each bay
	Pads   []Pad
	Call   Call
	Hours  []HourReport

	Findings []Finding
	Cure     []Stage
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

// Call is when the last load is called off: the plant must know by then.
type Call struct {
	Needed bool // there is more than one load, and some concrete to measure by
	At     Clock
	Bay    int     // number of the bay being placed then
	Placed float64 // by then, in the day's unit
	Left   float64 // of the slab with its waste
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

// The gaps between trucks at which a crew should mind its joint (common practice:
// how long fresh concrete can wait depends on the weather and the mix).
const (
	gapNote = 15.0
	gapBad  = 30.0
)

// Of plans the day. The error names what of the input will not do.
func Of(in Input) (Day, error) {
	if faults := in.Pour.Validate(in.Units); len(faults) > 0 {
		return Day{}, faults
	}
	if in.Solid == nil || !(in.Solid.Volume > 0) {
		return Day{}, fmt.Errorf("found a slab of no volume; draw its outline first")
	}
	volumes, err := Split(in.Order, in.Spec.Order.Step, in.Spec.Order.Truck, in.Pour.Trucks.Loads)
	if err != nil {
		return Day{}, err
	}
	size, unit := volumeUnit(in.Units)
	day := Day{Unit: unit, Order: decimal.Sum(decimal.Zero, volumes...)}
	day.Slow, day.Fast = in.Pour.Pace(in.Units)
	day.Loads = schedule(volumes, in.Pour, in.Pour.middlePace(in.Units)/60)
	day.Strips, day.Bays, day.Pads, err = layBays(in.Plan, in.Pour.Reach, in.Pour.Stations, in.Bolts, in.Solid)
	if err != nil {
		return Day{}, err
	}

	waste := 1 + in.Spec.Order.Waste.InexactFloat64()/100
	day.time(size, waste)
	day.callOff(in, size, waste)
	day.weather(in)
	day.Findings = append(day.Findings, MixFindings(in.Spec.Mix, in.Pour.Weathering, in.Pour.Use)...)
	net := decimal.NewFromFloat(in.Solid.Volume / size)
	day.Findings = append(day.Findings, loadFindings(volumes, in.Spec.Order.Truck, net, in.Pour.Trucks.ShortLoad, unit)...)
	day.Findings = append(day.Findings, visitFindings(day.Loads, in.Pour.Trucks)...)
	day.Findings = append(day.Findings, day.reachFindings(in)...)
	day.Cure = cureStages(in.Pour.Weather)
	return day, nil
}

// schedule asks for each truck when the one before should be empty, and runs the
// day as asked.
func schedule(volumes []decimal.Decimal, s Spec, pace float64) []Load {
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
	visits := Simulate(ds, Site{
		Loading: float64(t.Loading), Travel: float64(t.Travel), SetUp: float64(t.SetUp), Pace: pace, Fleet: t.Fleet,
	})
	for i := range loads {
		loads[i].Visit = visits[i]
	}
	return loads
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

// callOff finds when the last load must be called and where the crew is then.
func (d *Day) callOff(in Input, size, waste float64) {
	if len(d.Loads) < 2 {
		return
	}
	last := d.Loads[len(d.Loads)-1].Visit
	placed := PlacedAt(d.visits(), last.Batched)
	whole := in.Solid.Volume / size * waste
	d.Call = Call{Needed: placed > 0, At: Clock(math.Floor(last.Batched)), Placed: placed, Left: max(0, whole-placed)}
	for i, t := range d.Times {
		d.Call.Bay = d.Bays[i].Number
		if t.Used > placed {
			break
		}
	}
}

func (d *Day) weather(in Input) {
	for _, h := range in.Pour.Weather {
		d.Hours = append(d.Hours, HourReport{h, h.RelativeHumidity(), h.Evaporation(), h.Trowel()})
		d.Findings = append(d.Findings, h.Findings(in.Plan.Field, in.Units)...)
	}
	d.Findings = append(d.Findings, UnderFindings(in.Spec.Base, in.Pour.Weather)...)
}

func visitFindings(loads []Load, t Trucks) []Finding {
	var out []Finding
	for i, l := range loads {
		v, n := l.Visit, i+1
		if v.Age() > float64(t.Limit) {
			out = append(out, Finding{"Discharge limit", "ASTM C94/C94M, or as agreed", true,
				fmt.Sprintf("load %d would be %.0f min old when it is empty, more than %d: more hands, smaller loads, a nearer plant, or a retarder agreed with the plant", n, v.Age(), t.Limit)})
		}
		if v.Idle > gapNote {
			out = append(out, Finding{"Gap between trucks", "common practice", v.Idle > gapBad,
				fmt.Sprintf("%.0f min without concrete before load %d: keep the open face alive, and order trucks closer together or more of them", v.Idle, n)})
		}
		if v.Waits > gapBad {
			out = append(out, Finding{"Truck waits", "common practice", false,
				fmt.Sprintf("load %d waits %.0f min for its turn: order trucks further apart", n, v.Waits)})
		}
	}
	return out
}

func (d *Day) reachFindings(in Input) []Finding {
	var out []Finding
	r := in.Pour.Reach
	add := func(name string, severe bool, format string, args ...any) {
		out = append(out, Finding{name, "common practice", severe, fmt.Sprintf(format, args...)})
	}
	if r.Method != Buggy && len(in.Pour.Stations) == 0 {
		add("Truck place", false, "no place for the truck is marked: mark where it can stand to see what it reaches")
	} else {
		var far []int
		for _, b := range d.Bays {
			if !b.Reached {
				far = append(far, b.Number)
			}
		}
		if len(far) > 0 {
			add("Reach", true, "%s %s beyond the %s's %s: another place for the truck, a pump, or buggies",
				numbered("bay", far), isAre(len(far)), r.Method, r.Chute.Text(in.Units))
		}
	}
	if n := len(d.Bays); n > 0 && len(in.Pour.Stations) > 0 && r.Method == Chute {
		last := d.Bays[n-1]
		for _, b := range d.Bays {
			if b.Station == last.Station && b.Away < last.Away-geometry.Foot {
				add("Order of bays", false, "bay %d is nearer to the truck than the last bay, %d: move the truck to the side that is placed last, or turn the strips", b.Number, last.Number)
				break
			}
		}
	}
	if r.Float > 0 && r.Float < r.Straightedge-r.Overlap {
		add("Float reach", false, "the bull float reaches %s, less than the straightedge spans: the strips are laid to the float", r.Float.Text(in.Units))
	}
	return out
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// numbered lists numbers: "bay 3", "bays 3, 4 and 7".
func numbered(noun string, ns []int) string {
	if len(ns) == 1 {
		return fmt.Sprintf("%s %d", noun, ns[0])
	}
	s := noun + "s "
	for i, n := range ns {
		switch {
		case i == len(ns)-1:
			s += " and "
		case i > 0:
			s += ", "
		}
		s += fmt.Sprint(n)
	}
	return s
}
