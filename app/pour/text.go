package pour

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/hold"
	"haunchbook.example/app/language"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// Item is a named line of an order.
type Item struct{ Name, Text string }

// MixItems lists what is asked of the concrete, in the job's units.
func MixItems(mix takeoff.Mix, s Spec, u geometry.Units) []Item {
	out := []Item{
		{"Strength", takeoff.StrengthText(mix.Strength, u) + " at 28 days"},
		{"Slump", mix.Slump.Text(u) + " on arrival"},
		{"Aggregate", mix.Aggregate.Text(u)},
		{called(takeoff.MixAir), "none"},
	}
	if mix.Air > 0 {
		out[3].Text = fmt.Sprintf("%g %%", mix.Air)
	}
	if mix.Fiber > 0 {
		out = append(out, Item{called(takeoff.Fibers), DoseText(mix.Fiber, u)})
	}
	if mix.Reducer {
		out = append(out, Item{called(takeoff.MixReducer), "ASTM C494; no water added on site"})
	}
	if s.Trucks.AskTemp.Known() {
		out = append(out, Item{"Temperature", s.Trucks.AskTemp.Text(u) + " on arrival"})
	}
	if mix.Notes != "" {
		out = append(out, Item{"Also", mix.Notes})
	}
	return out
}

// called gives the name of a thing to buy, as the takeoff has it.
func called(k takeoff.Kind) string { return takeoff.ID{Kind: k}.Text(geometry.FeetInches) }

// OrderText gives the order as it is read out on the telephone, and copied into a
// message: a line each, plain text.
func (d Day) OrderText(job, site, date string, mix takeoff.Mix, s Spec, u geometry.Units) string {
	return Lines(d.OrderItems(job, site, date, mix, s, u))
}

// Lines gives items as plain text, a line each.
func Lines(items []Item) string {
	var b strings.Builder
	wide := 18
	for _, i := range items {
		wide = max(wide, utf8.RuneCountInString(i.Name))
	}
	for _, i := range items {
		fmt.Fprintf(&b, "%-*s %s\n", wide+1, i.Name+":", i.Text)
	}
	return b.String()
}

// Said gives items in a language.
func Said(say *language.Speaker, items []Item) []Item {
	out := make([]Item, len(items))
	for i, it := range items {
		out[i] = Item{say.Word(it.Name), say.Say(it.Text)}
	}
	return out
}

// Called names the pour: "Pour 2, day 4".
func (d Day) Called() string { return takeoff.Pour{Number: d.Number, Day: d.On}.Called() }

// OrderItems lists what an order says.
func (d Day) OrderItems(job, site, date string, mix takeoff.Mix, s Spec, u geometry.Units) (out []Item) {
	line := func(name, text string) {
		if text != "" {
			out = append(out, Item{name, text})
		}
	}
	line("NOT TO BE ORDERED YET", hold.Line(d.Held))
	line("Job", job)
	line("Deliver to", site)
	switch {
	case s.Date.Known():
		line("Date", s.Date.Plus(max(0, d.On-1)).String())
	case d.On <= 1: // what is written as the job's date is that of its first pour
		line("Date", date)
	}
	if d.Pours > 1 {
		line("Pour", fmt.Sprintf("%d of %d, on day %d", d.Number, d.Pours, d.On))
	}
	line(called(takeoff.ConcreteOrder), fmt.Sprintf("%s %s", d.Order, d.Unit))
	for _, i := range MixItems(mix, s, u) {
		line(i.Name, i.Text)
	}
	for i, l := range d.Loads {
		line(fmt.Sprintf("Truck %d", i+1), fmt.Sprintf("%s %s, on site at %s%s", l.Volume, d.Unit, l.Due, d.afterText(i)))
	}
	if d.Call.Needed && !d.Call.Held {
		amount := "yards"
		if u == geometry.Millimeters {
			amount = "volume"
		}
		line("Hold", fmt.Sprintf("truck %d until we call with its %s, by %s", len(d.Loads), amount, d.Call.At))
	}
	line("Placed by", fmt.Sprintf("%s, %d people", s.Reach.Method, s.Crew.People))
	if s.Finish != AnyFinish {
		line("Finish", s.Finish.String())
	}
	line("Ask", fmt.Sprintf("that each load is empty within %d min of batching", s.Trucks.Limit))
	return out
}

