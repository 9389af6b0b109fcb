package pour

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// Hour is the weather at one time of the day, with the concrete's temperature as
// it leaves the truck. Humidity may be given as a dew point instead.
type Hour struct {
	Time     Clock       `json:"time"`
	Air      Temperature `json:"air"`
	Concrete Temperature `json:"concrete"`
	Humidity float64     `json:"humidity,omitzero"` // relative, percent
	Dew      Temperature `json:"dew,omitzero"`      // dew point, instead of Humidity
	Wind     Speed       `json:"wind,omitzero"`     // about 20 in above the slab
}

// EvaporationLimit is the rate at which precautions against plastic shrinkage
// cracking are called for: ACI 305R, "Guide to Hot Weather Concreting".
var EvaporationLimit = Rate{US: 0.2, SI: 1.0}

// EvaporationUS gives the rate at which water leaves a fresh slab, in lb/ft²/h:
//
//	E = (Tc^2.5 − r·Ta^2.5)·(1 + 0.4·V)·10⁻⁶
//
// with the concrete's and the air's temperature in °F, the relative humidity r
// from 0 to 1, and the wind V in mph about 20 in above the slab.
//
// Source: P. J. Uno, "Plastic Shrinkage Cracking and Evaporation Formulas", ACI
// Materials Journal 95-M34, July 1998; also in ACI 305R. It is made for
// temperatures above freezing; below 0 °F it takes 0. A negative rate is dew,
// and counts as none.
func EvaporationUS(concreteF, airF, r, windMPH float64) float64 {
	tc, ta := max(concreteF, 0), max(airF, 0)
	return max(0, (math.Pow(tc, 2.5)-r*math.Pow(ta, 2.5))*(1+0.4*windMPH)*1e-6)
}

// EvaporationSI is the same source's metric form, in kg/m²/h with °C and km/h:
//
//	E = 5·([Tc+18]^2.5 − r·[Ta+18]^2.5)·(V+4)·10⁻⁶
//
// Its constants are rounded: it gives 3 to 5 % less than EvaporationUS.
func EvaporationSI(concreteC, airC, r, windKMH float64) float64 {
	tc, ta := max(concreteC+18, 0), max(airC+18, 0)
	return max(0, 5*(math.Pow(tc, 2.5)-r*math.Pow(ta, 2.5))*(windKMH+4)*1e-6)
}

// HumidityFromDew gives the relative humidity, 0 to 1, of air at a dew point. It
// is the quotient of the vapor pressures by the Magnus form with the constants
// of O. A. Alduchov and R. E. Eskridge, "Improved Magnus Form Approximation of
// Saturation Vapor Pressure", Journal of Applied Meteorology 35 (1996).
func HumidityFromDew(air, dew Temperature) float64 {
	exponent := func(t float64) float64 { return 17.625 * t / (243.04 + t) }
	return min(1, math.Exp(exponent(dew.C())-exponent(air.C())))
}

// RelativeHumidity gives the hour's humidity, 0 to 1, from whichever was given.
func (h Hour) RelativeHumidity() float64 {
	if h.Dew.Known() {
		return HumidityFromDew(h.Air, h.Dew)
	}
	return h.Humidity / 100
}

// Rate is an evaporation rate in both units; each by its own form.
type Rate struct{ US, SI float64 } // lb/ft²/h and kg/m²/h

// Evaporation gives the hour's evaporation rate.
func (h Hour) Evaporation() Rate {
	r := h.RelativeHumidity()
	return Rate{
		EvaporationUS(h.Concrete.F(), h.Air.F(), r, h.Wind.MPH()),
		EvaporationSI(h.Concrete.C(), h.Air.C(), r, h.Wind.KMH()),
	}
}

// In gives the rate in lb/ft²/h for a job in feet and inches, in kg/m²/h for one
// in millimeters.
func (r Rate) In(u geometry.Units) float64 {
	if u == geometry.Millimeters {
		return r.SI
	}
	return r.US
}

// Over tells whether the rate, as a job in u shows it, reaches the limit.
func (r Rate) Over(u geometry.Units) bool { return r.In(u) >= EvaporationLimit.In(u) }

// Text prints the rate in the job's units.
func (r Rate) Text(u geometry.Units) string {
	if u == geometry.Millimeters {
		return fmt.Sprintf("%.2f kg/m²/h", r.SI)
	}
	return fmt.Sprintf("%.2f lb/ft²/h", r.US)
}

// near is the share of the limit from which a rate is worth watching: our own
// margin, since ACI 305R asks for precautions as the rate approaches the limit. The
// formula itself is good to about ±40 % (abstracts of Uno's paper).
const near = 0.75

