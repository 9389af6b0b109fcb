package pour

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// Stage is what may be done with the slab some time after it is finished.
type Stage struct {
	Name   string
	From   string // earliest to usual, for people
	Source string
	Note   string
}

// Said gives a stage as it is read by people, with its source where one is published.
func (s Stage) Said() string {
	text := s.Name + ": " + s.From
	if s.Note != "" {
		text += "; " + s.Note
	}
	if s.Source != practice {
		text += " (" + s.Source + ")"
	}
	return text
}

// Saw is what saw cuts are made with on the day.
type Saw int

// The saws.
const (
	NoSaw    Saw = iota // nothing is cut
	UsualSaw            // the conventional one, which waits until the concrete is hard
	EarlySaw            // the early-entry one
)

// cureStages gives the usual ranges, longer where the weather is cold. The mix's
// supplier and the engineer decide; strength and not time is what counts.
func cureStages(weather []Hour, saw Saw, u geometry.Units) []Stage {
	stages := []Stage{
		{"Start curing", "as soon as the surface is not marred", "ACI 308R", "curing compound, wet cover or sheeting; keep it up for 7 days at " + Fahrenheit(50).Text(u) + " or above"},
	}
	switch saw {
	case EarlySaw:
		stages = append(stages, Stage{"Saw cuts, early-entry saw", "1 to 4 h after finishing", "ACI 302.1R", "as soon as the cut does not ravel"})
	case UsualSaw:
		stages = append(stages, Stage{"Saw cuts, conventional saw", "4 to 12 h after finishing", "ACI 302.1R", "the same day in hot weather, before it cracks by itself"})
	}
	stages = append(stages, []Stage{
		{"Strip edge forms", "12 to 24 h", practice, "when the edge is not damaged by it"},
		{"Walk on it, lay out walls", "24 to 48 h", practice, ""},
		{"Stand walls, tighten bolts", "3 to 7 days", practice, "snug only, before 7 days"},
		{"Cars and light trucks", "7 to 10 days", practice, "at about 70 % of the specified strength"},
		{"Full loads", "28 days, or when cylinders show the strength", practice, "the age at which strength is specified"},
	}...)
	if slow := coldNote(weather, u); slow != "" {
		for i := range stages[1:] {
			stages[i+1].Note = joinNotes(stages[i+1].Note, slow)
		}
	}
	return stages
}

// coldNote says how the coldest air given slows the concrete; "" where it does not
// much. Below freezing it gives no time: what is not protected gains nothing.
func coldNote(weather []Hour, u geometry.Units) string {
	if len(weather) == 0 {
		return ""
	}
	at := slices.MinFunc(weather, func(a, b Hour) int { return cmp.Compare(a.Air.F(), b.Air.F()) }).Air
	kept := ""
	switch {
	case at.C() <= 0:
		return fmt.Sprintf("freezing, %s: no time is given; protect it, and go by strength measured", at.Text(u))
	case at.F() >= 50:
		return ""
	case at.F() < coldAirF: // concrete is then to be kept warmer than the air
		at, kept = Fahrenheit(coldAirF), ", kept so by cover or heat,"
	}
	return fmt.Sprintf("cold: at %s%s about %.1f times as long (Nurse-Saul maturity, ASTM C1074, datum %s)", at.Text(u), kept, coldFactor(at), Celsius(coldDatum).Text(u))
}

// coldDatum is the temperature, °C, below which concrete is taken to gain nothing: the
// default of a guide to ASTM C1074, and the cautious one; the older convention is
// -10 °C, by which times in the cold come out at half.
const coldDatum = 0.0

// coldFactor gives how many times as long concrete at one temperature, above the
// datum, takes as at 20 °C for the same Nurse-Saul maturity: the sum of time times the
// temperature above the datum, ASTM C1074.
func coldFactor(at Temperature) float64 {
	const usual = 20.0
	return (usual - coldDatum) / (at.C() - coldDatum)
}

func joinNotes(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// Caution is a warning to show where its step is planned or done.
type Caution struct {
	Step   string // "Placing"
	Text   string
	Source string
	Line   string // on paper, where a line must do; "" where another sheet says it
}

// Cautions lists the warnings of the day, in the order of its steps.
func (d Day) Cautions() []Caution {
	all := Cautions()
	if d.Saw == NoSaw {
		all = slices.DeleteFunc(all, func(c Caution) bool { return c.Step == "Sawing" })
	}
	return all
}

// Cautions lists the warnings of any day, in the order of its steps.
func Cautions() []Caution {
	return []Caution{
		{"Before the truck", "Call before you dig, days ahead (811 in the US): trench, stakes and pump outriggers go where pipes and cables may be.", "the one-call law of the place", ""},
		{"Before the truck", "Look up and around: overhead lines, soft ground, room to turn. Keep the truck back from the edge of a trench by at least the trench's depth.", "common practice", "Look up: lines, soft ground, room to turn."},
		{"Before the truck", "Cap bars and bolts that stick up where anyone could fall on them.", "OSHA 29 CFR 1926.701(b)", ""},
		{"Chute and pump", "Keep hands clear of the chute's hinge; nobody stands in front of a hose that is being primed or cleared.", "common practice", "Hands off the chute's hinge; clear of hoses."},
		{"Chute and pump", "Keep a boom and its hose at least 20 ft (6 m) from power lines, and take every line for live.", "OSHA 29 CFR 1926.1408 for cranes, taken over for booms; from memory", "Boom and hose 20 ft (6 m) off live lines."},
		{"Backing up", "One person guides the truck and stays in the driver's sight.", "common practice", "One guides the truck, in sight of its driver."},
		{"Placing", "Wet cement burns skin and eyes: gloves, boots, eye protection; wash splashes at once and change wet clothes.", "the cement's safety data sheet", "Wet cement burns: gloves, boots, goggles; wash."},
		{"Placing", "Never add water to loosen the mix without the plant's word: it costs strength. Ask for a water reducer.", "ASTM C94/C94M", "No water added without the plant's word."},
		{"Placing", "Concrete is heavy: a pail of 5 gal (19 L) weighs about 100 lb (45 kg). Rake it, do not lift it; carry a straightedge and a full barrow by two.", "150 lb/ft³ (2,400 kg/m³), common practice", "Rake, do not lift; carry what is heavy by two."},
		{"Finishing", "Kneel on boards with dry pads, never in fresh concrete: burns show hours later.", "the cement's safety data sheet", "Kneel on dry boards, never in fresh concrete."},
		{"Finishing", "Do not trowel bleed water in. Guards on the power trowel; fuel it away from the slab, never indoors without air.", "common practice", "No engine indoors; trowel no bleed water in."},
		{"Sawing", "Concrete dust holds silica: saw wet or with a vacuum, and wear a respirator where that is not enough.", "OSHA 29 CFR 1926.1153", "Saw wet or vacuumed (OSHA 29 CFR 1926.1153)."},
		{"Hot days", "Water, shade and rest for the crew.", "common practice", "Hot days: water, shade and rest."},
		{"Wash-out", "Wash trucks and tools out where nothing runs into drains, ditches or the ground.", "common practice", "Wash out clear of drains and ditches."},
	}
}