// afterText says how long after the truck before one is due.
func (d Day) afterText(i int) string {
	if i == 0 {
		return ""
	}
	return fmt.Sprintf(", %d min after the one before", d.Loads[i].Due-d.Loads[i-1].Due)
}

// kgPerPound is exact: international yard and pound agreement, 1959.
const kgPerPound = 0.45359237

// DoseText writes a dose of fibers in the units of a job.
func DoseText(poundsPerYard float64, u geometry.Units) string {
	if u == geometry.Millimeters {
		return fmt.Sprintf("%.2f kg/m³", poundsPerYard*kgPerPound/cubicYard)
	}
	return fmt.Sprintf("%g lb/yd³", poundsPerYard)
}

// NeedText tells how the order comes about: "slab 18.34 yd³, with 7 % waste 19.62
// yd³, ordered 19.75 yd³: 0.13 yd³ in hand".
func (d Day) NeedText(waste decimal.Decimal) string {
	order := d.Order.InexactFloat64()
	text := fmt.Sprintf("slab %.2f %s, with %s %% waste %.2f %s, ordered %s %s", d.Net, d.Unit, waste, d.Need, d.Unit, d.Order, d.Unit)
	if order < d.Need {
		return text + fmt.Sprintf(": %.2f %s short of that", d.Need-order, d.Unit)
	}
	return text + fmt.Sprintf(": %.2f %s in hand", order-d.Need, d.Unit)
}

// LaneText tells the foreman where he should be at the end of a lane: "at the
// end of lane 2: 6.4 yd³ used, 4.6 yd³ left, by 08:10".
func (d Day) LaneText(lane int) string {
	for _, s := range d.Lanes {
		if s.Number == lane && len(s.Bays) > 0 {
			t := d.Times[s.Bays[len(s.Bays)-1]]
			of := ""
			if s.Name != "" {
				of = ", " + s.Name
			}
			return fmt.Sprintf("at the end of lane %d%s: %.1f %s used, %.1f %s left, by %s", lane, of, t.Used, d.Unit, t.Left, d.Unit, t.Done)
		}
	}
	return ""
}

// FloatText tells how far the bull float reaches on the lanes of a slab, and
// from where: beyond a lane is fresh concrete or a form, and the crew stands on
// the side that is not yet placed. "" for a slab without lanes.
func (d Day) FloatText(slab int, r Reach, u geometry.Units) string {
	var lanes []int
	var width geometry.Length
	for _, s := range d.Lanes {
		if s.Slab == slab {
			lanes, width = append(lanes, s.Number), s.Width
		}
	}
	if len(lanes) == 0 {
		return ""
	}
	text := fmt.Sprintf("bull float across %s, %s wide, from ", numbered("lane", lanes), Coarse(width, u))
	if len(lanes) > 1 {
		text += "the base of the next one and the last from "
	}
	text += "outside the form"
	if r.Float > 0 {
		text += fmt.Sprintf("; its handle reaches %s", r.Float.Text(u))
	}
	return text
}

// Coarse prints a length for people who place concrete: to the inch, or to the
// centimeter.
func Coarse(l geometry.Length, u geometry.Units) string {
	if u == geometry.Millimeters {
		return l.Round(10 * geometry.Millimeter).Text(u)
	}
	return l.Round(geometry.Inch).Text(u)
}

// PlaceMark gives the mark of a truck's place, from 0.
func PlaceMark(place int) mark.Mark { return mark.Mark{Kind: mark.Truck, N: place + 1} }

