package sheet

// cautions are what a sheet for the crew always says. Sources: OSHA 29 CFR
// 1926.1153 (respirable silica) and 1926.701(b) (impalement).
var cautions = []string{
	"Wet cement burns skin and eyes: gloves, boots, eye protection; wash at once.",
	"Drilling or sawing concrete makes silica dust: wet or vacuum, and respirator (OSHA 1926.1153).",
	"Call before you dig (811 in the US).",
	"Cap protruding bars and bolts (OSHA 1926.701(b)).",
	"Keep the truck back from trench edges.",
	"Estimating aid only. Local code and a licensed engineer decide.",
}

func cautionBlock() block {
	return notes{title: "Cautions", items: cautions, size: sizeFine, bullet: "!"}
}
