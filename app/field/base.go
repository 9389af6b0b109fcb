package field

var baseRows = rows("spec.base",
	part("", "Under the slab", "What lies under it."),
	choice("under", "Base and foam lie", "Under what is thickened too, following the dug shape; or under the field only, so that what is thickened stands on the ground (IRC R403.1: undisturbed soil or engineered fill).",
		"field and haunches: under field and haunches", "field: under the field only"),
	choice("building", "Building on it", "A free-standing accessory building of light frame, eaves at most 10 ft and at most 600 ft², needs no frost depth (IRC R403.1.4.1, exception 1); whether it needs the 12 in of R403.1.4 the building department says.",
		"unstated: not stated", "accessory: free-standing accessory", "other", "heated: heated; no garage, no carport"),
	inches("above", "Top above ground", "The lowest top of the slab above the ground that is there, for the digging; negative where it lies below.").
		is(6*inch, "IRC R404.1.6, from memory: concrete stands 6 in above grade").from(-10*foot, 10*foot).trade(-3*foot, 3*foot, practice),
	inches("gravel", "Gravel", "Compacted depth; 4 in is usual.").
		is(4*inch, "IRC R506.2.2").from(0, 10*foot).trade(2*inch, 2*foot, "IRC R506.2.1: fill of clean sand or gravel at most 24 in").zero("none"),
	number("compaction", "Compaction factor", "Loose over compacted volume; 1.15 to 1.25.").
		is(1.2, practice).from(1, 3).trade(1.05, 1.4, practice).when("gravel"),
	row(Density, "density", "Gravel weighs", "Short tons in a loose cubic yard, in jobs of either unit; about 1.4.").
		is(1.4, practice).inSI(1.391, "Tons in a loose cubic meter; about 1.65.").from(0.1, 5).trade(1, 2, practice).when("gravel"),
	inches("foam", "Foam thickness", "Under the slab; 1 to 4 in.").from(0, 2*foot).trade(inch/2, 8*inch, practice).zero("none"),
	feet("foamwidth", "Foam sheet, width", "As it is sold; 4 ft.").is(4*foot, practice).from(6*inch, 100*foot).trade(2*foot, 8*foot, practice).when("foam"),
	feet("foamlength", "Foam sheet, length", "As it is sold; 8 ft.").is(8*foot, practice).from(6*inch, 1000*foot).trade(2*foot, 20*foot, practice).when("foam"),
	row(Mil, "retarder", "Vapor retarder", "Thickness of the sheeting; 10 mil. Not asked under garages and unheated accessory slabs (IRC R506.2.3).").
		is(10, "IRC R506.2.3, 2021").inSI(10, "Thickness of the sheeting; 0.25 mm. Not asked under garages and unheated accessory slabs (IRC R506.2.3).").
		from(0, 1000).trade(10, 20, "IRC R506.2.3: 10 mil in 2021, 6 in older editions").tradeSI("IRC R506.2.3: 0.25 mm in 2021, 0.15 mm in older editions").zero("none"),
	inches("lap", "Retarder lap", "Of sheets side by side; at least 6 in.").
		is(6*inch, "IRC R506.2.3").from(0, 10*foot).trade(6*inch, 2*foot, "IRC R506.2.3: at least 6 in").when("retarder"),
	inches("turnup", "Retarder turn-up", "At the edges.").is(6*inch, practice).from(0, 10*foot).trade(0, 2*foot, practice).when("retarder"),
	feet("rollwidth", "Retarder roll, width", "As it is sold.").is(20*foot, practice).from(0, 200*foot).
		trade(3*foot, 60*foot, practice).atLeast("lap", inch).when("retarder"),
	feet("rolllength", "Retarder roll, length", "As it is sold.").is(100*foot, practice).from(0, 10000*foot).
		trade(20*foot, 500*foot, practice).atLeast("lap", inch).when("retarder"),
)