// Mark gives a wet pad's mark.
func (p Pad) Mark() mark.Mark { return mark.Mark{Kind: mark.WetPad, N: p.Number} }

// PlaceText tells what is filled from a truck's place, from 0, and whether that is
// within reach: "TR1: bays 1 to 4; bay 1 is beyond 16'-0"".
func (d Day) PlaceText(place int, u geometry.Units) string {
	p := d.Places[place]
	name := PlaceMark(place).String()
	switch {
	case len(p.Bays) == 0:
		return name + " is nearest to no bay"
	case p.Reach == 0:
		return fmt.Sprintf("%s: %s", name, numbered("bay", p.Bays))
	case len(p.Outside) == 0:
		return fmt.Sprintf("%s: %s, all within %s", name, numbered("bay", p.Bays), p.Reach.Text(u))
	case len(p.Outside) == len(p.Bays):
		return fmt.Sprintf("%s: %s, none within %s", name, numbered("bay", p.Bays), p.Reach.Text(u))
	}
	return fmt.Sprintf("%s: %s; %s %s beyond %s", name, numbered("bay", p.Bays), numbered("bay", p.Outside), isAre(len(p.Outside)), p.Reach.Text(u))
}

// TrowelText tells when power troweling may start, by the weather given; "" for
// none.
func (d Day) TrowelText() string {
	if len(d.Hours) == 0 || len(d.Times) == 0 {
		return ""
	}
	if slices.ContainsFunc(d.Hours, func(h HourReport) bool { return h.Trowel == (Range{}) }) {
		return "No time of troweling is given for a day on which it freezes."
	}
	first, last := d.Times[0].Done, d.Times[len(d.Times)-1].Done
	text := fmt.Sprintf("Power troweling may start on the first bay between %s", d.trowelFrom(first))
	if len(d.Times) > 1 {
		text += fmt.Sprintf(", on the last between %s", d.trowelFrom(last))
	}
	return text + "."
}

// trowelFrom gives the span in which a bay done at a time may be troweled, by
// the weather of that hour.
func (d Day) trowelFrom(done Clock) string {
	r := d.trowelAfter(done)
	return fmt.Sprintf("%s and %s", done+Clock(r.From), done+Clock(r.To))
}

// trowelAfter gives how long after a bay is done it may be troweled; zero where nobody
// knows.
func (d Day) trowelAfter(done Clock) Range {
	if len(d.Hours) == 0 {
		return Range{}
	}
	at := d.Hours[0]
	for _, h := range d.Hours {
		if h.Hour.Time <= done {
			at = h
		}
	}
	return at.Trowel
}

// CallText tells when the last load is called and how to check it; "" where one
// load is all.
func (d Day) CallText() string {
	c := d.Call
	if !c.Needed {
		return ""
	}
	where := fmt.Sprintf("in bay %d: %.1f %s placed, %.1f %s to go. Measure what is left to fill first; by the plan the last load brings %.1f of its %s %s",
		c.Bay, c.Placed, d.Unit, c.Left, d.Unit, c.Bring, d.Loads[len(d.Loads)-1].Volume, d.Unit)
	if c.Held {
		return fmt.Sprintf("The last load is batched before any concrete is placed. To size it by what is left to fill, hold it and call at %s, %s. The crew then waits %.0f min for it.", c.At, where, c.Idle)
	}
	return fmt.Sprintf("Call the last load by %s, %s.", c.At, where)
}

// Drawn tells whether a plan of a slab says more than that it is one bay.
func (d Day) Drawn(slab int) bool {
	bays := 0
	for _, b := range d.Bays {
		if b.Slab == slab {
			bays++
		}
	}
	return bays > 1 || len(d.Places) > 0 || slices.ContainsFunc(d.Pads, func(p Pad) bool { return p.Slab == slab })
}