// silicaShare is the share of the limit that is asked of mixes with silica fume, which
// bleed little (association slides).
const silicaShare = 0.5

// thickSection is the least dimension above which ACI 306R allows cooler
// concrete.
const thickSection = 12 * geometry.Inch

// findings gives what an hour's weather asks for on a slab whose field is so
// thick. The evaporation limits are of ACI 305R; of the cold limits of ACI 306R, the
// temperatures are confirmed, other wording is from memory.
func (h Hour) findings(field geometry.Length, u geometry.Units) []rule.Finding {
	var out []rule.Finding
	add := func(name, source string, how rule.Severity, format string, args ...any) {
		out = append(out, found(name, source, how, format, args...))
	}
	e := h.Evaporation()
	const guess = "±40 %; half of it with silica fume in the mix"
	switch limit := EvaporationLimit.Text(u); {
	case e.Over(u):
		add("Evaporation", "Uno 1998; ACI 305R", rule.Limit,
			"Evaporation of %s is above the limit of %s (%s). Guard against plastic shrinkage cracks: windbreaks, fog spray, "+
				"evaporation retarder after each pass, sheeting at once, cooler concrete, or another hour.", e.Text(u), limit, guess)
	case e.In(u) >= near*EvaporationLimit.In(u):
		add("Evaporation", "Uno 1998; ACI 305R", rule.Note,
			"Evaporation of %s comes near the limit of %s (%s). Have fog spray, evaporation retarder and sheeting at hand.", e.Text(u), limit, guess)
	case e.In(u) >= silicaShare*EvaporationLimit.In(u):
		add("Evaporation", "Uno 1998; ACI 305R", rule.Note,
			"Evaporation of %s is over half the limit of %s (%s). With silica fume, guard against plastic shrinkage cracks.", e.Text(u), limit, guess)
	}
	if h.Concrete.F() > 95 {
		add("Hot concrete", "ACI 305.1, from memory", rule.Limit, "Concrete at %s is above %s: ask the plant for chilled water or ice, or pour earlier.", h.Concrete.Text(u), Fahrenheit(95).Text(u))
	} else if h.Air.F() >= 80 {
		add("Hot weather", practice, rule.Note, "Air at %s: it sets fast. Damp the base, no standing water; keep trucks close together, have hands enough to finish.", h.Air.Text(u))
	}
	if h.Air.F() < coldAirF {
		add("Cold weather", "ACI 306R; protection period from memory", rule.Limit, "Air at %s is below %s: no frost in the ground; cover and heat for the protection period of %d days (%d with an accelerator or richer mix), "+
			"and let it not freeze before %s.", h.Air.Text(u), Fahrenheit(coldAirF).Text(u), protectDays, protectDaysFast, frostStrength(u))
	}
	if least := Fahrenheit(leastConcreteF(field)); h.Concrete.F() < least.F() {
		add("Cold concrete", "ACI 306R", rule.Limit, "Concrete at %s: a section %s thick is to be at least %s when placed. Ask the plant for warmer.", h.Concrete.Text(u), field.Text(u), least.Text(u))
	}
	return out
}

// coldAirF is the air below which concrete is protected: ACI 306R.
const coldAirF = 40

// The protection period of concrete that is exposed to frost but carries no load early,
// as a slab on ground: ACI 306R, table of protection periods, from memory.
const protectDays, protectDaysFast = 3, 2

// frostStrength is the strength before which concrete is not to freeze even once:
// ACI 306R, from memory, and as the trade press quotes it.
func frostStrength(u geometry.Units) string {
	if u == geometry.Millimeters {
		return "3.5 MPa"
	}
	return "500 psi"
}

// weatherFindings gives what the weather asks for, each thing once for all its hours:
// as it is in the worst of them.
func weatherFindings(hours []Hour, field geometry.Length, u geometry.Units) []rule.Finding {
	type asked struct {
		finding rule.Finding
		from    Clock
		to      Clock
		worse   float64
	}
	var out []asked
	for _, h := range hours {
		for _, f := range h.findings(field, u) {
			weight := 1000*float64(f.Severity) + h.grave(f.Rule.Name)
			i := slices.IndexFunc(out, func(a asked) bool { return a.finding.Rule.Name == f.Rule.Name })
			if i < 0 {
				out = append(out, asked{f, h.Time, h.Time, weight})
				continue
			}
			a := &out[i]
			if a.to = h.Time; weight > a.worse {
				a.finding, a.worse = f, weight
			}
		}
	}
	fs := make([]rule.Finding, len(out))
	for i, a := range out {
		fs[i] = a.finding
		when := a.from.String()
		if a.to != a.from {
			when += " to " + a.to.String() + ", at worst"
		}
		fs[i].Text = when + ": " + strings.ToLower(fs[i].Text[:1]) + fs[i].Text[1:]
	}
	return fs
}

