package field

var boltRows = rows("spec.place.bolts",
	part("", "Anchor bolts", "How sill plates are held."),
	inches("diameter", "Diameter", "Of the shaft; 1/2 in is usual.").
		is(inch/2, "IRC R403.1.6: at least 1/2 in").inSI(16e6, "Of the shaft; M16 is the least metric size of at least 13 mm.").from(inch/8, 4*inch).trade(inch/2, inch, "IRC R403.1.6: at least 1/2 in"),
	choice("shape", "Shape", "Bent with a hook at its lower end, or headed (ASTM F1554).", "bent: bent, with a hook", "headed"),
	inches("hook", "Hook", "From the shaft to the tip; about 4 diameters.").
		is(2*inch, "4 diameters; ACI 318-19 17.6.3.2.2, from memory: 3 to 4.5").inSI(65e6, "").from(0, 12*inch).
		trade(inch, 4.5*inch, "ACI 318-19 17.6.3.2.2, from memory: 3 to 4.5 diameters").when("shape", "bent"),
	setting("Bolts held at their marks before the pour, or set in the fresh concrete, as is common on small slabs: ask the inspector first.").is("wet", practice),
	inches("length", "Length", "As bought, over all; 10 in is usual.").is(10*inch, practice).from(inch, 10*foot).trade(8*inch, 2*foot, practice),
	inches("projection", "Sticks up", "Above the slab: plate, washer and nut; about 2 1/2 in.").
		is(2.5*inch, "plate, washer and nut; "+practice).from(0, 10*foot).trade(1.5*inch, 6*inch, practice).atMost("length", 0),
	inches("embed", "In concrete, least", "At least 7 in.").
		is(7*inch, "IRC R403.1.6").inSI(180e6, "").from(0, 10*foot).trade(7*inch, 2*foot, "IRC R403.1.6: at least 7 in"),
	feet("spacing", "Spacing, at most", "4 to 6 ft.").
		is(6*foot, "IRC R403.1.6: at most 6 ft").from(6*inch, 100*foot).trade(foot, 6*foot, "IRC R403.1.6: at most 6 ft"),
	inches("end", "From a plate's end", "As placed.").is(8*inch, practice).from(0, plenty).
		trade(3.5*inch, 12*inch, "IRC R403.1.6: 7 diameters to 12 in").atLeast("endmin", 0).atMost("endmax", 0),
	inches("endmax", "From a plate's end, at most", "12 in.").is(12*inch, "IRC R403.1.6").from(0, plenty).trade(3.5*inch, 12*inch, "IRC R403.1.6: at most 12 in"),
	inches("endmin", "From a plate's end, at least", "7 diameters: 3 1/2 in for 1/2 in.").
		is(3.5*inch, "IRC R403.1.6: 7 diameters").inSI(115e6, "7 diameters: 112 mm for 16 mm.").from(0, plenty).trade(3.5*inch, 12*inch, "IRC R403.1.6: at least 7 diameters").atMost("endmax", 0),
	inches("apart", "Any two, at least", "Center to center.").is(4*inch, practice).from(0, 2*foot).trade(2*inch, foot, practice),
	inches("offset", "From the face", "Of the shaft's middle; about 2 3/4 in for a 2x6 plate.").
		from(0, 2*foot).trade(1.5*inch, 6*inch, practice).zero("the middle of the plate"),
	inches("washer", "Washer", "Side of a plate washer, or diameter of a round one; 3 in where braced walls need them.").
		is(3*inch, "IRC R602.11.1, in high seismic categories").from(0, 12*inch).trade(inch, 4*inch, practice),
	inches("jamb", "Plate short of a jamb", "Plates stop short of a rough opening by this.").from(0, 4*foot).trade(0, 6*inch, practice),
	feet("stock", "Plate stock length", "As it is sold; 16 ft is usual.").is(16*foot, practice).from(2*foot, 200*foot).trade(8*foot, 24*foot, practice),
	inches("stud", "Stud spacing", "Bolts keep clear of studs; 16 in is usual.").
		is(16*inch, practice).from(6*inch, 10*foot).trade(12*inch, 4*foot, practice).zero("not looked at"),
	inches("shift", "Off a stud by, at most", "A bolt under a stud is moved by this at most.").is(3*inch, practice).from(0, 2*foot).trade(0, 8*inch, practice),
)
