package sheet

// Cautions that stand on the sheets where the work happens.
const (
	cautionWet    = "Wet cement burns skin and eyes: gloves, boots, eye protection; wash at once."
	cautionSilica = "Drilling or sawing concrete makes silica dust: wet or vacuum, and respirator (OSHA 29 CFR 1926.1153)."
	cautionDig    = "Call before you dig (811 in the US)."
	cautionCaps   = "Cap bars, bolts and stakes."
	cautionEdge   = "Keep the truck back from trenches."
	cautionLift   = "Lift bars, boards and bags by two."
	cautionGlue   = "Adhesive: gloves and air; blow and brush the hole, by its maker's data."
	cautionDefer  = "Estimating aid only. Local code and a licensed engineer decide."
)

// cautionBlock lists cautions.
func cautionBlock(items ...string) block {
	return notes{title: "Cautions", items: items, size: sizeFine, bullet: "!", whole: true}
}
