package field

var dowelRows = rows("spec.place.dowels",
	part("", "Dowels", "Bars that hold the new slab to the one that is there."),
	bar("size", "Bar number", "No. 4 is usual.").is(4, practice).zero("no dowels"),
	choice("kind", "What they do", "Tied, deformed and held at both ends, they keep the joint level and shut; sliding, smooth with the half in the new slab sleeved or greased, they keep it level and let it open (ACI 302.1R; UFC 3-320-06A).",
		"tied", "sliding").when("size"),
	inches("length", "Length", "Over all; 12 to 18 in.").is(16*inch, practice).from(2*inch, 10*foot).trade(10*inch, 3*foot, practice).when("size"),
	inches("embed", "In the old slab", "Half the length is usual; the depth of the hole is by the adhesive's maker.").
		is(8*inch, practice).from(inch, 10*foot).trade(4*inch, 18*inch, practice).atMost("length", 0).when("size"),
	inches("spacing", "Spacing, at most", "12 to 24 in.").is(18*inch, practice).from(2*inch, 20*foot).trade(8*inch, 3*foot, practice).when("size"),
	inches("end", "Clear of the ends", "First and last from the joint's ends; clear of corners.").is(6*inch, practice).from(0, 20*foot).trade(3*inch, 2*foot, practice).when("size"),
	check("cleardoors", "None in a door opening", "Doors in the joint are kept free of dowels.").when("size"),
	inches("oldslab", "Old slab, thickness", "Dowels are set at the middle of the thinner slab.").
		is(4*inch, practice).from(inch, 10*foot).trade(3.5*inch, 12*inch, practice).when("size"),
	inches("clearance", "Hole over bar", "How much wider the hole is than the bar; 1/8 in, by the adhesive's maker.").
		is(inch/8, practice).from(0, 2*inch).trade(inch/16, inch/4, practice).when("size"),
	percent("waste", "Adhesive waste", "Over the volume of the holes.").is(20, practice).from(0, 500).trade(5, 50, practice).when("size"),
)
