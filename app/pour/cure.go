package pour

// Stage is what may be done with the slab some time after it is finished.
type Stage struct {
	Name   string
	From   string // earliest to usual, for people
	Source string
	Note   string
}

// cureStages gives the usual ranges, longer where the weather is cold. The mix's
// supplier and the engineer decide; strength and not time is what counts.
func cureStages(weather []Hour) []Stage {
	cold := false
	for _, h := range weather {
		cold = cold || h.Air.F() < 50
	}
	const practice = "common practice"
	stages := []Stage{
		{"Start curing", "as soon as the surface is not marred", "ACI 308R", "curing compound, wet cover or sheeting; keep it up for 7 days at 50 °F (10 °C) or above"},
		{"Saw control joints, early-entry saw", "1 to 4 h after finishing", "ACI 302.1R", "as soon as the cut does not ravel"},
		{"Saw control joints, conventional saw", "4 to 12 h after finishing", "ACI 302.1R", "the same day in hot weather, before it cracks by itself"},
		{"Strip edge forms", "12 to 24 h", practice, "when the edge is not damaged by it"},
		{"Walk on it, lay out walls", "24 h", practice, ""},
		{"Stand walls, tighten bolts", "3 to 7 days", practice, "snug only, before 7 days"},
		{"Cars and light trucks", "7 days", practice, "at about 70 % of the specified strength"},
		{"Full loads", "28 days", practice, "the age at which strength is specified"},
	}
	if cold {
		for i := range stages[1:] {
			stages[i+1].Note = joinNotes(stages[i+1].Note, "cold weather: up to twice as long")
		}
	}
	return stages
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
}

// Cautions lists the warnings of the day, in the order of its steps.
func Cautions() []Caution {
	return []Caution{
		{"Before the truck", "Look up and around: overhead lines, soft ground, room to turn. Keep the truck back from the edge of a trench by at least the trench's depth.", "common practice"},
		{"Before the truck", "Cap bars and bolts that stick up where anyone could fall on them.", "OSHA 29 CFR 1926.701(b)"},
		{"Chute and pump", "Keep hands clear of the chute's hinge; nobody stands in front of a hose that is being primed or cleared.", "common practice"},
		{"Backing up", "One person guides the truck and stays in the driver's sight.", "common practice"},
		{"Placing", "Wet cement burns skin and eyes: gloves, boots, eye protection; wash splashes at once and change wet clothes.", "the cement's safety data sheet"},
		{"Placing", "Never add water to loosen the mix without the plant's word: it costs strength. Ask for a water reducer.", "ASTM C94/C94M"},
		{"Finishing", "Do not trowel bleed water in. Guards on the power trowel; fuel it away from the slab, never indoors without air.", "common practice"},
		{"Sawing", "Concrete dust holds silica: saw wet or with a vacuum, and wear a respirator where that is not enough.", "OSHA 29 CFR 1926.1153"},
		{"Hot days", "Water, shade and rest for the crew.", "common practice"},
		{"Wash-out", "Wash trucks and tools out where nothing runs into drains, ditches or the ground.", "common practice"},
	}
}
