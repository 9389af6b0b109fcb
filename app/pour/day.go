package pour

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook/app/takeoff"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Input is what the day is planned from.
type Input struct {
	Slabs []Slab // in the order they are placed
	Units geometry.Units
	Spec  takeoff.Spec
	Pour  Spec
	Order decimal.Decimal // concrete to order, in yd³ or m³ as the job's units say
}

// Slab is one slab to place.
type Slab struct {
	Number int              // in the job, from 0
	Name   string           // for people, "" where the job has but one
	Plan   plan.Plan        // sound and oriented
	Solid  *solid.Solid     // of the plan
	Bolts  []geometry.Point // anchor bolts to set in the fresh concrete
}

// From gathers the input from a takeoff: one slab after the other, in the order
// of the job.
func From(s takeoff.Spec, t takeoff.Takeoff, pour Spec) Input {
	in := Input{Units: t.Units, Spec: s, Pour: pour}
	if l, ok := t.Line("concrete.order"); ok {
		// The line is a whole number of steps, printed from a decimal.
		in.Order = decimal.NewFromFloat(l.Value)
	}
	for _, s := range t.Slabs {
		slab := Slab{Number: s.Number, Name: s.Name, Plan: s.Plan, Solid: s.Solid}
		for _, w := range s.Layout.Walls {
			for _, b := range w.Bolts {
				slab.Bolts = append(slab.Bolts, b.At)
			}
		}
		in.Slabs = append(in.Slabs, slab)
	}
	return in
}

// volume gives the concrete of all slabs, m³.
func (in Input) volume() float64 {
	sum := 0.0
	for _, s := range in.Slabs {
		if s.Solid != nil {
			sum += s.Solid.Volume
		}
	}
	return sum
}

