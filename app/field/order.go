package field

var orderRows = rows("spec.order",
	part("", "Ordering", "How concrete is bought."),
	percent("waste", "Waste", "Added for spill and uneven ground; 5 to 10 % on slabs on ground.").
		is(5, practice).from(0, 100).trade(2, 15, "NRMCA CIP 8: plan 4 to 10 % over"),
	row(Volume, "step", "Plant's step", "The plant sells whole multiples of this; a quarter or a half yard.").
		is(0.25, practice).inSI(0.25, "The plant sells whole multiples of this; a quarter or a half m³.").from(0.001, 100).trade(0.05, 1, practice),
	row(Volume, "truck", "Truck carries", "What one truck brings; about 10 yd³.").
		is(10, practice).inSI(8, "What one truck brings; about 8 m³.").from(0.1, 100).trade(3, 12, practice),
	choice("loads", "Loads", "As equal as the plant's step allows, or each truck full and the rest last.", "balanced", "full: full, the rest last"),
)