// grave gives how much an hour weighs among those of which the same is said.
func (h Hour) grave(name string) float64 {
	switch name {
	case "Evaporation":
		return h.Evaporation().US
	case "Hot concrete":
		return h.Concrete.F()
	case "Hot weather":
		return h.Air.F()
	case "Cold concrete":
		return -h.Concrete.F()
	}
	return -h.Air.F()
}

// underFindings tells what lies under the slab does to its finishing, and where
// IRC R506.2.3 asks for a vapor retarder.
func underFindings(under takeoff.Base, use Use, hours []Hour) []rule.Finding {
	var out []rule.Finding
	warm := slices.ContainsFunc(hours, func(h Hour) bool { return h.Air.F() >= 70 })
	if under.Foam > 0 && warm {
		out = append(out, found("Foam under the slab", practice, rule.Note,
			"Over foam no water leaves downward and the slab warms sooner: expect to finish at the early end of the range."))
	}
	if under.Retarder > 0 && use == Garage {
		out = append(out, planning(found("No vapor retarder asked", "IRC R506.2.3, exceptions", rule.Note,
			"Under a garage or an unheated accessory building no vapor retarder is asked.")))
	}
	switch {
	case under.Retarder > 0:
		out = append(out, found("Vapor retarder under the slab", practice, rule.Note,
			"Over a vapor retarder bleed water only leaves upward: do not trowel it in, and keep the top from drying ahead of the bottom, which curls the slab."))
	case use == Interior:
		out = append(out, found("Vapor retarder under the slab", "IRC R506.2.3, recent editions", rule.Limit,
			"No vapor retarder is under an interior floor: lay one of at least 10 mil (6 mil in older editions), lapped 6 in, unless the building is unheated or the building official lets it go."))
	}
	return out
}

func leastConcreteF(field geometry.Length) float64 {
	if field < thickSection {
		return 55
	}
	return 50
}

// Range is a span of time; no crew and no mix keeps to one number.
type Range struct{ From, To int } // minutes

// Trowel gives the span after bull-floating in which power troweling starts.
//
// On a warm day of about 80 °F it is 45 to 60 min (common practice, no source).
// For every 10 °F the setting time changes by about a third (a rule of thumb of
// the trade, from memory); the temperature is the mean of air and concrete. Published
// ranges run from 2 to 8 h for a cool day. The surface itself tells: floating begins
// when the bleed water is gone and a footprint is about 1/4 in deep, and troweling
// follows it. Where air or concrete freeze there is no range: the zero Range.
func (h Hour) Trowel() Range {
	if h.Air.C() <= 0 || h.Concrete.C() <= 0 {
		return Range{}
	}
	t := (h.Air.F() + h.Concrete.F()) / 2
	f := math.Pow(1.33, (80-t)/10)
	return Range{int(math.Round(45*f/5)) * 5, int(math.Round(60*f/5)) * 5}
}

// TrowelBasis says what Trowel's range rests on, in the job's units.
func TrowelBasis(u geometry.Units) string {
	warm, step, deep := "80 °F", "10 °F", "1/4 in"
	if u == geometry.Millimeters {
		warm, step, deep = "27 °C", "6 °C", "6 mm"
	}
	return fmt.Sprintf("Float when bleed water is gone and a footprint is about %s deep; trowel after it. From bull-floating: 45 to 60 min on a day of %s (common practice, no source), "+
		"a third longer for every %s cooler (from memory); published, 2 to 8 h on a cool day. Watch the slab, not the clock.", deep, warm, step)
}

// Text prints the range: "45 to 60 min", "1:30 to 2:00 h"; where there is none, so.
func (r Range) Text() string {
	if r == (Range{}) {
		return "no range: freezing"
	}
	if r.To < 90 {
		return fmt.Sprintf("%d to %d min", r.From, r.To)
	}
	return fmt.Sprintf("%d:%02d to %d:%02d h", r.From/60, r.From%60, r.To/60, r.To%60)
}

// ofWeather are the names of what weather asks for.
var ofWeather = []string{"Evaporation", "Hot concrete", "Hot weather", "Cold weather", "Cold concrete", "Rain", "Freezing nights"}

// OfWeather tells whether a finding of a day is of its weather.
func OfWeather(f rule.Finding) bool { return slices.Contains(ofWeather, f.Rule.Name) }
