package field

var dowelRows = rows("spec.place.dowels",
	part("", "Dowels", "Bars or plates that hold the new slab to the one that is there."),
	bar("size", "Bar size", "No. 4 is usual; plates have a size of their own.").is(4, practice).inSI("12 mm", "12 mm is usual; plates have a size of their own.").zero("no dowels"),
	choice("kind", "What they do", "Tied, deformed and held at both ends, they keep the joint level and shut; sliding, smooth with the half in the new slab sleeved or greased, they keep it level and let it open (ACI 302.1R; UFC 3-320-06A). Plates, flat in slots of the old slab and sleeved in the new one, let it also move along (ACI 360R).",
		"tied", "sliding", "plates").when("size"),
	inches("length", "Length", "Over all; 12 to 18 in.").is(16*inch, practice).from(2*inch, 10*foot).trade(10*inch, 3*foot, practice).unless("kind", "plates").when("size"),
	inches("embed", "In the old slab", "Half the length is usual; the depth of the hole is by the adhesive's maker.").
		is(8*inch, practice).from(inch, 10*foot).trade(4*inch, 18*inch, practice).atMost("length", 0).unless("kind", "plates").when("size"),
	inches("spacing", "Spacing, at most", "12 to 24 in.").is(18*inch, practice).from(2*inch, 20*foot).trade(8*inch, 3*foot, practice).unless("kind", "plates").when("size"),
	inches("thickness", "Plate thickness", "3/8 in in slabs to 6 in, 1/2 in to 8 in, 3/4 in to 11 in.").is(3*inch/8, plateSource).inSI(10e6, "10 mm in slabs to 150 mm, 12 mm to 200 mm, 20 mm to 280 mm.").from(inch/8, 2*inch).trade(inch/4, 3*inch/4, plateSource).when("kind", "plates").when("size"),
	inches("width", "Plate width", "Along the joint.").is(2*inch, plateSource).from(inch, foot).trade(1.5*inch, 6*inch, plateSource).when("kind", "plates").when("size"),
	inches("platelength", "Plate length", "Over all, across the joint.").is(12*inch, plateSource).from(2*inch, 4*foot).trade(8*inch, 18*inch, plateSource).when("kind", "plates").when("size"),
	inches("plateembed", "Plate in the old slab", "Half the length is usual; the slot is sawn so deep into it.").
		is(6*inch, plateSource).from(inch, 4*foot).trade(4*inch, 9*inch, plateSource).atMost("platelength", 0).when("kind", "plates").when("size"),
	inches("platespacing", "Plate spacing, at most", "18 to 24 in.").is(18*inch, practice).from(6*inch, 20*foot).trade(12*inch, 24*inch, practice).when("kind", "plates").when("size"),
	inches("end", "Clear of the ends", "First and last from the joint's ends; clear of corners.").is(6*inch, practice).from(0, 20*foot).trade(3*inch, 2*foot, practice).when("size"),
	check("cleardoors", "None in a door opening", "Doors in the joint are kept free of dowels.").when("size"),
	inches("oldslab", "Old slab, thickness", "Dowels are set at the middle of the thinner slab.").
		is(4*inch, practice).from(inch, 10*foot).trade(3.5*inch, 12*inch, practice).when("size"),
	inches("clearance", "Hole over dowel", "How much wider the hole or slot is than the dowel; 1/8 in, by the adhesive's maker.").
		is(inch/8, practice).from(0, 2*inch).trade(inch/16, inch/4, practice).when("size"),
	percent("waste", "Adhesive waste", "Over the volume of the holes or slots.").is(20, practice).from(0, 500).trade(5, 50, practice).when("size"),
)

// plateSource is where usual sizes of plate dowels come from.
const plateSource = "ACI 360R, table of rectangular plate dowels, from memory"
