package field

var specRows = rows("spec",
	part("", "", "What goes into the slabs and under them.").rule(doseOfFiber, lapsThatFit),
)

var mixRows = rows("spec.mix",
	part("", "Concrete mix", "What the plant is asked for."),
	row(PSI, "strength", "Strength", "At 28 days; garage slabs take 3,000 to 3,500 psi.").
		is(3000, "IRC Table R402.2: garage slabs, moderate weathering").
		inSI(3626, "At 28 days; garage slabs take 21 to 24 MPa, and plants sell 20, 25 and 30.").bySI("IRC Table R402.2: garage slabs, 21 to 24 MPa").from(1000, 20000).
		trade(2500, 5000, "IRC Table R402.2: 2,500 to 3,500 psi by use and weathering; above 5,000, "+practice).tradeSI("IRC Table R402.2: 17 to 24 MPa by use and weathering; above 35, "+practice),
	inches("slump", "Slump", "At the chute (ASTM C143/C143M); 5 to 6 1/2 in with a water reducer.").
		is(5*inch, "common practice, with a water reducer").from(0, 12*inch).trade(2*inch, 8*inch, practice),
	inches("aggregate", "Aggregate, largest", "Nominal maximum size of the stone; 3/4 in is usual.").
		is(3*inch/4, practice).inSI(20e6, "Nominal maximum size of the stone; 20 mm is usual.").from(0, 6*inch).trade(3*inch/8, 1.5*inch, practice),
	row(Percent, "air", "Entrained air", "By volume (ASTM C231); 5 to 7 % where it freezes (IRC Table R402.2), at most 3 % in all under a trowel (ACI 302.1R).").
		from(0, 20).trade(0, 8, practice).zero("none entrained"),
	row(Dose, "fiber", "Fibers", "Dose in the mix (ASTM C1116); 1.5 lb/yd³ of fine synthetic ones is usual.").
		inSI(nil, "Dose in the mix (ASTM C1116); 0.9 kg/m³ of fine synthetic ones is usual.").
		from(0, 200).trade(0.5, 15, practice).zero("none"),
	check("reducer", "Water reducer", "Loosens the mix without added water (ASTM C494, type A or F).").is(true, practice),
	text("notes", "Notes for the plant", "Printed on the order.").long(100_000),
)

// doseOfFiber asks for a dose where fibers reinforce the field.
func doseOfFiber(w View) {
	if w.text("place.field.kind") == "fiber" && w.number("mix.fiber") == 0 {
		w.fault("mix.fiber", "0", "the field is reinforced by fiber: give its dose in lb/yd³")
	}
}