// Day is the plan of the pour.
type Day struct {
	Unit   string          // of volumes: "yd³" or "m³"
	Net    float64         // of the slabs, no waste
	Need   float64         // of the slabs with their waste
	Order  decimal.Decimal // Need in whole steps of the plant, or as the takeoff says
	Slow   float64         // the crew's pace, volume an hour
	Fast   float64
	Loads  []Load
	Strips []Strip
	Bays   []Bay
	Times  []BayTime // of each bay
	Pads   []Pad
	Places []Place
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

// Call is when the last load is called, by what is left to fill. The plant must
// know before it is batched.
type Call struct {
	Needed bool // there is more than one load
	At     Clock
	Bay    int     // number of the bay being placed then
	Placed float64 // by then, in the day's unit
	Left   float64 // of the slab with its waste
	Bring  float64 // of it, what the loads before do not bring
	Held   bool    // the last load is to be held back for it: as asked, it is batched before any concrete is placed
	Idle   float64 // minutes that the crew waits for it then
}

// Place is where a truck or pump may stand, and what is filled from there.
type Place struct {
	At      geometry.Point
	Reach   geometry.Length // of the chute or the hose; 0 where buggies go anywhere
	Bays    []int           // numbers of the bays filled from it
	Outside []int           // of those, the numbers beyond its reach
}

// places tells who reaches what.
func (c *course) places() []Place {
	out := make([]Place, len(c.stations))
	for i, at := range c.stations {
		out[i].At = at
		if c.reach.Method != Buggy {
			out[i].Reach = c.reach.Chute
		}
	}
	for _, b := range c.bays {
		if b.Station < 0 {
			continue
		}
		p := &out[b.Station]
		p.Bays = append(p.Bays, b.Number)
		if !b.Reached {
			p.Outside = append(p.Outside, b.Number)
		}
	}
	return out
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
	if !(in.volume() > 0) {
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
	c := course{reach: in.Pour.Reach, stations: in.Pour.Stations}
	for _, s := range in.Slabs {
		if err := c.lay(s); err != nil {
			return Day{}, err
		}
	}
	day.Strips, day.Bays, day.Pads, day.Places = c.strips, c.bays, c.pads, c.places()

	waste := 1 + in.Spec.Order.Waste.InexactFloat64()/100
	day.Net = in.volume() / size
	day.Need = day.Net * waste
	day.time(size, waste)
	day.callOff(in.Pour.Trucks)
	day.weather(in)
	day.Findings = append(day.Findings, MixFindings(in.Spec.Mix, in.Pour.Weathering, in.Pour.Use, in.Units)...)
	day.Findings = append(day.Findings, loadFindings(volumes, in.Spec.Order.Truck, decimal.NewFromFloat(day.Net), in.Pour.Trucks.ShortLoad, unit)...)
	day.Findings = append(day.Findings, visitFindings(day.Loads, in.Pour.Trucks)...)
	day.Findings = append(day.Findings, day.reachFindings(in)...)
	day.Cure = cureStages(in.Pour.Weather, in.Units)
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
// Where nothing is placed by then, it finds what holding the load back costs:
// until half of what comes before it is placed, which is enough to measure by.
func (d *Day) callOff(t Trucks) {
	n := len(d.Loads)
	if n < 2 {
		return
	}
	visits, before := d.visits(), 0.0
	for _, v := range visits[:n-1] {
		before += v.Volume
	}
	last := visits[n-1]
	c := Call{Needed: true, At: Clock(math.Floor(last.Batched)), Placed: PlacedAt(visits, last.Batched), Bring: max(0, d.Need-before)}
	if c.Placed <= 0 {
		at := PlacedBy(visits, before/2)
		arrives := at + float64(t.Loading+t.Travel)
		c.Held, c.At, c.Placed = true, Clock(math.Floor(at)), before/2
		c.Idle = max(0, arrives-visits[n-2].Ends)
	}
	c.Left = max(0, d.Need-c.Placed)
	for i, t := range d.Times {
		c.Bay = d.Bays[i].Number
		if t.Used > c.Placed {
			break
		}
	}
	d.Call = c
}

func (d *Day) weather(in Input) {
	for _, h := range in.Pour.Weather {
		d.Hours = append(d.Hours, HourReport{h, h.RelativeHumidity(), h.Evaporation(), h.Trowel()})
		d.Findings = append(d.Findings, h.Findings(thinnest(in.Slabs), in.Units)...)
	}
	d.Findings = append(d.Findings, UnderFindings(in.Spec.Base, in.Pour.Weather)...)
}

// thinnest gives the least field thickness of slabs, of which there is one.
func thinnest(slabs []Slab) geometry.Length {
	return slices.MinFunc(slabs, func(a, b Slab) int { return cmp.Compare(a.Plan.Field, b.Plan.Field) }).Plan.Field
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
	if len(in.Pour.Stations) > 0 && r.Method == Chute {
		for _, s := range in.Slabs {
			if near, last, ok := d.cornered(s.Number); ok {
				add("Order of bays", false, "bay %d is nearer to the truck than the last bay, %d: move the truck to the side that is placed last, or turn the strips", near, last)
			}
		}
	}
	if r.Float > 0 && r.Float < r.Straightedge-r.Overlap {
		add("Float reach", false, "the bull float reaches %s, less than the straightedge spans: the strips are laid to the float", r.Float.Text(in.Units))
	}
	return out
}

// cornered finds a bay of a slab that is nearer to the truck than the slab's last
// bay: the crew works itself into a corner.
func (d *Day) cornered(slab int) (near, last int, found bool) {
	end := Bay{}
	for _, b := range d.Bays {
		if b.Slab == slab {
			end = b
		}
	}
	for _, b := range d.Bays {
		if b.Slab == slab && b.Station == end.Station && b.Away < end.Away-geometry.Foot {
			return b.Number, end.Number, true
		}
	}
	return 0, 0, false
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// numbered lists rising numbers: "bay 3", "bays 1 to 4 and 7".
func numbered(noun string, ns []int) string {
	var runs []string
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if k > i+1 {
			runs = append(runs, fmt.Sprintf("%d to %d", ns[i], ns[k]))
			i = k + 1
			continue
		}
		runs = append(runs, fmt.Sprint(ns[i]))
		i++
	}
	if len(ns) > 1 {
		noun += "s"
	}
	if n := len(runs); n > 1 {
		return noun + " " + strings.Join(runs[:n-1], ", ") + " and " + runs[n-1]
	}
	return noun + " " + runs[0]
}
