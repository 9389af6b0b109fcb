package pour

import (
	"fmt"
	"strings"

	"haunchbook/app/takeoff"
	"haunchbook/geometry"
)

// OrderText gives the order as it is read out on the telephone, and copied into a
// message: a line each, plain text.
func (d Day) OrderText(job, site, date string, mix takeoff.Mix, s Spec, u geometry.Units) string {
	var b strings.Builder
	line := func(label, format string, args ...any) {
		fmt.Fprintf(&b, "%-12s %s\n", label+":", fmt.Sprintf(format, args...))
	}
	if job != "" {
		line("Job", "%s", job)
	}
	if site != "" {
		line("Deliver to", "%s", site)
	}
	if date != "" {
		line("Date", "%s", date)
	}
	line("Concrete", "%s %s", d.Order, d.Unit)
	line("Strength", "%s", strengthText(mix.Strength, u))
	line("Slump", "%s on arrival", mix.Slump.Text(u))
	line("Aggregate", "%s", mix.Aggregate.Text(u))
	if mix.Air > 0 {
		line("Air", "%g %% entrained", mix.Air)
	} else {
		line("Air", "none entrained")
	}
	if mix.Fiber > 0 {
		line("Fiber", "%s", fiberText(mix.Fiber, u))
	}
	if mix.Reducer {
		line("Admixtures", "water reducer; no water added on site")
	}
	if s.Trucks.AskTemp.Known() {
		line("Temperature", "%s on arrival", s.Trucks.AskTemp)
	}
	if mix.Notes != "" {
		line("Also", "%s", mix.Notes)
	}
	for i, l := range d.Loads {
		line(fmt.Sprintf("Truck %d", i+1), "%s %s, on site at %s", l.Volume, d.Unit, l.Due)
	}
	if d.Call.Needed {
		line("Hold", "truck %d until we call, by %s", len(d.Loads), d.Call.At)
	}
	line("Placed by", "%s, %d people", [...]string{Chute: "chute", Pump: "pump", Buggy: "buggy"}[s.Reach.Method], s.Crew.People)
	line("Ask", "that each load is empty within %d min of batching", s.Trucks.Limit)
	return b.String()
}

// psiPerMPa: 1 psi is 0.006 894 757 MPa, NIST SP 811, appendix B.
const psiPerMPa = 1 / 0.006894757

func strengthText(psi int, u geometry.Units) string {
	if u == geometry.Millimetres {
		return fmt.Sprintf("%.1f MPa (%d psi) at 28 days", float64(psi)/psiPerMPa, psi)
	}
	return fmt.Sprintf("%d psi at 28 days", psi)
}

// kgPerPound is exact: international yard and pound agreement, 1959.
const kgPerPound = 0.45359237

func fiberText(poundsPerYard float64, u geometry.Units) string {
	if u == geometry.Millimetres {
		return fmt.Sprintf("%.2f kg/m³", poundsPerYard*kgPerPound/cubicYard)
	}
	return fmt.Sprintf("%g lb/yd³", poundsPerYard)
}

// StripText tells the foreman where he should be at the end of a strip: "at the
// end of strip 2: 6.4 yd³ used, 4.6 yd³ left, by 08:10".
func (d Day) StripText(strip int) string {
	for _, s := range d.Strips {
		if s.Number == strip && len(s.Bays) > 0 {
			t := d.Times[s.Bays[len(s.Bays)-1]]
			return fmt.Sprintf("at the end of strip %d: %.1f %s used, %.1f %s left, by %s", strip, t.Used, d.Unit, t.Left, d.Unit, t.Done)
		}
	}
	return ""
}

// CallText tells when the last load is called off and how to check it.
func (d Day) CallText() string {
	if len(d.Loads) < 2 {
		return ""
	}
	if !d.Call.Needed {
		return "The last load is batched before any of the first is placed: measure the base well, for nothing can be called off by eye."
	}
	return fmt.Sprintf("Call the last load off by %s, in bay %d: %.1f %s placed by then and %.1f %s to go. Measure what is left to fill before calling.",
		d.Call.At, d.Call.Bay, d.Call.Placed, d.Unit, d.Call.Left, d.Unit)
}
